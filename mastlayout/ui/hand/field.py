"""A field that shows a property and takes what is typed; a wrong entry changes nothing and says why."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QFontMetrics, QFontMetricsF, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit

from mastlayout.errors import MastLayoutError
from mastlayout.ui.hand.property import Property
from mastlayout.ui.inwords import whole_tip
from mastlayout.ui.look import BODY, font
from mastlayout.ui.session import Session

# The window or a menu took the keys for a while: what is half typed is kept.
_PASSING = (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason)
_INNER_PX = 10


class Field(QLineEdit):
    """Shows one property at a time. ``said`` carries what is allowed after a wrong entry, "" after it.

    Return takes what is typed, and so does leaving the field; Escape puts back what was there.
    """

    said = Signal(str)

    def __init__(self, session: Session, size: int = BODY, *, bold: bool = False) -> None:
        super().__init__()
        self.session = session
        self._shown: Property | None = None
        self._wrong = False
        self.setFont(font(size, bold=bold))
        self.textEdited.connect(self._begin_anew)

    def show_property(self, shown: Property) -> None:
        """Show a property; what is half typed about the same thing is not disturbed."""
        before, self._shown = self._shown, shown
        if before is None or (before.of, before.name) != (shown.of, shown.name):
            self._clear_wrong()
            self.setModified(False)
        elif self._wrong and before.text != shown.text:
            self._clear_wrong()
        self.setAccessibleName(shown.name)
        self.setToolTip(shown.tip)
        self.setPlaceholderText(shown.empty)
        self.setReadOnly(shown.take is None)
        if not (self.hasFocus() and self.isModified()) and self.text() != shown.text:
            self._put_back()

    def fit(self, least_px: int) -> None:
        """Make it as wide as what it shows, and not narrower than ``least_px``."""
        words = self.text() or self.placeholderText()
        wanted = QFontMetrics(self.font()).horizontalAdvance(words) + 2 * _INNER_PX
        self.setFixedWidth(max(least_px, wanted))

    # -- taking and putting back

    def _take(self) -> None:
        shown = self._shown
        if shown is None or shown.take is None or not self.isModified():
            return
        try:
            layout = shown.take(self.text())
            # A layout that has no scene is refused here, before it is an undo step.
            self.session.preview(layout)
        except MastLayoutError as error:
            self.session.cancel()
            self._refuse(str(error))
            return
        self.setModified(False)
        self._clear_wrong()
        self.session.edit(layout, shown.step)
        self._put_back()

    def _refuse(self, sentence: str) -> None:
        self._wrong = True
        self.setAccessibleDescription(sentence)
        self.said.emit(sentence)
        self._restyle()

    def _clear_wrong(self) -> None:
        if self._wrong:
            self._wrong = False
            self.setAccessibleDescription("")
            self.said.emit("")
            self._restyle()

    def _begin_anew(self, _text: str) -> None:
        self._clear_wrong()

    def _put_back(self) -> None:
        if self._shown is not None:
            self.setText(self._shown.text)
            self.setCursorPosition(0)
        self.setModified(False)

    def _restyle(self) -> None:
        """Let a style sheet see that the entry is wrong."""
        self.setProperty("wrong", self._wrong)
        self.style().unpolish(self)
        self.style().polish(self)

    # -- keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._take()
            self.selectAll()
        elif event.key() == Qt.Key.Key_Escape and (self.isModified() or self._wrong):
            self._clear_wrong()
            self._put_back()
            self.selectAll()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and self._shown is not None:
            room = self.width() - 2 * _INNER_PX
            self.setToolTip(whole_tip(self.text(), self._shown.tip, QFontMetricsF(self.font()), room))
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            steps = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)
            if not self.isModified() and any(event.matches(step) for step in steps):
                event.ignore()  # nothing is half typed: the window's own undo is meant
                return False
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() not in _PASSING and event.reason() != Qt.FocusReason.MouseFocusReason:
            self.selectAll()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() in _PASSING:
            return
        if not self._wrong:
            self._take()
        # What was refused is said until the next entry, but what stands is what is shown.
        self._put_back()
