"""What would clear the findings, as the command line prints it: text, and JSON."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Between, Report, of_fitting
from mastlayout.checks.sentence import names_of
from mastlayout.checks.sentence import sentence as said
from mastlayout.documents.printed import written_json
from mastlayout.model.kind import Kind
from mastlayout.places.suggest import Guard, Suggestion, Suggestions, one_matter, suggestions
from mastlayout.places.words import sentence, where
from mastlayout.words import _

PLACES_SCHEMA = "mastlayout/places/1"
Found = Mapping[Finding, Suggestions]
# Each search counts as so many steps of the progress of all.
_FINE = 100


def found_for(
    report: Report, findings: Iterable[Finding], kinds: Sequence[Kind], between: Between | None = None
) -> Found:
    """Return what would clear each of some findings; what no move can mend is left out.

    What one rule says of one fitting is one matter, and is looked for once, of its findings for the first.
    """
    asked = {finding: one_matter(report, finding) for finding in findings}
    matters = {about: finding for finding, about in reversed(asked.items()) if about is not None}
    known = {
        about: suggestions(report, finding, kinds, _part(between, done, len(matters)))
        for done, (about, finding) in enumerate(matters.items())
    }
    found = {finding: known[about] for finding, about in asked.items() if about is not None}
    return {finding: one for finding, one in found.items() if one is not None}


def _part(between: Between | None, done: int, matters: int) -> Between | None:
    """Return what tells how far one search is as how far all are, ``done`` of them through already."""
    if between is None:
        return None
    return lambda own, of: between(_FINE * done + _FINE * own // max(of, 1), _FINE * matters)


def places_of(report: Report, name: str, kinds: Sequence[Kind], between: Between | None = None) -> Found:
    """Return what would clear each open finding about a fitting."""
    return found_for(report, of_fitting(report, name), kinds, between)


def places_text(report: Report, name: str, found: Found) -> str:
    """Return each matter of a fitting and what would clear it, as lines for a person."""
    scene, names = report.scene, names_of(report.scene.layout)
    if not found:
        called = names.get(name, name)
        return _("{name}: nothing open that another place would clear.").format(name=called) + "\n"
    groups: dict[Suggestions, list[Finding]] = {}
    for finding, one in found.items():
        groups.setdefault(one, []).append(finding)
    lines = []
    for one, findings in groups.items():
        lines += [f"{finding.standing.upper():<12} {said(scene, finding, names)}" for finding in findings]
        lines += [" " * 13 + sentence(scene, one)]
    return "\n".join(lines) + "\n"


def places_json(report: Report, layout: str, name: str, found: Found) -> str:
    """Return the same as one JSON object, keys sorted."""
    return written_json(
        {
            "schema": PLACES_SCHEMA,
            "layout": layout,
            "fitting": name,
            "findings": [
                {
                    "code": finding.code,
                    "standing": finding.standing,
                    "subjects": list(finding.subjects),
                    "clears": clears(report, one),
                }
                for finding, one in found.items()
            ],
        }
    )


def clears(report: Report, one: Suggestions) -> dict[str, Any]:
    """Return what would clear a finding for JSON."""
    return {
        "fitting": one.name,
        "sentence": sentence(report.scene, one),
        "places": [_place(report, each) for each in one.found],
    }


def _place(report: Report, one: Suggestion) -> dict[str, Any]:
    at = vars(one.place) if isinstance(one, Guard) else one.fields
    girth = at.get("girth")
    return {
        "moves": None if isinstance(one, Guard) else one.name,
        "guard": one.kind.id if isinstance(one, Guard) else None,
        "from_masthead_mm": at.get("from_masthead_mm"),
        "girth": None if girth is None else str(girth),
        "along_mm": at.get("along_mm"),
        "stand_off_mm": at.get("stand_off_mm"),
        "sentence": where(report.scene, one),
        "not_checked": sorted({own.measure for own in one.left if own.measure}),
        "typical": any(own.typical for own in one.left),
    }
