"""The ring round what has the keys: one for every control and view, seen on any ground."""

from PySide6.QtCore import QObject, QRectF
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QFocusFrame, QWidget
from shiboken6 import isValid

from mastlayout.ui.look import CORNER
from mastlayout.ui.theme import Theme

_RING_PX = 2.0


class FocusRing(QObject):
    """Follows the keys. A press of the mouse shows by itself where it went: no ring is drawn for it."""

    def __init__(self, theme: Theme, app: QApplication) -> None:
        super().__init__(app)
        self._theme = theme
        self._frame: _Frame | None = None
        app.focusChanged.connect(self._follow)

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        if self._frame is None or not isValid(self._frame):
            self._frame = _Frame(self._theme)  # it goes with the window it last stood in
        by_mouse = bool(QGuiApplication.mouseButtons().value)
        # A window that only takes keys for what is in it has nothing to ring.
        self._frame.setWidget(None if now is None or by_mouse or now.isWindow() else now)  # type: ignore[arg-type]


class _Frame(QFocusFrame):
    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self._theme.colours["accent"], _RING_PX))
        half = _RING_PX / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), CORNER, CORNER)
