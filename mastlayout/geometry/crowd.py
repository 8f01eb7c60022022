"""Many solids with owners, and the nearest of each owner to a fitting at one place or at many."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Protocol

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.distance import Convex, gap
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.solids import Solids, joined


class Long(Convex, Protocol):
    """Convex bodies about a line each."""

    @property
    def ends(self) -> Array:
        """The ends (k, 2, 3) of the lines."""


class Owned(Protocol):
    """Bodies with owners: a crowd of solids, and what else lies about lines; see ``Crowd``."""

    @property
    def ids(self) -> tuple[str, ...]:
        """The owners."""

    @property
    def solids(self) -> Long:
        """The bodies, k of them."""

    @property
    def owner(self) -> Whole:
        """The place (k,) of each one's owner."""

    @property
    def thick_mm(self) -> Array:
        """How far (k,) each reaches from its line."""


@dataclass(frozen=True, eq=False)
class Crowd:
    """k solids and their owners.

    ``owner`` (k,) is the place of each one's owner in ``ids``; ``thick_mm`` (k,) how far each
    reaches from its middle line.
    """

    ids: tuple[str, ...]
    solids: Solids
    owner: Whole
    thick_mm: Array


def crowd_of(members: Sequence[tuple[str, Solids]]) -> Crowd:
    """Return the solids of several owners as one crowd."""
    solids = joined([own for _id, own in members])
    owner = np.repeat(np.arange(len(members)), [len(own) for _id, own in members])
    spans = np.linalg.norm(solids.spans, axis=3).sum(axis=2)
    return Crowd(
        tuple(id_ for id_, _own in members),
        solids,
        owner,
        (solids.radius + spans).max(axis=1, initial=0.0) + solids.round_mm,
    )


def with_moved(crowd: Crowd, moved: Mapping[int, Solids]) -> Crowd:
    """Return a crowd in which the owners at some places of ``ids`` have other solids, as many as before.

    Of hundreds one moves at a time; joining all of them again would take the longest part of a move.
    """
    rows = np.flatnonzero(np.isin(crowd.owner, list(moved)))
    fresh = crowd_of([(crowd.ids[at], own) for at, own in sorted(moved.items())])
    thick = crowd.thick_mm.copy()
    thick[rows] = fresh.thick_mm
    return replace(crowd, solids=crowd.solids.replaced(rows, fresh.solids), thick_mm=thick)


@dataclass(frozen=True, eq=False)
class Nearest:
    """For n places and s owners: gaps (n, s) and where on the fitting (n, s, 3)."""

    gap_mm: Array
    point: Array


@dataclass(frozen=True, eq=False)
class Herd:
    """The solids of n fittings or places, one after the other; ``count`` (n,) is how many each has."""

    solids: Solids
    count: Whole

    @property
    def start(self) -> Whole:
        """Where each one's solids begin (n,)."""
        return np.asarray(np.cumsum(self.count) - self.count)


def nearest(herd: Herd, crowd: Owned, enough_mm: float, skip: Mask) -> Nearest:
    """Return how near each of n comes to each owner of a crowd, those of ``skip`` (n, s) left out.

    A gap of ``enough_mm`` or more is not worked out: ``enough_mm`` stands for it.
    """
    shape = (len(herd.count), len(crowd.ids))
    found, point = np.full(shape, enough_mm), np.full((*shape, 3), np.nan)
    if not len(herd.solids) or not len(crowd.solids):
        return Nearest(found, point)
    row, member = _close(herd, crowd, enough_mm, skip)
    if not len(row):
        return Nearest(found, point)
    first, second, row = _pairs(herd, row, member)
    gaps = gap(herd.solids[first], crowd.solids[second], enough_mm)
    owner = crowd.owner[second]
    np.minimum.at(found, (row, owner), gaps.distance_mm)
    least = gaps.distance_mm <= found[row, owner]
    point[row[least], owner[least]] = gaps.on_a[least]
    return Nearest(found, point)


def _pairs(herd: Herd, row: Whole, member: Whole) -> tuple[Whole, Whole, Whole]:
    """Return every solid of each row with its member: places in the herd, in the crowd, and rows."""
    count = herd.count[row]
    within = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    return np.repeat(herd.start[row], count) + within, np.repeat(member, count), np.repeat(row, count)


def _close(herd: Herd, crowd: Owned, enough_mm: float, skip: Mask) -> tuple[Whole, Whole]:
    """Return the pairs of row and member whose bounds come within ``enough_mm``."""
    some = np.flatnonzero(herd.count)
    starts, count = herd.start[some], herd.count[some]
    centre = herd.solids.centre
    middle = np.add.reduceat(centre, starts) / count[:, None]
    apart_own = np.linalg.norm(centre - np.repeat(middle, count, axis=0), axis=1) + herd.solids.bound_mm
    reach = np.maximum.reduceat(apart_own, starts)
    near = (_from_lines(middle, crowd) - crowd.thick_mm - reach[:, None] < enough_mm) & ~skip[some][
        :, crowd.owner
    ]
    row, member = np.nonzero(near)
    return some[row], member


def _from_lines(points: Array, crowd: Owned) -> Array:
    """Return how far (n, k) points (n, 3) are from the middle lines of a crowd's solids."""
    start = crowd.solids.ends[:, 0]
    step = crowd.solids.ends[:, 1] - start
    long = np.maximum(np.einsum("kj,kj->k", step, step), 1e-12)
    away = points[:, None, :] - start
    part = np.clip(np.einsum("nkj,kj->nk", away, step) / long, 0.0, 1.0)
    off = away - part[:, :, None] * step
    return np.asarray(np.sqrt(np.einsum("nkj,nkj->nk", off, off)))


def at_most_mm(herd: Herd, crowd: Crowd, skip: Mask) -> float:
    """Return a length that the least gap between a herd and a crowd is no larger than, cheap to find.

    Middles and middle lines lie within the solids. ``skip`` (s,) are the owners left out; inf where
    nothing is left.
    """
    lines = _from_lines(herd.solids.centre, crowd)
    return float(lines.min(axis=0, initial=np.inf, where=~skip[crowd.owner]).min(initial=np.inf))
