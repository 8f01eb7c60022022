"""How near the cloth comes to an outline on a tack, at every length of cloth from nothing to the chord.

The model, one slice square to the mast. The cloth swings about the luff point. A leech that passes
enters every gap between supports and slides off each in turn, so supports shelter together only
where they overlap in angle as seen from the luff, and a length of cloth that ends short of a
support is not held by it. What the cloth can do to an outline is the worst over all lengths; it is
enough to ask at the chord and just short of each support, since between two of these the supports
that hold stay the same and a longer cloth reaches farther.
"""

from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.tack.directions import DIRECTIONS
from mastlayout.geometry.tack.shade import Shades, shades


@dataclass(frozen=True, eq=False)
class Slices:
    """m slices of one sail state.

    ``luff`` (m, 2) and ``chord`` (m,); ``support`` (m, s, COUNT) of the bodies that hold cloth, nan
    where one does not reach the slice; ``mast`` is the index of the mast among them.
    """

    luff: Array
    chord: Array
    support: Array
    mast: int

    @property
    def inside(self) -> Mask:
        """The slices (m,) whose luff lies inside a support: nothing can be said there."""
        out = np.einsum("mk,nk->mn", self.luff, DIRECTIONS)[:, None, :] - self.support
        return np.asarray(((out < 0) | np.isnan(out)).all(axis=2) & ~np.isnan(self.support).any(axis=2)).any(
            axis=1
        )


@dataclass(frozen=True, eq=False)
class Lengths:
    """The lengths of cloth to ask at: ``length`` (m, e), the chord last, nan where there is none.

    ``group`` (m, e, s) tells of each support in which group it shelters, -1 where the cloth ends
    short of it; ``distance`` (m, s) how far each is from the luff, inf where it is not there.
    """

    length: Array
    group: Array
    distance: Array


def lengths(slices: Slices) -> Lengths:
    """Return the lengths at which a slice's cloth must be asked, and what holds it at each."""
    distance = distance_from(slices.luff[:, None, :], slices.support)
    distance = np.where(np.isnan(distance), np.inf, distance)
    chord = slices.chord[:, None]
    length = np.concatenate([np.where(distance < chord, distance, np.nan), chord], axis=1)
    # Just short of a support it does not hold yet; at the chord's own length it does.
    holds = distance[:, None, :] < length[:, :, None]
    holds[:, -1] = distance <= chord
    low, high = _angles(slices)
    return Lengths(length, _groups(low, high, holds), distance)


def distance_from(point: Array, support: Array) -> Array:
    """Return how far points (…, 2) are from outlines (…, COUNT), at most 0 inside."""
    return np.asarray((point @ DIRECTIONS.T - support).max(axis=-1))


def _angles(slices: Slices) -> tuple[Array, Array]:
    """Return the angles (m, s) between which each support is seen, from straight aft."""
    faces = (slices.luff @ DIRECTIONS.T)[:, None, :] - slices.support
    following = np.roll(faces, -1, axis=2)
    count = faces.shape[2]
    step = 2 * np.pi / count
    found = []
    for before, sign in (((faces < 0) & (following >= 0), 1.0), ((faces >= 0) & (following < 0), -1.0)):
        at = np.argmax(before, axis=2)
        here = np.take_along_axis(faces, at[:, :, None], axis=2)[:, :, 0]
        there = np.take_along_axis(following, at[:, :, None], axis=2)[:, :, 0]
        normal = (at + here / np.where(here == there, 1.0, here - there)) * step
        # The tangent runs square to its normal, away from the luff.
        found.append(np.angle(np.exp(1j * (normal + sign * np.pi / 2 - np.pi))))
    return np.minimum(*found), np.maximum(*found)


