"""How far the leech of a mainsail passes ahead of what stands abaft it on the centreline: the backstay."""

from collections.abc import Iterator

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.tack.outlines import STEP_MM


def past_backstays(main: Main, state: Swung) -> Iterator[tuple[str, float, float]]:
    """Yield of each backstay its id, how far the leech passes ahead of it at least, and at which height.

    The sail is amidships, as it comes over; negative where its leech or batten ends stand beyond.
    """
    z_mm = np.append(np.arange(state.low_mm, state.head_mm, STEP_MM), state.head_mm)
    leech = main.luff[0] - state.chord(z_mm)
    for name, stay in main.tack.rig.stays.items():
        if stay.item.role == "backstay" and stay.item.side == "centre" and stay.points is not None:
            ahead = leech - _x_mm(stay, z_mm, main)
            if np.isfinite(ahead).any():
                worst = int(np.nanargmin(ahead))
                yield name, float(ahead[worst]), float(z_mm[worst])


def _x_mm(stay: StayInSpace, z_mm: Array, main: Main) -> Array:
    """Return where a straight wire is fore and aft at heights, its fore side; nan beyond its ends."""
    points = np.asarray(stay.points)[::-1]
    bend = main.tack.rig.bend
    part = (z_mm - points[0, 2]) / (points[-1, 2] - points[0, 2])
    x = np.interp(z_mm, points[:, 2], points[:, 0], np.nan, np.nan)
    return np.asarray(x + bend.of_line(part, points[-1, 2]) - bend.at(z_mm) + (stay.item.wire_mm or 0.0) / 2)
