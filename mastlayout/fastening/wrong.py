"""What can be done about a hole that was drilled wrong: move the fitting, enlarge the hole, or fill it."""

import numpy as np

from mastlayout.fastening.drill import drill_of, family
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.model.kind import Fastener


@dataclass(frozen=True)
class Remedies:
    """What would help.

    ``up_mm`` and ``down_mm`` move the fitting along the mast until each of its holes stands so many
    ``diameters`` of the larger hole from the wrong one. Filled, the wrong hole may have another
    ``again`` in its own place, if that is so far away; else the pattern does without it. ``larger`` is
    the next fastener whose hole takes the wrong one in, with its ``drill_mm``; None where no table has one.
    """

    diameters: float
    again: bool
    up_mm: float
    down_mm: float
    larger: Fastener | None = None
    drill_mm: float | None = None

    @property
    def move_mm(self) -> float:
        """The shorter of both ways, towards the masthead positive."""
        return self.up_mm if self.up_mm <= self.down_mm else -self.down_mm


def remedies(
    planned_mm: Array,
    own: int,
    found_mm: Array,
    diameter_mm: float,
    fastener: Fastener,
    drills_mm: Array,
    apart: float,
) -> Remedies:
    """Return what would help for one hole.

    Args:
        planned_mm: all holes of the fitting as planned, (h, 2) as girth and height.
        own: which of them the wrong hole should have been.
        found_mm: the wrong hole, (2,).
        diameter_mm: how large it was drilled.
        fastener: what should hold there.
        drills_mm: how large the planned holes are, (h,), nan where not known.
        apart: centre to centre, in diameters of the larger hole.
    """
    larger = np.maximum(np.nan_to_num(drills_mm), diameter_mm)
    away = planned_mm - found_mm
    up, down = _shift(away, apart * larger), _shift(away * [1.0, -1.0], apart * larger)
    off = float(np.hypot(*away[own]))
    found = next_larger(fastener, diameter_mm + 2 * off)
    again = bool(off >= apart * larger[own] - 1e-6)
    return Remedies(apart, again, up, down, found, drill_of(found) if found else None)


def _shift(away: Array, wanted: Array) -> float:
    """Return the least shift along the mast, not negative, after which every hole is ``wanted`` away.

    A hole ``a`` round and ``b`` along is too near while its height lies within the half chord
    sqrt(wanted^2 - a^2); so the shift leaves the union of those open intervals.
    """
    half = np.sqrt(np.maximum(wanted**2 - away[:, 0] ** 2, 0.0))
    shift = 0.0
    # Each pass leaves at least one interval for good, from below.
    for low, high in sorted(zip(-half - away[:, 1], half - away[:, 1], strict=True)):
        if low < shift < high:
            shift = float(high)
    return shift


def next_larger(fastener: Fastener, least_mm: float) -> Fastener | None:
    """Return the smallest fastener of the same sort whose drill is ``least_mm`` or more."""
    found = [
        (size, other)
        for other in family(fastener)
        if (size := drill_of(other)) is not None and size >= least_mm - 1e-9
    ]
    return min(found, key=lambda one: one[0])[1] if found else None
