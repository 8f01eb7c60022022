"""The line on the elevation that a thing snapped to."""

from collections.abc import Iterator, Mapping

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF

from mastlayout.geometry.frames import height_mm
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.moving.guide import Guide
from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import WayName
from mastlayout.ui.session import Session, View

_CROSS_PX = 60.0


def snap_guides(
    session: Session, view: View, snaps: Mapping[WayName, Target], span: Span, area: QRectF
) -> Iterator[Guide]:
    """Yield a level line right across for a height, a short cross for a place on a spreader or a stay."""
    placed = session.desk.scene.placed.get(session.hand)
    for name, target in snaps.items():
        if placed is not None and (placed.skin is None or name == "round"):
            right, up = AXES[view] @ np.asarray(placed.seats.origin[0])
            x, y = span.x_px(float(right)), span.y_px(float(up))
            yield Guide(QLineF(x, y - _CROSS_PX, x, y + _CROSS_PX), target.words)
        else:
            y = span.y_px(height_mm(session.desk.scene.skin.length_mm, target.value))
            yield Guide(QLineF(QPointF(area.left(), y), QPointF(area.right(), y)), target.words)
