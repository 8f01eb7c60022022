"""Ask the rules about a layout: what a test wants to know of the findings."""

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import check
from mastlayout.geometry.scene import build
from mastlayout.model.layout import Layout


def found(layout: Layout, code: str) -> list[Finding]:
    """Return the open findings of one code; a broken rule fails the test."""
    report = check(build(layout))
    assert not report.broken
    return [finding for finding in report.open if finding.code == code]
