"""How every state of cloth passes every solid of a fitting, at one place or at many."""

from dataclasses import fields

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, Mask, Whole
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

    @property
    def nearest(self) -> Array:
        """The least clearance (q, s), held or loose."""
        return np.asarray(np.minimum(self.held, self.loose))

    def like(self, states: Whole) -> "Passes":
        """Return each state's (s,) as that of another."""
        return Passes(
            self.held[:, states], self.loose[:, states], self.height[:, states], self.shade[:, states]
        )


def taut(tack: Tack, cut: Outlines, asked: Asked, solids: int, near_mm: float) -> Passes:
    """Return how taut cloth passes ``solids`` solids whose outlines are ``cut``, where they are ``asked``.

    Backed cloth is asked by its belly: taut it lies as it does when it is held.
    """
    cloths = tack.cloths
    found = passes(tack, cut, asked, solids, 0.0, near_mm, ~cloths.backed)
    return found.like(cloths.held)


def out_of_reach(solids: int, states: int) -> Passes:
    """Return how cloth passes solids that are nowhere near it."""
    far, none = np.full((solids, states), np.inf), np.zeros((solids, states), dtype=int)
    return Passes(far, far.copy(), none, none - 1)


def hung(
    tack: Tack, cut: Outlines, asked: Asked, solids: int, bellies: tuple[float, float], near_mm: float
) -> Passes:
    """Return how bellied cloth passes solids: ``bellies`` are k of what is held and of what is backed."""
    backed = tack.cloths.backed
    held, pushed = (
        passes(tack, cut, asked, solids, belly, near_mm, which)
        for belly, which in zip(bellies, (~backed, backed), strict=True)
    )
    return Passes(*(np.where(backed, getattr(pushed, f.name), getattr(held, f.name)) for f in fields(Passes)))


def passes(
    tack: Tack, cut: Outlines, asked: Asked, solids: int, belly: float, near_mm: float, which: Mask
) -> Passes:
    """Return how some states of cloth, ``which`` (s,), pass solids; the others are left as out of reach.

    Bellied cloth differs from taut cloth only between supports: elsewhere it is not asked again.
    """
    found = out_of_reach(solids, len(tack.cloths))
    for every, luff, block in tack.blocks(cut, asked):
        hung = tack.edge(luff, block, 0.0).bridged[cut.height[asked.row[every]] % BLOCK]
        rows = every[hung] if belly else every
        if not len(rows):
            continue
        edge = tack.edge(luff, block, belly)
        depths = tack.depths(edge, cut, asked, rows, near_mm)
        states = np.flatnonzero((tack.cloths.luff == luff) & which)
        state, own = (part.reshape(-1) for part in np.indices((len(states), len(rows))))
        state, row = states[state], asked.row[rows[own]]
        chord = asked.chord[rows[own], state]
        slice_of = cut.height[row] % BLOCK
        there = np.flatnonzero((chord > 0) & ~edge.slices.inside[slice_of])
        at = cleared(edge, slice_of[there], depths[own[there]], chord[there])
        _keep(found, cut.solid[row[there]] * len(tack.cloths) + state[there], cut.height[row[there]], at)
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
