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
    """Write words centred on a point, or beginning (left) or ending (right) there, broken at a width."""
    face = font(size, bold=bold)
    metrics = QFontMetricsF(face)
    flags = (
        Qt.AlignmentFlag.AlignLeft
        if left
        else Qt.AlignmentFlag.AlignRight
        if right
        else Qt.AlignmentFlag.AlignHCenter
    )
    start = at[0] - (0.0 if left else width if right else width / 2)
    room = QRectF(start, at[1] - 40, width, 80)
    every = flags | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
    if ground:
        box = metrics.boundingRect(room, int(every), words).adjusted(-6, -1, 6, 1)
        painter.fillRect(box, colours["ground"])
    painter.setFont(face)
    painter.setPen(colours[role])
    painter.drawText(room, int(every), words)
