"""The hairlines: each row of the list that shows, joined to its height on the strip."""

from collections.abc import Iterator

from PySide6.QtCore import QPoint, QPointF, QSize
from PySide6.QtGui import QHideEvent, QPainter, QPaintEvent, QPen, QPolygonF, QShowEvent
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.ui.look import THIN, THREAD
from mastlayout.ui.session import Session
from mastlayout.ui.strip.list import MastList
from mastlayout.ui.strip.rig import RigStrip
from mastlayout.ui.strip.rows import THING
from mastlayout.ui.strip.things import Thing
from mastlayout.ui.theme import Theme
from mastlayout.words import _

HAIRLINES_PX = 30
# Level at both ends, so that the eye leaves strip and row straight.
_LEVEL_PX = 5.0


@dataclass(frozen=True)
class Hairline:
    """One line: the thing it joins, and its ends in pixels from the widget's top."""

    thing: Thing
    strip_y: float
    row_y: float


class Hairlines(QWidget):
    """Between strip and list; the line of the thing in hand is in the accent."""

    def __init__(
        self, session: Session, theme: Theme, ends: tuple[RigStrip, MastList], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self._rig, self._list = ends
        self.setAccessibleName(_("Hairlines"))
        self.setAccessibleDescription(_("Each row of the list is joined to its height on the whole rig."))
        self.setFixedWidth(HAIRLINES_PX)
        self._list.settled.connect(self.follow)
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(HAIRLINES_PX, 600)

    def follow(self) -> None:
        """Follow the rows to where they are now; hidden, join nothing."""
        lines = self.lines() if self.isVisible() else ()
        self._rig.join({line.thing.id: line.thing.z_mm or 0.0 for line in lines})
        self.update()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.follow()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.follow()

    def lines(self) -> Iterator[Hairline]:
        """Yield a line for each row whose middle shows and whose thing has a height."""
        view, port = self._list.view, self._list.view.viewport()
        rig_top, list_top = self._offset(self._rig), self._offset(port)
        for row in self._rows_that_show():
            index = view.model().index(row, 0)
            box = view.visualRect(index)
            middle = box.top() + box.height() / 2
            thing: Thing = index.data(THING)
            if thing.z_mm is not None and 0 <= middle <= port.height():
                yield Hairline(thing, rig_top + self._rig.scale.y_px(thing.z_mm), list_top + middle)

    def _rows_that_show(self) -> range:
        view = self._list.view
        first = view.indexAt(QPoint(0, 0)).row()
        last = view.indexAt(QPoint(0, view.viewport().height() - 1)).row()
        return range(max(first, 0), last + 1 if last >= 0 else view.model().rowCount())

    def _offset(self, other: QWidget) -> int:
        return self.mapFromGlobal(other.mapToGlobal(QPoint(0, 0))).y()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = self.theme.colours
        painter.fillRect(self.rect(), colours["ground"])
        # The line in hand comes last, over the others.
        for line in sorted(self.lines(), key=lambda line: line.thing.id == self.session.hand):
            in_hand = line.thing.id == self.session.hand
            painter.setPen(QPen(colours["accent"], THREAD + 1) if in_hand else QPen(colours["edge"], THIN))
            ends = [(0.0, line.strip_y), (_LEVEL_PX, line.strip_y)]
            ends += [(self.width() - _LEVEL_PX, line.row_y), (float(self.width()), line.row_y)]
            painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in ends]))
        painter.end()
