"""The clews of a layout's headsails: where each can fly, and where its sheets lead.

A clew flies as far from its tack as the foot is long, ring and knots beyond it, at any height
between the deck and a little above where it is sheeted. A sheet runs straight from there to its
lead; slack, it whips aside.
"""

from functools import lru_cache
from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.clew.swept import Swept
from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import Array, Whole, height_mm
from mastlayout.geometry.rig import deck_point
from mastlayout.geometry.solids import Solids, tubes
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import Cloths, State
from mastlayout.model.rig import DeckEnd, Side

# The sheets of a sail, in this order wherever there are two of anything.
SHEETS: tuple[Literal["port", "starboard"], ...] = ("port", "starboard")


@dataclass(frozen=True, eq=False)
class Clews:
    """s states of headsails; a luff sags as far as it does, which brings its tack nearest to the mast.

    Arrays: tack (s, 3), foot_mm (s,), reach_mm (s,) with ring and knots, low_mm and high_mm (s,),
    leads (s, 2, 3) to port and to starboard, nan where nobody measured them.
    """

    states: tuple[State, ...]
    tack: Array
    foot_mm: Array
    reach_mm: Array
    low_mm: Array
    high_mm: Array
    leads: Array

    def __len__(self) -> int:
        return len(self.states)

    def swept(self, rows: Whole, lead: Array) -> Swept:
        """Return what the clews of some states (n,) sweep, drawn out to leads (n, 3)."""
        return Swept(self.tack[rows], self.reach_mm[rows], self.low_mm[rows], self.high_mm[rows], lead)

    def outlines(self, right: Array, up: Array) -> Array:
        """Return what each state's clew and each of its sheets sweep, seen square to two axes (3,).

        Closed polylines (s, 3, 72, 3): the clew alone, with its port sheet, with its starboard sheet.
        """
        rows = np.arange(len(self))
        leads = [np.full((len(self), 3), np.nan), self.leads[:, 0], self.leads[:, 1]]
        return np.stack([self.swept(rows, lead).outline(right, up) for lead in leads], axis=1)


@dataclass(frozen=True, eq=False)
class Clear:
    """How clear q solids are of s clews (q, s), and of their taut and their slack sheets (q, s, 2).

    Negative: how far it is out of what they sweep. inf: farther than was asked, or no sheet known.
    """

    clew: Array
    taut: Array
    slack: Array


@lru_cache(maxsize=4)  # the rule, the section and the elevation ask for the same ones
def clews_of(cloths: Cloths, hardware_mm: float, rise_mm: float, rake_deg: float) -> Clews:
    """Return the clew of each headsail that tacks about a stay, full and reefed.

    ``hardware_mm`` is how far ring and knots reach where nobody measured them, ``rise_mm`` how far
    above its sheeted height a clew flies.
    """
    rows = [
        i for i, state in enumerate(cloths.states) if state.sagged and not (state.hoisting or state.backed)
    ]
    states, luff = tuple(cloths.states[i] for i in rows), cloths.luff[rows]
    bend = cloths.luffs.bend
    tack_z = np.array([height_mm(bend.length_mm, float(s.sail.tack_mm or 0.0)) for s in states])
    clew_z = np.array([height_mm(bend.length_mm, s.measure_mm("clew_mm")) for s in states])
    foot = np.array(
        [
            foot_mm(state, float(up - down), float(cos))
            for state, up, down, cos in zip(states, clew_z, tack_z, cloths.luffs.cosine[luff], strict=True)
        ]
    )
    found = Clews(
        states,
        np.column_stack([cloths.luffs.point(luff, tack_z), tack_z]) if states else np.empty((0, 3)),
        foot,
        foot + [_beyond(state, hardware_mm) for state in states],
        np.full(len(states), cloths.deck_mm),
        clew_z + rise_mm,
        np.array([_leads(s.sail.sheet_lead, rake_deg, bend) for s in states]).reshape(-1, 2, 3),
    )
    return _that_fly(found)


