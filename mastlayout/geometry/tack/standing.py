"""Where a thing stands to the cloth of one state at one height: by how much, and between which two points."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.solids import Solids, joined
from mastlayout.geometry.tack.directions import COUNT, DIRECTIONS, along_all, corners
from mastlayout.geometry.tack.drawn import Swept
from mastlayout.geometry.tack.outlines import INSIDE_MM
from mastlayout.geometry.tack.reach import Boundary, Depths, cleared, depths, distance_from
from mastlayout.geometry.tack.shade import Shades

# Just short of a support the cloth is not held by it, mm.
_SHORT_MM = 1e-6
_EVERY_MM = 1e9
# What taut cloth stands as deep in as this it touches.
_TOUCHED_MM = 0.01
# Clearances that differ by less are the same.
_ALIKE_MM = 1e-3


@dataclass(frozen=True)
class Stand:
    """How a thing stands: ``clear_mm``, negative where the cloth touches it, as the checks measure it.

    ``at`` is the worst point on the thing and ``other`` the nearest to it on what bounds the cloth;
    places ahead and to port. ``bears`` tells that the cloth bears there, and is not just a loose
    leech that whips; ``behind`` that it is measured to what shelters the thing, not to the leech's end;
    ``presses`` that only the cloth's belly comes as near.
    """

    clear_mm: float
    at: tuple[float, float]
    other: tuple[float, float]
    bears: bool
    behind: bool
    presses: bool = False


def cut_at(solids: Solids, z_mm: float, near_mm: float = 0.0) -> Array:
    """Return the support (q, COUNT) of what solids there are at a height.

    One that ends within ``near_mm`` of it is cut just inside its end, as the checks do.
    """
    return cuts_at([solids], [z_mm], near_mm)[0]


def cuts_at(each: Sequence[Solids], z_mm: Sequence[float], near_mm: float = 0.0) -> list[Array]:
    """Return what ``cut_at`` does of several things, each at its own height: all cut at once."""
    solids, of = joined(each), np.repeat(np.arange(len(each)), [len(own) for own in each])
    level = np.asarray(z_mm, dtype=float)[of]
    low, high = solids.span_z()
    here = np.flatnonzero((low - near_mm <= level) & (level <= high + near_mm))
    inside = np.minimum(INSIDE_MM if near_mm else 0.0, (high - low) / 2)[here]
    height = np.clip(level[here], low[here] + inside, high[here] - inside)
    ways = np.tile(DIRECTIONS, (len(here), 1))
    cut = solids.cut(np.repeat(height, COUNT), ways, np.repeat(here, COUNT)).reshape(len(here), COUNT)
    return [cut[of[here] == own] for own in range(len(each))]


def stand(swept: Swept, support: Array) -> Stand | None:
    """Return how the worst of outlines (q, COUNT) stands to the cloth; None without an outline.

    What taut cloth does not touch is measured to the nearer of it and its belly, as the checks do.
    """
    if not len(support):
        return None
    worst = _worst(swept, swept.edge, support)
    if worst.clear_mm < -_TOUCHED_MM or not swept.bellies:
        return worst
    hung = replace(_worst(swept, swept.bellied, support), presses=True, bears=False)
    return min((worst, hung), key=lambda one: one.clear_mm)


def apart(line: Array, support: Array) -> float | None:
    """Return how far a line (k, 2) passes from outlines (q, COUNT), 0 across one; None without one."""
    import shapely  # noqa: PLC0415 - as where the fronts are made

    if not len(support):
        return None
    return float(shapely.distance(shapely.linestrings(line), shapely.polygons(corners(support))).min())


def _worst(swept: Swept, edge: Boundary, support: Array) -> Stand:
    """Return how the outline stands that stands worst; where it does is looked for of that one alone."""
    rows = np.zeros(len(support), dtype=int)
    away = distance_from(swept.luff, support)
    swung = _swung(swept.luff, support)
    chord = swept.cloths.longest(rows + swept.state, np.full(len(rows), swept.z_mm), swung)
    at = cleared(edge, rows, depths(edge, rows, support, away, _EVERY_MM), chord)
    worst = int(np.argmin(np.minimum(at.held, at.loose)))
    return _one(swept, edge, support[worst : worst + 1], float(chord[worst]))


def _one(swept: Swept, edge: Boundary, support: Array, chord: float) -> Stand:
    row = np.zeros(1, dtype=int)
    away = distance_from(swept.luff[None], support)
    near = depths(edge, row, support, away, _EVERY_MM)
    lengths = _lengths(edge.slices.distance[0], chord)
    at = cleared(edge, np.zeros(len(lengths), dtype=int), _same(near, len(lengths)), lengths)
    # Each is the least up to that length: the first that is as small as the last is where it is worst.
    least = np.minimum(at.held, at.loose)
    worst = int(np.argmax(least <= least[-1] + _ALIKE_MM))
    k = int((edge.slices.distance[0] <= lengths[worst]).sum())
    clear, short = float(least[-1]), float(away[0] - lengths[worst])
    bears = bool(at.held[-1] < 0 or at.held[-1] <= at.loose[-1])
    if near.best[0, k] < 0 or short >= near.depth[0, k]:
        place, way = _nearest(swept, support[0])
        return Stand(clear, _flat(place), _flat(place - short * way), bears, behind=False)
    place, way = _deepest(edge.shades, int(near.best[0, k]), support[0])
    return Stand(clear, _flat(place), _flat(place + near.depth[0, k] * way), bears, behind=True)


def _swung(luff: Array, support: Array) -> Array:
    """Return how far off straight aft (q,), radians, outlines are seen at most; beyond abeam is abeam."""
    ways = corners(support) - luff
    return np.asarray(np.arctan2(np.abs(ways[..., 1]), np.maximum(-ways[..., 0], 0.0)).max(axis=1))


def _lengths(distance: Array, chord: float) -> Array:
    """Return the lengths to be asked: just short of each support within the chord, and the chord."""
    return np.array([*(distance[distance <= chord] - _SHORT_MM), chord])


def _same(near: Depths, count: int) -> Depths:
    return near[np.zeros(count, dtype=int)]


def _nearest(swept: Swept, support: Array) -> tuple[Array, Array]:
    """Return the outline's point that is nearest to the luff, and the way there from the luff."""
    faces = along_all(swept.luff) - support
    facing = int(faces.argmax())
    return swept.luff - faces[facing] * DIRECTIONS[facing], -DIRECTIONS[facing]


