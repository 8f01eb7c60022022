"""What a fitting's fasteners put inside the mast: bolts right through it, and the ends of screws."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import Drilled, drilled
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.seat import Places, Seats
from mastlayout.geometry.skin import Skin
from mastlayout.once import once

# A bolt right through the mast; and what has a point or an end of a thread behind the wall.
_THROUGH, _POINTED = ("through",), ("tapped", "nut", "rivet nut")
# Two ends of one bolt: as high to this much, and looking at one another.
_LEVEL_MM, _FACING = 1.0, -0.7


@dataclass(frozen=True, eq=False)
class Across:
    """k fasteners of a fitting at n places, inside the mast: start and end (n, k, 3), holes ``number`` (k).

    nan where the drill misses the mast.
    """

    number: tuple[int, ...]
    start: Array
    end: Array


def pattern(placed: Placed, places: Places, seats: Seats) -> Drilled | None:
    """Return the holes of a fitting at n places on the mast, typical ones where its foot is not in hand."""
    if places is not placed.places:
        return _drilled(placed, places, seats)
    return _typical(placed) if placed.holes is None else placed.holes


@once  # of what is there already; a check asks for it with every change
def _typical(placed: Placed) -> Drilled | None:
    return _drilled(placed, placed.places, placed.seats)


def _drilled(placed: Placed, places: Places, seats: Seats) -> Drilled | None:
    if placed.foot is None or not isinstance(placed.host, Skin):
        return None
    return drilled(placed.host, placed.foot, places, seats)


def bolts(placed: Placed, holes: Drilled | None) -> Across | None:
    """Return the bolts right through the mast, as far as there can be mast."""
    long = float(np.ptp(placed.skin.full.x) + 2 * placed.skin.full.y.max()) if placed.skin else 0.0
    return _legs(holes, _THROUGH, long)


def screws(holes: Drilled | None, inside_mm: float) -> Across | None:
    """Return the ends of screws, as far behind the skin as ``inside_mm``."""
    return _legs(holes, _POINTED, inside_mm)


def _legs(holes: Drilled | None, hows: tuple[str, ...], long_mm: float) -> Across | None:
    if holes is None:
        return None
    rows = [
        i for i, opening in enumerate(holes.openings)
        if opening.use == "hole" and opening.fastener.how in hows
    ]  # fmt: skip
    start, way = holes.point[:, rows], holes.direction[:, rows]
    numbers = tuple(holes.openings[i].number for i in rows)
    return Across(numbers, start, start + long_mm * way) if rows else None


def shares_a_bolt(one: Placed, other: Placed) -> bool:
    """Tell whether two like fittings face each other across the mast: one bolt holds both."""
    apart = one.seats.origin[0, 2] - other.seats.origin[0, 2]
    facing = float(one.seats.axes[0, 2] @ other.seats.axes[0, 2])
    return one is not other and one.kind is other.kind and abs(apart) < _LEVEL_MM and facing < _FACING
