"""Two ways over the sea, straight and by a bounce off it: where they cancel, an echo fades.

Over the round earth of radio, 4/3 of the true radius, a smooth sea sends all back and turns the
wave over. Flat-sea figures are wrong beyond a few miles. Past the radio horizon nothing is told.
"""

from dataclasses import replace
from functools import cache, lru_cache

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.ranges.horizon import RADIO, range_nm
from mastlayout.words import _

M_PER_NM = 1852.0
EARTH_M = 6_371_000.0 * 4 / 3
SOURCE = _("two rays over a smooth sea, earth of 4/3 radius; radar handbooks")
# Antennas of ships, m above the water: a coaster's, a freighter's, a large ship's.
SHIPS_M = (15.0, 30.0, 40.0)
# What an echo must lose to count as faded: nine tenths of it.
FADED = 0.1
# How many distances a chart has, from and to, NM.
# Nearer than the first of them fades are too narrow to stay in.
DISTANCES, NEAREST_NM, FARTHEST_NM = 2000, 1.0, 16.0
# It shows an echo from a hundredth and a half to the most the sea can make of it, dB.
DECIBELS = (-18.0, 13.0)


def bounce_m(high_m: Array | float, low_m: Array | float, range_m: Array | float) -> Array:
    """Return how far from the first of two heights the sea sends a ray to the other, m along the sea.

    The cubic's closed root: p = 2/√3 √(R (h + H) + r²/4), r/2 − p sin(arcsin(2 R r (H − h)/p³)/3).
    """
    h, other = np.asarray(high_m, float), np.asarray(low_m, float)
    r = np.asarray(range_m, float)
    p = 2 / np.sqrt(3) * np.sqrt(EARTH_M * (h + other) + r * r / 4)
    angle = np.arcsin(np.clip(2 * EARTH_M * r * (other - h) / p**3, -1.0, 1.0))
    return np.asarray(r / 2 - p * np.sin(angle / 3))


def path_difference_m(high_m: Array | float, low_m: Array | float, range_m: Array | float) -> Array:
    """Return how much longer the way by the bounce is than the straight one, m."""
    h, other, r = (np.asarray(one, float) for one in (high_m, low_m, range_m))
    near = bounce_m(h, other, r)
    straight = np.sqrt(
        (h - other) ** 2 + 4 * (EARTH_M + h) * (EARTH_M + other) * np.sin(r / EARTH_M / 2) ** 2
    )
    return np.asarray(_leg(h, near) + _leg(other, r - near) - straight)


def _leg(height_m: Array, along_m: Array) -> Array:
    """Return the straight way from a height to the sea so far along it."""
    rise = 4 * EARTH_M * (EARTH_M + height_m) * np.sin(along_m / EARTH_M / 2) ** 2
    return np.asarray(np.sqrt(height_m**2 + rise))


def field(high_m: Array | float, low_m: Array | float, range_m: Array | float, wave_m: float) -> Array:
    """Return the field of both rays over that of the straight one alone, 0 to 2; 0 past the horizon."""
    difference = path_difference_m(high_m, low_m, range_m)
    seen = np.asarray(range_m, float) <= range_nm(np.asarray(high_m, float), low_m, RADIO) * M_PER_NM
    return np.asarray(np.where(seen, 2 * np.abs(np.sin(np.pi * difference / wave_m)), 0.0))


def echo_share(high_m: Array | float, low_m: Array | float, range_m: Array | float, wave_m: float) -> Array:
    """Return an echo over what it would be without the sea, 0 to 16: the field counts out and home."""
    return np.asarray(field(high_m, low_m, range_m, wave_m) ** 4)


@cache
def distances_nm() -> Array:
    """Return the distances, NM, that a chart is drawn over."""
    nm = np.linspace(NEAREST_NM, FARTHEST_NM, DISTANCES)
    nm.flags.writeable = False
    return nm


@dataclass(frozen=True)
class Fade:
    """A stretch of sea, NM from a ship, in which her radar is sent less than a tenth.

    ``horizon`` tells that it is the last, from which nothing comes back.
    """

    from_nm: float
    to_nm: float
    horizon: bool = False


def fades(height_m: float, ship_m: float, wave_m: float) -> tuple[Fade, ...]:
    """Return where a reflector's echo fades for a ship, the nearest first, short of the radar horizon."""
    found = faded(*lobes(height_m, ship_m, wave_m))
    if not found:
        return ()
    # Within half a wave of none the rays no longer come into step: what fades there is for good.
    last = found[-1]
    out = path_difference_m(ship_m, height_m, last.from_nm * M_PER_NM) < wave_m / 2
    return (*found[:-1], replace(last, horizon=bool(out)))


def faded(nm: Array, share: Array) -> tuple[Fade, ...]:
    """Return the stretches in which an echo's share at distances that rise is less than a tenth."""
    if not len(nm):
        return ()
    low = np.concatenate([[False], share < FADED, [False]])
    starts, ends = np.flatnonzero(low[1:] & ~low[:-1]), np.flatnonzero(~low[1:] & low[:-1])
    return tuple(
        Fade(float(nm[first]), float(nm[last - 1])) for first, last in zip(starts, ends, strict=True)
    )


@lru_cache(maxsize=32)  # chart, fades and first seen of one height ask for the same, with every move
def lobes(height_m: float, ship_m: float, wave_m: float) -> tuple[Array, Array]:
    """Return the chart's distances short of the radar horizon, NM, and the share of an echo at each."""
    horizon = float(range_nm(np.asarray(ship_m), height_m, RADIO))
    nm = distances_nm()
    nm = nm[nm < horizon]
    share = echo_share(ship_m, height_m, nm * M_PER_NM, wave_m)
    nm.flags.writeable = share.flags.writeable = False
    return nm, share


# -- first seen, by the least that a ship's radar must do


@dataclass(frozen=True)
class Least:
    """How far, NM, a ship's radar must at least see an echoing area, m², and whose words that are."""

    nm: float
    m2: float
    source: str


# MSC.192(79), Table 2: with its antenna at 15 m, a ship's radar must see a yacht's reflector 4 m up at
# 5 NM in X band and 3.7 NM in S band. What that reflector sends back is from memory: an estimate.
_LEAST_SHIP_M, _LEAST_HEIGHT_M = 15.0, 4.0
LEAST_X = Least(
    5.0, 7.5, _("estimate from MSC.192(79), Table 2: 4 m up, 5 NM, antenna at 15 m; 7.5 m² from memory")
)
LEAST_S = Least(
    3.7, 0.5, _("estimate from MSC.192(79), Table 2: 4 m up, 3.7 NM, antenna at 15 m; 0.5 m² from memory")
)


@cache
def _asked(wave_m: float, least: Least) -> float:
    """Return what the least of ships' radars must see: σ F⁴ / R⁴ of its reflector."""
    share = echo_share(_LEAST_SHIP_M, _LEAST_HEIGHT_M, least.nm * M_PER_NM, wave_m)
    return least.m2 * float(share) / least.nm**4


def first_seen_nm(
    echo_m2: float, height_m: float, ship_m: float, wave_m: float, least: Least = LEAST_X
) -> float:
    """Return the farthest distance, NM, at which the least of ships' radars sees an echo; 0 where none."""
    nm, share = lobes(height_m, ship_m, wave_m)
    strong = np.flatnonzero(echo_m2 * share / nm**4 >= _asked(wave_m, least))
    return float(nm[strong[-1]]) if len(strong) else 0.0
