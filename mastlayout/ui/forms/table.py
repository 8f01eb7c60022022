"""A table of several things of one sort: readings of the wall, runs of a conduit, reefs of a sail."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pydantic import ValidationError
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLineEdit, QPushButton, QTableWidget, QWidget

from mastlayout.errors import EditError, MastLayoutError
from mastlayout.frozen import dataclass
from mastlayout.model.layout import Layout
from mastlayout.ui.forms.asked import Asked, sentence_of
from mastlayout.ui.forms.entry import Answer, Entry, follow
from mastlayout.ui.forms.widths import fit_columns
from mastlayout.ui.framed import framed
from mastlayout.ui.look import LABEL, ROW, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.words import _

Rows = Sequence[Mapping[str, Any]]
# Row numbers, frame and a scroll bar stand beside the columns.
_LEAST_PX, _BESIDE_PX = 460, 100


@dataclass(frozen=True, eq=False)
class Table:
    """What a table asks: ``make`` turns the rows' values by their keys into the edited layout."""

    title: str
    how: str
    columns: Sequence[Asked]
    rows: Rows
    make: Callable[[Rows], Layout]
    step: str


class TableDialog(QDialog):
    """Rows to type in; the deed takes them all as one step."""

    def __init__(self, session: Session, asked: Table, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.asked, self.columns = session, asked, asked.columns
        self.setWindowTitle(asked.title)
        self.table, self.said = QTableWidget(0, len(asked.columns)), Said()
        self._answers: dict[Entry, Answer] = {}
        self._lay_out(asked.title, asked.how)
        for row in asked.rows:
            self._append(row)
        wide = max(_LEAST_PX, fit_columns(self.table) + _BESIDE_PX)
        self.resize(min(wide, parent.window().width()) if parent else wide, 400)

    def _lay_out(self, title: str, how: str) -> None:
        self.table.setAccessibleName(title)
        self.table.setHorizontalHeaderLabels([asked.label for asked in self.columns])
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.horizontalHeader().setFont(font(LABEL))
        self.table.verticalHeader().setDefaultSectionSize(ROW + 4)
        self.table.setTabKeyNavigation(False)
        self.said.setStyleSheet("QLabel { color: palette(text); font-weight: bold; }")
        parts = (how, self.table, self._row_buttons(), self.said)
        _box, self.button = framed(self, title, parts, _("Take these rows"), self.take)

    def _row_buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.add, self.remove = QPushButton(_("Add a row")), QPushButton(_("Take the row away"))
        for button in (self.add, self.remove):
            button.setAutoDefault(False)
            row.addWidget(button)
        self.add.clicked.connect(self.add_row)
        self.remove.clicked.connect(self.remove_row)
        row.addStretch(1)
        return row

    def add_row(self) -> None:
        """Add an empty row and begin to type in it."""
        self._append({})
        self.cell(self.table.rowCount() - 1, 0).setFocus()

    def remove_row(self) -> None:
        """Take away the row with the focus, else the last."""
        focused = self.focusWidget()
        cells = [(r, c) for r in range(self.table.rowCount()) for c in range(len(self.columns))]
        at = next((r for r, c in cells if self.cell(r, c) is focused), self.table.currentRow())
        self.table.removeRow(at if at >= 0 else self.table.rowCount() - 1)

    def cell(self, row: int, column: int) -> Entry:
        """Return the control of a cell."""
        control: Entry = self.table.cellWidget(row, column)  # type: ignore[assignment] # put there below
        return control

    def _append(self, known: Mapping[str, Any]) -> None:
        row = self.table.rowCount()
        self.table.insertRow(row)
        for at, asked in enumerate(self.columns):
            first = asked.choices[0][0] if asked.choices and not asked.may_lack else ""
            answer = Answer(asked, known.get(asked.key), self.session.units, first)
            control = answer.control
            self._answers[control] = answer
            control.setAccessibleName(_("{label}, row {row}").format(label=asked.label, row=row + 1))
            self.table.setCellWidget(row, at, control)
            if isinstance(control, QLineEdit):
                control.editingFinished.connect(lambda: fit_columns(self.table))
        for at, asked in enumerate(self.columns):
            if asked.follows:
                keys = [one.key for one in self.columns]
                follow(self.cell(row, at), asked, self.cell(row, keys.index(asked.follows)))

    def take(self) -> None:
        """Take every row; where one is wrong, say which and leave the layout as it is."""
        session = self.session
        try:
            layout = self.asked.make([self._read(row) for row in range(self.table.rowCount())])
            session.preview(layout)
        except (MastLayoutError, ValidationError) as error:
            session.cancel()
            self.said.say(sentence_of(error))
            return
        session.edit(layout, self.asked.step)
        self.accept()

    def _read(self, row: int) -> Mapping[str, Any]:
        found = {}
        for at, asked in enumerate(self.columns):
            try:
                found[asked.key] = self._answers[self.cell(row, at)].read()
            except MastLayoutError as error:
                self.cell(row, at).setFocus()
                raise EditError(
                    _("Row {row}, {label}: {why}").format(row=row + 1, label=asked.label, why=error)
                ) from error
        return found
