"""Holes of what is there already that nobody measured: where a new hole comes near, they are asked for."""

import numpy as np

from mastlayout.checks.holes import cut_out, diameters, will_be_drilled
from mastlayout.checks.openings import Windows, widths_of
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import HOLES_THERE


def beside_feet(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Say "not checked" of new holes near an old foot whose pattern is typical: nobody knows its holes.

    Near is within the spacing of the larger hole from the foot's outline, along the skin.
    """
    placed, holes, skin = batch.placed, batch.holes, batch.placed.skin
    if not will_be_drilled(placed) or holes is None or skin is None or not placed.foot_known:
        return no_margins(len(batch.places))
    asked = np.flatnonzero(~cut_out(holes)).tolist()
    others = [other for other in scene.placed.values() if _has_unknown_holes(other)]
    if not asked or not others:
        return no_margins(len(batch.places))
    own = np.nan_to_num(diameters(batch)[asked])
    measured = np.full((len(batch.places), len(others)), np.inf)
    low, high = holes.z_mm.min(axis=1), holes.z_mm.max(axis=1)
    order = np.argsort(low)
    tallest = float((high - low).max())
    for i, other in enumerate(others):
        window, widest = _foot_of(other), _widest(other)
        reach = limits["hole.spacing"].value * np.maximum(own, widest)
        tall = float(window.half_length_mm[0] + window.half_width_mm[0] + reach.max())
        start, end = np.searchsorted(low[order], (other.z_mm - tall - tallest, other.z_mm + tall))
        rows = order[start:end]
        if len(rows):
            at = (holes.girth_mm[rows][:, asked], holes.z_mm[rows][:, asked])
            off = window.from_edge(*at, skin)[..., 0]
            measured[rows[(off < reach).any(axis=1)], i] = np.nan
    return _unknown(batch, others, measured)


def _unknown(batch: Batch, others: list[Placed], measured: Array) -> Margins:
    kept = np.flatnonzero(np.isnan(measured).any(axis=0)).tolist()
    shape = (len(measured), len(kept))
    return Margins(
        tuple((batch.placed.id, others[i].id) for i in kept),
        measured[:, kept],
        np.full(shape, np.nan),
        np.broadcast_to(batch.seats.origin[:, None], (*shape, 3)),
        (HOLES_THERE,) * len(kept),
    )


def _has_unknown_holes(other: Placed) -> bool:
    return (
        not other.fitting.new
        and other.skin is not None
        and other.foot is not None
        and not other.foot_known
        and not other.kind.welded
        and widths_of(other) is not None
    )


def _widest(other: Placed) -> float:
    """Return the widest of what its kind's holes typically are; a cut-out is a thing of its edges."""
    foot, widths = other.foot, widths_of(other)
    round_ones = len(foot.holes) + (foot.entry is not None) if foot else 0
    return 0.0 if widths is None else float(widths.width_mm[:round_ones].max(initial=0.0))


def _foot_of(other: Placed) -> Windows:
    """Return a foot's outline as a window: its middle and half its sides."""
    foot = other.foot
    if foot is None:
        raise ValueError(other.id)
    turn = np.radians(other.places.turn_deg)
    across, along = foot.centre_across_mm, foot.centre_along_mm
    return Windows(
        (other.id,),
        (other.places.along_mm + along * np.cos(turn) - across * np.sin(turn))[:, None],
        (other.places.around + across * np.cos(turn) + along * np.sin(turn))[:, None],
        np.array([foot.across_mm / 2]),
        np.array([foot.along_mm / 2]),
        other.places.turn_deg,
    )


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "limits"})
BESIDE_FEET = Rule("hole/there", "hole.spacing", _DEPENDS, beside_feet, pairs=True, reach_mm=400.0)
