"""A fitting's outlines at the heights of the grid: each solid cut there, its end outlines carried beyond."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, Whole
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.directions import COUNT, DIRECTIONS
from mastlayout.once import once

STEP_MM = 20.0
# How far beyond its ends a fitting's end outlines are carried: cloth bridges over an edge.
CARRIED_MM = 100.0
# An outline is taken this far inside a flat end.
INSIDE_MM = 0.01
# Solids and cuts that differ by less than this many digits of a millimetre are alike.
_DIGITS = 6


@dataclass(frozen=True, eq=False)
class Outlines:
    """q outlines: ``height`` (q,) the index of the height, ``solid`` (q,) whose, ``support`` (q, COUNT)."""

    height: Whole
    solid: Whole
    support: Array

    def __getitem__(self, rows: Index) -> "Outlines":
        return Outlines(self.height[rows], self.solid[rows], self.support[rows])


@once  # rules ask for them, and what is drawn of their findings
def outlines_of(solids: Solids, heights: int) -> Outlines:
    """Return the outlines of one fitting, cut once while it stands there."""
    return outlines(solids, np.zeros(len(solids), dtype=int), heights)


def outlines(solids: Solids, owner: Whole, heights: int, *, middles: bool = False) -> Outlines:
    """Cut solids (q) at the heights of the grid, 0 to ``heights`` less one.

    ``owner`` (q,) numbers the fittings, or the places of one, and rises.
    A solid between two heights is cut at both: the nearest it comes to each. ``middles`` asks for
    one cut of each solid, at its middle.
    """
    low, high = solids.span_z()
    starts = np.flatnonzero(np.diff(owner, prepend=-1))
    count = np.diff(starts, append=len(owner))
    least = np.repeat(np.minimum.reduceat(low, starts), count)
    most = np.repeat(np.maximum.reduceat(high, starts), count)
    first = np.floor((low - CARRIED_MM * (low < least + INSIDE_MM)) / STEP_MM)
    last = np.ceil((high + CARRIED_MM * (high > most - INSIDE_MM)) / STEP_MM)
    first, last = (np.clip(end, 0, heights - 1).astype(int) for end in (first, last))
    if middles:
        first = last = (first + last) // 2
    count = last - first + 1
    solid = np.repeat(np.arange(len(low)), count)
    height = np.arange(len(solid)) - np.repeat(np.cumsum(count) - count - first, count)
    inside = np.minimum(INSIDE_MM, (high - low) / 2)[solid]
    z_mm = np.clip(height * STEP_MM, low[solid] + inside, high[solid] - inside)
    return Outlines(height, solid, _cut(solids, solid, z_mm))


def plans(solids: Solids) -> Array:
    """Return the support (q, COUNT) of solids as they are seen from above."""
    ways = np.tile(np.pad(DIRECTIONS, ((0, 0), (0, 1))), (len(solids), 1))
    each = np.repeat(np.arange(len(solids)), COUNT)
    return solids[each].support(ways).reshape(len(solids), COUNT)


def _cut(solids: Solids, solid: Whole, z_mm: Array) -> Array:
    """Return the support (q, COUNT) of cuts; what is cut alike is cut once, wherever it stands."""
    upright, above = solids.upright, z_mm - solids.span_z()[0][solid]
    key = np.stack([_alike(solids)[solid], np.where(upright[solid], 0.0, np.round(above, _DIGITS))], axis=1)
    once, again = _first(key)
    support = np.empty((len(once), COUNT))
    for whole in (True, False):
        own = np.flatnonzero(upright[solid[once]] == whole)
        row = np.repeat(once[own], COUNT)
        ways = np.tile(DIRECTIONS, (len(own), 1))
        # The rounding of an upright solid's ends is left out: its outline is never too small.
        if whole:
            found = solids[solid[row]].support(np.pad(ways, ((0, 0), (0, 1))))
        else:
            found = solids.cut(z_mm[row], ways, solid[row])
        support[own] = found.reshape(len(own), COUNT)
    return np.asarray(support[again])


def _alike(solids: Solids) -> Whole:
    """Number the solids (n,): those of one number differ in their height alone."""
    n, ends = len(solids), solids.ends.copy()
    ends[:, :, 2] -= solids.span_z()[0][:, None]
    parts = (ends, solids.radius, solids.axis, solids.spans, solids.round_mm)
    rows = [part.reshape(n, int(np.prod(part.shape[1:]))) for part in parts]  # -1 would fail where n is 0
    every: Array = np.concatenate(rows, axis=1)
    return _first(np.round(every, _DIGITS))[1]


def _first(rows: Array) -> tuple[Whole, Whole]:
    """Return where each different one of rows (q, k) comes first, and for each row which of these it is."""
    # Compared as bytes, among which there is a second nought with a minus.
    as_bytes = np.ascontiguousarray(rows + 0.0).view(np.dtype((np.void, rows.shape[1] * rows.itemsize)))
    _rows, first, back = np.unique(as_bytes.reshape(-1), return_index=True, return_inverse=True)
    return first, back.reshape(-1)
