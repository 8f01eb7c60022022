"""What is under a pixel of the elevation besides fittings: spreaders, stays by wire and pin."""

import numpy as np
from PySide6.QtCore import QPointF

from mastlayout.geometry.frames import Array
from mastlayout.geometry.rig import StayInSpace, mast_end
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.silhouette import silhouettes
from mastlayout.model.moving import End
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.session import View

_REACH_PX, _PIN_PX = 4.0, 12.0


def rig_part_at(scene: Scene, view: View, span: Span, at: QPointF) -> str:
    """Return the id of the spreader, else of the stay, within reach of a pixel; "" where there is none."""
    point, reach = np.array([span.right_mm(at.x()), span.z_mm(at.y())]), _REACH_PX / span.scale
    for name, bar in scene.spreaders.items():
        if any(_within(shape, point, reach) for shape in silhouettes(bar.solids, AXES[view])):
            return name
    away = {
        name: _distance(stay.points @ AXES[view].T, point) - (stay.item.wire_mm or 0.0) / 2
        for name, stay in scene.stays.items()
        if stay.points is not None
    }
    near = min(away, key=lambda name: away[name], default="")
    return near if near and away[near] <= reach else ""


def pin_at(scene: Scene, stay: StayInSpace, view: View, span: Span, at: QPointF) -> End | None:
    """Return which end of a stay on the mast is at a pixel; None on the wire between."""
    ends: tuple[End, ...] = ("upper", "lower") if stay.item.lower else ("upper",)
    for end in ends:
        item = stay.item.lower if end == "lower" and stay.item.lower else stay.item.upper
        right, up = AXES[view] @ mast_end(scene.skin, item)
        off = QPointF(span.x_px(float(right)), span.y_px(float(up))) - at
        if off.manhattanLength() <= _PIN_PX:
            return end
    return None


def _within(polygon: Array, point: Array, reach: float) -> bool:
    low, high = polygon.min(axis=0) - reach, polygon.max(axis=0) + reach
    return bool((point >= low).all() and (point <= high).all())


def _distance(line: Array, point: Array) -> float:
    """Return how far a point is from a line of points (k, 2)."""
    start, step = line[:-1], np.diff(line, axis=0)
    part = np.clip(((point - start) * step).sum(axis=1) / (step**2).sum(axis=1), 0.0, 1.0)
    nearest = start + part[:, None] * step
    return float(np.hypot(*(point - nearest).T).min())
