"""How a finding is painted: mark and word of its state, then the clause; tint and bar when chosen."""

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from mastlayout.ui.findings.rows import FINDING
from mastlayout.ui.look import BODY, GAP, ROW, font
from mastlayout.ui.marks import colour, paint_mark, word
from mastlayout.ui.theme import Theme

# In pixels, from the row's left.
_BAR, _MARK_AT, _STATE_AT, _CLAUSE_AT, _MARK = 3.0, 15.0, 28.0, 116.0, 14.0


class FindingDelegate(QStyledItemDelegate):
    """Paints one row."""

    def __init__(self, theme: Theme, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._theme = theme

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(160, ROW)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        box, colours = QRectF(option.rect), self._theme.colours
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(box, colours["chosen"])
            painter.fillRect(QRectF(box.left(), box.top(), _BAR, box.height()), colours["accent"])
            if option.state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(colours["accent"], 1))
                painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5))
        state = index.data(FINDING).standing
        paint_mark(painter, state, QPointF(box.left() + _MARK_AT, box.center().y()), _MARK, colours)
        painter.setFont(font(BODY, bold=True))
        painter.setPen(colour(state, colours))
        painter.drawText(box.adjusted(_STATE_AT, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, word(state))
        clause = box.adjusted(_CLAUSE_AT, 0, -GAP, 0)
        painter.setFont(font(BODY))
        painter.setPen(colours["ink"])
        # The figures stand at the end of a clause: a long one is cut in its middle.
        elided = QFontMetricsF(font(BODY)).elidedText(
            index.data(), Qt.TextElideMode.ElideMiddle, clause.width()
        )
        painter.drawText(clause, Qt.AlignmentFlag.AlignVCenter, elided)
        painter.restore()
