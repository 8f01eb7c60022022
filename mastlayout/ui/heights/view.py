"""The look and the keys that the tables of figures share: the cell with the keys has its working open."""

from collections.abc import Mapping

from PySide6.QtCore import QAbstractTableModel, Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from mastlayout.ui.look import LABEL, NARROW_ROW, font


class FigureView(QTableView):
    """A table on screen whose first column takes what room the others, of fixed ``widths_px``, leave."""

    def __init__(
        self,
        table: QAbstractTableModel,
        name: str,
        widths_px: Mapping[int, int],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setModel(table)
        self.setAccessibleName(name)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(NARROW_ROW)
        self.setFrameShape(QTableView.Shape.NoFrame)
        head = self.horizontalHeader()
        head.setFont(font(LABEL))
        head.setHighlightSections(False)
        head.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        head.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for column, wide in widths_px.items():
            self.setColumnWidth(column, wide)
