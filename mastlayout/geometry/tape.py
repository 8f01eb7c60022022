"""The tape measure: between two ends, along the mast, round the skin and straight; body to body."""

from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import Array, height_mm, round_reading
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids, tubes
from mastlayout.geometry.spot import End, Spot, end_of

Side = Literal["port", "starboard"]
Line = Literal["forward", "aft"]
# A tape laid round is read to half a millimetre: nearer a centreline than this is on it.
_ON_LINE_MM = 0.25


@dataclass(frozen=True)
class Round:
    """The shorter way round the skin, at the height of the first end.

    ``start`` and ``end`` are the sides of the two ends, None on a centreline; ``over`` the
    centreline that the tape crosses; ``either`` tells that both ways are as long.
    """

    length_mm: float
    from_girth_mm: float
    by_mm: float  # signed, positive as girth counts: from aft to starboard
    start: Side | None
    end: Side | None
    over: Line | None
    either: bool


@dataclass(frozen=True, eq=False)
class Least:
    """The least distance between two bodies, negative by the depth of an overlap, and where (2, 3)."""

    distance_mm: float
    points: Array


@dataclass(frozen=True, eq=False)
class Taped:
    """What the tape reads. ``along_mm`` is positive towards the masthead; ``points`` (2, 3) are its ends.

    ``around`` is None where an end is not on the skin, and ``off_skin`` names those ends.
    """

    points: Array
    along_mm: float
    straight_mm: float
    around: Round | None
    off_skin: tuple[str, ...]
    bodies: Least | None


def taped(scene: Scene, first: Spot, second: Spot) -> Taped:
    """Measure between two spots; NotKnownError where one has no place."""
    a, b = end_of(scene, first), end_of(scene, second)
    points = _held(a, b)
    same = getattr(first, "id", "") == getattr(second, "id", None)
    bodies = closest(a.body, b.body) if len(a.body) and len(b.body) and not same else None
    around = None
    if a.girth_mm is not None and b.girth_mm is not None:
        heights = float(points[0, 2]), float(points[1, 2])
        around = round_between(scene.skin, (a.girth_mm, b.girth_mm), heights)
    return Taped(
        points,
        height_mm(float(points[1, 2]), float(points[0, 2])),
        float(np.linalg.norm(points[1] - points[0])),
        around,
        tuple(end.off_skin for end in (a, b) if end.off_skin),
        bodies,
    )


def _held(a: End, b: End) -> Array:
    """Return the two points (2, 3); an end that may slide over its body lies nearest to the other."""
    if a.point is not None and b.point is not None:
        return np.stack([a.point, b.point])
    found = closest(_solid(a), _solid(b))
    if found.distance_mm > 0:
        return found.points
    # Where the two meet there is no way between them: both ends are at one place.
    at = next((end.point for end in (a, b) if end.point is not None), found.points[0])
    return np.stack([at, at])


def _solid(end: End) -> Solids:
    return end.body if end.point is None else tubes(end.point[None], end.point[None], 0.0)


def closest(a: Solids, b: Solids) -> Least:
    """Return the least distance between any of n solids and any of m."""
    i, j = (index.ravel() for index in np.indices((len(a), len(b))))
    apart = np.linalg.norm(a.centre[i] - b.centre[j], axis=1)
    # Some pair is no farther apart than the nearest middles: pairs that must be are left out.
    near = apart - a.bound_mm[i] - b.bound_mm[j] <= apart.min()
    i, j = i[near], j[near]
    gaps = gap(a[i], b[j])
    k = int(np.argmin(gaps.distance_mm))
    return Least(float(gaps.distance_mm[k]), np.stack([gaps.on_a[k], gaps.on_b[k]]))


def round_between(skin: Skin, girths_mm: tuple[float, float], z_mm: tuple[float, float]) -> Round:
    """Return the shorter way round between two places on the skin.

    Where the mast tapers the second keeps its share of the girth, and the way is laid at the
    height of the first.
    """
    ring, other = skin.ring(z_mm[0]), skin.ring(z_mm[1])
    half = ring.half_girth_mm
    start = float(ring.wrapped(np.array(girths_mm[0])))
    end = float(other.wrapped(np.array(girths_mm[1]))) / other.half_girth_mm * half
    by = float(ring.wrapped(np.array(end - start)))
    return Round(
        length_mm=abs(by),
        from_girth_mm=start,
        by_mm=by,
        start=round_reading(start, half, 0.0).side,
        end=round_reading(end, half, 0.0).side,
        over=_over(start, by, half),
        either=half - abs(by) < _ON_LINE_MM,
    )


def _over(start_mm: float, by_mm: float, half_mm: float) -> Line | None:
    """Return the centreline that lies between a start and its end, not at one of them."""
    low, high = sorted((start_mm, start_mm + by_mm))
    low, high = low + _ON_LINE_MM, high - _ON_LINE_MM
    if low < 0.0 < high:
        return "aft"
    return "forward" if low < half_mm < high or low < -half_mm < high else None
