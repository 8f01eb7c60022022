"""How the section lies on the widget: bow up, port left, the same scale both ways."""

from functools import lru_cache

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPolygonF

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.silhouette import FROM_ABOVE, silhouettes
from mastlayout.geometry.skin import Ring
from mastlayout.geometry.solids import Solids
from mastlayout.ui.polygon import polygon
from mastlayout.ui.section.cut import Cut, parts_at

MOST_SCALE = 3.0
_MARK_PX = 6.0
# A stay this near the skin is kept in the picture; one farther off is drawn where the picture holds it.
_NEAR_STAY_MM = 100.0
# Sine of the angle that two walls may turn the wrong way by rounding alone.
_STRAIGHT = 1e-9


@dataclass(frozen=True)
class Plan:
    """The mast's axis in pixels, and the scale in pixels a millimetre."""

    axis_x: float
    axis_y: float
    scale: float

    def at(self, ahead_mm: float, port_mm: float) -> QPointF:
        """Return the pixel of a place in the mast frame."""
        return QPointF(self.axis_x - port_mm * self.scale, self.axis_y - ahead_mm * self.scale)

    def pixels(self, points: Array) -> Array:
        """Return the pixels (…, 2) of points (…, 2) as the drawing has them: to the right, and up."""
        return np.asarray(points * (self.scale, -self.scale) + (self.axis_x, self.axis_y))

    def seen(self, points: Array) -> QPolygonF:
        """Return the polygon of points (k, 2) as the drawing has them: to the right, and up."""
        return polygon(self.pixels(points))

    def box(self, points: Array) -> QRectF:
        """Return the rectangle round points (k, 2) as the drawing has them."""
        seen = self.pixels(points)
        (left, top), (right, bottom) = seen.min(axis=0).tolist(), seen.max(axis=0).tolist()
        return QRectF(left, top, right - left, bottom - top)


@lru_cache(maxsize=8)
def outline_of(ring: Ring) -> Array:
    """Return a section's outline (k, 2) as the drawing has it: to the right, and up."""
    return np.asarray(ring.polygon() @ FROM_ABOVE[:, :2].T)


@lru_cache(maxsize=8)
def inner_face(ring: Ring, wall_mm: float) -> Array:
    """Return the wall's inner face as the drawing has it; nothing where the wall leaves none.

    Each corner moves in to where its two walls meet. Of an outline without hollows that is the face as
    long as no edge between them is used up.
    """
    outline, (normal, _far_mm) = ring.polygon(), ring.walls()
    before = np.roll(normal, 1, axis=0)
    turns = before[:, 0] * normal[:, 1] - before[:, 1] * normal[:, 0]
    inner = outline - wall_mm * (normal + before) / (1.0 + (normal * before).sum(axis=1, keepdims=True))
    edges, left = (np.roll(points, -1, axis=0) - points for points in (outline, inner))
    if (turns > -_STRAIGHT).all() and ((edges * left).sum(axis=1) > 0.0).all():
        return np.asarray(inner @ FROM_ABOVE[:, :2].T)
    return _moved_in(outline_of(ring), wall_mm)


def _moved_in(outline: Array, wall_mm: float) -> Array:
    """Return an outline moved in where that takes corners away, or all of it."""
    import shapely  # noqa: PLC0415 - 10 ms of every start, and few sections ask for it

    inner = shapely.Polygon(outline).buffer(-wall_mm)
    return np.asarray(inner.exterior.coords) if isinstance(inner, shapely.Polygon) else np.empty((0, 2))


@lru_cache(maxsize=64)
def from_above(solids: Solids) -> Array:
    """Return the outlines (n, k, 2) of solids from above, kept while the very same ones are asked for."""
    return silhouettes(solids, FROM_ABOVE)


def bodies(cut: Cut) -> dict[str, Array]:
    """Return for each thing that stands there the outlines (n, k, 2) of its parts at that height."""
    found = {}
    for placed in cut.standing:
        mask = parts_at(placed.solids, cut.z_mm)
        if mask.any():
            found[placed.id] = from_above(placed.solids)[mask]
    return found


def bounds_mm(cut: Cut, outlines: dict[str, Array]) -> tuple[float, float, float]:
    """Return how far the section and what stands on it reach: to either side, aft (negative), ahead."""
    ring = cut.ring
    depth = cut.track.depth_mm if cut.track and cut.track.kind == "track" else 0.0
    points = [outline.reshape(-1, 2) for outline in outlines.values()]
    points.append(np.array([(ring.y.max(), ring.x.max()), (0.0, ring.x.min() - depth)]))
    reach = float(np.hypot(ring.x, ring.y).max()) + _NEAR_STAY_MM
    near = [
        (stay.port_mm, stay.ahead_mm) for stay in cut.stays if np.hypot(stay.port_mm, stay.ahead_mm) < reach
    ]
    points.append(np.array(near).reshape(-1, 2))
    every = np.concatenate(points)
    return float(np.abs(every[:, 0]).max()), float(every[:, 1].min()), float(every[:, 1].max())


def fitted(bounds: tuple[float, float, float], area: QRectF, part: float = 1.0) -> Plan:
    """Return the plan whose bounds fill a part of an area's width, and never more than its height.

    Above and below them the mark of a worst point has room.
    """
    side, aft, ahead = bounds
    high = max(area.height() - 2 * _MARK_PX, 1.0)
    scale = min(area.width() * part / (2 * side), high / (ahead - aft), MOST_SCALE)
    return Plan(area.center().x(), area.center().y() + (ahead + aft) / 2 * scale, scale)
