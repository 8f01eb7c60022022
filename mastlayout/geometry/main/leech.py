"""What the leech of a mainsail and its batten ends come past: the backstay, and lines down to the boom."""

from collections.abc import Iterator, Mapping

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.inside import line_point
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.model.sails import Halyard

# A line is made fast on the boom, or a little beside and beyond what was measured of it.
_PAST_MM = 500.0
# What is made fast nearer the centreline hangs over the boom, not beside it.
_BESIDE_MM = 30.0


def _heights(state: Swung) -> Array:
    return np.append(np.arange(state.low_mm, state.head_mm, STEP_MM), state.head_mm)


def past_backstays(main: Main, state: Swung) -> Iterator[tuple[str, float, float]]:
    """Yield of each backstay its id, how far the leech passes ahead of it at least, and at which height.

    The sail is amidships, as it comes over; negative where its leech or batten ends stand beyond.
    """
    z_mm = _heights(state)
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


def to_the_boom(
    skin: Skin, halyard: Halyard, placed: Mapping[str, Placed], state: Swung
) -> tuple[Array, Array] | None:
    """Return the ends (3,), upper first, of a line that hangs from the mast beside the boom; None for others.

    A topping lift, on the centreline, is none: it is slack while she sails.
    """
    if not halyard.points or halyard.points[-1].at != "end" or halyard.points[-1].ahead_mm is None:
        return None
    ends = [line_point(skin, point, placed) for point in halyard.points[-2:]]
    if len(ends) < 2 or ends[0] is None or ends[1] is None:
        return None
    aft, beside = -float(ends[1][0]), abs(float(ends[1][1])) > _BESIDE_MM
    on_boom = (
        beside
        and 0.0 < aft <= state.width[0] + _PAST_MM
        and abs(float(ends[1][2]) - state.low_mm) <= _PAST_MM
    )
    return (ends[0], ends[1]) if on_boom else None


def within(main: Main, state: Swung, upper: Array, lower: Array) -> tuple[float, float] | None:
    """Return how far off the line of the boom, radians, batten ends may swing inside a line, and where.

    The least over the heights at which the sail reaches as far as the line; None where it nowhere
    does.
    """
    z_mm = np.linspace(lower[2], upper[2], 200)
    part = (z_mm - lower[2]) / (upper[2] - lower[2])
    x, y = (lower[k] + part * (upper[k] - lower[k]) for k in (0, 1))
    out, aft = np.abs(y), main.luff[0] - x
    reached = (aft > 0) & (state.chord(z_mm) >= np.hypot(aft, out))
    angle = np.where(reached, np.arctan2(out, aft), np.inf)
    worst = int(angle.argmin())
    return (float(angle[worst]), float(z_mm[worst])) if reached.any() else None
