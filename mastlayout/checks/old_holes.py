"""Old holes that a new one takes: on the same middle, or cut away whole by the larger drill."""

import numpy as np

from mastlayout.checks.holes import Block, assembled, cut_out, diameters, hole_ids, will_be_drilled
from mastlayout.checks.neighbours import Known, apart_mm, near_rows, old_holes, taken
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.geometry.frames import Array
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
    others, asked = old_holes(scene), np.flatnonzero(~cut_out(holes))
    if not len(asked):
        return no_margins(places)
    own, rows = diameters(batch)[asked, None], near_rows(batch, others)
    apart = apart_mm(placed.skin, batch, others, rows)[:, asked]
    meets = taken(apart, own, others, limits)
    wide = np.broadcast_to(others.diameter_mm > own + limits["hole.reuse"].value, apart.shape)
    drill = np.broadcast_to(own, apart.shape)
    block = Block(
        _names(hole_ids(batch), asked.tolist(), others),
        _flat(np.where(meets & wide, drill, np.inf) if larger else np.where(meets & ~wide, apart, np.inf)),
        np.nan_to_num(np.broadcast_to(others.diameter_mm if larger else own, apart.shape[1:])).ravel(),
        np.repeat(asked, len(others.ids)),
        (None,) * (len(asked) * len(others.ids)),
        rows,
    )
    return assembled([block], batch)


def _flat(values: Array) -> Array:
    return values.reshape(len(values), values.shape[1] * values.shape[2])


def _names(ids: list[str], asked: list[int], others: Known) -> tuple[tuple[str, ...], ...]:
    return tuple((ids[i], other) for i in asked for other in others.ids)


_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
USED = Rule("hole/old-used", None, _DEPENDS, used, fault_below=-np.inf, otherwise="note")
TOO_LARGE = Rule("hole/old-large", None, _DEPENDS, too_large, fault_below=np.inf)
