"""A dropped mainsail on its track: between which heights its slides or cars stand, and where its folds hang.

Slides stand one on the other on what stops them: a stop, the track's lower end, or the boom.
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.main.carried import Carried
from mastlayout.geometry.main.cloth import low_reading_mm
from mastlayout.model.mast import Mast
from mastlayout.model.sails import Sail

# Folds lie over the boom to either side, and no farther forward than abreast of the track.
_ABEAM = np.pi / 2


@dataclass(frozen=True, eq=False)
class Stack:
    """A dropped mainsail: heights, from the heel, of what it stands on and of its top.

    ``measured_mm`` and ``counted_mm`` are its top as measured over the boom, and as its cars add up;
    None where not known. The higher of both is taken.
    """

    sail: Sail
    low_mm: float
    measured_mm: float | None
    counted_mm: float | None

    @property
    def top_mm(self) -> float:
        """The height of its top."""
        return max(top for top in (self.measured_mm, self.counted_mm) if top is not None)


def counted_high_mm(sail: Sail) -> float | None:
    """Return how high headboard and cars stand one on the other; None where one of them is not known."""
    if sail.cars is None or sail.car_high_mm is None or sail.headboard_high_mm is None:
        return None
    return sail.headboard_high_mm + sail.cars * sail.car_high_mm


def stack_of(sail: Sail, mast: Mast) -> Stack | None:
    """Return a dropped mainsail; None where nobody knows how high it stands."""
    boom, counted = low_reading_mm(sail), counted_high_mm(sail)
    if boom is None or (counted is None and sail.stack_mm is None):
        return None
    held = [boom]
    if mast.track is not None:
        held += [end for end in (mast.track.lower_end_mm, mast.track.stop_mm) if end is not None]
    low, above_boom = height_mm(mast.length_mm, min(held)), height_mm(mast.length_mm, boom)
    return Stack(
        sail,
        low,
        None if sail.stack_mm is None else above_boom + sail.stack_mm,
        None if counted is None else low + counted,
    )


def folds_of(stack: Stack, reach_mm: float) -> Carried:
    """Return the folds that hang beside a stack, ``reach_mm`` from the track, to either side of it."""
    return Carried(stack.sail, "folds", reach_mm, 0.0, 0.0, stack.low_mm, stack.top_mm, _ABEAM)
