"""A form: what is wanted, the few things that must be known of it, and a button that says the deed."""

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from mastlayout.errors import MastLayoutError
from mastlayout.frozen import dataclass
from mastlayout.model.layout import Layout
from mastlayout.ui.forms.asked import Asked, sentence_of
from mastlayout.ui.forms.entry import Answer, Entry, text_of
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, NAME, ROW, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session

_WIDE_PX, _MOST_ROWS = 460, 16


@dataclass(frozen=True, eq=False)
class Variant:
    """One thing that the form can make: what it asks for, and what becomes of the answers.

    ``make`` returns the edited layout and the id to take in hand ("" leaves the hand as it is); it
    raises MastLayoutError with what is wrong. ``known`` fills the fields. ``step`` names the undo
    step. What is done elsewhere is called ``instead``.
    """

    key: str
    name: str
    about: str
    step: str
    make: Callable[[Mapping[str, Any]], tuple[Layout, str]]
    fields: Sequence[Asked] = ()
    known: Mapping[str, Any] = field(default_factory=dict)
    instead: Callable[[], None] | None = None


class FormDialog(QDialog):
    """A form of one or several variants; Return makes what is chosen and takes it in hand.

    ``made`` carries the id of what was made, "" where the hand stays as it was.
    """

    made = Signal(str)

    def __init__(
        self, session: Session, title: str, deed: str, variants: Sequence[Variant],
        parent: QWidget | None = None, *, chosen: str = "",
    ) -> None:  # fmt: skip
        super().__init__(parent)
        self.session, self.variants = session, list(variants)
        self.setWindowTitle(title)
        self.list, self.about, self.said = QListWidget(), QLabel(), Said()
        self.entries: dict[str, Entry] = {}
        self._answers: dict[str, Answer] = {}
        self._fields = QWidget()
        self._lay_out(title, deed)
        keys = [variant.key for variant in self.variants]
        self.list.setCurrentRow(keys.index(chosen) if chosen in keys else 0)
        self.resize(_WIDE_PX, self.sizeHint().height())

    @property
    def variant(self) -> Variant:
        """What is chosen."""
        return self.variants[max(self.list.currentRow(), 0)]

    def _lay_out(self, title: str, deed: str) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(*(2 * MARGIN,) * 4)
        column.setSpacing(GAP)
        head = QLabel(title)
        head.setFont(font(NAME, bold=True))
        self.list.setAccessibleName(title)
        self.list.setFont(font(BODY))
        for variant in self.variants:
            item = QListWidgetItem(variant.name, self.list)
            item.setToolTip(variant.about)
        shown = min(len(self.variants), _MOST_ROWS)
        self.list.setFixedHeight(shown * ROW + 2 * self.list.frameWidth() + 2)
        self.list.setStyleSheet(f"QListWidget::item {{ height: {ROW}px; }}")
        self.list.setVisible(len(self.variants) > 1)
        self.list.currentRowChanged.connect(self._show_fields)
        self.list.installEventFilter(self)
        self.about.setWordWrap(True)
        self.about.setFont(font(LABEL))
        self.said.setStyleSheet("QLabel { color: palette(text); font-weight: bold; }")
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.button = buttons.addButton(deed, QDialogButtonBox.ButtonRole.AcceptRole)
        self.button.setDefault(True)
        buttons.accepted.connect(self.take)
        buttons.rejected.connect(self.reject)
        for widget in (head, self.list, self.about, self._fields, self.said, buttons):
            column.addWidget(widget)

    def _show_fields(self, _row: int) -> None:
        """Ask for what the chosen variant needs; what was typed under the same key stays."""
        typed = {key: text_of(control) for key, control in self.entries.items()}
        old, self._fields = self._fields, QWidget()
        column = self.layout()
        if column is not None:
            column.replaceWidget(old, self._fields)
        old.hide()  # until it is gone
        old.deleteLater()
        grid = QGridLayout(self._fields)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP)
        self.entries, self._answers = {}, {}
        for row, asked in enumerate(self.variant.fields):
            before = "" if asked.choices else typed.get(asked.key, "")
            answer = Answer(asked, self.variant.known.get(asked.key), self.session.units, before)
            self._answers[asked.key] = answer
            control = self.entries[asked.key] = answer.control
            label = QLabel(asked.label)
            label.setFont(font(BODY))
            label.setBuddy(control)
            grid.addWidget(label, row, 0)
            grid.addWidget(control, row, 1)
        grid.setColumnStretch(1, 1)
        self.about.setText(self.variant.about)
        self.said.say("")
        self._order_tabs()

    def _order_tabs(self) -> None:
        stops: list[QWidget] = [self.list, *self.entries.values(), self.button]
        for before, after in itertools.pairwise(stops):
            QWidget.setTabOrder(before, after)

    def take(self) -> None:
        """Make what is chosen; where something is wrong, say it and leave the layout as it is."""
        variant, session = self.variant, self.session
        if variant.instead is not None:
            self.accept()
            variant.instead()
            return
        asked_for = next((one for one in variant.fields if self._lacks(one)), None)
        try:
            answers = {key: answer.read() for key, answer in self._answers.items()}
            layout, name = variant.make(answers)
            session.preview(layout)
        except (MastLayoutError, ValidationError) as error:
            session.cancel()
            self.said.say(sentence_of(error))
            if asked_for is not None:
                self.entries[asked_for.key].setFocus()
            return
        session.edit(layout, variant.step)
        if name:
            session.pick(name)
        self.accept()
        self.made.emit(name)

    def _lacks(self, asked: Asked) -> bool:
        return not asked.may_lack and not text_of(self.entries[asked.key]).strip()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let Return in the list go on to what is still to be typed."""
        enter = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and event.key() in enter:
            lacking = next((one for one in self.variant.fields if self._lacks(one)), None)
            if watched is self.list and lacking is not None:
                self.entries[lacking.key].setFocus(Qt.FocusReason.TabFocusReason)
                return True
        return False
