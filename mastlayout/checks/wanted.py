"""What to measure next: every "not checked" gathered by the one measure that would answer it."""

from dataclasses import dataclass

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Report
from mastlayout.model.measure import Instruction, When, instructions

WHEN: tuple[When, ...] = ("standing", "trestles", "chair")


@dataclass(frozen=True)
class Wanted:
    """One measure that is missing, and the findings that wait for it, masthead first."""

    instruction: Instruction
    findings: tuple[Finding, ...]

    @property
    def subjects(self) -> tuple[str, ...]:
        """The ids that wait for it, each once, in the order of their findings."""
        return tuple(dict.fromkeys(subject for finding in self.findings for subject in finding.subjects))


def wanted(report: Report) -> tuple[Wanted, ...]:
    """Return every missing measure: while the mast stands, on trestles, from the chair."""
    groups: dict[str, list[Finding]] = {}
    for finding in report.open:
        if finding.measure:
            groups.setdefault(finding.measure, []).append(finding)
    found = (Wanted(instructions()[key], tuple(group)) for key, group in groups.items())
    order = list(instructions())
    return tuple(
        sorted(found, key=lambda w: (WHEN.index(w.instruction.when), order.index(w.instruction.key)))
    )
