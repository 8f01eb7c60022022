"""The foot of the part in hand, as it is rubbed or measured: size, holes, cable entry."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from mastlayout.errors import EditError, MastLayoutError, UnitError
from mastlayout.model.edits import confirm_foot
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Foot, Hole, read_fastener
from mastlayout.ui.framed import framed
from mastlayout.ui.look import BODY, GAP, LABEL, ROW, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.typed import not_known, retyped_size, written, written_size
from mastlayout.words import _

_ACROSS, _ALONG, _FASTENER, _DIAMETER = range(4)
_DIGITS, _BEFORE = 2, Qt.ItemDataRole.UserRole
# What may lie on either side of the foot's middle; what may be nothing. All is read by a calliper.
_ANY_SIGN = ("entry_across_mm", "entry_along_mm")
_MAY_BE_0 = ("thickness_mm", "liner_mm", "backing_mm")
_MAY_LACK = ("radius_mm", "corner_mm")
_OF_FOOT = ("across_mm", "along_mm", *_MAY_BE_0)


class FootDialog(QDialog):
    """A form filled with the foot as it is known now; what is typed becomes the foot in hand."""

    def __init__(self, session: Session, fitting: Fitting, foot: Foot, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._fitting, self._foot = session, fitting, foot
        self.setWindowTitle(_("Foot of {name}").format(name=fitting.name))
        self._before: dict[str, float] = {key: getattr(foot, key) for key in _OF_FOOT}
        if foot.entry is not None:
            self._before |= {
                "entry_across_mm": foot.entry.across_mm,
                "entry_along_mm": foot.entry.along_mm,
                "entry_diameter_mm": foot.entry.diameter_mm,
            }
        self.sizes = {key: self._size(key, value) for key, value in self._before.items()}
        corners = {cut.corner_radius_mm for cut in foot.cutouts}
        self._may_lack: dict[str, float | None] = {"radius_mm": foot.radius_mm}
        if corners:
            self._may_lack["corner_mm"] = corners.pop() if len(corners) == 1 else None
        self.lacking = {key: self._size(key, value) for key, value in self._may_lack.items()}
        self.seat = self._seats()
        self.holes, self.said = self._table(), Said()
        self.said.setStyleSheet("QLabel { color: palette(text); }")
        self._lay_out()
        self.resize(620, 660)

    def _lay_out(self) -> None:
        how = _("Measure the part itself. Across is to the right and along towards the masthead, seen from "
                "outside, from the middle of the foot. From now on its holes are printed.")  # fmt: skip
        parts = (how, self._form(), self.holes, self._hole_buttons(), self.said)
        _box, self.button = framed(self, self.windowTitle(), parts, _("Confirm the foot"), self.confirm)

    def _size(self, key: str, value_mm: float | None) -> QLineEdit:
        edit = QLineEdit("" if value_mm is None else self._written(value_mm))
        edit.setAccessibleName(_sizes()[key])
        edit.setFont(font(BODY))
        if key in _MAY_LACK:
            edit.setPlaceholderText(not_known())
        return edit

    def _seats(self) -> QComboBox:
        """Return the choice of how the foot lies on the mast: it decides how its holes are drilled."""
        choice = QComboBox()
        choice.setAccessibleName(_("Lies on the mast"))
        choice.setFont(font(BODY))
        for seat, words in _seat_words().items():
            choice.addItem(words, seat)
        choice.setCurrentIndex(list(_seat_words()).index(self._foot.seat))
        return choice

    def _written(self, value_mm: float) -> str:
        return written_size(value_mm, self._session.units, _DIGITS)

    def _form(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        for row, edit in enumerate((self.seat, *self.sizes.values(), *self.lacking.values())):
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
            size = hole.diameter_mm
            own = "" if size is None else self._written(size)
            place = (self._written(hole.across_mm), self._written(hole.along_mm))
            before = (hole.across_mm, hole.along_mm, None, size)
            _append(table, (*place, str(hole.fastener), own), before)
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
        _append(self.holes, ("0", "0", last.text() if last else "none", ""))
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
            key: self._length(
                edit.text(),
                edit.accessibleName(),
                self._before[key],
                positive=key not in (*_ANY_SIGN, *_MAY_BE_0),
                may_be_less=key in _ANY_SIGN,
            )
            for key, edit in self.sizes.items()
        }
        # What nobody typed is not written down: the file keeps to what the foot was given.
        changed = (key for key in _OF_FOOT if sizes[key] != self._before[key])
        parts: dict[str, Any] = {key: sizes[key] for key in changed}
        if self._foot.entry is not None:
            entry = {key: sizes[f"entry_{key}"] for key in ("across_mm", "along_mm", "diameter_mm")}
            parts["entry"] = self._foot.entry.but(**entry)
        seat = self.seat.currentData()
        if seat != self._foot.seat:
            parts["seat"] = seat
        parts |= self._typed_lacking()
        parts["holes"] = tuple(self._hole(row) for row in range(self.holes.rowCount()))
        return self._foot.but(**parts)

    def _typed_lacking(self) -> dict[str, Any]:
        """Return what may be left empty, not known, where that was changed: a radius, corners of cut-outs."""
        typed = {
            key: self._length(edit.text(), edit.accessibleName(), self._may_lack[key], positive=True)
            if edit.text().strip()
            else None
            for key, edit in self.lacking.items()
        }
        parts: dict[str, Any] = {}
        if "radius_mm" in typed and typed["radius_mm"] != self._may_lack["radius_mm"]:
            parts["radius_mm"] = typed["radius_mm"]
        if "corner_mm" in typed and typed["corner_mm"] != self._may_lack["corner_mm"]:
            corner = typed["corner_mm"]
            parts["cutouts"] = tuple(cut.but(corner_radius_mm=corner) for cut in self._foot.cutouts)
        return parts

    def _hole(self, row: int) -> Hole:
        items = [self.holes.item(row, column) or QTableWidgetItem() for column in range(4)]
        texts, before = [item.text().strip() for item in items], [item.data(_BEFORE) for item in items]
        called = _("Hole {number}, {what}")
        names = [called.format(number=row + 1, what=what.lower()) for what in _columns()]
        return Hole(
            across_mm=self._length(texts[_ACROSS], names[_ACROSS], before[_ACROSS]),
            along_mm=self._length(texts[_ALONG], names[_ALONG], before[_ALONG]),
            fastener=read_fastener(texts[_FASTENER]),
            diameter_mm=self._length(texts[_DIAMETER], names[_DIAMETER], before[_DIAMETER], positive=True)
            if texts[_DIAMETER]
            else None,
        )

    def _length(
        self, text: str, name: str, before: float | None, *,
        positive: bool = False, may_be_less: bool = True,
    ) -> float:  # fmt: skip
        """Return a length, mm; the sentence of a wrong one begins with its name."""
        try:
            length = retyped_size(text, self._session.units, before, _DIGITS)
        except UnitError as error:
            raise EditError(f"{name}: {error}") from error
        most = self._session.layout.mast.length_mm  # no part of a foot lies beyond the mast: a slipped digit
        low = -most if may_be_less and not positive else 0.0
        if not low <= length <= most or (positive and length <= 0.0):
            words = _("{name}: {typed} is no size of a foot: {least} to {most} is allowed")
            units = self._session.units
            least = _("more than 0") if positive else written(low, units)
            raise EditError(
                words.format(name=name, typed=text.strip(), least=least, most=written(most, units))
            )
        return round(length, 2)


def _sizes() -> dict[str, str]:
    return {
        "across_mm": _("Across, along the girth"),
        "along_mm": _("Along the mast"),
        "thickness_mm": _("Thickness where it is drilled"),
        "liner_mm": _("Liner under it"),
        "backing_mm": _("Backing bar inside, 0 for none"),
        "radius_mm": _("Radius of its underside"),
        "corner_mm": _("Corner radius of its cut-outs"),
        "entry_across_mm": _("Cable entry, across"),
        "entry_along_mm": _("Cable entry, along"),
        "entry_diameter_mm": _("Cable entry, diameter"),
    }


def _seat_words() -> dict[str, str]:
    return {
        "shaped": _("shaped to the skin, drilled square to the skin"),
        "flat": _("flat, drilled square to the foot"),
        "radiused": _("with a radius, drilled square to the foot"),
    }


def _columns() -> tuple[str, ...]:
    return _("Across"), _("Along"), _("Fastener"), _("Diameter")


def _append(table: QTableWidget, texts: Sequence[str], before: Sequence[float | None] = (None,) * 4) -> None:
    """Add a row; ``before`` holds the lengths that its texts were written of."""
    row = table.rowCount()
    table.insertRow(row)
    for column, (text, value) in enumerate(zip(texts, before, strict=True)):
        item = QTableWidgetItem(text)
        item.setData(_BEFORE, value)
        table.setItem(row, column, item)
