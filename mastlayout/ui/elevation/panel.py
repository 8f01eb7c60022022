"""The elevation's panel: which way is forward, tape and canvas side by side, a scale bar below."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from mastlayout.ui.elevation.canvas import ElevationCanvas
from mastlayout.ui.elevation.labelling import GUTTER_PX
from mastlayout.ui.elevation.scalebar import ScaleBar
from mastlayout.ui.elevation.tape import Tape
from mastlayout.ui.look import GAP, LABEL, MARGIN, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session, View
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class ElevationPanel(Panel):
    """The mast over the window's whole height."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("Elevation"))
        self.canvas, self.tape, self.bar = (
            ElevationCanvas(session, theme),
            Tape(session, theme),
            ScaleBar(session, theme),
        )
        self._left, self._right, self._numbers = QLabel(), QLabel(), QLabel(_("from masthead"))
        self._edges = (QLabel(_("from\nmasthead")), QLabel(_("from\nheel")))
        self._words = (*self._edges, self._left, self._right, self._numbers)
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
        self.canvas.span_changed.connect(self._stand_over)
        session.units_changed.connect(self._stand_over)
        session.view_changed.connect(self._name_sides)
        self._name_sides(session.view)
        self.tape.show_span(self.canvas.span)
        self.bar.show_span(self.canvas.span)
        self._stand_over()
        self.recolour()
        theme.changed.connect(self.recolour)

    def _heads(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 4)
        row.setSpacing(0)
        for label in self._words:
            label.setFont(font(LABEL))
        for edge, side in zip(
            self._edges, (Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight), strict=True
        ):
            edge.setAlignment(side | Qt.AlignmentFlag.AlignBottom)
            row.addWidget(edge)
        row.addSpacing(GAP)
        row.addWidget(self._left)
        row.addStretch(1)
        row.addWidget(self._right)
        row.addWidget(self._numbers)
        self._numbers.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        return row

    def _stand_over(self, *_changed: object) -> None:
        """Let each head stand over its own: the tape's edges, the drawing, the labels."""
        masthead, heel = self._edges
        heel.setFixedWidth(self.tape.ladder.width_px - masthead.sizeHint().width())
        self._numbers.setFixedWidth(round(self.canvas.span.labels_px + GUTTER_PX))

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
        for label in self._words:
            label.setStyleSheet(style)
