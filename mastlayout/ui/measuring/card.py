"""The tape's card under the elevation: what each end is held to, and the figures."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from mastlayout.ui.look import CORNER, GAP, LABEL, MARGIN, UNIT, VALUE, font
from mastlayout.ui.measuring.end_row import EndRow
from mastlayout.ui.measuring.tape import TapeMeasure
from mastlayout.ui.measuring.words import Figure, figures
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class TapeCard(QWidget):
    """Shows while the tape is in hand. ``figures`` are those that stand on it."""

    def __init__(self, tape: TapeMeasure, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tape, self.theme = tape, theme
        self.setObjectName("tape-card")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self.setAccessibleName(_("Tape measure"))
        self.figures: list[Figure] = []
        self.rows = (EndRow(tape, 0), EndRow(tape, 1))
        self.said = QLabel()
        self.copy, self.away = QPushButton(_("Copy")), QPushButton(_("Put away"))
        self._grid = QGridLayout()
        self._labels: list[QLabel] = []
        self._lay_out()
        tape.changed.connect(self.look)
        theme.changed.connect(self.restyle)
        self.restyle()
        self.look()

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(MARGIN, GAP, MARGIN, GAP)
        row.setSpacing(2 * MARGIN)
        left = QVBoxLayout()
        left.setSpacing(UNIT)
        for end in self.rows:
            left.addWidget(end)
        self.said.setFont(font(LABEL))
        self.said.setWordWrap(True)
        left.addWidget(self.said)
        left.addLayout(self._buttons())
        left.addStretch(1)
        row.addLayout(left, 1)
        self._grid.setHorizontalSpacing(GAP)
        self._grid.setVerticalSpacing(UNIT)
        self._grid.setColumnStretch(2, 1)
        row.addLayout(self._grid, 1)

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(UNIT)
        self.copy.setAccessibleName(_("Copy the tape's figures"))
        self.copy.setToolTip(_("Copy the figures as text (Ctrl+Shift+T)"))
        self.away.setAccessibleName(_("Put the tape measure away"))
        self.away.setToolTip(_("Put the tape measure away (Escape)"))
        self.copy.clicked.connect(self.tape.copy)
        self.away.clicked.connect(self.tape.put_away)
        for button in (self.copy, self.away):
            button.setFont(font(LABEL))
            row.addWidget(button)
        row.addStretch(1)
        return row

    def look(self) -> None:
        """Show what the tape is held to and what it reads."""
        self.setVisible(self.tape.in_hand)
        session, read = self.tape.session, self.tape.read
        if session is None or not self.tape.in_hand:
            return
        for row in self.rows:
            row.look()
        self.copy.setEnabled(read.taped is not None)
        known = list(figures(session, read.taped)) if read.taped is not None else []
        if known != self.figures:
            self.figures = known
            self._fill()
        self.said.setText(read.why or self._next())
        self.said.setVisible(bool(self.said.text()))

    def _next(self) -> str:
        if not self.tape.ends:
            return _("Click in the elevation, the section or the skin, or press Enter on a row of the list.")
        return _("Now the second end.") if len(self.tape.ends) == 1 else ""

    def _fill(self) -> None:
        for label in self._labels:
            self._grid.removeWidget(label)
            label.deleteLater()
        self._labels = []
        for i, figure in enumerate(self.figures):
            self._cell(i, 0, figure.label, LABEL, "second")
            if figure.why:
                self._cell(i, 1, "–", VALUE, "second")
                self._cell(i, 2, figure.why, LABEL, "second")
            else:
                self._cell(i, 1, figure.value, VALUE, "ink")
                self._cell(i, 2, figure.more, LABEL, "second")

    def _cell(self, row: int, column: int, words: str, size: int, role: str) -> None:
        label = QLabel(words)
        label.setFont(font(size, bold=size == VALUE))
        label.setStyleSheet(f"color: #{getattr(self.theme.colours, role)}")
        label.setWordWrap(column == 2)
        side = Qt.AlignmentFlag.AlignRight if column == 1 else Qt.AlignmentFlag.AlignLeft
        self._grid.addWidget(label, row, column, side if column < 2 else Qt.AlignmentFlag(0))
        self._labels.append(label)

    def restyle(self) -> None:
        """Take the colours in force."""
        c = self.theme.colours
        self.setStyleSheet(
            f"#tape-card {{ background: #{c.tape}; border: 1px solid #{c.edge}; border-radius: {CORNER}px; }}"
            f"#tape-card QLabel {{ color: #{c.ink}; }}"
            f"#tape-card QPushButton {{ background: #{c.field}; color: #{c.ink};"
            f" border: 1px solid #{c.edge}; border-radius: {CORNER}px; padding: 3px 10px; }}"
            f"#tape-card QPushButton:hover, #tape-card QPushButton:focus {{ border-color: #{c.accent}; }}"
            f"#tape-card QPushButton:disabled {{ color: #{c.edge}; }}"
            f"#tape-card QLineEdit {{ background: #{c.field}; color: #{c.ink};"
            f" border: 1px solid #{c.edge}; border-radius: {CORNER}px; padding: 2px 4px; }}"
            f"#tape-card QLineEdit:focus {{ border-color: #{c.accent}; }}"
        )
        self.figures = []
        self.look()
