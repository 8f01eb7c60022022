"""Walking a window with real Tab keys: where the keys come, what they never reach, what is seen."""

from collections.abc import Iterator

import numpy as np
from flaws import pixels
from painted import shown_widgets
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QMenu,
    QMenuBar,
    QRadioButton,
    QSlider,
    QTabBar,
    QWidget,
)

_CONTROLS = (
    QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit, QSlider, QTabBar,
)  # fmt: skip
_MOST = 400
# Success criterion 2.4.13 of the Web Content Accessibility Guidelines 2.2: the change is 3 : 1.
_SEEN_RATIO = 3.0
# More than the cursor of a text field, which is no sign of focus while it blinks.
_LEAST_PIXELS = 40
_RING_PX = 3


def walk(root: QWidget, *, back: bool = False) -> list[QWidget]:
    """Press Tab until a widget comes again; the widgets in the order they came."""
    met: list[QWidget] = []
    while len(met) < _MOST:
        press(root, back=back)
        focused = QApplication.focusWidget()
        if focused is None or focused in met:
            break
        met.append(focused)
    return met


def press(root: QWidget, *, back: bool = False) -> None:
    """Press Tab, or Shift and Tab, where the keys are now."""
    focused = QApplication.focusWidget()
    at = focused if focused is not None and focused.window() is root.window() else root
    QTest.keyClick(at, Qt.Key.Key_Backtab if back else Qt.Key.Key_Tab)


def controls(root: QWidget) -> Iterator[QWidget]:
    """What a hand can work in a window now, the menus apart: they have Alt and the arrow keys."""
    for widget in shown_widgets(root):
        if not widget.isEnabled() or isinstance(widget, (QMenu, QMenuBar)) or _of_another(widget):
            continue
        if isinstance(widget, _CONTROLS) or widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            yield widget


def _of_another(widget: QWidget) -> bool:
    """Tell whether a widget is a part that its owner works: the button in a field, the field in a box."""
    owner = widget.parentWidget()
    return isinstance(owner, (QLineEdit, QComboBox, QAbstractSpinBox, QTabBar, QAbstractItemView))


def unreached(root: QWidget) -> Iterator[str]:
    """Name what Tab never comes to, forwards and backwards, and where it does not go round."""
    for back in (False, True):
        met = walk(root, back=back)
        way = "Shift+Tab" if back else "Tab"
        reached = set(met) | {one for widget in met for one in _arrows_reach(widget)}
        for control in controls(root):
            if control not in reached and control.focusProxy() not in reached:
                yield f"{way} never comes to {named(control)}"
        if met:
            here = QApplication.focusWidget()
            press(root, back=back)
            if QApplication.focusWidget() is here and len(met) > 1:
                yield f"{way} does not leave {named(here)}"


def _arrows_reach(widget: QWidget) -> list[QWidget]:
    """Return the rings of a group: Tab comes to one, the arrow keys to the others."""
    if not isinstance(widget, QAbstractButton):
        return []
    if widget.group() is not None and widget.group().exclusive():
        return list(widget.group().buttons())
    parent = widget.parentWidget()
    if isinstance(widget, QRadioButton) and widget.autoExclusive() and parent:
        return parent.findChildren(QRadioButton, options=Qt.FindChildOption.FindDirectChildrenOnly)
    return []


def unseen_focus(root: QWidget, asked: set[QWidget]) -> Iterator[str]:
    """Name what of ``asked`` looks the same with the keys and without them."""
    press(root)
    first = QApplication.focusWidget()
    for _step in range(_MOST):
        widget = QApplication.focusWidget()
        if widget is None:
            return
        if widget not in asked:
            press(root)
            if QApplication.focusWidget() is first:
                return
            continue
        held, at = _picture(root, widget)
        press(root)
        left, _at = _picture(root, widget, at)
        inside = QRect(widget.mapTo(root, QPoint(0, 0)), widget.size())
        if not at.contains(inside):
            continue  # the view moved in between: there is nothing to compare
        if widget is not QApplication.focusWidget() and not _differs(held, left, at):
            yield f"focus is not seen on {named(widget)}"
        if QApplication.focusWidget() is first:
            return


def _picture(root: QWidget, widget: QWidget, at: QRect | None = None) -> tuple[np.ndarray, QRect]:
    QApplication.processEvents()
    ring = (-_RING_PX, -_RING_PX, _RING_PX, _RING_PX)
    at = at or QRect(widget.mapTo(root, QPoint(0, 0)), widget.size()).adjusted(*ring)
    return pixels(root.grab(at).toImage()), at


def _differs(held: np.ndarray, left: np.ndarray, at: QRect) -> bool:
    one, other = _luminance(held), _luminance(left)
    ratio = (np.maximum(one, other) + 0.05) / (np.minimum(one, other) + 0.05)
    return int((ratio >= _SEEN_RATIO).sum()) >= max(_LEAST_PIXELS, min(at.width(), at.height()))


def _luminance(picture: np.ndarray) -> np.ndarray:
    """Return the relative luminance (height, width) of pixels, as the guidelines define it."""
    parts = np.stack([(picture >> shift) & 0xFF for shift in (16, 8, 0)], axis=-1) / 255.0
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])


def named(widget: QWidget) -> str:
    """Name a widget for a sentence."""
    words = widget.accessibleName() or getattr(widget, "text", str)() or widget.objectName()
    parent = widget.parentWidget()
    return f"{type(widget).__name__} “{words}” in {type(parent).__name__ if parent else 'the window'}"
