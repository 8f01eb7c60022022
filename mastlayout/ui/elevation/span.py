"""Which part of the mast the elevation shows, and how millimetres become pixels; the same both ways."""

from dataclasses import replace

from mastlayout.frozen import dataclass
from mastlayout.ui.session import View

LEAST_SCALE, MOST_SCALE = 0.02, 4.0
# Where the mast's axis stands in the room beside the labels: most gear stands forward of it.
AXIS_AT: dict[View, float] = {"starboard": 0.22, "port": 0.78, "ahead": 0.5}
# The column of labels takes the right of the canvas, but never more than this part of it.
LEAST_LABELS_PX, LEAST_WORDS_PX, MOST_LABELS_PART = 180.0, 112.0, 0.41
# Between drawing and labels the leaders bend.
GUTTER_PX = 24.0
_LEAST_ROOM_PX = 120.0
# A picture that nobody zoomed shows 3 m of mast where it is high enough for that.
_SHOWN_MM, _LOW_SCALE, _HIGH_SCALE, _LEAST_FITTED = 3000.0, 0.32, 0.7, 0.12
_BESIDE_PX = 6.0


@dataclass(frozen=True)
class Span:
    """The canvas in pixels, what it is centred on, and its scale in pixels a millimetre.

    ``labels_px`` at the right are kept for labels; ``axis_at`` is the part of the rest, from its
    left, at which the mast's axis stands.
    """

    width_px: float
    height_px: float
    centre_z_mm: float
    scale: float
    labels_px: float = LEAST_LABELS_PX
    axis_at: float = AXIS_AT["starboard"]

    @property
    def room_px(self) -> float:
        """The width of the drawing, beside the labels."""
        return max(self.width_px - self.labels_px, _LEAST_ROOM_PX)

    @property
    def low_z_mm(self) -> float:
        """The lowest height that shows."""
        return self.centre_z_mm - self.height_px / 2 / self.scale

    @property
    def high_z_mm(self) -> float:
        """The highest height that shows."""
        return self.centre_z_mm + self.height_px / 2 / self.scale

    @property
    def left_mm(self) -> float:
        """The drawing's right-hand coordinate at the canvas's left edge."""
        return -self.room_px * self.axis_at / self.scale

    def y_px(self, z_mm: float) -> float:
        """Return the pixel row, from the top, of a height."""
        return (self.high_z_mm - z_mm) * self.scale

    def x_px(self, right_mm: float) -> float:
        """Return the pixel column of a place to the right of the axis."""
        return (right_mm - self.left_mm) * self.scale

    def z_mm(self, y_px: float) -> float:
        """Return the height at a pixel row."""
        return self.high_z_mm - y_px / self.scale

    def right_mm(self, x_px: float) -> float:
        """Return the drawing's right-hand coordinate at a pixel column."""
        return self.left_mm + x_px / self.scale

    def zoomed(self, factor: float, about_y_px: float) -> "Span":
        """Return the span at another scale, the height under a pixel row staying there."""
        scale = min(max(self.scale * factor, LEAST_SCALE), MOST_SCALE)
        z = self.z_mm(about_y_px)
        return replace(self, centre_z_mm=z + (about_y_px - self.height_px / 2) / scale, scale=scale)

    def moved(self, down_px: float) -> "Span":
        """Return the span with its picture pushed down by pixels."""
        return replace(self, centre_z_mm=self.centre_z_mm + down_px / self.scale)

    def fitted(self, left_mm: float, right_mm: float) -> "Span":
        """Return the span at its first scale, 3 m where there is the height for it, and its axis.

        The scale is smaller where what reaches from ``left_mm`` to ``right_mm`` would run under the
        labels; the axis moves to let both sides in.
        """
        wanted = min(max(self.height_px / _SHOWN_MM, _LOW_SCALE), _HIGH_SCALE)
        room_px = self.room_px - GUTTER_PX
        fits = (room_px - 2 * _BESIDE_PX) / max(right_mm - left_mm, 1.0)
        scale = min(wanted, max(fits, _LEAST_FITTED))
        left_px, right_px = _BESIDE_PX - left_mm * scale, room_px - _BESIDE_PX - right_mm * scale
        axis_px = max(min(self.room_px * self.axis_at, right_px), left_px)
        return replace(self, scale=scale, axis_at=axis_px / self.room_px)
