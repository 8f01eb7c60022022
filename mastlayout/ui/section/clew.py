"""What clew and sheets sweep, painted where a finding of it is looked at."""

import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainter

from mastlayout.checks.clewed import SweptClew
from mastlayout.geometry.frames import Array
from mastlayout.ui.look import CLOTH_EDGE, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.polygon import polygon
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.sails import pixels
from mastlayout.words import _

# Words stand over the dots.
_DOTS = 0.45


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
        dots = colours["caution"]
        dots.setAlphaF(_DOTS)
        painter.setBrush(QBrush(dots, Qt.BrushStyle.Dense7Pattern))
        painter.setPen(pen(colours["caution"], CLOTH_EDGE, HIDDEN))
        painter.drawPolygon(polygon(pixels(made.plan, outline)))
