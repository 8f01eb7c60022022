"""A table that shows no half row at its lower edge."""

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

    def sizeHint(self) -> QSize:
        return self._view.sizeHint()

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self._head_px() + ROW)

    def _head_px(self) -> int:
        head = self._view.horizontalHeader()
        return 0 if head.isHidden() else head.sizeHint().height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._view.resize(event.size())  # which may change the height of its rows
        head, row = self._head_px(), self._view.verticalHeader().defaultSectionSize()
        rows = max(1, (event.size().height() - head) // row)
        self._view.resize(event.size().width(), head + rows * row)
