"""How the unrolled skin is painted, back to front."""

from collections.abc import Iterator, Sequence
from typing import Protocol

import numpy as np
from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import turned_offsets
from mastlayout.geometry.placed import Placed
from mastlayout.model.kind import Cutout
from mastlayout.ui.elevation.items import CENTRE, HIDDEN, pen
from mastlayout.ui.look import (
    FIGURE,
    IN_HAND,
    LABEL,
    MARGIN,
    THICK,
    THIN,
    THREAD,
    TYPICAL,
    UNIT,
    VALUE,
    Colours,
    font,
)
from mastlayout.ui.skin.development import Development, Piece
from mastlayout.ui.skin.dimensions import Dimension
from mastlayout.ui.skin.holes import HoleMark, Tag
from mastlayout.ui.skin.patch import Band, OldHoleAt, Patch
from mastlayout.ui.skin.ruler import girth_ticks, height_ticks
from mastlayout.ui.skin.words import lost_words, side_words
from mastlayout.units import Units

_CROSS_PX, _TOOTH_PX, _ROW_PX, _TRACK_WORDS_PX = 5.0, 4.0, 18.0, 18.0
_HATCHED = Qt.BrushStyle.BDiagPattern


class Canvas(Protocol):
    """What painting needs of the canvas."""

    @property
    def development(self) -> Development:
        """How the skin lies on the widget."""

    @property
    def patch(self) -> Patch:
        """What the skin holds."""

    @property
    def units(self) -> Units:
        """The units its numbers are written in."""

    holes: list[HoleMark]
    tags: list[Tag]
    dimensions: list[Dimension]

    def rect(self) -> QRect:
        """Return the widget's rectangle."""


def paint(painter: QPainter, canvas: Canvas, colours: Colours) -> None:
    """Paint all that the canvas shows."""
    made, patch = canvas.development, canvas.patch
    for piece in made.pieces():
        painter.fillRect(piece.clip, colours["mast"])
    painter.save()
    for turned in made.turns():
        painter.setClipRect(turned.clip)
        _on_piece(painter, turned, made, patch, colours)
    painter.restore()
    _ends(painter, made, patch, colours)
    painter.setPen(QPen(colours["accent"], THREAD))
    y = made.y_px(patch.z_mm)
    painter.drawLine(QPointF(made.area.left() - 8, y), QPointF(made.area.right(), y))
    for mark in canvas.holes:
        _hole(painter, mark, colours, in_hand=mark.placed is patch.hand)
    _old_holes(painter, patch.old_holes, made, colours)
    _breaks(painter, made, colours)
    _dimensions(painter, canvas.dimensions, colours)
    _tags(painter, canvas.tags, colours)
    _rulers(painter, canvas, colours)
    _foot_words(painter, canvas, colours)


def _ends(painter: QPainter, made: Development, patch: Patch, colours: Colours) -> None:
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


def _on_piece(painter: QPainter, piece: Piece, made: Development, patch: Patch, colours: Colours) -> None:
    for band in patch.bands:
        _band(painter, piece, made, band, colours)
    _lines(painter, piece, made, patch, colours)
    for placed in patch.feet:
        _foot(painter, piece, made, placed, colours, in_hand=placed is patch.hand)


def band_shape(piece: Piece, made: Development, band: Band) -> QPolygonF:
    """Return the corners of a band: low edge, then high edge."""
    (low, g1, g2), (high, h1, h2) = sorted(band.ends)
    return made.polygon(piece, np.array([(g1, low), (g2, low), (h2, high), (h1, high)]), g1)


def _band(painter: QPainter, piece: Piece, made: Development, band: Band, colours: Colours) -> None:
    shape = band_shape(piece, made, band)
    tint = QColor(colours["cable"])
    tint.setAlphaF(0.14)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tint)
    painter.drawPolygon(shape)
    painter.setPen(pen(colours["second"], THIN, HIDDEN))
    painter.drawLine(shape.at(0), shape.at(3))
    painter.drawLine(shape.at(1), shape.at(2))


def _lines(painter: QPainter, piece: Piece, made: Development, patch: Patch, colours: Colours) -> None:
    """Paint the forward centreline, and the track with its edges."""
    clip, half = piece.clip, made.half_girth_mm
    forward = 0.0 if made.middle == "forward" else half
    x = piece.zero_x + forward * made.scale
    painter.setPen(pen(colours["second"], THIN, CENTRE))
    painter.drawLine(QPointF(x, clip.top()), QPointF(x, clip.bottom()))
    if not patch.track_here:
        return
    track = piece.zero_x + (forward - half) * made.scale
    wide = made.half_track_mm * made.scale
    box = QRectF(track - wide, clip.top(), 2 * wide, clip.height())
    painter.fillRect(box, colours["shade"])
    painter.fillRect(box, QBrush(colours["edge"], _HATCHED))
    painter.setPen(QPen(colours["ink"], THICK))
    painter.drawLine(box.topLeft(), box.bottomLeft())
    painter.drawLine(box.topRight(), box.bottomRight())


def _foot(
    painter: QPainter, piece: Piece, made: Development, placed: Placed, colours: Colours, *, in_hand: bool
) -> None:
    if placed.outline is None:
        return
    around = float(placed.places.around[0])
    shape = made.polygon(piece, placed.outline, around)
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


