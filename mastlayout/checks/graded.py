"""What is graded, not held to one limit: of a fitting's parts the loudest speaks, in its worst state."""

from collections.abc import Callable, Sequence

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import Batch, Margins, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.tack.cloth import State

# Quiet to loud: each grade's code and standing; the first of them says nothing.
Grades = tuple[tuple[str, Standing], ...]
# A grade outweighs any figure, mm.
_LOUDER, _MOST_MM = 1e6, 1e5


@dataclass(frozen=True, eq=False)
class GradedMargins(Margins):
    """Margins against each of s states; ``grade`` (n, s) is the place of each in ``grades``.

    ``hint`` is a word more on what helps, by its key.
    """

    grade: Whole = None  # type: ignore[assignment]  # always given; a base class has defaults before it
    grades: Grades = ()
    states: tuple[State, ...] = ()
    hint: str = ""

    @property
    def short(self) -> Mask:
        """Where (n, s) something is to be said."""
        return np.asarray(self.grade > 0)

    def faults(self, fault_below: float) -> Mask:  # noqa: ARG002 - its grades say it, no limit does
        """Return where (n, s) the grade is a fault's."""
        return np.array([standing == "fault" for _code, standing in self.grades])[self.grade]


def each(
    batches: Sequence[Batch], asked: Callable[[Batch], bool], margins: Callable[[Batch, slice], Margins]
) -> list[Margins]:
    """Give each batch that is asked the margins of its rows among the solids of all that are."""
    found, end = [], 0
    for batch in batches:
        if asked(batch):
            rows = slice(end, end + len(batch.solids))
            end = rows.stop
            found.append(margins(batch, rows))
        else:
            found.append(no_margins(len(batch.places)))
    return found


def loudest(grade: Whole, figure: Array) -> tuple[Whole, Whole, Whole]:
    """Return place, loudest part and state (n, s) of parts (n, parts, s): of those as loud the deepest."""
    part = (grade * _LOUDER - np.clip(figure, -_MOST_MM, _MOST_MM)).argmax(axis=1)
    place, state = np.indices(part.shape)
    return place, part, state


def judged(placed: Placed, found: GradedMargins, limit: str, in_words: Callable[[int], str]) -> list[Finding]:
    """Say the worst state of a fitting, by name; what is clear says nothing."""
    if not found.subjects:
        return []
    worst = int((found.grade[0] * _LOUDER - found.measured[0]).argmax())
    code, standing = found.grades[int(found.grade[0, worst])]
    if not code:
        return []
    return [
        Finding(
            code,
            standing,
            (placed.id, *found.subjects[worst]),
            float(found.measured[0, worst]),
            float(found.required[0, worst]),
            limit=limit,
            z_mm=float(np.clip(found.point[0, worst, 2], *placed.span_z_mm)),
            state=in_words(worst),
            hint=found.hint,
        )
    ]
