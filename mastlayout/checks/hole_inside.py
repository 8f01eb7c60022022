"""Holes against what runs inside the mast: conduits and halyards, in the drill's own direction and depth."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from mastlayout.checks.holes import diameters, hole_id, will_be_drilled
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole, height_mm
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.wall import thicknesses_mm
from mastlayout.limits import Limits
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of


@dataclass(frozen=True, eq=False)
class _Met:
    """One subject at n places: how near (n,), inf where it is far, and the worst points (n, 3)."""

    subject: tuple[str, ...]
    measured: Array
    point: Array
    unknown: Measure | None = None


def inside(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure the edge of each drill to what runs inside, as deep as a drill that breaks through may run.

    A cable entry is meant to meet the conduit of its own cable.
    """
    placed, holes = batch.placed, batch.holes
    if not will_be_drilled(placed) or holes is None or not len(holes):
        return no_margins(len(batch.places))
    return _margins(batch, list(_drills(scene, batch, holes, limits)), limits["hole.inside"].value)


def _drills(scene: Scene, batch: Batch, holes: Drilled, limits: Limits) -> Iterator[_Met]:
    """Yield what the drills come near, and what is beside them and lies nobody knows where."""
    reach, wanted = limits["drill.reach"].value, limits["hole.inside"].value
    own, half = _own_conduits(scene.layout, batch.placed), np.nan_to_num(diameters(batch)) / 2
    for thing in scene.inside:
        if thing.unknown is not None:
            yield from _somewhere(batch, holes, thing, thing.unknown)
            continue
        meant = thing.id in own
        asked = [i for i, o in enumerate(holes.openings) if not (meant and o.use == "entry")]
        row, i = _near(holes, asked, thing, reach, wanted + half)
        if not len(row):
            continue
        apart, where = _to_legs(holes, row, i, thing, reach)
        yield from _at(batch, holes, thing, (row, i), (apart - half[i], where), wanted)


def _somewhere(batch: Batch, holes: Drilled, thing: Inside, unknown: Measure) -> Iterator[_Met]:
    beside = _beside(thing, holes.z_mm[holes.levels.rows]).any(axis=1)
    if beside.any():
        measured = np.where(beside, np.nan, np.inf)[holes.levels.which]
        yield _Met((batch.placed.id, thing.id), measured, batch.seats.origin, unknown)


def past_drill(scene: Scene, batch: Batch, limits: Limits, asked: Sequence[int], far_mm: float) -> Margins:
    """Measure what goes ``far_mm`` in through some holes to what runs inside, where the drill passed clear.

    What the drill itself comes near is said by ``inside`` already; where a thing lies unknown, likewise.
    """
    holes = batch.holes
    if holes is None or not asked:
        return no_margins(len(batch.places))
    found = list(_bolts(scene, batch, holes, limits, asked, far_mm))
    return _margins(batch, found, limits["fastener.through"].value)


def _bolts(
    scene: Scene, batch: Batch, holes: Drilled, limits: Limits, asked: Sequence[int], far_mm: float
) -> Iterator[_Met]:
    half = np.nan_to_num(diameters(batch)) / 2
    reach, spare = limits["drill.reach"].value, limits["hole.inside"].value
    wanted = limits["fastener.through"].value
    for thing in (thing for thing in scene.inside if thing.unknown is None):
        row, i = _near(holes, asked, thing, far_mm, wanted + half)
        if not len(row):
            continue
        drilled, _where = _to_legs(holes, row, i, thing, reach)
        apart, where = _to_legs(holes, row, i, thing, far_mm)
        said = drilled - half[i] < spare - TOLERANCE_MM
        measured = np.where(said, np.inf, apart - half[i])
        yield from _at(batch, holes, thing, (row, i), (measured, where), wanted)


def _margins(batch: Batch, found: Sequence[_Met], required_mm: float) -> Margins:
    """Return what was met as margins, without what is said of at no place."""
    if not found:
        return no_margins(len(batch.places))
    return Margins(
        tuple(one.subject for one in found),
        np.stack([one.measured for one in found], axis=1),
        np.full((len(batch.places), len(found)), required_mm),
        np.stack([one.point for one in found], axis=1),
        tuple(one.unknown for one in found),
        typical=not batch.placed.foot_known,
    )


