"""The keys of a view that shows what is in hand: move it, type its height, take it off."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from mastlayout.ui.moving.acts import remove_hand
from mastlayout.ui.moving.nudge import nudge
from mastlayout.ui.moving.steps import step
from mastlayout.ui.session import Session

_HELD = (
    Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier
)
_TYPE = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def moving_key(session: Session, event: QKeyEvent, *, from_above: bool = False) -> bool:
    """Do what a key asks of the thing in hand; with nothing in hand up and down move the height in hand.

    Return False where the key is another's.
    """
    if nudge(session, event, from_above=from_above):
        return True
    if session.hand and event.key() in _TYPE:
        session.typing_wanted.emit()
    elif session.hand and event.key() == Qt.Key.Key_Delete:
        remove_hand(session)
    elif event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
        climb(session, step(event.modifiers()) * (1.0 if event.key() == Qt.Key.Key_Up else -1.0))
    else:
        return False
    return True


def moves_from_list(event: QKeyEvent) -> bool:
    """Tell whether a key in the list is for the thing in hand: up and down alone walk the rows."""
    key, held = event.key(), event.modifiers()
    if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
        return bool(held & _HELD)
    return key in (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Delete)


def climb(session: Session, up_mm: float) -> None:
    """Move the height in hand, which stays on the mast."""
    session.go_to(min(max(session.z_mm + up_mm, 0.0), session.desk.scene.skin.length_mm))
