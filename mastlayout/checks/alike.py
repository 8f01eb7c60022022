"""Findings that say the same of several holes of one fitting, gathered so that they are said once."""

from collections.abc import Iterable

from mastlayout.checks.finding import Finding

Alike = tuple[Finding, ...]


def alike(findings: Iterable[Finding]) -> list[Alike]:
    """Return the findings in their order, those alike but for the hole together at the first one's place.

    Alike are code, standing, fitting, the other subjects, what is required, and what was measured
    to 0.1.
    """
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault(finding.likeness, []).append(finding)
    return [tuple(group) for group in groups.values()]
