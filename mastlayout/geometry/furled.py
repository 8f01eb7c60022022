"""Furled sails: the roll between tack and head, straight, and as far off as it sags or hangs in a bight."""

from collections.abc import Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Crowd, crowd_of
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.slack import Bows, Slack
from mastlayout.geometry.solids import tubes
from mastlayout.model.rig import Stay
from mastlayout.model.sails import Sail

_FURL = ("headsail", "code sail")
# A bight hangs aft and to either side, and anywhere between.
_WAYS = np.array([(0, 1, 0), (-0.707107, 0.707107, 0), (-1, 0, 0), (-0.707107, -0.707107, 0), (0, -1, 0)])


@dataclass(frozen=True, eq=False)
class Roll:
    """A sail furled on its stay or luff rope: ``pins`` (2, 3) are head and tack, or the stay's own ends."""

    sail: Sail
    stay: Stay
    pins: Array
    radius_mm: float

    @property
    def free(self) -> bool:
        """Tell whether it rolls on a rope of its own, with which it is hoisted."""
        return self.sail.role == "code sail"

    @property
    def long_mm(self) -> float:
        """Its length from tack to head."""
        return float(np.linalg.norm(self.pins[0] - self.pins[1]))


def roll(sail: Sail, stay: StayInSpace | None, length_mm: float) -> Roll | None:
    """Return the roll of a sail that furls; None of another, or where its way or roll is not known."""
    if sail.role not in _FURL or stay is None or stay.points is None or sail.furled_mm is None:
        return None
    upper, lower = stay.points[0], stay.points[-1]
    rise = float(upper[2] - lower[2])
    if rise <= 0:
        return None
    ends = (
        1.0 if sail.head_mm is None else (height_mm(length_mm, sail.head_mm) - lower[2]) / rise,
        0.0 if sail.tack_mm is None else (height_mm(length_mm, sail.tack_mm) - lower[2]) / rise,
    )
    head, tack = (min(max(float(part), 0.0), 1.0) for part in ends)
    if head <= tack:
        return None
    pins = np.stack([lower + part * (upper - lower) for part in (head, tack)])
    return Roll(sail, stay.item, pins, sail.furled_mm / 2)


def straight(rolls: Sequence[Roll]) -> Crowd:
    """Return the rolls on straight stays."""
    return crowd_of([(one.sail.id, tubes(one.pins[:1], one.pins[1:], one.radius_mm)) for one in rolls])


def bights(rolls: Sequence[Roll], off_mm: Sequence[float]) -> Slack:
    """Return all that rolls sweep as their middles hang so far (n,) off their lines."""
    n, ways = len(rolls), len(_WAYS)
    pins = np.array([one.pins for one in rolls]).reshape(n, 2, 3)
    off = np.array(off_mm, dtype=float)
    radius = np.repeat([one.radius_mm for one in rolls], ways)
    bows = Bows(
        np.repeat(pins, ways, axis=0),
        (off[:, None, None] * _WAYS).reshape(-1, 3),
        np.asarray(radius, dtype=float),
    )
    thick = bows.round_mm + np.linalg.norm(bows.sag, axis=1)
    return Slack(tuple(one.sail.id for one in rolls), bows, np.repeat(np.arange(n), ways), thick)
