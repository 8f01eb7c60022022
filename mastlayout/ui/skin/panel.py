"""The skin's panel: the unrolled skin round the height in hand."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QToolButton, QWidget

from mastlayout.ui.lines import width_px
from mastlayout.ui.look import BODY, LABEL, MARGIN, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.skin.canvas import SkinCanvas
from mastlayout.ui.skin.words import aside_words
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class SkinPanel(Panel):
    """The skin as it is taped: from outside, the masthead up, girth across; or one foot alone."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.close_button = QToolButton()
        super().__init__(session, theme, _("Skin unrolled"), parent)
        self.canvas = SkinCanvas(session, theme)
        self.body.addWidget(self.canvas, 1)
        self.close_button.toggled.connect(self.canvas.look_close)
        for signal in (session.opened, session.hand_changed, session.units_changed):
            signal.connect(self._name_girth)
        session.turns.skin.connect(self._name_girth)
        self._name_girth()

    def _head(self, title: str) -> QHBoxLayout:
        row = super()._head(title)
        button = self.close_button
        button.setText(_("Foot only"))
        button.setAccessibleName(_("Foot in hand only, at a larger scale"))
        button.setToolTip(_("Show the foot in hand alone, at a larger scale"))
        button.setCheckable(True)
        button.setAutoRaise(True)
        button.setFont(font(LABEL))
        button.setMaximumHeight(self.title.sizeHint().height())  # as tall a head as its neighbour's
        row.addWidget(button)
        return row

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._name_girth()

    def _name_girth(self, *_args: object) -> None:
        session = self.session
        placed = session.desk.scene.placed.get(session.hand)
        self.close_button.setEnabled(placed is not None and placed.outline is not None)
        whole, short = aside_words(session.desk.scene.skin, session.z_mm, session.units)
        taken = width_px(self.title.text(), BODY, bold=True) + self.close_button.sizeHint().width()
        room = self.width() - taken - 4 * MARGIN
        self.aside.setText(whole if width_px(whole, LABEL) <= room else short)
