"""What opens below the table: the whole sentence, its limit, its working, and what can be done."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from mastlayout.ui.findings.places import Places
from mastlayout.ui.findings.rows import Row
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, UNIT, font
from mastlayout.words import _


class Opened(QWidget):
    """The chosen row, whole; each deed is a signal of its own."""

    show_wanted = Signal()
    accept_wanted = Signal()
    reopen_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._row: Row | None = None
        self._brief = False
        self.whole, self.limit = QLabel(), QLabel()
        self.show_it, self.accept_it = QPushButton(_("Show it")), QPushButton(_("Accept with a remark …"))
        self.reopen, self.only = QPushButton(_("Open it again")), QCheckBox(_("Only what is in hand"))
        column = QVBoxLayout(self)
        column.setContentsMargins(MARGIN, UNIT, MARGIN, GAP)
        column.setSpacing(UNIT)
        for label, size in ((self.whole, BODY), (self.limit, LABEL)):
            label.setFont(font(size))
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            column.addWidget(label)
        self.limit.setProperty("kind", "label")
        self.whole.setAccessibleName(_("The chosen finding"))
        self.places = Places()
        column.addWidget(self.places)
        column.addLayout(self._deeds())
        self.show_it.clicked.connect(self.show_wanted)
        self.accept_it.clicked.connect(self.accept_wanted)
        self.reopen.clicked.connect(self.reopen_wanted)

    def _deeds(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(GAP)
        for deed in (self.show_it, self.accept_it, self.reopen, self.only):
            deed.setFont(font(LABEL))
        for button in (self.show_it, self.accept_it, self.reopen):
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self.only)
        return row

    def open(self, row: Row | None, instead: str) -> None:
        """Show a row, or a sentence instead of one."""
        self._row = row
        self.whole.setText(row.whole if row else instead)
        self._say_limit()
        self.show_it.setEnabled(row is not None and (bool(row.things) or row.z_mm is not None))
        self.accept_it.setVisible(row is None or row.own is None)
        self.accept_it.setEnabled(row is not None and row.may_be_accepted)
        self.reopen.setVisible(row is not None and row.own is not None)

    def be_brief(self, *, brief: bool) -> None:
        """Leave limit and working to the tooltip where there is no room: their figures stand in the row."""
        self._brief = brief
        self.places.be_brief(brief=brief)
        self._say_limit()

    def _say_limit(self) -> None:
        row = self._row
        said = [part for part in (row.limit, row.working) if part] if row else []
        shown = [] if self._brief else said
        self.limit.setText(" ".join(shown))
        for label in (self.whole, self.limit):
            label.setToolTip(" ".join(said))
        self.limit.setVisible(bool(shown))
