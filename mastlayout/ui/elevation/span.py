"""Which part of the mast the elevation shows, and how millimetres become pixels; the same both ways."""

from dataclasses import dataclass

LEAST_SCALE, MOST_SCALE = 0.02, 4.0
# The column of labels takes the right of the canvas; the mast's axis stands in the rest of it.
LABELS_PX = 250.0
_AXIS_AT = 0.28


@dataclass(frozen=True)
class Span:
    """The canvas in pixels, what it is centred on, and its scale in pixels a millimetre."""

    width_px: float
    height_px: float
    centre_z_mm: float
    scale: float

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
        return -max(self.width_px - LABELS_PX, 120.0) * _AXIS_AT / self.scale

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
        return Span(self.width_px, self.height_px, z + (about_y_px - self.height_px / 2) / scale, scale)

    def moved(self, down_px: float) -> "Span":
        """Return the span with its picture pushed down by pixels."""
        return Span(self.width_px, self.height_px, self.centre_z_mm + down_px / self.scale, self.scale)
