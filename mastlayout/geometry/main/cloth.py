"""Mainsails in their states: how long the cloth is at each height, and how far out it swings there.

The luff is on the track, which follows the mast; what the cloth does is asked square to it. Widths
are those that were measured, with straight lines between; above a width that nobody measured the
next below it is taken, since a mainsail grows no wider upwards. A reef lets the whole sail down.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.tack.cloth import State
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Sail

# Where along the leech widths are measured, from below.
PARTS: Array = np.array([0.0, 0.25, 0.5, 0.75, 0.875, 1.0])
# Cloth that swings farther lies on itself.
_FARTHEST = np.radians(170.0)


@dataclass(frozen=True, eq=False)
class Swung:
    """One state of a mainsail: heights of boom and head, how far it was let down, how far out it swings.

    ``boom`` and ``twist`` are in radians, from straight aft; ``width`` (6,) from the boom to the head
    of the full sail, ``full_mm`` high.
    """

    state: State
    low_mm: float
    head_mm: float
    full_mm: float
    down_mm: float
    width: Array
    boom: float
    twist: float

    def chord(self, z_mm: Array) -> Array:
        """Return the length of cloth (r,) abaft the track at heights; 0 where there is none."""
        part = (z_mm + self.down_mm - self.low_mm) / (self.full_mm - self.low_mm)
        there = (z_mm >= self.low_mm) & (z_mm <= self.head_mm)
        return np.asarray(np.where(there, np.interp(part, PARTS, self.width), 0.0))

    def angle(self, z_mm: Array) -> Array:
        """Return how far from straight aft (r,) cloth swings at heights where nothing stops it.

        On its way up or down the head comes past every height with all its twist.
        """
        part = np.clip((z_mm - self.low_mm) / (self.head_mm - self.low_mm), 0.0, 1.0)
        swung = self.boom + self.twist * (np.ones_like(part) if self.state.hoisting else part)
        return np.asarray(np.minimum(swung, _FARTHEST))


def low_reading_mm(sail: Sail) -> float | None:
    """Return the foot of a mainsail from the masthead: the boom's mark, or the tack."""
    return sail.lower_mark_mm if sail.lower_mark_mm is not None else sail.tack_mm


def head_reading_mm(sail: Sail) -> float | None:
    """Return the head of a mainsail from the masthead: where it was measured, or the upper mark."""
    return sail.head_mm if sail.head_mm is not None else sail.upper_mark_mm


def missing(sail: Sail, boom: float | None) -> tuple[Measure, ...]:
    """Return the measures without which nobody knows where its cloth is; ``boom`` is how far out it goes."""
    lacks = {
        "e_mm": sail.e_mm is None,
        "lower_mark_mm": low_reading_mm(sail) is None,
        "head_mm": head_reading_mm(sail) is None,
        "boom_limit_deg": boom is None,
    }
    return tuple(measure_of(Sail, name) for name, lacking in lacks.items() if lacking)


def stands(sail: Sail) -> bool:
    """Tell whether the head of a mainsail is above its foot, so that there is a sail at all."""
    low, head = low_reading_mm(sail), head_reading_mm(sail)
    return low is not None and head is not None and head < low


def swung(sail: Sail, length_mm: float, boom: float | None, twist: float) -> Iterator[Swung]:
    """Yield every state of a mainsail of which enough is known: full, each reef, going up or down."""
    if boom is None or missing(sail, boom) or not stands(sail):
        return
    low, head = (height_mm(length_mm, float(read(sail) or 0.0)) for read in (low_reading_mm, head_reading_mm))
    width = np.array(_widths(sail))
    reefs = [reef for reef in sail.reefs if reef.head_mm is not None]
    for reef in (None, *reefs):
        down = 0.0 if reef is None else max(head - height_mm(length_mm, float(reef.head_mm or 0.0)), 0.0)
        if head - down > low:
            state = State(sail, reef, hoisting=False, sagged=False)
            yield Swung(state, low, head - down, head, down, width, boom, twist)
    yield Swung(State(sail, None, hoisting=True, sagged=False), low, head, head, 0.0, width, boom, twist)


def _widths(sail: Sail) -> Sequence[float]:
    widths = [float(sail.e_mm or 0.0)]
    for width in (
        sail.quarter_width_mm,
        sail.half_width_mm,
        sail.three_quarter_width_mm,
        sail.seven_eighths_width_mm,
        sail.head_width_mm,
    ):
        widths.append(widths[-1] if width is None else width)
    return widths
