"""The skin of the mast: girth to place and back at any height, on arrays.

Girth runs round the convex outline as a tight tape does: 0 at the middle of the track on the aft
centreline, positive to starboard, to plus or minus half the girth at the forward centreline.
"""

import math
from collections.abc import Iterator
from dataclasses import field
from functools import cached_property

import numpy as np

from mastlayout.errors import NotKnownError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, bearing_direction
from mastlayout.geometry.outline import half_outline, hollows
from mastlayout.model.around import Around
from mastlayout.model.mast import Mast, Taper
from mastlayout.words import _

# A taper of 2 % changes a ring by 0.001 mm over this step.
_RING_STEP_MM = 0.1
_MOST_RINGS = 4096
# Many places in a taper share the rings at these steps.
_KNOT_MM = 25.0
# A chord this many times as long as its neighbour is a flat beside a curve or a corner.
_FLAT = 4.0


@dataclass(frozen=True, eq=False)
class Ring:
    """The outline at one height: knots from aft (girth 0) round starboard to ahead (half girth)."""

    girth: Array
    x: Array
    y: Array  # as distances off the centreline
    nx: Array
    ny: Array

    @property
    def half_girth_mm(self) -> float:
        """Half the tape girth."""
        return float(self.girth[-1])

    def wrapped(self, girth_mm: Array) -> Array:
        """Bring girths into -half to +half."""
        half = self.half_girth_mm
        return (np.asarray(girth_mm) + half) % (2 * half) - half

    def at(self, girth_mm: Array) -> tuple[Array, Array]:
        """Return the points (n, 2) and unit outward normals (n, 2) at girths (n,)."""
        wrapped = self.wrapped(girth_mm)
        along = np.abs(wrapped)
        value, slope = self._chords
        i = np.searchsorted(self.girth[1:-1], along, side="right")
        found = value[i]
        found += (along - self.girth[i])[:, None] * slope[i]
        found[wrapped > 0, 1::2] *= -1.0
        point, normal = found[:, :2], found[:, 2:]
        return point, normal / np.hypot(normal[:, 0], normal[:, 1])[:, None]

    @cached_property
    def _chords(self) -> tuple[Array, Array]:
        """Place and normal (k, 4) where each chord begins, and how they change with each mm of girth."""
        knots = np.stack([self.x, self.y, self.nx, self.ny], axis=-1)
        return knots[:-1], np.diff(knots, axis=0) / np.diff(self.girth)[:, None]

    @cached_property
    def _turned(self) -> Array:
        """The angles of the knots, less than nothing so that they rise: -pi at aft, 0 ahead."""
        return np.asarray(-np.arctan2(self.y, self.x))

    def girth_at_bearing(self, bearing_deg: float) -> float:
        """Return the girth where the ray from the axis at a bearing leaves the outline."""
        direction = bearing_direction(bearing_deg)
        sought = math.atan2(abs(direction[1]), direction[0])
        # Between two knots the ray cuts the chord, so the girth is found on the chord, not by angle.
        i = min(max(int(np.searchsorted(self._turned, -sought)) - 1, 0), len(self._turned) - 2)
        ray_x, ray_y = math.cos(sought), math.sin(sought)
        cross_a, cross_b = (float(self.x[k]) * ray_y - float(self.y[k]) * ray_x for k in (i, i + 1))
        part = cross_a / (cross_a - cross_b) if cross_a != cross_b else 0.0
        girth = self.girth[i] + min(max(part, 0.0), 1.0) * (self.girth[i + 1] - self.girth[i])
        return float(girth if direction[1] <= 0 else -girth)

    def polygon(self) -> Array:
        """Return the whole outline (n, 2), x and y, from aft round starboard."""
        starboard = np.stack([self.x, -self.y], -1)
        return np.concatenate([starboard, (starboard * (1.0, -1.0))[-2:0:-1]])

    def walls(self) -> tuple[Array, Array]:
        """Return its edges as half planes: outward normals (n, 2) and how far out each lies (n,)."""
        polygon = self.polygon()
        edge = np.roll(polygon, -1, axis=0) - polygon
        normal = np.stack([edge[:, 1], -edge[:, 0]], -1)
        if np.einsum("nk,nk->n", normal, polygon).sum() < 0:
            normal = -normal
        normal = normal / np.hypot(normal[:, 0], normal[:, 1])[:, None]
        return normal, np.einsum("nk,nk->n", normal, polygon)


def _ring(x: Array, y: Array) -> Ring:
    step = np.stack([np.diff(x), np.diff(y)], -1)
    length = np.hypot(step[:, 0], step[:, 1])
    # Walking from aft round to ahead the outward normal of the upper half plane is to the left.
    edge = np.stack([-step[:, 1], step[:, 0]], -1) / length[:, None]
    # Between like chords of a curve the normal is halfway; beside a far longer one it is that one's.
    flat = length[:-1] / length[1:]
    share = np.select([flat > _FLAT, flat < 1 / _FLAT], [1.0, 0.0], 0.5)[:, None]
    normal = np.empty((len(x), 2))
    normal[1:-1] = share * edge[:-1] + (1.0 - share) * edge[1:]
    normal[0], normal[-1] = (-1.0, 0.0), (1.0, 0.0)
    normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
    return Ring(np.concatenate([[0.0], np.cumsum(length)]), x, y, normal[:, 0], normal[:, 1])


