"""The elevation's panel: tape and canvas side by side, a scale bar below; a second view where it is wide."""

from dataclasses import replace

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from mastlayout.ui.elevation.bandkey import BandKey
from mastlayout.ui.elevation.canvas import ElevationCanvas
from mastlayout.ui.elevation.heads import Heads
from mastlayout.ui.elevation.scalebar import ScaleBar
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.elevation.tape import Tape
from mastlayout.ui.look import GAP, MARGIN
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

# From this width on the mast shows from a second side; the first view is never wider than this.
BESIDE_FROM_PX, MOST_PX, LEAST_BESIDE_PX = 1000, 1100, 420


class ElevationPanel(Panel):
    """The mast over the window's whole height, and beside it on the same tape from a second side."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("Elevation"))
        self.canvas, self.tape = ElevationCanvas(session, theme), Tape(session, theme)
        self.bar, self.heads = ScaleBar(session, theme), Heads(theme)
        self.key = BandKey(session, theme)
        self.beside = ElevationCanvas(session, theme, beside=True)
        self._beside_heads = Heads(theme, beside=True)
        self._lay_out()
        for follow in (self.tape.show_span, self.bar.show_span, self._share, self._stand_over):
            self.canvas.span_changed.connect(follow)
            follow(self.canvas.span)
        self.beside.span_changed.connect(self._share_back)
        session.view_changed.connect(self._name_sides)
        session.units_changed.connect(self._stand_over)
        self._name_sides()

    def _lay_out(self) -> None:
        self.body.setContentsMargins(MARGIN, GAP, MARGIN, GAP)
        grid, row = QGridLayout(), QHBoxLayout()
        grid.setSpacing(0)
        grid.setHorizontalSpacing(MARGIN)
        row.setSpacing(GAP)
        row.addWidget(self.tape)
        row.addWidget(self.canvas, 1)
        grid.addWidget(self.heads, 0, 0)
        grid.addLayout(row, 1, 0)
        grid.addWidget(self.bar, 2, 0)
        grid.addWidget(self.key, 3, 0)
        grid.addWidget(self._beside_heads, 0, 1)
        grid.addWidget(self.beside, 1, 1)
        grid.setColumnStretch(0, 1)
        grid.setRowStretch(1, 1)
        self.body.addLayout(grid, 1)
        self._show_beside(0)

    def _show_beside(self, width_px: int) -> None:
        for part in (self.beside, self._beside_heads):
            part.setVisible(width_px >= BESIDE_FROM_PX)
            part.setFixedWidth(max(LEAST_BESIDE_PX, width_px - MOST_PX))

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._show_beside(event.size().width())
        super().resizeEvent(event)

    # -- one tape for both views

    def _share(self, span: Span) -> None:
        other = self.beside.span
        if (other.centre_z_mm, other.scale) != (span.centre_z_mm, span.scale):
            self.beside.show_span(replace(other, centre_z_mm=span.centre_z_mm, scale=span.scale))

    def _share_back(self, span: Span) -> None:
        own = self.canvas.span
        if self.beside.isVisible() and (own.centre_z_mm, own.scale) != (span.centre_z_mm, span.scale):
            self.canvas.show_span(replace(own, centre_z_mm=span.centre_z_mm, scale=span.scale))

    # -- the words over it

    def _name_sides(self, *_changed: object) -> None:
        self.heads.name_sides(self.canvas.view)
        self._beside_heads.name_sides(self.beside.view)

    def _stand_over(self, *_changed: object) -> None:
        self.heads.stand_over(self.tape.ladder.width_px, self.canvas.span.labels_px)
