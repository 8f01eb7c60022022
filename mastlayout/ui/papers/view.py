"""One page of paper on the window's ground."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QWidget

from mastlayout.documents.page import Page
from mastlayout.ui.look import MARGIN
from mastlayout.ui.papers.painter import paint_page
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_MOST_ZOOM = 8.0


class PageView(QScrollArea):
    """A page as large as the view, or larger with the wheel or + and -."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sheet = _Sheet(theme)
        self.zoom = 1.0
        self.setWidget(self.sheet)
        self.setWidgetResizable(True)
        self.setAccessibleName(_("Preview"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def show_page(self, page: Page | None, words: str) -> None:
        """Show a page, or nothing; ``words`` is said by a screen reader."""
        self.sheet.page = page
        self.setAccessibleDescription(words)
        self.sheet.update()

    def magnify(self, factor: float) -> None:
        """Show the page larger or smaller; never smaller than the view."""
        self.zoom = min(_MOST_ZOOM, max(1.0, self.zoom * factor))
        room = self.viewport().size()
        least = QSize(0, 0) if self.zoom == 1.0 else room * self.zoom
        self.sheet.setMinimumSize(least)

    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.magnify(1.2 ** (event.angleDelta().y() / 120.0))
            event.accept()
        else:
            super().wheelEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.magnify(1.5)
        elif event.key() == Qt.Key.Key_Minus:
            self.magnify(1 / 1.5)
        else:
            super().keyPressEvent(event)


class _Sheet(QWidget):
    """The paper itself."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.page: Page | None = None
        self._theme = theme
        self.setAccessibleName(_("Sheet"))
        self.setAccessibleDescription(_("The sheet as it is printed; the list beside it names it."))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        theme.changed.connect(self.update)

    def paper_box(self) -> tuple[QRectF, float]:
        """Return where the paper lies, in pixels, and the pixels of a millimetre."""
        wide, high = self.page.size_mm if self.page else (1.0, 1.0)
        scale = min((self.width() - 2 * MARGIN) / wide, (self.height() - 2 * MARGIN) / high)
        box = QRectF(0, 0, wide * scale, high * scale)
        box.moveCenter(QPointF(self.width() / 2, self.height() / 2))
        return box, scale

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.colours["window"])
        if self.page is not None:
            painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
            box, scale = self.paper_box()
            painter.setPen(QPen(self._theme.colours["edge"], 1))
            painter.setBrush(Qt.GlobalColor.white)  # paper is white in the dark too
            painter.drawRect(box)
            painter.translate(box.topLeft())
            painter.scale(scale, scale)
            paint_page(painter, self.page)
        painter.end()
