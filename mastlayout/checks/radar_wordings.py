"""The words of the findings about reflectors and the yacht's own radar."""

from collections.abc import Mapping

from mastlayout.checks.wording import PRACTICE, Wording
from mastlayout.words import _

_REFLECTOR, _RADAR = _("radar reflector"), _("own radar")

RADAR: Mapping[str, Wording] = {
    "reflector/hidden": Wording(
        _("what hides the reflector"),
        _("{a}: {b} hides it over {m}, {r} is allowed: {s}"),
        "",
        _("Stand it farther off, or look out there yourself: a ship in that arc gets no echo."),
        brief=_("hidden by {b}"),
        rule="MSC.164(78), annex 3.2",
    ),
    "reflector/height": Wording(
        _("height of the reflector"),
        _("{a}: its middle is {m} above the water, {r} is asked"),
        _("{a}: its middle is {m} below the water"),
        _("Fit it higher. No reflector is a promise of being seen."),
        brief=_("too low over the water"),
        rule="MSC.164(78), annex 3.1",
    ),
    "reflector/echo_x": Wording(
        _REFLECTOR,
        _("{a}: sends back {m} at most in X band, {r} is asked"),
        "",
        _("Fit a larger one, the largest she can carry. No reflector is a promise of being seen."),
        brief=_("sends back too little"),
        rule="MSC.164(78), annex 3.1",
    ),
    "reflector/echo_s": Wording(
        _REFLECTOR,
        _("{a}: sends back {m} at most in S band, {r} is asked"),
        "",
        _("Fit a larger one: large ships look out in S band, and small corners hardly answer there."),
        brief=_("sends back too little in S band"),
        rule="MSC.164(78), annex 3.1",
    ),
    "reflector/arc": Wording(
        _REFLECTOR,
        _("{a}: keeps its echo over {m} in all, {r} is asked"),
        "",
        _("Stand it clear of the mast, or choose one that serves more of the circle."),
        brief=_("serves too little of the circle"),
        rule="MSC.164(78), annex 3.2",
    ),
    "reflector/null": Wording(
        _REFLECTOR,
        _("{a}: its widest null is {m}, {r} is allowed"),
        "",
        _("Stand it clear of the mast, or choose one without such a null."),
        brief=_("a null too wide"),
        rule="MSC.164(78), annex 3.2",
    ),
    "reflector/apart": Wording(
        _REFLECTOR,
        _("{a}: its nulls lie {m} apart, {r} is asked"),
        "",
        _("Choose one whose nulls lie farther apart."),
        brief=_("nulls too near each other"),
        rule="MSC.164(78), annex 3.2",
    ),
    "reflector/heel": Wording(
        _REFLECTOR,
        _("{a}: its echo is stated to a heel of {m}, {r} is asked"),
        "",
        _("Choose one stated to the heel she sails at, or hang it so that it stays upright."),
        brief=_("not stated to her heel"),
        rule="MSC.164(78), annex 3.3",
    ),
    "reflector/stack": Wording(
        _REFLECTOR,
        _("{a}: a stack this tall sends next to nothing back at a heel of {r}"),
        "",
        _("Hang it so that it stays upright, or choose one whose corners are not stacked."),
        brief=_("fails at her heel"),
        rule="MSC.164(78), annex 3.3",
    ),
    "radar/dimmed": Wording(
        _RADAR,
        _("{a}: {b} stands before a part of it over {m}: {s}"),
        "",
        _("Echoes are weaker there: know the sector, and turn to look into it."),
        brief=_("{b} before a part of it"),
        rule="IMO SN.1/Circ.271, for ships",
    ),
    "radar/hidden": Wording(
        _RADAR,
        _("{a}: {b} stands before all of it over {m}, {r} is allowed: {s}"),
        "",
        _("Stand it farther off: it sees nothing there, and shows echoes where there are none."),
        brief=_("hidden by {b}"),
        rule="IMO SN.1/Circ.271, for ships",
    ),
    "radar/ahead": Wording(
        _RADAR,
        _("{a}: {b} stands before it over {m} forward of 22.5° abaft the beam: {s}"),
        "",
        _("Move one of the two: it is where she is going that the radar must see."),
        brief=_("{b} before it, forward"),
        rule="IMO SN.1/Circ.271, for ships",
    ),
    "radar/lit": Wording(
        _("what the radar's beam meets"),
        _("{a}: {b} stands in its beam, {m} off: {s}"),
        "",
        _("Ask its maker whether it stands that, or lift one of the two out of the beam."),
        brief=_("{b} in its beam"),
        rule=PRACTICE,
    ),
    "radar/receiver": Wording(
        _("what the radar's beam meets"),
        _("{a}: {b} stands in its beam, {m} off, {r} is wanted: {s}"),
        "",
        _("Move one of the two: the beam deafens a receiver, and may burn it out."),
        brief=_("{b} in its beam"),
        rule="IMO SN/Circ.227, 2.2.1, for ships",
    ),
    "radar/sails": Wording(
        _("sails in the radar's beam"),
        _("{a}: its beam goes through sails: {s}"),
        "",
        _("So it is on every yacht. Wet or carbon cloth weakens echoes there: bear off at times to look."),
        brief=_("sails in its beam"),
        rule=PRACTICE,
    ),
    "radar/heel": Wording(
        _("radar when she heels"),
        _("{a}: heeled {m} the sea to windward is out of its beam, {r} is half of it"),
        "",
        _("Hang it so that it stays upright, or bear off and look."),
        brief=_("blind to windward when heeled"),
        rule=PRACTICE,
    ),
}
