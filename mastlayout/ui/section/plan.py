"""How the section lies on the widget: bow up, port left, the same scale both ways."""

from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPolygonF

from mastlayout.geometry.frames import Array
from mastlayout.geometry.silhouette import FROM_ABOVE, silhouettes
from mastlayout.ui.section.cut import Cut, parts_at

MOST_SCALE = 3.0


@dataclass(frozen=True)
class Plan:
    """The mast's axis in pixels, and the scale in pixels a millimetre."""

    axis_x: float
    axis_y: float
    scale: float

    def at(self, ahead_mm: float, port_mm: float) -> QPointF:
        """Return the pixel of a place in the mast frame."""
        return QPointF(self.axis_x - port_mm * self.scale, self.axis_y - ahead_mm * self.scale)

    def seen(self, points: Array) -> QPolygonF:
        """Return the polygon of points (k, 2) as the drawing has them: to the right, and up."""
        return QPolygonF(
            [
                QPointF(self.axis_x + float(x) * self.scale, self.axis_y - float(y) * self.scale)
                for x, y in points
            ]
        )


def bodies(cut: Cut) -> dict[str, Array]:
    """Return for each thing that stands there the outlines (n, k, 2) of its parts at that height."""
    found = {}
    for placed in cut.standing:
        mask = parts_at(placed.solids, cut.z_mm)
        if mask.any():
            found[placed.id] = silhouettes(placed.solids[mask], FROM_ABOVE)
    return found


def bounds_mm(cut: Cut, outlines: dict[str, Array]) -> tuple[float, float, float]:
    """Return how far the section and what stands on it reach: to either side, aft (negative), ahead."""
    ring = cut.ring
    depth = cut.track.depth_mm if cut.track and cut.track.kind == "track" else 0.0
    points = [outline.reshape(-1, 2) for outline in outlines.values()]
    points.append(np.array([(ring.y.max(), ring.x.max()), (0.0, ring.x.min() - depth)]))
    every = np.concatenate(points)
    return float(np.abs(every[:, 0]).max()), float(every[:, 1].min()), float(every[:, 1].max())


def fitted(bounds: tuple[float, float, float], area: QRectF, part: float = 1.0) -> Plan:
    """Return the plan whose bounds fill a part of an area's width, and never more than its height."""
    side, aft, ahead = bounds
    scale = min(area.width() * part / (2 * side), area.height() / (ahead - aft), MOST_SCALE)
    return Plan(area.center().x(), area.center().y() + (ahead + aft) / 2 * scale, scale)
