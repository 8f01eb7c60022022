"""Which blind rivet grips a stack: by its diameter, from the published ranges of grip."""

from functools import cache

import numpy as np

from mastlayout.fastening.tables import tables
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array

# Ranges that were rounded in inches leave gaps of a thirty-secondth of a millimetre: none falls between.
_BETWEEN_MM = 0.03


@dataclass(frozen=True)
class Grip:
    """A rivet's body length, mm, the longest it may be, and the stacks it grips, from ``low`` to ``high``."""

    length_mm: float
    most_mm: float
    low_mm: float
    high_mm: float


@cache
def grips(rivet_mm: float) -> tuple[Grip, ...]:
    """Return the published grips of a diameter, short to long; none where no table was read."""
    rows = tables()["rivet_grip"].get(f"{rivet_mm:g}", [])
    return tuple(Grip(row["length"], row["most"], row["low"], row["high"]) for row in rows)


def grip_of(rivet_mm: float, stack_mm: float) -> Grip | None:
    """Return the shortest rivet whose published grip holds a stack; None where none does."""
    fits = (one for one in grips(rivet_mm) if one.low_mm - _BETWEEN_MM <= stack_mm <= one.high_mm + 1e-9)
    return next(fits, None)


def outside_grips_mm(rivet_mm: float, stack_mm: Array) -> Array:
    """Return how far stacks (any shape) lie outside every published grip, 0 within one; nan stays nan."""
    low = np.array([one.low_mm - _BETWEEN_MM for one in grips(rivet_mm)])
    high = np.array([one.high_mm for one in grips(rivet_mm)])
    off = np.maximum(np.maximum(low - stack_mm[..., None], stack_mm[..., None] - high), 0.0)
    return np.asarray(off.min(axis=-1))
