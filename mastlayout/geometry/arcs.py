"""Hidden arcs: which bearings things hide from a lens or an antenna, at one place or at many.

Seen from afar the source is a strip as wide as it is, and so is what stands before it: a thing
covers all of it over its dark arc, and a part of it beside that. A thing narrower than the source
has no dark arc; it dims. In plan each thing is the hull of discs, and its edge as seen over a
strip ``grown`` to either side is the farthest of theirs: bearing of the middle, and the arc whose
sine is (radius + grown) / distance. Grown by 0 that is the arc hidden from a point.
"""

from typing import Any

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.obstacles import Obstacles, level_cut

# Heights of the source at which it is asked what covers it, as parts of its half height.
LEVELS = np.array([-0.8, -0.4, 0.0, 0.4, 0.8])
# A ray above or below the level is followed as far as this: what is farther fills no more of it.
_FOLLOWED_MM = 1500.0
# So many pairs of place and thing are seen at once: what they take stays in a processor's own store.
_AT_ONCE = 2048
_TINY_MM = 1e-6
_DEG = 180.0 / np.pi


@dataclass(frozen=True, eq=False)
class Sources:
    """A lens or an antenna at n places: middles (n, 3), and half its width and height."""

    middle: Array
    half_width_mm: float
    half_height_mm: float


@dataclass(frozen=True, eq=False)
class Shadows:
    """q shadows, each of one owner at one place.

    ``share`` (q,) is how much of the source it covers where it covers most. ``dark`` (q, 2) are the
    bearings, clockwise from ahead, between which it covers all, nan where nowhere; ``dim`` those
    between which it covers at least the share asked for, ``edge`` those hidden from the middle alone.
    ``ray`` (q,) is the place of the worst ray among those asked; ``away_mm`` (q,) how far off the nearest
    of its corners or middle lines stands. A second bearing is never less than the first; either may be
    beyond 0 or 360.
    """

    place: Whole
    owner: Whole
    share: Array
    dark: Array
    dim: Array
    edge: Array
    ray: Whole
    away_mm: Array


def shadows(sources: Sources, things: Obstacles, dims: float, rays_deg: Array) -> Shadows:
    """Return what hides at least ``dims`` (0 to 1) of sources along rays at elevations (e,), degrees."""
    place, thing = _level_with(sources, things, rays_deg)
    if not len(place):
        return _none()
    seen = _seen(sources, things, place, thing, dims)
    # A thing covers a height of the source where that height, carried along the ray, meets it.
    rise = np.minimum(seen.far_mm, _FOLLOWED_MM) * np.tan(np.radians(rays_deg))[:, None]
    height = (sources.middle[place, 2] + rise)[:, None] + (LEVELS * sources.half_height_mm)[:, None]
    covers = (things.low[thing] <= height) & (height <= things.high[thing])
    live = covers.any(axis=(0, 1))
    if not live.all():
        covers, place, thing, seen = covers[..., live], place[live], thing[live], seen.at(live)
    if not len(place):
        return _none()
    return _of_owners(place, things.owner[thing], seen, covers, dims)


def hull_edges(east: Array, ahead: Array, radius: Array, grown: Array | float) -> tuple[Array, Array]:
    """Return the first and last bearing (p,) of hulls of discs (m, p) as seen over a strip grown so."""
    bearing, _far, away = _bearings(east, ahead)
    return _grown(bearing, away, radius, grown)


@dataclass(frozen=True, eq=False)
class _Seen:
    """p things as seen from a source each: distance, share of the width covered, and their arcs (p, 2)."""

    far_mm: Array
    share: Array
    dark: Array
    dim: Array
    edge: Array

    def at(self, rows: Mask | Whole) -> "_Seen":
        """Return some of them."""
        return _Seen(*(part[rows] for part in (self.far_mm, self.share, self.dark, self.dim, self.edge)))


