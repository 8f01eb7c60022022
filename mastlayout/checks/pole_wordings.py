"""The words of findings about poles, and about sails furled on a free luff."""

from collections.abc import Mapping

from mastlayout.checks.wording import Wording
from mastlayout.words import _

POLES: Mapping[str, Wording] = {
    "pole/strikes": Wording(
        _("clearance to poles"),
        "",
        _("{a}: {b}, {s}, strikes it, {m} deep"),
        _("Move it out of the pole’s way: above, below, or round to the side."),
        brief_deep=_("{b} strikes it"),
    ),
    "pole/knocks": Wording(
        _("clearance to poles"),
        "",
        _("{a}: {b}, {s}, knocks on it, {m} deep"),
        _("It works where it is: see whether the pole is ever carried there, and pad it if so."),
        brief_deep=_("{b} knocks on it"),
    ),
    "pole/presses": Wording(
        _("clearance to poles"),
        "",
        _("{a}: {b}, {s}, lies {m} into it"),
        _("Move it, or stow the pole elsewhere."),
        brief_deep=_("{b} lies into it"),
    ),
    "pole/rests": Wording(
        _("clearance to poles"),
        "",
        _("{a}: {b}, {s}, rests on it, {m} deep"),
        _("Stand the pole’s chocks farther off the mast, or stow it elsewhere."),
        brief_deep=_("{b} rests on it"),
    ),
    "pole/near": Wording(
        _("clearance to poles"),
        _("{a}: {b}, {s}, comes within {m}, {r} is wanted"),
        _("{a}: {b}, {s}, comes within nothing of it, {r} is wanted"),
        _("Poles and tapes are not that exact: carry the pole there and look."),
        brief=_("{b} comes near"),
        brief_deep=_("{b} comes near"),
    ),
    "pole/known": Wording(_("clearance to poles"), "", "", ""),
    "pole/forestay": Wording(
        _("the pole against the forestay"),
        "",
        _("{a}: its end reaches {m} past {b}"),
        _("It passes to either side of it, never across: rig the foreguy, so that it rests on no stay."),
        brief_deep=_("past {b}"),
    ),
    "pole/inner": Wording(
        _("the pole against stays ahead of the mast"),
        "",
        _("{a}: its end hits {b}, which stands {m} within its reach"),
        _("It cannot cross there: take it in and set it anew on the other side in each gybe."),
        brief_deep=_("hits {b}"),
    ),
    "pole/taken-off": Wording(
        _("the pole against stays ahead of the mast"),
        "",
        _("{a}: {b}, when it is rigged, stands {m} within its reach"),
        _("Take the stay off before the pole is set."),
        brief_deep=_("hits {b}"),
    ),
    "pole/shroud": Wording(
        _("how far the pole is squared back"),
        _("{a}: carried back, it lies on {b} from {m} off ahead, {r} is wanted"),
        "",
        _("Carry it no farther back than that, and cover the pole where it would lie on the wire."),
        brief=_("lies on a shroud"),
    ),
    "pole/ring": Wording(
        _("the pole’s ring on the mast"),
        _("{a}: its ring is to run {m} beyond every ring and track on the fore centreline, {r} is allowed"),
        "",
        _("Measure the run again, or move the track or the ring."),
        brief=_("ring beyond its track"),
    ),
    "pole/no-ring": Wording(
        _("the pole’s ring on the mast"),
        _("{a}: not checked: no ring or track stands on the fore centreline for it"),
        "",
        _("Place its ring or its track from the catalogue."),
        brief=_("no ring for it"),
    ),
    "pole/reach": Wording(
        _("the pole’s ring above the deck"),
        _("{a}: its ring comes no lower than {m} above the deck, out of reach of a pole {r} long"),
        "",
        _("Set the ring or the track lower, or choose a longer pole."),
        brief=_("ring out of reach"),
    ),
    "pole/long": Wording(
        _("the pole’s stowage"),
        _("{a}: stowed it takes {r} of mast, {m} is there above the deck"),
        "",
        _("Stow it higher, farther ahead at its foot, or on deck."),
        brief=_("too long to stow"),
    ),
    "pole/chocks": Wording(
        _("the pole’s stowage"),
        _("{a}: its length and the places of its ends on deck differ by {m}, {r} is allowed"),
        "",
        _("Measure the pole and where its ends lie again."),
        brief=_("ends unlike its length"),
    ),
    "pole/lies-on": Wording(
        _("the pole’s stowage"),
        _("{a}: {s}, it lies {m} from {b}, {r} is wanted"),
        _("{a}: {s}, it lies {m} into {b}"),
        _("Shift its chocks, or stow it elsewhere."),
        brief=_("lies near {b}"),
        brief_deep=_("lies on {b}"),
    ),
    "luff/furled": Wording(
        _("clearance to sails furled on a free luff"),
        _("{a}: {b}, {s}, comes within {m}, {r} is needed"),
        _("{a}: {b}, {s}, bears on it, {m} deep"),
        _("Move it, or take the luff’s head or tack farther ahead."),
        brief=_("near furled {b}"),
        brief_deep=_("furled {b} bears on it"),
    ),
    "luff/hoist": Wording(
        _("clearance to sails furled on a free luff"),
        _("{a}: {b}, {s}, comes within {m}, {r} is wanted"),
        _("{a}: {b}, {s}, comes {m} past where it stands"),
        _("Keep the luff tight as it goes up, hoist it with the wind aft, and see it on the water."),
        brief=_("near {b} as it goes up"),
        brief_deep=_("meets {b} as it goes up"),
    ),
    "luff/known": Wording(_("clearance to sails furled on a free luff"), "", "", ""),
}
