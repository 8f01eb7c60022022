"""What is under the pointer: shapes of things in pixels; the smallest is meant, it lies within larger."""

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPolygonF

from mastlayout.frozen import dataclass

# A thing that is met by a hair is meant.
_REACH_PX = 4.0


@dataclass(frozen=True)
class Hit:
    """A thing's id and a shape of it, in pixels."""

    id: str
    shape: QPolygonF


def square(name: str, at: QPointF, reach: float) -> Hit:
    """Return the square round a small thing."""
    return Hit(name, QPolygonF(QRectF(at.x() - reach, at.y() - reach, 2 * reach, 2 * reach)))


def thing_under(hits: Iterable[Hit], at: QPointF) -> str:
    """Return the id of the smallest thing under a pixel, else of one within reach; "" where there is none."""
    under, near = list[tuple[float, str]](), list[tuple[float, str]]()
    for hit in hits:
        box = hit.shape.boundingRect()
        size = box.width() * box.height()
        if hit.shape.containsPoint(at, Qt.FillRule.WindingFill):
            under.append((size, hit.id))
        elif box.adjusted(-_REACH_PX, -_REACH_PX, _REACH_PX, _REACH_PX).contains(at):
            near.append((size, hit.id))
    return min(under or near, default=(0.0, ""))[1]
