"""What a height reaches, by each convention: one list for chart, table and print."""

from collections.abc import Mapping

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.ranges.asked import Asked, Key
from mastlayout.ranges.horizon import LIGHTS, NAVIGATOR, RADIO, Convention, horizon_nm, range_nm
from mastlayout.words import _


@dataclass(frozen=True)
class Reach:
    """A distance that a height gives; ``end`` is the height asked of the other end, None for the horizon."""

    key: str
    name: str
    convention: Convention
    end: Key | None = None

    def distance_nm(self, height_m: Array, asked: Asked) -> Array:
        """Return the distances, NM, from heights above the water; NaN where the other end is not known."""
        if self.end is None:
            return horizon_nm(height_m, self.convention)
        other = asked.value(self.end)
        if other is None:
            return np.full(np.shape(height_m), np.nan)
        return range_nm(height_m, other, self.convention)

    def figure(self, water: Figure, asked: Asked) -> Figure:
        """Return the distance from one height above the water, with its working."""
        other = None if self.end is None else asked.value(self.end)
        missing = water.missing or (self.end if self.end and other is None else None)
        inputs: dict[str, float] = {"nm_per_root_m": self.convention.factor_nm}
        value = None
        if missing is None and water.value is not None:
            inputs["height_above_water_m"] = water.value
            if self.end is not None and other is not None:
                inputs[self.end] = other
            value = float(self.distance_nm(np.array(water.value), asked))
        formula = f"{self.convention.factor_nm:.2f} " + ("√h" if self.end is None else "(√h + √H)")
        return Figure(self.name, value, "NM", formula, self.convention.source, inputs, missing)


_LIGHT, _RADIO = _("geographic range of a light"), _("radio line of sight")
REACHES: tuple[Reach, ...] = (
    Reach("visible_horizon_nm", _("visible horizon"), LIGHTS),
    Reach("visible_horizon_2_12_nm", _("visible horizon"), NAVIGATOR),
    Reach("geographic_range_nm", _LIGHT, LIGHTS, "eye_height_m"),
    Reach("geographic_range_2_12_nm", _LIGHT, NAVIGATOR, "eye_height_m"),
    Reach("radio_horizon_nm", _("radio and radar horizon"), RADIO),
    Reach("radio_line_of_sight_nm", _RADIO, RADIO, "antenna_height_m"),
    Reach("radar_horizon_nm", _("radar horizon to a target"), RADIO, "target_height_m"),
)


def reaches(water: Figure, asked: Asked) -> Mapping[str, Figure]:
    """Return every reach of one height above the water, by its key."""
    return {reach.key: reach.figure(water, asked) for reach in REACHES}
