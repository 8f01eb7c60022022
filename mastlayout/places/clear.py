"""What makes a place clear: it mends the matter, and makes nothing else worse."""

from collections.abc import Iterable, Mapping

from mastlayout.checks.finding import STANDINGS, Finding, Key
from mastlayout.checks.report import Report, worse
from mastlayout.checks.rule import Rule
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.checks.tack import WORKING
from mastlayout.frozen import dataclass
from mastlayout.places.family import Family

# A cable's way to its slot is cut where the fitting comes to stand; how far it is off counts for nothing.
_HOWEVER_FAR = ("cable/",)
# What a mast works with stays where it is, and a guard that is borne on does its work.
GUARDED = "tack/guarded"
STAYS = ("tack/gear", GUARDED)
# Of what a mast works with nothing is moved for the sake of cloth and lines; what bare metal does to
# metal it does anywhere.
_PATHS = ("tack", "clew", "main", "line", "pole")
_ANYWHERE = ("metals",)


@dataclass(frozen=True, eq=False)
class Matter:
    """What a search is to mend: what one rule says of one fitting.

    ``moved`` are the ids of all that moves with it, ``before`` is all that is said of the layout as it
    stands, ``accepted`` the keys the owner has accepted of what moves.
    """

    rule: Rule
    name: str
    moved: frozenset[str]
    before: Mapping[Key, Finding]
    accepted: frozenset[Key]

    def concerns(self, finding: Finding) -> bool:
        """Tell whether a finding is what is to be mended."""
        return self.name in finding.things and rule_of(finding) is self.rule

    def allows(self, after: Iterable[Finding]) -> bool:
        """Tell whether a place is clear of which ``after`` is said.

        The rule says nothing of it any more; no other finds a fault there that was not accepted, and
        whatever else is said was said before, as loud, and is no worse than an accepted finding may
        become. What was not checked before may still be not checked, never anything else.
        """
        return all(self.goes(finding) for finding in after)

    def goes(self, finding: Finding) -> bool:
        """Tell whether a finding may be said of a clear place."""
        old = self.before.get(finding.key)
        if finding.measure is None and self.concerns(finding):
            return False
        if finding.standing == "note":
            return True
        if old is None or STANDINGS.index(old.standing) > STANDINGS.index(finding.standing):
            return False
        ours = not self.moved.isdisjoint(finding.things)
        if finding.standing == "fault" and ours and finding.key not in self.accepted:
            return False
        return finding.code.startswith(_HOWEVER_FAR) or not worse(finding, old.measured)


def rule_of(finding: Finding) -> Rule | None:
    """Return the rule about fittings that says a finding; None where one about the whole layout does."""
    for rule in FITTING_RULES:
        own = rule.code.partition("/")[0] if rule.judge else rule.code
        if finding.code == own or (rule.judge and finding.code.startswith(f"{own}/")):
            return rule
    return None


def said(report: Report) -> tuple[Finding, ...]:
    """Return all that is said, what the owner accepted included."""
    return (*report.open, *(own for own, _word in report.accepted))


def may_be_mended(finding: Finding) -> bool:
    """Tell whether another place may mend a finding: a fault or caution of a rule about fittings."""
    loud = finding.measure is None and finding.standing in ("fault", "caution")
    return loud and finding.code not in STAYS and rule_of(finding) is not None


def _stays(report: Report, rule: Rule, name: str) -> bool:
    """Tell whether a fitting stays where it is, whatever a rule says of it."""
    family = rule.code.partition("/")[0]
    works = report.scene.placed[name].kind.group in WORKING
    return family in _ANYWHERE or (works and family in _PATHS)


def matter_of(report: Report, finding: Finding, name: str, family: Family) -> Matter | None:
    """Return the matter of a finding about a member of a family; None for what no move can mend."""
    rule = rule_of(finding)
    if rule is None or not may_be_mended(finding) or _stays(report, rule, name):
        return None
    ours = (own for own, _word in report.accepted if not family.names.isdisjoint(own.things))
    before = {own.key: own for own in said(report)}
    return Matter(rule, name, family.names, before, frozenset(own.key for own in ours))
