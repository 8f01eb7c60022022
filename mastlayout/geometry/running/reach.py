"""How far slack lines reach: all that a line between two points can come to, being longer than their way.

A point is reached where its distances to both ends make up no more than the line: a spheroid about
them. However the line hangs, blows or swings it never leaves it.
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.solids import Solids

# So many solids are asked at once.
_AT_ONCE = 20000
_STEPS = 3


@dataclass(frozen=True, eq=False)
class Reaches:
    """k lines between ``ends`` (k, 2, 3), ``slack_mm`` (k,) longer than that, of radius ``round_mm`` (k,)."""

    ends: Array
    slack_mm: Array
    round_mm: Array

    @property
    def long_mm(self) -> Array:
        """The straight ways (k,)."""
        return np.asarray(np.linalg.norm(self.ends[:, 1] - self.ends[:, 0], axis=1))

    @property
    def aside_mm(self) -> Array:
        """How far (k,) the middle of each line comes off its straight way."""
        return np.asarray(np.sqrt(self.slack_mm * (2 * self.long_mm + self.slack_mm)) / 2)

    def needed_mm(self, points: Array) -> Array:
        """Return how much longer than its way each line must be to come to points (q, 3): (q, k)."""
        return np.asarray(
            np.linalg.norm(points[:, None, None] - self.ends, axis=3).sum(axis=2) - self.long_mm
        )


def needed_by(lines: Reaches, solids: Solids) -> tuple[Array, Array]:
    """Return how much slack each line needs to touch each of q solids, and where about: (q, k), (q, k, 3).

    Never more than it is; inf where a line is not slack enough to come near.
    """
    needed = np.full((len(solids), len(lines.slack_mm)), np.inf)
    point = np.full((*needed.shape, 3), np.nan)
    for start in range(0, len(solids), _AT_ONCE):
        own = solids[start : start + _AT_ONCE]
        row, line = np.nonzero(_near(lines, own))
        if len(row):
            needed[start + row, line], point[start + row, line] = _least(lines, own[row], line)
    return needed, point


def _near(lines: Reaches, solids: Solids) -> Array:
    """Tell of each solid and line (q, k) whether they may meet: no line comes farther off than its middle."""
    begin, step = lines.ends[:, 0], lines.ends[:, 1] - lines.ends[:, 0]
    away = solids.centre[:, None] - begin
    part = np.einsum("qkj,kj->qk", away, step) / np.maximum(lines.long_mm**2, 1e-12)
    off = np.linalg.norm(away - part.clip(0.0, 1.0)[..., None] * step, axis=2)
    return np.asarray(off <= solids.bound_mm[:, None] + lines.aside_mm + lines.round_mm)


def _least(lines: Reaches, solids: Solids, line: Whole) -> tuple[Array, Array]:
    """Return the slack (p,) that lines need to touch their own of some solids (p,), and where (p, 3).

    The way over a point is convex, so what it is at one place and how it slopes there bounds it over
    a whole solid from below. The best of a few places is taken, each nearer to the least (Frank and
    Wolfe, 1956).
    """
    ends, long = lines.ends[line], lines.long_mm[line]
    place, best = solids.centre, np.full(len(line), -np.inf)
    for step in range(_STEPS):
        away = place[:, None] - ends
        far = np.maximum(np.linalg.norm(away, axis=2), 1e-9)
        slope = (away / far[..., None]).sum(axis=1)
        steep = np.linalg.norm(slope, axis=1)
        unit = slope / np.maximum(steep, 1e-9)[:, None]
        lowest = -solids.support(-unit) - np.einsum("pk,pk->p", unit, place) - lines.round_mm[line]
        best = np.maximum(best, far.sum(axis=1) + steep * np.minimum(lowest, 0.0) - long)
        corner = solids.core(-unit) - solids.round_mm[:, None] * unit
        place = place + (corner - place) * (2.0 / (step + 2.0))
    return np.maximum(best, 0.0), place
