"""How near the cloth comes to an outline on a tack, at every length of cloth from nothing to the chord.

The model, one slice square to the mast. The cloth swings about the luff point. A leech that passes
enters every gap between supports and slides off each in turn, so supports shelter together only
where they overlap in angle as seen from the luff, and a length of cloth that ends short of a
support is not held by it. A cloth that ends on the side of a support still enters the corner it
makes with the next; so a support counts from the farthest of it that the luff sees, and the mast by
itself from its nearest point. What the cloth can do to an outline is the worst over all lengths; it
is enough to ask at the chord and just short of each of these distances, since between two of them
what holds stays the same and a longer cloth reaches farther.

So what holds is always the first k of a row: the boundary depends on where the luff and the
supports are, and the sails on one stay share it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.tack.directions import COUNT, along_all
from mastlayout.geometry.tack.shade import Shades, shades

# What stands first among the names of what holds.
MAST_NAME = 0
_STEP = 2 * np.pi / COUNT
# Two supports whose distances differ by less are as far off: no cloth ends between them.
PAIR_MM = 0.01
# Where each support begins to face a luff and where it ends, as ``_edges`` gives them.
Edges = Sequence[tuple[Whole, Array, Array]]


@dataclass(frozen=True, eq=False)
class Slices:
    """m slices of one luff: ``luff`` (m, 2), ``support`` (m, s, COUNT) of what holds cloth, nearest first.

    ``distance`` (m, s) is how long the cloth must be for each to hold it, inf where there is none;
    ``name`` (m, s) says which it is, -1 for none; ``low`` and ``high`` (m, s) are the angles from
    straight aft between which it is seen. The mast is there twice: first by itself, until the cloth is
    as long as ``until`` (m, s), inf for all else. ``inside`` (m,) where the luff lies within one:
    nothing can be said there.
    """

    luff: Array
    support: Array
    distance: Array
    name: Whole
    low: Array
    high: Array
    until: Array
    inside: Mask


def sliced(luff: Array, support: Array, name: Whole) -> Slices:
    """Sort what holds cloth (m, s, COUNT) by distance; nan, and what is not abaft the luff, holds nothing."""
    nearest = distance_from(luff[:, None, :], support)
    holding = (support[:, :, 0] <= luff[:, None, 0]) & (nearest > 0)
    edges = tuple(_edges(along_all(luff)[:, None, :] - support))
    farthest = np.where(holding, _farthest(edges), np.inf)
    low, high = _angles(edges)
    alone = np.where(holding & (name == MAST_NAME), nearest, np.inf)
    distance = np.concatenate([farthest, alone], axis=1)
    most = int(np.isfinite(distance).sum(axis=1).max(initial=1))
    order = np.argsort(distance, axis=1, kind="stable")[:, :most]
    distance = np.take_along_axis(distance, order, axis=1)
    there, own = np.isfinite(distance), order % support.shape[1]
    return Slices(
        luff,
        np.where(there[:, :, None], np.take_along_axis(support, own[:, :, None], axis=1), np.nan),
        distance,
        np.where(there, np.take_along_axis(name, own, axis=1), -1),
        np.take_along_axis(low, own, axis=1),
        np.take_along_axis(high, own, axis=1),
        np.where(order < support.shape[1], np.inf, np.take_along_axis(farthest, own, axis=1)),
        np.asarray((nearest <= 0).any(axis=1)),
    )


def distance_from(point: Array, support: Array) -> Array:
    """Return how far points (…, 2) are from outlines (…, COUNT), at most 0 inside."""
    return np.asarray((along_all(point) - support).max(axis=-1))


@dataclass(frozen=True, eq=False)
class Boundary:
    """What holds the cloth of m slices: each group that shelters once, and where it counts.

    ``which`` (m, s + 1, g) is the index among ``shades`` of each group of the k nearest supports,
    -1 where there is no such group; ``members`` (k, s) are the supports of each shade.
    """

    slices: Slices
    shades: Shades
    members: Mask
    which: Whole

    def bellied(self, belly: float) -> "Boundary":
        """Return it for cloth that hangs in between two supports by a part of their distance."""
        return replace(self, shades=self.shades.bellied(belly))

    @cached_property
    def first(self) -> Whole:
        """Where (m + 1,) the shades of each slice begin, and where the last one's end."""
        last = self.which.reshape(len(self.which), -1).max(axis=1, initial=-1) + 1
        return np.concatenate([[0], np.maximum.accumulate(last)])

    @cached_property
    def bridged(self) -> Mask:
        """Tell of each slice (m,) whether cloth hangs between two supports of one group there."""
        found = np.zeros(len(self.which), dtype=bool)
        several = self.members.sum(axis=1) > 1
        found[np.nonzero((self.which >= 0) & several[self.which])[0]] = True
        return found


