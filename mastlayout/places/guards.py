"""A guard before a fitting: of the kinds that guard, the lightest with which nothing is at fault."""

from collections.abc import Iterable, Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Report, check
from mastlayout.errors import EditError
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import body_of
from mastlayout.geometry.scene import build
from mastlayout.model.hosting import Place, placed_new
from mastlayout.model.kind import Kind
from mastlayout.places.clear import GUARDED, Matter, said
from mastlayout.places.family import Family
from mastlayout.places.search import Tell

# A guard is tried this far above and below the middle of what stands behind it.
_OFFSETS_MM = (0.0, 20.0, -20.0, 40.0, -40.0)


def guard_before(
    report: Report, family: Family, matter: Matter, kinds: Iterable[Kind], tell: Tell
) -> tuple[Kind, Place, Report] | None:
    """Return a kind of guard, where it stands and what is said then; None where none helps."""
    for kind in sorted(_fit(kinds), key=lambda kind: kind.mass_kg or 0.0):
        for place in _before(report, family, kind):
            tell()
            after = _with(report, kind, place, matter)
            if after is not None:
                return kind, place, after
    return None


def _fit(kinds: Iterable[Kind]) -> Iterator[Kind]:
    for kind in kinds:
        if kind.guards and kind.group == "guard" and (kind.sits_on is None or "mast" in kind.sits_on):
            yield kind


def _before(report: Report, family: Family, kind: Kind) -> Iterator[Place]:
    """Yield places at which the guard's middle is level with that of the whole family."""
    girth = family.root.fitting.girth
    if family.root.skin is None or girth is None:
        return
    body = body_of(kind)
    hoop = body.solids[np.flatnonzero([part == "guard" for part in body.parts])]
    # In a fitting's own frame along is the second axis.
    reach = [float(hoop.support(np.array([0.0, sign, 0.0])).max()) * sign for sign in (1.0, -1.0)]
    spans = np.array([ends for member in family.members for ends in member.solids.span_z()])
    middle = (float(spans.max()) + float(spans.min())) / 2 - sum(reach) / 2
    for offset in _OFFSETS_MM:
        from_masthead = round(height_mm(report.scene.skin.length_mm, middle + offset))
        if from_masthead >= 0:
            yield Place(from_masthead_mm=float(from_masthead), girth=girth)


def _with(report: Report, kind: Kind, place: Place, matter: Matter) -> Report | None:
    try:
        layout, name = placed_new(report.scene.layout, kind, place)
    except EditError:
        return None
    after = check(build(layout, report.scene), report)
    if after.broken or not all(_goes(finding, name, matter) for finding in said(after)):
        return None
    return after


def _goes(finding: Finding, guard: str, matter: Matter) -> bool:
    """Tell whether a finding may be said: the sail may bear on the guard, and on nothing else."""
    if finding.code == GUARDED:
        return True
    if guard in finding.things:
        # Its holes are drilled when the part is in hand.
        return finding.standing in ("note", "not checked") or (
            finding.standing == "caution" and finding.typical
        )
    return matter.goes(finding)
