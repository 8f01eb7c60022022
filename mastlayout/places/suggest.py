"""What would clear a finding: the nearest heights, another place round, a smaller stand-off."""

from dataclasses import dataclass, field

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Between, Report
from mastlayout.geometry.placed import Placed
from mastlayout.model.around import Around
from mastlayout.model.edits import change
from mastlayout.model.layout import Layout
from mastlayout.places.clear import Matter, matter_of, said
from mastlayout.places.family import Family, family_of
from mastlayout.places.search import CHUNK, Tell, nearest
from mastlayout.places.ways import Direction, Field, Way, ways_of


@dataclass(frozen=True, eq=False)
class Suggestion:
    """One place that clears: the fitting ``moves`` has ``field`` at ``value`` there.

    ``unknown`` are the findings "not checked" of it, which nobody could answer where it stands
    either: it is clear as far as it was checked.
    """

    moves: str
    direction: Direction
    field: Field
    value: float | Around
    unknown: tuple[Finding, ...]

    def applied(self, layout: Layout) -> Layout:
        """Return the layout with the fitting at this place; EditError where it cannot be."""
        return change(layout, self.moves, **{self.field: self.value})


@dataclass(frozen=True, eq=False)
class Suggestions:
    """What was found for one finding about one fitting; empty where nothing in reach clears it."""

    finding: Finding
    name: str
    found: tuple[Suggestion, ...]


def can_be_asked(report: Report, finding: Finding) -> bool:
    """Tell whether places are looked for: a fault or caution about something that may be moved."""
    return _asked_of(report, finding) is not None


def suggestions(report: Report, finding: Finding, between: Between | None = None) -> Suggestions | None:
    """Look for the nearest places that clear a finding; None for what no move can mend.

    ``between`` is told how far it is, in chunks of places, and may end it by raising.
    """
    asked = _asked_of(report, finding)
    if asked is None:
        return None
    name, family, matter = asked
    ways = list(ways_of(report.scene, family))
    told = _Told(between, sum(-(-len(way) // CHUNK) for way in ways))
    found = []
    for way in ways:
        one = _along(report, family, way, matter, told.tell)
        told.skip_to(way)
        if one is not None:
            found.append(one)
    return Suggestions(finding, name, tuple(found))


def moved_by(report: Report, finding: Finding) -> str | None:
    """Return the fitting that would be moved for a finding: of two that clash the new one, else the first."""
    scene = report.scene
    placed = [scene.placed[name] for name in dict.fromkeys(finding.things) if name in scene.placed]
    free = [one for one in placed if _may_move(report, one)]
    return next((one.id for one in free if one.fitting.new), free[0].id if free else None)


def _may_move(report: Report, one: Placed) -> bool:
    return family_of(report.scene, one.id).root.fitting.as_built is None


def _asked_of(report: Report, finding: Finding) -> tuple[str, Family, Matter] | None:
    name = moved_by(report, finding)
    if name is None:
        return None
    family = family_of(report.scene, name)
    matter = matter_of(report, finding, name, family)
    return None if matter is None else (name, family, matter)


def _along(report: Report, family: Family, way: Way, matter: Matter, tell: Tell) -> Suggestion | None:
    found = nearest(report, family, way, matter, tell)
    if found is None:
        return None
    unknown = [own for own in said(found.report) if own.measure and not family.names.isdisjoint(own.things)]
    return Suggestion(family.root.id, way.direction, way.field, way.values[found.step], tuple(unknown))


@dataclass
class _Told:
    """Tells how far a search is, in chunks; what was not needed counts as done."""

    between: Between | None
    of: int
    done: int = 0
    begun: int = field(default=0)

    def tell(self) -> None:
        if self.between is not None:
            self.between(min(self.begun, self.of), self.of)

    def skip_to(self, way: Way) -> None:
        self.done += -(-len(way) // CHUNK)
        self.begun = self.done
