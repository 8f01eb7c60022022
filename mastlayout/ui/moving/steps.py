"""How far a key or a notch of the wheel goes: by 10, with Shift by 100, with Alt by 1."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QWheelEvent

_STEP, _LARGE_STEP, _SMALL_STEP = 10.0, 100.0, 1.0
# A page key in the chart of heights.
PAGE_MM = 1000.0
_QUARTER_TURN_DEG = 90.0
_NOTCH = 120.0
Modifiers = Qt.KeyboardModifier


def step(held: Modifiers) -> float:
    """Return the step in mm for the modifier keys held."""
    if held & Modifiers.ShiftModifier:
        return _LARGE_STEP
    return _SMALL_STEP if held & Modifiers.AltModifier else _STEP


def step_deg(held: Modifiers) -> float:
    """Return the step in degrees: the same numbers, the large one a quarter turn."""
    return min(step(held), _QUARTER_TURN_DEG)


def wheel_mm(event: QWheelEvent) -> float:
    """Return how far up the mast a turn of the wheel goes, mm."""
    # Some systems turn the wheel sideways while Alt is held.
    turned = event.angleDelta().y() or event.angleDelta().x()
    return turned / _NOTCH * step(event.modifiers())


def step_words() -> tuple[float, float, float]:
    """Return the plain step, that with Shift and that with Alt, for the list of keys."""
    return _STEP, _LARGE_STEP, _SMALL_STEP
