"""The foot of the part in hand, as it is rubbed or measured: size, holes, cable entry."""

from typing import Any

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from mastlayout.errors import EditError, MastLayoutError, UnitError
from mastlayout.model.edits import confirm_foot
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Foot, Hole, read_fastener
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, NAME, ROW, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.typed import typed_length, written
from mastlayout.words import _

_ACROSS, _ALONG, _FASTENER, _DIAMETER = range(4)
_ANY_SIGN = ("entry_across_mm", "entry_along_mm")


class FootDialog(QDialog):
    """A form filled with the foot as it is known now; what is typed becomes the foot in hand."""

    def __init__(self, session: Session, fitting: Fitting, foot: Foot, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._fitting, self._foot = session, fitting, foot
        self.setWindowTitle(_("Foot of {name}").format(name=fitting.name))
        self.sizes = {
            "across_mm": self._size(_("Across, along the girth"), foot.across_mm),
            "along_mm": self._size(_("Along the mast"), foot.along_mm),
        }
        if foot.entry is not None:
            self.sizes |= {
                "entry_across_mm": self._size(_("Cable entry, across"), foot.entry.across_mm),
                "entry_along_mm": self._size(_("Cable entry, along"), foot.entry.along_mm),
                "entry_diameter_mm": self._size(_("Cable entry, diameter"), foot.entry.diameter_mm),
            }
        self.holes, self.said = self._table(), Said()
        self.said.setStyleSheet("QLabel { color: palette(text); }")
        self._lay_out()
        self.resize(460, 480)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(*(2 * MARGIN,) * 4)
        column.setSpacing(GAP)
        title = QLabel(self.windowTitle())
        title.setFont(font(NAME, bold=True))
        how = QLabel(
            _("Measure the part itself. Across is to the right and along towards the masthead, seen from "
              "outside, from the middle of the foot. From now on its holes are printed.")
        )  # fmt: skip
        how.setWordWrap(True)
        column.addWidget(title)
        column.addWidget(how)
        column.addLayout(self._form())
        column.addWidget(self.holes, 1)
        column.addLayout(self._hole_buttons())
        column.addWidget(self.said)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.button = buttons.addButton(_("Confirm the foot"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.button.setDefault(True)
        buttons.accepted.connect(self.confirm)
        buttons.rejected.connect(self.reject)
        column.addWidget(buttons)

    def _size(self, name: str, value_mm: float) -> QLineEdit:
        edit = QLineEdit(self._written(value_mm))
        edit.setAccessibleName(name)
        edit.setFont(font(BODY))
        return edit

    def _written(self, value_mm: float) -> str:
        return written(value_mm, self._session.units, 2)

    def _form(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        for row, edit in enumerate(self.sizes.values()):
            label = QLabel(edit.accessibleName())
            label.setBuddy(edit)
            grid.addWidget(label, row, 0)
            grid.addWidget(edit, row, 1)
        return grid

    # -- holes

    def _table(self) -> QTableWidget:
        table = QTableWidget(0, len(_columns()))
        table.setAccessibleName(_("Holes of the foot"))
        table.setHorizontalHeaderLabels(_columns())
        table.setToolTip(_("A diameter is typed only where the drill is not that of the fastener."))
        table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        table.horizontalHeader().setFont(font(LABEL))
        table.verticalHeader().setDefaultSectionSize(ROW)
        table.setTabKeyNavigation(False)
        for hole in self._foot.holes:
            own = "" if hole.diameter_mm is None else self._written(hole.diameter_mm)
            place = (self._written(hole.across_mm), self._written(hole.along_mm))
            _append(table, *place, str(hole.fastener), own)
        return table

    def _hole_buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.add, self.remove = QPushButton(_("Add a hole")), QPushButton(_("Take the hole away"))
        self.add.clicked.connect(self.add_hole)
        self.remove.clicked.connect(self.remove_hole)
        for button in (self.add, self.remove):
            button.setAutoDefault(False)
            row.addWidget(button)
        row.addStretch(1)
        return row

    def add_hole(self) -> None:
        """Add a hole in the middle, fastened as the one above it."""
        last = self.holes.item(self.holes.rowCount() - 1, _FASTENER)
        _append(self.holes, "0", "0", last.text() if last else "none", "")
        self.holes.setCurrentCell(self.holes.rowCount() - 1, _ACROSS)

    def remove_hole(self) -> None:
        """Take the chosen hole out of the pattern."""
        if self.holes.currentRow() >= 0:
            self.holes.removeRow(self.holes.currentRow())

    # -- taking what is typed

    def confirm(self) -> None:
        """Record what is typed as the foot in hand; a wrong entry is said and nothing is recorded."""
        try:
            layout = confirm_foot(self._session.layout, self._fitting.id, self.typed())
            self._session.preview(layout)
        except MastLayoutError as error:
            self._session.cancel()
            self.said.say(str(error))
            return
        self._session.edit(layout, _("Confirm the foot of {name}").format(name=self._fitting.name))
        self.accept()

    def typed(self) -> Foot:
        """Return the foot that is typed; EditError or UnitError names the first wrong entry."""
        sizes = {
            key: self._length(edit.text(), edit.accessibleName(), positive=key not in _ANY_SIGN)
            for key, edit in self.sizes.items()
        }
        parts: dict[str, Any] = {key: sizes[key] for key in ("across_mm", "along_mm")}
        if self._foot.entry is not None:
            entry = {key: sizes[f"entry_{key}"] for key in ("across_mm", "along_mm", "diameter_mm")}
            parts["entry"] = self._foot.entry.but(**entry)
        parts["holes"] = tuple(self._hole(row) for row in range(self.holes.rowCount()))
        return self._foot.but(**parts)

    def _hole(self, row: int) -> Hole:
        across, along, fastener, diameter = (
            item.text().strip() if (item := self.holes.item(row, column)) else "" for column in range(4)
        )
        called = _("Hole {number}, {what}")
        names = [called.format(number=row + 1, what=what.lower()) for what in _columns()]
        return Hole(
            across_mm=self._length(across, names[_ACROSS]),
            along_mm=self._length(along, names[_ALONG]),
            fastener=read_fastener(fastener),
            diameter_mm=self._length(diameter, names[_DIAMETER], positive=True) if diameter else None,
        )

    def _length(self, text: str, name: str, *, positive: bool = False) -> float:
        """Return a length, mm; the sentence of a wrong one begins with its name."""
        try:
            length = typed_length(text, self._session.units)
        except UnitError as error:
            raise EditError(f"{name}: {error}") from error
        most = self._session.layout.mast.length_mm  # no part of a foot lies beyond the mast: a slipped digit
        if abs(length) > most or (positive and length <= 0.0):
            words = _("{name}: {typed} is no size of a foot: {least} to {most} is allowed")
            least = _("more than 0") if positive else self._written(-most)
            raise EditError(
                words.format(name=name, typed=text.strip(), least=least, most=self._written(most))
            )
        return round(length, 2)


def _columns() -> tuple[str, ...]:
    return _("Across"), _("Along"), _("Fastener"), _("Diameter")


def _append(table: QTableWidget, *texts: str) -> None:
    row = table.rowCount()
    table.insertRow(row)
    for column, text in enumerate(texts):
        table.setItem(row, column, QTableWidgetItem(text))
