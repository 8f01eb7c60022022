"""Holes against holes and against the edge of their foot, along the skin.

Only what will be drilled is asked: the openings of new fittings. What is there already stands
against them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.fastening.drill import drill_mm
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.fitting import IN_HAND, OldHole
from mastlayout.model.measure import Measure, measure_of

# Holes farther apart than this along the mast are not compared; no limit reaches so far.
_NEAR_MM = 150.0


@dataclass(frozen=True, eq=False)
class Known:
    """One hole that stands against others: where on the developed skin, and its diameter if known."""

    id: str
    z_mm: float
    girth_mm: float
    diameter_mm: float | None
    unknown: Measure | None = None


def hole_id(placed: Placed, number: int) -> str:
    """Return the id of an opening: ``hailer-1/h2``."""
    return f"{placed.id}/h{number}"


def will_be_drilled(placed: Placed) -> bool:
    """Tell whether the fitting's holes are still to be made: a new one, on the mast."""
    return placed.fitting.new and placed.skin is not None and placed.holes is not None


def diameters(batch: Batch) -> Array:
    """Return the drills (h,) of a batch's openings, nan where no table has one."""
    if batch.holes is None:
        return np.empty(0)
    sizes = [drill_mm(opening) for opening in batch.holes.openings]
    return np.array([np.nan if size is None else size for size in sizes])


def spacing(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole to its own neighbours, to the holes of others and to old holes, centre to centre."""
    placed, holes = batch.placed, batch.holes
    if not will_be_drilled(placed) or holes is None or placed.skin is None:
        return no_margins(len(batch.places))
    others = list(_others(scene, placed, batch))
    own = diameters(batch)
    columns = [*_own_pairs(batch, own, limits), *_against(placed.skin, batch, own, others, limits)]
    return _assembled(columns, len(batch.places), typical=not placed.foot_known)


@dataclass(frozen=True, eq=False)
class _Column:
    subjects: tuple[str, ...]
    measured: Array
    required: float
    point: Array
    unknown: Measure | None = None


def _own_pairs(batch: Batch, own: Array, limits: Limits) -> Iterator[_Column]:
    holes, placed = batch.holes, batch.placed
    if holes is None:
        return
    half = placed.skin.full.half_girth_mm if placed.skin else 0.0
    for i in range(len(holes)):
        for j in range(i + 1, len(holes)):
            across = _round(holes.girth_mm[:, i] - holes.girth_mm[:, j], half)
            apart = np.hypot(across, holes.z_mm[:, i] - holes.z_mm[:, j])
            required = limits["hole.spacing"].value * float(np.nanmax([own[i], own[j], 0.0]))
            names = (hole_id(placed, holes.openings[i].number), hole_id(placed, holes.openings[j].number))
            yield _Column(names, apart, required, holes.point[:, i])


def _against(skin: Skin, batch: Batch, own: Array, others: list[Known], limits: Limits) -> Iterator[_Column]:
    holes = batch.holes
    if holes is None:
        return
    half = skin.full.half_girth_mm
    for i, opening in enumerate(holes.openings):
        for other in others:
            across = _round(holes.girth_mm[:, i] - other.girth_mm, half)
            apart = np.hypot(across, holes.z_mm[:, i] - other.z_mm)
            largest = max(float(np.nan_to_num(own[i])), other.diameter_mm or 0.0)
            required = limits["hole.spacing"].value * largest
            # A hole whose size nobody took is in the way only where some size would be.
            missing = other.unknown if float(np.nanmin(apart)) < _NEAR_MM / 3 else None
            yield _Column(
                (hole_id(batch.placed, opening.number), other.id), apart, required, holes.point[:, i], missing
            )


def _round(difference: Array, half: float) -> Array:
    return np.asarray((difference + half) % (2 * half) - half)


def _others(scene: Scene, placed: Placed, batch: Batch) -> Iterator[Known]:
    heights = batch.holes.z_mm if batch.holes else batch.places.along_mm
    low, high = float(heights.min()) - _NEAR_MM, float(heights.max()) + _NEAR_MM
    for other in scene.placed.values():
        if other is not placed and other.id != placed.id and other.holes is not None and other.foot_known:
            yield from _holes_of(other, low, high)
    for old in scene.layout.holes:
        z = height_mm(scene.skin.length_mm, old.from_masthead_mm)
        if low < z < high:
            unknown = measure_of(OldHole, "diameter_mm") if old.diameter_mm is None else None
            yield Known(old.id, z, scene.skin.girth_of(old.girth, z), old.diameter_mm, unknown)


def _holes_of(other: Placed, low: float, high: float) -> Iterator[Known]:
    if other.holes is None:
        return
    for i, opening in enumerate(other.holes.openings):
        z, girth = float(other.holes.z_mm[0, i]), float(other.holes.girth_mm[0, i])
        if low < z < high and not np.isnan(girth):
            yield Known(hole_id(other, opening.number), z, girth, drill_mm(opening))


def _assembled(columns: list[_Column], places: int, *, typical: bool) -> Margins:
    if not columns:
        return no_margins(places)
    return Margins(
        tuple(column.subjects for column in columns),
        np.stack([column.measured for column in columns], axis=1),
        np.broadcast_to(np.array([column.required for column in columns]), (places, len(columns))),
        np.stack([column.point for column in columns], axis=1),
        tuple(column.unknown for column in columns),
        typical,
    )


def foot_edge(_scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's centre to the edge of its own foot; a cable entry may stand outside it."""
    placed, holes, foot = batch.placed, batch.holes, batch.placed.foot
    if not will_be_drilled(placed) or holes is None or foot is None:
        return no_margins(len(batch.places))
    own, columns = diameters(batch), []
    for i, opening in enumerate(holes.openings):
        if opening.use != "hole" or np.isnan(own[i]):
            continue
        inside = min(
            foot.across_mm / 2 - abs(opening.across_mm - foot.centre_across_mm),
            foot.along_mm / 2 - abs(opening.along_mm - foot.centre_along_mm),
        )
        required = limits["hole.edge"].value * float(own[i])
        columns.append(
            _Column(
                (hole_id(placed, opening.number),),
                np.full(len(batch.places), inside),
                required,
                holes.point[:, i],
            )
        )
    return _assembled(columns, len(batch.places), typical=not placed.foot_known)


def foot_in_hand(_scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Say "not checked" of a new fitting whose foot nobody has confirmed from the part in hand."""
    places = len(batch.places)
    if not will_be_drilled(batch.placed) or batch.placed.foot_known:
        return no_margins(places)
    nothing = np.full((places, 1), np.nan)
    return Margins(((batch.placed.id,),), nothing, nothing, batch.seats.origin[:, None, :], (IN_HAND,))


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "limits"})
SPACING = Rule("hole/spacing", "hole.spacing", _DEPENDS, spacing, pairs=True)
FOOT_EDGE = Rule("hole/foot-edge", "hole.edge", _DEPENDS, foot_edge)
FOOT_IN_HAND = Rule("hole/foot-typical", None, _DEPENDS, foot_in_hand)
