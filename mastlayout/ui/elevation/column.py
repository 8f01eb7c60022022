"""The column of labels under a drag: what stands still in it is painted once."""

from collections.abc import Sequence

from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QWidget

from mastlayout.ui.elevation.labelling import column_box, paint_column, paint_fade, paint_leaders, still
from mastlayout.ui.elevation.labels import Label, Placed
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.look import Colours


class Column:
    """A picture of the column's ground and of all labels on it but that in hand, until one of them moves."""

    def __init__(self, view: QWidget) -> None:
        self._view = view
        self._shows: object = None
        self._picture = QPixmap()

    def paint(
        self,
        painter: QPainter,
        span: Span,
        labels: Sequence[Placed],
        left_out: Sequence[Label],
        colours: Colours,
    ) -> None:
        """Paint all labels as ``paint_labels`` does."""
        ratio, others = self._view.devicePixelRatioF(), still(labels)
        shows = span, others, left_out, colours, ratio
        if shows != self._shows:
            self._shows, self._picture = shows, _picture(span, others, left_out, colours, ratio)
        paint_fade(painter, span, colours)
        painter.drawPixmap(column_box(span).topLeft(), self._picture)
        paint_leaders(painter, span, labels, colours)


def _picture(
    span: Span, labels: Sequence[Placed], left_out: Sequence[Label], colours: Colours, ratio: float
) -> QPixmap:
    column = column_box(span)
    made = QPixmap((column.size() * ratio).toSize())
    made.setDevicePixelRatio(ratio)
    made.fill(colours["ground"])
    painter = QPainter(made)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(-column.topLeft())
    paint_column(painter, span, labels, left_out, colours)
    painter.end()
    return made
