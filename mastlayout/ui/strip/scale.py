"""How the strip turns millimetres into pixels: the whole rig over the whole height, true both ways."""

import numpy as np
from PySide6.QtGui import QTransform

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, boat_to_mast
from mastlayout.geometry.scene import Scene

_TOP_PX, _BOTTOM_PX = 12.0, 26.0
# A line of the boat is drawn farther out than any strip is wide.
_FAR_MM = 60000.0


@dataclass(frozen=True)
class Scale:
    """The widget in pixels and the heights, z in mm, that its whole height shows."""

    width_px: float
    height_px: float
    low_z_mm: float
    high_z_mm: float

    @property
    def px_per_mm(self) -> float:
        """The scale."""
        room = max(self.height_px - _TOP_PX - _BOTTOM_PX, 1.0)
        return room / (self.high_z_mm - self.low_z_mm)

    def y_px(self, z_mm: float) -> float:
        """Return the pixel row, from the top, of a height."""
        return _TOP_PX + (self.high_z_mm - z_mm) * self.px_per_mm

    def z_mm(self, y_px: float) -> float:
        """Return the height at a pixel row."""
        return self.high_z_mm - (y_px - _TOP_PX) / self.px_per_mm

    def x_px(self, right_mm: float) -> float:
        """Return the pixel column of a place to the right of the mast's axis."""
        return self.width_px / 2 + right_mm * self.px_per_mm

    @property
    def transform(self) -> QTransform:
        """The same as a painter's transform: right and up in mm to pixels."""
        scale = self.px_per_mm
        return QTransform(scale, 0, 0, -scale, self.x_px(0.0), self.y_px(0.0))


def level(scene: Scene, above_heel_mm: float | None) -> Array | None:
    """Return two far ends (2, 3), mast frame, of a level line of the boat fore and aft of the mast.

    ``above_heel_mm`` is plumb, in the boat frame. None where it or the rake is not known.
    """
    rake_deg = scene.layout.mast.rake_deg
    if above_heel_mm is None or rake_deg is None:
        return None
    ends = np.array([[-_FAR_MM, 0.0, above_heel_mm], [_FAR_MM, 0.0, above_heel_mm]])
    return boat_to_mast(ends, rake_deg)


def water(scene: Scene) -> Array | None:
    """Return the line of the water (2, 3); None where it is not known."""
    above_mm = scene.layout.boat.heel_above_water_mm
    return level(scene, None if above_mm is None else -above_mm)


def deck(scene: Scene) -> Array | None:
    """Return the line of the deck beside the mast (2, 3); None where it is not known."""
    return level(scene, scene.layout.boat.deck_above_heel_mm)


def heights(scene: Scene) -> tuple[float, float]:
    """Return the lowest and the highest height, z in mm, of mast, stays, deck and water; gear apart."""
    points = [np.array([[0.0, 0.0, 0.0], [0.0, 0.0, scene.skin.length_mm]])]
    points += [stay.points for stay in scene.stays.values() if stay.points is not None]
    points += [line.mean(axis=0)[None] for line in (water(scene), deck(scene)) if line is not None]
    z = np.concatenate(points)[:, 2]
    return float(z.min()), float(z.max())
