"""What a stretch of the skin holds: feet with their holes, old holes, and what lies behind."""

import math
from collections.abc import Iterator
from typing import Literal

import numpy as np

from mastlayout.checks.finding import Key
from mastlayout.checks.report import Report
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.model.mast import Stretch
from mastlayout.ui.section.cut import centre_at, lost_between, track_at, zones_between
from mastlayout.ui.skin.development import Middle
from mastlayout.ui.skin.found import Found, found_marks

_STEPS = 7


@dataclass(frozen=True)
class Band:
    """Something behind the skin: the girths of its two tangent bearings, from its upper end down.

    The girths run on over the far line, so that a band is in one piece.
    """

    id: str
    name: str
    kind: Literal["conduit", "halyard"]
    ends: tuple[tuple[float, float, float], ...]  # z, girth and girth

    @property
    def top(self) -> tuple[float, float, float]:
        """The upper end: height and the two girths."""
        return self.ends[0]

    def at(self, z_mm: float) -> tuple[float, float]:
        """Return the two girths at a height."""
        rising = np.array(self.ends[::-1])
        one, other = (float(np.interp(z_mm, rising[:, 0], rising[:, k])) for k in (1, 2))
        return one, other


@dataclass(frozen=True)
class SlotAt:
    """An opening of a conduit, where a cable may leave: its heights and girths; ``new``, still to be cut."""

    id: str
    low_mm: float
    high_mm: float
    girths: tuple[float, float]
    new: bool = False


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
    slots: tuple[SlotAt, ...]
    zones: tuple[Stretch, ...]
    marks: tuple[Found, ...]
    lost: tuple[str, ...]
    hand: Placed | None


def middle_for(placed: Placed | None) -> Middle:
    """Return the line that stands in the middle: the track for what stands aft of the beam."""
    if placed is None or placed.skin is None:
        return "forward"
    # A hair aft of the beam is on it: bearings of 90 and 270 are not exact in floats.
    return "aft" if float(placed.seats.origin[0, 0]) < -1.0 else "forward"


def patch_between(
    report: Report,
    low_mm: float,
    high_mm: float,
    z_mm: float,
    hand: str,
    chosen: frozenset[Key] = frozenset(),
) -> Patch:
    """Return what the skin holds between two heights; ``chosen`` are the keys of the findings looked at."""
    scene = report.scene
    placed = scene.placed.get(hand)
    bands = tuple(_bands(scene, low_mm, high_mm))
    on_skin = placed is not None and placed.skin is not None
    return Patch(
        z_mm=z_mm,
        skin=scene.skin,
        middle=middle_for(placed),
        track_here=track_at(scene.skin, z_mm) is not None,
        feet=tuple(p for p in scene.placed.values() if p.foot_between(low_mm, high_mm)),
        old_holes=tuple(hole for hole in _old_holes(scene) if low_mm <= hole.z_mm <= high_mm),
        bands=bands,
        slots=tuple(_slots(scene.skin, bands, low_mm, high_mm)),
        zones=tuple(zones_between(scene.skin, low_mm, high_mm)),
        marks=found_marks(report, placed, chosen) if placed is not None and on_skin else (),
        lost=lost_at(scene, z_mm),
        hand=placed if on_skin else None,
    )


def lost_at(scene: Scene, z_mm: float) -> tuple[str, ...]:
    """Return the names of what runs behind a height, nobody knows where."""
    known = frozenset(thing.id for thing in scene.inside if centre_at(thing, z_mm) is not None)
    return lost_between(scene, z_mm, z_mm, known=known)


def _bands(scene: Scene, low_mm: float, high_mm: float) -> Iterator[Band]:
    kinds: tuple[tuple[Literal["conduit", "halyard"], tuple[Inside, ...]], ...]
    kinds = (("halyard", scene.halyards), ("conduit", scene.conduits))
    for kind, things in kinds:
        for thing in things:
            ends = tuple(_ends(scene.skin, thing, low_mm, high_mm))
            if len(ends) > 1:
                yield Band(thing.id, thing.name, kind, ends)


def _slots(skin: Skin, bands: tuple[Band, ...], low_mm: float, high_mm: float) -> Iterator[SlotAt]:
    by_id = {pipe.id: pipe for pipe in skin.mast.conduits or ()}
    for band in bands:
        pipe = by_id.get(band.id)
        for slot in (pipe.slots or ()) if pipe else ():
            z = height_mm(skin.length_mm, slot.from_masthead_mm)
            if low_mm <= z <= high_mm:
                half = slot.length_mm / 2
                yield SlotAt(band.id, z - half, z + half, band.at(z), slot.new)


def _old_holes(scene: Scene) -> tuple[OldHoleAt, ...]:
    skin = scene.skin
    found = []
    for hole in scene.layout.holes:
        z = height_mm(skin.length_mm, hole.from_masthead_mm)
        found.append(OldHoleAt(hole.id, hole.name, z, skin.girth_of(hole.girth, z), hole.diameter_mm))
    return tuple(found)


def _ends(skin: Skin, thing: Inside, low_mm: float, high_mm: float) -> Iterator[tuple[float, float, float]]:
    """Yield the heights and girths of a band from its upper end down; nothing where it has no place."""
    low, high = max(low_mm, thing.z_low_mm), min(high_mm, thing.z_high_mm)
    if low >= high:
        return
    # A leg that slants goes round the skin ever faster as it nears the axis; a plumb one stays.
    plumb = centre_at(thing, low) == centre_at(thing, high) and skin.ring(low) is skin.ring(high)
    before = None
    for z in np.linspace(high, low, 2 if plumb else _STEPS).tolist():
        centre, ring = centre_at(thing, z), skin.ring(z)
        girths = tangent_girths(ring, centre, thing.radius_mm) if centre is not None else None
        if girths is None:
            return
        round_mm = 2 * ring.half_girth_mm
        turn = 0.0 if before is None else round_mm * round((before - girths[0]) / round_mm)
        before = girths[0] + turn
        yield z, before, girths[1] + turn


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
