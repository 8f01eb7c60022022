"""Polygons for a painter, made from arrays at once."""

import pyqtgraph as pg
from PySide6.QtGui import QPolygonF

from mastlayout.geometry.frames import Array


def polygon(points: Array) -> QPolygonF:
    """Return a polygon through points (k, 2), in pixels; corner by corner would cost a hundred times more."""
    made: QPolygonF = pg.functions.create_qpolygonf(len(points))
    pg.functions.ndarray_from_qpolygonf(made)[:] = points
    return made
