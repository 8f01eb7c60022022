"""Feet on the skin painted, with their slots and windows."""

import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainter, QPen

from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import turned_offsets
from mastlayout.geometry.placed import Placed
from mastlayout.model.kind import Cutout
from mastlayout.ui.look import IN_HAND, THICK, THIN, TYPICAL, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.skin.development import Development, Piece

_HATCHED = Qt.BrushStyle.BDiagPattern


def paint_foot(
    painter: QPainter, piece: Piece, made: Development, placed: Placed, colours: Colours, *, in_hand: bool
) -> None:
    """Paint a foot where a piece of the skin holds it; one nobody has confirmed hatched in violet."""
    if placed.outline is None:
        return
    around = float(placed.places.around[0])
    shape = made.polygon(piece, placed.outline, around)
    if not shape.boundingRect().intersects(piece.clip):
        return
    if placed.foot_known:
        painter.setPen(QPen(colours["accent" if in_hand else "ink"], IN_HAND if in_hand else THICK))
        painter.setBrush(colours["chosen" if in_hand else "foot"])
        painter.drawPolygon(shape)
    else:
        painter.setPen(pen(colours["accent" if in_hand else "unknown"], TYPICAL, HIDDEN))
        painter.setBrush(colours["chosen" if in_hand else "ground"])
        painter.drawPolygon(shape)
        painter.setBrush(QBrush(colours["unknown"], _HATCHED))
        painter.setOpacity(0.45)
        painter.drawPolygon(shape)
        painter.setOpacity(1.0)
    if placed.holes is not None and placed.foot is not None:
        painter.setPen(QPen(colours["ink"], THIN))
        painter.setBrush(colours["hole"])
        for cutout in placed.foot.cutouts:
            painter.drawPolygon(made.polygon(piece, _cutout(placed, cutout), around))


def _cutout(placed: Placed, cut: Cutout) -> Array:
    sides = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    corners = [(cut.across_mm + a * cut.width_mm / 2, cut.along_mm + b * cut.length_mm / 2) for a, b in sides]
    across, along = turned_offsets(np.array(corners), placed.places.turn_deg)
    return np.stack([placed.places.around[0] + across[0], placed.z_mm + along[0]], axis=-1)
