"""What stands before a source in all its places, laid out by place and thing, and told by its bearings."""

from dataclasses import dataclass

import numpy as np

from mastlayout.checks.finding import Finding, Unit
from mastlayout.checks.graded import GradedMargins, Grades
from mastlayout.checks.rule import Batch, no_margins
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.ranges.hidden import Cast
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class ShadowMargins(GradedMargins):
    """Margins against s things: how much each covers at most (n, s), and over which bearings (n, s, 2)."""

    share: Array = None  # type: ignore[assignment]  # always given; a base class has defaults before it
    arc: Array = None  # type: ignore[assignment]


@dataclass(frozen=True, eq=False)
class Told:
    """What is told of q shadows: grade, figure and bearings of each, and what is asked."""

    grade: Whole
    measured: Array
    arc: Array
    required: float
    grades: Grades


def by_thing(batch: Batch, seen: Cast, told: Told) -> GradedMargins:
    """Lay out shadows by place and thing."""
    found = seen.found
    owners, hit = np.unique(found.owner, return_inverse=True)
    shape = (len(batch.places), len(owners))
    if not len(owners):
        return nothing(shape[0], told.grades)
    grade, measured, share = np.zeros(shape, dtype=np.intp), np.zeros(shape), np.zeros(shape)
    arc = np.full((*shape, 2), np.nan)
    at = (found.place, hit)
    grade[at], measured[at], share[at], arc[at] = told.grade, told.measured, found.share, told.arc
    return ShadowMargins(
        tuple((seen.ids[i],) for i in owners.tolist()),
        measured,
        np.full(shape, told.required),
        np.broadcast_to(batch.seats.origin[:, None, :], (*shape, 3)),
        (None,) * len(owners),
        grade=grade,
        grades=told.grades,
        share=share,
        arc=arc,
    )


def nothing(places: int, grades: Grades) -> GradedMargins:
    """Return margins of n places against nothing."""
    none = no_margins(places)
    return GradedMargins(
        (), none.measured, none.required, none.point, (),
        grade=np.empty((places, 0), dtype=np.intp), grades=grades,
    )  # fmt: skip


def told(placed: Placed, found: ShadowMargins, unit: Unit, limit: str | None) -> list[Finding]:
    """Say of each thing what it does, with its bearings."""
    return [_finding(placed, found, i, unit, limit) for i in np.flatnonzero(found.grade[0]).tolist()]


def _finding(placed: Placed, found: ShadowMargins, i: int, unit: Unit, limit: str | None) -> Finding:
    code, standing = found.grades[int(found.grade[0, i])]
    return Finding(
        code,
        standing,
        (placed.id, *found.subjects[i]),
        float(found.measured[0, i]),
        float(found.required[0, i]),
        unit,
        limit,
        z_mm=float(np.clip(found.point[0, i, 2], *placed.span_z_mm)),
        state=bearings(found.arc[0, i], float(found.share[0, i])),
    )


def bearings(arc: Array, share: float) -> str:
    """Write from where to where, and how much is covered: 168° to 192°, 43 % of it."""
    first, last = (round(float(bearing)) % 360 for bearing in arc)
    words = (
        _("{first:03d}° to {last:03d}°")
        if share >= 1.0
        else _("{first:03d}° to {last:03d}°, {share:.0f} % of it")
    )
    return words.format(first=first, last=last, share=100 * share)
