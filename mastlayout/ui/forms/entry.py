"""The control of one thing that is asked for: a line to type in, or a list to choose from."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QEvent
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QComboBox, QLineEdit

from mastlayout.ui.forms.asked import Asked, Choices
from mastlayout.ui.inwords import whole_tip
from mastlayout.ui.look import BODY, ROW, font
from mastlayout.units import Units
from mastlayout.words import _

Entry = QLineEdit | QComboBox
_INNER_PX = 10


class _Line(QLineEdit):
    """A line whose tooltip begins with its words where they are longer than the line."""

    tip = ""

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip:
            room = self.width() - 2 * _INNER_PX
            self.setToolTip(whole_tip(self.text(), self.tip, QFontMetricsF(self.font()), room))
        return super().event(event)


def entry(asked: Asked, text: str) -> Entry:
    """Return the control of what is asked, holding a text."""
    choices = choices_of(asked)
    control: Entry = QComboBox() if choices else _Line(text)
    if isinstance(control, QComboBox):
        fill(control, choices, text)
    else:
        control.setPlaceholderText(asked.empty if asked.may_lack and asked.sort != "words" else "")
        control.setCursorPosition(0)
    control.setFont(font(BODY))
    control.setMinimumHeight(ROW)
    control.setAccessibleName(asked.label)
    control.setToolTip(asked.tip)
    if isinstance(control, _Line):
        control.tip = asked.tip
    return control


class Answer:
    """A control with the value it was filled with.

    Left as it was written it gives back that very value.
    """

    def __init__(self, asked: Asked, first: Any, units: Units, text: str = "") -> None:
        self.asked, self._first, self._units = asked, first, units
        self._text = asked.write(first, units)
        self.control = entry(asked, self._text or text)

    def read(self) -> Any:
        """Return the value; EditError or UnitError says what is allowed."""
        return self.asked.read(text_of(self.control), self._units, self._first)


def follow(control: Entry, asked: Asked, chosen: Entry) -> None:
    """Show in an empty line what follows from a choice, now and when another is made."""
    if not isinstance(control, QLineEdit) or not isinstance(chosen, QComboBox):
        return

    def show(_at: int = 0) -> None:
        control.setPlaceholderText(asked.followed.get(text_of(chosen), asked.empty))

    chosen.currentIndexChanged.connect(show)
    show()


def choices_of(asked: Asked) -> Choices:
    """Return what there is to choose from, "not known" among it where it may lack."""
    if asked.sort == "truth":
        return (("", _("no")), ("yes", _("yes")))
    if asked.choices and asked.may_lack:
        return (("", asked.empty), *asked.choices)
    return asked.choices


def fill(control: QComboBox, choices: Sequence[tuple[str, str]], value: str) -> None:
    """Offer choices, the one with a value chosen; a value that is not among them is shown as it is."""
    control.clear()
    for own, words in choices:
        control.addItem(words, own)
    at = control.findData(value)
    if at < 0:
        control.addItem(value, value)
        at = control.count() - 1
    control.setCurrentIndex(at)


def text_of(control: Entry) -> str:
    """Return what was typed or chosen."""
    return str(control.currentData() or "") if isinstance(control, QComboBox) else control.text()
