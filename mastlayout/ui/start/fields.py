"""The fields of the six questions: each takes its answer into the answers."""

from dataclasses import replace
from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from mastlayout.errors import NotKnownError
from mastlayout.model.first_answers import FirstAnswers
from mastlayout.model.mast import DShape, Ellipse, RoundedBox, Section
from mastlayout.ui.look import BODY, GAP, MARGIN, NAME, VALUE, font
from mastlayout.ui.start.answers import Answers, Key, gear
from mastlayout.units import read_length
from mastlayout.words import _

_FIELD_PX = 56


class Field(QWidget):
    """The field of one question. ``changed`` tells the picture that another choice was made."""

    changed = Signal()

    def __init__(self, key: Key) -> None:
        super().__init__()
        self.key = key

    def answered(self, answers: Answers) -> Answers:
        """Return the answers with this one; NotKnownError or UnitError says what is wanted instead."""
        raise NotImplementedError

    def unknown(self, answers: Answers) -> Answers:
        """Return the answers with this one not known."""
        raise NotImplementedError

    @property
    def choice(self) -> str:
        """What is chosen, for the picture."""
        return ""


def _length_edit(name: str, size: int = VALUE) -> QLineEdit:
    edit = QLineEdit()
    edit.setFont(font(size, bold=True))
    edit.setAccessibleName(name)
    return edit


class LengthField(Field):
    """One length."""

    def __init__(self) -> None:
        super().__init__("length")
        row = QVBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        name = QLabel(_("Mast length"))
        name.setFont(font(BODY, bold=True))
        self.edit = _length_edit(_("Mast length"), NAME)
        self.edit.setFixedSize(300, _FIELD_PX)
        row.addWidget(name)
        row.addWidget(self.edit)
        self.setFocusProxy(self.edit)

    def answered(self, answers: Answers) -> Answers:
        if not self.edit.text().strip():
            raise NotKnownError(_("Type the length, or choose “Not known yet”."))
        length = read_length(self.edit.text())
        if length <= 0:
            raise NotKnownError(_("A mast is longer than 0: type what the tape reads from heel to masthead."))
        return answers.having("length", replace(answers.first, mast_length_mm=length), answers.section)

    def unknown(self, answers: Answers) -> Answers:
        self.edit.clear()
        return answers.having("length", replace(answers.first, mast_length_mm=None), answers.section)


class SectionField(Field):
    """The outline's shape and its sizes; a shape shows only the sizes that it has."""

    def __init__(self) -> None:
        super().__init__("section")
        self.shape = QComboBox()
        self.shape.setAccessibleName(_("Shape"))
        for words, data in ((_("Ellipse"), "ellipse"), (_("Rounded box"), "rounded box"), (_("D"), "d")):
            self.shape.addItem(words, data)
        self.edits = {
            "length_mm": _length_edit(_("Fore and aft")),
            "width_mm": _length_edit(_("Athwart")),
            "corner_radius_mm": _length_edit(_("Corner radius")),
            "side_mm": _length_edit(_("Straight side")),
        }
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(MARGIN)
        self.shape.setFixedHeight(_FIELD_PX - 20)
        self._boxes = {"shape": self._named(row, self.shape, 116)}
        for key, edit in self.edits.items():
            edit.setFixedHeight(_FIELD_PX - 20)
            self._boxes[key] = self._named(row, edit, 100)
        row.addStretch(1)
        self.shape.currentIndexChanged.connect(self._show_sizes)
        self.setFocusProxy(self.shape)
        self._show_sizes()

    @staticmethod
    def _named(row: QHBoxLayout, field: QWidget, width: int) -> QWidget:
        box = QWidget()
        column = QVBoxLayout(box)
        column.setContentsMargins(0, 0, 0, 0)
        name = QLabel(field.accessibleName())
        name.setFont(font(BODY, bold=True))
        field.setFixedWidth(width)
        column.addWidget(name)
        column.addWidget(field)
        row.addWidget(box)
        return box

    @property
    def choice(self) -> str:
        return str(self.shape.currentData())

    def _wanted(self) -> tuple[str, ...]:
        more = {"ellipse": (), "rounded box": ("corner_radius_mm",), "d": ("corner_radius_mm", "side_mm")}
        return ("length_mm", "width_mm", *more[self.choice])

    def _show_sizes(self, *_index: object) -> None:
        for key in self.edits:
            self._boxes[key].setVisible(key in self._wanted())
        self.changed.emit()

    def answered(self, answers: Answers) -> Answers:
        sizes: dict[str, float] = {}
        for key in self._wanted():
            edit = self.edits[key]
            if not edit.text().strip():
                edit.setFocus()
                raise NotKnownError(
                    _("{name}: type the size, or choose “Not known yet”.").format(name=edit.accessibleName())
                )
            sizes[key] = read_length(edit.text())
        return answers.having("section", answers.first, self._section(sizes))

    def _section(self, sizes: dict[str, Any]) -> Section:
        try:
            if self.choice == "ellipse":
                return Ellipse(shape="ellipse", **sizes)
            if self.choice == "d":
                return DShape(shape="d", **sizes)
            return RoundedBox(shape="rounded box", **sizes)
        except ValidationError as error:
            key = str(error.errors()[0]["loc"][0])
            edit = next((self.edits[name] for name in sizes if name.startswith(key)), self.edits["length_mm"])
            raise NotKnownError(
                _("{name}: {typed} cannot be; type what the callipers read.").format(
                    name=edit.accessibleName(), typed=edit.text()
                )
            ) from error

    def unknown(self, answers: Answers) -> Answers:
        for edit in self.edits.values():
            edit.clear()
        return answers.having("section", answers.first, None)


