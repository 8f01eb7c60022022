"""The cut of convex solids at a height, found by directions tilted up and down: one search for every kind.

The support of a convex body's slice is the least, over a tilt t, of its own support in (direction, t)
less t z. It is convex in t and its slope is the height at which the body is touched, less z: where the
tangents at two tilts, one on each side, meet is the next tilt (Kelley's cutting planes).
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index

# A slice is found by directions tilted up to this steeply, in so many steps.
_STEEP, _CUTS = 50.0, 14
# and no further than to this much.
_ENOUGH_MM = 0.005
_TINY = 1e-12


@dataclass(frozen=True, eq=False)
class Discs:
    """Flat ends of radii (2, n): how far directions reach along two lines in each (2, n), and with a tilt."""

    radius: Array
    level: Array
    rise: Array

    def __getitem__(self, rows: Index) -> "Discs":
        return Discs(self.radius[:, rows], self.level[:, rows], self.rise[:, rows])

    def at(self, tilt: Array) -> tuple[Array, Array]:
        """Return how far (n,) a disc of radius 1 reaches at tilts, and the slope of that."""
        across = self.level + tilt * self.rise
        size = np.sqrt(across[0] * across[0] + across[1] * across[1])
        slope = across[0] * self.rise[0] + across[1] * self.rise[1]
        return size, slope / np.where(size > _TINY, size, 1.0)


@dataclass(frozen=True, eq=False)
class Edges:
    """Half edges of the two ends (2, 3, n): how far a direction reaches along each, and with a tilt."""

    level: Array
    rise: Array

    def __getitem__(self, rows: Index) -> "Edges":
        return Edges(self.level[:, :, rows], self.rise[:, :, rows])

    def at(self, tilt: Array) -> tuple[Array, Array]:
        """Return how far (2, n) the half edges of each end reach at tilts, and the slope of that."""
        reach = self.level + tilt * self.rise
        return np.abs(reach).sum(axis=1), np.where(reach >= 0, self.rise, -self.rise).sum(axis=1)


@dataclass(frozen=True, eq=False)
class Tilted:
    """n solids, each seen in its own level direction: all that its support at a tilt (n,) takes.

    ``level`` (2, n) is how far the two ends reach, and ``rise`` (2, n) with a tilt: their heights above
    that of the cut.
    """

    level: Array
    rise: Array
    round_mm: Array
    discs: Discs | None
    edges: Edges | None

    def __getitem__(self, rows: Index) -> "Tilted":
        discs = None if self.discs is None else self.discs[rows]
        edges = None if self.edges is None else self.edges[rows]
        return Tilted(self.level[:, rows], self.rise[:, rows], self.round_mm[rows], discs, edges)

    def at(self, tilt: Array) -> tuple[Array, Array]:
        """Return the support (n,) at tilts less the tilts' share of the height, and its slope."""
        value, slope = self.level + tilt * self.rise, self.rise
        if self.discs is not None:
            size, leans = self.discs.at(tilt)
            value, slope = value + self.discs.radius * size, slope + self.discs.radius * leans
        if self.edges is not None:
            reach, leans = self.edges.at(tilt)
            value, slope = value + reach, slope + leans
        last = value[1] > value[0]
        size = np.sqrt(1.0 + tilt * tilt)
        value, slope = np.where(last, value[1], value[0]), np.where(last, slope[1], slope[0])
        return value + self.round_mm * size, slope + self.round_mm * tilt / size


def least(tilted: Tilted) -> Array:
    """Return the support (n,) of each solid's cut.

    What is returned is never less than the true support, and for straight edges it is that.
    """
    count = len(tilted.round_mm)
    left, right = np.full(count, -_STEEP), np.full(count, _STEEP)
    (below, falls), (above, rises) = (tilted.at(tilt) for tilt in (left, right))
    best = np.minimum(below, above)
    rows, open_, found = np.arange(count), np.ones(count, dtype=bool), best.copy()
    for _step in range(_CUTS):
        apart = rises - falls
        crossing = apart > _TINY
        meet = below - falls * left - above + rises * right
        tilt = np.where(crossing, meet / np.where(crossing, apart, 1.0), left)
        value, slope = tilted.at(tilt)
        best = np.where(open_, np.minimum(best, value), best)
        # No tilt between can be less than where the tangents meet.
        open_ &= best - np.where(crossing, below + falls * (tilt - left), best) > _ENOUGH_MM
        low = slope <= 0
        left, below, falls = (np.where(low, a, b) for a, b in ((tilt, left), (value, below), (slope, falls)))
        right, above, rises = (
            np.where(low, b, a) for a, b in ((tilt, right), (value, above), (slope, rises))
        )
        # What is found is left out once it is the most: taking rows out costs more than asking them.
        if 2 * np.count_nonzero(open_) < len(rows):
            found[rows] = best
            on = np.flatnonzero(open_)
            if not len(on):
                break
            left, below, falls, right, above, rises, best = (
                own[on] for own in (left, below, falls, right, above, rises, best)
            )
            rows, open_, tilted = rows[on], open_[on], tilted[on]
    found[rows] = best
    return found
