"""Clipping that a picture in SVG keeps too: QSvgGenerator knows none, so its edges are marked in words."""

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPaintEngine, QPainter

# A sign no layout writes: what follows it up to the end of the text is a mark.
MARK = "\ue0c1"


@contextmanager
def clipped(painter: QPainter, box: QRectF) -> Iterator[None]:
    """Paint within a rectangle only."""
    engine = painter.paintEngine()
    marked = engine is not None and engine.type() == QPaintEngine.Type.SVG
    painter.save()
    painter.setClipRect(box)
    if marked:
        seen = painter.deviceTransform().mapRect(box)
        sides = (seen.left(), seen.top(), seen.width(), seen.height())
        painter.drawText(QPointF(), MARK + " ".join(f"{side:.3f}" for side in sides))
    try:
        yield
    finally:
        if marked:
            painter.drawText(QPointF(), MARK)
        painter.restore()
