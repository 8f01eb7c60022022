"""A view of one height: it paints anew when something there changed, and moves by wheel and keys."""

from collections.abc import Iterator

from PySide6.QtCore import QPointF, QRectF, Qt, SignalInstance
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from mastlayout.desk import Change
from mastlayout.geometry.frames import height_mm, reading
from mastlayout.geometry.skin import Skin
from mastlayout.ui.moving.grips import grip_of
from mastlayout.ui.moving.guide import Guide, paint_guides
from mastlayout.ui.moving.keys import climb, moving_key
from mastlayout.ui.moving.pointer import Gesture, Pointer
from mastlayout.ui.moving.steps import wheel_mm
from mastlayout.ui.moving.way import Grip
from mastlayout.ui.section.hits import Hit, thing_under
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import tape_text
from mastlayout.ui.theme import Theme
from mastlayout.units import Units


def height_text(skin: Skin, z_mm: float, units: Units) -> str:
    """Return a height z as the tape from the masthead reads it."""
    read = reading(height_mm(skin.length_mm, z_mm), skin.length_mm, units)
    return tape_text(read, read.masthead)


class HeightView(QWidget):
    """What stands at the height in hand.

    A view says in ``gather`` what it shows, equal to what it showed before where nothing there
    changed, and makes its places from it in ``arrange``. While the pointer moves a thing the view
    stands still under it.
    """

    from_above = False

    def __init__(self, session: Session, theme: Theme, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.content: object = None
        self._asked: object = None
        self.pointer = Pointer(self, session)
        self.pointer.ended.connect(self._fit_anew)
        for signal in (session.opened, session.hand_changed, session.units_changed, session.chosen_changed):
            signal.connect(self._refresh)
        self.turn.connect(self._refresh)
        session.shown.connect(self._keep_up)
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

    @property
    def turn(self) -> SignalInstance:
        """When this view follows a gesture that happens elsewhere."""
        return self.session.turns.section

    def _keep_up(self, _change: Change) -> None:
        if self.pointer.busy:
            self._refresh()

    def _refresh(self, *_: object) -> None:
        session = self.session
        asked = session.desk.report, session.z_mm, session.hand, session.units, session.chosen
        if asked == self._asked:
            return  # several signals tell of one change
        self._asked = asked
        found = self.gather()
        if found != self.content:
            self.content = found
            self.arrange()
            self.update()

    def ask_anew(self) -> None:
        """Gather again with the next turn, though the layout is the same."""
        self._asked = None

    def _fit_anew(self) -> None:
        self.content = self.gather()
        self.arrange()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_anew()

    # -- pointer and keys

    def gesture(self, grip: Grip, at: QPointF) -> Gesture:
        """Return what a press on the thing of a grip begins."""
        raise NotImplementedError

    def guides(self) -> Iterator[Guide]:
        """Yield the lines that what is dragged snapped to."""
        raise NotImplementedError

    def paint_guides(self, painter: QPainter) -> None:
        """Paint the lines that what is dragged snapped to."""
        paint_guides(painter, self.guides(), QRectF(self.rect()), self.theme.colours)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            self.pointer.cancel()
            return
        at, scene = event.position(), self.session.desk.scene
        name = self.thing_at(at)
        grip = grip_of(scene, name, self.session.units) if name else None
        if grip is not None:
            self.pointer.begin(self.gesture(grip, at), at)
            self.session.pick(name)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.pointer.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.pointer.release(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if (
            event.button() == Qt.MouseButton.LeftButton
            and self.thing_at(event.position())
            and self.session.hand
        ):
            self.session.typing_wanted.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if not self.pointer.busy:
            climb(self.session, wheel_mm(event))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not moving_key(self.session, event, from_above=self.from_above):
            super().keyPressEvent(event)
