"""The thin line, with its words, to which a thing snapped while it is dragged."""

from collections.abc import Iterable

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from mastlayout.frozen import dataclass
from mastlayout.ui.look import LABEL, THIN, UNIT, Colours, font
from mastlayout.ui.pens import CENTRE, pen

_TALL_PX = 16.0


@dataclass(frozen=True)
class Guide:
    """A line on a canvas in pixels, and what it says; the words begin at its first point."""

    line: QLineF
    words: str


def words_box(guide: Guide, area: QRectF) -> QRectF:
    """Return where a guide's words stand: above its first point, and within an area of pixels."""
    wide = QFontMetricsF(font(LABEL, bold=True)).horizontalAdvance(guide.words) + 2 * UNIT
    at = guide.line.p1()
    x = min(max(at.x(), area.left()), max(area.right() - wide, area.left()))
    y = min(max(at.y() - _TALL_PX - 2.0, area.top()), area.bottom() - _TALL_PX)
    return QRectF(QPointF(x, y), QPointF(min(x + wide, area.right()), y + _TALL_PX))


def paint_guides(painter: QPainter, guides: Iterable[Guide], area: QRectF, colours: Colours) -> None:
    """Paint guides over a canvas."""
    for guide in guides:
        painter.setPen(pen(colours["accent"], THIN, CENTRE))
        painter.drawLine(guide.line)
        box = words_box(guide, area)
        painter.fillRect(box, colours["ground"])
        painter.setPen(QPen(colours["accent"]))
        face = font(LABEL, bold=True)
        painter.setFont(face)
        text = QFontMetricsF(face).elidedText(guide.words, Qt.TextElideMode.ElideMiddle, box.width() - UNIT)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
