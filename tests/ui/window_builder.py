"""A window on files of its own, with answers in the place of its questions."""

from pathlib import Path

from PySide6.QtCore import QSettings

from mastlayout.resources import demo_masts
from mastlayout.ui.look import load_fonts
from mastlayout.ui.theme import Theme
from mastlayout.ui.window import MainWindow


class Answered:
    """Stands in for the modal questions: gives the answers it is told, and keeps what was asked."""

    def __init__(self, **answers):
        self.answers = answers
        self.asked = []

    def __getattr__(self, name):
        def ask(*args, **_named):
            self.asked.append((name, *args))
            return self.answers.get(name)

        return ask

    def names(self):
        """What was asked, in order."""
        return [asked[0] for asked in self.asked]


def a_window(qtbot, folder: Path, **answers) -> MainWindow:
    """A window with settings and recovery copies in a folder; its questions are answered as named."""
    load_fonts()
    settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(Theme("light"), settings, folder / "recovery")
    asks = Answered(**({"leave": "discard"} | answers))
    window.asks = window.files.asks = window.start.asks = asks
    qtbot.addWidget(window)
    window.resize(1920, 1080)
    window.show()
    qtbot.waitActive(window)
    return window


def whimbrel(folder: Path) -> Path:
    """A copy of an example in a folder."""
    path = folder / "whimbrel.toml"
    path.write_bytes((demo_masts() / "whimbrel.toml").read_bytes())
    return path


def edited(session, name="Whimbrel II"):
    """Give the yacht another name, as one step."""
    boat = session.layout.boat.but(name=name)
    session.edit(session.layout.but(boat=boat), "Name the yacht")
