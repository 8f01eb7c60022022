"""The tour's window, dressed as the program dresses it, and the folder of its pictures."""

import os
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from shiboken6 import delete

from mastlayout.ui.app import dress
from mastlayout.ui.focusring import FocusRing
from mastlayout.ui.theme import Theme
from mastlayout.ui.window import MainWindow


@pytest.fixture
def pictures(tmp_path):
    """Where pictures land: MASTLAYOUT_PICTURES, else, of stops that have a flaw, pytest's own folder."""
    folder = Path(os.environ.get("MASTLAYOUT_PICTURES", tmp_path / "pictures"))
    folder.mkdir(parents=True, exist_ok=True)
    return folder


@pytest.fixture
def dressed(qapp, qtbot, tmp_path):
    """Make a window as the program makes it, in a theme, a size and units; undress the application after."""
    before = qapp.styleSheet(), qapp.palette(), qapp.font(), qapp.style().objectName()

    def make(theme="light", size=(1920, 1080), units="metric"):
        chosen = Theme(theme)
        dress(qapp, chosen)
        settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
        settings.setValue("window/units", units)
        window = MainWindow(chosen, settings, tmp_path / "recovery")
        qtbot.addWidget(window, before_close_func=_forget_changes)
        window.resize(*size)
        with qtbot.waitActive(window):
            window.show()
        for button in (Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton):
            QTest.mouseRelease(window, button)  # a test before may have left it down
        return window

    yield make
    for ring in qapp.findChildren(FocusRing):
        delete(ring)  # it has the colours of this theme
    QApplication.setStyle(before[3])
    qapp.setStyleSheet(before[0])
    qapp.setPalette(before[1])
    qapp.setFont(before[2])


def _forget_changes(window):
    if window.session is not None:
        window.session.undo.setClean()
