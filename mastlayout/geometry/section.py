"""What the metal of a section is worth: area, second moments and moduli of the true outline.

An extrusion has a constant wall, so the inner outline is the outer one moved in, not a smaller
ellipse: that would be up to 2 % off.
"""

import numpy as np

from mastlayout.errors import NotKnownError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.skin import Ring
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class Properties:
    """Girth of the outline, area of the metal, and what resists bending fore and aft and athwart.

    Second moments (mm4) are about the centroid, moduli (mm3) for the fibre farthest from it;
    ``centroid_x_mm`` counts forward from the middle of the section's length.
    """

    girth_mm: float
    area_mm2: float
    centroid_x_mm: float
    fore_aft_mm4: float
    athwart_mm4: float
    fore_aft_mm3: float
    athwart_mm3: float


def tube_properties(ring: Ring, wall_mm: float) -> Properties:
    """Return the properties of an outline with a constant wall; NotKnownError where there is no such tube."""
    import shapely  # noqa: PLC0415 - 20 ms, and few commands ask for it

    outer = shapely.Polygon(ring.polygon())
    inner = outer.buffer(-wall_mm)
    if wall_mm <= 0 or inner.is_empty or not isinstance(inner, shapely.Polygon):
        raise NotKnownError(
            _("a section of {girth:.0f} mm girth cannot have a wall of {wall:g} mm").format(
                girth=outer.length, wall=wall_mm
            )
        )
    sums = _sums(np.asarray(outer.exterior.coords)) - _sums(np.asarray(inner.exterior.coords))
    area, x_first, xx, yy = (float(value) for value in sums)
    centroid = x_first / area
    fore_aft = xx - area * centroid**2
    aft, _starboard, fore, half_width = outer.bounds
    farthest = max(fore - centroid, centroid - aft)
    return Properties(outer.length, area, centroid, fore_aft, yy, fore_aft / farthest, yy / half_width)


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
