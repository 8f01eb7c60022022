"""A fitting's outlines at the heights of the grid: each solid cut there, its end outlines carried beyond."""

from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.directions import COUNT, DIRECTIONS

STEP_MM = 20.0
# How far beyond its ends a fitting's end outlines are carried: cloth bridges over an edge.
CARRIED_MM = 100.0
# An outline is taken this far inside a flat end.
_INSIDE_MM = 0.01


@dataclass(frozen=True, eq=False)
class Outlines:
    """q outlines: ``height`` (q,) the index of the height, ``solid`` (q,) whose, ``support`` (q, COUNT)."""

    height: Whole
    solid: Whole
    support: Array


def outlines(solids: Solids, each: int, heights: int) -> Outlines:
    """Cut the solids (n * each) of a fitting at n places at the heights of the grid, 0 to ``heights`` less one.

    A solid between two heights is cut at both: the nearest it comes to each.
    """
    low, high = (np.asarray(end) for end in solids.span_z())
    least = np.repeat(low.reshape(-1, each).min(axis=1), each)
    most = np.repeat(high.reshape(-1, each).max(axis=1), each)
    first = np.floor((low - CARRIED_MM * (low < least + _INSIDE_MM)) / STEP_MM)
    last = np.ceil((high + CARRIED_MM * (high > most - _INSIDE_MM)) / STEP_MM)
    first, last = (np.clip(end, 0, heights - 1).astype(int) for end in (first, last))
    count = last - first + 1
    solid = np.repeat(np.arange(len(low)), count)
    height = np.arange(len(solid)) - np.repeat(np.cumsum(count) - count - first, count)
    inside = np.minimum(_INSIDE_MM, (high - low) / 2)[solid]
    z_mm = np.clip(height * STEP_MM, low[solid] + inside, high[solid] - inside)
    return Outlines(height, solid, _cut(solids, solid, z_mm))


def _cut(solids: Solids, solid: Whole, z_mm: Array) -> Array:
    """Return the support (q, COUNT) of cuts; carried outlines are cut once."""
    again = np.concatenate([[False], (np.diff(solid) == 0) & (np.diff(z_mm) == 0)])
    once = np.flatnonzero(~again)
    row = np.repeat(once, COUNT)
    support = solids[solid[row]].cut(z_mm[row], np.tile(DIRECTIONS, (len(once), 1)))
    return np.asarray(support.reshape(len(once), COUNT)[np.cumsum(~again) - 1])
