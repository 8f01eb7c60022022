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
        "",
        _("{a}: a line can hook here: {b}, slack, {s}, reaches {m} past it"),
        _("Tie the line away from it, or a light line across it that keeps the bights off."),
        brief_deep=_("a line can hook here"),
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
        _("clearance to running lines"),
        "",
        _("{a}: {b}, slack, {s}, can get round its tip: it reaches {m} past it"),
        _("Take up its slack before each gybe; a line round a spreader has torn it off."),
        brief_deep=_("{b} can get round its tip"),
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
        brief=_("halyard’s angle at the swivel"),
    ),
    "halyard/drawn": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: as drawn {m} to its stay at the swivel, {r} is wanted: it winds round the foil"),
        _("{a}: as drawn it leads {m} ahead of its stay, {r} abaft is wanted: it winds round the foil"),
        _("Fit a restrainer below the sheave, or a strop that brings the swivel to the foil's top."),
        brief=_("halyard along its stay"),
        brief_deep=_("halyard along its stay"),
    ),
    "halyard/wide": Wording(
        _("the halyard's angle at the swivel"),
        _("{a}: {m} to its stay at the swivel, at most {r} is wanted: it pulls the swivel askew"),
        "",
        _("Set the restrainer nearer the sheave, or lengthen the strop below the swivel."),
        brief=_("halyard’s angle at the swivel"),
    ),
}
