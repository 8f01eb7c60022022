"""What stands before a lens, an antenna or a mouth, laid out by place and thing, told by its bearings.

One shape for lights, reflectors, radars and sound signals: a thing covers a share of the source over
some bearings; of several sources and roles of one fitting the one that is hurt most speaks.
"""

from collections.abc import Sequence

import numpy as np

from mastlayout.checks.finding import Finding, Unit
from mastlayout.checks.graded import GradedMargins, Grades
from mastlayout.checks.rule import Margins, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.limits import Limits
from mastlayout.ranges.hidden import Cast
from mastlayout.words import _

# A grade outweighs any figure, degrees.
_LOUDER = 1e3


@dataclass(frozen=True, eq=False)
class Told:
    """What is told of one source's q shadows: grade, figure and bearings of each, and what is asked.

    ``limit`` is the key of what is asked, None where it is in no list of limits; ``name`` says which
    of a fitting's sources or roles it is.
    """

    seen: Cast
    grade: Whole
    measured: Array
    arc: Array
    required: float
    limit: str | None
    name: str = ""


@dataclass(frozen=True, eq=False)
class ShadowMargins(GradedMargins):
    """Margins against s things, of what ``told`` says first among equals (n, s).

    ``share`` (n, s) is how much each covers at most, ``arc`` (n, s, 2) over which bearings; ``which``
    (n, s) is the place of the loudest in ``told``.
    """

    told: tuple[Told, ...] = ()
    which: Whole = None  # type: ignore[assignment]  # always given; a base class has defaults before it
    share: Array = None  # type: ignore[assignment]
    arc: Array = None  # type: ignore[assignment]


def by_thing(seats: Array, every: Sequence[Told], grades: Grades) -> Margins:
    """Lay out shadows by place and thing; ``seats`` (n, 3) are where the fitting stands.

    Every source of a fitting is asked against the same things, numbered alike.
    """
    numbers = [one.seen.found.owner for one in every] or [np.empty(0, dtype=np.intp)]
    owners, hit = np.unique(np.concatenate(numbers), return_inverse=True)
    if not len(owners):
        return no_margins(len(seats))
    shape = (len(seats), len(owners))
    grade, which = np.zeros(shape, dtype=np.intp), np.zeros(shape, dtype=np.intp)
    measured, required, share = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    arc, loud, end = np.full((*shape, 2), np.nan), np.full(shape, -np.inf), 0
    for number, own in enumerate(every):
        found = own.seen.found
        start, end = end, end + len(found.place)
        at = (found.place, hit[start:end])
        louder = own.grade * _LOUDER + own.measured > loud[at]
        rows = (at[0][louder], at[1][louder])
        loud[rows] = (own.grade * _LOUDER + own.measured)[louder]
        grade[rows], measured[rows], which[rows] = own.grade[louder], own.measured[louder], number
        share[rows], arc[rows], required[rows] = found.share[louder], own.arc[louder], own.required
    point = np.broadcast_to(seats[:, None, :], (*shape, 3))
    ids = every[0].seen.ids
    return ShadowMargins(
        tuple((ids[i],) for i in owners.tolist()), measured, required, point, (None,) * len(owners),
        grade=grade, grades=grades, told=tuple(every), which=which, share=share, arc=arc,
    )  # fmt: skip


@dataclass(frozen=True)
class Judge:
    """Says of each thing before a source the worst it does, with its bearings and what it covers of it.

    ``covered`` calls the source; ``measure`` is the key of what is missing where it is not checked.
    """

    unit: Unit
    covered: str
    measure: str = ""

    def __call__(self, placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
        """Return the findings of a fitting at its place."""
        if not isinstance(found, ShadowMargins):
            return []
        return [self._finding(placed, found, i) for i in np.flatnonzero(found.grade[0]).tolist()]

    def _finding(self, placed: Placed, found: ShadowMargins, i: int) -> Finding:
        code, standing = found.grades[int(found.grade[0, i])]
        own = found.told[int(found.which[0, i])]
        z_mm = float(np.clip(found.point[0, i, 2], *placed.span_z_mm))
        ids = (placed.id, *found.subjects[i])
        if standing == "not checked":
            return Finding(code, standing, ids, limit=own.limit, measure=self.measure, z_mm=z_mm)
        return Finding(
            code,
            standing,
            ids,
            float(found.measured[0, i]),
            own.required,
            self.unit,
            own.limit,
            z_mm=z_mm,
            state=self._words(own.name, found.arc[0, i], float(found.share[0, i])),
        )

    def _words(self, name: str, arc: Array, share: float) -> str:
        """Write what is hurt, from where to where, how much of it: sternlight, 206° to 214°, 42 % of it."""
        first, last = (round(float(bearing)) % 360 for bearing in arc)
        words = [name] * bool(name) + [_("{first:03d}° to {last:03d}°").format(first=first, last=last)]
        if share < 1.0:
            words.append(_("{share:.0f} % of {covered}").format(share=100 * share, covered=self.covered))
        return _(", ").join(words)
