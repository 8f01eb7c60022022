"""What a list says in place of rows: why there are none, and what to do."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QAbstractItemView

from mastlayout.ui.look import BODY, GAP, Colours, font


def paint_why_empty(view: QAbstractItemView, colours: Colours, words: str) -> None:
    """Paint words into a list without rows; nothing into one that has some."""
    if view.model().rowCount():
        return
    painter = QPainter(view.viewport())
    painter.setFont(font(BODY))
    painter.setPen(colours["second"])
    box = QRectF(view.viewport().rect()).adjusted(GAP, GAP, -GAP, -GAP)
    painter.drawText(box, Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap, words)
    painter.end()
