"""How every state of cloth passes every solid of a fitting, at one place or at many."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, Whole
from mastlayout.geometry.tack.outlines import Outlines
from mastlayout.geometry.tack.reach import Cleared, cleared
from mastlayout.geometry.tack.tack import BLOCK, Asked, Tack


@dataclass(frozen=True, eq=False)
class Passes:
    """For q solids and s states: clearances ``held`` and ``loose`` (q, s) as in ``Cleared``.

    They are inf where out of reach.
    ``height`` (q, s) is the index of the height of the worse of the two, ``shade`` (q, s) what
    shelters there: its index in the boundary of that state's luff and block, -1 for nothing.
    """

    held: Array
    loose: Array
    height: Whole
    shade: Whole

    def __getitem__(self, solids: Index) -> "Passes":
        return Passes(self.held[solids], self.loose[solids], self.height[solids], self.shade[solids])


def passes(tack: Tack, cut: Outlines, asked: Asked, solids: int, belly: float, near_mm: float) -> Passes:
    """Return how the states pass ``solids`` solids whose outlines are ``cut``, where they are ``asked``.

    Bellied cloth differs from taut cloth only between supports: elsewhere it is not asked again.
    """
    shape = (solids, len(tack.cloths))
    found = Passes(np.full(shape, np.inf), np.full(shape, np.inf), np.zeros(shape, int), np.full(shape, -1))
    for every, luff, block in tack.blocks(cut, asked):
        hung = tack.edge(luff, block, 0.0).bridged[cut.height[asked.row[every]] % BLOCK]
        rows = every[hung] if belly else every
        if not len(rows):
            continue
        edge = tack.edge(luff, block, belly)
        depths = tack.depths(edge, cut, asked, rows, near_mm)
        states = np.flatnonzero(tack.cloths.luff == luff)
        state, own = (part.reshape(-1) for part in np.indices((len(states), len(rows))))
        state, row = states[state], asked.row[rows[own]]
        chord = asked.chord[rows[own], state]
        slice_of = cut.height[row] % BLOCK
        there = np.flatnonzero((chord > 0) & ~edge.slices.inside[slice_of])
        at = cleared(edge, slice_of[there], depths[own[there]], chord[there])
        _keep(found, cut.solid[row[there]] * shape[1] + state[there], cut.height[row[there]], at)
    return found


def _keep(found: Passes, place: Whole, height: Whole, at: Cleared) -> None:
    """Keep of each place (solid and state) the least of what was found before and is now."""
    held, loose = found.held.reshape(-1), found.loose.reshape(-1)
    before = np.minimum(held, loose)
    np.minimum.at(held, place, at.held)
    np.minimum.at(loose, place, at.loose)
    worse = np.minimum(at.held, at.loose)
    # The least is written last, and stays.
    order = np.argsort(-worse, kind="stable")
    order = order[worse[order] < before[place[order]]]
    found.height.reshape(-1)[place[order]] = height[order]
    found.shade.reshape(-1)[place[order]] = at.shade[order]
