"""What may stand before a lens or an antenna: solids stood upright, each a hull of discs seen from above.

A solid's cut level with a lens is worked out for hundreds of thousands of places, so what it takes of
each solid is kept as plain rows: the discs at its first end, and how far they move to its second.
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Crowd
from mastlayout.geometry.frames import Array, Mask, Whole, mast_to_boat
from mastlayout.geometry.solids import Solids
from mastlayout.once import once

# A thing this steep is a pole or a wire, no wider than it is thick.
_STEEP = 0.7
_TINY_MM = 1e-6
# Corners of a solid's two level spans.
_SIGNS = np.array([(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)])


@dataclass(frozen=True, eq=False)
class Obstacles:
    """k upright solids that may hide, their owners (k,) among ``ids``, and the heights (k,) they reach.

    ``edged`` (k,) tells which have corners. ``corners`` (2, 4, 2, k) are their x and y at the first end and
    how far each moves to the second; ``radius`` (2, k) and ``foot`` (2, k) are the same of their radius and
    of the height of their middle line. ``middle`` (k, 2) and ``bound_mm`` (k,) hold each from above;
    ``thick_mm`` (k,) is how far each reaches above its middle line, ``across_mm`` (k,) how wide it can look.
    """

    ids: tuple[str, ...]
    owner: Whole
    low: Array
    high: Array
    edged: Mask
    corners: Array
    radius: Array
    foot: Array
    middle: Array
    bound_mm: Array
    thick_mm: Array
    across_mm: Array

    def kept(self, wanted: Mask) -> "Obstacles":
        """Return those (k,) that are wanted."""
        return Obstacles(
            self.ids, self.owner[wanted], self.low[wanted], self.high[wanted], self.edged[wanted],
            self.corners[..., wanted], self.radius[:, wanted], self.foot[:, wanted], self.middle[wanted],
            self.bound_mm[wanted], self.thick_mm[wanted], self.across_mm[wanted],
        )  # fmt: skip


def turned_upright(solids: Solids, rake_deg: float) -> Solids:
    """Return solids of the mast frame in the boat frame: upright, so that bearings are level ones."""
    return Solids(
        mast_to_boat(solids.ends, rake_deg),
        solids.radius,
        mast_to_boat(solids.axis, rake_deg),
        mast_to_boat(solids.spans, rake_deg),
        solids.round_mm,
    )


def obstacles_of(crowd: Crowd, rake_deg: float, least_mm: float, apart: frozenset[str]) -> Obstacles:
    """Return what of a crowd may hide a source, upright.

    Poles thinner than ``least_mm`` do not, nor an owner of whom nothing is as wide as that.
    """
    every = _upright(crowd, rake_deg)
    wanted = (2 * crowd.thick_mm >= least_mm) | (np.abs(crowd.solids.axis[:, 2]) < _STEEP)
    if apart:
        wanted &= ~np.array([name in apart for name in crowd.ids], dtype=bool)[crowd.owner]
    widest = np.zeros(len(crowd.ids))
    np.maximum.at(widest, crowd.owner[wanted], every.across_mm[wanted])
    return every.kept(wanted & (widest >= least_mm)[crowd.owner])


@once  # every lens is asked against the same crowd
def _upright(crowd: Crowd, rake_deg: float) -> Obstacles:
    return obstacles(crowd.ids, turned_upright(crowd.solids, rake_deg), crowd.owner)


def obstacles(ids: tuple[str, ...], solids: Solids, owner: Whole) -> Obstacles:
    """Return upright solids as obstacles."""
    level = np.sqrt(solids.spans[..., 0] ** 2 + solids.spans[..., 1] ** 2)
    order = np.argsort(-level.max(axis=1, initial=0.0), axis=1)[:, None, :, None]
    spans = np.take_along_axis(solids.spans, order, axis=2)
    low, high = solids.span_z()
    lean = np.sqrt(np.maximum(1.0 - solids.axis[:, 2] ** 2, 0.0))
    tall = np.abs(solids.spans[..., 2]).sum(axis=2).max(axis=1, initial=0.0)
    thick = solids.radius.max(axis=1, initial=0.0) * lean + solids.round_mm + tall
    # The third span is the steepest: what little of it lies level is taken as a rounding, never less than it.
    rounds = solids.radius + solids.round_mm[:, None] + np.sqrt((spans[:, :, 2, :2] ** 2).sum(axis=2))
    way = np.linalg.norm(solids.ends[:, 1, :2] - solids.ends[:, 0, :2], axis=1)
    across = way + 2 * (level.sum(axis=2) + solids.radius + solids.round_mm[:, None]).max(axis=1, initial=0.0)
    flat = np.einsum("cs,kesx->ekcx", _SIGNS, spans[:, :, :2, :2]) + solids.ends[:, :, None, :2].swapaxes(
        0, 1
    )
    return Obstacles(
        ids, owner, low, high, np.abs(solids.spans).max(axis=(1, 2, 3), initial=0.0) > _TINY_MM,
        _run(flat.transpose(0, 2, 3, 1)), _run(rounds.T), _run(solids.ends[:, :, 2].T),
        solids.centre[:, :2], solids.bound_mm, thick, across,
    )  # fmt: skip


def _run(ends: Array) -> Array:
    """Return the first of two rows, and how far it is from it to the second."""
    return np.ascontiguousarray(np.stack([ends[0], ends[1] - ends[0]]))


def level_cut(
    things: Obstacles, thing: Whole, z: Array, half_height: float, *, corners: bool
) -> tuple[Array, Array, Array]:
    """Return discs (m, p), x, y and radius: the cut of p things level with sources at heights z (p,)."""
    part = _level_part(things, thing, z, half_height)
    radius = things.radius[0][thing] + part * things.radius[1][thing]
    if not corners:
        # Without corners all four of them are its middle line.
        (x, y), (dx, dy) = things.corners[0, 0][:, thing], things.corners[1, 0][:, thing]
        return x + part * dx, y + part * dy, radius
    first, move = things.corners[0][..., thing], things.corners[1][..., thing]
    discs = first[:, None] + part[:, None] * move[:, None]
    discs = discs.reshape(len(_SIGNS) * len(part), 2, len(thing))
    return discs[:, 0], discs[:, 1], np.concatenate([radius] * len(_SIGNS))


def _level_part(things: Obstacles, thing: Whole, z: Array, half_height: float) -> Array:
    """Return the part (2, p), 0 to 1 from the first end, of each thing that is level with its source."""
    first, rise = things.foot[0][thing], things.foot[1][thing]
    steep = np.abs(rise) > 1.0
    over = np.where(steep, rise, 1.0)
    reach, off = half_height + things.thick_mm[thing], z - first
    cuts: Array = np.clip(np.stack([(off - reach) / over, (off + reach) / over]), 0.0, 1.0)
    cuts[0][~steep], cuts[1][~steep] = 0.0, 1.0
    return cuts
