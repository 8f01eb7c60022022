"""How a row of the list is painted: state mark, tag, name, reading; tint and bar when it is in hand."""

from collections.abc import Callable

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from mastlayout.ui.inwords import name_among
from mastlayout.ui.look import BODY, LABEL, ROW, font
from mastlayout.ui.marks import paint_mark
from mastlayout.ui.strip.rows import READING, STATE, THING
from mastlayout.ui.strip.things import Thing
from mastlayout.ui.theme import Theme

# Columns in pixels, from the row's left; the reading's from its right.
BAR, MARK_AT, TAG_RIGHT, NAME_LEFT, READING_RIGHT = 3.0, 15.0, 50.0, 60.0, 4.0
MARK = 14.0


class RowDelegate(QStyledItemDelegate):
    """Paints one row; ``among`` gives the names that it must not be taken for."""

    def __init__(
        self, theme: Theme, among: Callable[[], tuple[str, ...]], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._theme, self._among = theme, among
        self.row_px = ROW

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(160, self.row_px)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        box, colours = QRectF(option.rect), self._theme.colours
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        if chosen:
            painter.fillRect(box, colours["chosen"])
            painter.fillRect(QRectF(box.left(), box.top(), BAR, box.height()), colours["accent"])
            if option.state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(colours["accent"], 1))
                painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5))
        thing, state = index.data(THING), index.data(STATE)
        if not thing.id:
            self._head(painter, box, thing.name)
            painter.restore()
            return
        at = QPointF(box.left() + MARK_AT, box.center().y())
        if state:
            paint_mark(painter, state, at, MARK, colours)
        self._words(painter, box, thing, index.data(READING), chosen=chosen)
        painter.restore()

    def _head(self, painter: QPainter, box: QRectF, words: str) -> None:
        """Paint the head over what has no place on the mast."""
        painter.setFont(font(LABEL))
        painter.setPen(self._theme.colours["second"])
        low = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(box.adjusted(NAME_LEFT, 0, 0, 0), low, words)
        painter.setPen(QPen(self._theme.colours["edge"], 1))
        painter.drawLine(box.bottomLeft(), box.bottomRight())

    def _words(self, painter: QPainter, box: QRectF, thing: Thing, reading: str, *, chosen: bool) -> None:
        colours, face = self._theme.colours, font(BODY, bold=chosen)
        middle = Qt.AlignmentFlag.AlignVCenter
        right = middle | Qt.AlignmentFlag.AlignRight
        painter.setFont(font(BODY))
        painter.setPen(colours["second"])
        if thing.tag is not None:
            painter.drawText(QRectF(box.left(), box.top(), TAG_RIGHT, box.height()), right, str(thing.tag))
        painter.setFont(face)
        painter.setPen(colours["second" if thing.sort else "ink"])
        painter.drawText(box.adjusted(0, 0, -READING_RIGHT, 0), right, reading)
        painter.setPen(colours["ink"])
        metrics = QFontMetricsF(face)
        plus = "  +" if thing.new else ""
        taken = READING_RIGHT + metrics.horizontalAdvance(reading) + 8 + metrics.horizontalAdvance(plus)
        name = box.adjusted(NAME_LEFT, 0, -taken, 0)
        text = name_among(thing.name, BODY, name.width(), self._among(), bold=chosen)
        painter.drawText(name.adjusted(0, 0, metrics.horizontalAdvance(plus) + 1, 0), middle, text + plus)
