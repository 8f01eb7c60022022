"""What the chart and the table show of a session: heights above the water, and what each reaches."""

from collections.abc import Mapping

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.model.measure import Measure
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.heights import above_water_m, missing_for_water, water_height
from mastlayout.ranges.reach import reaches


@dataclass(frozen=True, eq=False)
class OnMast:
    """The mast and its fittings over the water, masthead first; heights (n,) in m, z (n,) in mm.

    ``missing`` is the measure without which no height is known: then there are none.
    """

    ids: tuple[str, ...]
    names: tuple[str, ...]
    z_mm: Array
    heights_m: Array
    heel_m: float
    masthead_m: float
    missing: Measure | None

    @property
    def top_m(self) -> float:
        """The highest of all."""
        return float(max(self.masthead_m, self.heights_m.max(initial=0.0)))

    def at(self, z_mm: float, length_mm: float) -> float:
        """Return the height above the water, m, of a height on the mast: a straight line in z."""
        return self.heel_m + (self.masthead_m - self.heel_m) * z_mm / length_mm


def on_mast(scene: Scene, asked: Asked) -> OnMast:
    """Return the mast and its fittings over the water; on the mast alone where that is not known."""
    placed = masthead_first(scene)
    length = scene.skin.length_mm
    z = np.array([0.0, length, *(one.z_mm for one in placed)])
    heights = above_water_m(scene, z, asked)
    if heights is None:
        return OnMast((), (), z[:0], z[:0], 0.0, length / 1000.0, missing_for_water(scene, asked))
    ids, names = tuple(one.id for one in placed), tuple(one.fitting.name for one in placed)
    return OnMast(ids, names, z[2:], heights[2:], float(heights[0]), float(heights[1]), None)


def figures_at(scene: Scene, z_mm: float, asked: Asked) -> Mapping[str, Figure]:
    """Return the height above the water, under "water", and every reach of a height on the mast."""
    water = water_height(scene, z_mm, asked)
    return {"water": water} | dict(reaches(water, asked))
