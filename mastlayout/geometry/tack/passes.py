"""How every state of cloth passes every solid of a fitting, at one place or at many."""

from dataclasses import fields

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, Mask, Whole
from mastlayout.geometry.tack.outlines import Outlines
from mastlayout.geometry.tack.reach import cleared, depths
from mastlayout.geometry.tack.tack import BLOCK, Asked, Tack


@dataclass(frozen=True, eq=False)
class Passes:
    """For q solids and s states: clearances ``held`` and ``loose`` (q, s) as in ``Cleared``.

    They are inf where out of reach. ``height`` (q, s) is the index of the height of the worse of the two.
    """

    held: Array
    loose: Array
    height: Whole

    def __getitem__(self, solids: Index) -> "Passes":
        return Passes(self.held[solids], self.loose[solids], self.height[solids])

    @property
    def nearest(self) -> Array:
        """The least clearance (q, s), held or loose."""
        return np.asarray(np.minimum(self.held, self.loose))

    def like(self, states: Whole) -> "Passes":
        """Return each state's (s,) as that of another."""
        return Passes(self.held[:, states], self.loose[:, states], self.height[:, states])


def taut(tack: Tack, cut: Outlines, asked: Asked, solids: int, near_mm: float) -> Passes:
    """Return how taut cloth passes ``solids`` solids whose outlines are ``cut``, where they are ``asked``.

    Backed cloth is asked by its belly: taut it lies as it does when it is held.
    """
    cloths = tack.cloths
    found = passes(tack, cut, asked, solids, 0.0, near_mm, ~cloths.backed)
    return found.like(cloths.held)


def out_of_reach(solids: int, states: int) -> Passes:
    """Return how cloth passes solids that are nowhere near it."""
    far = np.full((solids, states), np.inf)
    return Passes(far, far.copy(), np.zeros((solids, states), dtype=int))


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
    count = len(tack.cloths)
    found = [(np.empty(0, dtype=int), np.empty(0, dtype=int), np.empty(0), np.empty(0))]
    for own, every, slices in tack.edges(asked.luff, cut.height[asked.row]):
        there = ~own.slices.inside[slices] & (own.bridged[slices] | (not belly))
        rows, slice_of = every[there], slices[there]
        if not len(rows):
            continue
        edge = tack.bellied(own, belly) if belly else own
        row, chord = asked.row[rows], asked.chord[rows]
        lies = depths(edge, slice_of, cut.support[row], asked.away[rows], near_mm)
        of, state = np.nonzero((chord > 0) & which)
        at = cleared(edge, slice_of[of], lies[of], chord[of, state])
        found.append((cut.solid[row[of]] * count + state, cut.height[row[of]], at.held, at.loose))
    place, height, held, loose = (np.concatenate(parts) for parts in zip(*found, strict=True))
    return _least(out_of_reach(solids, count), place, height, held, loose)


def _least(found: Passes, place: Whole, height: Whole, held: Array, loose: Array) -> Passes:
    """Keep of each place (solid and state) the least, and where: of heights alike the highest of a block."""
    np.minimum.at(found.held.reshape(-1), place, held)
    np.minimum.at(found.loose.reshape(-1), place, loose)
    nearest = np.minimum(held, loose)
    # The least is written last, and stays; of two blocks alike the lower.
    order = np.lexsort((height, -(height // BLOCK), -nearest))
    order = order[np.isfinite(nearest[order])]
    found.height.reshape(-1)[place[order]] = height[order]
    return found
