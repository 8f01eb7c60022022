"""Lines, arrows and words as the start page's pictures use them."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from mastlayout.ui.look import LABEL, THIN, Colours, font

At = tuple[float, float]
_HEAD = 7.0


def line(
    painter: QPainter,
    colours: Colours,
    role: str,
    start: At,
    end: At,
    *,
    width: float = THIN,
    dashed: bool = False,
) -> None:
    """Draw a straight line in the colour of a role."""
    pen = QPen(colours[role], width)
    if dashed:
        pen.setDashPattern([5, 3])
    painter.setPen(pen)
    painter.drawLine(QPointF(*start), QPointF(*end))


def arrow(painter: QPainter, colours: Colours, start: At, end: At) -> None:
    """Draw a measure with a head at each end, upright or level."""
    line(painter, colours, "accent", start, end, width=1.6)
    upright = start[0] == end[0]
    for (x, y), sign in ((start, 1.0), (end, -1.0)):
        for side in (-0.5, 0.5):
            across, along = side * _HEAD, sign * _HEAD
            tip = (x + across, y + along) if upright else (x + along, y + across)
            line(painter, colours, "accent", (x, y), tip, width=1.6)


def breaks(x: float, top: float, bottom: float) -> list[QPointF]:
    """Return a break line down from the top."""
    steps = 8
    return [QPointF(x + (4 if i % 2 else -4), top + (bottom - top) * i / steps) for i in range(steps + 1)]


def said(  # noqa: PLR0913 - each word differs in one or two of these
    painter: QPainter,
    colours: Colours,
    words: str,
    at: At,
    *,
    size: int = LABEL,
    bold: bool = False,
    role: str = "second",
    left: bool = False,
    right: bool = False,
    width: float = 260.0,
    ground: bool = False,
) -> None:
    """Write words centred on a point, or beginning (left) or ending (right) there, broken at a width.

    The letters keep their size in pixels however large the picture is.
    """
    face, scale = font(size, bold=bold), painter.transform().m11()
    side = Qt.AlignmentFlag.AlignHCenter
    if left or right:
        side = Qt.AlignmentFlag.AlignLeft if left else Qt.AlignmentFlag.AlignRight
    start = 0.0 if left else -width if right else -width / 2
    room = QRectF(start * scale, -40, width * scale, 80)
    how = int(side | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap)
    painter.save()
    painter.translate(QPointF(*at))
    painter.scale(1 / scale, 1 / scale)
    if ground:
        box = QFontMetricsF(face).boundingRect(room, how, words).adjusted(-6, -1, 6, 1)
        painter.fillRect(box, colours["ground"])
    painter.setFont(face)
    painter.setPen(colours[role])
    painter.drawText(room, how, words)
    painter.restore()
