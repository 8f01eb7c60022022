"""The words of what is found about air draught, weight aloft, antennas and sound."""

from collections.abc import Mapping

from mastlayout.checks.wording import PRACTICE, Wording
from mastlayout.words import _

_BEFORE = _("what stands before a horn")

ALOFT: Mapping[str, Wording] = {
    "air/bridge": Wording(
        _("air draught"),
        _("{a}: {m} under the lowest bridge she passes ({s}), {r} is wanted"),
        _("{a}: stands {m} higher than the lowest bridge she passes ({s})"),
        _("Bring it lower, or pass at another tide or another bridge. Measure water and bridge again first."),
        brief=_("near the lowest bridge"),
        brief_deep=_("strikes the lowest bridge"),
        rule=PRACTICE,
    ),
    "air/whips": Wording(
        _("air draught"),
        "",
        _("{a}: its whip stands {m} higher than the lowest bridge she passes ({s})"),
        _("It bends or breaks there: lower or unscrew it before she passes."),
        brief_deep=_("whip strikes the bridge"),
        rule=PRACTICE,
    ),
    "air/higher": Wording(
        _("air draught"),
        _("{a}: stands {m} higher than all that stays: her air draught grows by that"),
        "",
        _("Write the new air draught beside the chart table, and tell the crane."),
        brief=_("makes her taller"),
        rule=PRACTICE,
    ),
    "antenna/near": Wording(
        _("antennas"),
        _("{a}: {m} from {b}, {r} is wanted: when one sends the other is deaf"),
        "",
        _("Stand one of them lower or elsewhere. Rules differ: “mastlayout ranges” lists which is met."),
        brief=_("near {b}"),
        rule=PRACTICE,
    ),
    "cable/loss": Wording(
        _("power at the antenna"),
        _("{a}: {m} is lost on the way to {b}, {r} is allowed: less than half of the power arrives"),
        "",
        _("Pull a thicker cable while the mast lies, with fewer joints."),
        brief=_("loses too much"),
        rule=PRACTICE,
    ),
    "cable/volts": Wording(
        _("voltage at the lights"),
        _("{a}: {m} of the voltage is lost on the way to {b} and back, {r} is allowed"),
        "",
        _("Pull a cable with more copper while the mast lies: at less voltage a light is not seen so far."),
        brief=_("loses too much voltage"),
        rule="ABYC E-11, 11.14",
    ),
    "sound/level": Wording(
        _("sound signals"),
        _("{a}: {m} at 1 m, a whistle of her length needs {r} at its tone"),
        "",
        _("Where another whistle meets it this one may stay; else choose one tested for her length class."),
        brief=_("too quiet for a whistle"),
        rule="COLREG Rule 33 and Annex III, 1(c)",
    ),
    "sound/axis": Wording(
        _("sound signals"),
        _("{a}: her only whistle points {m} off straight ahead, {r} is allowed"),
        "",
        _("Turn it ahead."),
        brief=_("does not point ahead"),
        rule="COLREG Annex III, 1(e)",
    ),
    "sound/ears": Wording(
        _("sound signals"),
        _("{a}: {m} {s}, no more than {r} is allowed there"),
        "",
        _("Mount it higher or farther off. Nobody stands before its mouth while it can sound."),
        brief=_("too loud where people stand"),
        rule="COLREG Annex III, 1(e)",
    ),
    "sound/loud": Wording(
        _("sound signals"),
        _("{a}: {m} {s}, {r} should not be passed there"),
        "",
        _("As high as practicable. Whoever stands there covers the ears before it sounds."),
        brief=_("loud where people stand"),
        rule="COLREG Annex III, 1(e)",
    ),
    "sound/before": Wording(
        _BEFORE,
        _("{a}: {b} stands before its mouth over {m} of the 90°: {s}"),
        "",
        _("At its tone sound bends round a thing that small: leave it where no place is better."),
        brief=_("{b} before it"),
        rule="COLREG Annex III, 1(e)",
    ),
    "sound/covered": Wording(
        _BEFORE,
        _("{a}: {b} stands before its mouth over {m} of the 90°, {r} is allowed: {s}"),
        "",
        _("Move one of the two: ships there hear it late."),
        brief=_("{b} before it"),
        rule="COLREG Annex III, 1(e)",
    ),
    "sound/sails": Wording(
        _BEFORE,
        _("{a}: {b} stands before its mouth on the lee side, over up to {m} of the 90°: {s}"),
        "",
        _("So it is on every yacht: under sail in fog ships to leeward hear it late."),
        brief=_("{b} before it"),
        rule="COLREG Annex III, 1(e)",
    ),
    "sound/compass": Wording(
        _("magnets near the compass"),
        _("{a}: {m} from the steering compass, its plate asks for {r}"),
        "",
        _("Move it away, or swing the compass again with it in place."),
        brief=_("near the compass"),
        rule="ISO 25862, as ISO 694",
    ),
    "weight/aloft": Wording(_("weight aloft"), "", "", "", rule=PRACTICE),
    "strop/crushes": Wording(
        _("balance point"),
        _("{a}: a strop at the balance point would crush it: {m} between them, {r} is wanted"),
        "",
        _("Fit it after lifting, or set the strop above it; never below the balance point."),
        brief=_("at the balance point"),
        rule=PRACTICE,
    ),
}
