"""Sectors round the compass: arcs that overlap, or lie closer than so much, put together."""

import numpy as np

from mastlayout.geometry.frames import Array


def sectors(arcs: Array, closer_deg: float = 0.0) -> Array:
    """Return the sectors (r, 2) that arcs (q, 2) make, degrees clockwise; 0 to 360 where they are all of it.

    Arcs with no more than ``closer_deg`` between them are one. A first bearing is from 0 to under 360, a
    second never less than its first. Arcs that are nan count for nothing.
    """
    arcs = arcs[~np.isnan(arcs[:, 0])]
    if not len(arcs):
        return np.empty((0, 2))
    start = arcs[:, 0] % 360.0
    runs = np.stack([start, start + np.clip(arcs[:, 1] - arcs[:, 0], 0.0, 360.0)], axis=1)
    # Once round before and once after, so that a sector across north is whole somewhere.
    runs = np.concatenate([runs - 360.0, runs, runs + 360.0])
    runs = runs[np.argsort(runs[:, 0], kind="stable")]
    reach = np.maximum.accumulate(runs[:, 1])
    first = np.flatnonzero(np.concatenate([[True], runs[1:, 0] > reach[:-1] + closer_deg]))
    begins, ends = runs[first, 0], reach[np.append(first[1:] - 1, len(runs) - 1)]
    if ((ends - begins) >= 360.0).any():
        return np.array([[0.0, 360.0]])
    whole = (begins >= 0.0) & (begins < 360.0)
    return np.stack([begins[whole], ends[whole]], axis=1)
