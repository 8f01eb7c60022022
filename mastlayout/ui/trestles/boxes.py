"""The boxes of one hole: what is done with it. No box, no hole: what may not be done has none."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QWidget

from mastlayout.model.fitting import Step
from mastlayout.ui.look import CORNER, GAP, NAME, VALUE, font
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.walk import BOXES, WalkHole
from mastlayout.words import _

BOX_PX = 34


def step_words(step: Step) -> str:
    """Return a step as its box says it."""
    return {
        "marked": _("Marked"), "measured again": _("Measured again"), "drilled": _("Drilled"),
        "deburred": _("Deburred"), "isolated": _("Isolated"), "fitted": _("Fitted"),
    }[step]  # fmt: skip


class Boxes(QWidget):
    """Five boxes in the order of work. ``ticked`` carries a step and whether it is done."""

    ticked = Signal(str, bool)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = theme
        self.boxes = {step: self._box(step) for step in BOXES}
        self.said = QLabel()
        self.said.setWordWrap(True)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(2 * GAP)
        grid.setVerticalSpacing(GAP)
        for count, box in enumerate(self.boxes.values()):
            grid.addWidget(box, count // 2, count % 2)
        grid.addWidget(self.said, 3, 0, 1, 2, Qt.AlignmentFlag.AlignTop)
        self.show_size(large=True)

    def _box(self, step: Step) -> QCheckBox:
        box = QCheckBox(step_words(step))
        # A click leaves the keys where they are: Space then ticks the next box and not this one.
        box.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        box.clicked.connect(lambda ticked: self.ticked.emit(step, ticked))
        return box

    def show_hole(self, hole: WalkHole | None) -> None:
        """Show the boxes that a hole has, ticked where that is done."""
        for step, box in self.boxes.items():
            has = hole is not None and step in hole.boxes
            done = hole is not None and step in hole.done
            box.setVisible(has or done)
            # What was done before the hole was held back can only be taken back.
            box.setEnabled(has or done)
            box.setChecked(done)
        self.said.setText(_no_box(hole))
        self.said.setVisible(hole is not None and len(hole.boxes) < len(BOXES))

    def show_size(self, *, large: bool, scale: float = 1.0) -> None:
        """Take the large sizes or the small ones, times ``scale``."""
        for box in self.boxes.values():
            box.setFont(font(round((NAME - 1 if large else VALUE) * scale)))
        self.said.setFont(font(round((VALUE + 2 if large else VALUE) * scale)))
        self._px = round((BOX_PX if large else BOX_PX - 8) * scale)
        self.restyle()

    def restyle(self) -> None:
        """Take the colours in force."""
        c, px = self.theme.colours, self._px
        self.setStyleSheet(
            f"QCheckBox {{ color: #{c.ink}; spacing: 12px; }}"
            f"QCheckBox::indicator {{ width: {px}px; height: {px}px; border-radius: {CORNER}px; }}"
            f"QCheckBox::indicator:focus {{ width: {px - 2}px; height: {px - 2}px; }}"
            f"QLabel {{ color: #{c.second}; }}"
        )


def _no_box(hole: WalkHole | None) -> str:
    """Return why there are fewer boxes than steps."""
    if hole is None or len(hole.boxes) == len(BOXES):
        return ""
    if not hole.boxes:
        return _("No box, no hole: not even to be marked while the fault is open.")
    return _("No box to drill: this hole is held back.")


def first_open(hole: WalkHole) -> Step | None:
    """Return the next step to tick, None where all are."""
    left: Sequence[Step] = hole.left
    return left[0] if left else None
