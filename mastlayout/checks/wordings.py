"""The words of each rule's findings: what it asks, what it says, what helps."""

from collections.abc import Mapping

from mastlayout.checks.aloft_wordings import ALOFT
from mastlayout.checks.fastening_wordings import FASTENING
from mastlayout.checks.hole_wordings import OF_HOLES
from mastlayout.checks.light_wordings import LIGHTS
from mastlayout.checks.line_wordings import LINES
from mastlayout.checks.main_wordings import MAIN
from mastlayout.checks.pole_wordings import POLES
from mastlayout.checks.published import beside
from mastlayout.checks.radar_wordings import RADAR
from mastlayout.checks.wording import Wording
from mastlayout.words import _

# A word more on what helps, where it holds for some findings of a code only.
HINTS: Mapping[str, str] = {
    "spreader": _("A spreader close by may hold the cloth off: see it on the water."),
    "slot-through": _("Its entry opens the conduit: drill on into it, with a stop."),
    "slot-outside": _(
        "The conduit lies elsewhere: slot it on the bench before it goes in, or through a cut-out."
    ),
}


def hint_words(key: str) -> str:
    """Return a word more on what helps, or what is published beside the program's own limit."""
    return HINTS[key] if key in HINTS else beside(key)


# By code; ``deep`` is said where the measured value is negative.
WORDINGS: Mapping[str, Wording] = {
    **LINES,
    **FASTENING,
    **MAIN,
    **POLES,
    **LIGHTS,
    **OF_HOLES,
    **RADAR,
    **ALOFT,
    "clearance/stay": Wording(
        _("clearance to stays"),
        _("{a}: {m} from {b}, {r} is needed"),
        _("{a}: stands {m} into {b}"),
        _("Move it along or round the mast, or choose a slimmer part."),
        brief=_("near {b}"),
        brief_deep=_("stands into {b}"),
    ),
    "clearance/slack": Wording(
        _("clearance to stays"),
        _("{a}: {b}, {s}, comes within {m}, {r} is wanted"),
        _("{a}: {b}, {s}, comes {m} past where it stands"),
        _("Move it along or round the mast, out of the way of the slack wire, or choose a slimmer part."),
        brief=_("near slack {b}"),
        brief_deep=_("meets slack {b}"),
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
    "tack/bears": Wording(
        _("clearance to headsails on the tack"),
        "",
        _("{a}: {b} ({s}) bears on it: it stands {m} beyond what holds the cloth off"),
        _("Move it behind what holds the cloth, bring it nearer the mast, or stand a guard before it."),
        brief_deep=_("{b} bears on it"),
    ),
    "tack/whips": Wording(
        _("clearance to headsails on the tack"),
        "",
        _("{a}: the loose leech of {b} ({s}) whips it, {m} deep"),
        _("Bring it nearer the mast, round its edges, or stand a guard before it; see it on the water."),
        brief_deep=_("{b} whips it"),
    ),
    "tack/guarded": Wording(
        _("clearance to headsails on the tack"),
        "",
        _("{a}: {b} ({s}) bears on its guard, {m} beyond what else holds the cloth"),
        _("Patch the sail there. The guard wants its own fasteners and lanyard: look at them each year."),
        brief_deep=_("{b} on its guard"),
    ),
    "tack/presses": Wording(
        _("clearance to headsails on the tack"),
        "",
        _("{a}: bellied between what holds it, {b} ({s}) presses on it, {m} deep"),
        _("Round its edges, or bring it as much nearer the mast; patch the sail there."),
        brief_deep=_("{b} presses on it"),
    ),
    "tack/gear": Wording(
        _("clearance to headsails on the tack"),
        "",
        _("{a}: {b} ({s}) bears on it: it stands {m} beyond what else holds the cloth off"),
        _("It works where it is: patch the sail there, and cover or tape its edges."),
        brief_deep=_("{b} bears on it"),
    ),
    "tack/rubs": Wording(
        _("clearance to headsails on the tack"),
        "",
        _("{a}: {b} ({s}) rubs on it, {m} proud of what else holds the cloth off"),
        _("Patch the sail there, and keep its edges round."),
        brief_deep=_("{b} rubs on it"),
    ),
    "tack/near": Wording(
        _("clearance to headsails on the tack"),
        _("{a}: {b} ({s}) comes within {m}, {r} is wanted"),
        _("{a}: {b} ({s}) comes within nothing of it, {r} is wanted"),
        _("Sails and tapes are not that exact: see it on the water."),
        brief=_("{b} comes near"),
        brief_deep=_("{b} comes near"),
    ),
    "clew/hooks": Wording(
        _("clew and sheets"),
        "",
        _("{a}: a sheet can hook here: {b} ({s}) comes {m} past it"),
        _("It works where it is: tie a light line across it that keeps the bights off, and watch a tack."),
        brief_deep=_("a sheet can hook here"),
    ),
    "clew/tears": Wording(
        _("clew and sheets"),
        "",
        _("{a}: a sheet can hook here and tear it off: {b} ({s}) comes {m} past it"),
        _("Move it up, out of the way of clew and sheets."),
        brief_deep=_("a sheet can tear it off"),
    ),
    "clew/strikes": Wording(
        _("clew and sheets"),
        "",
        _("{a}: the clew's ring and knots can strike it: {b} ({s}) comes {m} past it"),
        _("Move it up, out of their way, or choose one with a guard of its own."),
        brief_deep=_("the clew can strike it"),
    ),
    "clew/knocks": Wording(
        _("clew and sheets"),
        "",
        _("{a}: clew and sheets of {b} ({s}) come past it, {m} deep"),
        _("Keep its edges round; tape what could catch a thread."),
        brief_deep=_("the clew comes past"),
    ),
    "clew/known": Wording(_("clew and sheets"), "", "", ""),
    "sail/foot": Wording(
        _("clew and sheets"),
        _("{a}: its foot and its LP, tack and clew differ by {m}, {r} is allowed"),
        "",
        _("Measure the foot from tack to clew again, and LP with it."),
        brief=_("foot unlike LP and corners"),
    ),
    "sail/head-high": Wording(
        _("sail clearance"),
        _("{a}: its head is {m} above the masthead"),
        "",
        _("Measure the height of the head again, from the masthead down."),
        brief=_("head above the masthead"),
    ),
    "sail/head-low": Wording(
        _("sail clearance"),
        _("{a}: its head is {m} below its clew"),
        "",
        _("Measure the heights of head and clew again, both from the masthead down."),
        brief=_("head below the clew"),
    ),
    "sail/head-tack": Wording(
        _("sail clearance"),
        _("{a}: its head is {m} below its tack"),
        "",
        _("Measure the heights of head and tack again, both from the masthead down."),
        brief=_("head below the tack"),
    ),
    "sail/boom-low": Wording(
        _("sail clearance"),
        _("{a}: its lower mark is {m} below the deck"),
        "",
        _("Measure the lower mark again, from the masthead down."),
        brief=_("lower mark below the deck"),
    ),
    "sail/reef-high": Wording(
        _("sail clearance"),
        _("{a}: the head of {s} is {m} above that of the full sail"),
        "",
        _("Measure the height of its head in that reef again, from the masthead down."),
        brief=_("reef above the full sail"),
    ),
    "sail/reef-low": Wording(
        _("sail clearance"),
        _("{a}: the head of {s} is {m} below its clew"),
        "",
        _("Measure the heights of head and clew in that reef again, both from the masthead down."),
        brief=_("reef’s head below its clew"),
    ),
    "sail/reef-long": Wording(
        _("sail clearance"),
        _("{a}: LP of {s}, {m}, is longer than that of the full sail, {r}"),
        "",
        _("Measure LP in that reef again."),
        brief=_("reef’s LP longer than the full sail’s"),
    ),
    "sail/lp-long": Wording(
        _("sail clearance"),
        _("{a}: its LP, {m}, is longer than its luff, {r}"),
        "",
        _("Measure both again: LP runs from the clew square to the luff."),
        brief=_("LP longer than the luff"),
    ),
    "sail/widths-grow": Wording(
        _("sail clearance"),
        _("{a}: a width of {m} stands above one of {r}"),
        "",
        _("Widths grow smaller upwards: measure them again, and LP or E with them."),
        brief=_("widths that grow upwards"),
    ),
    "sail/off-stay": Wording(
        _("sail clearance"),
        _("{a}: a corner of its luff is {m} beyond the end of {b}"),
        "",
        _("Measure the heights of tack and head again, or hang it on another stay."),
        brief=_("luff beyond the end of {b}"),
    ),
    "sail/luff": Wording(
        _("sail clearance"),
        _("{a}: its luff and its corners on {b} differ by {m}, {r} is allowed"),
        "",
        _("Measure the luff, tack and head again."),
        brief=_("luff unlike its corners"),
    ),
    "sail/clew-low": Wording(
        _("sail clearance"),
        _("{a}: its clew is {m} below the deck"),
        "",
        _("Measure the height of the clew again, the sail sheeted in."),
        brief=_("clew below the deck"),
    ),
    "sail/free-luff": Wording(
        _("sail clearance"),
        _("{a}: its cloth flies on a free luff"),
        "",
        _("Nobody can say where that swings: see on the water what it meets, set and furled."),
        brief=_("free luff"),
    ),
    "sail/prebend": Wording(_("sail clearance"), "", "", ""),
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
        _("Move the entry level with a slot, or plan a new slot there."),
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
    "rig/no-length": Wording(
        _("the stay's length against its pins"),
        _("{a}: both its ends, or an end and a spreader’s tip, are at one point: it has no length"),
        "",
        _("Measure the places of both its ends again."),
        brief=_("no length"),
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
}
