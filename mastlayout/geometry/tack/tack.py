"""The tack of a whole layout: every headsail's states past all that holds cloth, worked out as asked.

What holds is worked out a block of heights at a time, the first time
anything is asked there, and kept as long as mast, rig and sails stay the same.
"""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import Cloths, cloths
from mastlayout.geometry.tack.holding import Holding, Rig, holding
from mastlayout.geometry.tack.outlines import STEP_MM, Outlines
from mastlayout.geometry.tack.reach import Boundary, Depths, boundary, depths, distance_from, sliced
from mastlayout.limits import limits_of
from mastlayout.model.layout import Layout

BLOCK = 32


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
    _known: dict[tuple[int, int, float], Boundary] = field(default_factory=dict)

    @property
    def heights(self) -> int:
        """How many heights are cut, from the heel up."""
        return int(self.rig.skin.length_mm // STEP_MM) + 1

    def edge(self, luff: int, block: int, belly: float) -> Boundary:
        """Return what holds the cloth of one luff in one block of heights."""
        key = (luff, block, belly)
        if key not in self._known and belly:
            self._known[key] = self.edge(luff, block, 0.0).bellied(belly)
        elif key not in self._known:
            z_mm = self._z_mm(block)
            held = self.holding(block)
            point = self.cloths.luffs.point(np.full(len(z_mm), luff), z_mm)
            self._known[key] = boundary(sliced(point, held.support, held.name))
        return self._known[key]

    def holding(self, block: int) -> Holding:
        """Return what holds cloth in one block of heights."""
        if block not in self._held:
            self._held[block] = holding(self.rig, self._z_mm(block))
        return self._held[block]

    @cached_property
    def not_asked_mm(self) -> Array:
        """The heights (k,) at which cloth goes by whose luff lies inside what holds it: untold."""
        found = [np.empty(0)]
        for state in np.flatnonzero(~self.cloths.backed):
            for block in range(-(-self.heights // BLOCK)):
                z_mm = self._z_mm(block)
                inside = self.edge(int(self.cloths.luff[state]), block, 0.0).slices.inside
                found.append(z_mm[inside & (self.cloths.chord(np.full(len(z_mm), state), z_mm) > 0)])
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

    def blocks(self, outlines: Outlines, asked: Asked) -> list[tuple[Whole, int, int]]:
        """Return the rows of each luff and block that is asked: rows, luff, block."""
        block = outlines.height[asked.row] // BLOCK
        pairs, back = np.unique(np.stack([asked.luff, block], axis=1), axis=0, return_inverse=True)
        return [
            (np.flatnonzero(back.reshape(-1) == i), int(luff), int(own))
            for i, (luff, own) in enumerate(pairs)
        ]

    def depths(self, edge: Boundary, outlines: Outlines, asked: Asked, rows: Whole, near_mm: float) -> Depths:
        """Return how the outlines of some rows, of one luff and block, lie to its boundary."""
        row = asked.row[rows]
        return depths(edge, outlines.height[row] % BLOCK, outlines.support[row], asked.away[rows], near_mm)


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
