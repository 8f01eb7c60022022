"""Holes against holes along the skin, centre to centre: a foot's own, those of others, and old ones.

An old hole on the very middle of a new one, or cut away whole by it, is no neighbour: see old_holes.
"""

import numpy as np

from mastlayout.checks.holes import Block, assembled, cut_out, diameters, hole_ids, will_be_drilled
from mastlayout.checks.neighbours import Known, apart_mm, larger, near_rows, others_near, round_skin, taken
from mastlayout.checks.rule import NEAR_MM, Batch, Depends, Margins, Rule, no_margins
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
    across = round_skin(holes.girth_mm[:, i] - holes.girth_mm[:, j], skin.half_girth(holes.z_mm[:, i]))
    apart = np.hypot(across, holes.z_mm[:, i] - holes.z_mm[:, j])
    required = limits["hole.spacing"].value * larger(own[i], own[j])
    ids = hole_ids(batch)
    names = tuple((ids[a], ids[b]) for a, b in zip(i.tolist(), j.tolist(), strict=True))
    return Block(names, apart, required, i, (None,) * len(i))


def _against(skin: Skin, batch: Batch, own: Array, others: Known, limits: Limits) -> Block | None:
    holes, m = batch.holes, len(others.ids)
    if holes is None or not m:
        return None
    asked, rows = np.flatnonzero(~cut_out(holes)), near_rows(batch, others)
    apart = apart_mm(skin, batch, others, rows)[:, asked]
    apart = np.where(taken(apart, own[asked, None], others, limits), np.inf, apart)
    apart = apart.reshape(len(apart), len(asked) * m)
    required = limits["hole.spacing"].value * larger(own[asked, None], others.diameter_mm).ravel()
    ids = hole_ids(batch)
    names = tuple((ids[i], other) for i in asked.tolist() for other in others.ids)
    # A hole whose size nobody took is in the way only where some size would be.
    unknown = others.unknown * len(asked)
    sizeless = np.array([measure is not None for measure in unknown], dtype=bool)
    apart = np.where(sizeless & ~(apart < NEAR_MM / 3), np.inf, apart)
    return Block(names, apart, required, np.repeat(asked, m), unknown, rows)


_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
SPACING = Rule(
    "hole/spacing", "hole.spacing", _DEPENDS, spacing, pairs=True, fault_below=np.inf, hint="spacing"
)
