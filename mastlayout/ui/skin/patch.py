"""What a stretch of the skin holds: feet with their holes, old holes, and what lies behind."""

import math
from dataclasses import dataclass

from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.ui.section.cut import centre_at, lost_between, track_at
from mastlayout.ui.skin.development import Middle


@dataclass(frozen=True)
class Band:
    """A conduit behind the skin: the girths of its two tangent bearings at the ends of what shows of it."""

    id: str
    name: str
    ends: tuple[tuple[float, float, float], ...]  # z, girth and girth

    @property
    def top(self) -> tuple[float, float, float]:
        """The upper end: height and the two girths."""
        return max(self.ends)


@dataclass(frozen=True)
class OldHoleAt:
    """A hole that is there already, in z and girth; its diameter is None where nobody took it."""

    id: str
    name: str
    z_mm: float
    girth_mm: float
    diameter_mm: float | None


@dataclass(frozen=True)
class Patch:
    """The skin between two heights; two patches are equal where nothing in them changed."""

    z_mm: float
    skin: Skin
    middle: Middle
    track_here: bool
    feet: tuple[Placed, ...]
    old_holes: tuple[OldHoleAt, ...]
    bands: tuple[Band, ...]
    lost: tuple[str, ...]
    hand: Placed | None


def middle_for(placed: Placed | None) -> Middle:
    """Return the line that stands in the middle: the track for what stands aft of the beam."""
    if placed is None or placed.skin is None:
        return "forward"
    # A hair aft of the beam is on it: bearings of 90 and 270 are not exact in floats.
    return "aft" if float(placed.seats.origin[0, 0]) < -1.0 else "forward"


def patch_between(scene: Scene, low_mm: float, high_mm: float, z_mm: float, hand: str) -> Patch:
    """Return what the skin holds between two heights."""
    placed = scene.placed.get(hand)
    bands = tuple(band for thing in scene.conduits if (band := _band(scene.skin, thing, low_mm, high_mm)))
    return Patch(
        z_mm=z_mm,
        skin=scene.skin,
        middle=middle_for(placed),
        track_here=track_at(scene.skin, z_mm) is not None,
        feet=tuple(p for p in scene.placed.values() if _foot_between(p, low_mm, high_mm)),
        old_holes=tuple(hole for hole in _old_holes(scene) if low_mm <= hole.z_mm <= high_mm),
        bands=bands,
        lost=lost_between(scene, z_mm, z_mm, known=frozenset(band.id for band in bands)),
        hand=placed if placed is not None and placed.skin is not None else None,
    )


def _foot_between(placed: Placed, low_mm: float, high_mm: float) -> bool:
    outline: Array | None = placed.outline
    return outline is not None and bool(outline[:, 1].min() <= high_mm and outline[:, 1].max() >= low_mm)


def _old_holes(scene: Scene) -> tuple[OldHoleAt, ...]:
    skin = scene.skin
    found = []
    for hole in scene.layout.holes:
        z = height_mm(skin.length_mm, hole.from_masthead_mm)
        found.append(OldHoleAt(hole.id, hole.name, z, skin.girth_of(hole.girth, z), hole.diameter_mm))
    return tuple(found)


def _band(skin: Skin, thing: Inside, low_mm: float, high_mm: float) -> Band | None:
    low, high = max(low_mm, thing.z_low_mm), min(high_mm, thing.z_high_mm)
    if low >= high:
        return None
    ends = []
    for z in (low, high):
        centre = centre_at(thing, z)
        if centre is None:
            return None
        girths = tangent_girths(skin.ring(z), centre, thing.radius_mm)
        if girths is None:
            return None
        ends.append((z, *girths))
    return Band(thing.id, thing.name, tuple(ends))


def tangent_girths(ring: Ring, centre: tuple[float, float], radius_mm: float) -> tuple[float, float] | None:
    """Return the girths where the rays from the axis that touch a circle leave the skin.

    The second is on from the first towards starboard of the track; None where the axis is inside
    the circle.
    """
    away = math.hypot(*centre)
    if away <= radius_mm:
        return None
    bearing = math.degrees(math.atan2(-centre[1], centre[0]))
    half = math.degrees(math.asin(radius_mm / away))
    # Bearings run clockwise from ahead, girth from the track round starboard to ahead: against them.
    first, second = ring.girth_at_bearing(bearing + half), ring.girth_at_bearing(bearing - half)
    return first, second if second >= first else second + 2 * ring.half_girth_mm
