"""How far slack lines reach: all that a line between two points can come to, being longer than their way."""

from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array, Index


@dataclass(frozen=True, eq=False)
class Reaches:
    """n convex bodies: all points that lines between ``ends`` (n, 2, 3) come to, ``slack_mm`` (n,) longer.

    A point is reached where its distances to both ends make up no more than the line: a spheroid
    about them. However the line hangs, blows or swings it never leaves it. Grown by the rope's
    radius, ``round_mm`` (n,).
    """

    ends: Array
    slack_mm: Array
    round_mm: Array

    def __len__(self) -> int:
        return len(self.round_mm)

    def __getitem__(self, index: Index) -> "Reaches":
        return Reaches(self.ends[index], self.slack_mm[index], self.round_mm[index])

    @property
    def centre(self) -> Array:
        """The middles (n, 3) of the bodies."""
        return np.asarray(self.ends.mean(axis=1))

    @property
    def _long(self) -> Array:
        """Half the straight distance (n,) between the ends."""
        return np.asarray(np.linalg.norm(self.ends[:, 1] - self.ends[:, 0], axis=1) / 2)

    @property
    def aside_mm(self) -> Array:
        """How far (n,) the middle of each line comes off its straight way."""
        return np.asarray(np.sqrt(self.slack_mm * (4 * self._long + self.slack_mm)) / 2)

    def needed_mm(self, point: Array) -> Array:
        """Return how much longer than its way (n,) each line must be to come to a point (3,)."""
        ways = np.linalg.norm(point - self.ends, axis=-1).sum(axis=-1)
        return np.asarray(ways - 2 * self._long)

    def core(self, direction: Array) -> Array:
        """Return the farthest points (n, 3) of the spheroids in directions (n, 3)."""
        long = self._long
        unit = (self.ends[:, 1] - self.ends[:, 0]) / np.where(long > 0, 2 * long, 1.0)[:, None]
        along = np.einsum("nk,nk->n", unit, direction)
        across = direction - along[:, None] * unit
        half, wide = long + self.slack_mm / 2, self.aside_mm
        size = np.sqrt((half * along) ** 2 + wide**2 * np.einsum("nk,nk->n", across, across))
        step = (half**2 * along)[:, None] * unit + (wide**2)[:, None] * across
        return np.asarray(self.centre + step / np.where(size > 0, size, 1.0)[:, None])

    def support(self, direction: Array) -> Array:
        """Return how far (n,) the bodies reach from the origin in unit directions (n, 3) or one (3,)."""
        direction = np.broadcast_to(direction, (len(self), 3))
        return np.asarray(np.einsum("nk,nk->n", self.core(direction), direction) + self.round_mm)
