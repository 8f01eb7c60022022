"""What to measure next: every "not checked" gathered by the one measure that would answer it."""

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Report
from mastlayout.frozen import dataclass
from mastlayout.model.measure import WHEN, Instruction, instructions


@dataclass(frozen=True, eq=False)
class Wanted:
    """One measure that is missing, and the findings that wait for it, masthead first."""

    instruction: Instruction
    findings: tuple[Finding, ...]

    @property
    def things(self) -> tuple[str, ...]:
        """The ids of what is to be measured, each once: a conduit for its slots, a fitting for its foot."""
        at = -1 if self.instruction.each == "last" else 0
        return tuple(dict.fromkeys(_owner(finding.subjects[at]) for finding in self.findings))

    @property
    def blocked(self) -> tuple[str, ...]:
        """The ids that wait for it and are not measured themselves, each once, masthead first."""
        every = dict.fromkeys(_owner(subject) for f in self.findings for subject in f.subjects)
        things = set(self.things)
        return tuple(name for name in every if name not in things) or self.things


def _owner(subject: str) -> str:
    return subject.partition("/")[0]


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