@dataclass(frozen=True, eq=False)
class Skin:
    """The skin of one mast. Build it with ``skin_of``."""

    mast: Mast
    half: Array
    full: Ring
    hollow: Array
    _rings: dict[int, Ring] = field(default_factory=dict)

    @property
    def length_mm(self) -> float:
        """The mast's length, heel to masthead."""
        return self.mast.length_mm

    @property
    def taper(self) -> Taper | None:
        """The taper, or None where there is none or none is known."""
        return self.mast.taper if isinstance(self.mast.taper, Taper) else None

    @property
    def half_track_mm(self) -> float | None:
        """Half the width of the track or of the groove's slot; None where not known."""
        return self.mast.track.width_mm / 2 if self.mast.track else None

    def ring(self, z_mm: float) -> Ring:
        """Return the outline at a height."""
        taper = self.taper
        if taper is None or z_mm <= self.length_mm - taper.from_masthead_mm:
            return self.full
        key = round(min(z_mm, self.length_mm) / _RING_STEP_MM)
        if key not in self._rings:
            if len(self._rings) >= _MOST_RINGS:
                self._rings.clear()
            self._rings[key] = self._tapered(taper, key * _RING_STEP_MM)
        return self._rings[key]

    def _tapered(self, taper: Taper, z_mm: float) -> Ring:
        part = (z_mm - (self.length_mm - taper.from_masthead_mm)) / taper.from_masthead_mm
        aft, fore = self.half[0, 0], self.half[-1, 0]
        long = 1.0 + part * (taper.length_mm / (fore - aft) - 1.0)
        wide = 1.0 + part * (taper.width_mm / (2 * self.half[:, 1].max()) - 1.0)
        return _ring(aft + (self.half[:, 0] - aft) * long, self.half[:, 1] * wide)

    def half_girth(self, z_mm: Array) -> Array:
        """Return half the girth (n,) at heights (n,)."""
        half = np.full(np.shape(z_mm), self.full.half_girth_mm)
        for low, high, mask, part in self._knots(z_mm):
            half[mask] = low.half_girth_mm + part * (high.half_girth_mm - low.half_girth_mm)
        return half

    def wrapped(self, z_mm: Array, girth_mm: Array) -> Array:
        """Bring girths (…) at heights (…) into -half to +half; nan stays."""
        half = self.half_girth(np.asarray(z_mm))
        return np.asarray((girth_mm + half) % (2 * half) - half)

    def _knots(self, z_mm: Array) -> Iterator[tuple[Ring, Ring, Mask, Array]]:
        """Yield for the heights in the taper the rings below and above, their mask, and how far up they are.

        Between two rings a place keeps its share of the girth: over a knot that is exact to 0.0001 mm.
        """
        taper = self.taper
        if taper is None:
            return
        start = self.length_mm - taper.from_masthead_mm
        step = taper.from_masthead_mm / math.ceil(taper.from_masthead_mm / _KNOT_MM)
        inside = np.asarray(z_mm) > start
        knot = np.where(inside, np.minimum((z_mm - start) // step, taper.from_masthead_mm / step - 1), -1)
        for k in np.unique(knot[inside]):
            mask = knot == k
            low = start + k * step
            part = np.minimum((z_mm[mask] - low) / step, 1.0)
            yield self.ring(low), self.ring(low + step), mask, part

    def at(self, z_mm: Array, girth_mm: Array) -> tuple[Array, Array]:
        """Return points (…, 3) on the skin and outward normals (…, 3) at heights and girths (…).

        The slope of a taper is left out of the normal: at 2 degrees it moves a drill 0.1 mm in a
        wall of 3 mm.
        """
        z, girth = np.broadcast_arrays(np.asarray(z_mm, dtype=float), np.asarray(girth_mm, dtype=float))
        point, normal = np.zeros((*z.shape, 3)), np.zeros((*z.shape, 3))
        point[..., 2] = z
        below = np.ones(z.shape, dtype=bool)
        for low, high, mask, part in self._knots(z):
            below &= ~mask
            half = low.half_girth_mm + part * (high.half_girth_mm - low.half_girth_mm)
            share = ((girth[mask] + half) % (2 * half) - half) / half
            (p, n), (q, m) = (ring.at(share * ring.half_girth_mm) for ring in (low, high))
            point[mask, :2] = p + part[:, None] * (q - p)
            blend = n + part[:, None] * (m - n)
            normal[mask, :2] = blend / np.linalg.norm(blend, axis=1, keepdims=True)
        point[below, :2], normal[below, :2] = self.full.at(girth[below])
        return point, normal

    def girth_of(self, around: Around, z_mm: float) -> float:
        """Return the girth of a place named as a person names it, at a height."""
        ring = self.ring(z_mm)
        if around.origin == "bearing":
            return ring.girth_at_bearing(around.offset)
        if around.origin == "aft":
            return around.offset
        forward = ring.half_girth_mm - abs(around.offset)
        return forward if around.offset >= 0 else -forward

    def over_hollow(self, girth_mm: Array) -> Mask:
        """Tell for girths (n,) whether a tape bridges a hollow there."""
        along = np.abs(self.full.wrapped(np.asarray(girth_mm)))[..., None]
        return np.asarray(((along > self.hollow[:, 0]) & (along <= self.hollow[:, 1])).any(axis=-1))


def skin_of(mast: Mast) -> Skin:
    """Return the skin of a mast; NotKnownError where its section cannot be one."""
    half = half_outline(mast.section)
    if not np.all(np.diff(np.arctan2(half[:, 1], half[:, 0])) <= 1e-9):
        raise NotKnownError(_("the outline of the section does not go round its centre"))
    return Skin(mast, half, _ring(half[:, 0], half[:, 1]), hollows(mast.section))
