"""What hides or dims a navigation light: dark arcs by Rule 21's sectors, with the lens as wide as it is.

Upright, as the rules draw them, over the band 5 degrees above and below the level. A light's own
case and hoop are left out: they are the maker's, who answers for the light as a whole. How far an
opened sail or the boom hides it is not asked: the rules bind masts and structures.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.graded import GradedMargins, Grades
from mastlayout.checks.rule import Batch, Margins, Rule, no_margins
from mastlayout.geometry.arcs import Shadows, overlap_deg
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.ranges.hidden import Cast, cast
from mastlayout.ranges.lights import ANCHOR, Lens, Role, lenses
from mastlayout.words import _

GRADES: Grades = (
    ("", "note"),
    ("arcs/anchor", "caution"),
    ("arcs/dimmed", "caution"),
    ("arcs/hidden", "fault"),
    ("arcs/edge", "fault"),
)
_ANCHOR, _DIMMED, _HIDDEN, _EDGE = 1, 2, 3, 4
# Hidden arcs are told to the tenth of a degree: what rounds to its limit is at its limit.
_TOLERANCE_DEG = 0.05
_LOUDER = 1e3


@dataclass(frozen=True, eq=False)
class ArcMargins(GradedMargins):
    """Margins of a light against s things: the role (n, s) that is hurt most, its share and bearings."""

    roles: tuple[Role, ...] = ()
    role: Whole = None  # type: ignore[assignment]  # always given; a base class has defaults before it
    share: Array = None  # type: ignore[assignment]
    arc: Array = None  # type: ignore[assignment]


def margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, in degrees, what each thing takes of a light's arcs at its places."""
    dims, band = limits["light.dim"].value / 100.0, limits["light.band"].value
    glass = lenses(batch.placed)
    if not glass:
        return no_margins(len(batch.places))
    found = [(lens, cast(scene, batch.placed, batch.solids, (lens.solid,), dims, band)) for lens in glass]
    # Every lens of a fitting is asked against the same things, numbered alike.
    owners, hit = np.unique(np.concatenate([own.found.owner for _lens, own in found]), return_inverse=True)
    ids = tuple(found[0][1].ids[i] for i in owners.tolist())
    if not ids:
        return no_margins(len(batch.places))
    return _dense(batch, found, ids, hit, limits)


def _dense(
    batch: Batch, found: Sequence[tuple[Lens, Cast]], ids: tuple[str, ...], hit: Whole, limits: Limits
) -> ArcMargins:
    """Lay out by place and thing the loudest that is said of any role."""
    shape = (len(batch.places), len(ids))
    grade, role = np.zeros(shape, dtype=np.intp), np.zeros(shape, dtype=np.intp)
    measured, required, share = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    arc, loud = np.full((*shape, 2), np.nan), np.zeros(shape)
    roles, end = tuple(role for lens, _own in found for role in lens.roles), 0
    for lens, seen in found:
        start, end = end, end + len(seen.found.place)
        at = (seen.found.place, hit[start:end])
        for own in lens.roles:
            own_grade, degrees, bearings = graded(seen.found, own, limits)
            louder = own_grade * _LOUDER + degrees > loud[at]
            rows = (at[0][louder], at[1][louder])
            loud[rows] = (own_grade * _LOUDER + degrees)[louder]
            grade[rows], measured[rows] = own_grade[louder], degrees[louder]
            role[rows], share[rows] = roles.index(own), seen.found.share[louder]
            required[rows], arc[rows] = allowed_deg(own, limits), bearings[louder]
    point = np.broadcast_to(batch.seats.origin[:, None, :], (*shape, 3))
    subjects = tuple((name,) for name in ids)
    return ArcMargins(
        subjects, measured, required, point, (None,) * len(ids),
        grade=grade, grades=GRADES, roles=roles, role=role, share=share, arc=arc,
    )  # fmt: skip


def allowed_deg(role: Role, limits: Limits) -> float:
    """Return how much of a light's arc may be hidden, degrees: nothing but of one that shows all round."""
    return limits["light.all_round"].value if role.all_round else 0.0


def graded(found: Shadows, role: Role, limits: Limits) -> tuple[Whole, Array, Array]:
    """Return grade (q,), degrees (q,) and bearings (q, 2) of what shadows take of one light."""
    near, allowed = limits["light.edge"].value, allowed_deg(role, limits)
    first, last = role.first_deg, role.last_deg
    dark, dim = (overlap_deg(arcs, first, last) for arcs in (found.dark, found.dim))
    hidden, dimmed = dark > allowed + _TOLERANCE_DEG, dim > limits["light.dim_arc"].value + _TOLERANCE_DEG
    if role.all_round:
        dimmed = overlap_deg(found.edge, first, last) > allowed + _TOLERANCE_DEG
        grade = np.select([hidden, dimmed], [_HIDDEN, _DIMMED], 0)
        grade = np.where(grade > 0, _ANCHOR, 0) if role is ANCHOR else grade
    else:
        ends = overlap_deg(found.dark, first, first + near) + overlap_deg(found.dark, last - near, last)
        grade = np.select([hidden & (ends > 0), hidden, dimmed], [_EDGE, _HIDDEN, _DIMMED], 0)
    degrees = np.where(hidden, dark, np.where(role.all_round, overlap_deg(found.edge, first, last), dim))
    arcs = np.where(hidden[:, None], found.dark, found.edge if role.all_round else found.dim)
    return grade.astype(np.intp), np.asarray(degrees), arcs


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say of each thing in a light's way the worst it does, by the light's name and bearings."""
    if not isinstance(found, ArcMargins):
        return []
    order = np.flatnonzero(found.grade[0])
    return [_finding(placed, found, int(i)) for i in order]


def _finding(placed: Placed, found: ArcMargins, i: int) -> Finding:
    code, standing = found.grades[int(found.grade[0, i])]
    return Finding(
        code,
        standing,
        (placed.id, *found.subjects[i]),
        float(found.measured[0, i]),
        float(found.required[0, i]),
        "deg",
        "light.all_round" if found.required[0, i] else "light.dim",
        z_mm=float(np.clip(found.point[0, i, 2], *placed.span_z_mm)),
        state=in_words(found, i),
    )


def in_words(found: ArcMargins, i: int) -> str:
    """Name the light that is hurt and from where to where: sternlight, 206° to 214°, 42 % of its width."""
    role = found.roles[int(found.role[0, i])]
    first, last = (round(float(bearing)) % 360 for bearing in found.arc[0, i])
    words = _("{light}, {first:03d}° to {last:03d}°")
    text = words.format(light=role.name, first=first, last=last)
    if found.grade[0, i] in (_HIDDEN, _EDGE):
        return text
    return _("{arc}, {share:.0f} % of the lens").format(arc=text, share=100 * found.share[0, i])


ARCS = Rule(
    "arcs/dimmed",
    "light.dim",
    frozenset({"mast", "stays", "spreaders", "fittings", "limits"}),
    margins,
    pairs=True,
    unit="deg",
    judge=judge,
)