def _groups(low: Array, high: Array, holds: Mask) -> Array:
    """Return the groups (m, e, s) of supports that overlap in angle, numbered from 0; -1 for none."""
    low = np.where(holds, low[:, None, :], np.inf)
    high = np.where(holds, high[:, None, :], -np.inf)
    order = np.argsort(low, axis=2)
    reached = np.maximum.accumulate(np.take_along_axis(high, order, axis=2), axis=2)
    begins = np.ones(low.shape, dtype=bool)
    begins[:, :, 1:] = np.take_along_axis(low, order, axis=2)[:, :, 1:] > reached[:, :, :-1]
    number = np.cumsum(begins, axis=2) - 1
    group = np.empty(low.shape, dtype=int)
    np.put_along_axis(group, order, number, axis=2)
    return np.where(holds, group, -1)


@dataclass(frozen=True, eq=False)
class Boundary:
    """What holds the cloth of m slices: each group that shelters once, and where it counts.

    ``shades`` (k); ``which`` (m, e, g) is the index of a shade, -1 where there is no such group.
    """

    slices: Slices
    lengths: Lengths
    shades: Shades
    which: Array


def boundary(slices: Slices, belly: float) -> Boundary:
    """Work out all that the clearances of one sail state need; it depends on no fitting."""
    asked = lengths(slices)
    m, e, s = asked.group.shape
    groups = max(int(asked.group.max(initial=-1)) + 1, 1)
    member = asked.group[:, :, None, :] == np.arange(groups)[:, None]  # (m, e, g, s)
    bits = (member * (1 << np.arange(s))).sum(axis=3)
    key = np.arange(m)[:, None, None] * (1 << s) + bits
    unique, first, inverse = np.unique(key, return_index=True, return_inverse=True)
    real = (unique % (1 << s)) > 0
    at = first[real]
    number = np.full(len(unique), -1)
    number[real] = np.arange(real.sum())
    where = at // (e * groups)
    made = shades(slices.luff[where], slices.support[where], member.reshape(-1, s)[at], belly)
    return Boundary(slices, asked, made, number[inverse].reshape(m, e, groups))


@dataclass(frozen=True, eq=False)
class Cleared:
    """What the cloth does to r outlines: clearances (r,), negative by how far they stand beyond the boundary.

    ``held`` is the least over the lengths that reach the mast or meet nothing in front of the
    outline: negative, it bears. ``loose`` is the least over the lengths between: negative, the
    leech whips it. Each is inf where there is no such length. ``length`` (r, 2) is the cloth of each.
    """

    held: Array
    loose: Array
    length: Array


def cleared(edge: Boundary, row: Array, support: Array) -> Cleared:
    """Return what the cloth of slices ``row`` (r,) does to outlines of support (r, COUNT)."""
    away = distance_from(edge.slices.luff[row], support)
    length = edge.lengths.length[row]
    at = np.where(np.isnan(length), np.inf, np.fmax(away[:, None] - length, _depth(edge, row, support)))
    holds = edge.lengths.group[row] >= 0
    in_front = (holds & (edge.lengths.distance[row] < away[:, None])[:, None, :]).any(axis=2)
    between = in_front & ~holds[:, :, edge.slices.mast]
    both = np.stack([np.where(between, np.inf, at), np.where(between, at, np.inf)], axis=1)
    worst = both.argmin(axis=2)
    least = np.take_along_axis(both, worst[:, :, None], axis=2)[:, :, 0]
    return Cleared(least[:, 0], least[:, 1], np.take_along_axis(length, worst, axis=1))


def _depth(edge: Boundary, row: Array, support: Array) -> Array:
    """Return how far inside its best group each outline lies at each length (r, e); -inf without one."""
    which = edge.which[row]
    depth = np.full(which.shape, -np.inf)
    r, e, g = np.nonzero(which >= 0)
    used, back = np.unique(np.stack([r, which[r, e, g]], axis=1), axis=0, return_inverse=True)
    depth[r, e, g] = edge.shades[used[:, 1]].depth(support[used[:, 0]])[back.reshape(-1)]
    return np.asarray(depth.max(axis=2))
