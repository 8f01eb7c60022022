"""What lies in a conduit at a height: its cables at their size, laid beside one another in the bore."""

import math
from collections.abc import Iterator
from functools import lru_cache

from mastlayout.checks.cable import fill_percent
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.model.fitting import Cable
from mastlayout.model.mast import Conduit

Circle = tuple[float, float, float]  # ahead, to port and radius, from the middle of the bore
_TIGHT_MM = 1e-6


@dataclass(frozen=True)
class Filling:
    """The cables of a conduit at one height.

    ``full_percent`` is None where a cable's diameter or the bore is not known; ``unknown`` counts
    the cables of unknown diameter, which are in no circle.
    """

    bore_mm: float | None
    count: int
    unknown: int
    full_percent: float | None
    circles: tuple[Circle, ...]


def filling_at(scene: Scene, conduit: Conduit, z_mm: float) -> Filling:
    """Return what lies in a conduit at a height."""
    cables = [
        cable for cable in scene.layout.cables if cable.conduit == conduit.id and _runs(scene, cable, z_mm)
    ]
    sizes = tuple(sorted((c.outside_mm for c in cables if c.outside_mm is not None), reverse=True))
    unknown = len(cables) - len(sizes)
    bore = conduit.bore_mm
    full = None if unknown or bore is None else fill_percent(cables, bore)
    return Filling(bore, len(cables), unknown, full, laid(sizes, bore) if bore else ())


def _runs(scene: Scene, cable: Cable, z_mm: float) -> bool:
    """Tell whether a cable is there: not above where it enters, nor below where it leaves."""
    top, bottom = _entry_z(scene, cable), _exit_z(scene, cable)
    return (top is None or z_mm <= top) and (bottom is None or z_mm >= bottom)


def _entry_z(scene: Scene, cable: Cable) -> float | None:
    placed = scene.placed.get(cable.fitting or "")
    if placed is None:
        return None
    holes = placed.holes
    if holes is not None:
        for opening, z in zip(holes.openings, holes.z_mm[0], strict=True):
            if opening.use == "entry":
                return float(z)
    return placed.z_mm


def _exit_z(scene: Scene, cable: Cable) -> float | None:
    placed = scene.placed.get(cable.exit or "")
    if placed is not None:
        return placed.z_mm
    if cable.exit_from_masthead_mm is None:
        return None
    return height_mm(scene.skin.length_mm, cable.exit_from_masthead_mm)


@lru_cache(maxsize=256)
def laid(diameters: tuple[float, ...], bore_mm: float) -> tuple[Circle, ...]:
    """Return circles for cables, the thickest first, each as far aft in the bore as the others let it.

    Where a cable really lies nobody knows; what finds no room beside the others is left out.
    """
    bore, found = bore_mm / 2, list[Circle]()
    for diameter in diameters:
        radius = diameter / 2
        free = [
            at
            for at in _places(found, radius, bore)
            if math.hypot(*at) <= bore - radius + _TIGHT_MM
            and all(math.dist(at, one[:2]) >= radius + one[2] - _TIGHT_MM for one in found)
        ]
        if free:
            found.append((*min(free, key=lambda at: (round(at[0], 6), abs(at[1]))), radius))
    return tuple(found)


def _places(found: list[Circle], radius: float, bore: float) -> Iterator[tuple[float, float]]:
    """Yield where a circle touches the bore and another, or two others; the aft end of the bore first."""
    yield (radius - bore, 0.0)
    wall = (0.0, 0.0, bore - radius)
    touching = [wall, *((x, y, own + radius) for x, y, own in found)]
    for i, one in enumerate(touching):
        for other in touching[i + 1 :]:
            yield from _crossings(one, other)


def _crossings(one: Circle, other: Circle) -> Iterator[tuple[float, float]]:
    """Yield where two circles cross."""
    (x, y, r), (u, v, s) = one, other
    apart = math.hypot(u - x, v - y)
    if not apart or apart > r + s or apart < abs(r - s):
        return
    along = (apart * apart + r * r - s * s) / (2 * apart)
    high = math.sqrt(max(r * r - along * along, 0.0))
    dx, dy = (u - x) / apart, (v - y) / apart
    for side in (high, -high):
        yield x + along * dx - side * dy, y + along * dy + side * dx
