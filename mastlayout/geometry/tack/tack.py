"""The tack of a whole layout: every headsail's states past all that holds cloth, worked out as asked.

What holds is worked out a block of heights at a time, the first time
anything is asked there, and kept as long as mast, rig and sails stay the same.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import Cloths, cloths
from mastlayout.geometry.tack.holding import Holding, Rig, holding, padded, parted
from mastlayout.geometry.tack.outlines import STEP_MM, Outlines
from mastlayout.geometry.tack.reach import Boundary, boundary, distance_from, sliced
from mastlayout.limits import limits_of
from mastlayout.model.layout import Layout

BLOCK = 32
# So many blocks of luffs are worked out at once, where they have at most so many supports: the number of
# a group holds the slice's, too. And so many outlines are held against them: their arrays stay small.
_AT_ONCE, _FEW, _ROWS = 8, 52, 512


@dataclass(frozen=True, eq=False)
class Asked:
    """r outlines, each against one luff: ``row`` (r,) in the outlines, ``luff`` (r,), how far ``away``.

    ``chord`` (r, s) is the longest cloth of each state that comes past there, 0 of one on another luff.
    """

    row: Whole
    luff: Whole
    away: Array
    chord: Array

    def __getitem__(self, rows: Whole) -> "Asked":
        return Asked(self.row[rows], self.luff[rows], self.away[rows], self.chord[rows])


@dataclass(frozen=True, eq=False)
class Tack:
    """The states of cloth, what holds it at every height, and the boundaries worked out so far."""

    cloths: Cloths
    rig: Rig
    _held: dict[int, Holding] = field(default_factory=dict)
    _known: dict[tuple[int, int], tuple[Boundary, int]] = field(default_factory=dict)
    _bellied: dict[tuple[int, float], Boundary] = field(default_factory=dict)

    @property
    def heights(self) -> int:
        """How many heights are cut, from the heel up."""
        return int(self.rig.skin.length_mm // STEP_MM) + 1

    def edges(self, luff: Whole, height: Whole) -> Iterator[tuple[Boundary, Whole, Whole]]:
        """Yield what holds the cloth of luffs (r,) at heights (r,) of the grid.

        Each boundary with the rows it speaks of, some at a time, and the slice of it that each is in.
        """
        pairs, back = np.unique(height // BLOCK * len(self.cloths.luffs) + luff, return_inverse=True)
        which = [divmod(pair, len(self.cloths.luffs))[::-1] for pair in pairs.tolist()]
        self._work_out([pair for pair in which if pair not in self._known])
        known = [self._known[pair] for pair in which]
        number = {id(edge): edge for edge, _first in known}
        back = back.reshape(-1)
        first = np.array([own for _edge, own in known], dtype=int)[back] + height % BLOCK
        own_edge = np.array([id(edge) for edge, _first in known])[back]
        for name, edge in number.items():
            every = np.flatnonzero(own_edge == name)
            for start in range(0, len(every), _ROWS):
                rows = every[start : start + _ROWS]
                yield edge, rows, first[rows]

    def _work_out(self, pairs: list[tuple[int, int]]) -> None:
        """Work out the boundaries of luffs in blocks of heights, some at once."""
        self.hold({block for _luff, block in pairs})
        widest = max((self._held[block].support.shape[1] for _luff, block in pairs), default=0)
        at_once = _AT_ONCE if widest <= _FEW else 1
        for start in range(0, len(pairs), at_once):
            own = pairs[start : start + at_once]
            held = [self._held[block] for _luff, block in own]
            points = [self._points(*pair) for pair in own]
            edge = boundary(sliced(np.concatenate(points), *padded(held)))
            firsts = np.cumsum([0, *(len(one.name) for one in held)]).tolist()
            self._known.update((pair, (edge, first)) for pair, first in zip(own, firsts, strict=False))

    def _points(self, luff: int, block: int) -> Array:
        z_mm = self._z_mm(block)
        return self.cloths.luffs.point(np.full(len(z_mm), luff), z_mm)

    def bellied(self, edge: Boundary, belly: float) -> Boundary:
        """Return one of ``edges`` for cloth that hangs in between two supports by a part of their span."""
        key = (id(edge), belly)
        if key not in self._bellied:
            self._bellied[key] = edge.bellied(belly)
        return self._bellied[key]

    def holding(self, block: int) -> Holding:
        """Return what holds cloth in one block of heights."""
        self.hold({block})
        return self._held[block]

    def hold(self, blocks: Iterable[int]) -> None:
        """Work out what holds cloth in blocks of heights, as far as that is not known."""
        asked = sorted(set(blocks) - self._held.keys())
        if asked:
            heights = [self._z_mm(block) for block in asked]
            every = parted(holding(self.rig, np.concatenate(heights)), [len(z_mm) for z_mm in heights])
            self._held.update(zip(asked, every, strict=True))

    @cached_property
    def not_asked_mm(self) -> Array:
        """The heights (k,) at which cloth goes by whose luff lies inside what holds it: untold."""
        found = [np.empty(0)]
        height = np.arange(self.heights)
        z_mm = np.asarray(height * STEP_MM)
        for state in np.flatnonzero(~self.cloths.backed):
            there = height[self.cloths.chord(np.full(self.heights, state), z_mm) > 0]
            for edge, rows, at in self.edges(np.full(len(there), self.cloths.luff[state]), there):
                found.append(z_mm[there[rows[edge.slices.inside[at]]]])
        return np.unique(np.concatenate(found))

    def _z_mm(self, block: int) -> Array:
        return np.asarray(np.arange(block * BLOCK, min((block + 1) * BLOCK, self.heights)) * STEP_MM)

    def reached(self, outlines: Outlines, near_mm: float) -> Asked:
        """Return each outline against each luff on which some cloth comes within ``near_mm`` of it."""
        luffs, q = len(self.cloths.luffs), len(outlines.height)
        luff, row = (part.reshape(-1) for part in np.indices((luffs, q)))
        z_mm = np.asarray(outlines.height[row] * STEP_MM)
        point = self.cloths.luffs.point(luff, z_mm)
        support = outlines.support[row]
        away = distance_from(point, support)
        swung = _swung(point, support)
        chord = np.zeros((len(row), len(self.cloths)))
        # Each state against every outline, as its own luff sees it: all at once.
        state = np.repeat(np.flatnonzero(~self.cloths.backed), q)
        own = self.cloths.luff[state] * q + np.tile(np.arange(q), len(state) // max(q, 1))
        chord[own, state] = self.cloths.longest(state, z_mm[own], swung[own])
        longest = chord.max(axis=1, initial=0.0)
        chord = chord[:, self.cloths.held]
        asked = np.flatnonzero((longest > 0) & (away <= longest + near_mm))
        return Asked(row, luff, away, chord)[asked]


def _swung(point: Array, support: Array) -> Array:
    """Return how far off the centreline (r,) outlines are seen at most; beyond abeam counts as abeam."""
    quarter = support.shape[1] // 4
    port, starboard = support[:, quarter] - point[:, 1], support[:, 3 * quarter] + point[:, 1]
    abaft = np.maximum(point[:, 0] - support[:, 0], 0.0)
    return np.asarray(np.arctan2(np.maximum(port, starboard).clip(0.0), abaft))


def tack_of(
    layout: Layout, skin: Skin, spreaders: Mapping[str, SpreaderInSpace], stays: Mapping[str, StayInSpace]
) -> Tack:
    """Return the tack of a layout; without a measured prebend the mast is taken as straight."""
    limits = limits_of(layout)
    bend = Bend(skin.length_mm, skin.mast.prebend_mm or 0.0)
    sails = cloths(
        layout.sails,
        stays,
        bend,
        limits["tack.foil"].value,
        limits["tack.sag"].value / 100.0,
        layout.boat.deck_above_heel_mm or 0.0,
    )
    return Tack(sails, Rig(skin, spreaders, stays, bend))
