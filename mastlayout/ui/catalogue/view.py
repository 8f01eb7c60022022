"""The rows of the catalogue on screen: arrows walk them, a drag takes the one under the pointer out."""

from collections.abc import Callable

from PySide6.QtCore import QModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent
from PySide6.QtWidgets import QApplication, QFrame, QListView

from mastlayout.model.kind import Kind
from mastlayout.ui.catalogue.drag import DragKind
from mastlayout.ui.catalogue.kinds import ENTRY, Kinds
from mastlayout.ui.catalogue.row import LOW_PX, TALL_PX, KindDelegate
from mastlayout.ui.emptylist import paint_why_empty
from mastlayout.ui.look import ROW
from mastlayout.ui.session import Session
from mastlayout.ui.sheet import scroll_bars
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class KindsView(QListView):
    """The kinds. ``dropped`` carries the id of a fitting that was dropped on a view."""

    dropped = Signal(str)

    def __init__(
        self, session: Session, theme: Theme, kinds: Kinds, begin_drag: Callable[[Kind], DragKind]
    ) -> None:
        super().__init__()
        self.theme, self._begin_drag = theme, begin_drag
        self.gesture: DragKind | None = None
        self._pressed: QPoint | None = None
        self.setModel(kinds)
        self._rows = KindDelegate(session, theme, kinds, self)
        self.setItemDelegate(self._rows)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.verticalScrollBar().setSingleStep(ROW)
        self.setTabKeyNavigation(False)
        self.setAccessibleName(_("Kinds of fitting"))
        self.recolour()

    @property
    def kind(self) -> Kind | None:
        """The kind that is chosen."""
        index = self.currentIndex()
        return index.data(ENTRY).kind if index.isValid() else None

    def choose_first(self) -> None:
        """Choose the first kind there is."""
        model = self.model()
        rows = (model.index(row, 0) for row in range(model.rowCount()))
        self.setCurrentIndex(next((index for index in rows if index.data(ENTRY).kind), QModelIndex()))
        self.scrollToTop()

    def choose(self, name: str) -> None:
        """Choose a kind by its id, if it is shown."""
        model = self.model()
        for index in (model.index(row, 0) for row in range(model.rowCount())):
            kind = index.data(ENTRY).kind
            if kind is not None and kind.id == name:
                self.setCurrentIndex(index)

    def show_low(self, *, low: bool) -> None:
        """Take lower rows where the room is low."""
        wanted = LOW_PX if low else TALL_PX
        if wanted != self._rows.row_px:
            self._rows.row_px = wanted
            self.scheduleDelayedItemsLayout()

    # -- the drag

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.gesture is not None:
            self._cancel()
            return
        super().mousePressEvent(event)
        over = self.indexAt(event.position().toPoint())
        left = event.button() == Qt.MouseButton.LeftButton and over.isValid() and over.data(ENTRY).kind
        self._pressed = event.position().toPoint() if left else None

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = event.position().toPoint()
        if self.gesture is None and self._pressed is not None and event.buttons() & Qt.MouseButton.LeftButton:
            far = (at - self._pressed).manhattanLength() >= QApplication.startDragDistance()
            kind = self.kind
            if far and kind is not None:
                self.gesture = self._begin_drag(kind)
                self.setFocus(Qt.FocusReason.MouseFocusReason)  # Escape comes here
        if self.gesture is not None:
            self.gesture.move(self.viewport().mapToGlobal(at), event.modifiers())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._pressed = None
        if self.gesture is None:
            super().mouseReleaseEvent(event)
        elif event.button() == Qt.MouseButton.LeftButton:
            gesture = self._end()
            name = gesture.finish()
            if name:
                self.dropped.emit(name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.gesture is None:
            super().keyPressEvent(event)
        elif event.key() == Qt.Key.Key_Escape:
            self._cancel()
        elif event.key() == Qt.Key.Key_Control:
            self.gesture.hold(event.modifiers() | Qt.KeyboardModifier.ControlModifier)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if self.gesture is None:
            super().keyReleaseEvent(event)
        elif event.key() == Qt.Key.Key_Control:
            self.gesture.hold(event.modifiers() & ~Qt.KeyboardModifier.ControlModifier)

    def _cancel(self) -> None:
        self._end().cancel()

    def _end(self) -> DragKind:
        gesture, self.gesture, self._pressed = self.gesture, None, None
        if gesture is None:
            raise RuntimeError("no drag is under way")
        return gesture

    # -- the look

    def recolour(self) -> None:
        """Take the colours in force."""
        colours = self.theme.colours
        self.setStyleSheet(
            f"QListView {{ background: #{colours.ground}; border-top: 1px solid #{colours.edge}; }}"
            + scroll_bars(colours)
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        words = _("No kind holds these words. For a part that is not here take a plain pad: search “pad”.")
        paint_why_empty(self, self.theme.colours, words)
