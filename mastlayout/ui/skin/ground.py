"""The skin itself painted: metal, lines, track, hollows and zones, and where it is cut out or ends."""

from collections.abc import Iterator

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen, QPolygonF

from mastlayout.geometry.frames import height_mm
from mastlayout.ui.look import THICK, THIN, Colours
from mastlayout.ui.pens import CENTRE, HIDDEN, pen
from mastlayout.ui.skin.development import Development, Piece
from mastlayout.ui.skin.patch import Patch

_TOOTH_PX, _ZONE_PX = 4.0, 3.0
_HATCHED = Qt.BrushStyle.BDiagPattern


def paint_lines(painter: QPainter, piece: Piece, made: Development, patch: Patch, colours: Colours) -> None:
    """Paint the forward centreline, and the track with its edges."""
    clip, half = piece.clip, made.half_girth_mm
    forward = 0.0 if made.middle == "forward" else half
    x = piece.zero_x + forward * made.scale
    painter.setPen(pen(colours["second"], THIN, CENTRE))
    if clip.left() - THICK <= x <= clip.right() + THICK:  # of a piece turned round, most is out of sight
        painter.drawLine(QPointF(x, clip.top()), QPointF(x, clip.bottom()))
    if not patch.track_here:
        return
    track = piece.zero_x + (forward - half) * made.scale
    wide = made.half_track_mm * made.scale
    box = QRectF(track - wide, clip.top(), 2 * wide, clip.height())
    if not box.adjusted(-THICK, 0, THICK, 0).intersects(clip):
        return
    painter.fillRect(box, colours["shade"])
    painter.fillRect(box, QBrush(colours["edge"], _HATCHED))
    painter.setPen(QPen(colours["ink"], THICK))
    painter.drawLine(box.topLeft(), box.bottomLeft())
    painter.drawLine(box.topRight(), box.bottomRight())


def paint_zones(painter: QPainter, piece: Piece, made: Development, patch: Patch, colours: Colours) -> None:
    """Paint where sleeves, pitted and wedge zones begin and end, a weld along its girth, and hollows."""
    clip, skin = piece.clip, patch.skin
    painter.setPen(pen(colours["second"], THIN, HIDDEN))
    for zone in patch.zones:
        top, bottom = (
            made.y_px(height_mm(skin.length_mm, reading)) for reading in (zone.from_masthead_mm, zone.to_mm)
        )
        if zone.girth is None:
            for y in (top, bottom):
                painter.drawLine(QPointF(clip.left(), y), QPointF(clip.right(), y))
        else:
            x = piece.zero_x + made.offset_mm(skin.girth_of(zone.girth, patch.z_mm)) * made.scale
            box = QRectF(x - _ZONE_PX, top, 2 * _ZONE_PX, bottom - top).intersected(clip)
            painter.fillRect(box, QBrush(colours["second"], Qt.BrushStyle.Dense5Pattern))
    for low, high in skin.hollow:
        for one, other in ((low, high), (-high, -low)):
            x = piece.zero_x + made.offset_mm(float(one)) * made.scale
            hollow = QRectF(x, clip.top(), float(other - one) * made.scale, clip.height())
            painter.fillRect(hollow, QBrush(colours["unknown"], Qt.BrushStyle.FDiagPattern))


def paint_ends(painter: QPainter, made: Development, patch: Patch, colours: Colours) -> None:
    """Take away what is above the masthead and below the heel."""
    area = made.area
    top, bottom = made.y_px(patch.skin.length_mm), made.y_px(0.0)
    painter.setPen(QPen(colours["ink"], THICK))
    for y, beyond in (
        (top, QRectF(area.left(), area.top(), area.width(), top - area.top())),
        (bottom, QRectF(area.left(), bottom, area.width(), area.bottom() - bottom)),
    ):
        if beyond.height() > 0:
            painter.fillRect(beyond.adjusted(-1, -1, 1, 1), colours["ground"])
            painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))


def paint_breaks(painter: QPainter, made: Development, colours: Colours) -> None:
    """Paint the gaps where skin is cut out, with their break lines."""
    painter.setPen(QPen(colours["ink"], THIN))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for gap in made.breaks:
        painter.fillRect(gap, colours["ground"])
        for x in (gap.left(), gap.right()):
            painter.drawPolyline(QPolygonF(list(_zigzag(x, gap.top(), gap.bottom()))))


def _zigzag(x: float, top: float, bottom: float) -> Iterator[QPointF]:
    for n in range(int((bottom - top) / (2 * _TOOTH_PX)) + 1):
        yield QPointF(x + (_TOOTH_PX / 2 if n % 2 else -_TOOTH_PX / 2), top + 2 * _TOOTH_PX * n)
