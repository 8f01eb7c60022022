"""What a clew sweeps, and its sheets: all within reach of a tack between two heights, drawn out to a lead."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index

_TURNS = 72
# From so many heights a sheet's lines are drawn to one.
_LEVELS = 41


@dataclass(frozen=True, eq=False)
class Swept:
    """n convex bodies: the hull of a ball cut off at two heights and of one more point, ``lead``.

    Arrays: tack (n, 3), reach_mm (n,), low_mm and high_mm (n,), lead (n, 3), nan where there is
    none. Heights must meet the ball.
    """

    tack: Array
    reach_mm: Array
    low_mm: Array
    high_mm: Array
    lead: Array

    def __len__(self) -> int:
        return len(self.reach_mm)

    def __getitem__(self, index: Index) -> "Swept":
        return Swept(
            self.tack[index], self.reach_mm[index], self.low_mm[index], self.high_mm[index], self.lead[index]
        )

    @property
    def round_mm(self) -> Array:
        """Nothing is rounded (n,): ropes have their room from whoever asks."""
        return np.zeros(len(self))

    @property
    def centre(self) -> Array:
        """A point (n, 3) within each body."""
        return np.column_stack([self.tack[:, :2], self.tack[:, 2].clip(self.low_mm, self.high_mm)])

    def core(self, direction: Array) -> Array:
        """Return the farthest points (n, 3) in directions (n, 3)."""
        size = np.linalg.norm(direction, axis=1)
        level = np.hypot(direction[:, 0], direction[:, 1])
        above = self.reach_mm * direction[:, 2] / np.where(size > 0, size, 1.0)
        above = above.clip(self.low_mm - self.tack[:, 2], self.high_mm - self.tack[:, 2])
        out = np.sqrt((self.reach_mm**2 - above**2).clip(0.0)) / np.where(level > 0, level, 1.0)
        point = self.tack + np.column_stack([out[:, None] * direction[:, :2], above])
        to_lead = np.einsum("nk,nk->n", self.lead - point, direction) > 0
        return np.asarray(np.where(to_lead[:, None], self.lead, point))

    def support(self, direction: Array) -> Array:
        """Return how far (n,) the bodies reach from the origin in unit directions (n, 3) or one (3,)."""
        direction = np.broadcast_to(direction, (len(self), 3))
        return np.asarray(np.einsum("nk,nk->n", self.core(direction), direction))

    def outline(self, right: Array, up: Array) -> Array:
        """Return the outlines (n, 72, 3) seen square to two axes (3,): closed polylines, for drawing."""
        turn = np.linspace(0.0, 2 * np.pi, _TURNS, endpoint=False)
        ways = np.cos(turn)[:, None] * right + np.sin(turn)[:, None] * up
        each = self[np.repeat(np.arange(len(self)), _TURNS)]
        return each.core(np.tile(ways, (len(self), 1))).reshape(len(self), _TURNS, 3)

    def slice_at(self, z_mm: float) -> Array:
        """Return the outline (k, 2) of the first body at a height; empty where it does not reach it.

        Drawn out to its lead, a body holds at a height all that lines to the lead bring there from
        any higher part of it.
        """
        import shapely  # noqa: PLC0415 - 20 ms at the first that is drawn

        low, high = max(float(self.low_mm[0]), z_mm), float(self.high_mm[0])
        tack, reach, lead = self.tack[0], float(self.reach_mm[0]), self.lead[0]
        drawn = not np.isnan(lead).any() and float(lead[2]) < z_mm
        levels = np.linspace(low, high, _LEVELS) if drawn else np.array([z_mm])
        levels = levels[(levels >= float(self.low_mm[0])) & (levels <= high)]
        radius = np.sqrt((reach**2 - (levels - tack[2]) ** 2).clip(0.0))
        there = np.abs(levels - tack[2]) < reach
        levels, radius = levels[there], radius[there]
        if not len(levels):
            return np.empty((0, 2))
        part = (levels - z_mm) / (levels - lead[2]) if drawn else np.zeros(len(levels))
        centre = tack[:2] + part[:, None] * ((lead[:2] - tack[:2]) if drawn else 0.0)
        turn = np.linspace(0.0, 2 * np.pi, _TURNS, endpoint=False)
        round_ = np.stack([np.cos(turn), np.sin(turn)], axis=1)
        points = centre[:, None] + ((1 - part) * radius)[:, None, None] * round_
        hull = shapely.convex_hull(shapely.multipoints(points.reshape(-1, 2)))
        return np.asarray(shapely.get_coordinates(hull))
