"""The arrow keys: moving what is in hand along, round and off what it stands on."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from mastlayout.errors import MastLayoutError
from mastlayout.ui.moving.grips import grip_of
from mastlayout.ui.moving.steps import step, step_deg
from mastlayout.ui.moving.way import Grip, WayName
from mastlayout.ui.session import Session
from mastlayout.words import _

_KEYS: dict[int, tuple[WayName, float]] = {
    Qt.Key.Key_Up: ("along", 1.0),
    Qt.Key.Key_Down: ("along", -1.0),
    Qt.Key.Key_Right: ("round", 1.0),
    Qt.Key.Key_Left: ("round", -1.0),
    Qt.Key.Key_PageUp: ("off", 1.0),
    Qt.Key.Key_PageDown: ("off", -1.0),
}


def is_nudge(event: QKeyEvent) -> bool:
    """Tell whether a key moves what is in hand."""
    return event.key() in _KEYS


def nudge(session: Session, event: QKeyEvent, *, from_above: bool = False) -> bool:
    """Move what is in hand by a key; False where the key is another's or nothing that moves is in hand.

    Right goes round as seen from outside, the masthead up; ``from_above`` it goes clockwise. With
    Control the lower end of a stay is meant. A key held down is one undo step.
    """
    if not is_nudge(event) or not session.hand:
        return False
    lower = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
    grip = grip_of(session.desk.scene, session.hand, session.units, "lower" if lower else "upper")
    if grip is None:
        return False
    name, sign = _KEYS[event.key()]
    if name == "round" and from_above:
        sign = -sign
    _go(session, grip, name, sign, event)
    return True


def _go(session: Session, grip: Grip, name: WayName, sign: float, event: QKeyEvent) -> None:
    way = grip.way(name)
    if way.take is None or way.why:
        session.said.emit(way.why or _("{name} does not go that way.").format(name=grip.name))
        return
    held = event.modifiers()
    by = step_deg(held) if way.unit == "degrees" else step(held)
    value, sentence = way.held(way.now + sign * way.up * by)
    try:
        layout = way.take(session.layout, value)
        session.edit(layout, grip.step, onto_last=event.isAutoRepeat())
    except MastLayoutError as error:
        sentence = str(error)
    session.said.emit(sentence)
