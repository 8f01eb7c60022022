"""How clear solids are of what a set pole sweeps."""

import numpy as np

from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.pole.fan import Fans
from mastlayout.geometry.solids import Solids


def clear_of(swept: Fans, solids: Solids, near_mm: float) -> Array:
    """Return how clear (q, 2) solids are of a pole set to port and to starboard; negative where it strikes.

    What is ``near_mm`` or more off is not worked out: that stands for it.
    """
    found = np.full((len(solids), 2), near_mm)
    row, fan = _close(swept, solids, near_mm)
    if not len(row):
        return found
    gaps = gap(solids[row], swept[fan], near_mm).distance_mm
    port = swept.bearing[fan].mean(axis=1) > 0
    np.minimum.at(found, (row, np.where(port, 0, 1)), gaps)
    return found


def _close(swept: Fans, solids: Solids, near_mm: float) -> tuple[Whole, Whole]:
    """Return the pairs of solid and fan that may come within ``near_mm``, by balls round the solids."""
    centre = solids.centre
    reach = solids.bound_mm + near_mm + swept.round_mm.max(initial=0.0)
    some = np.flatnonzero(_in_height(swept, centre, reach))
    fans = np.arange(len(swept))
    beside = np.full((len(some), len(fans)), -np.inf)
    # A fan lies to one side of each upright plane through its run and one of its edges.
    for edge, outward in ((0, -1.0), (1, 1.0)):
        bearing = swept.bearing[:, edge]
        square = outward * np.stack([-np.sin(bearing), np.cos(bearing)], axis=1)
        ends = np.einsum("nek,nk->ne", swept.run[..., :2], square).max(axis=1)
        beside = np.maximum(beside, centre[some, :2] @ square.T - ends)
    row, fan = np.nonzero(beside <= reach[some, None])
    return some[row], fan


def _in_height(swept: Fans, centre: Array, reach: Array) -> Array:
    """Tell of each ball (q,) whether it comes ahead of the run, below and above what is swept there."""
    low, high = swept.run[0]
    # Squared farther than abeam the pole comes abaft its run.
    back = swept.length_mm[0] * max(0.0, -float(np.cos(swept.bearing).min()))
    off = np.linalg.norm(centre[:, :2] - swept.run[0].mean(axis=0)[:2], axis=1) + reach
    out = np.minimum(off + abs(high[0] - low[0]), swept.length_mm[0])
    down, up = np.tan(swept.tilt[0])
    steep = 1 / np.cos(np.abs(swept.tilt[0]).max())
    return np.asarray(
        (centre[:, 0] + reach >= swept.run[0, :, 0].min() - back)
        & (centre[:, 2] + reach * steep >= low[2] + out * min(down, 0.0))
        & (centre[:, 2] - reach * steep <= high[2] + out * max(up, 0.0))
    )
