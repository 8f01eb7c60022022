"""Which stays a set pole comes to: from where on it lies on a shroud, how far it reaches past a stay."""

from itertools import pairwise

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.pole.poles import PoleInSpace
from mastlayout.geometry.rig import StayInSpace

# Places asked along a wire stand so far apart, mm.
_APART_MM = 5.0


@dataclass(frozen=True)
class Met:
    """A stay that a pole comes to: coming from ahead it first lies on it ``bearing`` radians off ahead.

    ``beyond_mm`` is how far its end reaches past the wire, ``z_mm`` the height where it does so farthest.
    """

    bearing: float
    beyond_mm: float
    z_mm: float


def met(pole: PoleInSpace, stay: StayInSpace) -> Met | None:
    """Return how a set pole comes to a stay, anywhere in its run and its tilt; None where it does not."""
    if pole.run is None or stay.points is None or pole.item.diameter_mm is None:
        return None
    room = pole.radius_mm + (stay.item.wire_mm or 0.0) / 2
    places = _along(stay.points)
    off, beyond = _reached(pole, places, room)
    away = np.hypot(*off.T)
    bearing = np.arctan2(np.abs(off[:, 1]), off[:, 0]) - np.arcsin(
        np.minimum(room / np.maximum(away, 1e-9), 1)
    )
    inside = np.flatnonzero((beyond > 0) & (bearing <= pole.squared))
    if not len(inside):
        return None
    deepest = inside[np.argmax(beyond[inside])]
    first = max(float(bearing[inside].min()), 0.0)
    return Met(first, float(beyond[deepest]), float(places[deepest, 2]))


def _reached(pole: PoleInSpace, places: Array, room_mm: float) -> tuple[Array, Array]:
    """Return where places (n, 3) stand off the run, level (n, 2), and how far (n,) the pole reaches past.

    Not above 0: it does not come there.
    """
    low, high = np.asarray(pole.run)
    part = (
        np.interp(places[:, 2], (low[2], high[2]), (0.0, 1.0)) if high[2] > low[2] else np.zeros(len(places))
    )
    hinge = low + part[:, None] * (high - low)
    off = places[:, :2] - hinge[:, :2]
    away, above = np.hypot(*off.T), places[:, 2] - hinge[:, 2]
    down, up = np.tan(pole.tilt)
    # In the upright plane through both a thick pole comes this much above and below its line.
    spare = room_mm / np.cos(pole.tilt[1])
    within = (above <= away * up + spare) & (above >= away * down - spare)
    return off, np.where(within, pole.item.length_mm + room_mm - np.hypot(away, above), 0.0)


def _along(points: Array) -> Array:
    """Return places (n, 3) along a stay, its pins and tips among them."""
    legs = []
    for start, end in pairwise(points):
        count = max(2, int(np.ceil(np.linalg.norm(end - start) / _APART_MM)) + 1)
        legs.append(start + np.linspace(0.0, 1.0, count)[:, None] * (end - start))
    return np.concatenate(legs)
