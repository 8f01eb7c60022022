"""The gesture that drags the frame of what the elevation shows along the strip."""

from PySide6.QtCore import QPointF

from mastlayout.ui.strip.scale import Scale


class DragFrame:
    """One drag: the frame's centre follows the hand; a cancelled one goes back to ``start_z_mm``."""

    def __init__(self, scale: Scale, at: QPointF, start_z_mm: float, centre_z_mm: float) -> None:
        self._scale, self.start_z_mm = scale, start_z_mm
        # The hand holds the frame where it took it.
        self._held_mm = scale.z_mm(at.y()) - centre_z_mm

    def centre_at(self, at: QPointF) -> float:
        """Return the frame's centre, z in mm, with the hand at a pixel."""
        return self._scale.z_mm(at.y()) - self._held_mm
