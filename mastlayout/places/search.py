"""The search along one way: the nearest place that is clear, asked on arrays, then checked whole."""

from collections.abc import Callable

import numpy as np

from mastlayout.checks.report import Report, check
from mastlayout.checks.rule import WholeRule
from mastlayout.checks.rules import WHOLE_RULES
from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Whole
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
# After so many places in vain the steps grow twice as wide, and so on up to so many places at once.
_PATIENCE, _WIDEST = 16, 16
# Told between two chunks; what it raises ends the search.
Tell = Callable[[], None]


@dataclass(frozen=True, eq=False)
class Found:
    """A clear place: the ``step`` of the way, the layout with the fitting there, and its report."""

    step: int
    layout: Layout
    report: Report


@dataclass
class _Walk:
    """How a walk along a way goes: how many places were not clear as a whole, and by which rule the last.

    What a rule about the whole layout says seldom changes from one place to the next: that rule is
    asked first, and where many places in a row were not clear, only every second is looked at, every
    fourth, and so on.
    """

    failed: int = 0
    suspect: WholeRule | None = None

    @property
    def stride(self) -> int:
        """Every how many places one is looked at."""
        return int(min(2 ** (self.failed // _PATIENCE), _WIDEST))


def nearest(report: Report, family: Family, way: Way, matter: Matter, tell: Tell) -> Found | None:
    """Return the nearest clear place along a way, None where there is none.

    After many in vain it may be one a few steps past the nearest: what was passed by since the last
    that was not clear is looked at again, and nothing before.
    """
    walk = _Walk()
    for start in range(0, len(way), CHUNK):
        tell()
        chunk = picked(way.places, slice(start, start + CHUNK))
        left = start + open_places(family, chunk, matter, report.limits)
        at = 0
        while at < len(left):
            tell()
            stride = walk.stride
            few = left[at : at + _FEW * stride : stride]
            found = _first(report, family, way, few, matter, walk)
            if found is not None:
                upto = at + int(np.flatnonzero(few == found.step)[0]) * stride
                passed = left[max(upto - stride + 1, 0) : upto]
                return _first(report, family, way, passed, matter, walk) or found
            at += _FEW * stride
    return None


def _first(
    report: Report, family: Family, way: Way, steps: Whole, matter: Matter, walk: _Walk
) -> Found | None:
    """Return the first of some steps that is clear, asked on arrays, then as a whole."""
    if not len(steps):
        return None
    for place in clear_places(family, picked(way.places, steps), matter, report.limits):
        found = _stood(report, family, way, int(steps[place]), matter, walk)
        if found is not None:
            return found
        walk.failed += 1
    return None


def _stood(report: Report, family: Family, way: Way, step: int, matter: Matter, walk: _Walk) -> Found | None:
    """Check the layout as it would be: rules about others and the whole have their say as well."""
    try:
        layout = change(report.scene.layout, family.root.id, **way.fields[step])
    except EditError:
        return None
    scene = build(layout, report.scene)
    if walk.suspect is not None and not matter.allows(walk.suspect.findings(scene, report.limits)):
        return None
    after = check(scene, report)
    if after.broken or not matter.allows(said(after)):
        walk.suspect = _spoke(after, matter)
        return None
    return Found(step, layout, after)


def _spoke(after: Report, matter: Matter) -> WholeRule | None:
    """Return a rule about the whole layout that says what a clear place does not allow."""
    return next((rule for rule in WHOLE_RULES if not matter.allows(after.said[rule.code])), None)
