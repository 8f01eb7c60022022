"""Polygons and paths for a painter, made from arrays at once."""

from typing import Any

import numpy as np
from PySide6.QtGui import QPainterPath, QPolygonF
from shiboken6 import VoidPtr

from mastlayout.geometry.frames import Array


def polygon(points: Array) -> QPolygonF:
    """Return a polygon through points (k, 2), in pixels; corner by corner would cost a hundred times more."""
    made = QPolygonF()
    if len(points):
        made.resize(len(points))
        # Address, bytes, writable: the stubs know the address only.
        corners: Any = VoidPtr(made.data(), 2 * 8 * len(points), True)  # type: ignore[call-arg, arg-type]  # noqa: FBT003
        np.frombuffer(corners, dtype=float).reshape(-1, 2)[:] = points
    return made


def path_through(points: Array) -> QPainterPath:
    """Return an open path through points (k, 2)."""
    path = QPainterPath()
    path.addPolygon(polygon(points))
    return path
