"""The left panel: strip, hairlines and list side by side; too narrow for the list, the strip alone."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.strip.hairlines import HAIRLINES_PX, Hairlines
from mastlayout.ui.strip.list import LIST_PX, MastList
from mastlayout.ui.strip.rig import COMPACT_PX, RIG_PX, RigStrip
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_BORDER_PX = 2


class StripPanel(Panel):
    """The whole rig and the list of all that is on it."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("Whole rig and list"))
        # Made in the order in which Tab goes through them.
        self.list, self.rig = MastList(session, theme, self), RigStrip(session, theme, self)
        self.hairlines = Hairlines(session, theme, (self.rig, self.list), self)
        self.list.setFixedWidth(LIST_PX)
        row = QHBoxLayout()
        row.setSpacing(0)
        row.addWidget(self.rig, 1)
        row.addWidget(self.hairlines)
        row.addWidget(self.list)
        self.body.addLayout(row)
        # Narrower than its list, which the layout would not allow of itself.
        self.setMinimumWidth(COMPACT_PX + _BORDER_PX)

    def sizeHint(self) -> QSize:
        return QSize(RIG_PX + HAIRLINES_PX + LIST_PX, 600)

    @property
    def compact(self) -> bool:
        """Tell whether there is room for the strip alone."""
        return self.width() < COMPACT_PX + HAIRLINES_PX + LIST_PX + _BORDER_PX

    def resizeEvent(self, event: QResizeEvent) -> None:
        for part in (self.hairlines, self.list):
            part.setVisible(not self.compact)
        super().resizeEvent(event)
