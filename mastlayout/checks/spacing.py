"""Holes against holes along the skin, centre to centre: a foot's own, those of others, and old ones.

An old hole on the very middle of a new one, or cut away whole by it, is no neighbour: see old_holes.
"""

import numpy as np

from mastlayout.checks.holes import Block, assembled, cut_out, diameters, hole_ids, table_of, will_be_drilled
from mastlayout.checks.neighbours import Known, larger, others_near, pairs_near, round_skin, taken
from mastlayout.checks.rule import NEAR_MM, TOLERANCE_MM, Batch, Depends, Margins, Rule, no_margins
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits


def spacing(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole to its own neighbours, to the holes of others and to old holes, centre to centre."""
    placed, holes = batch.placed, batch.holes
    if not will_be_drilled(placed) or holes is None or placed.skin is None:
        return no_margins(len(batch.places))
    own = np.where(cut_out(holes), np.nan, diameters(batch))
    others = others_near(scene, placed, batch)
    blocks = [_own_pairs(batch, own, limits), _against(placed.skin, batch, own, others, limits)]
    return assembled(blocks, batch)


def _own_pairs(batch: Batch, own: Array, limits: Limits) -> Block | None:
    holes, skin = batch.holes, batch.placed.skin
    if holes is None or skin is None:
        return None
    drilled = np.flatnonzero(~cut_out(holes))
    i, j = (drilled[pair] for pair in np.triu_indices(len(drilled), 1))
    if not len(i):
        return None
    z, girth = holes.z_mm[holes.sides.rows], holes.girth_mm[holes.sides.rows]
    across = round_skin(girth[:, i] - girth[:, j], skin.half_girth(z[:, i]))
    apart = np.hypot(across, z[:, i] - z[:, j])
    required = limits["hole.spacing"].value * larger(own[i], own[j])
    ids = hole_ids(batch)
    names = tuple((ids[a], ids[b]) for a, b in zip(i.tolist(), j.tolist(), strict=True))
    return Block(names, apart, required, i, (None,) * len(i), which=holes.sides.which)


def _against(skin: Skin, batch: Batch, own: Array, others: Known, limits: Limits) -> Block | None:
    """Measure to others as far off as any of the drills wants them to be."""
    holes, m = batch.holes, len(others.ids)
    if holes is None or not m or not len(holes):
        return None
    required = limits["hole.spacing"].value * larger(own[:, None], others.diameter_mm)
    # A hole whose size nobody took is in the way only where some size would be.
    sizeless = np.array([measure is not None for measure in others.unknown], dtype=bool)
    reach = np.maximum(required.max(axis=0), np.where(sizeless, _SIZELESS_MM, 0.0))
    pairs = pairs_near(skin, holes, others, reach)
    wanted, lacks = required.T[pairs.other], sizeless[pairs.other, None]
    counts = ~taken(pairs, own, others, limits) & ~cut_out(holes)
    near = np.where(lacks, pairs.apart < _SIZELESS_MM, pairs.apart < wanted - TOLERANCE_MM) & counts
    pair, opening = np.nonzero(near)
    column = opening * m + pairs.other[pair]
    rows, columns, measured = table_of(pairs.place[pair], column, pairs.apart[pair, opening])
    which, other = columns // m, columns % m
    ids = hole_ids(batch)
    return Block(
        tuple((ids[i], others.ids[j]) for i, j in zip(which.tolist(), other.tolist(), strict=True)),
        measured,
        required[which, other],
        which,
        tuple(others.unknown[j] for j in other.tolist()),
        rows,
    )


# As near as the largest of the usual drills would matter.
_SIZELESS_MM = NEAR_MM / 3
_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
SPACING = Rule(
    "hole/spacing", "hole.spacing", _DEPENDS, spacing, pairs=True, fault_below=np.inf, hint="spacing"
)
