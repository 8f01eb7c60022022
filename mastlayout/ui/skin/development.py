"""The skin unrolled on the widget: girth across, height up, the same scale both ways.

Where the width is short the middle and the line opposite it keep their scale, and the rest is cut out.
"""

from functools import cached_property
from typing import Literal

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPolygonF

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.ui.polygon import polygon

Middle = Literal["forward", "aft"]
FULL_FROM_PX = 700.0
SHOWN_GIRTH_MM, _EDGE_MM, MOST_SCALE, CLOSE_SCALE = 256.0, 14.0, 3.0, 8.0
_BREAK_PX = 18.0


@dataclass(frozen=True)
class Piece:
    """A part of the skin that shows: a clip in pixels, and the pixel of an offset of 0 in its own count."""

    clip: QRectF
    zero_x: float


@dataclass(frozen=True)
class Development:
    """The unrolled skin in a rectangle of pixels.

    Offsets count along the girth from the line in the middle, positive to the right as seen from
    outside with the masthead up, and run to plus or minus half the girth. Close up, the offset of
    ``close_to_mm`` stands in the middle, and the rest is out of the picture.
    """

    area: QRectF
    middle: Middle
    half_girth_mm: float
    half_track_mm: float
    centre_z_mm: float
    scale: float
    close_to_mm: float | None = None

    @property
    def whole(self) -> bool:
        """Tell whether the whole girth shows."""
        return 2 * self.half_girth_mm * self.scale <= self.area.width() + 0.5

    @property
    def low_z_mm(self) -> float:
        """The lowest height that shows."""
        return self.centre_z_mm - self.area.height() / 2 / self.scale

    @property
    def high_z_mm(self) -> float:
        """The highest height that shows."""
        return self.centre_z_mm + self.area.height() / 2 / self.scale

    @property
    def edge_px(self) -> float:
        """How wide the strip at each side is, from the line opposite the middle inward."""
        return (self.half_track_mm + _EDGE_MM) * self.scale

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """What shows, from left to right: one piece, or a strip, the middle and a strip."""
        area, half = self.area, self.half_girth_mm * self.scale
        x = area.center().x()
        if self.close_to_mm is not None:
            return (Piece(area, x - self.close_to_mm * self.scale),)
        if self.whole:
            return (Piece(QRectF(x - half, area.top(), 2 * half, area.height()), x),)
        cut = self.edge_px + _BREAK_PX
        left = QRectF(area.left(), area.top(), self.edge_px, area.height())
        right = QRectF(area.right() - self.edge_px, area.top(), self.edge_px, area.height())
        return (
            Piece(left, area.left() + half),
            Piece(area.adjusted(cut, 0, -cut, 0), x),
            Piece(right, area.right() - half),
        )

    @cached_property
    def turns(self) -> tuple[Piece, ...]:
        """The pieces, each also turned once round either way: what lies over its ends."""
        round_px = 2 * self.half_girth_mm * self.scale
        return tuple(
            Piece(piece.clip, piece.zero_x + turn * round_px) for piece in self.pieces for turn in (-1, 0, 1)
        )

    def polygon(self, piece: Piece, points: Array, around_mm: float) -> QPolygonF:
        """Return points (k, 2), girth and z, round one place, in one piece even over the far line."""
        zero = piece.zero_x + (self.offset_mm(around_mm) - around_mm) * self.scale
        level = self.y_px(0.0)
        return polygon(points * (self.scale, -self.scale) + (zero, level))

    @cached_property
    def breaks(self) -> tuple[QRectF, ...]:
        """The gaps where skin is cut out."""
        if len(self.pieces) == 1:
            return ()
        left, _middle, right = self.pieces
        gap = QRectF(0, self.area.top(), _BREAK_PX, self.area.height())
        return gap.translated(left.clip.right(), 0), gap.translated(right.clip.left() - _BREAK_PX, 0)

    def offset_mm(self, girth_mm: float) -> float:
        """Return the offset of a girth (0 at the middle of the track, positive to starboard)."""
        from_middle = girth_mm - (self.half_girth_mm if self.middle == "forward" else 0.0)
        half = self.half_girth_mm
        return (from_middle + half) % (2 * half) - half

    def x_px(self, offset_mm: float) -> float | None:
        """Return the pixel column of an offset; None where that part of the skin is cut out."""
        for piece in self.pieces:
            x = piece.zero_x + offset_mm * self.scale
            if piece.clip.left() - 0.5 <= x <= piece.clip.right() + 0.5:
                return x
        return None

    def y_px(self, z_mm: float) -> float:
        """Return the pixel row of a height."""
        return self.area.center().y() + (self.centre_z_mm - z_mm) * self.scale

    def shows(self, at: QPointF) -> bool:
        """Tell whether a pixel is on the skin that shows."""
        return self.area.contains(at)

    def at(self, girth_mm: float, z_mm: float) -> QPointF | None:
        """Return the pixel of a place on the skin; None where that part is cut out."""
        x = self.x_px(self.offset_mm(girth_mm))
        return None if x is None else QPointF(x, self.y_px(z_mm))


def scale_for(
    area: QRectF, half_girth_mm: float, half_track_mm: float, reach_mm: float, tall_mm: float, *, full: bool
) -> float:
    """Return the scale at which an offset of ``reach_mm`` and ``tall_mm`` of height show."""
    tall = area.height() / tall_mm
    whole = area.width() / (2 * half_girth_mm)
    if full:
        return min(whole, tall, MOST_SCALE)
    broken = (area.width() - 2 * _BREAK_PX) / (2 * (reach_mm + half_track_mm + _EDGE_MM))
    return min(max(broken, whole), tall, MOST_SCALE)


def close_scale(area: QRectF, wide_mm: float, tall_mm: float) -> float:
    """Return the scale at which a single foot fills an area."""
    return min(area.width() / wide_mm, area.height() / tall_mm, CLOSE_SCALE)
