"""How many findings of each standing there are, counted as they are said: once, however many holes say it."""

from mastlayout.checks.alike import alike
from mastlayout.checks.finding import STANDINGS
from mastlayout.checks.report import Report
from mastlayout.checks.wanted import wanted


def counts(report: Report) -> dict[str, int]:
    """Return how many of each standing, and how many accepted.

    Holes of a fitting that say the same count once, and so does all that waits for one measure. A
    rule that broke is a fault.
    """
    said = [group[0].standing for group in alike(found for found in report.open if found.measure is None)]
    count: dict[str, int] = {standing: said.count(standing) for standing in STANDINGS}
    count["fault"] += len(report.broken)
    count["not checked"] += len(wanted(report))
    return count | {"accepted": len(report.accepted)}
