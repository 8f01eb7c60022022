"""Solids on arrays: balls, tubes, cans, boxes and tapered bars, all convex, as one record.

A solid is the hull of two ends, each end a flat disc (``radius`` square to ``axis``) or a
rectangle or box (``spans``: half edges), all grown by ``round_mm``. Its support, the farthest it
reaches in a direction, is then one formula for all of them.
"""

from collections.abc import Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, Mask, Whole
from mastlayout.geometry.tilted import Discs, Edges, Tilted, least
from mastlayout.model.kind import Ball, Box, Can, Solid, Tube

# What differs by less stands upright.
_ENOUGH_MM = 0.005
# So many are cut at once: their arrays stay near the processor.
_AT_ONCE = 4096
# The spans of what has none.
_NO_SPANS = np.zeros((1, 2, 3, 3))


@dataclass(frozen=True, eq=False)
class Solids:
    """n solids. Arrays: ends (n, 2, 3), radius (n, 2), axis (n, 3), spans (n, 2, 3, 3), round_mm (n,)."""

    ends: Array
    radius: Array
    axis: Array
    spans: Array
    round_mm: Array

    def __len__(self) -> int:
        return len(self.round_mm)

    def __getitem__(self, index: Index) -> "Solids":
        round_mm = self.round_mm[index]
        # Where one nought stands for the spans of all it stands for those of some.
        bare = self.spans.strides[0] == 0 and not self.spans[:1].any()
        spans = np.broadcast_to(_NO_SPANS, (len(round_mm), 2, 3, 3)) if bare else self.spans[index]
        return Solids(self.ends[index], self.radius[index], self.axis[index], spans, round_mm)

    def replaced(self, index: Index, others: "Solids") -> "Solids":
        """Return the solids with those of ``index`` replaced by as many others."""
        fields = [own.copy() for own in (self.ends, self.radius, self.axis, self.spans, self.round_mm)]
        for own, new in zip(
            fields, (others.ends, others.radius, others.axis, others.spans, others.round_mm), strict=True
        ):
            own[index] = new
        return Solids(*fields)

    def core(self, direction: Array) -> Array:
        """Return the farthest points (n, 3) of the solids less their rounding, in directions (n, 3)."""
        value = np.einsum("nek,nk->ne", self.ends, direction)
        across = reach = None
        # Neither a ball nor a tube has discs at its ends, nor a can a box: that is most of them.
        if self.radius.any():
            across = direction - np.einsum("nk,nk->n", direction, self.axis)[:, None] * self.axis
            size = np.sqrt(np.einsum("nk,nk->n", across, across))
            value += self.radius * size[:, None]
            across /= np.where(size > 1e-12, size, 1.0)[:, None]
        if self.spans.any():
            reach = np.einsum("nesk,nk->nes", self.spans, direction)
            value += np.abs(reach).sum(axis=2)
        row, end = np.arange(len(self)), (value[:, 1] > value[:, 0]).astype(np.intp)
        core = self.ends[row, end]
        if across is not None:
            core += self.radius[row, end][:, None] * across
        if reach is not None:
            signs = np.where(reach[row, end] >= 0, 1.0, -1.0)
            core += np.einsum("ns,nsk->nk", signs, self.spans[row, end])
        return np.asarray(core)

    def support(self, direction: Array) -> Array:
        """Return how far (n,) the solids reach from the origin in unit directions (n, 3) or one (3,)."""
        direction = np.broadcast_to(direction, (len(self), 3))
        return np.asarray(np.einsum("nk,nk->n", self.core(direction), direction) + self.round_mm)

    @property
    def centre(self) -> Array:
        """The middles (n, 3) of the solids."""
        return np.asarray(self.ends.mean(axis=1))

    @property
    def bound_mm(self) -> Array:
        """Radii (n,) of balls round ``centre`` that hold the solids."""
        half = np.linalg.norm(self.ends - self.centre[:, None, :], axis=2)
        spans = np.linalg.norm(self.spans, axis=3).sum(axis=2)
        return np.asarray((half + self.radius + spans).max(axis=1) + self.round_mm)

    def span_z(self) -> tuple[Array, Array]:
        """Return the lowest and highest heights (n,) the solids reach."""
        # ``support`` straight up and down, which every fitting that is placed asks for.
        level = np.hypot(self.axis[:, 0], self.axis[:, 1])
        reach = self.radius * level[:, None] + np.abs(self.spans[..., 2]).sum(axis=2)
        z_mm = self.ends[..., 2]
        low, high = (z_mm - reach).min(axis=1), (z_mm + reach).max(axis=1)
        return np.asarray(low - self.round_mm), np.asarray(high + self.round_mm)

    @property
    def upright(self) -> Mask:
        """Tell of each solid (n,) whether it is cut alike at every height, its rounding left out."""
        level = np.abs(self.ends[:, 0, :2] - self.ends[:, 1, :2]).max(axis=1) < _ENOUGH_MM
        disc = (self.radius[:, 0] == self.radius[:, 1]) & (
            (np.abs(self.axis[:, 2]) > 1 - 1e-9) | (self.radius[:, 0] == 0)
        )
        flat = np.abs(self.spans[..., 2]) < _ENOUGH_MM
        plumb = np.abs(self.spans[..., :2]).max(axis=3) < _ENOUGH_MM
        box = (flat | plumb).all(axis=(1, 2)) & (
            np.abs(self.spans[:, 0] - self.spans[:, 1]).max(axis=(1, 2)) == 0
        )
        return np.asarray(level & disc & box)

    def slice(self, z_mm: Array, directions: Array) -> Array:
        """Return the support (n, m, k) of the cut at heights (m,) in directions (k, 2); nan where missed.

        What is returned is never less than the true support, and for straight edges it is that
        (``geometry/tilted.py``).
        """
        low, high = self.span_z()
        n, m, k = len(self), len(z_mm), len(directions)
        row, height, way = (part.reshape(-1) for part in np.indices((n, m, k)))
        z = np.asarray(z_mm, dtype=float)
        inside = (z[height] >= low[row]) & (z[height] <= high[row])
        cut = np.full(n * m * k, np.nan)
        asked = np.flatnonzero(inside)
        cut[asked] = self.cut(z[height[asked]], np.asarray(directions)[way[asked]], row[asked])
        return cut.reshape(n, m, k)

    def cut(self, z_mm: Array, directions: Array, which: Whole) -> Array:
        """Return the support (m,) of cuts of solids ``which`` (m,) at heights (m,) in directions (m, 2)."""
        best = np.empty(len(which))
        # Neither a ball nor a tube has discs at its ends, nor a can a box: that is most of them.
        discs, boxes = self.radius.any(axis=1), self.spans.any(axis=(1, 2, 3))
        kind = np.asarray(discs + 2 * boxes)
        for one in np.unique(kind).tolist():
            every = np.flatnonzero(kind[which] == one)
            for first in range(0, len(every), _AT_ONCE):
                own = every[first : first + _AT_ONCE]
                tilted = self._tilted(which[own], z_mm[own], directions[own], discs=one % 2, boxes=one // 2)
                best[own] = least(tilted)
        return best

    def _tilted(self, which: Whole, z_mm: Array, directions: Array, *, discs: int, boxes: int) -> Tilted:
        """Return all that tilting takes for cuts of solids ``which`` (m,), discs and boxes or not."""
        ways, ends = directions.T, self.ends.transpose(1, 2, 0)[..., which]
        level = np.einsum("ekm,km->em", ends[:, :2], ways)
        found = edges = None
        if discs:
            square = square_to(self.axis).transpose(1, 2, 0)[..., which]
            flat = np.einsum("ekm,km->em", square[:, :2], ways)
            found = Discs(self.radius.T[:, which], flat, square[:, 2])
        if boxes:
            spans = self.spans.transpose(1, 2, 3, 0)[..., which]
            edges = Edges(np.einsum("eskm,km->esm", spans[:, :, :2], ways), spans[:, :, 2])
        return Tilted(level, ends[:, 2] - z_mm, self.round_mm[which], found, edges)

    def moved(self, origin: Array, axes: Array) -> "Solids":
        """Return the solids (p * n) seated at p frames: origins (p, 3), axes (p, 3, 3) as rows."""
        places, n = len(origin), len(self)
        ends = np.einsum("nek,pkj->pnej", self.ends, axes) + origin[:, None, None, :]
        axis = np.einsum("nk,pkj->pnj", self.axis, axes)
        spans = np.einsum("nesk,pkj->pnesj", self.spans, axes)
        return Solids(
            ends.reshape(places * n, 2, 3),
            np.tile(self.radius, (places, 1)),
            axis.reshape(places * n, 3),
            spans.reshape(places * n, 2, 3, 3),
            np.tile(self.round_mm, places),
        )


def joined(parts: Sequence[Solids]) -> Solids:
    """Return several arrays of solids as one."""
    return Solids(
        np.concatenate([p.ends for p in parts]) if parts else np.empty((0, 2, 3)),
        np.concatenate([p.radius for p in parts]) if parts else np.empty((0, 2)),
        np.concatenate([p.axis for p in parts]) if parts else np.empty((0, 3)),
        np.concatenate([p.spans for p in parts]) if parts else np.empty((0, 2, 3, 3)),
        np.concatenate([p.round_mm for p in parts]) if parts else np.empty(0),
    )


def tubes(start: Array, end: Array, radius_mm: Array | float) -> Solids:
    """Return n tubes with round ends between points (n, 3) and (n, 3)."""
    n = len(start)
    return Solids(
        np.stack([start, end], axis=1).astype(float),
        np.zeros((n, 2)),
        _axes(start, end),
        np.zeros((n, 2, 3, 3)),
        np.broadcast_to(np.asarray(radius_mm, dtype=float), (n,)).copy(),
    )


def cans(start: Array, end: Array, radius_mm: Array, end_radius_mm: Array) -> Solids:
    """Return n cans with flat ends of radii (n,) and (n,)."""
    n = len(start)
    return Solids(
        np.stack([start, end], axis=1).astype(float),
        np.stack([radius_mm, end_radius_mm], axis=1).astype(float),
        _axes(start, end),
        np.zeros((n, 2, 3, 3)),
        np.zeros(n),
    )


def bar(start: Array, end: Array, start_spans: Array, end_spans: Array) -> Solids:
    """Return one bar between two points (3,), its ends rectangles of half edges (3, 3), padded with 0."""
    return Solids(
        np.stack([start, end])[None].astype(float),
        np.zeros((1, 2)),
        _axes(start[None], end[None]),
        np.stack([start_spans, end_spans])[None].astype(float),
        np.zeros(1),
    )


def square_to(axis: Array) -> Array:
    """Return two unit vectors (n, 2, 3) square to unit vectors (n, 3) and to each other."""
    # Crossed with the one of the three directions that it lies least along, none comes out short.
    other = np.eye(3)[np.abs(axis).argmin(axis=1)]
    one = np.cross(axis, other)
    one /= np.linalg.norm(one, axis=1, keepdims=True)
    return np.stack([one, np.cross(axis, one)], axis=1)


def _axes(start: Array, end: Array) -> Array:
    along = np.asarray(end, dtype=float) - np.asarray(start, dtype=float)
    size = np.linalg.norm(along, axis=1, keepdims=True)
    return np.asarray(np.where(size > 1e-9, along / np.where(size > 1e-9, size, 1.0), (0.0, 0.0, 1.0)))


def solids_of(solids: Sequence[Solid]) -> Solids:
    """Return the solids of a kind in the fitting's own frame: across, along, out."""
    n = len(solids)
    if not n:
        return _NONE
    ends, radius, size, round_mm = np.zeros((n, 2, 3)), np.zeros((n, 2)), np.zeros((n, 1, 3)), np.zeros(n)
    for i, solid in enumerate(solids):
        match solid:
            case Ball():
                ends[i], round_mm[i] = solid.centre, solid.radius_mm
            case Tube():
                ends[i], round_mm[i] = (solid.start, solid.end), solid.radius_mm
            case Can():
                last = solid.radius_mm if solid.end_radius_mm is None else solid.end_radius_mm
                ends[i], radius[i] = (solid.start, solid.end), (solid.radius_mm, last)
            case Box():
                ends[i], size[i] = solid.centre, solid.size
    spans = np.zeros((n, 2, 3, 3))
    spans[:, :, _THREE, _THREE] = size / 2
    return Solids(ends, radius, _axes(ends[:, 0], ends[:, 1]), spans, round_mm)


_THREE = np.arange(3)
_NONE = joined([])
