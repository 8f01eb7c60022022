"""How far it is through the mast along a drill, from skin to skin."""

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.skin import Skin


def span_mm(skin: Skin, point: Array, direction: Array) -> float:
    """Return how far a level drill runs from where it enters (3,) along ``direction`` (3,) to the far skin.

    The outline is that of the height it enters at, and convex: it leaves by the farthest edge it cuts.
    """
    polygon = skin.ring(float(point[2])).polygon()
    start, step = polygon, np.roll(polygon, -1, axis=0) - polygon
    way = direction[:2]
    cross = way[0] * step[:, 1] - way[1] * step[:, 0]
    aside = start - point[:2]
    with np.errstate(divide="ignore", invalid="ignore"):
        along = (aside[:, 0] * step[:, 1] - aside[:, 1] * step[:, 0]) / cross
        part = (aside[:, 0] * way[1] - aside[:, 1] * way[0]) / cross
    cut = (np.abs(cross) > 1e-12) & (part >= -1e-9) & (part <= 1 + 1e-9)
    return float(along[cut].max(initial=0.0))
