"""The words of each rule's findings: what it asks, what it says, what helps."""

from collections.abc import Mapping
from dataclasses import dataclass

from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class Wording:
    """What a rule asks, what its findings say in short, and what helps.

    ``a`` and ``b`` are the subjects, ``m`` the measured value, ``r`` the required one, ``s`` the state
    of what moves in which it is worst. ``brief`` and
    ``brief_deep`` say it without thing and figures, where these stand in places of their own.
    """

    asks: str
    short: str
    deep: str
    helps: str
    brief: str = ""
    brief_deep: str = ""


# By code; ``deep`` is said where the measured value is negative.
WORDINGS: Mapping[str, Wording] = {
    "clearance/stay": Wording(
        _("clearance to stays"),
        _("{a}: {m} from {b}, {r} is needed"),
        _("{a}: stands {m} into {b}"),
        _("Move it along or round the mast, or choose a slimmer part."),
        brief=_("near {b}"),
        brief_deep=_("stands into {b}"),
    ),
    "clearance/spreader": Wording(
        _("clearance to spreaders and struts"),
        _("{a}: {m} from {b}, {r} is needed"),
        _("{a}: stands {m} into {b}"),
        _("Move it along or round the mast."),
        brief=_("near {b}"),
        brief_deep=_("stands into {b}"),
    ),
    "clearance/fitting": Wording(
        _("clearance to fittings"),
        _("{a}: {m} from {b}, {r} is needed"),
        _("{a}: stands {m} into {b}"),
        _("Move one of the two."),
        brief=_("near {b}"),
        brief_deep=_("stands into {b}"),
    ),
    "clearance/room": Wording(
        _("room for a hand or a tool"),
        _("{a}: in the room that {b} needs for a hand or a tool"),
        _("{a}: {m} into the room that {b} needs for a hand or a tool"),
        _("Move one of the two."),
        brief=_("in the room round {b}"),
        brief_deep=_("in the room round {b}"),
    ),
    "seat/unplaced": Wording(_("the fitting itself"), "", "", ""),
    "seat/track": Wording(
        _("the foot against the track"),
        _("{a}: its foot lies over the track"),
        _("{a}: its foot lies {m} over the track"),
        _("Move it round the mast."),
        brief=_("foot over the track"),
        brief_deep=_("foot over the track"),
    ),
    "seat/hollow": Wording(
        _("the foot on the metal"),
        "",
        _("{a}: stands where the tape bridges a hollow of the section"),
        _("Its girth is no place on the metal: move it round the mast."),
        brief_deep=_("over a hollow of the skin"),
    ),
    "seat/girth": Wording(
        _("the foot against the girth"),
        "",
        _("{a}: its foot is {m} wider than the girth there"),
        _("Choose a narrower foot."),
        brief_deep=_("foot wider than the girth"),
    ),
    "seat/misses": Wording(
        _("holes that meet the mast"),
        "",
        _("{a}: drilled square to its foot it passes beside the mast"),
        _("Choose a narrower foot, or one shaped to the skin."),
        brief_deep=_("drill passes the mast"),
    ),
    "hole/spacing": Wording(
        _("hole to hole"),
        _("{a}: {m} from {b}, {r} is needed, centre to centre"),
        "",
        _("Move the foot, turn it, or leave the hole out of the pattern."),
        brief=_("near {b}"),
    ),
    "hole/foot-edge": Wording(
        _("hole to the edge of its foot"),
        _("{a}: {m} from the edge of its foot, {r} is needed"),
        _("{a}: {m} outside its foot"),
        _("Drill the foot anew, or choose a smaller fastener."),
        brief=_("near its foot’s edge"),
        brief_deep=_("outside its foot"),
    ),
    "hole/foot-typical": Wording(_("hole rows"), "", "", ""),
    "hole/inside": Wording(
        _("holes against what runs inside"),
        _("{a}: the drill passes {m} from {b}, {r} is wanted"),
        _("{a}: the drill meets {b}, {m} deep"),
        _("Turn or move the foot, or give it another hole."),
        brief=_("drill passes {b}"),
        brief_deep=_("drill meets {b}"),
    ),
    "hole/wall": Wording(_("thread, grip and depth of holes"), "", "", ""),
    "cable/slot": Wording(
        _("cable entry against the conduit's slot"),
        _("{a}: its cable enters {m} past the nearest slot of {b}"),
        "",
        _("Move the entry level with a slot, or cut a slot before the conduit goes in."),
        brief=_("entry off its slot"),
    ),
    "cable/plug": Wording(
        _("plug against its entry"),
        _("{a}: the plug of {b} is {r} wide, the entry {m}"),
        "",
        _("Fit the plug after the cable is pulled."),
        brief=_("plug too wide"),
    ),
    "cable/fill": Wording(
        _("conduit fill"),
        _("{a}: filled to {m}, at most {r} is wanted"),
        "",
        _("Lead a cable another way, or fit a wider conduit."),
        brief=_("too full"),
    ),
    "rig/length": Wording(
        _("the stay's length against its pins"),
        _("{a}: its measured length and its pins differ by {m}, {r} is allowed"),
        "",
        _("Tape the stay and both pins again."),
        brief=_("length against its pins"),
    ),
    "rig/bisector": Wording(
        _("spreader against its bisector"),
        _("{a}: {m} off the bisector of {b}, {r} is allowed"),
        "",
        _("Set the spreader to halve the angle of its wire, both sides alike."),
        brief=_("off its bisector"),
    ),
    "rig/pair-length": Wording(
        _("port against starboard"),
        _("{a} and {b}: lengths differ by {m}, {r} is allowed"),
        "",
        _("Measure both again."),
        brief=_("length unlike its pair"),
    ),
    "rig/pair-from-masthead": Wording(
        _("port against starboard"),
        _("{a} and {b}: heights differ by {m}, {r} is allowed"),
        "",
        _("Measure both again."),
        brief=_("height unlike its pair"),
    ),
    "rig/pair-rise": Wording(
        _("port against starboard"),
        _("{a} and {b}: rise differs by {m}, {r} is allowed"),
        "",
        _("Set both alike."),
        brief=_("rise unlike its pair"),
    ),
    "rig/pair-sweep": Wording(
        _("port against starboard"),
        _("{a} and {b}: sweep differs by {m}, {r} is allowed"),
        "",
        _("Measure both again."),
        brief=_("sweep unlike its pair"),
    ),
    "rig/pair-stay": Wording(
        _("port against starboard"),
        _("{a} and {b}: lengths differ by {m}, {r} is allowed"),
        "",
        _("Measure both again: one may have been cut to a wrong mark."),
        brief=_("length unlike its pair"),
    ),
    "rig/i": Wording(
        _("I against the rig"),
        _("I and the headsail halyard's bearing differ by {m}, {r} is allowed"),
        "",
        _("Measure I, the sheer and the bearing again."),
        brief=_("I against the halyard’s bearing"),
    ),
    "rig/j": Wording(
        _("J against the rig"),
        _("J and {a} differ by {m}, {r} is allowed"),
        "",
        _("Measure J and the forestay's pin again."),
        brief=_("J against its pin"),
    ),
    "rig/p": Wording(
        _("P against its marks"),
        _("{a}: P and its two marks differ by {m}, {r} is allowed"),
        "",
        _("Measure P and both marks again."),
        brief=_("P against its marks"),
    ),
    "sail/measured": Wording(_("sail clearance"), "", "", ""),
    "halyard/swivel": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: {m} to its stay at the swivel, {r} is wanted"),
        "",
        _("Fit a diverter, or a strop that brings the swivel to the foil's top."),
        brief=_("halyard’s angle at the swivel"),
    ),
}
