"""Old holes that a new one takes: on the same middle, or cut away whole by the larger drill."""

import numpy as np

from mastlayout.checks.holes import Block, assembled, cut_out, diameters, hole_ids, table_of, will_be_drilled
from mastlayout.checks.neighbours import old_holes, pairs_near, taken
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits


def used(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, where a new hole takes an old one's place, how far their middles are apart.

    It is to be said wherever that is less than the new drill: what is taken lies within it.
    """
    return _margins(scene, batch, limits, larger=False)


def too_large(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Compare the drill with an old hole on the same middle: a larger one leaves the fastener loose."""
    return _margins(scene, batch, limits, larger=True)


def _margins(scene: Scene, batch: Batch, limits: Limits, *, larger: bool) -> Margins:
    placed, holes, places = batch.placed, batch.holes, len(batch.places)
    if not will_be_drilled(placed) or holes is None or placed.skin is None or not scene.layout.holes:
        return no_margins(places)
    others, own = old_holes(scene), np.where(cut_out(holes), np.nan, diameters(batch))
    if np.isnan(own).all():
        return no_margins(places)
    m, within = len(others.ids), limits["hole.reuse"].value
    pairs = pairs_near(placed.skin, holes, others, np.full(m, max(float(np.nanmax(own)) / 2, within)))
    diameter = others.diameter_mm[pairs.other, None]
    wide = diameter > own + within
    meets = taken(pairs, own, others, limits) & ~np.isnan(own) & (wide if larger else ~wide)
    pair, opening = np.nonzero(meets)
    measured = own[opening] if larger else pairs.apart[pair, opening]
    rows, columns, table = table_of(pairs.place[pair], opening * m + pairs.other[pair], measured)
    which, other = columns // m, columns % m
    ids = hole_ids(batch)
    block = Block(
        tuple((ids[i], others.ids[j]) for i, j in zip(which.tolist(), other.tolist(), strict=True)),
        table,
        others.diameter_mm[other] if larger else own[which],
        which,
        (None,) * len(columns),
        rows,
    )
    return assembled([block], batch)


_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
USED = Rule("hole/old-used", None, _DEPENDS, used, fault_below=-np.inf, otherwise="note")
TOO_LARGE = Rule("hole/old-large", None, _DEPENDS, too_large, fault_below=np.inf)
