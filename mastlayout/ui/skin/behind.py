"""What runs behind the skin painted: conduits and halyards as bands, a conduit's slots."""

import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from mastlayout.ui.look import IN_HAND, THIN, THREAD, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.skin.development import Development, Piece
from mastlayout.ui.skin.patch import Band, Patch, SlotAt

# A conduit may hold cables, so it is blue as they are; a rope is grey.
_ROLES = {"conduit": "cable", "halyard": "second"}
_TINT = 0.14


def band_shape(piece: Piece, made: Development, band: Band) -> QPolygonF:
    """Return the outline of a band: down one edge and up the other."""
    ends = np.array(band.ends)
    down, up = ends[:, [1, 0]], ends[::-1][:, [2, 0]]
    return made.polygon(piece, np.concatenate([down, up]), float(ends[0, 1]))


def paint_behind(
    painter: QPainter, piece: Piece, made: Development, patch: Patch, hand: str, colours: Colours
) -> None:
    """Paint what a piece of the skin hides; what is in hand in its colour."""
    for band in patch.bands:
        shape = band_shape(piece, made, band)
        if shape.boundingRect().intersects(piece.clip):
            _band(painter, shape, colours, _ROLES[band.kind], held=band.id == hand)
    for slot in patch.slots:
        # What is still to be cut is an outline, as a hole is that nobody drilled.
        painter.setPen(pen(colours["ink"], THREAD, HIDDEN) if slot.new else QPen(colours["ink"], THREAD))
        painter.setBrush(Qt.BrushStyle.NoBrush if slot.new else colours["hole"])
        painter.drawPolygon(slot_shape(piece, made, slot))


def _band(painter: QPainter, shape: QPolygonF, colours: Colours, role: str, *, held: bool) -> None:
    tint = QColor(colours["accent" if held else role])
    tint.setAlphaF(_TINT)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tint)
    # A tint needs no smooth edge: its lines have one, and this takes a tenth of the time.
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own call
    painter.drawPolygon(shape)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colours["accent" if held else "second"], IN_HAND if held else THIN, HIDDEN))
    half = shape.size() // 2
    corners = [shape.at(i) for i in range(shape.size())]
    painter.drawPolyline(QPolygonF(corners[:half]))
    painter.drawPolyline(QPolygonF(corners[half:]))


def slot_shape(piece: Piece, made: Development, slot: SlotAt) -> QPolygonF:
    """Return a slot as a narrow opening in the middle of its band."""
    one, other = slot.girths
    middle, wide = (one + other) / 2, abs(other - one) / 8
    sides = ((-1, slot.low_mm), (1, slot.low_mm), (1, slot.high_mm), (-1, slot.high_mm))
    return made.polygon(piece, np.array([(middle + side * wide, z) for side, z in sides]), middle)