def _level_with(sources: Sources, things: Obstacles, rays_deg: Array) -> tuple[Whole, Whole]:
    """Return the pairs of place and thing that share a height, on the level or along a ray."""
    rise = float(np.tan(np.radians(np.abs(rays_deg).max(initial=0.0))))
    z, half = sources.middle[:, 2, None], sources.half_height_mm
    reach = half + _FOLLOWED_MM * rise
    # Places mostly lie along the mast: of all things those level with any of them are few.
    low, high = z.min(initial=np.inf) - reach, z.max(initial=-np.inf) + reach
    near = np.flatnonzero((things.low <= high) & (things.high >= low))
    place, thing = np.nonzero((things.low[near] <= z + reach) & (things.high[near] >= z - reach))
    thing = near[thing]
    if not rise:
        return place, thing
    # A ray has not risen as far where the thing is near.
    off = things.middle[thing] - sources.middle[place, :2]
    far = np.sqrt(off[:, 0] ** 2 + off[:, 1] ** 2) + things.bound_mm[thing]
    within = half + np.minimum(far, _FOLLOWED_MM) * rise
    level = sources.middle[place, 2]
    kept = (things.low[thing] <= level + within) & (things.high[thing] >= level - within)
    return place[kept], thing[kept]


def _seen(sources: Sources, things: Obstacles, place: Whole, thing: Whole, dims: float) -> _Seen:
    """See each pair: those of discs alone by their two ends, those with corners by all of them."""
    count, half = len(place), sources.half_width_mm
    found = _Seen(*(np.empty(count) for _each in range(2)), *(np.empty((count, 2)) for _each in range(3)))
    edged = things.edged[thing]
    for corners in (False, True):
        every = np.flatnonzero(edged == corners)
        for first in range(0, len(every), _AT_ONCE):
            rows = every[first : first + _AT_ONCE]
            middle = sources.middle[place[rows]]
            discs = level_cut(things, thing[rows], middle[:, 2], sources.half_height_mm, corners=corners)
            own = _see(discs, middle, half, dims)
            for name in ("far_mm", "share", "dark", "dim", "edge"):
                getattr(found, name)[rows] = getattr(own, name)
    return found


def _see(discs: tuple[Array, Array, Array], middle: Array, half: float, dims: float) -> _Seen:
    """See hulls of discs, their x, y and radius (m, p), from middles (p, 3) of a lens that half wide."""
    x, y, radius = discs
    east, ahead = middle[:, 1] - y, x - middle[:, 0]
    bearing, far, away = _bearings(east, ahead)
    edge = np.stack(_grown(bearing, away, radius, 0.0), axis=1)
    return _Seen(
        far,
        _share(east, ahead, radius, (edge[:, 0] + edge[:, 1]) / 2, half),
        np.stack(_grown(bearing, away, radius, -half), axis=1),
        np.stack(_grown(bearing, away, radius, half * (1 - 2 * dims)), axis=1),
        edge,
    )


def _bearings(east: Array, ahead: Array) -> tuple[Array, Array, Array]:
    """Return bearings (m, p), radians, none over half a turn from the first; least distance; distances."""
    bearing = np.arctan2(east, ahead)
    off = bearing - bearing[:1]
    bearing = bearing - 2 * np.pi * np.round(off / (2 * np.pi))
    away = np.maximum(np.sqrt(east * east + ahead * ahead), _TINY_MM)
    return bearing, away.min(axis=0), away


def _grown(bearing: Array, away: Array, radius: Array, grown: Array | float) -> tuple[Array, Array]:
    half = np.arcsin(np.clip((radius + grown) / away, -1.0, 1.0))
    return (bearing - half).min(axis=0) * _DEG, (bearing + half).max(axis=0) * _DEG


def _share(east: Array, ahead: Array, radius: Array, middle_deg: Array, half: float) -> Array:
    """Return how much (p,) of the source's width each hull covers, seen from abreast of its middle."""
    # Sine and cosine by the tangent of half the angle, many times as fast.
    tangent = np.tan(middle_deg * (np.pi / 360.0))
    whole = 1.0 + tangent * tangent
    across = east * ((2.0 - whole) / whole) - ahead * (2.0 * tangent / whole)
    wide = (across + radius).max(axis=0) - (across - radius).min(axis=0)
    return np.asarray(np.clip(wide / max(2 * half, _TINY_MM), 0.0, 1.0))


