"""Solids on arrays: balls, tubes, cans, boxes and tapered bars, all convex, as one record.

A solid is the hull of two ends, each end a flat disc (``radius`` square to ``axis``) or a
rectangle or box (``spans``: half edges), all grown by ``round_mm``. Its support, the farthest it
reaches in a direction, is then one formula for all of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array, Index
from mastlayout.model.kind import Ball, Box, Can, Solid, Tube


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
        return Solids(
            self.ends[index], self.radius[index], self.axis[index], self.spans[index], self.round_mm[index]
        )

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
        along = np.einsum("nk,nk->n", direction, self.axis)
        across = direction - along[:, None] * self.axis
        size = np.sqrt(np.einsum("nk,nk->n", across, across))
        unit = across / np.where(size > 1e-12, size, 1.0)[:, None]
        reach = np.einsum("nesk,nk->nes", self.spans, direction)
        value = (
            np.einsum("nek,nk->ne", self.ends, direction)
            + self.radius * size[:, None]
            + np.abs(reach).sum(axis=2)
        )
        end = np.argmax(value, axis=1)
        row = np.arange(len(self))
        signs = np.where(reach[row, end] >= 0, 1.0, -1.0)
        return np.asarray(
            self.ends[row, end]
            + self.radius[row, end][:, None] * unit
            + np.einsum("ns,nsk->nk", signs, self.spans[row, end])
        )

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
        up = np.array([0.0, 0.0, 1.0])
        return -self.support(-up), self.support(up)

    def slice(self, z_mm: Array, directions: Array) -> Array:
        """Return the support (n, m, k) of the cut at heights (m,) in directions (k, 2); nan where missed.

        The support of a convex body's slice is the least, over a tilt t, of its own support in
        (direction, t) less t z: one search in one variable for every kind of solid.
        """
        low, high = self.span_z()
        n, m, k = len(self), len(z_mm), len(directions)
        tilt_low, tilt_high = np.full((n, m, k), -50.0), np.full((n, m, k), 50.0)
        golden = (np.sqrt(5.0) - 1) / 2
        for _step in range(48):
            width = tilt_high - tilt_low
            left, right = tilt_high - golden * width, tilt_low + golden * width
            lower = self._tilted(left, z_mm, directions) < self._tilted(right, z_mm, directions)
            tilt_high, tilt_low = np.where(lower, right, tilt_high), np.where(lower, tilt_low, left)
        cut = self._tilted((tilt_low + tilt_high) / 2, z_mm, directions)
        missed = (z_mm < low[:, None]) | (z_mm > high[:, None])
        return np.where(missed[:, :, None], np.nan, cut)

    def _tilted(self, tilt: Array, z_mm: Array, directions: Array) -> Array:
        n, m, k = tilt.shape
        full = np.empty((n, m, k, 3))
        full[..., :2] = directions
        full[..., 2] = tilt
        flat = full.reshape(-1, 3)
        repeated = self[np.repeat(np.arange(n), m * k)]
        size = np.linalg.norm(flat, axis=1)
        value = np.einsum("nk,nk->n", repeated.core(flat), flat) + repeated.round_mm * size
        return np.asarray(value.reshape(n, m, k) - tilt * np.asarray(z_mm)[None, :, None])

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


def _axes(start: Array, end: Array) -> Array:
    along = np.asarray(end, dtype=float) - np.asarray(start, dtype=float)
    size = np.linalg.norm(along, axis=1, keepdims=True)
    return np.asarray(np.where(size > 1e-9, along / np.where(size > 1e-9, size, 1.0), (0.0, 0.0, 1.0)))


def solids_of(solids: Sequence[Solid]) -> Solids:
    """Return the solids of a kind in the fitting's own frame: across, along, out."""
    n = len(solids)
    ends, radius, spans, round_mm = np.zeros((n, 2, 3)), np.zeros((n, 2)), np.zeros((n, 2, 3, 3)), np.zeros(n)
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
                ends[i], spans[i] = solid.centre, np.diag(solid.size) / 2
    return Solids(ends, radius, _axes(ends[:, 0], ends[:, 1]), spans, round_mm)
