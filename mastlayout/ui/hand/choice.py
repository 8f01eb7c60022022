"""A property that is chosen from a list; a choice that cannot be changes nothing and says why."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox, QPushButton, QSizePolicy

from mastlayout.errors import MastLayoutError
from mastlayout.ui.forms.entry import fill
from mastlayout.ui.hand.property import Property
from mastlayout.ui.look import BODY, font
from mastlayout.ui.session import Session


class Choice(QComboBox):
    """Shows one property. ``said`` carries what is allowed after a wrong choice, "" after it."""

    said = Signal(str)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._shown: Property | None = None
        self.setFont(font(BODY))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setMinimumContentsLength(6)
        self.activated.connect(self._take)

    def show_property(self, shown: Property) -> None:
        """Show a property, its choices anew where they differ."""
        before, self._shown = self._shown, shown
        self.setAccessibleName(shown.name)
        self.setToolTip(shown.tip)
        if before is None or (before.choices, before.text) != (shown.choices, shown.text):
            fill(self, shown.choices, shown.text)

    def choose(self, value: str) -> None:
        """Choose a value as the user does."""
        self.setCurrentIndex(self.findData(value))
        self._take()

    def _take(self, *_at: int) -> None:
        shown = self._shown
        if shown is None or shown.take is None or self.currentData() == shown.text:
            return
        try:
            layout = shown.take(str(self.currentData()))
            self.session.preview(layout)
        except MastLayoutError as error:
            self.session.cancel()
            fill(self, shown.choices, shown.text)
            self.setAccessibleDescription(str(error))
            self.said.emit(str(error))
            return
        self.setAccessibleDescription("")
        self.said.emit("")
        self.session.edit(layout, shown.step)

    def wheelEvent(self, event: QWheelEvent) -> None:
        # The wheel turns the panel's page: it never changes a layout in passing.
        event.ignore()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusOut:
            self.said.emit("")
        return super().event(event)


class Opener(QPushButton):
    """A property that is typed in a form of its own: its button says what is known."""

    def __init__(self) -> None:
        super().__init__()
        self._shown: Property | None = None
        self.setFont(font(BODY))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setStyleSheet("text-align: left")

    def show_property(self, shown: Property) -> None:
        """Show a property."""
        self._shown = shown
        known = shown.text or shown.empty
        self.setText(f"{known} …")
        self.setAccessibleName(f"{shown.name}: {known}")
        self.setToolTip(shown.tip)
