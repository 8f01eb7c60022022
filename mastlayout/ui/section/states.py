"""The picker of the state of a sail that is drawn: the worst by itself, or one by name."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF, QWheelEvent
from PySide6.QtWidgets import QComboBox, QSizePolicy, QStyleOptionComboBox

from mastlayout.checks.sailed import Called, Sailed, states_of
from mastlayout.checks.tack import in_words as state_in_words
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.tack.tack import Tack
from mastlayout.ui.inwords import in_words
from mastlayout.ui.look import LABEL, font
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.section.sailwords import sail_name
from mastlayout.words import _

# What the box keeps for its arrow.
_ARROW_PX = 34.0


class StatePicker(QComboBox):
    """The first entry draws the worst state for what is in hand and names it; each other draws its own."""

    def __init__(self, canvas: SectionCanvas) -> None:
        super().__init__()
        self._session = canvas.session
        self._listed: tuple[Tack, Main] | None = None
        self.setFont(font(LABEL))
        self.setAccessibleName(_("Sail and state that is drawn"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setMinimumContentsLength(6)
        self.activated.connect(self._take)

    def show_state(self, sailed: Sailed | None) -> None:
        """Name the state that is drawn; the list follows the sails of the layout."""
        scene = self._session.desk.scene
        if self._listed is None or self._listed[0] is not scene.tack or self._listed[1] is not scene.main:
            self._listed = scene.tack, scene.main
            self._fill()
        worst = _("Worst by itself")
        if sailed is not None and self._session.cloth is None:
            # Without a finding nothing is worst: what is drawn comes farthest aft.
            words = _("Worst: {state}") if sailed.finding is not None else _("By itself: {state}")
            worst = words.format(state=sail_name(sailed))
        if self.itemText(0) != worst:
            self.setItemText(0, worst)
        picked = self._session.cloth
        # Qt finds the very same object only, and the list is made anew with the sails.
        listed = [self.itemData(i) for i in range(self.count())]
        at = listed.index(picked) if picked in listed else -1
        if at < 0:
            # The sail or the reef is gone: nobody can draw it.
            self._session.draw_cloth(None)
            return
        if self.currentIndex() != at:
            self.setCurrentIndex(at)
        self.setEnabled(self.count() > 1)
        self.setToolTip(self.currentText())

    def _fill(self) -> None:
        self.clear()
        self.addItem("", None)
        for called, state in states_of(self._session.desk.scene):
            words = _("{sail}: {state}").format(sail=state.sail.name, state=state_in_words(state))
            self.addItem(words, called)

    def _take(self, at: int) -> None:
        called = self.itemData(at)
        self._session.draw_cloth(called if isinstance(called, Called) else None)

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        super().initStyleOption(option)
        room = self.width() - _ARROW_PX
        option.currentText = in_words(option.currentText, QFontMetricsF(self.font()), room)

    def wheelEvent(self, event: QWheelEvent) -> None:
        # The wheel climbs the mast: it changes no state in passing.
        event.ignore()
