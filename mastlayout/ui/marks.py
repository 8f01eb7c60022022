"""State marks: shape, word and colour; the shape alone must tell a state in one colour."""

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from mastlayout.ui.look import Colours, font
from mastlayout.words import _

STATES = ("fault", "caution", "not checked", "note", "clear", "accepted")
_ROLE = {"fault": "fault", "caution": "caution", "not checked": "unknown", "note": "note", "clear": "clear",
         "accepted": "clear"}  # fmt: skip


def word(state: str) -> str:
    """Return the state's word as decisions show it."""
    return {
        "fault": _("Fault"), "caution": _("Caution"), "not checked": _("Not checked"), "note": _("Note"),
        "clear": _("Clear"), "accepted": _("Accepted"),
    }[state]  # fmt: skip


def colour(state: str, colours: Colours) -> QColor:
    """Return the state's colour."""
    return colours[_ROLE[state]]


def paint_mark(painter: QPainter, state: str, centre: QPointF, size: float, colours: Colours) -> None:
    """Paint a mark ``size`` pixels wide round a centre."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = colour(state, colours)
    box = QRectF(centre.x() - size / 2, centre.y() - size / 2, size, size)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    _PAINT[state](painter, box, ink, colours)
    painter.restore()


def _octagon(painter: QPainter, box: QRectF, _ink: QColor, colours: Colours) -> None:
    painter.drawPolygon(_regular(box, 8, math.pi / 8))
    painter.setPen(QPen(colours["ground"], box.width() / 8, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    inner = box.adjusted(*(box.width() * f for f in (0.32, 0.32, -0.32, -0.32)))
    painter.drawLine(inner.topLeft(), inner.bottomRight())
    painter.drawLine(inner.topRight(), inner.bottomLeft())


def _triangle(painter: QPainter, box: QRectF, _ink: QColor, colours: Colours) -> None:
    top, low = box.top() + box.height() * 0.04, box.bottom() - box.height() * 0.06
    painter.drawPolygon(
        QPolygonF([QPointF(box.center().x(), top), QPointF(box.right(), low), QPointF(box.left(), low)])
    )
    _letter(painter, box.adjusted(0, box.height() * 0.16, 0, 0), "!", colours["ground"], 0.66)


def _ring(painter: QPainter, box: QRectF, ink: QColor, _colours: Colours) -> None:
    pen = QPen(ink, max(1.2, box.width() / 10))
    pen.setDashPattern([2.2, 1.4])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    edge = pen.widthF() / 2
    painter.drawEllipse(box.adjusted(edge, edge, -edge, -edge))
    _letter(painter, box, "?", ink, 0.68)


def _square(painter: QPainter, box: QRectF, ink: QColor, _colours: Colours) -> None:
    painter.setPen(QPen(ink, max(1.0, box.width() / 12)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box.adjusted(*(box.width() * f for f in (0.08, 0.08, -0.08, -0.08))))
    _letter(painter, box, "i", ink, 0.7)


def _tick(painter: QPainter, box: QRectF, ink: QColor, _colours: Colours) -> None:
    painter.setPen(QPen(ink, max(1.2, box.width() / 9), Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    points = [(0.2, 0.55), (0.42, 0.76), (0.82, 0.26)]
    painter.drawPolyline(
        [QPointF(box.left() + x * box.width(), box.top() + y * box.height()) for x, y in points]
    )


def _ringed_tick(painter: QPainter, box: QRectF, ink: QColor, colours: Colours) -> None:
    painter.setPen(QPen(ink, max(1.0, box.width() / 12)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(box.adjusted(*(box.width() * f for f in (0.05, 0.05, -0.05, -0.05))))
    _tick(painter, box.adjusted(*(box.width() * f for f in (0.18, 0.18, -0.18, -0.18))), ink, colours)


_PAINT = {"fault": _octagon, "caution": _triangle, "not checked": _ring, "note": _square, "clear": _tick,
          "accepted": _ringed_tick}  # fmt: skip


def _regular(box: QRectF, corners: int, turn: float) -> QPolygonF:
    radius = box.width() / 2
    angles = [turn + 2 * math.pi * i / corners for i in range(corners)]
    centre = box.center()
    return QPolygonF(
        [QPointF(centre.x() + radius * math.cos(a), centre.y() + radius * math.sin(a)) for a in angles]
    )


def _letter(painter: QPainter, box: QRectF, text: str, ink: QColor, part: float) -> None:
    painter.setFont(font(max(7, round(box.height() * part)), bold=True))
    painter.setPen(ink)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