def _of_owners(place: Whole, owner: Whole, seen: _Seen, covers: Mask, dims: float) -> Shadows:
    """Put together what each owner's things hide at each place: one above the other they hide more.

    ``covers`` (rays, levels, p) tells which heights of the source each thing is before.
    """
    count = covers.shape[2]
    new = np.ones(count, dtype=bool)
    new[1:] = (place[1:] != place[:-1]) | (owner[1:] != owner[:-1])
    start, group = np.flatnonzero(new), np.cumsum(new) - 1
    shares, wide = covers * seen.share, seen.dark[:, 1] > seen.dark[:, 0]
    wholes = covers & wide
    share = _most(shares, start, count).mean(axis=1)
    whole: Mask = np.asarray(_most(wholes, start, count).all(axis=1))
    ray = (share + whole).argmax(axis=0)
    row = np.arange(len(start))
    here: Mask = np.asarray(np.asarray(covers.any(axis=1))[ray[group], np.arange(count)])
    first = (seen.edge[start, 0] + seen.edge[start, 1]) / 2
    dark = _hull(seen.dark, first, start, group, here & wide)
    dark[~whole[ray, row]] = np.nan
    dim = _hull(seen.dim, first, start, group, here & (seen.dim[:, 1] > seen.dim[:, 0]))
    edge = _hull(seen.edge, first, start, group, here)
    most, owners = share[ray, row], owner[start]
    kept = (most >= dims) & ~np.isnan(dim[:, 0])
    away = np.minimum.reduceat(seen.far_mm, start) if len(start) < count else seen.far_mm
    told = (owners, most, dark, dim, edge, ray, away)
    return Shadows(place[start][kept], *(part[kept] for part in told))


def _most(values: Any, start: Whole, count: int) -> Any:
    """Return the most of values (..., p) in each group, which begin at ``start`` (g,).

    A second, third ... of each group at a time: over the last axis of many rows several times as fast as
    numpy's own reduceat.
    """
    size = np.diff(start, append=count)
    most = values[..., start]
    for more in range(1, int(size.max(initial=1))):
        rows = np.flatnonzero(size > more)
        most[..., rows] = np.maximum(most[..., rows], values[..., start[rows] + more])
    return most


def _hull(arcs: Array, first: Array, start: Whole, group: Whole, counts: Mask) -> Array:
    """Return the arc (g, 2) that holds all arcs (p, 2) of each group that count; nan where none does."""
    turn = np.round(((arcs[:, 0] + arcs[:, 1]) / 2 - first[group]) / 360.0) * 360.0
    low = np.where(counts, arcs[:, 0] - turn, np.inf)
    high = np.where(counts, arcs[:, 1] - turn, -np.inf)
    hull = np.stack([np.minimum.reduceat(low, start), np.maximum.reduceat(high, start)], axis=1)
    return np.where(np.isfinite(hull), hull, np.nan)


def _none() -> Shadows:
    nothing, arcs = np.empty(0, dtype=np.intp), np.empty((0, 2))
    return Shadows(nothing, nothing, np.empty(0), arcs, arcs, arcs, nothing, np.empty(0))


def overlap_deg(arcs: Array, first_deg: float, last_deg: float) -> Array:
    """Return how much (q,) of arcs (q, 2) lies between two bearings, clockwise from the first."""
    width = (last_deg - first_deg) % 360.0 or 360.0
    start = (arcs[:, 0] - first_deg) % 360.0
    end = start + np.minimum(arcs[:, 1] - arcs[:, 0], 360.0)
    within = np.clip(np.minimum(end, width) - start, 0.0, None)
    # and the part that begins anew once round
    again = np.clip(np.minimum(end - 360.0, width), 0.0, None)
    return np.asarray(np.nan_to_num(within + again))


def hull_shadows(sources: Sources, outline: Array, low: float, high: float, dims: float) -> Shadows:
    """Return what one upright body hides, such as the mast: its outline (m, 2) from ``low`` to ``high``."""
    z = sources.middle[:, 2] + LEVELS[:, None] * sources.half_height_mm
    covers = (low <= z) & (z <= high)
    met = np.flatnonzero(covers.any(axis=0))
    if not len(met):
        return _none()
    # An upright body is alike at every height: places one over the other are asked once.
    spots = np.round(sources.middle[met, 0], 2) + 1j * np.round(sources.middle[met, 1], 2)
    alone, back = np.unique(spots, return_inverse=True)
    middle = np.stack([alone.real, alone.imag], axis=1)
    discs = (outline[:, :1], outline[:, 1:], np.zeros((len(outline), 1)))
    one = _see(discs, middle, sources.half_width_mm, dims)
    return _of_owners(met, np.zeros(len(met), dtype=np.intp), one.at(back), covers[None, :, met], dims)
