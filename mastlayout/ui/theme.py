"""The theme in force: light, dark, or as the system has it."""

from typing import Literal

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication

from mastlayout.ui.look import THEMES, Colours

Choice = Literal["light", "dark", "system"]


class Theme(QObject):
    """Which colours are in force; ``changed`` asks every view to paint itself anew."""

    changed = Signal()

    def __init__(self, choice: Choice = "system", parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.choice: Choice = choice
        hints = QGuiApplication.styleHints()
        self._system_dark = hints.colorScheme() == Qt.ColorScheme.Dark
        hints.colorSchemeChanged.connect(self._system_changed)

    @property
    def dark(self) -> bool:
        """Tell whether the dark colours are in force."""
        return self._system_dark if self.choice == "system" else self.choice == "dark"

    @property
    def colours(self) -> Colours:
        """The colours in force."""
        return THEMES["dark" if self.dark else "light"]

    def choose(self, choice: Choice) -> None:
        """Choose light, dark, or as the system has it."""
        if choice != self.choice:
            self.choice = choice
            self.changed.emit()

    def _system_changed(self, scheme: Qt.ColorScheme) -> None:
        self._system_dark = scheme == Qt.ColorScheme.Dark
        if self.choice == "system":
            self.changed.emit()
