"""A property that is chosen from a list; a choice that cannot be changes nothing and says why."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QPushButton, QSizePolicy, QStyleOptionComboBox

from mastlayout.errors import MastLayoutError
from mastlayout.ui.forms.entry import fill
from mastlayout.ui.hand.property import Property
from mastlayout.ui.inwords import in_words, whole_tip
from mastlayout.ui.look import BODY, font
from mastlayout.ui.plainwords import on_button
from mastlayout.ui.session import Session

# What a box keeps for its arrow, and a button at its sides.
_ARROW_PX, _PADS_PX = 34.0, 16.0


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

    @property
    def _room_px(self) -> float:
        return self.width() - _ARROW_PX

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        super().initStyleOption(option)
        option.currentText = in_words(option.currentText, QFontMetricsF(self.font()), self._room_px)

    def wheelEvent(self, event: QWheelEvent) -> None:
        # The wheel turns the panel's page: it never changes a layout in passing.
        event.ignore()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusOut:
            self.said.emit("")
        if event.type() == QEvent.Type.ToolTip and self._shown is not None:
            metrics = QFontMetricsF(self.font())
            self.setToolTip(whole_tip(self.currentText(), self._shown.tip, metrics, self._room_px))
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
        self.setAccessibleName(f"{shown.name}: {shown.text or shown.empty}")
        self._fit()

    def _fit(self) -> None:
        """Show as many words as find room; all of them stand in the tooltip then."""
        if self._shown is None:
            return
        known, metrics = self._shown.text or self._shown.empty, QFontMetricsF(self.font())
        room = self.width() - _PADS_PX - metrics.horizontalAdvance(" …")
        self.setText(on_button(f"{in_words(known, metrics, room).rstrip(' …')} …"))
        self.setToolTip(whole_tip(known, self._shown.tip, metrics, room))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()
