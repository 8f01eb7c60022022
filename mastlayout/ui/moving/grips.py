"""What each thing of the layout can be taken hold of by: which ways it goes, how far, and why not."""

from collections.abc import Callable
from dataclasses import replace

from mastlayout.errors import MastLayoutError
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.model.around import Around
from mastlayout.model.edits import change, item_of
from mastlayout.model.fitting import MAST, Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.moving import End, at_girth, end_at_height, refuse_fitted
from mastlayout.model.pairs import level_mate, together
from mastlayout.model.rig import Spreader, Stay
from mastlayout.ui.moving.girth import around_of
from mastlayout.ui.moving.height import at_height
from mastlayout.ui.moving.way import Grip, Way
from mastlayout.ui.typed import written
from mastlayout.units import Units
from mastlayout.words import _


def grip_of(scene: Scene, name: str, units: Units, end: End = "upper") -> Grip | None:
    """Return the grip on a thing, None where it has no place; ``end`` is which end of a stay is meant."""
    try:
        _part, item = item_of(scene.layout, name)
    except MastLayoutError:
        return None
    match item:
        case Fitting():
            placed = scene.placed.get(name)
            return _fitting(scene, placed, units) if placed else None
        case OldHole() | Spreader() | Stay():
            return _on_mast(scene, item, units, end)
    return None


# -- on the mast itself


def _on_mast(scene: Scene, item: OldHole | Spreader | Stay, units: Units, end: End) -> Grip:
    match item:
        case Stay():
            pin = item.lower if end == "lower" and item.lower else item.upper
            return _mast_grip(scene, item, pin.from_masthead_mm, pin.girth, units, end)
        case OldHole():
            return _mast_grip(scene, item, item.from_masthead_mm, item.girth, units)
        case Spreader():
            grip, mate = (
                _mast_grip(scene, item, item.from_masthead_mm, None, units),
                level_mate(scene.layout, item),
            )
            return replace(grip, mate=mate.id, moved=together(item, mate)) if mate else grip


def _mast_grip(
    scene: Scene,
    item: Fitting | OldHole | Spreader | Stay,
    from_masthead_mm: float,
    girth: Around | None,
    units: Units,
    end: End = "upper",
) -> Grip:
    name, skin = item.id, scene.skin
    ring = skin.ring(height_mm(skin.length_mm, from_masthead_mm))
    at = 0.0 if girth is None else skin.girth_of(girth, height_mm(skin.length_mm, from_masthead_mm))

    def to_height(layout: Layout, value: float | Around) -> Layout:
        if end == "lower":
            return end_at_height(layout, name, _number(value), end)
        return at_height(layout, name, _number(value))

    def to_girth(layout: Layout, value: float | Around) -> Layout:
        around = value if isinstance(value, Around) else around_of(value, ring)
        return at_girth(layout, name, around, end)

    fixed, still = (
        _refused(lambda: to_height(scene.layout, from_masthead_mm)),
        _refused(lambda: to_girth(scene.layout, girth or at)),
    )
    ends = _mast_ends(item.name, skin.length_mm, units)
    along = Way("mm", from_masthead_mm, to_height, fixed, 0.0, skin.length_mm, ends, up=-1.0)
    return Grip(name, item.name, MAST, along, Way("girth", at, to_girth, still))


def _mast_ends(name: str, length_mm: float, units: Units) -> tuple[str, str]:
    allowed = written(length_mm, units)
    return (
        _("{name} is held at the masthead: 0 to {length} from it is allowed.").format(
            name=name, length=allowed
        ),
        _("{name} is held at the heel: 0 to {length} from the masthead is allowed.").format(
            name=name, length=allowed
        ),
    )


def _number(value: float | Around) -> float:
    if isinstance(value, Around):
        raise TypeError(value)  # only a girth is given as a place
    return value


def _refused(edit: Callable[[], object]) -> str:
    """Return the sentence with which an edit is refused; "" where it is not."""
    try:
        edit()
    except MastLayoutError as error:
        return str(error)
    return ""


# -- fittings


def _fitting(scene: Scene, placed: Placed, units: Units) -> Grip:
    fitting, host = placed.fitting, placed.host
    if isinstance(host, Placed):
        why = _("{name} stands on {host}: it goes where that goes.").format(
            name=fitting.name, host=host.fitting.name
        )
        held = Way("mm", why=why)
        return Grip(fitting.id, fitting.name, fitting.on, held, Way("degrees", why=why), held)
    if isinstance(host, SpreaderInSpace | StayInSpace):
        return _on_rig(placed, host, units)
    along, built = height_mm(host.length_mm, placed.z_mm), fitting.as_built
    grip = _mast_grip(scene, fitting, along, (built.girth if built else None) or fitting.girth, units)
    return Grip(grip.id, grip.name, MAST, grip.along, grip.round, _off(fitting))


def _off(fitting: Fitting) -> Way:
    def take(layout: Layout, value: float | Around) -> Layout:
        return change(layout, fitting.id, stand_off_mm=_number(value))

    ends = _("{name} is held on the skin: its stand-off is 0 or more.").format(name=fitting.name), ""
    why = _refused(lambda: refuse_fitted(fitting))
    return Way("mm", fitting.stand_off_mm, take, why, 0.0, ends=ends)


def _on_rig(placed: Placed, host: SpreaderInSpace | StayInSpace, units: Units) -> Grip:
    fitting = placed.fitting
    long = (host.item.length_mm if isinstance(host, SpreaderInSpace) else host.length_mm) or 0.0
    words = {"name": fitting.name, "host": host.item.name, "length": written(long, units)}
    ends = (
        _("{name} is held at the root of {host}: 0 to {length} from it is allowed."),
        _("{name} is held at the tip of {host}: 0 to {length} from its root is allowed."),
    )
    if isinstance(host, StayInSpace):
        ends = (
            _("{name} is held at the lower end of {host}: 0 to {length} from it is allowed."),
            _("{name} is held at the upper end of {host}: 0 to {length} from its lower end is allowed."),
        )

    def slide(layout: Layout, value: float | Around) -> Layout:
        return change(layout, fitting.id, along_mm=_number(value))

    def turn(layout: Layout, value: float | Around) -> Layout:
        degrees = _number(value) % 360.0
        return change(layout, fitting.id, round_deg=degrees)

    why = _refused(lambda: refuse_fitted(fitting))
    low, high = (sentence.format(**words) for sentence in ends)
    along = Way("mm", fitting.along_mm or 0.0, slide, why, 0.0, long, (low, high))
    return Grip(
        fitting.id,
        fitting.name,
        fitting.on,
        along,
        Way("degrees", fitting.round_deg, turn, why),
        _off(fitting),
    )
