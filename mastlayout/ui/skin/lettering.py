"""The skin's words painted: dimension lines, tags, rulers, and which side is which."""

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from mastlayout.ui.look import FIGURE, LABEL, THIN, UNIT, VALUE, Colours, font
from mastlayout.ui.skin.development import Development
from mastlayout.ui.skin.dimensions import Dimension
from mastlayout.ui.skin.holes import Tag
from mastlayout.ui.skin.patch import Patch
from mastlayout.ui.skin.ruler import Tick, girth_ticks, height_ticks
from mastlayout.ui.skin.words import side_words
from mastlayout.units import Units

SIDES_PX, _TRACK_WORDS_PX = 18.0, 18.0


def paint_dimensions(painter: QPainter, lines: Sequence[Dimension], colours: Colours) -> None:
    """Paint dimension lines with ticks, their values over a ground of the metal."""
    for line in lines:
        painter.setPen(QPen(colours["ink"], THIN))
        painter.drawLine(line.start, line.end)
        for end in (line.start, line.end):
            painter.drawLine(end + QPointF(-4, 4), end + QPointF(4, -4))
            painter.drawLine(end - QPointF(0, 6), end + QPointF(0, 6))
    painter.setFont(font(VALUE, bold=True))
    for line in lines:
        painter.fillRect(line.box, colours["mast"])
        painter.setPen(colours["ink"])
        painter.drawText(line.box, Qt.AlignmentFlag.AlignCenter, line.words)


def paint_tags(painter: QPainter, tags: Sequence[Tag], colours: Colours) -> None:
    """Paint words over a ground of the metal."""
    for tag in tags:
        painter.setFont(font(LABEL, bold=tag.bold))
        painter.fillRect(tag.box, colours["mast"])
        painter.setPen(colours[tag.role])
        painter.drawText(tag.box, Qt.AlignmentFlag.AlignCenter, tag.words)


def paint_rulers(
    painter: QPainter, made: Development, patch: Patch, units: Units, wide: float, colours: Colours
) -> None:
    """Paint girth along the top and height at the side of a widget so wide."""
    area = made.area
    painter.setFont(font(FIGURE))
    across = list(girth_ticks(made, units, track=patch.track_here))
    up = list(height_ticks(made, patch.skin, units))
    left = area.left() - 2
    painter.setPen(QPen(colours["ink"], THIN))
    painter.drawLines([QLineF(t.at, area.top(), t.at, area.top() - _long(t)) for t in across])
    painter.drawLines([QLineF(left, t.at, left - _long(t), t.at) for t in up])
    painter.setPen(colours["second"])
    for tick in (tick for tick in across if tick.words):
        # The words of the last tick stay on the widget.
        middle = min(tick.at, wide - _TRACK_WORDS_PX)
        box = QRectF(middle - 30, area.top() - 24, 60, 16)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tick.words)
    for tick in (tick for tick in up if tick.words):
        box = QRectF(0, tick.at - 8, area.left() - 12, 16)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, tick.words)


def _long(tick: Tick) -> float:
    return 7.0 if tick.words else 4.0


def paint_side_words(painter: QPainter, made: Development, patch: Patch, colours: Colours) -> None:
    """Paint which side is which below the skin."""
    area = made.area
    row = QRectF(area.left(), area.bottom() + UNIT, area.width(), SIDES_PX)
    sides = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignHCenter, Qt.AlignmentFlag.AlignRight
    painter.setFont(font(LABEL, bold=True))
    painter.setPen(colours["ink"])
    for words, side in zip(side_words(patch), sides, strict=True):
        painter.drawText(row, side | Qt.AlignmentFlag.AlignVCenter, words)
