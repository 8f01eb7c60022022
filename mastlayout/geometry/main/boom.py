"""How far out the boom swings: until it meets a shroud.

The boom is taken as a line from the gooseneck's pin: a thick one meets the shroud a little sooner.
"""

from collections.abc import Mapping

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.main.stops import is_shroud, pushed_mm
from mastlayout.geometry.rig import StayInSpace


def meets(pivot: Array, length_mm: float, wire: Array, radius_mm: float) -> float | None:
    """Return the angle from straight aft, radians, at which a boom meets a wire; None where it is too short.

    ``pivot`` and ``wire`` (2,) are points of one slice.
    """
    ahead, off = float(wire[0] - pivot[0]), abs(float(wire[1] - pivot[1]))
    distance = float(np.hypot(ahead, off))
    if distance - radius_mm > length_mm or distance <= radius_mm:
        return None
    return float(np.arctan2(off, -ahead) - np.arcsin(radius_mm / distance))


def boom_angle(
    stays: Mapping[str, StayInSpace], pivot: Array, z_mm: float, length_mm: float, slack: float = 0.0
) -> tuple[float, str] | None:
    """Return how far the boom swings out, in radians, and the id of the shroud that stops it.

    That of the side on which it swings farther; None where on either side it meets no shroud, or
    one has no place yet. ``slack`` is how far a leg can be pushed forward, as a part of its length.
    """
    found: dict[str, tuple[float, str]] = {}
    for name, stay in stays.items():
        if not is_shroud(stay.item):
            continue
        if stay.points is None:
            return None
        wire = _at(stay, z_mm, slack)
        angle = meets(pivot, length_mm, wire, (stay.item.wire_mm or 0.0) / 2) if wire is not None else None
        if angle is not None:
            side = stay.item.side
            found[side] = min(found.get(side, (np.inf, "")), (angle, name))
    return max(found.values()) if len(found) == 2 else None


def _at(stay: StayInSpace, z_mm: float, slack: float) -> Array | None:
    """Return where (2,) a stay is at a height, pushed forward; None above and below it."""
    points = np.asarray(stay.points)[::-1]
    if not points[0, 2] <= z_mm <= points[-1, 2]:
        return None
    x, y = (np.interp(z_mm, points[:, 2], points[:, k]) for k in (0, 1))
    return np.array([x + float(pushed_mm(stay, np.array([z_mm]), slack)[0]), y])
