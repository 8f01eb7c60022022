"""How far a height sees: the conventions, and distances on arrays of heights.

All of them are a factor times the root of the height; they differ in how much the air bends the
ray. A range between two heights is the sum of both their horizons.
"""

import math

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.words import _

_M_PER_NM = 1852.0
_EARTH_KM = 6371.0
# Bowditch: the earth's mean radius in nautical miles, and beta zero, which allows for refraction.
_R0_NM, _BETA0 = 3440.1, 0.8279


@dataclass(frozen=True)
class Convention:
    """A published rule for a horizon: ``factor_nm`` nautical miles to the root of the height in metres."""

    key: str
    factor_nm: float
    short: str
    source: str


LIGHTS = Convention("2.08", 2.08, _("2.08 √h"), _("lists of lights, 2.08 to the root of metres"))
# 1.17 to the root of feet is 2.12 to the root of metres. Editions that print 2.07 to the root of metres
# beside 1.17 carry an older figure (1.144 to the root of feet) along.
NAVIGATOR = Convention(
    "2.12",
    math.sqrt(2 * _R0_NM / (_BETA0 * _M_PER_NM)),
    _("2.12 √h"),
    _("NGA Pub. 9, distance of the horizon: √(2 r h / 0.8279), r 3440.1 NM; 1.17 to the root of feet"),
)


def nm_per_root_m(k: float) -> float:
    """Return NM to the root of metres over an earth of ``k`` times its radius: √(2 k R).

    1 is a straight ray, the least that is seen; 7/6 is 2.08, and 4/3 is 2.2256 (4.1218 km).
    """
    return math.sqrt(2 * k * _EARTH_KM / 1000.0) / 1.852


RADIO = Convention("4/3", nm_per_root_m(4 / 3), _("4/3 earth"), _("ITU-R P.526, earth of 4/3 radius"))


def horizon_nm(height_m: Array, convention: Convention) -> Array:
    """Return the distance, NM, of the horizon from heights above the water; 0 at the water and below."""
    return convention.factor_nm * np.sqrt(np.maximum(height_m, 0.0))


def range_nm(height_m: Array, other_m: Array | float, convention: Convention) -> Array:
    """Return the distance, NM, at which two heights above the water see each other over its curve.

    Nothing under the water is seen: 0 there.
    """
    both = horizon_nm(height_m, convention) + horizon_nm(np.asarray(other_m, dtype=float), convention)
    return np.where(np.asarray(height_m) < 0.0, 0.0, both)
