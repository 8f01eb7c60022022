"""What clew and sheets sweep, painted where a finding of it is looked at."""

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from mastlayout.checks.clewed import SweptClew
from mastlayout.geometry.frames import Array
from mastlayout.ui.look import CLOTH_EDGE, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.polygon import polygon
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.sails import pixels
from mastlayout.words import _

# Words stand over the dots.
_DOTS, _PITCH_PX = 0.6, 6


def outline_at(clew: SweptClew, z_mm: float) -> Array:
    """Return the outline (k, 2) of what it sweeps at a height, ahead and to port; empty where it is not."""
    outline = clew.swept.slice_at(z_mm)
    if not clew.slack_mm or not len(outline):
        return outline
    import shapely  # noqa: PLC0415 - 20 ms at the first that is drawn

    return np.asarray(shapely.get_coordinates(shapely.buffer(shapely.polygons(outline), clew.slack_mm)))


def clew_words(clew: SweptClew | None) -> str:
    """Say whose clew or sheet is drawn: "Dotted: in reach of Genoa, full, clew"."""
    if clew is None:
        return ""
    return _("Dotted: in reach of {sail}, {state}").format(sail=clew.sail.name, state=clew.state)


def paint_clew(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint what clew or sheet sweeps at the height: dotted, its edge a heavy broken line."""
    if made.clew is None:
        return
    outline = outline_at(made.clew, made.cut.z_mm)
    if len(outline):
        edge = polygon(pixels(made.plan, outline))
        _dotted(painter, edge, colours["caution"])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen(colours["caution"], CLOTH_EDGE, HIDDEN))
        painter.drawPolygon(edge)


def _dotted(painter: QPainter, edge: QPolygonF, colour: QColor) -> None:
    """Fill with dots, each drawn: a brush of dots would be a picture in an SVG."""
    box = edge.boundingRect().intersected(painter.viewport().toRectF())
    dots = [
        QPointF(box.left() + x + (y // _PITCH_PX % 2) * _PITCH_PX / 2, box.top() + y)
        for y in range(0, int(box.height()) + 1, _PITCH_PX)
        for x in range(0, int(box.width()) + 1, _PITCH_PX)
    ]
    inside = QPainterPath()
    inside.addPolygon(edge)
    painter.save()
    painter.setClipPath(inside, Qt.ClipOperation.IntersectClip)
    faint = QColor(colour)
    faint.setAlphaF(_DOTS)
    painter.setPen(QPen(faint, 1.5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    painter.drawPoints(dots)
    painter.restore()