def _at(
    batch: Batch,
    holes: Drilled,
    thing: Inside,
    pair: tuple[Whole, Whole],
    found: tuple[Array, Array],
    required_mm: float,
) -> Iterator[_Met]:
    """Yield each hole that is too near at some of p places, elsewhere the thing is too far to matter.

    ``pair`` are place and opening (p,), ``found`` how near (p,) and the nearest points (p, 3).
    """
    short = np.flatnonzero(found[0] < required_mm - TOLERANCE_MM)
    row, opening = pair[0][short], pair[1][short]
    for i in np.flatnonzero(np.bincount(opening)).tolist():
        own = opening == i
        measured, point = np.full(len(batch.places), np.inf), batch.seats.origin.copy()
        measured[row[own]], point[row[own]] = found[0][short[own]], found[1][short[own]]
        yield _Met((hole_id(batch.placed, holes.openings[i].number), thing.id), measured, point)


def _beside(thing: Inside, z_mm: Array) -> Mask:
    """Tell of holes (any shape) whether they are at a height where the thing is."""
    return np.asarray((z_mm >= thing.z_low_mm) & (z_mm <= thing.z_high_mm))


def _near(
    holes: Drilled, asked: Sequence[int], thing: Inside, far_mm: float, wanted_mm: Array
) -> tuple[Whole, Whole]:
    """Return the places and openings (p,) beside a thing that come near it when followed so far in.

    Seen along the mast nothing is farther apart than in space, and what is seen there is alike at
    every height: it is worked out once for each side, where places share any.
    """
    level, sides, levels = np.array([1.0, 1.0, 0.0]), holes.sides, holes.levels
    if len(sides.rows) == len(holes.z_mm):
        rows, which = np.nonzero(_beside(thing, holes.z_mm[:, asked]))
        return rows, np.array(asked, dtype=np.intp)[which]
    side, i = np.divmod(np.arange(len(sides.rows) * len(asked)), max(len(asked), 1))
    i = np.array(asked, dtype=np.intp)[i]
    start, way = (part[sides.rows[side], i] * level for part in (holes.point, holes.direction))
    seen = replace(thing, start=thing.start * level, end=thing.end * level)
    apart = _apart(start, start + far_mm * way, seen)[0].min(axis=-1, initial=np.inf)
    near = np.asarray(apart < wanted_mm[i]).reshape(len(sides.rows), len(asked))
    beside = _beside(thing, holes.z_mm[levels.rows][:, asked])
    any_near, any_beside = np.asarray(near.any(axis=1)), np.asarray(beside.any(axis=1))
    rows = np.flatnonzero(any_near[sides.which] & any_beside[levels.which])
    row, which = np.nonzero(near[sides.which[rows]] & beside[levels.which[rows]])
    return rows[row], np.array(asked, dtype=np.intp)[which]


def _to_legs(holes: Drilled, row: Whole, i: Whole, thing: Inside, far_mm: float) -> tuple[Array, Array]:
    """Return distances (p,) of holes followed so far in to a thing, and the nearest points (p, 3) on them."""
    start = holes.point[row, i]
    apart, where = _apart(start, start + far_mm * holes.direction[row, i], thing)
    pair, leg = np.arange(len(row)), np.argmin(apart, axis=-1)
    return apart[pair, leg], where[pair, leg]


def _apart(start: Array, end: Array, thing: Inside) -> tuple[Array, Array]:
    """Return distances (p, k) from lines to a thing's k legs, inf for one in space nowhere, and points."""
    apart, where = leg_distance(start[:, None], end[:, None], thing.start, thing.end)
    return np.where(np.isnan(apart), np.inf, apart) - thing.radius_mm, where


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
    heights, which = batch.places.along_mm[:, None], np.arange(places)
    if batch.holes is not None and len(batch.holes):
        heights, which = batch.holes.z_mm[batch.holes.levels.rows], batch.holes.levels.which
    known = ~np.isnan(walls_at(scene, heights)).any(axis=1)
    if known.all():
        return no_margins(places)
    measured = np.where(known, np.inf, np.nan)[which, None]
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
