"""The walk's panel: the list, what to bring to the mast, and which way to roll it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from mastlayout.ui.look import BODY, GAP, MARGIN, UNIT, VALUE, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.bring import bring
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.list import WalkList
from mastlayout.ui.trestles.walk import Walk, WalkHole
from mastlayout.ui.trestles.words import counts_words, roll_words, title_words
from mastlayout.ui.wholerows import WholeRows
from mastlayout.words import _

_BRING_PX, _LEAST_BRING_PX, _LARGE_FROM_PX, _WIDE_FROM_PX = 260, 170, 180, 1000


class WalkPanel(Panel):
    """The walk along the face that is up."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("The walk"))
        self.head, self.counts, self.roll = QLabel(), QLabel(), QLabel()
        self.list = WalkList(theme)
        self.bring_head, self.bring = QLabel(_("Bring to the mast")), QLabel()
        self._roll, self._bring = "", tuple[str, ...]()
        self._lay_out()
        self.setMinimumSize(400, 96)
        self._show_size()

    def _lay_out(self) -> None:
        self.body.setContentsMargins(MARGIN, GAP, MARGIN, GAP)
        top = QHBoxLayout()
        top.addWidget(self.head)
        top.addWidget(self.counts, 1, Qt.AlignmentFlag.AlignRight)
        row = QHBoxLayout()
        row.setSpacing(2 * MARGIN)
        row.addWidget(WholeRows(self.list), 1)
        side = QVBoxLayout()
        side.setSpacing(UNIT)
        for widget in (self.bring_head, self.bring):
            side.addWidget(widget)
        side.addStretch(1)
        row.addLayout(side)
        self.bring.setWordWrap(True)
        self.body.addLayout(top)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.roll)
        self.roll.setWordWrap(True)

    def show_walk(self, walk: Walk, current: WalkHole | None, lie: Lie) -> None:
        """Show a walk."""
        self.head.setText(title_words(walk))
        self.counts.setText(counts_words(walk) if walk.holes else "")
        self._roll, self._bring = roll_words(lie, walk), tuple(bring(walk))
        self.bring.setText("\n".join(self._bring))
        self.list.show_walk(walk, current)
        self._show_size()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._show_size()

    def _show_size(self) -> None:
        wide = self.width() >= _WIDE_FROM_PX
        large = self.height() >= _LARGE_FROM_PX and wide
        # A narrow panel leaves the list all of its width: what to bring then stands below.
        self.bring_head.setVisible(wide)
        self.bring.setVisible(wide)
        self.roll.setText(self._roll if wide else self._below())
        size = VALUE + 1 if large else BODY
        self.head.setFont(font(size, bold=True))
        self.bring_head.setFont(font(size, bold=True))
        for label in (self.counts, self.bring, self.roll):
            label.setFont(font(VALUE if large else BODY))
        for label in (self.bring_head, self.bring):
            label.setFixedWidth(_BRING_PX if large else _LEAST_BRING_PX)

    def _below(self) -> str:
        """Return in one line which way to roll and what to bring."""
        return _("{roll}   Bring {things}.").format(roll=self._roll, things="; ".join(self._bring))
