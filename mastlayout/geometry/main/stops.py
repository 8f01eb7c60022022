"""What stops a mainsail as it swings out: shrouds and spreaders, seen from its track at each height.

A shroud to leeward hangs slack and is pushed forward; the cloth is stopped no sooner than there.
What stands across the centreline, as a backstay does, stops nothing.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.tack.directions import COUNT, DIRECTIONS, along_all
from mastlayout.geometry.tack.holding import Holding
from mastlayout.geometry.tack.reach import MAST_NAME, distance_from
from mastlayout.model.rig import Stay

_QUARTER = COUNT // 4
# From cloth straight aft to cloth straight ahead, the lines abaft it turn back through half the circle.
_TURN: Whole = np.arange(_QUARTER * 3, _QUARTER - 1, -1) % COUNT


@dataclass(frozen=True, eq=False)
class Stops:
    """What stops cloth at m heights on one side: ``angle`` and ``distance`` (m, s), inf where nothing does.

    ``mast`` (m, COUNT) is the support of the mast, seen from that side as if it were port.
    """

    angle: Array
    distance: Array
    mast: Array

    def __getitem__(self, rows: Whole) -> "Stops":
        return Stops(self.angle[rows], self.distance[rows], self.mast[rows])

    def first(self, chord: Array) -> tuple[Array, Array]:
        """Return the angle (m,) at which cloth of chords (m,) first lies on something, and how far out."""
        angle = np.where(self.distance <= chord[:, None], self.angle, np.inf)
        at = angle.argmin(axis=1)[:, None]
        nearest = np.take_along_axis(self.distance, at, axis=1)[:, 0]
        angle = np.take_along_axis(angle, at, axis=1)[:, 0]
        return angle, np.where(np.isfinite(angle), nearest, np.inf)


def joined_stops(blocks: Sequence[Stops], block: Whole, row: Whole) -> Stops:
    """Return what stops cloth at heights (r,), each the ``row`` of its ``block``."""
    most = max((own.angle.shape[1] for own in blocks), default=1)
    first = np.cumsum([0, *(len(own.mast) for own in blocks)])
    at = first[block] + row

    def whole(part: str) -> Array:
        """Return a part of the stops (r, most) at each height; what a block has less is inf."""
        wide = [np.pad(getattr(own, part), ((0, 0), (0, most - own.angle.shape[1])), constant_values=np.inf)
                for own in blocks]  # fmt: skip
        return np.asarray(np.concatenate([*wide, np.empty((0, most))])[at])

    mast = np.concatenate([*(own.mast for own in blocks), np.empty((0, COUNT))])
    return Stops(whole("angle"), whole("distance"), mast[at])


def mirrored(support: Array) -> Array:
    """Return supports (…, COUNT) with port and starboard changed over."""
    return np.asarray(support[..., -np.arange(COUNT) % COUNT])


def stops(luff: Array, held: Holding, slack: Array) -> Stops:
    """Return what stops cloth on the port side; ``slack`` (m, s) is how far each is pushed forward."""
    support = held.support + slack[..., None] * DIRECTIONS[:, 0]
    mast = np.where((held.name == MAST_NAME)[..., None], held.support, -np.inf).max(axis=1)
    beyond = (support - along_all(luff))[..., _TURN]
    reached = beyond[..., 1:] >= 0
    at = reached.argmax(axis=-1)[..., None]
    before, after = (np.take_along_axis(beyond, at + k, axis=-1)[..., 0] for k in (0, 1))
    step = np.where(after > before, -before / np.where(after > before, after - before, 1.0), 0.0)
    angle = (at[..., 0] + step) * (2 * np.pi / COUNT)
    stopping = (beyond[..., 0] < 0) & reached.any(axis=-1) & (held.name > MAST_NAME)
    distance = distance_from(luff, support)
    return Stops(np.where(stopping, angle, np.inf), np.where(stopping, distance, np.inf), mast)


def slack_of(stays: Mapping[str, StayInSpace], held: Holding, z_mm: Array, part: float) -> Array:
    """Return how far forward (m, s) what holds at heights (m,) can be pushed: only stays, between their ends.

    ``part`` is that at the middle of a leg, of its length.
    """
    found = np.zeros(held.name.shape)
    for number, name in enumerate(held.names):
        stay = stays.get(name)
        if stay is not None and stay.points is not None:
            found += (held.name == number) * pushed_mm(stay, z_mm, part)[:, None]
    return found


def pushed_mm(stay: StayInSpace, z_mm: Array, part: float) -> Array:
    """Return how far forward (m,) a slack stay can be pushed at heights, each leg by itself."""
    points = np.asarray(stay.points)[::-1]
    length = np.linalg.norm(np.diff(points, axis=0), axis=1)
    leg = np.clip(np.searchsorted(points[:, 2], z_mm, side="right") - 1, 0, len(length) - 1)
    low, high = points[leg, 2], points[leg + 1, 2]
    along = np.clip((z_mm - low) / np.where(high > low, high - low, 1.0), 0.0, 1.0)
    return np.asarray(4 * along * (1 - along) * part * length[leg])


def is_shroud(stay: Stay) -> bool:
    """Tell whether a boom can meet a stay: a wire of one side that stands while she sails."""
    return (
        stay.side != "centre"
        and not stay.removable
        and stay.role in ("cap", "intermediate", "lower", "diamond")
    )
