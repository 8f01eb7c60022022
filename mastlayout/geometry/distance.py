"""Distances between convex solids, many pairs at once: the method of Gilbert, Johnson and Keerthi (1988).

The method walks the difference of the two bodies towards the origin. Its lower bound, not the
point it stands on, is returned: a distance is never given larger than it is.
"""

from functools import cache
from typing import Protocol, Self

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index

_TOLERANCE_MM = 0.005
_MOST_STEPS = 80
_PAIRS_AT_ONCE = 64
_EDGES = np.array([(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)])
_FACES = np.array([(0, 1, 2), (0, 1, 3), (0, 2, 3), (1, 2, 3)])


class Convex(Protocol):
    """n convex bodies that tell how far they reach: solids, and what else is convex."""

    @property
    def round_mm(self) -> Array:
        """How far (n,) each is grown beyond its core."""

    @property
    def centre(self) -> Array:
        """A point (n, 3) within each."""

    def __len__(self) -> int: ...

    def __getitem__(self, index: Index) -> Self: ...

    def core(self, direction: Array) -> Array:
        """Return the farthest points (n, 3) of the cores in directions (n, 3)."""

    def support(self, direction: Array) -> Array:
        """Return how far (n,) each reaches from the origin in unit directions (n, 3)."""


@dataclass(frozen=True, eq=False)
class Gap:
    """Distances (n,) between surfaces, negative by the depth of an overlap, and the nearest points (n, 3)."""

    distance_mm: Array
    on_a: Array
    on_b: Array


def gap(a: Convex, b: Convex, enough_mm: float = np.inf) -> Gap:
    """Return the gaps of n pairs.

    A pair is left as soon as its gap is known to be at least ``enough_mm``; what is returned for
    it is then a lower bound and its points are not the nearest.
    """
    n = len(a)
    grown = a.round_mm + b.round_mm
    lower = np.full(n, -np.inf)
    simplex = np.zeros((n, 4, 3))
    on_a = np.zeros((n, 4, 3))
    weight = np.zeros((n, 4))
    weight[:, 0] = 1.0
    start = a.centre - b.centre
    start[np.einsum("nk,nk->n", start, start) < 1e-12] = (1.0, 0.0, 0.0)
    near_a = a.core(-start)
    simplex[:] = (near_a - b.core(start))[:, None, :]
    on_a[:] = near_a[:, None, :]
    live, before = np.arange(n), np.full(n, np.inf)
    for step in range(_MOST_STEPS):
        here = np.einsum("nw,nwk->nk", weight[live], simplex[live])
        size = np.sqrt(np.einsum("nk,nk->n", here, here))
        touching = size < 1e-9
        unit = here / np.where(touching, 1.0, size)[:, None]
        part_a, part_b = (a, b) if len(live) == n else (a[live], b[live])
        far_a = part_a.core(-unit)
        new = far_a - part_b.core(unit)
        lower[live] = np.maximum(lower[live], np.where(touching, 0.0, np.einsum("nk,nk->n", new, unit)))
        known = lower[live] - grown[live]
        # Two far longer than they are apart may come to no end in floats: the bound holds as it is.
        stuck = size >= before[live]
        before[live] = size
        done = touching | (size - lower[live] < _TOLERANCE_MM) | (known >= enough_mm) | stuck
        if done.all():
            break
        going = ~done
        live = live[going]
        _add(simplex, on_a, weight, live, new[going], far_a[going], step + 2)
    here = np.einsum("nw,nwk->nk", weight, simplex)
    return _surfaces(a, b, here, np.einsum("nw,nwk->nk", weight, on_a), np.maximum(lower, 0.0) - grown)


def _add(
    simplex: Array, on_a: Array, weight: Array, live: Array, new: Array, far_a: Array, apart: int
) -> None:
    """Put a new corner in the place of the least weight, and find the nearest point of the simplex.

    At most ``apart`` of its corners differ.
    """
    slot = np.argmin(weight[live], axis=1)
    simplex[live, slot], on_a[live, slot] = new, far_a
    # A place without weight holds a stale corner: it repeats the new one, so it changes nothing.
    stale = weight[live] <= 0
    simplex[live] = np.where(stale[:, :, None], new[:, None, :], simplex[live])
    on_a[live] = np.where(stale[:, :, None], far_a[:, None, :], on_a[live])
    weight[live] = _nearest(simplex[live], apart)


def _nearest(corners: Array, apart: int) -> Array:
    """Return the weights (n, 4) of the point of the tetrahedra (n, 4, 3) that is nearest to the origin.

    Where fewer than four corners are ``apart`` they have no inside, with two no face either.
    """
    n = len(corners)
    gram = corners @ corners.transpose(0, 2, 1)
    found = [_edges(gram)]
    if apart > 2:
        found.append(_faces(gram))
    if apart > 3:
        found.append(_inside(corners))
    weights = np.concatenate(found, axis=1)
    squared = ((weights @ gram) * weights).sum(axis=2)
    squared = np.where(weights.sum(axis=2) > 0.5, squared, np.inf)
    return np.asarray(weights[np.arange(n), np.argmin(squared, axis=1)])


