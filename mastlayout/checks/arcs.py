"""What hides or dims a navigation light: dark arcs by Rule 21's sectors, with the lens as wide as it is.

Upright, as the rules draw them, over the band 5 degrees above and below the level. A light's own
case and hoop are left out: they are the maker's, who answers for the light as a whole. How far an
opened sail or the boom hides it is not asked: the rules bind masts and structures.
"""

import numpy as np

from mastlayout.checks.graded import Grades
from mastlayout.checks.rule import Batch, Margins, Rule
from mastlayout.checks.shadow import Judge, Told, by_thing
from mastlayout.geometry.arcs import Shadows, overlap_deg
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.ranges.hidden import Cast, cast
from mastlayout.ranges.lights import ANCHOR, Role, lenses
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


def margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, in degrees, what each thing takes of a light's arcs at its places."""
    dims, band = limits["light.dim"].value / 100.0, limits["light.band"].value
    every = []
    for lens in lenses(batch.placed):
        seen = cast(scene, batch.placed, batch.solids, (lens.solid,), dims, band)
        every += [told(seen, role, limits) for role in lens.roles]
    return by_thing(batch.seats.origin, every, GRADES)


def told(seen: Cast, role: Role, limits: Limits) -> Told:
    """Return what is told of one light's shadows."""
    grade, degrees, bearings = graded(seen.found, role, limits)
    limit = "light.all_round" if role.all_round else "light.dim"
    return Told(seen, grade, degrees, bearings, allowed_deg(role, limits), limit, role.name)


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


ARCS = Rule(
    "arcs/dimmed",
    "light.dim",
    frozenset({"mast", "stays", "spreaders", "fittings", "limits"}),
    margins,
    pairs=True,
    unit="deg",
    judge=Judge("deg", _("the lens")),
)