def boundary(slices: Slices) -> Boundary:
    """Work out all that the clearances of one luff need; it depends on no fitting and no sail."""
    m, s = slices.distance.shape
    holds = np.tril(np.ones((s + 1, s), dtype=bool), -1) & np.isfinite(slices.distance)[:, None, :]
    begins = np.concatenate([np.zeros((m, 1)), slices.distance], axis=1)
    holds &= slices.until[:, None, :] > begins[:, :, None]
    group = _groups(slices.low, slices.high, holds, np.isfinite(slices.until))
    groups = max(int(group.max(initial=-1)) + 1, 1)
    member = group[:, :, None, :] == np.arange(groups)[:, None]  # (m, s + 1, g, s)
    bits = (member * (1 << np.arange(s))).sum(axis=3)
    key = np.arange(m)[:, None, None] * (1 << s) + bits
    unique, first, inverse = np.unique(key, return_index=True, return_inverse=True)
    real = (unique % (1 << s)) > 0
    at = first[real]
    number = np.full(len(unique), -1)
    number[real] = np.arange(real.sum())
    where = at // ((s + 1) * groups)
    members = member.reshape(-1, s)[at]
    made = shades(slices.luff, slices.support, where, members)
    return Boundary(slices, made, members, number[inverse].reshape(m, s + 1, groups))


def _farthest(edges: Edges) -> Array:
    """Return how far (m, s) the farther is of the two points at which lines from the luff touch each support.

    What a luff sees of a convex support is nowhere farther.
    """
    # Where two support lines of neighbouring directions cross.
    ends = [np.hypot(here, (there - here * np.cos(_STEP)) / np.sin(_STEP)) for _at, here, there in edges]
    return np.asarray(np.maximum(*ends))


def _edges(faces: Array) -> Iterator[tuple[Whole, Array, Array]]:
    """Yield where (m, s) each support (m, s, COUNT) begins to face the luff and where it ends.

    The index of the direction before, and how far the luff stands beyond the support there and at
    the next.
    """
    following = np.roll(faces, -1, axis=2)
    for before in ((faces < 0) & (following >= 0), (faces >= 0) & (following < 0)):
        at = np.argmax(before, axis=2)
        here, there = (np.take_along_axis(own, at[:, :, None], axis=2)[:, :, 0] for own in (faces, following))
        yield at, here, there


def _angles(edges: Edges) -> tuple[Array, Array]:
    """Return the angles (m, s) between which each support is seen, from straight aft."""
    found = []
    for sign, (at, here, there) in zip((1.0, -1.0), edges, strict=True):
        normal = (at + here / np.where(here == there, 1.0, here - there)) * _STEP
        # The tangent runs square to its normal, away from the luff.
        found.append(np.angle(np.exp(1j * (normal - sign * np.pi / 2 - np.pi))))
    return np.minimum(*found), np.maximum(*found)


def _groups(low: Array, high: Array, holds: Mask, alone: Mask) -> Array:
    """Return the groups (m, e, s) of supports that overlap in angle, numbered from 0; -1 for none.

    What is ``alone`` (m, s) is a group by itself, the last.
    """
    together = holds & ~alone[:, None, :]
    low = np.where(together, low[:, None, :], np.inf)
    high = np.where(together, high[:, None, :], -np.inf)
    order = np.argsort(low, axis=2)
    reached = np.maximum.accumulate(np.take_along_axis(high, order, axis=2), axis=2)
    begins = np.ones(low.shape, dtype=bool)
    begins[:, :, 1:] = np.take_along_axis(low, order, axis=2)[:, :, 1:] > reached[:, :, :-1]
    number = np.cumsum(begins, axis=2) - 1
    group = np.empty(low.shape, dtype=int)
    np.put_along_axis(group, order, number, axis=2)
    group = np.where(together, group, -1)
    return np.where(holds & alone[:, None, :], group.max(axis=2, keepdims=True) + 1, group)


