"""The one loudest warning of a hole, and the sentence that stands on every paper that holds holes back."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from mastlayout.ui.look import GAP, MARGIN, UNIT, VALUE, font
from mastlayout.ui.marks import colour, paint_mark, word
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_MARK_PX = 22.0
_BAR_PX = 6.0


class Band(QWidget):
    """A band with mark, word and sentence; it is as high as its sentence needs, and gone without one."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = theme
        self.state, self.text = "note", ""
        self._px = VALUE + 2
        self.setAccessibleDescription(_("The loudest warning of this hole."))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        theme.changed.connect(self.update)
        self.hide()

    def show_text(self, state: str, text: str, *, bare: bool = False) -> None:
        """Show a sentence with its state's mark and word, the latter left out where ``bare``; "" hides it."""
        self.state = state
        self.text = f"{word(state)}: {text}" if text and not bare else text
        self.setAccessibleName(self.text)
        self.setVisible(bool(text))
        self._fit()

    def show_size(self, *, large: bool, scale: float = 1.0) -> None:
        """Take the large size or the small one, times ``scale``."""
        self._px = round((VALUE + 2 if large else VALUE - 1) * scale)
        self._fit()

    def _words_box(self) -> QRectF:
        left = _BAR_PX + _MARK_PX + 2 * GAP
        room = QRectF(left, 0, max(self.width() - left - GAP, 50), 2000)
        metrics = QFontMetricsF(font(self._px, bold=True))
        return metrics.boundingRect(room, int(Qt.TextFlag.TextWordWrap), self.text)

    def sizeHint(self) -> QSize:
        return QSize(300, int(self._words_box().height()) + MARGIN)

    def _fit(self) -> None:
        self.setFixedHeight(max(int(self._words_box().height()) + MARGIN, int(_MARK_PX) + GAP))
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._fit()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        ink = colour(self.state, self.theme.colours)
        ground = colour(self.state, self.theme.colours)
        ground.setAlphaF(0.14)
        painter.fillRect(self.rect(), ground)
        painter.fillRect(QRectF(0, 0, _BAR_PX, self.height()), ink)
        at = QPointF(_BAR_PX + GAP + _MARK_PX / 2, self.height() / 2)
        paint_mark(painter, self.state, at, _MARK_PX, self.theme.colours)
        painter.setFont(font(self._px, bold=True))
        painter.setPen(self.theme.colours["ink"])
        box = self._words_box()
        box.setHeight(self.height())
        box.moveTop(0)
        box.setRight(self.width() - UNIT)
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap, self.text)
        painter.end()