def _deepest(shades: Shades, shade: int, support: Array) -> tuple[Array, Array]:
    """Return the outline's point that stands farthest out of a shade, and the way out of it there."""
    one = np.array([shade])
    inside = shades.limit[shade] - support
    beside = shades.tangent_offset[shade] - shades.tangents[one].reach(support[None])[0]
    ways, room = [*DIRECTIONS, *shades.tangents[one].normal[0]], [*inside, *beside]
    if shades.bridge[shade] >= 0:
        row = np.array([shades.bridge[shade]])
        bridges = shades.bridges
        room += list((bridges.edge_offset[row] - bridges.edges[row].reach(support[None]))[0])
        ways += list(bridges.edges[row].normal[0])
        # Of a belly's tangents one that parts it from the outline is enough.
        caps, clear = bridges.caps[row], (bridges.cap_offset[row] - bridges.caps[row].reach(support[None]))[0]
        best = clear.argmax(axis=1)
        every = np.arange(len(clear))
        room += list(clear[every, best])
        ways += list(caps.normal[0][every, best])
    way = np.asarray(ways[int(np.argmin(room))])
    return touched(support, way), way


def touched(support: Array, way: Array) -> Array:
    """Return the corner of an outline that lies farthest in a direction, of two alike the middle."""
    points = corners(support)
    reach = points @ way
    return np.asarray(points[reach >= reach.max() - _SHORT_MM].mean(axis=0))


def _flat(place: Array) -> tuple[float, float]:
    return float(place[0]), float(place[1])
