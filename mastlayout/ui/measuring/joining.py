"""The tape measure joined to the panels: an overlay on each view, the card, the rows of the lists."""

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from mastlayout.ui.arrangement import Arrangement
from mastlayout.ui.measuring.card import TapeCard
from mastlayout.ui.measuring.on_elevation import OnElevation
from mastlayout.ui.measuring.on_section import OnSection
from mastlayout.ui.measuring.on_skin import OnSkinView
from mastlayout.ui.measuring.overlay import TapeOverlay
from mastlayout.ui.measuring.tape import TapeMeasure
from mastlayout.ui.strip.list import MastList
from mastlayout.ui.strip.rows import THING
from mastlayout.ui.theme import Theme


class Measuring:
    """What the tape measure puts on the panels of one window."""

    def __init__(self, tape: TapeMeasure, arrangement: Arrangement, theme: Theme, window: QWidget) -> None:
        self.tape, panels = tape, arrangement.panels
        self.overlays = [
            TapeOverlay(OnElevation(panels.elevation.canvas), tape, theme),
            TapeOverlay(OnElevation(panels.elevation.beside), tape, theme),
            TapeOverlay(OnSection(panels.section.canvas), tape, theme),
            TapeOverlay(OnSkinView(panels.skin.canvas), tape, theme),
        ]
        for overlay in self.overlays:
            self._follow(overlay)
        elevation = panels.elevation
        for canvas, overlay in zip((elevation.canvas, elevation.beside), self.overlays[:2], strict=True):
            canvas.span_changed.connect(overlay.update)
        self.card = TapeCard(tape, theme, panels.elevation)
        panels.elevation.body.addWidget(self.card)
        self.take_rows(panels.strip.list)
        if arrangement.list is not None:
            self.take_rows(arrangement.list)
        arrangement.list_made.connect(self.take_rows)
        self._escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), window, tape.put_away)
        tape.changed.connect(self._look)
        self._look()

    def take_rows(self, rows: MastList) -> None:
        """Let a click or Enter on a row of a list hold the tape to its thing."""
        rows.activated.connect(self.tape.hold_thing)
        rows.view.clicked.connect(self._clicked)

    def _clicked(self, index: QModelIndex) -> None:
        self.tape.hold_thing(index.data(THING).id)

    def _follow(self, overlay: TapeOverlay) -> None:
        session = self.tape.session
        if session is not None:
            for signal in (session.height_changed, session.hand_changed, session.view_changed):
                signal.connect(overlay.update)

    def _look(self) -> None:
        # Without a tape in hand Escape is the canvases' own.
        self._escape.setEnabled(self.tape.in_hand)