class ChoiceField(Field):
    """One of a few; the arrow keys move between them."""

    def __init__(self, key: Key, name: str, choices: tuple[tuple[str, object], ...]) -> None:
        super().__init__(key)
        self._name = name
        self._group = QButtonGroup(self)
        self._values: list[object] = []
        self.buttons: list[QRadioButton] = []
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(3 * MARGIN)
        for words, value in choices:
            button = QRadioButton(words)
            button.setFont(font(VALUE))
            button.setMinimumHeight(_FIELD_PX - 20)
            self._group.addButton(button, len(self._values))
            self._values.append(value)
            self.buttons.append(button)
            row.addWidget(button)
        row.addStretch(1)
        self._group.idToggled.connect(lambda *_toggled: self.changed.emit())
        self.setFocusProxy(self.buttons[0])

    @property
    def choice(self) -> str:
        return str(self._values[self._group.checkedId()]) if self._group.checkedId() >= 0 else ""

    def answered(self, answers: Answers) -> Answers:
        if self._group.checkedId() < 0:
            raise NotKnownError(_("Choose one with the space bar, or “Not known yet”."))
        return self._with(answers, self._values[self._group.checkedId()])

    def unknown(self, answers: Answers) -> Answers:
        self._group.setExclusive(False)
        for button in self.buttons:
            button.setChecked(False)
        self._group.setExclusive(True)
        return self._with(answers, None)

    def _with(self, answers: Answers, value: Any) -> Answers:
        return answers.having(self.key, replace(answers.first, **{self._name: value}), answers.section)


class GearField(Field):
    """As many as are ticked."""

    def __init__(self) -> None:
        super().__init__("gear")
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(3 * MARGIN)
        grid.setVerticalSpacing(GAP)
        self.boxes = [QCheckBox(name) for name in gear()]
        for i, box in enumerate(self.boxes):
            box.setFont(font(VALUE))
            box.toggled.connect(self.changed)
            grid.addWidget(box, i // 3, i % 3)
        grid.setColumnStretch(3, 1)
        self.setFocusProxy(self.boxes[0])

    def answered(self, answers: Answers) -> Answers:
        return self._with(answers, tuple(box.text() for box in self.boxes if box.isChecked()))

    def unknown(self, answers: Answers) -> Answers:
        for box in self.boxes:
            box.setChecked(False)
        return self._with(answers, ())

    @staticmethod
    def _with(answers: Answers, names: tuple[str, ...]) -> Answers:
        first: FirstAnswers = replace(answers.first, new_gear=names)
        return answers.having("gear", first, answers.section)


def fields() -> tuple[Field, ...]:
    """Return a field for each question, in the questions' order."""
    return (
        LengthField(),
        SectionField(),
        ChoiceField("stands", "stands", ((_("On the keel"), "keel"), (_("On deck"), "deck"))),
        ChoiceField("holds", "spreader_pairs", tuple((str(n), n) for n in range(6))),
        ChoiceField(
            "sails",
            "headsail",
            ((_("Rolled on a furler"), "furled"), (_("Hanked on"), "hanked"), (_("There is none"), "none")),
        ),
        GearField(),
    )
