"""The elevation's panel: which way is forward, tape and canvas side by side, a scale bar below."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from mastlayout.ui.elevation.canvas import ElevationCanvas
from mastlayout.ui.elevation.span import LABELS_PX, Span
from mastlayout.ui.elevation.tape import WIDTH_PX, Tape
from mastlayout.ui.look import GAP, LABEL, MARGIN, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session, View
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_BAR_PX = 34
_BARS_MM = (50, 100, 200, 500, 1000, 2000, 5000)


class ElevationPanel(Panel):
    """The mast over the window's whole height."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("Elevation"))
        self.canvas, self.tape, self.bar = (
            ElevationCanvas(session, theme),
            Tape(session, theme),
            _ScaleBar(theme),
        )
        self._left, self._right, self._numbers = QLabel(), QLabel(), QLabel(_("from masthead"))
        self.body.setContentsMargins(MARGIN, GAP, MARGIN, GAP)
        self.body.addLayout(self._heads())
        row = QHBoxLayout()
        row.setSpacing(GAP)
        row.addWidget(self.tape)
        row.addWidget(self.canvas, 1)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.bar)
        self.canvas.span_changed.connect(self.tape.show_span)
        self.canvas.span_changed.connect(self.bar.show_span)
        session.view_changed.connect(self._name_sides)
        self._name_sides(session.view)
        self.tape.show_span(self.canvas.span)
        self.bar.show_span(self.canvas.span)
        self.recolour()
        theme.changed.connect(self.recolour)

    def _heads(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 4)
        edges = QLabel(_("masthead   heel"))
        edges.setFixedWidth(WIDTH_PX + GAP)
        self._edges = edges
        for label in (edges, self._left, self._right, self._numbers):
            label.setFont(font(LABEL))
        row.addWidget(edges)
        row.addWidget(self._left)
        row.addStretch(1)
        row.addWidget(self._right)
        row.addStretch(2)
        row.addWidget(self._numbers)
        return row

    def _name_sides(self, view: View) -> None:
        words = {
            "starboard": (_("← aft"), _("forward →")),
            "port": (_("← forward"), _("aft →")),
            "ahead": (_("← STARBOARD"), _("PORT →")),
        }[view]
        self._left.setText(words[0])
        self._right.setText(words[1])

    def recolour(self) -> None:
        """Take the colours in force for the small words."""
        style = f"color: #{self.theme.colours.second}"
        for label in (self._edges, self._left, self._right, self._numbers):
            label.setStyleSheet(style)


class _ScaleBar(QWidget):
    """A bar of a round length, true both ways."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self._span: Span | None = None
        self.setFixedHeight(_BAR_PX)
        theme.changed.connect(self.update)

    def show_span(self, span: Span) -> None:
        """Take the span of the canvas above it."""
        self._span = span
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._span is None:
            return
        painter = QPainter(self)
        room = self._span.width_px - LABELS_PX - 140
        fits = [mm for mm in _BARS_MM if mm * self._span.scale <= max(room, 40)]
        long_mm = fits[-1] if fits else _BARS_MM[0]
        left, y = WIDTH_PX + GAP + 30.0, 14.0
        right = left + long_mm * self._span.scale
        painter.setPen(QPen(self.theme.colours["ink"], 2))
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        for part in range(6):
            x = left + (right - left) * part / 5
            painter.drawLine(QPointF(x, y), QPointF(x, y - (6 if part in (0, 5) else 3)))
        painter.setFont(font(LABEL))
        painter.setPen(self.theme.colours["second"])
        words = _("{length} mm, true both ways").format(length=long_mm)
        painter.drawText(QRectF(right + 10, 2, 200, 24), Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()
