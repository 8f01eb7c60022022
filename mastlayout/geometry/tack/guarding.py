"""Which fittings stand behind a guard: within its plan and the mast's, over their whole height."""

from collections.abc import Iterable

import numpy as np

from mastlayout.geometry.frames import Mask
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.directions import COUNT, along_all
from mastlayout.geometry.tack.holding import guard_parts
from mastlayout.geometry.tack.outlines import plans

# A guard may end this much short of what stands behind it, or leave as much of it out between its bends.
_SHORT_MM, _WITHIN_MM = 20.0, 15.0


def guarded(fittings: Iterable[Placed], skin: Skin, solids: Solids, each: int) -> Mask:
    """Tell of each place (n,) of a fitting of ``each`` solids whether a guard stands outside all of it."""
    n = len(solids) // max(each, 1)
    found = np.zeros(n, dtype=bool)
    low, high = (end.reshape(n, each) for end in solids.span_z())
    if not each:
        return found
    for one in fittings:
        if not one.kind.guards:
            continue
        hoop = one.solids[guard_parts(one)]
        bottom, top = hoop.span_z()
        spans = (low.min(axis=1) >= bottom.min() - _SHORT_MM) & (high.max(axis=1) <= top.max() + _SHORT_MM)
        rows = np.flatnonzero(spans & ~found)
        if len(rows):
            inside = solids[(rows[:, None] * each + np.arange(each)).reshape(-1)]
            found[rows] = _within(hoop, skin, inside, len(rows))
    return found


def _within(hoop: Solids, skin: Skin, solids: Solids, n: int) -> Mask:
    """Tell of each place whether its plan lies within the plan of hoop and mast together."""
    ring = along_all(skin.ring(float(hoop.centre[:, 2].mean())).polygon())
    outside = np.maximum(plans(hoop).max(axis=0), ring.max(axis=0))
    reach = plans(solids).reshape(n, -1, COUNT).max(axis=1)
    return np.asarray((reach <= outside + _WITHIN_MM).all(axis=1))
