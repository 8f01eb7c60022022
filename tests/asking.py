"""Ask the rules about a layout: what a test wants to know of the findings."""

from collections.abc import Iterable

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import check
from mastlayout.checks.rule import Rule, WholeRule, findings, where_it_stands
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.model.layout import Layout


def found(layout: Layout, code: str) -> list[Finding]:
    """Return the open findings of one code; a broken rule fails the test."""
    report = check(build(layout))
    assert not report.broken
    return [finding for finding in report.open if finding.code == code]


def of_rules(layout: Layout, rules: Iterable[Rule | WholeRule]) -> list[Finding]:
    """Return what some rules alone say of a layout: of a whole yacht all of them take their time."""
    scene, limits = build(layout), limits_of(layout)
    placed = list(scene.placed.values())
    said: list[Finding] = []
    for rule in rules:
        if isinstance(rule, WholeRule):
            said += rule.findings(scene, limits)
        else:
            margins = rule.margins(scene, [where_it_stands(one) for one in placed], limits)
            for one, own in zip(placed, margins, strict=True):
                said += findings(rule, one, own, limits)
    return said
