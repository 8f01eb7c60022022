"""How wide the columns of a table are: each as wide as its longest words, up to a limit."""

from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QComboBox, QTableWidget

from mastlayout.ui.forms.entry import Entry

_LEAST_PX, _MOST_PX = 110, 420
# What stands beside the words: the frame and inner edge of a line, the arrow of a list.
_LINE_PX, _LIST_PX = 26, 44


def fit_columns(table: QTableWidget) -> int:
    """Give every column the room its head and its cells need; return the width of all, px.

    A column never gets narrower while the table is open. A long remark stops at a limit: its tooltip
    says it all.
    """
    for at in range(table.columnCount()):
        table.setColumnWidth(at, max(table.columnWidth(at), _wanted_px(table, at)))
    return sum(table.columnWidth(at) for at in range(table.columnCount()))


def _wanted_px(table: QTableWidget, column: int) -> int:
    cells: list[Entry] = [table.cellWidget(row, column) for row in range(table.rowCount())]  # type: ignore[misc]
    widest = max((_cell_px(cell) for cell in cells), default=0)
    return min(max(widest, table.horizontalHeader().sectionSizeHint(column), _LEAST_PX), _MOST_PX)


def _cell_px(cell: Entry) -> int:
    metrics = QFontMetricsF(cell.font())
    if isinstance(cell, QComboBox):
        words = [cell.itemText(at) for at in range(cell.count())]
        return round(max(map(metrics.horizontalAdvance, words), default=0.0)) + _LIST_PX
    return round(metrics.horizontalAdvance(cell.text() or cell.placeholderText())) + _LINE_PX
