"""The scale bar below the elevation: a round length, true both ways."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from mastlayout.ui.elevation.span import Span
from mastlayout.ui.elevation.tape import LADDERS
from mastlayout.ui.look import GAP, LABEL, THICK, font
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import grouped
from mastlayout.ui.theme import Theme
from mastlayout.units import MM_PER_INCH, Units
from mastlayout.words import _

_TALL_PX, _LEFT_PX, _LINE_Y, _WORDS_GAP = 30, 30.0, 14.0, 10.0
# Round lengths in counts of mm, and how each is written.
_BARS: dict[Units, tuple[float, tuple[int, ...], str]] = {
    "metric": (1.0, (20, 50, 100, 200, 500, 1000, 2000, 5000), _("{length} mm, true both ways")),
    "inches": (12 * MM_PER_INCH, (1, 2, 3, 5, 10, 20), _("{length} ft, true both ways")),
}


class ScaleBar(QWidget):
    """A bar of a round length in the units in force, as long as finds room with its words."""

    def __init__(self, session: Session, theme: Theme) -> None:
        super().__init__()
        self.session, self.theme = session, theme
        self._span: Span | None = None
        self.setFixedHeight(_TALL_PX)
        self.setAccessibleName(_("Scale of the elevation"))
        theme.changed.connect(self.update)
        session.units_changed.connect(self.update)

    def show_span(self, span: Span) -> None:
        """Take the span of the canvas above it."""
        self._span = span
        self.setAccessibleDescription(self.length()[1])
        self.update()

    @property
    def left_px(self) -> float:
        """Where the bar begins."""
        return LADDERS[self.session.units].width_px + GAP + _LEFT_PX

    def length(self) -> tuple[float, str]:
        """Return the bar's length in pixels and its words."""
        mm, lengths, words = _BARS[self.session.units]
        scale = self._span.scale * mm if self._span else mm
        room = (self._span.room_px if self._span else 0.0) - _LEFT_PX
        fits = [length for length in lengths if length * scale <= room] or [lengths[0]]
        return fits[-1] * scale, words.format(length=grouped(fits[-1]))

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._span is None:
            return
        painter = QPainter(self)
        long_px, words = self.length()
        left, right = self.left_px, self.left_px + long_px
        painter.setPen(QPen(self.theme.colours["ink"], THICK))
        painter.drawLine(QPointF(left, _LINE_Y), QPointF(right, _LINE_Y))
        for part in range(6):
            x = left + (right - left) * part / 5
            painter.drawLine(QPointF(x, _LINE_Y), QPointF(x, _LINE_Y - (6 if part in (0, 5) else 3)))
        painter.setFont(font(LABEL))
        painter.setPen(self.theme.colours["second"])
        wide = QFontMetricsF(font(LABEL)).horizontalAdvance(words) + 1
        painter.drawText(QRectF(right + _WORDS_GAP, 2, wide, 24), Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()
