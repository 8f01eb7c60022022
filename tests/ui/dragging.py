"""Real presses, moves and releases of the pointer, with the keys held that a person would hold."""

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

NOTHING = Qt.KeyboardModifier.NoModifier
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier
LEFT, RIGHT, NO_BUTTON = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton, Qt.MouseButton.NoButton


def pointer(widget, kind, at, button=NO_BUTTON, buttons=NO_BUTTON, held=NOTHING):
    """Send one event of the pointer, at a place to a part of a pixel."""
    at = QPointF(at)
    event = QMouseEvent(kind, at, QPointF(widget.mapToGlobal(at)), button, buttons, held)
    QApplication.sendEvent(widget, event)


def press(widget, at, held=NOTHING, button=LEFT):
    """Press a button; the left one takes the keys there as a click does."""
    if button == LEFT:
        (widget.parentWidget() if widget.focusPolicy() == Qt.FocusPolicy.NoFocus else widget).setFocus()
    pointer(widget, QEvent.Type.MouseButtonPress, at, button, button, held)


def move(widget, at, held=NOTHING):
    """Move with the left button down."""
    pointer(widget, QEvent.Type.MouseMove, at, NO_BUTTON, LEFT, held)


def release(widget, at, held=NOTHING):
    """Let the left button go."""
    pointer(widget, QEvent.Type.MouseButtonRelease, at, LEFT, NO_BUTTON, held)


def drag(widget, start, by, held=NOTHING, *, let_go=True):
    """Press at a place, move by so many pixels in two steps, and let go there."""
    start, by = QPointF(start), QPointF(by)
    press(widget, start, held)
    for part in (0.5, 1.0):
        move(widget, start + by * part, held)
    if let_go:
        release(widget, start + by, held)
    else:
        rest()


def rest():
    """The mouse rests: all that takes turns while a gesture is under way, rules too, has had its turn."""
    for _turn in range(400):
        QApplication.processEvents()


def double_click(widget, at):
    """Press twice, as the system tells of it."""
    press(widget, at)
    release(widget, at)
    pointer(widget, QEvent.Type.MouseButtonDblClick, at, LEFT, LEFT)
    release(widget, at)


def down(pixels):
    """So many pixels straight down."""
    return QPoint(0, round(pixels))
