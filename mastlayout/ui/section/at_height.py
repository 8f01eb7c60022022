"""A view of one height: it paints anew when something there changed, and moves by wheel and keys."""

from collections.abc import Iterator

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPen, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from mastlayout.geometry.frames import height_mm, reading
from mastlayout.geometry.skin import Skin
from mastlayout.ui.elevation.tape import grouped
from mastlayout.ui.look import THICK
from mastlayout.ui.section.hits import Hit, thing_under
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.units import Units

STEP_MM, LARGE_STEP_MM, SMALL_STEP_MM = 10.0, 100.0, 1.0
_NOTCH = 120.0


def height_text(skin: Skin, z_mm: float, units: Units) -> str:
    """Return a height z as the tape from the masthead reads it."""
    read = reading(height_mm(skin.length_mm, z_mm), skin.length_mm, units)
    return grouped(read.masthead) if units == "metric" else read.text(read.masthead)


def _step_mm(held: Qt.KeyboardModifier) -> float:
    if held & Qt.KeyboardModifier.ShiftModifier:
        return LARGE_STEP_MM
    return SMALL_STEP_MM if held & Qt.KeyboardModifier.AltModifier else STEP_MM


class HeightView(QWidget):
    """What stands at the height in hand.

    A view says in ``gather`` what it shows, equal to what it showed before where nothing there
    changed, and makes its places from it in ``arrange``.
    """

    def __init__(self, session: Session, theme: Theme, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.content: object = None
        for signal in (
            session.opened,
            session.shown,
            session.hand_changed,
            session.height_changed,
            session.units_changed,
        ):
            signal.connect(self._refresh)
        theme.changed.connect(self.update)

    def gather(self) -> object:
        """Return what stands at the height in hand."""
        raise NotImplementedError

    def arrange(self) -> None:
        """Place the content on the widget, and say it in the accessible description."""
        raise NotImplementedError

    def hits(self) -> Iterator[Hit]:
        """Yield the shapes of what can be taken in hand; asked only when the pointer does something."""
        raise NotImplementedError

    def thing_at(self, at: QPointF) -> str:
        """Return the id of the thing under a pixel, its words too; "" where there is none."""
        return thing_under(self.hits(), at)

    def _refresh(self, *_: object) -> None:
        found = self.gather()
        if found != self.content:
            self.content = found
            self.arrange()
            self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.content = self.gather()
        self.arrange()

    def paint_focus(self, painter: QPainter) -> None:
        """Show that the keys come here."""
        if self.hasFocus():
            painter.setPen(QPen(self.theme.colours["accent"], THICK))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -2, -2))

    def wheelEvent(self, event: QWheelEvent) -> None:
        # Some systems turn the wheel sideways while Alt is held.
        turned = event.angleDelta().y() or event.angleDelta().x()
        self._climb(turned / _NOTCH * _step_mm(event.modifiers()))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            up = 1.0 if event.key() == Qt.Key.Key_Up else -1.0
            self._climb(up * _step_mm(event.modifiers()))
        else:
            super().keyPressEvent(event)

    def _climb(self, up_mm: float) -> None:
        z = self.session.z_mm + up_mm
        self.session.go_to(min(max(z, 0.0), self.session.desk.scene.skin.length_mm))
