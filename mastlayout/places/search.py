"""The search along one way: the nearest place that is clear, asked on arrays, then checked whole."""

from collections.abc import Callable, Iterator

from mastlayout.checks.report import Report, check
from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.geometry.scene import build
from mastlayout.model.edits import change
from mastlayout.model.layout import Layout
from mastlayout.places.clear import Matter, said
from mastlayout.places.family import Family
from mastlayout.places.sieve import clear_places, open_places, picked
from mastlayout.places.ways import Way

# So many places are asked at once: bounded memory, and soon an answer.
CHUNK = 128
# So many of those left are asked whole at once: most often one of the first is clear.
_FEW = 8
# Told between two chunks; what it raises ends the search.
Tell = Callable[[], None]


@dataclass(frozen=True, eq=False)
class Found:
    """A clear place: the ``step`` of the way, the layout with the fitting there, and its report."""

    step: int
    layout: Layout
    report: Report


def nearest(report: Report, family: Family, way: Way, matter: Matter, tell: Tell) -> Found | None:
    """Return the nearest clear place along a way, None where there is none."""
    for step in _clear_steps(report, family, way, matter, tell):
        found = _stood(report, family, way, step, matter)
        if found is not None:
            return found
    return None


def _clear_steps(report: Report, family: Family, way: Way, matter: Matter, tell: Tell) -> Iterator[int]:
    limits = report.limits
    for start in range(0, len(way), CHUNK):
        tell()
        chunk = picked(way.places, slice(start, start + CHUNK))
        left = open_places(family, chunk, matter, limits)
        for first in range(0, len(left), _FEW):
            tell()
            few = left[first : first + _FEW]
            for place in clear_places(family, picked(chunk, few), matter, limits):
                yield start + int(few[place])


def _stood(report: Report, family: Family, way: Way, step: int, matter: Matter) -> Found | None:
    """Check the layout as it would be: rules about others and the whole have their say as well."""
    try:
        layout = change(report.scene.layout, family.root.id, **way.fields[step])
    except EditError:
        return None
    after = check(build(layout, report.scene), report)
    if after.broken or not matter.allows(said(after)):
        return None
    return Found(step, layout, after)
