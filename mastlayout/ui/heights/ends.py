"""The fields that ask: how high the other end stands, and how she lies in the water."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from mastlayout.errors import MastLayoutError
from mastlayout.ranges.asked import ANGLES, QUESTIONS, Asked, Key
from mastlayout.ui.heights.words import end_text, typed_height_m
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, ROW, UNIT, font
from mastlayout.ui.said import Said
from mastlayout.ui.typed import not_known
from mastlayout.units import Units, read_angle
from mastlayout.words import _

_FIELD_PX = 96
_PASSING = (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason)


class EndField(QLineEdit):
    """One number. ``typed`` carries its text when Return is pressed or the field is left."""

    typed = Signal(str)

    def __init__(self, name: str) -> None:
        super().__init__()
        self.shown = ""
        self.setFont(font(BODY))
        self.setFixedSize(_FIELD_PX, ROW)
        self.setAccessibleName(name)

    def show_text(self, text: str) -> None:
        """Show what holds; what is half typed is put away."""
        self.shown = text
        self.setText(text)
        self.setCursorPosition(0)
        self.setModified(False)

    def mark(self, *, wrong: bool) -> None:
        """Show whether the entry was refused."""
        self.setProperty("wrong", wrong)
        self.style().unpolish(self)
        self.style().polish(self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._take()
            self.selectAll()
        elif event.key() == Qt.Key.Key_Escape and self.isModified():
            self.show_text(self.shown)
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() not in _PASSING:
            self._take()

    def _take(self) -> None:
        if self.isModified():
            self.setModified(False)
            self.typed.emit(self.text())


class Ends(QWidget):
    """The questions in rows; ``changed`` carries what is asked now. A wrong entry changes nothing."""

    changed = Signal(Asked)

    def __init__(self, asked: Asked, units: Units, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.asked, self.units = asked, units
        self.fields: dict[Key, EndField] = {}
        self.whose: dict[Key, QLabel] = {}
        self.said = Said()
        grid = QGridLayout(self)
        grid.setContentsMargins(MARGIN, UNIT, MARGIN, GAP)
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(UNIT)
        for row, (key, question) in enumerate(QUESTIONS.items()):
            self._add(grid, row, key, question.name)
        grid.addWidget(self.said, len(QUESTIONS), 0, 1, 3)
        grid.setColumnStretch(2, 1)
        self.write_in(units)

    def _add(self, grid: QGridLayout, row: int, key: Key, name: str) -> None:
        field, label, whose = EndField(name), QLabel(name), QLabel()
        label.setFont(font(BODY))
        label.setBuddy(field)
        whose.setFont(font(LABEL))
        whose.setProperty("kind", "label")
        whose.setWordWrap(True)
        field.typed.connect(lambda text: self._take(key, text))
        for column, widget in enumerate((label, field, whose)):
            grid.addWidget(widget, row, column)
        self.fields[key], self.whose[key] = field, whose

    def write_in(self, units: Units) -> None:
        """Write in other units."""
        self.units = units
        self.said.say("")
        for key, field in self.fields.items():
            field.show_text(end_text(key, self.asked, units))
            field.setPlaceholderText(not_known())
            field.mark(wrong=False)
            self._say_whose(key)

    def _say_whose(self, key: Key) -> None:
        question, value = QUESTIONS[key], self.asked.value(key)
        words = _("type it: its curves are not drawn") if value is None else ""
        self.whose[key].setText(question.why if value == question.example else words)
        self.fields[key].setAccessibleDescription(self.whose[key].text())

    def _take(self, key: Key, text: str) -> None:
        field = self.fields[key]
        if text.strip() == field.shown:
            value = self.asked.value(key)  # left as it was written it is that very value
        else:
            try:
                value = self._read(key, text)
            except MastLayoutError as error:
                self._refuse(field, str(error))
                return
        self.asked = self.asked.but(key, value)
        self.write_in(self.units)
        self.changed.emit(self.asked)

    def _read(self, key: Key, text: str) -> float | None:
        """Return what was typed; an emptied height is not known, an emptied angle is none."""
        question = QUESTIONS[key]
        if not text.strip():
            return 0.0 if key in ANGLES else None
        value = read_angle(text) if key in ANGLES else typed_height_m(text, self.units)
        return question.checked(round(value, 6))

    def _refuse(self, field: EndField, sentence: str) -> None:
        field.mark(wrong=True)
        field.setAccessibleDescription(sentence)
        self.said.say(sentence)
