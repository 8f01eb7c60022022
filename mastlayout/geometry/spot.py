"""What an end of a tape is held to: a thing's seat, hole or body, a place on the skin, a point in space."""

from collections.abc import Mapping
from typing import Literal

import numpy as np

from mastlayout.errors import NotKnownError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, bearing_of, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids, joined
from mastlayout.model.fitting import OldHole
from mastlayout.model.measure import Measure, instructions
from mastlayout.words import _

Part = Literal["seat", "hole", "body"]


@dataclass(frozen=True)
class OnThing:
    """A thing of the layout by its id: where it is seated, one of its holes, or the nearest of its body."""

    id: str
    part: Part
    number: int = 0  # of the hole, from 1


@dataclass(frozen=True)
class OnSkin:
    """A place on the skin: z in mm, and girth from the middle of the track, positive to starboard."""

    z_mm: float
    girth_mm: float


@dataclass(frozen=True)
class InSpace:
    """A point of the mast frame, mm."""

    ahead_mm: float
    port_mm: float
    z_mm: float


Spot = OnThing | OnSkin | InSpace


@dataclass(frozen=True, eq=False)
class End:
    """A spot in the scene.

    ``point`` (3,) is None where the end may slide over ``body``; ``girth_mm`` is None off the skin,
    and ``off_skin`` says why. ``body`` is that of the thing, whatever part of it the end is held to.
    """

    point: Array | None
    girth_mm: float | None
    off_skin: str
    body: Solids


def parts_of(scene: Scene, name: str) -> tuple[OnThing, ...]:
    """Return what of a thing a tape can be held to, its seat first; nothing where it has no place yet."""
    if name in scene.placed:
        return tuple(_parts_of_fitting(scene.placed[name]))
    if name in scene.spreaders:
        body = (OnThing(name, "body"),) if len(scene.spreaders[name].solids) else ()
        return (OnThing(name, "seat"), *body)
    if name in scene.stays:
        return (OnThing(name, "body"),) if len(scene.stays[name].solids) else ()
    return (OnThing(name, "hole"),) if name in _old_holes(scene) else ()


def _parts_of_fitting(placed: Placed) -> list[OnThing]:
    parts = [OnThing(placed.id, "seat")]
    if len(placed.solids):
        parts.append(OnThing(placed.id, "body"))
    if placed.holes is not None:
        girths = placed.holes.girth_mm[0]
        found = [o.number for o, g in zip(placed.holes.openings, girths, strict=True) if not np.isnan(g)]
        parts += [OnThing(placed.id, "hole", number) for number in found]
    return parts


def end_of(scene: Scene, spot: Spot) -> End:
    """Return a spot in the scene; NotKnownError says what is missing, or that the thing is gone."""
    match spot:
        case OnSkin():
            return _on_skin(scene.skin, spot.z_mm, spot.girth_mm)
        case InSpace():
            point = np.array([spot.ahead_mm, spot.port_mm, spot.z_mm])
            return End(point, None, _("a point off the skin"), joined([]))
        case OnThing():
            return _on_thing(scene, spot)


def _on_skin(skin: Skin, z_mm: float, girth_mm: float) -> End:
    points, _normals = skin.at(np.array([z_mm]), np.array([girth_mm]))
    return End(points[0], girth_mm, "", joined([]))


def _on_thing(scene: Scene, spot: OnThing) -> End:
    if spot.id in scene.placed:
        return _on_fitting(scene.placed[spot.id], spot)
    if spot.id in scene.spreaders:
        return _on_spreader(scene, scene.spreaders[spot.id], spot)
    if spot.id in scene.stays:
        return _on_stay(scene.stays[spot.id])
    hole = _old_holes(scene).get(spot.id)
    if hole is not None:
        z = height_mm(scene.skin.length_mm, hole.from_masthead_mm)
        return _on_skin(scene.skin, z, scene.skin.girth_of(hole.girth, z))
    if spot.id in scene.unplaced:
        name = next(f.name for f in scene.layout.fittings if f.id == spot.id)
        raise NotKnownError(_lacks(name, scene.unplaced[spot.id]))
    raise NotKnownError(_("what this end was held to is no longer on the mast"))


def _on_fitting(placed: Placed, spot: OnThing) -> End:
    name, host = placed.fitting.name, placed.host
    if spot.part == "body":
        return End(None, None, _("the body of {name} (take its seat)").format(name=name), placed.solids)
    if spot.part == "hole":
        return _hole(placed, spot.number)
    if isinstance(host, Skin):
        girth = float(host.wrapped(placed.places.along_mm, placed.places.around)[0])
        return End(placed.seats.origin[0], girth, "", placed.solids)
    why = _("{name}, which hangs on {host}").format(name=name, host=_host_name(host))
    return End(placed.seats.origin[0], None, why, placed.solids)


def _hole(placed: Placed, number: int) -> End:
    holes, name = placed.holes, placed.fitting.name
    if holes is None:
        raise NotKnownError(_("nobody knows where the holes of {name} are").format(name=name))
    at = holes.index_of(number)
    if at is None:
        raise NotKnownError(_("{name} has no hole {number} any more").format(name=name, number=number))
    girth = float(holes.girth_mm[0, at])
    if np.isnan(girth):
        words = _("{name}, hole {number}: the drill passes beside the mast")
        raise NotKnownError(words.format(name=name, number=number))
    return End(holes.point[0, at], girth, "", placed.solids)


def _on_spreader(scene: Scene, bar: SpreaderInSpace, spot: OnThing) -> End:
    if spot.part == "body":
        if not len(bar.solids):
            raise NotKnownError(_lacks(bar.item.name, bar.unknown))
        return End(None, None, _("the body of {name} (take its root)").format(name=bar.item.name), bar.solids)
    x, y, z = (float(value) for value in bar.root)
    girth = scene.skin.ring(z).girth_at_bearing(bearing_of(x, y))
    return End(bar.root, girth, "", bar.solids)


def _on_stay(stay: StayInSpace) -> End:
    if not len(stay.solids):
        raise NotKnownError(_lacks(stay.item.name, stay.unknown))
    return End(None, None, _("{name}, which is a stay").format(name=stay.item.name), stay.solids)


def _lacks(name: str, measures: tuple[Measure, ...]) -> str:
    titles = ", ".join(instructions()[measure.key].title for measure in measures)
    return _("{name} has no place yet: {what} is not known").format(name=name, what=titles)


def _host_name(host: Placed | SpreaderInSpace | StayInSpace) -> str:
    return host.fitting.name if isinstance(host, Placed) else host.item.name


def _old_holes(scene: Scene) -> Mapping[str, OldHole]:
    return {hole.id: hole for hole in scene.layout.holes}
