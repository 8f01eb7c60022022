"""What the leech of a mainsail and its batten ends come past: stays abaft the mast, and lines to the boom."""

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.inside import line_point
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.model.rig import Stay
from mastlayout.model.sails import Halyard

# A line is made fast on the boom, or a little beside and beyond what was measured of it.
_PAST_MM = 500.0
# What is made fast nearer the centreline hangs over the boom, not beside it.
_BESIDE_MM = 30.0
_AFT: Array = np.array([-1.0, 0.0, 0.0])


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
    ends = _on_boom(skin, halyard, placed, state)
    return ends if ends and abs(float(ends[1][1])) > _BESIDE_MM else None


def over_the_boom(
    skin: Skin, halyard: Halyard, placed: Mapping[str, Placed], state: Swung
) -> tuple[Array, Array] | None:
    """Return the ends (3,), upper first, of a topping lift, from the mast to the boom; None for others."""
    ends = _on_boom(skin, halyard, placed, state)
    if not ends or abs(float(ends[1][1])) > _BESIDE_MM:
        return None
    upper, host = ends[0].copy(), placed.get(halyard.points[-2].fitting or "")
    if host is not None and len(host.solids):
        # It leads off the aft end of what carries it, a crane or a sheave box.
        upper[0] = min(upper[0], -float(host.solids.support(_AFT).max()))
    return upper, ends[1]


def _on_boom(
    skin: Skin, halyard: Halyard, placed: Mapping[str, Placed], state: Swung
) -> tuple[Array, Array] | None:
    if not halyard.points or halyard.points[-1].at != "end" or halyard.points[-1].ahead_mm is None:
        return None
    ends = [line_point(skin, point, placed) for point in halyard.points[-2:]]
    if len(ends) < 2 or ends[0] is None or ends[1] is None:
        return None
    aft = -float(ends[1][0])
    near = 0.0 < aft <= state.width[0] + _PAST_MM and abs(float(ends[1][2]) - state.low_mm) <= _PAST_MM
    return (ends[0], ends[1]) if near else None


def past_line(main: Main, state: Swung, upper: Array, lower: Array) -> tuple[float, float]:
    """Return how far the leech passes ahead of a straight line at least, negative beyond it, and where."""
    z_mm = np.clip(_heights(state), lower[2], upper[2])
    part = (z_mm - lower[2]) / (upper[2] - lower[2])
    ahead = main.luff[0] - state.chord(z_mm) - (lower[0] + part * (upper[0] - lower[0]))
    worst = int(ahead.argmin())
    return float(ahead[worst]), float(z_mm[worst])


def past_wires(main: Main, state: Swung, asked: Callable[[Stay], bool]) -> Iterator[tuple[str, float, float]]:
    """Yield of each wire of one side, of those asked, at which angle the leech meets it, and where."""
    for name, stay in main.tack.rig.stays.items():
        if stay.item.side == "centre" or stay.points is None or not asked(stay.item):
            continue
        legs = [
            found
            for upper, lower in pairwise(np.asarray(stay.points))
            if upper[2] > lower[2] and (found := within(main, state, upper, lower))
        ]
        if legs:
            yield name, *min(legs)


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
