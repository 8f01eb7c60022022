"""The view "Aloft": a table of what is carried aloft before the refit, after it, and what changes."""

from collections.abc import Callable
from dataclasses import astuple
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget

from mastlayout.checks.sentence import names_of
from mastlayout.figures import Figure
from mastlayout.geometry.scene import Scene
from mastlayout.ui.heights.load_rows import sections
from mastlayout.ui.heights.load_words import figure_text, length_text, load_working
from mastlayout.ui.heights.row import Row
from mastlayout.ui.heights.view import FigureView
from mastlayout.ui.heights.words import Working
from mastlayout.ui.look import BODY, font
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

WHAT, BEFORE, AFTER, CHANGE = range(4)
_FIGURE_PX, _CHANGE_PX = 104, 190
Index = QModelIndex | QPersistentModelIndex


class LoadTable(QAbstractTableModel):
    """A row for each figure, a heading over each kind of them."""

    def __init__(self, session: Session, theme: Theme, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.rows: list[Row] = []
        self._sections = sections()
        self._told: list[list[Row]] = [[] for _one in self._sections]
        self._scene: Scene | None = None
        self._turn = 0

    def take(self) -> bool:
        """Take the session as it stands; tell whether other rows are there than before.

        While a thing is dragged the sections take turns, so that a move never waits for all of them.
        """
        scene = self.session.desk.scene
        if scene is self._scene:
            return False
        dragged = self.session.previewing and bool(self.rows)
        self._scene = None if dragged else scene
        self._turn = (self._turn + 1) % len(self._sections)
        due = (self._turn,) if dragged else range(len(self._sections))
        for count in due:
            self._told[count] = list(self._sections[count](scene, names_of(scene.layout)))
        found = [row for told in self._told for row in told]
        anew = [row.what for row in found] != [row.what for row in self.rows]
        if anew:
            self.beginResetModel()
            self.rows = found
            self.endResetModel()
        else:
            self.rows = found
            self.dataChanged.emit(self.index(0, WHAT), self.index(len(found) - 1, CHANGE))
        return anew

    def write_in(self) -> None:
        """Write in the units in force."""
        if self.rows:
            self.dataChanged.emit(self.index(0, WHAT), self.index(len(self.rows) - 1, CHANGE))

    def figure(self, row: int, column: int) -> Figure | None:
        """Return the figure of a cell; where it has none that of the change, else what there is after."""
        one = self.rows[row]
        return self._own(row, column) or one.change or one.after

    def _own(self, row: int, column: int) -> Figure | None:
        one = self.rows[row]
        return {BEFORE: one.before, AFTER: one.after, CHANGE: one.change}.get(column)

    def worked(self, row: int, column: int) -> Working | None:
        """Return how the figure of a cell is found; of a heading its words alone."""
        if not 0 <= row < len(self.rows):
            return None
        figure, what = self.figure(row, column), self.rows[row].what
        return Working(what, "", "", "") if figure is None else load_working(figure, what, self.session.units)

    # -- Qt's questions

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, _parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return CHANGE + 1

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation == Qt.Orientation.Vertical:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return (_("What is aloft"), _("Before"), _("After"), _("Change"))[section]
        return _side(section, words=False) if role == Qt.ItemDataRole.TextAlignmentRole else None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        roles = Qt.ItemDataRole
        answers: dict[int, Callable[[int, int], Any]] = {
            roles.DisplayRole: self._text,
            roles.ToolTipRole: lambda row, column: self._text(row, column) or None,
            roles.FontRole: lambda row, column: font(BODY, bold=self._is_bold(row, column)),
            roles.ForegroundRole: self._ink,
            roles.TextAlignmentRole: lambda row, column: _side(column, words=self.rows[row].change is None),
            roles.AccessibleDescriptionRole: self._spoken,
        }
        answer = answers.get(role)
        return None if answer is None else answer(index.row(), index.column())

    def _text(self, row: int, column: int) -> str:
        if column == WHAT:
            return self.rows[row].what
        if column == CHANGE and self.rows[row].change is None:
            return self._word(self.rows[row])
        return figure_text(self._own(row, column), self.session.units)

    def _is_bold(self, row: int, column: int) -> bool:
        one = self.rows[row]
        return one.heads or column == AFTER or (column == CHANGE and one.change is not None)

    def _word(self, one: Row) -> str:
        if one.asked_mm is None:
            return one.word
        asked = length_text(one.asked_mm, self.session.units)
        return _("{met}: {asked} asked").format(asked=asked, met=one.word)

    def _ink(self, row: int, column: int) -> QColor:
        figure = self._own(row, column)
        unknown = figure is not None and figure.missing is not None
        return self.theme.colours["unknown" if unknown else "ink"]

    def _spoken(self, row: int, column: int) -> str:
        worked = self.worked(row, column)
        return "" if worked is None else ". ".join(astuple(worked))


def _side(column: int, *, words: bool) -> Qt.AlignmentFlag:
    """Return the side a column's text stands on; in the last there may be ``words`` instead of a figure."""
    left = column == WHAT or (column == CHANGE and words)
    side = Qt.AlignmentFlag.AlignLeft if left else Qt.AlignmentFlag.AlignRight
    return side | Qt.AlignmentFlag.AlignVCenter


class LoadView(FigureView):
    """The table on screen; the cell with the keys is the one whose working is open."""

    def __init__(self, table: LoadTable, parent: QWidget | None = None) -> None:
        widths_px = {BEFORE: _FIGURE_PX, AFTER: _FIGURE_PX, CHANGE: _CHANGE_PX}
        super().__init__(table, _("What is carried aloft"), widths_px, parent)
        self.table = table

    def show_layout(self) -> None:
        """Show the layout as it stands, the keys where they were."""
        at = self.currentIndex()
        row, column = (at.row(), at.column()) if at.isValid() else (1, AFTER)
        if self.table.take():
            self.clearSpans()
            for line, one in enumerate(self.table.rows):
                if one.before is None and one.change is None:
                    self.setSpan(line, WHAT, 1, CHANGE + 1 if one.heads else AFTER)
            self.setCurrentIndex(self.table.index(min(row, len(self.table.rows) - 1), column))
