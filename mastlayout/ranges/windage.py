"""What the wind finds of a fitting: its area seen from abeam and from ahead, and its drag.

Parts of one fitting that stand one behind the other count once; what the mast or another fitting
shelters is not credited, so the figure is the most it can be.
"""

from typing import Literal

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.silhouette import FROM_AHEAD, FROM_STARBOARD, silhouettes
from mastlayout.geometry.solids import Solids

Seen = Literal["abeam", "ahead"]
_VIEWS: dict[Seen, Array] = {"abeam": FROM_STARBOARD, "ahead": FROM_AHEAD}
# A circular cylinder across the stream below its critical Reynolds number, as in the common handbooks of
# fluid dynamics; boxes of the kind found here have 1.1 to 1.3.
DRAG_COEFFICIENT = 1.2
# ISO 2533, standard atmosphere at sea level.
AIR_KG_M3 = 1.225
MS_PER_KN = 1852.0 / 3600.0
_LINES = 600


def area_m2(solids: Solids, seen: Seen) -> float:
    """Return the area that n solids together cover, seen from abeam or ahead, by level lines."""
    if not len(solids):
        return 0.0
    outline = silhouettes(solids, _VIEWS[seen])
    low, high = float(outline[..., 1].min()), float(outline[..., 1].max())
    step = (high - low) / _LINES
    heights = low + (np.arange(_LINES, dtype=float) + 0.5) * step
    left, right = _cuts(outline, heights)
    return float(_covered(left, right).sum() * step / 1e6)


def _cuts(outline: Array, heights: Array) -> tuple[Array, Array]:
    """Return where convex outlines (n, k, 2) begin and end on level lines (m,); inf, -inf where they miss."""
    start, end = outline[:, None, :, :], np.roll(outline, -1, axis=1)[:, None, :, :]
    line = heights[None, :, None]
    crosses = (start[..., 1] <= line) != (end[..., 1] <= line)
    rise = np.where(crosses, end[..., 1] - start[..., 1], 1.0)
    across = start[..., 0] + (line - start[..., 1]) / rise * (end[..., 0] - start[..., 0])
    return (np.where(crosses, across, np.inf).min(axis=2), np.where(crosses, across, -np.inf).max(axis=2))


def _covered(left: Array, right: Array) -> Array:
    """Return the length covered on each of m lines by n stretches (n, m) together."""
    order = left.argsort(axis=0)
    left, right = np.take_along_axis(left, order, axis=0), np.take_along_axis(right, order, axis=0)
    before = np.vstack([np.full((1, left.shape[1]), -np.inf), np.maximum.accumulate(right, axis=0)[:-1]])
    begin = np.maximum(left, before)
    return np.asarray(np.where(right > begin, right - begin, 0.0).sum(axis=0))


def drag_n(area_m2: float, knots: float) -> float:
    """Return the drag, N, of an area in a wind of so many knots."""
    return 0.5 * AIR_KG_M3 * (knots * MS_PER_KN) ** 2 * DRAG_COEFFICIENT * area_m2
