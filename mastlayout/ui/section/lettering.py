"""The section's words painted: which side is which, call-outs, and what cannot be drawn."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from mastlayout.ui.look import GAP, LABEL, THIN, VALUE, Colours, font
from mastlayout.ui.section.callouts import LINE_PX, VALUE_PX, Row
from mastlayout.words import _

_DOT_PX = 1.8


def paint_sides(painter: QPainter, head: QRectF, axis_x: float, colours: Colours) -> None:
    """Paint PORT, the bow's arrow and STARBOARD along the top."""
    painter.setPen(colours["ink"])
    painter.setFont(font(LABEL, bold=True))
    middle = Qt.AlignmentFlag.AlignVCenter
    painter.drawText(head, middle | Qt.AlignmentFlag.AlignLeft, _("PORT"))
    painter.drawText(head, middle | Qt.AlignmentFlag.AlignRight, _("STARBOARD"))
    free = head.right() - painter.fontMetrics().horizontalAdvance(_("STARBOARD")) - GAP
    painter.setFont(font(LABEL))
    painter.setPen(colours["second"])
    y = head.center().y()
    wide = painter.fontMetrics().horizontalAdvance(_("bow")) + 1.0
    left = axis_x + GAP if axis_x + GAP + wide <= free else axis_x - GAP - wide
    painter.drawText(QRectF(left, head.top(), wide, head.height()), middle, _("bow"))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours["ink"])
    painter.drawPolygon(
        QPolygonF([QPointF(axis_x - 5, y + 5), QPointF(axis_x, y - 5), QPointF(axis_x + 5, y + 5)])
    )


def paint_callout(painter: QPainter, row: Row, colours: Colours) -> None:
    """Paint a call-out with its leader: its value large, its words in lines below."""
    callout = row.callout
    ink = colours[callout.role]
    painter.setPen(QPen(ink if callout.role != "second" else colours["edge"], THIN))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline(QPolygonF(row.leader))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    painter.drawEllipse(callout.anchor, _DOT_PX, _DOT_PX)
    painter.setPen(ink)
    side = Qt.AlignmentFlag.AlignVCenter | (
        Qt.AlignmentFlag.AlignLeft if row.left else Qt.AlignmentFlag.AlignRight
    )
    line = QRectF(row.box.left(), row.box.top(), row.box.width(), VALUE_PX)
    if callout.value:
        painter.setFont(font(VALUE, bold=True))
        painter.drawText(line, side, callout.value)
        line.translate(0.0, VALUE_PX)
    line.setHeight(LINE_PX)
    painter.setFont(font(LABEL, bold=callout.bold))
    for words in row.lines:
        painter.drawText(line, side, words)
        line.translate(0.0, LINE_PX)
