"""The heights at which each headsail sweeps over the mast itself, to be drawn beside it."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.geometry.tack.reach import distance_from
from mastlayout.geometry.tack.tack import BLOCK, Tack
from mastlayout.model.sails import Reef, Sail


@dataclass(frozen=True)
class Band:
    """The lowest and the highest height, mm, at which a sail reaches the mast, its luff straight or sagged.

    ``reef`` is None for the whole sail. ``lowest_mm`` is how far down it gets on its way up or down.
    ``reefed_mm`` are the heights of its head in each reef where it reaches the mast from the same foot
    up: a mainsail's.
    """

    sail: Sail
    reef: Reef | None
    low_mm: float
    high_mm: float
    lowest_mm: float
    reefed_mm: tuple[tuple[Reef, float], ...] = ()


def bands(tack: Tack) -> tuple[Band, ...]:
    """Return the bands of a layout's headsails, in their order; what reaches the mast nowhere has none."""
    cloths = tack.cloths
    if not len(cloths):
        return ()
    z_mm = np.asarray(np.arange(tack.heights) * STEP_MM)
    to_mast = [_to_mast(tack, luff, z_mm) for luff in range(len(cloths.luffs))]
    reaching = [_reaches(tack, state, z_mm, to_mast) for state in range(len(cloths))]
    found = []
    for sail, reef in dict.fromkeys((one.sail.id, one.reef) for one in cloths.states if not one.hoisting):
        own = [i for i, one in enumerate(cloths.states) if one.sail.id == sail]
        still = [i for i in own if cloths.states[i].reef == reef and not cloths.states[i].hoisting]
        up = [i for i in own if cloths.states[i].hoisting] if reef is None else []
        there = z_mm[np.any([reaching[i] for i in still], axis=0)]
        passed = z_mm[np.any([reaching[i] for i in (*still, *up)], axis=0)]
        if len(there):
            least, most = float(there.min()), float(there.max())
            found.append(Band(cloths.states[own[0]].sail, reef, least, most, float(passed.min())))
    return tuple(found)


def _to_mast(tack: Tack, luff: int, z_mm: Array) -> Array:
    """Return how far (m,) a luff is from the mast at heights."""
    point = tack.cloths.luffs.point(np.full(len(z_mm), luff), z_mm)
    mast = np.concatenate([tack.holding(block).support[:, 0] for block in range(-(-tack.heights // BLOCK))])
    return distance_from(point, mast)


def _reaches(tack: Tack, state: int, z_mm: Array, to_mast: list[Array]) -> Mask:
    chord = tack.cloths.chord(np.full(len(z_mm), state), z_mm)
    return np.asarray((chord > 0) & (chord >= to_mast[int(tack.cloths.luff[state])]))
