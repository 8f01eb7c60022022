"""The table: every reach of what is in hand and of the height in hand, a cell for each figure."""

from collections.abc import Callable, Mapping
from dataclasses import astuple
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget

from mastlayout.checks.sentence import names_of
from mastlayout.figures import Figure
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.reach import REACHES
from mastlayout.ui.heights.shown import figures_at
from mastlayout.ui.heights.view import FigureView
from mastlayout.ui.heights.words import Working, value_text, what_words, working
from mastlayout.ui.look import BODY, GAP, NARROW_ROW, font
from mastlayout.ui.session import Session, height_of
from mastlayout.ui.theme import Theme
from mastlayout.words import _

WHAT, BY, IN_HAND, AT_HEIGHT = range(4)
WATER = "water"
_KEYS = (WATER, *(reach.key for reach in REACHES))
_HAND_PX, _HEIGHT_PX, _BY_PX = 136, 108, 94
Index = QModelIndex | QPersistentModelIndex
Figures = Mapping[str, Figure]


class GivenTable(QAbstractTableModel):
    """Rows are the height above the water and every reach; figures of what is in hand, and of its height."""

    def __init__(self, session: Session, theme: Theme, asked: Asked, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme, self.asked = session, theme, asked
        self._columns: dict[int, Figures] = {}
        self._heads = self.heads()
        self.take()

    def ask(self, asked: Asked) -> None:
        """Ask for other ends."""
        self.asked = asked
        self.take()
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, WHAT, AT_HEIGHT)

    def take(self) -> None:
        """Take the session as it stands."""
        session, scene = self.session, self.session.desk.scene
        z = height_of(session.desk, session.hand)
        self._columns = {AT_HEIGHT: figures_at(scene, session.z_mm, self.asked)}
        self._columns[IN_HAND] = {} if z is None else figures_at(scene, z, self.asked)
        self.dataChanged.emit(self.index(0, WHAT), self.index(len(_KEYS) - 1, AT_HEIGHT))
        if self.heads() != self._heads:
            self._heads = self.heads()
            self.headerDataChanged.emit(Qt.Orientation.Horizontal, IN_HAND, IN_HAND)

    def figure(self, row: int, column: int) -> Figure | None:
        """Return the figure of a cell; of the words, that of the height in hand."""
        return self._columns[column if column == IN_HAND else AT_HEIGHT].get(_KEYS[row])

    def what(self, row: int) -> str:
        """Return what a row is."""
        if row == 0:
            return _("Above the water")
        return what_words(REACHES[row - 1], self.asked, self.session.units)

    def worked(self, row: int, column: int) -> Working | None:
        """Return how the figure of a cell is found; None where there is none."""
        figure = self.figure(row, column)
        if figure is None:
            return None
        return working(
            figure, f"{self.heads()[column]}: {self.what(row).lower()}", self.asked, self.session.units
        )

    def heads(self) -> tuple[str, str, str, str]:
        """Return the words over the columns."""
        hand = names_of(self.session.layout).get(self.session.hand, "") or _("Nothing in hand")
        height = _("Height in hand")
        return height, height, hand, height

    # -- Qt's questions

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(_KEYS)

    def columnCount(self, _parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return AT_HEIGHT + 1

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation == Qt.Orientation.Vertical:
            return None
        heads = (_("What it gives"), _("By"), *self.heads()[IN_HAND:])
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return heads[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _side(section)
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        roles = Qt.ItemDataRole
        answers: dict[int, Callable[[int, int], Any]] = {
            roles.DisplayRole: self._text,
            roles.ToolTipRole: lambda row, column: self.what(row) if column == WHAT else None,
            roles.FontRole: lambda _row, column: font(BODY, bold=column >= IN_HAND),
            roles.ForegroundRole: self._ink,
            roles.TextAlignmentRole: lambda _row, column: _side(column),
            roles.AccessibleDescriptionRole: self._spoken,
        }
        answer = answers.get(role)
        return None if answer is None else answer(index.row(), index.column())

    def _text(self, row: int, column: int) -> str:
        if column == WHAT:
            return self.what(row)
        if column == BY:
            return _("upright") if row == 0 and not self._leaning() else self._by(row)
        return value_text(self.figure(row, column), self.session.units)

    def _ink(self, row: int, column: int) -> QColor:
        figure = self.figure(row, column) if column >= IN_HAND else None
        unknown = figure is not None and figure.value is None
        return self.theme.colours["unknown" if unknown else "ink"]

    def _spoken(self, row: int, column: int) -> str:
        worked = self.worked(row, column)
        return "" if worked is None else ". ".join(astuple(worked))

    def _by(self, row: int) -> str:
        return _("as she lies") if row == 0 else REACHES[row - 1].convention.short

    def _leaning(self) -> bool:
        return bool(self.asked.heel_deg or self.asked.trim_deg)


def _side(column: int) -> Qt.AlignmentFlag:
    side = Qt.AlignmentFlag.AlignRight if column >= IN_HAND else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter


class GivenView(FigureView):
    """The table on screen; the cell with the keys is the one whose working is open."""

    def __init__(self, table: GivenTable, parent: QWidget | None = None) -> None:
        widths_px = {BY: _BY_PX, IN_HAND: _HAND_PX, AT_HEIGHT: _HEIGHT_PX}
        super().__init__(table, _("What each height gives"), widths_px, parent)
        self.table = table
        self.horizontalHeader().setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def fit(self) -> None:
        """Be as high as all rows, in the style in force."""
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + NARROW_ROW * len(_KEYS) + GAP)
