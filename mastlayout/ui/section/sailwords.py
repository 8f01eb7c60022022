"""What a sail does at a height, in words: its call-outs, its sentences, and the live distance."""

from collections.abc import Iterator

from mastlayout.checks.sailed import Sailed
from mastlayout.checks.sentence import names_of
from mastlayout.checks.tack import in_words
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.main.drawn import Eased
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.directions import corners
from mastlayout.geometry.tack.drawn import Swept
from mastlayout.geometry.tack.standing import apart
from mastlayout.ui.section.callouts import CallOut
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.sails import arrow_px, luff_px, stand_line, stand_role
from mastlayout.ui.section.words import touched_words
from mastlayout.units import Units, write_length
from mastlayout.words import _

# What a fitting does among sails stays when room is short; whose luff it is goes before what runs inside.
_STAND, _LUFF = 0, 3
_TOUCHES_MM = 0.01


def sail_name(sailed: Sailed) -> str:
    """Call a sail in its state: "Genoa: full, luff sagged"."""
    return _("{sail}: {state}").format(sail=sailed.cloth.sail.name, state=in_words(sailed.cloth))


def sail_callouts(made: Drawing, scene: Scene, units: Units) -> Iterator[CallOut]:
    """Yield the call-outs of the sail that is drawn: its luff, and how what is in hand stands to it."""
    sailed = made.sailed
    if sailed is None:
        return
    at = luff_px(sailed, made.plan)
    if not made.area.contains(at):
        at = arrow_px(sailed, made.plan, made.area)
    yield CallOut("", luff_words(sailed, units), at, _LUFF)
    line = stand_line(made)
    if line is not None and sailed.stand is not None:
        value = write_length(abs(sailed.stand.clear_mm), units)
        value = f"\u2212{value}" if sailed.stand.clear_mm < 0 else value
        middle = (line[0] + line[1]) / 2
        yield CallOut("", stand_words(sailed, scene), middle, _STAND, stand_role(sailed), value)


def luff_words(sailed: Sailed, units: Units) -> str:
    """Return whose luff it is and how far ahead of the mast's axis; a mainsail's is on its track."""
    sail = sailed.cloth.sail.name.replace(" %", "\u00a0%")
    if sailed.is_main:
        return _("luff of {sail}").format(sail=sail)
    ahead = write_length(float(sailed.swept.luff[0]), units).replace(" ", "\u00a0")
    return _("luff of {sail}, {ahead}\u00a0ahead").format(sail=sail, ahead=ahead)


def stand_words(sailed: Sailed, scene: Scene) -> str:
    """Return in a few words how what is in hand stands to the sail at its height."""
    there, sail = sailed.stand, sailed.cloth.sail.name
    if there is None:
        return ""
    if there.clear_mm < 0:
        words = _("{sail} bears on it") if there.bears else _("{sail} whips it")
        if there.presses or (sailed.is_main and not there.bears):
            flogs = sailed.is_main and sailed.cloth.hoisting
            words = _("{sail} flogs against it") if flogs else _("{sail} presses on it")
        finding = sailed.finding
        same = finding is not None and finding.state == in_words(sailed.cloth)
        return touched_words(finding, sail) if finding is not None and same else words.format(sail=sail)
    if sailed.is_main:
        return _("clear of {sail}").format(sail=sail)
    guards = [guard.id for guard in sailed.guards if guard.id in _holders(sailed)]
    if guards and there.behind:
        name = names_of(scene.layout)[guards[0]]
        return _("behind {guard}").format(guard=name)
    return (_("inside what {sail} reaches") if there.behind else _("short of it {sail} ends")).format(
        sail=sail
    )


def elsewhere_words(sailed: Sailed | None, scene: Scene, units: Units) -> str:
    """Say how what is in hand stands to the sail where the picture does not hold it, as on a spreader.

    "Genoa bears on it: -83 at 8140 from the masthead."
    """
    if sailed is None or sailed.stand is None:
        return ""
    if sailed.own_z_mm == sailed.z_mm:
        return ""
    value = write_length(abs(sailed.stand.clear_mm), units)
    value = f"\u2212{value}" if sailed.stand.clear_mm < 0 else value
    at = write_length(height_mm(scene.skin.length_mm, sailed.own_z_mm), units)
    said = _("{words}: {value}, at its own height, {at} from the masthead")
    return said.format(words=stand_words(sailed, scene), value=value, at=at)


def _holders(sailed: Sailed) -> tuple[str, ...]:
    """Return the ids of what holds a headsail off; of a mainsail nobody asks."""
    swept = sailed.swept
    return swept.holders if isinstance(swept, Swept) else ()


def sail_description(sailed: Sailed | None, scene: Scene, units: Units) -> str:
    """Return what the sail does there as sentences, for those who do not see it."""
    if sailed is None:
        return ""
    names = names_of(scene.layout)
    said = [sail_name(sailed), luff_words(sailed, units)]
    if _holders(sailed):
        held = ", ".join(names.get(name, name) for name in _holders(sailed))
        said.append(_("it is held off by {names}").format(names=held))
    if sailed.stand is not None:
        value = write_length(abs(sailed.stand.clear_mm), units)
        own = elsewhere_words(sailed, scene, units)
        said.append(own or f"{stand_words(sailed, scene)}, {value}")
    return " ".join(f"{words[:1].upper()}{words[1:]}." for words in said)


def carried_words(sailed: Sailed | None, part: float, units: Units) -> str:
    """Return how far the cloth, carried across or eased by a part, passes from what is in hand."""
    if sailed is None:
        return _("no sail here")
    way = sailed.at_hand
    off = apart(way.carried(part), sailed.outlines) if way is not None else None
    if off is None:
        return ""
    if off < _TOUCHES_MM:
        return _("touches it")
    if isinstance(way, Eased):
        # Anywhere up to its full belly cloth can lie.
        off = min(off, apart(way.lies(part, way.belly), sailed.outlines) or 0.0, _inside(way, part, sailed))
    elif isinstance(way, Swept):
        hung = [apart(line, sailed.outlines) or 0.0 for line in way.hung(part)]
        off = min([off, *hung])
    if off < _TOUCHES_MM:
        return _("presses on it")
    return _("{m} from it").format(m=write_length(off, units))


def _inside(way: Eased, part: float, sailed: Sailed) -> float:
    """Return how far what is in hand is from all that lies between straight cloth and its belly."""
    import shapely  # noqa: PLC0415 - as where lines are measured

    between = shapely.polygons(way.hung(part))
    return float(shapely.distance(between, shapely.polygons(corners(sailed.outlines))).min())
