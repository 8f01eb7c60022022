"""The table on screen: how a row is painted, and what the keys do in it."""

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from mastlayout.ui import look
from mastlayout.ui.findings.rows import Row
from mastlayout.ui.findings.table import BOTH, MEASURED, NEEDED, ROW, STATE, WORDS, ShownRows
from mastlayout.ui.inwords import fitting_words
from mastlayout.ui.marks import colour, paint_mark
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

NARROW_BELOW_PX = 560
_STATE_PX = 114
# Measured, needed, and both in one column: inches to three places take more room.
_NUMBERS_PX: dict[Units, tuple[int, int, int]] = {"metric": (74, 62, 124), "inches": (92, 80, 146)}
# In pixels from the row's left.
_BAR, _MARK_AT, _STATE_AT, _MARK = 3.0, 15.0, 28.0, 14.0


class CellDelegate(QStyledItemDelegate):
    """Paints one cell: the chosen row tinted, its state's colour kept."""

    def __init__(self, theme: Theme, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._theme = theme

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        box, colours = QRectF(option.rect), self._theme.colours
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(box, colours["chosen"])
            if option.state & QStyle.StateFlag.State_Active and option.widget and option.widget.hasFocus():
                painter.setPen(QPen(colours["accent"], 1))
                painter.drawLine(box.topLeft() + QPointF(0, 0.5), box.topRight() + QPointF(0, 0.5))
                painter.drawLine(box.bottomLeft() - QPointF(0, 0.5), box.bottomRight() - QPointF(0, 0.5))
            if index.column() == STATE:
                painter.fillRect(QRectF(box.left(), box.top(), _BAR, box.height()), colours["accent"])
        if index.column() == STATE:
            self._state(painter, box, index.data(ROW), index.data())
        else:
            self._words(painter, box, index)
        painter.restore()

    def _state(self, painter: QPainter, box: QRectF, row: Row, said: str) -> None:
        at = QPointF(box.left() + _MARK_AT, box.center().y())
        paint_mark(painter, row.state, at, _MARK, self._theme.colours)
        painter.setFont(look.font(look.BODY, bold=row.state != "clear"))
        painter.setPen(colour(row.state, self._theme.colours))
        painter.drawText(box.adjusted(_STATE_AT, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, said)

    def _words(self, painter: QPainter, box: QRectF, index: QModelIndex | QPersistentModelIndex) -> None:
        column, said = index.column(), index.data()
        face = look.font(look.BODY, bold=column in (MEASURED, BOTH))
        side = Qt.AlignmentFlag.AlignLeft if column == WORDS else Qt.AlignmentFlag.AlignRight
        room = box.adjusted(look.UNIT, 0, -look.GAP, 0)
        painter.setFont(face)
        painter.setPen(self._theme.colours["second" if said == "–" else "ink"])
        if column == WORDS:
            said = fitting_words(index.data(ROW).words, QFontMetricsF(face), room.width())
        painter.drawText(room, side | Qt.AlignmentFlag.AlignVCenter, said)


class FindingView(QTableView):
    """The table. ``show_wanted`` on Enter, a click or a double click; ``accept_wanted`` on A."""

    show_wanted = Signal()
    accept_wanted = Signal()

    def __init__(self, shown: ShownRows, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setModel(shown)
        self.setItemDelegate(CellDelegate(theme, self))
        self.setAccessibleName(_("Findings, loudest first"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(look.ROW)
        self.verticalHeader().setMinimumSectionSize(look.NARROW_ROW)
        self._heads()
        self.clicked.connect(self.show_wanted)

    def _heads(self) -> None:
        heads = self.horizontalHeader()
        heads.setFont(look.font(look.LABEL))
        heads.setHighlightSections(False)
        heads.setSectionsClickable(False)
        heads.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        heads.setSectionResizeMode(WORDS, QHeaderView.ResizeMode.Stretch)
        heads.resizeSection(STATE, _STATE_PX)
        self.write_in("metric")

    def write_in(self, units: Units) -> None:
        """Give the figures the room that they take in these units."""
        for column, wide in zip((MEASURED, NEEDED, BOTH), _NUMBERS_PX[units], strict=True):
            self.horizontalHeader().resizeSection(column, wide)

    def resizeEvent(self, event: QResizeEvent) -> None:
        narrow = self.width() < NARROW_BELOW_PX
        self.verticalHeader().setDefaultSectionSize(look.NARROW_ROW if narrow else look.ROW)
        for column in (MEASURED, NEEDED):
            self.setColumnHidden(column, narrow)
        self.setColumnHidden(BOTH, not narrow)
        super().resizeEvent(event)
        # What opens below takes room from the rows: the chosen one must not be what is lost.
        self.scrollTo(self.currentIndex())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.show_wanted.emit()
        elif event.key() == Qt.Key.Key_A and event.modifiers() == Qt.KeyboardModifier.NoModifier:
            self.accept_wanted.emit()
        else:
            super().keyPressEvent(event)
