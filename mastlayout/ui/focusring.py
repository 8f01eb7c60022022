"""The ring round what has the keys: one for every control and view, seen on any ground."""

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from mastlayout.ui.theme import Theme

_RING_PX = 2
_MOVES = (QEvent.Type.Move, QEvent.Type.Resize, QEvent.Type.Show, QEvent.Type.Hide, QEvent.Type.ParentChange)


class FocusRing(QObject):
    """Follows the keys. A press of the mouse shows by itself where it went: no ring is drawn for it."""

    def __init__(self, theme: Theme, app: QApplication) -> None:
        super().__init__(app)
        self._theme = theme
        self._ring: Ring | None = None
        self._watched: list[QWidget] = []
        app.focusChanged.connect(self._follow)

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        for widget in filter(isValid, self._watched):
            widget.removeEventFilter(self)
        self._watched = []
        by_mouse = QGuiApplication.mouseButtons() != Qt.MouseButton.NoButton
        # A window that only takes keys for what is in it has nothing to ring.
        if now is not None and not by_mouse and not now.isWindow():
            at: QWidget | None = now
            while at is not None and not at.isWindow():
                self._watched.append(at)
                at.installEventFilter(self)
                at = at.parentWidget()
        self._place()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() in _MOVES:
            self._place()
        return False

    def _place(self) -> None:
        held = self._watched[0] if self._watched and isValid(self._watched[0]) else None
        if self._ring is None or not isValid(self._ring):
            self._ring = Ring(self._theme)  # it goes with the window it last stood in
        seen = held.visibleRegion().boundingRect() if held is not None else QRect()
        if held is None or seen.isEmpty():
            self._ring.hide()
            return
        window = held.window()
        if self._ring.parentWidget() is not window:
            self._ring.setParent(window)
        self._ring.stand_round(QRect(held.mapTo(window, QPoint(0, 0)) + seen.topLeft(), seen.size()))


class Ring(QWidget):
    """The ring itself."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def stand_round(self, box: QRect) -> None:
        """Stand round a rectangle of the window."""
        wide = (-_RING_PX, -_RING_PX, _RING_PX, _RING_PX)
        outer = box.adjusted(*wide) & self.window().rect()
        self.setGeometry(outer)
        inner = outer.adjusted(*(-px for px in wide))
        self.setMask(QRegion(self.rect()) - QRegion(inner.translated(-outer.topLeft())))
        self.show()
        self.raise_()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.colours["accent"])
        painter.end()