def foot_mm(state: State, rise_mm: float, cosine: float) -> float:
    """Return the length of the foot: as measured, else from LP and how far the clew is above its tack.

    ``cosine`` is that of the luff's angle to the mast. A reef's foot follows from its own LP and clew.
    """
    if state.reef is None and state.sail.foot_mm is not None:
        return state.sail.foot_mm
    lp = state.measure_mm("lp_mm")
    # Square to the luff the clew is LP away, and as much lower as the luff leans.
    along = (rise_mm + lp * np.sqrt(1.0 - cosine**2)) / cosine
    return float(np.hypot(lp, along))


def clear_of(clews: Clews, solids: Solids, slap_mm: float) -> Clear:
    """Return how clear solids are of all clews and sheets; a slack sheet whips ``slap_mm`` aside."""
    shape = (len(solids), len(clews))
    found = Clear(np.full(shape, np.inf), *(np.full((*shape, len(SHEETS)), np.inf) for _way in range(2)))
    bottom, top = solids.span_z()
    # Out of it upwards: below there is the deck.
    above = bottom[:, None] - clews.high_mm
    row, state = np.nonzero((above < 0) & (top[:, None] > clews.low_mm))
    if not len(row):
        return found
    up = above[row, state]
    apart = _from_tacks(clews, solids, row, state, up)
    found.clew[row, state] = np.maximum(apart, up)
    short = np.flatnonzero(apart >= 0)
    row, state, up = row[short], state[short], up[short]
    for sheet in range(len(SHEETS)):
        known = np.flatnonzero(~np.isnan(clews.leads[state, sheet, 0]))
        own, at = row[known], state[known]
        off = gap(solids[own], clews.swept(at, clews.leads[at, sheet]), slap_mm).distance_mm
        found.taut[own, at, sheet] = np.maximum(off, up[known])
        found.slack[own, at, sheet] = np.maximum(off - slap_mm, up[known])
    return found


def _from_tacks(clews: Clews, solids: Solids, row: Whole, state: Whole, enough_mm: Array) -> Array:
    """Return how far (r,) solids are beyond the reach of clews, exactly where more than ``enough_mm`` (r,).

    A middle lies within its solid: where that is as far within reach, it will do.
    """
    point, reach = clews.tack[state], clews.reach_mm[state]
    apart = np.linalg.norm(solids.centre[row] - point, axis=1) - reach
    asked = np.flatnonzero(apart > enough_mm)
    if len(asked):
        points = point[asked]
        apart[asked] = gap(solids[row[asked]], tubes(points, points, 0.0)).distance_mm - reach[asked]
    return np.asarray(apart)


def _beyond(state: State, hardware_mm: float) -> float:
    """Return how far ring, knots and a reef's roll reach beyond the foot."""
    reach = state.sail.clew_reach_mm
    rolled = (state.reef.rolled_mm or 0.0) / 2 if state.reef else 0.0
    return rolled + (hardware_mm if reach is None else reach)


def _leads(lead: DeckEnd | None, rake_deg: float, bend: Bend) -> Array:
    if lead is None:
        return np.full((len(SHEETS), 3), np.nan)
    sides: tuple[Side, ...] = SHEETS
    points = np.array([deck_point(lead, side, rake_deg) for side in sides])
    # The mast is what is straight here: the deck moves against it by its bend.
    points[:, 0] -= bend.at(points[:, 2])
    return points


def _that_fly(clews: Clews) -> Clews:
    """Leave out those whose reach never comes between their heights: such measures are named elsewhere."""
    away = np.maximum(clews.low_mm - clews.tack[:, 2], clews.tack[:, 2] - clews.high_mm)
    kept = np.flatnonzero((away < clews.reach_mm) & (clews.low_mm < clews.high_mm))
    arrays = (clews.tack, clews.foot_mm, clews.reach_mm, clews.low_mm, clews.high_mm, clews.leads)
    return Clews(tuple(clews.states[i] for i in kept.tolist()), *(array[kept] for array in arrays))
