"""What the pointer does on a canvas: one gesture at a time, ended by its button or put back."""

from collections.abc import Mapping
from typing import Protocol

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QWidget

from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import WayName
from mastlayout.ui.session import Session

# A hand that only clicks shakes less than this.
_STILL_PX = 4.0
_ENDS_IT = (QEvent.Type.FocusOut, QEvent.Type.Hide)
_CONTROL = Qt.KeyboardModifier.ControlModifier


class Gesture(Protocol):
    """What the pointer may be doing; one class for each."""

    @property
    def snaps(self) -> Mapping[WayName, Target]:
        """What the thing moved snapped to."""

    def move(self, at: QPointF, held: Qt.KeyboardModifier) -> None:
        """Follow the pointer."""

    def finish(self) -> None:
        """Leave everything as it is now."""

    def cancel(self) -> None:
        """Put everything back."""


class Pointer(QObject):
    """The pointer on one canvas. ``ended`` tells that a gesture was finished or put back.

    Escape, a right click, a lost focus, a hidden canvas and another layout put it back; while a
    gesture is under way no key does anything else.
    """

    ended = Signal()

    def __init__(self, canvas: QWidget, session: Session) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._gesture: Gesture | None = None
        self._led: Mapping[WayName, Target] = {}
        self._start, self._last, self._moves = QPointF(), QPointF(), False
        canvas.installEventFilter(self)
        session.opened.connect(self.cancel)

    @property
    def busy(self) -> bool:
        """Tell whether a gesture is under way."""
        return self._gesture is not None

    @property
    def snaps(self) -> Mapping[WayName, Target]:
        """What the thing moved snapped to, here or where a drag from elsewhere leads it."""
        return self._gesture.snaps if self._gesture is not None else self._led

    def lead(self, snaps: Mapping[WayName, Target]) -> None:
        """Show what a thing that is dragged here from elsewhere snapped to; empty where to nothing."""
        if snaps != self._led:
            self._led = snaps
            self._canvas.update()

    def begin(self, gesture: Gesture, at: QPointF) -> None:
        """Begin a gesture where the button went down."""
        self.cancel()
        self._gesture, self._start, self._last, self._moves = gesture, at, at, False

    def move(self, event: QMouseEvent) -> None:
        """Follow the pointer, once it has moved more than a click shakes."""
        at = event.position()
        self._moves = self._moves or (at - self._start).manhattanLength() >= _STILL_PX
        self._last = at
        self._follow(event.modifiers())

    def _follow(self, held: Qt.KeyboardModifier) -> None:
        if self._gesture is not None and self._moves:
            self._gesture.move(self._last, held)
            self._canvas.update()

    def release(self, event: QMouseEvent) -> None:
        """End the gesture where the button comes up."""
        if event.button() == Qt.MouseButton.LeftButton and self._gesture is not None:
            gesture, self._gesture = self._gesture, None
            gesture.finish()
            self.ended.emit()

    def cancel(self) -> None:
        """Put back what the gesture did, if there is one."""
        if self._gesture is not None:
            gesture, self._gesture = self._gesture, None
            gesture.cancel()
            self.ended.emit()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if self._gesture is None:
            return False
        if event.type() in _ENDS_IT:
            self.cancel()
        elif event.type() == QEvent.Type.ShortcutOverride:
            event.accept()  # the keys are the gesture's: no undo, no save in the middle of it
            return True
        elif isinstance(event, QKeyEvent):
            self._key(event)
            return True
        return False

    def _key(self, event: QKeyEvent) -> None:
        pressed = event.type() == QEvent.Type.KeyPress
        if event.key() == Qt.Key.Key_Escape and pressed:
            self.cancel()
        elif event.key() == Qt.Key.Key_Control:
            held = event.modifiers()
            self._follow(held | _CONTROL if pressed else held & ~_CONTROL)
