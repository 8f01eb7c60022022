"""What a screen reader is told: the tree of accessible things as Qt hands it to the system."""

from collections.abc import Iterator

from painted import shown_widgets
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAbstractButton, QAbstractScrollArea, QLabel, QWidget

from mastlayout.ui.focusring import Ring

_Role = QAccessible.Role
# What must be told apart by ear. A cell may be empty, as a clear row has no measure.
_NAMED = {
    _Role.Button, _Role.ButtonMenu, _Role.ButtonDropDown, _Role.CheckBox, _Role.RadioButton,
    _Role.ComboBox, _Role.EditableText, _Role.SpinBox, _Role.Slider, _Role.ProgressBar,
    _Role.List, _Role.ListItem, _Role.Table, _Role.Tree, _Role.TreeItem,
    _Role.PageTab, _Role.PageTabList, _Role.MenuItem, _Role.Dialog, _Role.Graphic, _Role.Canvas,
}  # fmt: skip
_DEEPEST = 30


def nameless(root: QWidget) -> Iterator[str]:
    """Name what a screen reader meets and cannot say, and painted views that nothing describes."""
    for told, path in _tree(QAccessible.queryAccessibleInterface(root), ()):
        if told.role() in _NAMED and not _name(told) and not told.state().invisible:
            yield f"no name: {told.role().name} in {' > '.join(path[-3:])}"
    for widget in shown_widgets(root):
        if _paints_itself(widget):
            kind = type(widget).__name__
            if not widget.accessibleName():
                yield f"no name: the painted view {kind}"
            elif not widget.accessibleDescription():
                yield f"no description: the painted view {kind}"


def _tree(
    told: QAccessibleInterface | None, path: tuple[str, ...]
) -> Iterator[tuple[QAccessibleInterface, tuple[str, ...]]]:
    if told is None or not told.isValid() or len(path) > _DEEPEST:
        return
    yield told, path
    inside = (*path, _name(told) or told.role().name)
    for i in range(told.childCount()):
        yield from _tree(told.child(i), inside)


def _name(told: QAccessibleInterface) -> str:
    return told.text(QAccessible.Text.Name).strip()


def _paints_itself(widget: QWidget) -> bool:
    """Tell whether all that a widget says is painted by the program, unlike a button or a list."""
    kind = type(widget)
    if issubclass(kind, (QLabel, Ring)):
        return False
    own = kind.__module__.startswith("mastlayout")
    paints = "paintEvent" in vars(kind) or "drawForeground" in vars(kind)
    listed = isinstance(widget, QAbstractButton) or (
        isinstance(widget, QAbstractScrollArea) and "drawForeground" not in vars(kind)
    )
    return own and paints and not listed
