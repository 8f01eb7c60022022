"""The skin's panel: the unrolled skin round the height in hand."""

from PySide6.QtWidgets import QWidget

from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.skin.canvas import SkinCanvas
from mastlayout.ui.skin.words import aside_words
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class SkinPanel(Panel):
    """The skin as it is taped: from outside, the masthead up, girth across."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, _("Skin unrolled"), parent)
        self.canvas = SkinCanvas(session, theme)
        self.body.addWidget(self.canvas, 1)
        for signal in (session.opened, session.shown, session.height_changed, session.units_changed):
            signal.connect(self._name_girth)
        self._name_girth()

    def _name_girth(self, *_args: object) -> None:
        session = self.session
        self.aside.setText(aside_words(session.desk.scene.skin, session.z_mm, session.units))
