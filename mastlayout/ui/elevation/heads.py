"""The words over an elevation: which way is forward, and what each column counts from."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from mastlayout.ui.elevation.span import GUTTER_PX
from mastlayout.ui.look import GAP, LABEL, UNIT, font
from mastlayout.ui.session import View
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class Heads(QWidget):
    """The words over one canvas; over the one with the tape and the labels, theirs too."""

    def __init__(self, theme: Theme, *, beside: bool = False) -> None:
        super().__init__()
        self._theme = theme
        self.masthead, self.heel = QLabel(_("from\nmasthead")), QLabel(_("from\nheel"))
        self.left, self.right, self.numbers = QLabel(), QLabel(), QLabel(_("from masthead"))
        self._words = (self.masthead, self.heel, self.left, self.right, self.numbers)
        self.heel.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
        self.numbers.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, UNIT)
        row.setSpacing(0)
        for label in self._words:
            label.setFont(font(LABEL))
            row.addWidget(label)
        row.insertSpacing(2, GAP)
        row.insertStretch(4, 1)
        for label in (self.masthead, self.heel, self.numbers):
            label.setVisible(not beside)
        theme.changed.connect(self.recolour)
        self.recolour()

    def name_sides(self, view: View) -> None:
        """Say what is left and right in a view."""
        left, right = {
            "starboard": (_("← aft"), _("forward →")),
            "port": (_("← forward"), _("aft →")),
            "ahead": (_("← STARBOARD"), _("PORT →")),
        }[view]
        self.left.setText(left)
        self.right.setText(right)

    def stand_over(self, tape_px: int, labels_px: float) -> None:
        """Let each word stand over its own: the tape's edges, the drawing, the labels."""
        self.heel.setFixedWidth(max(0, tape_px - self.masthead.sizeHint().width()))
        self.numbers.setFixedWidth(round(labels_px + GUTTER_PX))

    def recolour(self) -> None:
        """Take the colours in force."""
        for label in self._words:
            label.setStyleSheet(f"color: #{self._theme.colours.second}")
