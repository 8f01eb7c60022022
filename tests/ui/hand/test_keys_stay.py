"""What is taken in hand changes the panels; the keyboard stays where it was."""

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QWidget
from window_builder import a_window, whimbrel


class Opened(QObject):
    """Keeps every window that is shown, however briefly."""

    def __init__(self):
        super().__init__()
        self.windows = []

    def eventFilter(self, watched, event):  # noqa: N802 - Qt calls it by this name
        """See what is shown, and let everything through."""
        if event.type() == QEvent.Type.Show and isinstance(watched, QWidget) and watched.isWindow():
            self.windows.append(type(watched).__name__)
        return False


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_taking_in_hand_opens_no_window_and_takes_no_keys(qapp, qtbot, tmp_path, size):
    """A part without a parent would be a window for a moment, and the keys would be lost to it."""
    window = a_window(qtbot, tmp_path)
    window.files.open(whimbrel(tmp_path))
    window.resize(*size)
    qtbot.waitUntil(lambda: window.arrangement is not None and window.arrangement.isVisible())
    canvas = window.arrangement.panels.elevation.canvas
    canvas.setFocus()
    opened = Opened()
    qapp.installEventFilter(opened)
    scene = window.session.desk.scene
    for name in (*list(scene.placed)[:8], *list(scene.spreaders)[:1], *list(scene.stays)[:1]):
        window.session.pick(name)
        qapp.processEvents()
    qapp.removeEventFilter(opened)
    assert opened.windows == []
    assert QApplication.focusWidget() is canvas