@dataclass(frozen=True, eq=False)
class Depths:
    """How r outlines lie to the boundary: ``away`` (r,) from the luff.

    ``depth`` (r, s + 1) how far inside the best group of the k nearest supports, -inf without one;
    ``best`` (r, s + 1) is the shade it lies in, -1 for none.
    """

    away: Array
    depth: Array
    best: Whole

    def __getitem__(self, rows: Whole) -> "Depths":
        return Depths(self.away[rows], self.depth[rows], self.best[rows])


def depths(edge: Boundary, row: Whole, support: Array, away: Array, near_mm: float) -> Depths:
    """Return how outlines of support (r, COUNT) lie to the boundary of slices ``row`` (r,).

    A length of cloth that ends more than ``near_mm`` short of an outline is not asked for.
    """
    which, first = edge.which[row], edge.first[row]
    count = edge.first[row + 1] - first
    before = np.cumsum(count) - count
    own = np.repeat(np.arange(len(row)), count)
    shade = np.arange(len(own)) + np.repeat(first - before, count)
    # Last stands what no shade is asked for.
    inside = np.append(edge.shades.depth(shade, support[own]), -np.inf)
    reach = np.concatenate([edge.slices.distance[row], np.full((len(row), 1), np.inf)], axis=1)
    asked = (which >= 0) & (reach >= away[:, None] - near_mm)[:, :, None]
    depth = inside[np.where(asked, which + (before - first)[:, None, None], -1)]
    best = depth.argmax(axis=2)[:, :, None]
    deepest = np.take_along_axis(depth, best, axis=2)[:, :, 0]
    shade_of = np.take_along_axis(which, best, axis=2)[:, :, 0]
    return Depths(away, deepest, np.where(np.isfinite(deepest), shade_of, -1))


@dataclass(frozen=True, eq=False)
class Cleared:
    """What cloth of q lengths does to outlines: clearances (q,), negative by how far they stand out.

    ``held`` is the least over the lengths that reach the mast or meet nothing in front of the
    outline: negative, it bears. ``loose`` is the least over the lengths between: negative, the
    leech whips it. Each is inf where there is no such length. ``shade`` (q,) is what shelters the
    outline at the length of ``held``, -1 for nothing.
    """

    held: Array
    loose: Array
    shade: Whole


def cleared(edge: Boundary, row: Whole, found: Depths, chord: Array) -> Cleared:
    """Return what cloth of chords (q,) does to outlines (q,) of slices ``row`` (q,)."""
    distance = edge.slices.distance[row]
    reached = (distance <= chord[:, None]).sum(axis=1)
    step = np.arange(distance.shape[1] + 1)
    # Just short of the next support the cloth ends, or at its chord.
    length = np.concatenate([distance, np.full((len(row), 1), np.inf)], axis=1)
    length = np.where(step == reached[:, None], chord[:, None], length)
    shortest = np.concatenate([np.zeros((len(row), 1)), distance], axis=1)
    # Between a pair as far off to port as to starboard no cloth ends.
    some = (step <= reached[:, None]) & (shortest + np.where(step > 0, PAIR_MM, 0.0) <= length)
    at = np.where(some, np.maximum(found.away[:, None] - length, found.depth), np.inf)
    nearer = distance[:, :1] < found.away[:, None]
    place = np.where(edge.slices.name[row] == MAST_NAME, step[:-1], -1).max(axis=1)
    place = np.where(place < 0, len(step), place)
    between = (step > 0) & nearer & (step <= place[:, None])
    held = np.where(between, np.inf, at)
    worst = held.argmin(axis=1)[:, None]
    return Cleared(
        np.take_along_axis(held, worst, axis=1)[:, 0],
        np.where(between, at, np.inf).min(axis=1),
        np.take_along_axis(found.best, worst, axis=1)[:, 0],
    )
