"""The view "Where it goes": the places of the fitting in hand from the masthead down, a figure a cell."""

from collections.abc import Callable
from dataclasses import astuple
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor, QResizeEvent
from PySide6.QtWidgets import QWidget

from mastlayout.figures import Figure
from mastlayout.places.candidates import Candidate
from mastlayout.places.reasons import LETTERS, place_words
from mastlayout.places.words import round_words
from mastlayout.ranges.given import Job
from mastlayout.ui.heights.load_words import figure_text, load_working
from mastlayout.ui.heights.view import FigureView
from mastlayout.ui.heights.where_columns import columns_of, found_words
from mastlayout.ui.heights.words import Working
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import BODY, GAP, NARROW_ROW, font
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import figure
from mastlayout.ui.theme import Theme
from mastlayout.words import _

PLACE, MASTHEAD, FOUND, FIRST = range(4)
_MASTHEAD_PX, _FOUND_PX, _PLACE_PX = {"metric": 74, "inches": 98}, 82, 166
Index = QModelIndex | QPersistentModelIndex


class WhereTable(QAbstractTableModel):
    """A row a place: where it is, how far down, what is found there in a word, then its figures."""

    def __init__(self, session: Session, theme: Theme, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.places: tuple[Candidate, ...] = ()
        self.columns = columns_of("echo")

    def show_places(self, places: tuple[Candidate, ...], job: Job) -> None:
        """Show some places of a fitting."""
        self.beginResetModel()
        self.places, self.columns = places, columns_of(job)
        self.endResetModel()

    def figure(self, row: int, column: int) -> Figure | None:
        """Return the figure of a cell; of the words the height above the water."""
        given = self.places[row].given
        return self.columns[column - FIRST].figure(given) if column >= FIRST else given.water

    def worked(self, row: int, column: int) -> Working | None:
        """Return how the figure of a cell is found."""
        if not 0 <= row < len(self.places):
            return None
        figure = self.figure(row, column)
        if figure is None:
            return None
        return load_working(figure, f"{self.called(row)}: {figure.name}", self.session.units)

    def called(self, row: int) -> str:
        """Return a place's letter and what it is called; where round the mast if it differs."""
        one = self.places[row]
        words = f"{LETTERS[row]}  {place_words(one)}"
        told = one.girth is not None and (one.where == "own" or "girth" in one.fields)
        return f"{words}, {round_words(one.girth, self.session.units)}" if told else words

    # -- Qt's questions

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.places)

    def columnCount(self, _parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return FIRST + len(self.columns)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation == Qt.Orientation.Vertical:
            return None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            heads = (_("Place"), _("Masthead"), _("Found"), *(column.head for column in self.columns))
            return heads[section]
        return _side(section) if role == Qt.ItemDataRole.TextAlignmentRole else None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        roles = Qt.ItemDataRole
        answers: dict[int, Callable[[int, int], Any]] = {
            roles.DisplayRole: self._text,
            roles.ToolTipRole: self._text,
            roles.FontRole: lambda row, _column: font(BODY, bold=self.places[row].free),
            roles.ForegroundRole: self._ink,
            roles.TextAlignmentRole: lambda _row, column: _side(column),
            roles.AccessibleDescriptionRole: self._spoken,
        }
        answer = answers.get(role)
        return None if answer is None else answer(index.row(), index.column())

    def _text(self, row: int, column: int) -> str:
        one = self.places[row]
        if column == PLACE:
            return self.called(row)
        if column == MASTHEAD:
            above = one.height_mm > one.report.scene.skin.length_mm
            return _("above") if above else figure(self.session, one.height_mm)
        if column == FOUND:
            return found_words(one)
        return figure_text(self.figure(row, column), self.session.units)

    def _ink(self, row: int, column: int) -> QColor:
        one, colours = self.places[row], self.theme.colours
        if column == FOUND:
            return colours["fault" if not one.free else "caution" if one.of("caution") else "clear"]
        figure = self.figure(row, column)
        unknown = figure is not None and figure.value is None and figure.missing is not None
        return colours["unknown" if unknown and column >= FIRST else "ink"]

    def _spoken(self, row: int, column: int) -> str:
        worked = self.worked(row, column)
        return "" if worked is None else ". ".join(astuple(worked))


def _side(column: int) -> Qt.AlignmentFlag:
    left = column in (PLACE, FOUND)
    return (
        Qt.AlignmentFlag.AlignLeft if left else Qt.AlignmentFlag.AlignRight
    ) | Qt.AlignmentFlag.AlignVCenter


class WhereView(FigureView):
    """The table on screen; the cell with the keys is the one whose working is open."""

    def __init__(self, table: WhereTable, parent: QWidget | None = None) -> None:
        super().__init__(table, _("Where it goes"), {}, parent)
        self.table = table
        self.fit()

    def fit(self) -> None:
        """Give the columns their widths; be as high as all rows."""
        down_px = _MASTHEAD_PX[self.table.session.units]
        self.setColumnWidth(MASTHEAD, down_px)
        self.setColumnWidth(FOUND, _FOUND_PX)
        # A place is told whole: where round the mast it is stands at the end of its words.
        rows = range(self.table.rowCount())
        places = (width_px(self.table.called(row), BODY, bold=self.table.places[row].free) for row in rows)
        place_px = max([_PLACE_PX, *(wide + 2 * GAP for wide in places)])
        columns, room = self.table.columns, self.viewport().width() - place_px - down_px - _FOUND_PX
        hidden: set[int] = set()
        for spare in sorted({column.spared for column in columns} - {0}):
            if sum(column.wide_px for column in columns if column.spared not in hidden) > room:
                hidden.add(spare)
        for count, column in enumerate(columns):
            self.setColumnWidth(FIRST + count, column.wide_px)
            self.setColumnHidden(FIRST + count, column.spared in hidden)
        self.setFixedHeight(
            self.horizontalHeader().sizeHint().height() + NARROW_ROW * max(self.table.rowCount(), 1) + GAP
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()
