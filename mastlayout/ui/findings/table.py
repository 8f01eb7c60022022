"""The rows as a Qt model that comes and goes row by row, and the rows that are shown of it."""

from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
)

from mastlayout.checks.finding import Key
from mastlayout.ui.findings.rows import Row, Worded, rows_of
from mastlayout.ui.marks import STATES, word
from mastlayout.ui.session import Session
from mastlayout.words import _

ROW = int(Qt.ItemDataRole.UserRole)
STATE, WORDS, MEASURED, NEEDED, BOTH = range(5)
Index = QModelIndex | QPersistentModelIndex


class FindingTable(QAbstractTableModel):
    """Every row of the session's report; ``take`` tells only of rows that differ."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session, self._worded = session, Worded()
        self.rows: list[Row] = rows_of(session.desk, session.units, self._worded)

    def take_all(self) -> None:
        """Take another layout's rows."""
        self.beginResetModel()
        self.rows = rows_of(self._session.desk, self._session.units, self._worded)
        self.endResetModel()

    def take(self) -> None:
        """Take the rows as they stand now: those gone go, those new come, the others stay."""
        after = rows_of(self._session.desk, self._session.units, self._worded)
        keys = {row.key for row in after}
        for at in reversed(range(len(self.rows))):
            if self.rows[at].key not in keys:
                self._go(at)
        there = {row.key for row in self.rows}
        self._put_in_order([row for row in after if row.key in there])
        for at, row in enumerate(after):
            if row.key not in there:
                self._come(at, row)

    def _go(self, at: int) -> None:
        self.beginRemoveRows(QModelIndex(), at, at)
        del self.rows[at]
        self.endRemoveRows()

    def _come(self, at: int, row: Row) -> None:
        self.beginInsertRows(QModelIndex(), at, at)
        self.rows.insert(at, row)
        self.endInsertRows()

    def _put_in_order(self, after: list[Row]) -> None:
        """Take rows of the same matters, in the order they have now."""
        before = self.rows
        if [row.key for row in before] != [row.key for row in after]:
            self.layoutAboutToBeChanged.emit()
            held = self.persistentIndexList()
            places = {row.key: at for at, row in enumerate(after)}
            self.rows = after
            moved = [self.index(places[before[one.row()].key], one.column()) for one in held]
            self.changePersistentIndexList(held, moved)
            self.layoutChanged.emit()
        self.rows = after
        old = {row.key: row for row in before}
        for at, row in enumerate(after):
            if row != old[row.key]:
                self.dataChanged.emit(self.index(at, STATE), self.index(at, BOTH))

    def row_of(self, key: Key) -> int:
        """Return the row about the matter of a key, or -1."""
        return next((at for at, row in enumerate(self.rows) if row.says(key)), -1)

    def counts(self) -> dict[str, int]:
        """Return how many rows each state has, also where it has none."""
        states = [row.state for row in self.rows]
        return {state: states.count(state) for state in STATES}

    # -- Qt's questions

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, _parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return BOTH + 1

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        heads = (_("State"), _("What, where, how much"), _("Measured"), _("Needed"), _("Measured / needed"))
        if orientation == Qt.Orientation.Vertical:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return heads[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if section >= MEASURED else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.rows[index.row()]
        if role == ROW:
            return row
        if role == Qt.ItemDataRole.DisplayRole:
            return _cells(row)[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{row.words[0]}\n{row.whole}"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{word(row.state)}. {row.whole} {row.working}".strip()
        return None


def _cells(row: Row) -> tuple[str, str, str, str, str]:
    """Return what stands in each column; a dash where nothing was measured."""
    if not row.measured:
        dash = "" if row.state == "clear" else "–"
        return word(row.state), row.words[0], dash, dash, dash
    return word(row.state), row.words[0], row.measured, row.needed, f"{row.measured} / {row.needed}"


class ShownRows(QSortFilterProxyModel):
    """The rows of the states that are wanted; ``only`` one thing's where it names one."""

    def __init__(self, table: FindingTable, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.table = table
        self.states: frozenset[str] = frozenset(STATES) - {"clear"}
        self.only = ""
        self.setSourceModel(table)

    def want(self, states: frozenset[str], only: str) -> None:
        """Show rows of some states, of one thing where it is named."""
        if (states, only) != (self.states, self.only):
            self.states, self.only = states, only
            self.invalidate()

    def filterAcceptsRow(self, at: int, _parent: Index) -> bool:
        row = self.table.rows[at]
        return row.state in self.states and (not self.only or self.only in _all_things(row))


def _all_things(row: Row) -> set[str]:
    return {*row.things, *(name for found in row.findings for name in found.things)}
