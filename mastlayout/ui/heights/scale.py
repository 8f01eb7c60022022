"""The chart's scale: how much sea and height it shows, and its round ticks."""

import math
from collections.abc import Sequence

from mastlayout.frozen import dataclass
from mastlayout.units import M_PER_FT, Units
from mastlayout.words import _

_LEAST_TICK_PX = 42.0
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
# In pixels: the mast's room at the left of 0 NM, the water's below 0 m, and above the masthead.
LEFT_PX, BELOW_PX, ABOVE_PX = 18.0, 10.0, 8.0
# In pixels: from the farthest curve's end to the plot's edge.
_RIGHT_PX = 14.0


@dataclass(frozen=True)
class Name:
    """A word at a curve's upper end: how far out the end is, NM, and how much room it needs, px."""

    at_nm: float
    wide_px: float


@dataclass(frozen=True)
class Scale:
    """What a plot shows: NM from and to, metres from and to.

    ``leftward`` tells on which side of its curve's end each word has room.
    """

    low_nm: float
    high_nm: float
    low_m: float
    high_m: float
    leftward: bool = True


def scale_for(
    wide_px: float, high_px: float, top_m: float, low_m: float, names: Sequence[Name], rows_px: float
) -> Scale:
    """Return the scale at which the mast and every curve's word have room in a plot of so many pixels.

    ``rows_px`` is kept above the mast's top, where the words stand: left of their curves' ends where all
    have room there, else right of them.
    """
    room = max(wide_px - LEFT_PX, 1.0)
    nm_per_px = max((name.at_nm for name in names), default=0.0) / max(room - _RIGHT_PX, 1.0)
    leftward = all(name.wide_px * nm_per_px <= name.at_nm for name in names)
    if not leftward:
        nm_per_px = max(name.at_nm / max(room - name.wide_px, room / 4) for name in names)
    nm_per_px = nm_per_px or 1.0 / room
    m_per_px = (top_m - low_m) / max(high_px - BELOW_PX - ABOVE_PX - rows_px, high_px / 4, 1.0)
    return Scale(
        -LEFT_PX * nm_per_px,
        room * nm_per_px,
        low_m - BELOW_PX * m_per_px,
        top_m + (ABOVE_PX + rows_px) * m_per_px,
        leftward,
    )


def ticks(low: float, high: float, per_px: float, unit: str, each: float = 1.0) -> list[tuple[float, str]]:
    """Return the written ticks between two values, the last with its unit, of a size of ``each``."""
    step = next((s for s in _STEPS if s * each / per_px >= _LEAST_TICK_PX), _STEPS[-1])
    first, last = math.ceil(low / each / step - 1e-9), math.floor(high / each / step + 1e-9)
    counts = range(max(first, 0), last + 1)
    return [(n * step * each, f"{n * step} {unit}" if n == last else f"{n * step}") for n in counts]


def unit_m(units: Units) -> tuple[str, float]:
    """Return the unit that heights are ticked in, and its size in metres."""
    return (_("ft"), M_PER_FT) if units == "inches" else (_("m"), 1.0)
