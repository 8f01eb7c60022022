"""All that a straight pole reaches as it swings and tilts about a place that runs up and down the mast.

At one bearing that is flat and convex: a sector of a disc, carried along the run of the ring. Between
two bearings it lies within the hull of the two, drawn out by as much as the arc bulges.
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index

# Bearings from ahead to either side stand at most so far apart: 4.5 m of pole then bulge 10 mm.
_STEP = np.radians(7.5)


@dataclass(frozen=True, eq=False)
class Fans:
    """n convex bodies, each what a pole reaches between two bearings.

    Arrays: run (n, 2, 3), the lowest and the highest place of the inner end; length_mm (n,), drawn
    out; bearing (n, 2) to port from ahead and tilt (n, 2) upwards, radians, each from the least to
    the largest; round_mm (n,), half the pole's diameter.
    """

    run: Array
    length_mm: Array
    bearing: Array
    tilt: Array
    round_mm: Array

    def __len__(self) -> int:
        return len(self.round_mm)

    def __getitem__(self, index: Index) -> "Fans":
        return Fans(
            self.run[index],
            self.length_mm[index],
            self.bearing[index],
            self.tilt[index],
            self.round_mm[index],
        )

    @property
    def centre(self) -> Array:
        """A point (n, 3) within each."""
        middle = self._pointing(self.bearing.mean(axis=1), self.tilt.mean(axis=1))
        return np.asarray(self.run.mean(axis=1) + self.length_mm[:, None] / 2 * middle)

    def core(self, direction: Array) -> Array:
        """Return the farthest points (n, 3) of the pole's middle line in directions (n, 3)."""
        along = np.einsum("nek,nk->ne", self.run, direction)
        best = self.run[np.arange(len(self)), np.argmax(along, axis=1)]
        out, most = np.zeros_like(best), np.zeros(len(self))
        for bearing in self.bearing.T:
            level = np.cos(bearing) * direction[:, 0] + np.sin(bearing) * direction[:, 1]
            steepest = np.arctan2(direction[:, 2], level).clip(self.tilt[:, 0], self.tilt[:, 1])
            # Away from the sector the nearer edge is the one the angle is nearer to: ask both.
            for tilt in (steepest, self.tilt[:, 0], self.tilt[:, 1]):
                reach = self._pointing(bearing, tilt) * self.length_mm[:, None]
                value = np.einsum("nk,nk->n", reach, direction)
                out = np.where((value > most)[:, None], reach, out)
                most = np.maximum(most, value)
        return np.asarray(best + out)

    def support(self, direction: Array) -> Array:
        """Return how far (n,) the bodies reach from the origin in unit directions (n, 3) or one (3,)."""
        direction = np.broadcast_to(direction, (len(self), 3))
        return np.asarray(np.einsum("nk,nk->n", self.core(direction), direction) + self.round_mm)

    @staticmethod
    def _pointing(bearing: Array, tilt: Array) -> Array:
        level = np.cos(tilt)
        return np.stack([level * np.cos(bearing), level * np.sin(bearing), np.sin(tilt)], axis=1)


def fans(run: Array, length_mm: float, tilt: tuple[float, float], squared: float, radius_mm: float) -> Fans:
    """Return what a pole sweeps from ``squared`` radians to starboard through ahead to as far to port.

    ``run`` (2, 3) is the lowest and the highest place of its inner end, ``tilt`` its outer end's
    lowest and highest angle, radians. Never less than it sweeps: the arcs are drawn out to their chords.
    """
    half = max(1, int(np.ceil(squared / _STEP - 1e-9)))
    edges = np.linspace(-squared, squared, 2 * half + 1)
    n = len(edges) - 1
    drawn_out = length_mm / np.cos(squared / half / 2)
    return Fans(
        np.broadcast_to(run, (n, 2, 3)).astype(float),
        np.full(n, drawn_out),
        np.stack([edges[:-1], edges[1:]], axis=1),
        np.broadcast_to(np.array(tilt), (n, 2)).astype(float),
        np.full(n, radius_mm),
    )
