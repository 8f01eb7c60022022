"""Starting the window."""

import gc
from collections.abc import Sequence
from pathlib import Path
from typing import cast

from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication

from mastlayout.ui.copies import recovery_folder
from mastlayout.ui.look import BODY, font, load_fonts, qt_palette
from mastlayout.ui.theme import Choice, Theme
from mastlayout.ui.window import MainWindow

_THEMES = ("light", "dark", "system")


def run(path: Path | None, argv: Sequence[str]) -> int:
    """Show the window, on a layout where one is named, and return when it is closed."""
    app = QApplication(list(argv))
    app.setOrganizationName("mastlayout")
    app.setApplicationName("mastlayout")
    settings = QSettings()
    chosen = settings.value("window/theme", "system")
    theme = Theme(cast("Choice", chosen if chosen in _THEMES else "system"))
    dress(app, theme)
    window = MainWindow(theme, settings, recovery_folder())
    window.show()
    QTimer.singleShot(0, lambda: begin(window, path))
    return app.exec()


def dress(app: QApplication, theme: Theme) -> None:
    """Give Qt's own controls the look of the rest, now and whenever the theme changes."""
    load_fonts()
    app.setStyle("Fusion")
    app.setFont(font(BODY))
    app.setPalette(qt_palette(theme.colours))
    theme.changed.connect(lambda: app.setPalette(qt_palette(theme.colours)))


def begin(window: MainWindow, path: Path | None) -> None:
    """Offer what a crash left behind, else open what was asked for."""
    if not window.files.offer_copies() and path is not None:
        window.files.open(path)
    # What is loaded stays: a full collection later would stall the window.
    gc.collect()
    gc.freeze()
    gc.enable()
