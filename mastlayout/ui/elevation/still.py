"""What stands still under a drag: painted once, so that a move paints only what moves."""

from collections.abc import Iterable, Sequence

import pyqtgraph as pg
from PySide6.QtGui import QColor, QPainter, QPixmap, QTransform
from PySide6.QtWidgets import QStyleOptionGraphicsItem, QWidget


class Still:
    """A picture of a view's items; ``forget`` it whenever one of them, or where they stand, changes."""

    def __init__(self, view: QWidget) -> None:
        self._view = view
        self._picture: QPixmap | None = None

    def forget(self) -> None:
        """Paint it anew when it is asked for next."""
        self._picture = None

    def picture(self, items: Sequence[pg.GraphicsObject], transform: QTransform, ground: QColor) -> QPixmap:
        """Return the items on their ground as they were painted last, in dots of the screen."""
        ratio, size = self._view.devicePixelRatioF(), self._view.size()
        known = self._picture
        if known is None or known.devicePixelRatio() != ratio or known.size() != size * ratio:
            known = self._picture = QPixmap(size * ratio)
            known.setDevicePixelRatio(ratio)
            known.fill(ground)
            painter = QPainter(known)
            paint_items(painter, sorted(items, key=lambda item: float(item.zValue())), transform)
            painter.end()
        return known


def paint_items(painter: QPainter, items: Iterable[pg.GraphicsObject], transform: QTransform) -> None:
    """Paint items one over the other, as their scene would."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    option = QStyleOptionGraphicsItem()
    painter.setTransform(transform)
    for item in items:
        painter.save()
        item.paint(painter, option)
        painter.restore()
    painter.resetTransform()
