"""Halyards inside the mast against fasteners: bolts right through it, and the ends of screws.

A bolt in a smooth tube a halyard may hang beside; one in its way it chafes on. The drill of a hole
that is still to be made the rules about holes follow, deeper than any screw.
"""

from collections.abc import Callable, Iterator

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.holes import hole_id, will_be_drilled
from mastlayout.checks.inside import passes
from mastlayout.checks.rule import (
    TOLERANCE_MM,
    Batch,
    Depends,
    Margins,
    Rule,
    WholeRule,
    no_margins,
    where_it_stands,
)
from mastlayout.fastening.drill import drill_mm
from mastlayout.geometry.across import Across, bolts, pattern, screws, shares_a_bolt
from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits


def bolt_margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure the bolts that go right through the mast, in their tubes, to the halyards inside."""
    holes = pattern(batch.placed, batch.places, batch.seats)
    found = bolts(batch.placed, holes)
    if found is None or holes is None:
        return no_margins(len(batch.places))
    half = _halves(holes, found) + limits["inside.tube"].value
    return _to_halyards(scene, batch, found, half, limits)


def through(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the bolts a halyard is too near; one that holds two fittings, with the first of them."""
    if all(line.unknown is not None for line in scene.halyards):
        return
    seen: list[Placed] = []
    for placed in scene.placed.values():
        foot = placed.foot
        if foot is None or not any(hole.fastener.how == "through" for hole in foot.holes):
            continue
        if not any(shares_a_bolt(placed, other) for other in seen):
            found = bolt_margins(scene, where_it_stands(placed), limits)
            yield from _judge("inside/bolt", "note")(placed, found, limits)
        seen.append(placed)


def screw_margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure the ends of screws that are there already to the halyards inside."""
    placed = batch.placed
    holes = None if will_be_drilled(placed) else pattern(placed, batch.places, batch.seats)
    found = screws(holes, limits["inside.screw"].value)
    if found is None or holes is None:
        return no_margins(len(batch.places))
    return _to_halyards(scene, batch, found, _halves(holes, found), limits)


def _halves(holes: Drilled, found: Across) -> Array:
    drills = {opening.number: drill_mm(opening) for opening in holes.openings}
    return np.array([(drills[number] or 0.0) / 2 for number in found.number])


def _to_halyards(scene: Scene, batch: Batch, found: Across, half: Array, limits: Limits) -> Margins:
    """Measure fasteners (n, k) to the halyards whose way inside is known, its own left out."""
    passed = passes(scene)
    lines = [
        line for line in scene.halyards if line.unknown is None and batch.placed.id not in passed[line.id]
    ]
    places = len(batch.places)
    if not lines:
        return no_margins(places)
    subjects, measured, points = [], [], []
    for line in lines:
        apart, where = leg_distance(found.start[:, :, None], found.end[:, :, None], line.start, line.end)
        apart = np.where(np.isnan(apart), np.inf, apart)
        leg = apart.argmin(axis=2)[..., None]
        measured.append(np.take_along_axis(apart, leg, axis=2)[..., 0] - half - line.radius_mm)
        points.append(np.take_along_axis(where, leg[..., None], axis=2)[:, :, 0])
        subjects += [(hole_id(batch.placed, number), line.id) for number in found.number]
    every = np.concatenate(measured, axis=1)
    return Margins(
        tuple(subjects),
        every,
        np.full(every.shape, limits["inside.apart"].value),
        np.concatenate(points, axis=1),
        (None,) * len(subjects),
        typical=not batch.placed.foot_known,
    )


def _judge(code: str, near: Standing) -> Callable[[Placed, Margins, Limits], list[Finding]]:
    """Return what says of each fastener which halyards it is too near, with the least of their gaps."""

    def judge(_placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
        """Say each fastener once."""
        of_hole: dict[str, list[int]] = {}
        for i in np.flatnonzero(found.short[0]).tolist():
            of_hole.setdefault(found.subjects[i][0], []).append(i)
        return [_finding(code, near, found, rows) for rows in of_hole.values()]

    return judge


def _finding(code: str, near: Standing, found: Margins, rows: list[int]) -> Finding:
    least = min(rows, key=lambda i: float(found.measured[0, i]))
    measured = float(found.measured[0, least])
    return Finding(
        code,
        near if measured >= -TOLERANCE_MM else "caution",
        (found.subjects[least][0], *(found.subjects[i][1] for i in rows)),
        measured,
        float(found.required[0, least]),
        limit="inside.apart",
        z_mm=float(found.point[0, least, 2]),
        typical=found.typical,
    )


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "inside", "limits"})
BOLTS = WholeRule("inside/bolt", _DEPENDS, through)
SCREWS = Rule(
    "inside/screw", "inside.apart", _DEPENDS, screw_margins, judge=_judge("inside/screw", "caution")
)
