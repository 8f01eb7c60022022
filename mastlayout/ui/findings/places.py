"""Where the opened finding would clear: asked for by a button, said in words, each place a deed."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from mastlayout.geometry.scene import Scene
from mastlayout.ui.look import BODY, GAP, LABEL, UNIT, font
from mastlayout.units import Units
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.places.suggest import Suggestion, Suggestions

# More buttons than this find no room beside each other; the sentence says all.
_MOST_DEEDS = 3


class Places(QWidget):
    """``asked`` when places are to be looked for, ``taken`` with the one that was chosen."""

    asked = Signal()
    taken = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.look, self.said = QPushButton(_("Where would it be clear?")), QLabel()
        self.deeds: list[QPushButton] = []
        self._whole = self._short = ""
        self._brief = False
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(UNIT)
        self.said.setFont(font(BODY))
        self.said.setWordWrap(True)
        self.said.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.said.setAccessibleName(_("Where it would be clear"))
        column.addWidget(self.said)
        self._row = QHBoxLayout()
        self._row.setSpacing(GAP)
        self._row.addWidget(self.look)
        self._row.addStretch(1)
        column.addLayout(self._row)
        self.look.setFont(font(LABEL))
        self.look.clicked.connect(self.asked)
        self.offer(can_be_asked=False)

    def offer(self, *, can_be_asked: bool) -> None:
        """Offer to look, where there is something to look for; nothing is known of places yet."""
        self._deeds(())
        self.said.hide()
        self.look.setVisible(can_be_asked)
        self.setVisible(can_be_asked)

    def tell(self, scene: Scene, found: "Suggestions", units: Units) -> None:
        """Say what was found, with a button for each of the first places."""
        from mastlayout.places.words import clears, deed, sentence  # noqa: PLC0415 - where some were found

        self._whole = sentence(scene, found, units)
        self._short = clears(scene, found, units)
        self.be_brief(brief=self._brief)
        self.said.show()
        self.look.hide()
        self._deeds([(deed(scene, one, units), one) for one in found.found[:_MOST_DEEDS]])
        self.show()

    def be_brief(self, *, brief: bool) -> None:
        """Leave what is open there to the tooltip where there is no room."""
        self._brief = brief
        self.said.setText(self._short if brief else self._whole)
        self.said.setToolTip(self._whole)

    def _deeds(self, deeds: Sequence[tuple[str, "Suggestion"]]) -> None:
        for button in self.deeds:
            self._row.removeWidget(button)
            button.deleteLater()
        self.deeds = []
        for at, (words, one) in enumerate(deeds):
            button = QPushButton(words)
            button.setFont(font(LABEL))
            button.clicked.connect(lambda _on=False, one=one: self.taken.emit(one))
            self._row.insertWidget(at, button)
            # Shown at once: what is hidden cannot be given the keys.
            button.show()
            self.deeds.append(button)
