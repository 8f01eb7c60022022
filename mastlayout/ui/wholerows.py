"""A table that shows no half row at its lower edge."""

from itertools import accumulate

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QTableView, QWidget

from mastlayout.ui.look import ROW


class WholeRows(QWidget):
    """Holds a table and shows whole rows of it only."""

    def __init__(self, view: QTableView) -> None:
        super().__init__()
        self._view = view
        view.setParent(self)
        view.verticalHeader().sectionResized.connect(self._fit)
        view.verticalHeader().sectionCountChanged.connect(self._fit)
        view.verticalScrollBar().valueChanged.connect(self._fit)

    def sizeHint(self) -> QSize:
        return self._view.sizeHint()

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self._head_px() + ROW)

    def _head_px(self) -> int:
        head, frame = self._view.horizontalHeader(), self._view.contentsMargins()
        return (0 if head.isHidden() else head.sizeHint().height()) + frame.top() + frame.bottom()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._view.resize(event.size())  # which may change the height of its rows
        self._fit()

    def _fit(self, *_changed: int) -> None:
        """Give the view the height of the rows that are seen whole, from its first one down.

        Scrolled to its end, a table counts from its last row up.
        """
        view, bar, room = self._view, self._view.verticalScrollBar(), self.height() - self._head_px()
        count = view.model().rowCount()
        at_end = 0 < bar.maximum() == bar.value()
        rows = reversed(range(count)) if at_end else range(max(view.rowAt(0), 0), count)
        ends = list(accumulate(map(view.rowHeight, rows)))
        whole = [end for end in ends if end <= room]
        if len(whole) < len(ends):
            room = whole[-1] if whole else view.verticalHeader().defaultSectionSize()
        view.resize(self.width(), self._head_px() + room)
