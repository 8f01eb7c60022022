"""Sails furled on a free luff: the roll between tack and head, set up straight and in a bight."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.crowd import Crowd, crowd_of
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.slack import Bows, Slack
from mastlayout.geometry.solids import tubes
from mastlayout.model.sails import Sail

# A bight hangs aft and to either side, and anywhere between.
_WAYS = np.array([(0, 1, 0), (-0.707107, 0.707107, 0), (-1, 0, 0), (-0.707107, -0.707107, 0), (0, -1, 0)])


@dataclass(frozen=True, eq=False)
class FreeLuff:
    """A furled sail on its luff rope: ``pins`` (2, 3) are head and tack, or the rope's own ends."""

    sail: Sail
    pins: Array
    radius_mm: float


def free_luff(sail: Sail, stay: StayInSpace | None, length_mm: float) -> FreeLuff | None:
    """Return the roll of a sail on a free luff; None of another, or where its way or roll is not known."""
    if sail.role != "code sail" or stay is None or stay.points is None or sail.furled_mm is None:
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
    return FreeLuff(
        sail, np.stack([lower + part * (upper - lower) for part in (head, tack)]), sail.furled_mm / 2
    )


def rolls(luffs: Sequence[FreeLuff]) -> Crowd:
    """Return the rolls set up straight."""
    return crowd_of([(luff.sail.id, tubes(luff.pins[:1], luff.pins[1:], luff.radius_mm)) for luff in luffs])


def bights(luffs: Sequence[FreeLuff], sag: float) -> Slack:
    """Return all that rolls sweep as they hang ``sag`` of their length off their line while they go up."""
    n, ways = len(luffs), len(_WAYS)
    pins = np.array([luff.pins for luff in luffs]).reshape(n, 2, 3)
    off = sag * np.linalg.norm(pins[:, 0] - pins[:, 1], axis=1)
    radius = np.repeat([luff.radius_mm for luff in luffs], ways)
    bows = Bows(
        np.repeat(pins, ways, axis=0),
        (off[:, None, None] * _WAYS).reshape(-1, 3),
        np.asarray(radius, dtype=float),
    )
    thick = bows.round_mm + np.linalg.norm(bows.sag, axis=1)
    return Slack(tuple(luff.sail.id for luff in luffs), bows, np.repeat(np.arange(n), ways), thick)
