"""The directions in which outlines of a slice are asked how far they reach, and what lies between two.

An outline is known by its support h(n), the farthest it reaches in unit directions n all round. A
direction between two of the fixed ones is a sum w0 n0 + w1 n1, and h there is at most w0 h0 + w1 h1:
for what is a centre's own part that is exact. A round outline comes out too large by 0.03 % of its
radius at most; a flat side square to none of the directions by its length times 0.013, which on a
spreader of 1.3 m is 17 mm at its tip, and nothing on what is narrower than 100 mm. That errs to the
safe side for what is in the way; what holds cloth is taken smaller by as much (``holding``).
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole

COUNT = 120
ANGLES: Array = np.asarray(np.arange(COUNT) * (2 * np.pi / COUNT))
DIRECTIONS: Array = np.stack([np.cos(ANGLES), np.sin(ANGLES)], axis=1)
_STEP = 2 * np.pi / COUNT


@dataclass(frozen=True, eq=False)
class Between:
    """Directions between fixed ones: the index of the one before, and the weights of it and the next."""

    index: Whole
    before: Array
    after: Array

    def __getitem__(self, rows: Whole) -> "Between":
        return Between(self.index[rows], self.before[rows], self.after[rows])

    @property
    def normal(self) -> Array:
        """The unit directions (…, 2)."""
        following = (self.index + 1) % COUNT
        return np.asarray(
            self.before[..., None] * DIRECTIONS[self.index] + self.after[..., None] * DIRECTIONS[following]
        )

    def reach(self, support: Array) -> Array:
        """Return the support in these directions (r, …) of outlines whose support (r, COUNT) is known."""
        flat = self.index.reshape(len(support), int(np.prod(self.index.shape[1:])))
        row = np.arange(len(support))[:, None]
        before = support[row, flat].reshape(self.index.shape)
        after = support[row, (flat + 1) % COUNT].reshape(self.index.shape)
        return np.asarray(self.before * before + self.after * after)


def along_all(point: Array) -> Array:
    """Return how far (…, COUNT) points (…, 2) lie along each direction.

    Written out: a product of matrices so narrow is spread over threads that cost more than they do.
    """
    x, y = point[..., 0, None], point[..., 1, None]
    return np.asarray(x * DIRECTIONS[:, 0] + y * DIRECTIONS[:, 1])


def crossing(index: Whole, here: Array, there: Array) -> Array:
    """Return the points (…, 2) where support lines ``here`` and ``there`` of neighbouring directions cross.

    ``index`` (…) is that of the first of the two directions.
    """
    n0, n1 = DIRECTIONS[index], DIRECTIONS[(index + 1) % COUNT]
    x = here * n1[..., 1] - there * n0[..., 1]
    y = there * n0[..., 0] - here * n1[..., 0]
    return np.asarray(np.stack([x, y], axis=-1) / np.sin(_STEP))


def corners(support: Array) -> Array:
    """Return the corners (…, COUNT, 2) of outlines of support (…, COUNT)."""
    return crossing(np.arange(COUNT), support, np.roll(support, -1, axis=-1))


def balanced(index: Whole, ahead: Array, behind: Array) -> Between:
    """Return where a function falls from ``ahead`` at an index through 0 to ``behind`` at the next."""
    gap = ahead - behind
    part = np.where(gap > 0, ahead / np.where(gap > 0, gap, 1.0), 0.5)
    return _unit(index, 1.0 - part, part)


def towards(vector: Array) -> Between:
    """Return the directions of vectors (…, 2)."""
    angle = np.arctan2(vector[..., 1], vector[..., 0]) % (2 * np.pi)
    index = np.minimum((angle / _STEP).astype(int), COUNT - 1)
    beyond = angle - index * _STEP
    return _unit(index, np.sin(_STEP - beyond), np.sin(beyond))


def _unit(index: Whole, before: Array, after: Array) -> Between:
    size = np.sqrt(before**2 + after**2 + 2 * before * after * np.cos(_STEP))
    return Between(index, before / size, after / size)
