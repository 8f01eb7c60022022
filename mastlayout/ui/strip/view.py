"""The rows on screen and the heads over them."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView, QWidget

from mastlayout.ui.emptylist import paint_why_empty
from mastlayout.ui.look import LABEL, NARROW_ROW, ROW, font
from mastlayout.ui.sheet import scroll_bars
from mastlayout.ui.strip.row import NAME_LEFT, READING_RIGHT, TAG_RIGHT, RowDelegate
from mastlayout.ui.strip.rows import Index, Sought
from mastlayout.ui.theme import Theme
from mastlayout.ui.viewport import make_viewport
from mastlayout.words import _


class RowsView(QListView):
    """The rows; says in words why it is empty."""

    def __init__(self, sought: Sought, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        make_viewport(self)
        self.setModel(sought)
        self._delegate = RowDelegate(theme, lambda: sought.names, self)
        self.setItemDelegate(self._delegate)
        for signal in (sought.rowsInserted, sought.rowsRemoved, sought.modelReset):
            signal.connect(self._fit_rows)
        self.setUniformItemSizes(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.verticalScrollBar().setSingleStep(ROW)
        self.setTabKeyNavigation(False)
        self.setAccessibleName(_("On the mast, masthead first"))

    def _fit_rows(self, *_changed: object) -> None:
        """Make the rows a little lower where that shows them all."""
        rows, room = self.model().rowCount(), self.viewport().height()
        row_px = NARROW_ROW if rows * NARROW_ROW <= room < rows * ROW else ROW
        if row_px != self._delegate.row_px:
            self._delegate.row_px = row_px
            self.scheduleDelayedItemsLayout()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._fit_rows()
        super().resizeEvent(event)

    def recolour(self) -> None:
        """Take the colours in force."""
        colours = self.theme.colours
        self.setStyleSheet(f"QListView {{ background: #{colours.ground}; }}" + scroll_bars(colours))

    def dataChanged(self, first: Index, last: Index, roles: Sequence[int] = ()) -> None:
        # Rows are all of one height: QListView would lay every row out anew and paint them all.
        QAbstractItemView.dataChanged(self, first, last, roles)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        paint_why_empty(self, self.theme.colours, self._why_empty())

    def _why_empty(self) -> str:
        sought = self.model()
        if isinstance(sought, Sought) and sought.sourceModel().rowCount():
            return _("No name or tag on this mast holds what is sought. Escape in the field shows all.")
        return _("Nothing stands on this mast yet.")


class Heads(QWidget):
    """The heads over the rows' columns, with the word for the plus."""

    def __init__(self, view: QListView, theme: Theme) -> None:
        super().__init__()
        self._view, self._theme = view, theme
        self.setFixedHeight(ROW)
        self.setAccessibleName(_("Heads of the list"))
        self.setAccessibleDescription(_("Tag, name, height from the masthead; a plus marks what is new."))
        theme.changed.connect(self.update)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = self._theme.colours
        width = self._view.viewport().width()
        painter.setFont(font(LABEL))
        painter.setPen(colours["second"])
        middle = Qt.AlignmentFlag.AlignVCenter
        right = middle | Qt.AlignmentFlag.AlignRight
        painter.drawText(QRectF(0, 0, TAG_RIGHT, ROW), right, _("Tag"))
        painter.drawText(QRectF(NAME_LEFT, 0, width, ROW), middle, _("On the mast   + new"))
        painter.drawText(QRectF(0, 0, width - READING_RIGHT, ROW), right, _("Masthead"))
        painter.setPen(QPen(colours["edge"], 1))
        painter.drawLine(0, ROW - 1, width, ROW - 1)
        painter.end()
