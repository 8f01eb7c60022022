"""The tape with two edges: left from the masthead, right from the heel, the reading a flag over both."""

from collections.abc import Iterator

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm, reading
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.look import BODY, FIGURE, font
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import tape_text
from mastlayout.ui.theme import Theme
from mastlayout.units import MM_PER_INCH, Units
from mastlayout.words import _

_FLAG_HALF_PX, _FIGURE_HALF_PX, _ROW_HALF_PX = 9.0, 6.0, 9
# The least distance on screen between two written figures, and between two ticks.
_LEAST_PX, _LEAST_TICK_PX = 20.0, 3.0


@dataclass(frozen=True)
class Ladder:
    """How a tape is read: ``steps`` in its own counts of ``mm`` each; every ``flag`` counts a flag."""

    mm: float
    steps: tuple[int, ...]
    flag: int
    flag_words: str
    width_px: int


LADDERS: dict[Units, Ladder] = {
    "metric": Ladder(1.0, (10, 50, 100, 500, 1000, 5000), 1000, _("{n} m"), 92),
    "inches": Ladder(MM_PER_INCH, (1, 3, 6, 12, 60), 12, _("{n} ft"), 132),
}


class Tape(QWidget):
    """The tape of the span that the canvas shows."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.span: Span | None = None
        self.setFixedWidth(self.ladder.width_px)
        self.setAccessibleName(_("Tape"))
        self.setAccessibleDescription(_("At the left from the masthead, at the right from the heel."))
        session.units_changed.connect(self._write_in)
        self._flag_px = 0.0
        session.height_changed.connect(self._move_flag)
        session.opened.connect(self.update)
        theme.changed.connect(self.update)

    @property
    def ladder(self) -> Ladder:
        """How it is read in the units in force."""
        return LADDERS[self.session.units]

    def _write_in(self, _units: str) -> None:
        self.setFixedWidth(self.ladder.width_px)
        self.update()

    def _move_flag(self, z_mm: float) -> None:
        """Paint only where the flag was and where it is: it moves with every move of a drag."""
        half = round(_FLAG_HALF_PX + 2 * _FIGURE_HALF_PX) + 1
        for y in (self._flag_px, self.span.y_px(z_mm) if self.span else 0.0):
            self.update(0, round(y) - half, self.width(), 2 * half)

    def sizeHint(self) -> QSize:
        return QSize(self.ladder.width_px, 200)

    def show_span(self, span: Span) -> None:
        """Take the span of the canvas beside it."""
        self.span = span
        self.update()

    def marks(self, *, from_heel: bool) -> Iterator[tuple[float, int]]:
        """Yield the written marks of one edge: pixel row and reading, in mm or whole inches."""
        return self._every(_LEAST_PX, self.rect(), from_heel=from_heel)

    def _every(self, least_px: float, rows: QRect, *, from_heel: bool) -> Iterator[tuple[float, int]]:
        """Yield the readings in the smallest round step that stands at least so far apart, within rows."""
        if self.span is None:
            return
        ladder, length = self.ladder, self.session.desk.scene.skin.length_mm
        scale = ladder.mm * self.span.scale
        step = next((s for s in ladder.steps if s * scale >= least_px), ladder.steps[-1])
        least, most = (self.span.z_mm(float(y)) for y in (rows.bottom() + 1, rows.top()))
        if not from_heel:
            least, most = height_mm(length, most), height_mm(length, least)
        # One step more at either end: what is off the rows is left out below.
        first = max(0, (int(least / ladder.mm) // step - 1) * step)
        last = min(length, most + ladder.mm * step)
        for read in range(first, int(last / ladder.mm + 1e-6) + 1, step):
            z = read * ladder.mm if from_heel else height_mm(length, read * ladder.mm)
            y = self.span.y_px(z)
            if rows.top() <= y <= rows.bottom() + 1:
                yield y, read

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.span is None:
            return
        painter = QPainter(self)
        # A figure is nine pixels high either way: those that reach into what is asked for are painted too.
        asked = event.rect().adjusted(0, -_ROW_HALF_PX, 0, _ROW_HALF_PX) & self.rect()
        self._flag_px = self.span.y_px(self.session.z_mm)
        colours = self.theme.colours
        painter.fillRect(self.rect(), colours["tape"])
        painter.setPen(QPen(colours["edge"], 1))
        painter.drawRect(QRectF(0.5, 0.5, self.width() - 1, self.height() - 1))
        middle = self.width() / 2
        painter.drawLine(QPointF(middle, 0), QPointF(middle, self.height()))
        for from_heel in (False, True):
            edge, inward = (self.width() - 1.0, -4.0) if from_heel else (1.0, 4.0)
            ticks = self._every(_LEAST_TICK_PX, asked, from_heel=from_heel)
            painter.drawLines([QLineF(edge, y, edge + inward, y) for y, _read in ticks])
            for y, read in self._every(_LEAST_PX, asked, from_heel=from_heel):
                if self._under_flag(y) or not _FLAG_HALF_PX <= y <= self.height() - _FLAG_HALF_PX:
                    continue  # a figure stands whole or not at all
                self._mark(painter, y, read, from_heel=from_heel)
        self._flag(painter)
        painter.end()

    def _mark(self, painter: QPainter, y: float, read: int, *, from_heel: bool) -> None:
        colours, middle = self.theme.colours, self.width() / 2
        edge = self.width() - 1.0 if from_heel else 1.0
        painter.setPen(QPen(colours["tape_ink"], 1))
        painter.drawLine(QPointF(edge, y), QPointF(edge + (-8 if from_heel else 8), y))
        box = QRectF(middle + 2, y - 8, middle - 12, 16) if from_heel else QRectF(10, y - 8, middle - 12, 16)
        ladder = self.ladder
        if read % ladder.flag == 0 and read:
            painter.fillRect(box.adjusted(0, 1, 0, -1), colours["tape_ink"])
            painter.setPen(colours["tape"])
            painter.setFont(font(FIGURE, bold=True))
            painter.drawText(
                box, Qt.AlignmentFlag.AlignCenter, ladder.flag_words.format(n=read // ladder.flag)
            )
            return
        painter.setFont(font(FIGURE))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(read % ladder.flag))

    def _under_flag(self, y: float) -> bool:
        """Tell whether the flag would cut a figure at a row."""
        flag_y = self.span.y_px(self.session.z_mm) if self.span else 0.0
        return abs(y - flag_y) < _FLAG_HALF_PX + _FIGURE_HALF_PX

    def _flag(self, painter: QPainter) -> None:
        if self.span is None:
            return
        y = self.span.y_px(self.session.z_mm)
        box = QRectF(0, y - _FLAG_HALF_PX, self.width(), 2 * _FLAG_HALF_PX)
        colours = self.theme.colours
        painter.fillRect(box, colours["accent"])
        painter.setPen(colours["on_accent"])
        painter.setFont(font(BODY if self.session.units == "metric" else FIGURE, bold=True))
        length = self.session.desk.scene.skin.length_mm
        read = reading(height_mm(length, self.session.z_mm), length, self.session.units)
        texts = [tape_text(read, number) for number in (read.masthead, read.heel)]
        half = box.width() / 2
        for i, text in enumerate(texts):
            side = QRectF(box.left() + i * half, box.top(), half, box.height())
            painter.drawText(side, Qt.AlignmentFlag.AlignCenter, text)
