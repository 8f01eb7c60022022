"""What stands still under a drag: painted once, so that a move paints only what moves."""

import math
from collections.abc import Iterable, Sequence

from PySide6.QtGui import QColor, QPainter, QPixmap, QTransform
from PySide6.QtWidgets import QGraphicsObject, QStyleOptionGraphicsItem, QWidget

_CLEAR = QColor(0, 0, 0, 0)


class Still:
    """Pictures of what is under and over the thing in hand; ``forget`` them whenever that changes."""

    def __init__(self, view: QWidget) -> None:
        self._view = view
        self._under: QPixmap | None = None
        self._over: QPixmap | None = None

    def forget(self) -> None:
        """Paint them anew when they are asked for next."""
        self._under = self._over = None

    def paint(
        self,
        painter: QPainter,
        hand: QGraphicsObject,
        beside: Iterable[QGraphicsObject],
        transform: QTransform,
        ground: QColor,
        *,
        behind: bool,
    ) -> None:
        """Paint the thing in hand as it is now, ``behind`` the mast or before it, and the rest as it was."""
        depth = float(hand.zValue()) if behind else math.inf
        under, over = self._under, self._over
        if under is None or over is None or not self._fits(under):
            every = sorted((item for item in beside if item is not hand), key=_height)
            under = self._picture([one for one in every if _height(one) <= depth], transform, ground)
            over = self._picture([one for one in every if _height(one) > depth], transform, _CLEAR)
            self._under, self._over = under, over
        painter.drawPixmap(0, 0, under)
        paint_items(painter, [hand], transform)
        if behind:
            painter.drawPixmap(0, 0, over)

    def _fits(self, picture: QPixmap) -> bool:
        ratio = self._view.devicePixelRatioF()
        return picture.devicePixelRatio() == ratio and picture.size() == self._view.size() * ratio

    def _picture(self, items: Sequence[QGraphicsObject], transform: QTransform, ground: QColor) -> QPixmap:
        """Return items on their ground, in dots of the screen."""
        ratio = self._view.devicePixelRatioF()
        made = QPixmap(self._view.size() * ratio)
        made.setDevicePixelRatio(ratio)
        made.fill(ground)
        painter = QPainter(made)
        paint_items(painter, items, transform)
        painter.end()
        return made


def _height(item: QGraphicsObject) -> float:
    return float(item.zValue())


def paint_items(painter: QPainter, items: Iterable[QGraphicsObject], transform: QTransform) -> None:
    """Paint items one over the other, as their scene would."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    option = QStyleOptionGraphicsItem()
    painter.setTransform(transform)
    for item in items:
        painter.save()
        item.paint(painter, option)
        painter.restore()
    painter.resetTransform()
