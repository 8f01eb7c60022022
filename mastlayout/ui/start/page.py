"""The start page: steps at the left, one question in the middle, examples at the right."""

import datetime as dt
from pathlib import Path

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from mastlayout.errors import MastLayoutError
from mastlayout.model.first_layout import first_layout
from mastlayout.model.layout import Layout
from mastlayout.storage.writing import write_whole
from mastlayout.ui.asks import Asks
from mastlayout.ui.look import BODY, CORNER, GAP, HEIGHT, LABEL, MARGIN, NAME, UNIT, VALUE, font
from mastlayout.ui.start.answers import Answers, questions
from mastlayout.ui.start.examples import ExampleCard, examples
from mastlayout.ui.start.fields import fields
from mastlayout.ui.start.pictures import Picture
from mastlayout.ui.start.said import answer_in_words
from mastlayout.ui.start.steps import Step
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_SIDE_PX, _RIGHT_PX, _BUTTON_PX = (310, 250), (344, 264), 56
_NARROW_BELOW_PX = 1500


class StartPage(QWidget):
    """Six questions. ``made`` carries the first layout; ``opened`` a path, None to ask for one."""

    made = Signal(Layout)
    opened = Signal(object)

    def __init__(self, theme: Theme, asks: Asks, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme, self.asks = theme, asks
        self.answers = Answers()
        self.questions, self.fields = questions(), fields()
        self.steps = [Step(i + 1, question, theme) for i, question in enumerate(self.questions)]
        self.title, self.lead, self.hint, self.wrong = QLabel(), QLabel(), QLabel(), QLabel()
        self.picture = Picture(theme)
        self.next, self.unknown = QPushButton(), QPushButton(_("Not known yet"))
        self.yacht, self.measure = QLineEdit(), QPushButton(_("Print a measure list first"))
        self.open_button = QPushButton(_("Open a layout …"))
        self._stack = QStackedWidget()
        self._cards = QVBoxLayout()
        row = QHBoxLayout(self)
        row.setContentsMargins(4 * MARGIN, 2 * MARGIN, 2 * MARGIN, 2 * MARGIN)
        row.setSpacing(2 * MARGIN)
        row.addWidget(self._left())
        row.addWidget(self._middle(), 1)
        row.addWidget(self._right())
        self._connect()
        self.restyle()
        self.go_to(0)

    # -- building

    def _left(self) -> QWidget:
        holder = self._side_column = _Column()
        column = holder.rows
        column.addWidget(_words(_("A new mast"), HEIGHT - 4, bold=True))
        self._about = _words(
            _(
                "Six answers give a mast to place fittings on and a list of what to measure. "
                "What you do not know stays unknown."
            ),
            BODY,
        )
        column.addWidget(self._about)
        column.addSpacing(MARGIN)
        for step in self.steps:
            column.addWidget(step)
        column.addStretch(1)
        column.addWidget(_words(_("Yacht's name"), BODY, bold=True))
        self.yacht.setAccessibleName(_("Yacht's name"))
        self.yacht.setMinimumHeight(_BUTTON_PX - 20)
        column.addWidget(self.yacht)
        column.addSpacing(GAP)
        self.measure.setMinimumHeight(_BUTTON_PX - 16)
        column.addWidget(self.measure)
        self._one_page = _words(_("for the shed, with boxes to write in"), LABEL)
        column.addWidget(self._one_page)
        return holder

    def _middle(self) -> QFrame:
        frame = QFrame()
        frame.setObjectName("question")
        column = QVBoxLayout(frame)
        column.setContentsMargins(*(3 * MARGIN,) * 4)
        column.setSpacing(GAP)
        self.title.setWordWrap(True)
        for label, size in ((self.lead, VALUE), (self.hint, BODY), (self.wrong, BODY)):
            label.setFont(font(size, bold=label is self.wrong))
            label.setWordWrap(True)
        column.addWidget(self.title)
        column.addWidget(self.lead)
        column.addWidget(self.picture, 1)
        for field in self.fields:
            self._stack.addWidget(field)
            field.changed.connect(self._show_picture)
        column.addWidget(self._stack)
        column.addLayout(self._buttons())
        column.addWidget(self.hint)
        column.addWidget(self.wrong)
        return frame

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(MARGIN)
        self.next.setObjectName("next")
        for button in (self.next, self.unknown):
            button.setFont(font(NAME - 4, bold=button is self.next))
            button.setFixedHeight(_BUTTON_PX)
            button.setMinimumWidth(230)
            row.addWidget(button)
        row.addStretch(1)
        return row

    def _right(self) -> QWidget:
        holder = self._right_column = _Column()
        column = holder.rows
        column.addWidget(_words(_("Or begin with"), NAME - 4, bold=True))
        self.open_button.setMinimumHeight(_BUTTON_PX - 16)
        column.addWidget(self.open_button)
        column.addSpacing(MARGIN)
        column.addWidget(_words(_("An example to try things on"), NAME - 4, bold=True))
        self._cards.setSpacing(MARGIN)
        column.addLayout(self._cards)
        self._scale = _words(_("all to one scale"), LABEL)
        column.addWidget(self._scale)
        column.addStretch(1)
        return holder

    def _connect(self) -> None:
        for i, step in enumerate(self.steps):
            step.clicked.connect(lambda _checked, i=i: self.go_to(i))
        self.next.clicked.connect(self.take_answer)
        self.unknown.clicked.connect(self.leave_unknown)
        self.measure.clicked.connect(self.print_measures)
        self.open_button.clicked.connect(lambda: self.opened.emit(None))
        self._theme.changed.connect(self.restyle)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = event.size().width() < _NARROW_BELOW_PX
        self._side_column.setFixedWidth(_SIDE_PX[narrow])
        self._right_column.setFixedWidth(_RIGHT_PX[narrow])
        self.title.setFont(font(HEIGHT - 10 if narrow else HEIGHT - 2, bold=True))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.fields[self.at].setFocus()
        if not self._cards.count():
            QTimer.singleShot(0, self._examples_if_seen)

    def _examples_if_seen(self) -> None:
        # A window that opens a layout leaves this page before anybody sees it.
        if self.isVisible():
            self.show_examples()

    def show_examples(self) -> None:
        """Read the examples and draw them, once the page stands."""
        if self._cards.count():
            return
        for example in examples():
            card = ExampleCard(example, self._theme)
            card.clicked.connect(lambda _checked=False, path=example.path: self.opened.emit(path))
            self._cards.addWidget(card)

    # -- asking

    @property
    def at(self) -> int:
        """Which question is asked, from 0."""
        return self._stack.currentIndex()

    def begin(self) -> None:
        """Ask from the first question again; earlier answers are forgotten."""
        for field in self.fields:
            field.unknown(self.answers)
        self.answers = Answers()
        self.yacht.clear()
        self.go_to(0)

    def go_to(self, i: int) -> None:
        """Ask a question."""
        question = self.questions[i]
        self._stack.setCurrentIndex(i)
        self.title.setText(question.question)
        self.lead.setText(question.lead)
        self.hint.setText(question.hint)
        self.wrong.clear()
        last = i + 1 == len(self.questions)
        self.next.setText(
            _("Make the mast") if last else _("Next: {step}").format(step=self.questions[i + 1].step.lower())
        )
        for n, step in enumerate(self.steps):
            step.setChecked(n == i)
            key = self.questions[n].key
            step.show_answer(answer_in_words(self.answers, key) if key in self.answers.asked else None)
        self._show_picture()
        self.fields[i].setFocus()

    def _show_picture(self) -> None:
        field = self.fields[self.at]
        self.picture.ask(field.key, field.choice, self.questions[self.at].question)

    def take_answer(self) -> None:
        """Take what the field holds and ask on; where it cannot be used, say what is wanted."""
        try:
            self.answers = self.fields[self.at].answered(self.answers)
        except MastLayoutError as error:
            self.wrong.setText(str(error))
            return
        self._go_on()

    def leave_unknown(self) -> None:
        """Leave the answer unknown and ask on."""
        self.answers = self.fields[self.at].unknown(self.answers)
        self._go_on()

    def _go_on(self) -> None:
        if self.at + 1 < len(self.questions):
            self.go_to(self.at + 1)
        else:
            self.make()

    def make(self) -> None:
        """Make the first layout; where a mast lacks what it needs, ask for that or for the measure list."""
        try:
            layout = first_layout(self.yacht.text().strip(), self.answers.first, self.answers.section)
        except MastLayoutError as error:
            missing = 0 if self.answers.first.mast_length_mm is None else 1
            self.go_to(missing)
            words = str(error)
            self.wrong.setText(
                _("{why}. Type it here, or print the measure list and come back with the numbers.").format(
                    why=words[:1].upper() + words[1:]
                )
            )
            return
        self.made.emit(layout)

    def print_measures(self) -> None:
        """Save the list of what to measure first as a PDF to print."""
        day = dt.date.today().isoformat()  # noqa: DTZ011 - the day on the wall of the shed is meant
        from mastlayout.documents.papers import first_paper  # noqa: PLC0415 - PDF and spreadsheet: 0.2 s

        paper = first_paper(self.yacht.text().strip(), self.answers.first, day=day)
        path = self.asks.file_to_save(Path.home() / paper.name, _("PDF (*.pdf)"))
        if path is None:
            return
        try:
            write_whole(path, paper.data)
        except MastLayoutError as error:
            self.asks.say(str(error))
            return
        self.asks.say(_("The measure list is in {path}. Print it at 100 %.").format(path=path))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
            return
        focused = self.focusWidget()
        in_answer = self.fields[self.at].isAncestorOf(focused) if focused else True
        if isinstance(focused, QAbstractButton) and not in_answer:
            focused.click()
        else:
            self.take_answer()

    def restyle(self) -> None:
        """Take the colours in force."""
        c = self._theme.colours
        self.setStyleSheet(
            f"#question {{ background: #{c.ground}; border: 1px solid #{c.edge};"
            f" border-radius: {CORNER}px; }}"
            f"QPushButton {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
            f" border-radius: {CORNER}px; padding: {UNIT}px {MARGIN}px; }}"
            f"QPushButton:hover, QPushButton:focus {{ border: 2px solid #{c.accent}; }}"
            f"QPushButton:pressed {{ background: #{c.chosen}; }}"
            f"#next {{ background: #{c.accent}; color: #{c.on_accent}; border-color: #{c.accent}; }}"
            f"#next:focus {{ border: 2px solid #{c.ink}; }}"
            f"QLineEdit {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
            f" border-radius: {CORNER}px; padding: 0 {GAP}px; }}"
            f"QLineEdit:focus {{ border: 2px solid #{c.accent}; }}"
        )
        for label in (self._about, self._one_page, self._scale, self.hint):
            label.setStyleSheet(f"color: #{c.second}")
        self.wrong.setStyleSheet(f"color: #{c.fault}")


class _Column(QWidget):
    """A column; ``rows`` takes its contents."""

    def __init__(self) -> None:
        super().__init__()
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(0, 0, 0, 0)
        self.rows.setSpacing(UNIT)


def _words(text: str, size: int, *, bold: bool = False) -> QLabel:
    label = QLabel(text)
    label.setFont(font(size, bold=bold))
    label.setWordWrap(True)
    return label