def _hole(painter: QPainter, mark: HoleMark, colours: Colours, *, in_hand: bool) -> None:
    if mark.opening.use == "cutout":
        return
    if mark.opening.use == "entry":
        painter.setPen(QPen(colours["cable"], IN_HAND))
        painter.setBrush(colours["ground"])
        painter.drawEllipse(mark.centre, mark.radius, mark.radius)
        return
    ink = colours["ink"]
    painter.setPen(QPen(ink, THREAD) if mark.sized else pen(ink, THIN, HIDDEN))
    painter.setBrush(colours["ground"])
    painter.drawEllipse(mark.centre, mark.radius, mark.radius)
    painter.setPen(QPen(colours["accent"] if in_hand else ink, THIN))
    _cross(painter, mark.centre, mark.radius + _CROSS_PX)


def _cross(painter: QPainter, at: QPointF, reach: float) -> None:
    painter.drawLine(at - QPointF(reach, 0), at + QPointF(reach, 0))
    painter.drawLine(at - QPointF(0, reach), at + QPointF(0, reach))


def _old_holes(painter: QPainter, holes: Sequence[OldHoleAt], made: Development, colours: Colours) -> None:
    painter.setBrush(colours["second"])
    for hole in holes:
        at = made.at(hole.girth_mm, hole.z_mm)
        if at is not None:
            radius = max((hole.diameter_mm or 0.0) * made.scale, _CROSS_PX) / 2
            painter.setPen(QPen(colours["second"], THIN))
            painter.drawEllipse(at, radius, radius)


def _breaks(painter: QPainter, made: Development, colours: Colours) -> None:
    painter.setPen(QPen(colours["ink"], THIN))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for gap in made.breaks():
        painter.fillRect(gap, colours["ground"])
        for x in (gap.left(), gap.right()):
            painter.drawPolyline(QPolygonF(list(_zigzag(x, gap.top(), gap.bottom()))))


def _zigzag(x: float, top: float, bottom: float) -> Iterator[QPointF]:
    for n in range(int((bottom - top) / (2 * _TOOTH_PX)) + 1):
        yield QPointF(x + (_TOOTH_PX / 2 if n % 2 else -_TOOTH_PX / 2), top + 2 * _TOOTH_PX * n)


def _dimensions(painter: QPainter, lines: Sequence[Dimension], colours: Colours) -> None:
    for line in lines:
        painter.setPen(QPen(colours["ink"], THIN))
        painter.drawLine(line.start, line.end)
        for end in (line.start, line.end):
            painter.drawLine(end + QPointF(-4, 4), end + QPointF(4, -4))
            painter.drawLine(end - QPointF(0, 6), end + QPointF(0, 6))
    painter.setFont(font(VALUE, bold=True))
    for line in lines:
        painter.fillRect(line.box, colours["mast"])
        painter.setPen(colours["ink"])
        painter.drawText(line.box, Qt.AlignmentFlag.AlignCenter, line.words)


def _tags(painter: QPainter, tags: Sequence[Tag], colours: Colours) -> None:
    for tag in tags:
        painter.setFont(font(LABEL, bold=tag.bold))
        painter.fillRect(tag.box, colours["mast"])
        painter.setPen(colours[tag.role])
        painter.drawText(tag.box, Qt.AlignmentFlag.AlignCenter, tag.words)


def _rulers(painter: QPainter, canvas: Canvas, colours: Colours) -> None:
    made, patch, units = canvas.development, canvas.patch, canvas.units
    area = made.area
    painter.setFont(font(FIGURE))
    for tick in girth_ticks(made, units, track=patch.track_here):
        long = 7.0 if tick.words else 4.0
        painter.setPen(QPen(colours["ink"], THIN))
        painter.drawLine(QPointF(tick.at, area.top()), QPointF(tick.at, area.top() - long))
        painter.setPen(colours["second"])
        # The words of the last tick stay on the widget.
        middle = min(tick.at, canvas.rect().width() - _TRACK_WORDS_PX)
        box = QRectF(middle - 30, area.top() - 24, 60, 16)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tick.words)
    for tick in height_ticks(made, patch.skin, units):
        long = 7.0 if tick.words else 4.0
        painter.setPen(QPen(colours["ink"], THIN))
        painter.drawLine(QPointF(area.left() - 2, tick.at), QPointF(area.left() - 2 - long, tick.at))
        painter.setPen(colours["second"])
        box = QRectF(0, tick.at - 8, area.left() - 12, 16)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, tick.words)


def _foot_words(painter: QPainter, canvas: Canvas, colours: Colours) -> None:
    """Paint which side is which below the skin, then what lies behind nobody knows where."""
    area = canvas.development.area
    row = QRectF(area.left(), area.bottom() + UNIT, area.width(), _ROW_PX)
    sides = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignHCenter, Qt.AlignmentFlag.AlignRight
    painter.setFont(font(LABEL, bold=True))
    painter.setPen(colours["ink"])
    for words, side in zip(side_words(canvas.patch), sides, strict=True):
        painter.drawText(row, side | Qt.AlignmentFlag.AlignVCenter, words)
    painter.setFont(font(LABEL))
    painter.setPen(colours["unknown"])
    rest = QRectF(canvas.rect()).adjusted(MARGIN, 0, -MARGIN, -UNIT)
    rest.setTop(row.bottom())
    painter.drawText(rest, Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft, lost_words(canvas.patch))