def _edges(gram: Array) -> Array:
    i, j = _EDGES[:, 0], _EDGES[:, 1]
    ii, jj, ij = gram[:, i, i], gram[:, j, j], gram[:, i, j]
    long = ii + jj - 2 * ij
    part = np.clip(np.where(long > 1e-14, (ii - ij) / np.where(long > 1e-14, long, 1.0), 0.0), 0.0, 1.0)
    weights = np.zeros((len(gram), len(_EDGES), 4))
    rows = np.arange(len(_EDGES))
    weights[:, rows, i], weights[:, rows, j] = 1.0 - part, part
    return weights


def _faces(gram: Array) -> Array:
    """Weights of the foot of the perpendicular on each face; all 0 where it lies outside the face."""
    i, j, k = _FACES.T
    ii = gram[:, i, i]
    aa = gram[:, j, j] - 2 * gram[:, i, j] + ii
    bb = gram[:, k, k] - 2 * gram[:, i, k] + ii
    ab = gram[:, j, k] - gram[:, i, j] - gram[:, i, k] + ii
    a0, b0 = gram[:, i, j] - ii, gram[:, i, k] - ii
    area = aa * bb - ab * ab
    flat = area <= 1e-12 * np.maximum(aa * bb, 1e-30)
    safe = np.where(flat, 1.0, area)
    s, t = (ab * b0 - bb * a0) / safe, (ab * a0 - aa * b0) / safe
    inside = ~flat & (s >= 0) & (t >= 0) & (s + t <= 1)
    weights = np.zeros((len(gram), len(_FACES), 4))
    rows = np.arange(len(_FACES))
    weights[:, rows, i], weights[:, rows, j], weights[:, rows, k] = 1 - s - t, s, t
    return weights * inside[:, :, None]


def _inside(corners: Array) -> Array:
    """Weights (n, 1, 4) of the origin within the tetrahedron; all 0 where it lies outside."""
    base = corners[:, :1]
    sides = corners[:, 1:] - base
    square = _crossed(sides[:, (1, 2, 0)], sides[:, (2, 0, 1)])  # to the faces that meet at the first corner
    volume = np.einsum("nk,nk->n", sides[:, 0], square[:, 0])
    scale = np.sqrt(np.einsum("nik,nik->ni", sides, sides)).prod(axis=1)
    flat = np.abs(volume) <= 1e-9 * np.maximum(scale, 1e-30)
    weights = np.empty((len(corners), 4))
    weights[:, 1:] = -np.einsum("nk,nik->ni", base[:, 0], square) / np.where(flat, 1.0, volume)[:, None]
    weights[:, 0] = 1.0 - weights[:, 1:].sum(axis=1)
    inside = ~flat & (weights >= 0).all(axis=1)
    return np.asarray((weights * inside[:, None])[:, None, :])


def _crossed(a: Array, b: Array) -> Array:
    """Return the products square to both (..., 3), without the detours that ``np.cross`` makes for each."""
    first, last = (1, 2, 0), (2, 0, 1)
    return np.asarray(a[..., first] * b[..., last] - a[..., last] * b[..., first])


def _surfaces(a: Convex, b: Convex, here: Array, on_a: Array, distance: Array) -> Gap:
    """Move from the cores to the surfaces; where even the cores overlap, find the depth."""
    size = np.linalg.norm(here, axis=1)
    unit = here / np.where(size > 1e-9, size, 1.0)[:, None]
    point_a = on_a - a.round_mm[:, None] * unit
    point_b = on_a - here + b.round_mm[:, None] * unit
    deep = np.flatnonzero(size < 1e-6)
    if len(deep):
        distance = distance.copy()
        distance[deep] = -_depth(a[deep], b[deep])
    return Gap(distance, point_a, point_b)


def _depth(a: Convex, b: Convex) -> Array:
    """Return the least way (n,) b must move to come clear of a, over some 200 directions: never too small."""
    directions = _directions()
    depth = np.empty(len(a))
    for start in range(0, len(a), _PAIRS_AT_ONCE):
        rows = np.arange(start, min(start + _PAIRS_AT_ONCE, len(a)))
        each = np.repeat(rows, len(directions))
        every = np.tile(directions, (len(rows), 1))
        reach = a[each].support(every) + b[each].support(-every)
        depth[rows] = reach.reshape(len(rows), -1).min(axis=1)
    return depth


@cache
def _directions() -> Array:
    """Return unit vectors (206, 3): the axes, and a spiral over the sphere (Vogel, 1979)."""
    count = 200
    i = np.arange(count) + 0.5
    z, angle = 1 - 2 * i / count, np.pi * (1 + np.sqrt(5)) * i
    ring = np.sqrt(1 - z * z)
    spiral = np.stack([ring * np.cos(angle), ring * np.sin(angle), z], axis=1)
    return np.concatenate([np.eye(3), -np.eye(3), spiral])
