"""The section's panel: the mast from above at the height in hand."""

from PySide6.QtWidgets import QWidget

from mastlayout.ui.panel import Panel
from mastlayout.ui.section.at_height import height_text
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.section.tacking import Tacking
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class SectionPanel(Panel):
    """The section from above: bow up, port left, starboard right."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, _("Section from above"), parent)
        self.canvas = SectionCanvas(session, theme)
        self.tacking = Tacking(self.canvas, self)  # without a parent it would show as a window of its own
        self.body.addWidget(self.canvas, 1)
        self.body.addWidget(self.tacking)
        for signal in (session.opened, session.units_changed):
            signal.connect(self._name_height)
        session.turns.section.connect(self._name_height)
        self._name_height()

    def _name_height(self, *_args: object) -> None:
        session = self.session
        place = height_text(session.desk.scene.skin, session.z_mm, session.units)
        self.aside.setText(_("at {place}").format(place=place))
