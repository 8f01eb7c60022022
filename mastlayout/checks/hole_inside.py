"""Holes against what runs inside the mast: conduits and halyards, in the drill's own direction and depth."""

from collections.abc import Sequence

import numpy as np

from mastlayout.checks.holes import diameters, hole_id, will_be_drilled
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, no_margins
from mastlayout.geometry.frames import Array, Mask, height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.wall import thicknesses_mm
from mastlayout.limits import Limits
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of


def inside(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure the edge of each drill to what runs inside, as deep as a drill that breaks through may run.

    A cable entry is meant to meet the conduit of its own cable.
    """
    placed, holes = batch.placed, batch.holes
    places = len(batch.places)
    if not will_be_drilled(placed) or holes is None or not len(holes):
        return no_margins(places)
    reach, wanted = limits["drill.reach"].value, limits["hole.inside"].value
    tip = holes.point + reach * holes.direction
    half = np.nan_to_num(diameters(batch)) / 2
    subjects: list[tuple[str, ...]] = []
    measured: list[Array] = []
    points: list[Array] = []
    unknown: list[Measure | None] = []
    for thing in scene.inside:
        beside = _beside(thing, holes.z_mm)
        if not beside.any():
            continue
        if thing.unknown is not None:
            subjects.append((placed.id, thing.id))
            measured.append(np.where(beside.any(axis=1), np.nan, np.inf))
            points.append(batch.seats.origin)
            unknown.append(thing.unknown)
            continue
        own = _own_conduits(scene.layout, placed)
        apart, where = _to_legs(holes.point, tip, thing)
        for i, opening in enumerate(holes.openings):
            if opening.use == "entry" and thing.id in own:
                continue
            subjects.append((hole_id(placed, opening.number), thing.id))
            measured.append(np.where(beside[:, i], apart[:, i] - half[i], np.inf))
            points.append(where[:, i])
            unknown.append(None)
    if not subjects:
        return no_margins(places)
    return Margins(
        tuple(subjects),
        np.stack(measured, axis=1),
        np.full((places, len(subjects)), wanted),
        np.stack(points, axis=1),
        tuple(unknown),
        typical=not placed.foot_known,
    )


def past_drill(scene: Scene, batch: Batch, limits: Limits, asked: Sequence[int], far_mm: float) -> Margins:
    """Measure what goes ``far_mm`` in through some holes to what runs inside, where the drill passed clear.

    What the drill itself comes near is said by ``inside`` already; where a thing lies unknown, likewise.
    """
    holes, things = batch.holes, [thing for thing in scene.inside if thing.unknown is None]
    if holes is None or not asked or not things:
        return no_margins(len(batch.places))
    half = np.nan_to_num(diameters(batch))[asked] / 2
    point, way = holes.point[:, asked], holes.direction[:, asked]
    reach, spare = limits["drill.reach"].value, limits["hole.inside"].value
    measured, points = [], []
    for thing in things:
        drilled, _where = _to_legs(point, point + reach * way, thing)
        apart, where = _to_legs(point, point + far_mm * way, thing)
        said = drilled - half < spare - TOLERANCE_MM
        counts = _beside(thing, holes.z_mm[:, asked]) & ~said
        measured.append(np.where(counts, apart - half, np.inf))
        points.append(where)
    return Margins(
        tuple((hole_id(batch.placed, holes.openings[i].number), thing.id) for thing in things for i in asked),
        np.concatenate(measured, axis=1),
        np.full((len(batch.places), len(things) * len(asked)), limits["fastener.through"].value),
        np.concatenate(points, axis=1),
        (None,) * len(things) * len(asked),
        typical=not batch.placed.foot_known,
    )


def _beside(thing: Inside, z_mm: Array) -> Mask:
    """Tell which holes (n, h) are at a height where the thing is."""
    return np.asarray((z_mm >= thing.z_low_mm) & (z_mm <= thing.z_high_mm))


def _to_legs(start: Array, end: Array, thing: Inside) -> tuple[Array, Array]:
    """Return distances (n, h) from drill lines to a thing's surface, and the nearest points (n, h, 3)."""
    apart, where = leg_distance(start[..., None, :], end[..., None, :], thing.start, thing.end)
    apart = np.where(np.isnan(apart), np.inf, apart) - thing.radius_mm
    leg = np.argmin(apart, axis=-1)
    nearest = np.take_along_axis(where, leg[..., None, None], axis=-2)[..., 0, :]
    return np.take_along_axis(apart, leg[..., None], axis=-1)[..., 0], nearest


def _own_conduits(layout: Layout, placed: Placed) -> frozenset[str]:
    """Return the conduits of a fitting's cables, and of what it carries."""
    carried = {placed.id} | {fitting.id for fitting in layout.fittings if fitting.on == placed.id}
    return frozenset(
        cable.conduit for cable in layout.cables if cable.fitting in carried and cable.conduit is not None
    )


def wall(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Say "not checked" where no reading of the wall speaks for a hole: thread, grip and depth hang on it."""
    placed, places = batch.placed, len(batch.places)
    if not will_be_drilled(placed):
        return no_margins(places)
    heights = batch.places.along_mm[:, None]
    if batch.holes is not None and len(batch.holes):
        heights = batch.holes.z_mm
    known = ~np.isnan(walls_at(scene, heights)).any(axis=1)
    if known.all():
        return no_margins(places)
    measured = np.where(known, np.inf, np.nan)[:, None]
    return Margins(
        ((placed.id,),),
        measured,
        np.zeros((places, 1)),
        batch.seats.origin[:, None, :],
        (measure_of(Mast, "walls"),),
    )


def walls_at(scene: Scene, z_mm: Array) -> Array:
    """Return the wall at heights from the heel, any shape; nan where no reading speaks."""
    return thicknesses_mm(scene.layout.mast, height_mm(scene.skin.length_mm, z_mm))


INSIDE = Rule(
    "hole/inside", "hole.inside", frozenset({"mast", "fittings", "inside", "cables", "limits"}), inside
)
WALL = Rule("hole/wall", None, frozenset({"mast", "fittings"}), wall)
