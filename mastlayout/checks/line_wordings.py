"""The words of the rules about halyards and other running lines."""

from collections.abc import Mapping

from mastlayout.checks.wording import Wording
from mastlayout.words import _

# By code; ``deep`` is said where the measured value is negative.
LINES: Mapping[str, Wording] = {
    "line/near": Wording(
        _("clearance to running lines"),
        _("{a}: {b}, taut, {s}, passes {m} from it, {r} is wanted"),
        "",
        _("See it rigged; move one of the two, or fair the line."),
        brief=_("near {b}"),
    ),
    "line/rubs": Wording(
        _("clearance to running lines"),
        "",
        _("{a}: {b}, taut, {s}, rubs on it, {m} deep"),
        _("Lines are led to it: keep its edges round, or stagger the two more round the mast."),
        brief_deep=_("{b} rubs on it"),
    ),
    "line/hooks": Wording(
        _("clearance to running lines"),
        _("{a}: a line can hook here: {b}, {s}, comes to it with {m} of slack, {r} is reckoned with"),
        "",
        _("Tie the line away from it, or a light line across it that keeps the bights off."),
        brief=_("a line can hook here"),
    ),
    "line/chafes": Wording(
        _("clearance to running lines"),
        "",
        _("{a}: {b}, taut, {s}, chafes on it, {m} deep"),
        _("Move it out of the line’s way, or give the line a fair lead past it."),
        brief_deep=_("{b} chafes on it"),
    ),
    "line/bears": Wording(
        _("clearance to running lines"),
        "",
        _("{a}: {b}, taut, {s}, bears on it, {m} deep"),
        _("Move it out of the line’s way: it chafes the line, and is torn off."),
        brief_deep=_("{b} bears on it"),
    ),
    "line/wraps": Wording(
        _("running lines round spreader tips"),
        _("{a}: {b}, {s}, gets round its tip with {m} of slack, {r} is reckoned with"),
        "",
        _("Take up its slack before each gybe: a line round a spreader has torn it off."),
        brief=_("line round it"),
    ),
    "line/spreader": Wording(
        _("running lines against spreaders"),
        "",
        _("{a}: {b}, taut, {s}, bears on it, {m} deep"),
        _("Make the line fast ahead or abaft of the spreader, or pad the spreader there."),
        brief_deep=_("{b} bears on it"),
    ),
    "line/furled": Wording(
        _("running lines beside furled sails"),
        _("{a}: {s}, it passes {m} from the rolled {b}, {r} is wanted: as it furls it winds the line in"),
        _("{a}: {s}, it leads through the rolled {b}, {m} deep: as it furls it winds the line in"),
        _("Tie it off away from the furler: at the mast, or out on the rail."),
        brief=_("{b} winds it in"),
        brief_deep=_("{b} winds it in"),
    ),
    "line/known": Wording(_("clearance to running lines"), "", "", ""),
    "halyard/swivel": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: {m} to its stay at the swivel, {r} is wanted: it winds round the foil"),
        "",
        _("Fit a restrainer below the sheave, or a strop that brings the swivel to the foil's top."),
        brief=_("angle at the swivel"),
    ),
    "halyard/limits": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: the least angle its furler wants, {m}, is more than the most, {r}"),
        "",
        _("Read the furler’s manual again."),
        brief=_("furler’s limits crossed"),
    ),
    "halyard/drawn": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: as drawn {m} to its stay at the swivel, {r} is wanted: it winds round the foil"),
        _("{a}: as drawn it leads {m} ahead of its stay, {r} abaft is wanted: it winds round the foil"),
        _("Fit a restrainer below the sheave, or a strop that brings the swivel to the foil's top."),
        brief=_("along its stay"),
        brief_deep=_("along its stay"),
    ),
    "halyard/wide": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: {m} to its stay at the swivel, at most {r} is wanted: it pulls the swivel askew"),
        "",
        _("Set the restrainer nearer the sheave, or lengthen the strop below the swivel."),
        brief=_("angle at the swivel"),
    ),
    "inside/crosses": Wording(
        _("halyards crossing inside"),
        _("{a}: passes {m} from {b} inside, {r} is wanted: they rub where they cross"),
        _("{a}: crosses {b} inside: they rub there"),
        _("Lead one to an exit on the other side, or expect chafe there; look at both each year."),
        brief=_("crosses {b} inside"),
        brief_deep=_("crosses {b} inside"),
    ),
    "inside/bolt": Wording(
        _("halyards against bolts inside"),
        _("{a}: inside, its bolt stands {m} from {b}, {r} is wanted"),
        _("{a}: inside, its bolt stands {m} deep in the way of {b}"),
        _("Stand the bolt in a smooth compression tube, and see on which side of it the halyard hangs."),
        brief=_("halyard near its bolt"),
        brief_deep=_("halyard on its bolt"),
    ),
    "inside/screw": Wording(
        _("halyards against the ends of screws"),
        _("{a}: inside, the end of its screw stands {m} from {b}, {r} is wanted"),
        _("{a}: inside, the end of its screw stands {m} deep in the way of {b}"),
        _("Shorten the screw until its end is flush inside, or set a rivet in its place."),
        brief=_("halyard near its screw"),
        brief_deep=_("halyard on its screw"),
    ),
    "inside/conduit": Wording(
        _("halyards against conduits"),
        _("{a}: passes {m} from {b} inside, {r} is wanted"),
        _("{a}: lies against {b} inside, {m} deep: it saws into it"),
        _("Turn the conduit out of its way, or lead the halyard to another exit."),
        brief=_("passes {b} inside"),
        brief_deep=_("lies against {b} inside"),
    ),
    "inside/sleeve": Wording(
        _("halyards against inner sleeves"),
        _("{a}: passes {m} from the edge of the inner sleeve, {r} is wanted"),
        _("{a}: runs over the edge of the inner sleeve, {m} deep"),
        _("Round and polish the sleeve’s edge; look there with a camera."),
        brief=_("near the sleeve’s edge"),
        brief_deep=_("over the sleeve’s edge"),
    ),
    "inside/known": Wording(_("what halyards meet inside"), "", "", ""),
}
