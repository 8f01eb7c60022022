"""Starting the window."""

import gc
import sys
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import cast

from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication

from mastlayout.ui.copies import recovery_folder
from mastlayout.ui.focusring import FocusRing
from mastlayout.ui.look import BODY, font, load_fonts, qt_palette
from mastlayout.ui.sheet import style_sheet
from mastlayout.ui.theme import Choice, Theme
from mastlayout.ui.window import MainWindow
from mastlayout.words import _

_SETTLED_MS = 1000  # by then the window is painted
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
    sys.excepthook = partial(failed, window)
    if path is None:
        window.begin_new()
    # Asked for before the window shows: what it opens is there before anything is painted.
    QTimer.singleShot(0, lambda: begin(window, path))
    window.show()
    return app.exec()


def failed(
    window: MainWindow, kind: type[BaseException], error: BaseException, trace: TracebackType | None
) -> None:
    """Keep what is on the desk when the program fails, and say so; the window goes on."""
    sys.__excepthook__(kind, error, trace)
    window.files.copies.write()
    window.say(
        _("The program failed in one step ({what}). A recovery copy is kept; save now.").format(what=error)
    )


def dress(app: QApplication, theme: Theme) -> None:
    """Give Qt's own controls the look of the rest, now and whenever the theme changes."""
    load_fonts()
    app.setStyle("Fusion")
    app.setFont(font(BODY))

    def colour() -> None:
        app.setPalette(qt_palette(theme.colours))
        app.setStyleSheet(style_sheet(theme))

    colour()
    theme.changed.connect(colour)
    FocusRing(theme, app)


def begin(window: MainWindow, path: Path | None) -> None:
    """Offer what a crash left behind, else open what was asked for."""
    if not window.files.offer_copies() and path is not None:
        window.open_first(path)
    if window.session is None:
        window.begin_new()
    QTimer.singleShot(_SETTLED_MS, settle)


def settle() -> None:
    """Keep what is loaded out of all collections to come: a full one would stall the window."""
    gc.collect()
    gc.freeze()
    gc.enable()
