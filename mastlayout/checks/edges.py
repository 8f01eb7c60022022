"""Holes against the edges of the mast: its ends, the groove or track, the ends of a sleeve inside."""

from collections.abc import Callable

import numpy as np

from mastlayout.checks.holes import Block, assembled, cut_out, diameters, hole_ids, will_be_drilled
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.geometry.frames import Array, Whole, height_mm
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.mast import Mast, Track
from mastlayout.model.measure import Measure, measure_of


def ends(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's middle along the mast to the nearer end of the tube."""
    length = scene.skin.length_mm
    return _of_holes(batch, limits, lambda holes: _levels(holes, lambda z: np.minimum(z, length - z)))


def track(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's middle along the skin to the track or the groove: there its chamber counts."""
    there = scene.layout.mast.track
    edge, missing = (np.nan, measure_of(Mast, "track")) if there is None else (track_edge_mm(there), None)
    return _of_holes(
        batch,
        limits,
        lambda holes: (np.abs(holes.girth_mm[holes.sides.rows]) - edge, holes.sides.which),
        missing,
    )


def _levels(holes: Drilled, apart: Callable[[Array], Array]) -> tuple[Array, Whole]:
    """Measure heights alone, each level once: (u, h), and which of them each place has."""
    return apart(holes.z_mm[holes.levels.rows]), holes.levels.which


def track_edge_mm(there: Track) -> float:
    """Return how far from its middle a track ends, or the chamber of a groove."""
    return max(there.width_mm, there.chamber_mm if there.kind == "groove" else 0.0) / 2


def sleeve_ends(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's middle along the mast to the nearest end of a sleeve."""
    heights = np.array([end for low, high in _sleeves(scene) for end in (low, high)])
    if not len(heights):
        return no_margins(len(batch.places))
    return _of_holes(
        batch, limits, lambda holes: _levels(holes, lambda z: np.abs(z[..., None] - heights).min(axis=-1))
    )


def in_sleeve(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Find new fittings whose holes go through a sleeve too: minus how far the deepest lies inside it."""
    placed, holes, places = batch.placed, batch.holes, len(batch.places)
    sleeves = _sleeves(scene)
    if not will_be_drilled(placed) or holes is None or not len(holes) or not sleeves:
        return no_margins(places)
    z = holes.z_mm[holes.levels.rows]
    inside = [np.minimum(z - low, high - z).max(axis=1) for low, high in sleeves]
    deepest = np.max(inside, axis=0)[holes.levels.which, None]
    return Margins(
        ((placed.id, MAST),),
        np.where(deepest > 0.0, -deepest, np.inf),
        np.zeros((places, 1)),
        batch.seats.origin[:, None],
        (None,),
        typical=not placed.foot_known,
    )


def _sleeves(scene: Scene) -> list[tuple[float, float]]:
    """Return the lowest and the highest height of each sleeve."""
    length = scene.skin.length_mm
    return [
        (height_mm(length, stretch.to_mm), height_mm(length, stretch.from_masthead_mm))
        for stretch in scene.layout.mast.stretches or ()
        if stretch.kind == "sleeve"
    ]


def _of_holes(
    batch: Batch,
    limits: Limits,
    apart: Callable[[Drilled], tuple[Array, Whole]],
    missing: Measure | None = None,
) -> Margins:
    """Return margins of what ``apart`` measures: (u, h) of holes, and which of those each place has."""
    placed, holes = batch.placed, batch.holes
    if not will_be_drilled(placed) or holes is None or not len(holes):
        return no_margins(len(batch.places))
    own = diameters(batch)
    asked = np.flatnonzero(~np.isnan(own) & ~cut_out(holes)).tolist()
    if not asked:
        return no_margins(len(batch.places))
    found, which = apart(holes)
    measured = found[:, asked]
    names = tuple((hole_ids(batch)[i], MAST) for i in asked)
    if missing is not None:
        block = Block(
            ((MAST,),), measured[:, :1], np.array([np.nan]), np.array(asked[:1]), (missing,), which=which
        )
    else:
        required = limits["hole.edge"].value * own[asked]
        block = Block(names, measured, required, np.array(asked), (None,) * len(asked), which=which)
    return assembled([block], batch)


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "limits"})
ENDS = Rule("hole/mast-end", "hole.edge", _DEPENDS, ends, fault_below=np.inf, hint="edge")
TRACK = Rule("hole/track-edge", "hole.edge", _DEPENDS, track, fault_below=np.inf)
SLEEVE_ENDS = Rule("hole/sleeve-end", "hole.edge", _DEPENDS, sleeve_ends)
IN_SLEEVE = Rule("hole/sleeve", None, _DEPENDS, in_sleeve, fault_below=-np.inf, otherwise="note")
