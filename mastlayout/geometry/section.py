"""What the metal of a section is worth: area, second moments and moduli of the true outline.

An extrusion has a constant wall, so the inner outline is the outer one moved in, not a smaller
ellipse: that would be up to 2 % off.
"""

from dataclasses import dataclass

import numpy as np

from mastlayout.errors import NotKnownError
from mastlayout.geometry.frames import Array
from mastlayout.geometry.skin import Ring
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class Tube:
    """Area mm2; second moments mm4 for bending fore and aft and athwart; moduli mm3; centroid x mm."""

    area_mm2: float
    fore_aft_mm4: float
    athwart_mm4: float
    centroid_x_mm: float
    fore_aft_mm3: float
    athwart_mm3: float


def tube(ring: Ring, wall_mm: float) -> Tube:
    """Return the properties of a section of constant wall; NotKnownError where the wall fills it."""
    import shapely  # noqa: PLC0415 - 20 ms, and few commands ask for it

    outer = shapely.Polygon(ring.polygon())
    inner = outer.buffer(-wall_mm, quad_segs=64)
    if inner.is_empty or not isinstance(inner, shapely.Polygon):
        raise NotKnownError(_("a wall of {wall:g} fills the section").format(wall=wall_mm))
    sums = _sums(np.asarray(outer.exterior.coords)) - _sums(np.asarray(inner.exterior.coords))
    area, x_first, xx, yy = (float(value) for value in sums)
    centroid = x_first / area
    fore_aft = xx - area * centroid**2
    low, _y0, high, wide = outer.bounds
    return Tube(area, fore_aft, yy, centroid, fore_aft / max(high - centroid, centroid - low), yy / wide)


def _sums(points: Array) -> Array:
    """Return area and the integrals of x, x2 and y2 over a polygon (Green's theorem), area positive."""
    x, y = points[:-1, 0], points[:-1, 1]
    x2, y2 = points[1:, 0], points[1:, 1]
    cross = x * y2 - x2 * y
    sums = np.array(
        [
            cross.sum() / 2,
            ((x + x2) * cross).sum() / 6,
            ((x * x + x * x2 + x2 * x2) * cross).sum() / 12,
            ((y * y + y * y2 + y2 * y2) * cross).sum() / 12,
        ]
    )
    return np.asarray(sums * np.sign(sums[0]))
