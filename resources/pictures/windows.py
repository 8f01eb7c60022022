"""The window as the README shows it: Sanderling with her hailer in hand, light, 1920 by 1080."""

import os
import tempfile
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QBuffer, QIODevice, QSettings
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QApplication

from mastlayout.resources import demo_masts
from mastlayout.ui.app import dress
from mastlayout.ui.theme import Theme
from mastlayout.ui.window import MainWindow

YACHT, IN_HAND, SIZE_PX = "sanderling", "hailer-1", (1920, 1080)


def an_app() -> QApplication:
    """The one application, made where there is none yet."""
    return QApplication.instance() or QApplication([])


def shown_window() -> bytes:
    """Return the window as a PNG; settings and recovery copies of the user's own are left alone."""
    app, theme = an_app(), Theme("light")
    dress(app, theme)
    with tempfile.TemporaryDirectory() as folder:
        settings = QSettings(f"{folder}/settings.ini", QSettings.Format.IniFormat)
        window = MainWindow(theme, settings, Path(folder) / "recovery")
        window.resize(*SIZE_PX)
        window.show()
        window.files.open(demo_masts() / f"{YACHT}.toml")
        window.session.pick(IN_HAND)
        window.setFocus()  # no ring round what has the keys
        for _round in range(10):
            app.processEvents()
        made = png_of(window.grab())
        window.close()
    return made


def png_of(picture: QPixmap | QImage) -> bytes:
    """Return a picture as the bytes of a PNG."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    picture.save(buffer, "PNG")
    return bytes(buffer.data().data())
