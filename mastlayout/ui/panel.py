"""A panel: a bordered rectangle on the window's ground, with a title and a second word at its right."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from mastlayout.ui.look import BODY, CORNER, GAP, LABEL, MARGIN, UNIT, font
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme


class Panel(QFrame):
    """The frame that every view of the window stands in; ``body`` takes its contents."""

    def __init__(
        self, session: Session, theme: Theme, title: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.setObjectName("panel")
        if title:
            self.setAccessibleName(title)
        column = QVBoxLayout(self)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        if title:
            column.addLayout(self._head(title))
        self.body = QVBoxLayout()
        self.body.setSpacing(0)
        column.addLayout(self.body, 1)
        theme.changed.connect(self.restyle)
        self.restyle()

    def _head(self, title: str) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(MARGIN, GAP, MARGIN, UNIT)
        self.title, self.aside = QLabel(title), QLabel()
        self.title.setFont(font(BODY, bold=True))
        self.aside.setFont(font(LABEL))
        self.aside.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.title)
        row.addWidget(self.aside, 1)
        return row

    def restyle(self) -> None:
        """Take the colours in force; a panel with more to colour calls this first."""
        colours = self.theme.colours
        self.setStyleSheet(
            f"#panel {{ background: #{colours.ground}; border: 1px solid #{colours.edge};"
            f" border-radius: {CORNER}px; }}"
        )
