"""What would clear a finding: the nearest heights, another place round, a smaller stand-off, a guard."""

from collections.abc import Iterable

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Between, Report
from mastlayout.frozen import dataclass
from mastlayout.model.edits import change
from mastlayout.model.hosting import Place, placed_new
from mastlayout.model.kind import Kind
from mastlayout.model.layout import Layout
from mastlayout.places.clear import Matter, matter_of, may_be_mended, said
from mastlayout.places.family import Family, family_of
from mastlayout.places.guards import guard_before
from mastlayout.places.search import CHUNK, Tell, nearest
from mastlayout.places.ways import Direction, Fields, Way, elsewhere, ways_of

# A guard is said before a place that is farther off than this.
_GUARD_AS_FAR_MM = 1500.0


@dataclass(frozen=True, eq=False)
class Move:
    """A place that clears: the fitting ``name`` has ``fields`` there.

    ``far_mm`` is how far from where it stands. ``left`` are the findings "not checked" of it, which
    nobody could answer where it stands either: it is clear as far as it was checked.
    """

    name: str
    direction: Direction
    fields: Fields
    far_mm: float
    left: tuple[Finding, ...]

    def applied(self, layout: Layout) -> Layout:
        """Return the layout with the fitting at this place; EditError where it cannot be."""
        return change(layout, self.name, **self.fields)


@dataclass(frozen=True, eq=False)
class Guard:
    """A new guard of ``kind`` at a place before the fitting ``name``: the sail is patched for it.

    ``far_mm`` is how far a move must be for a guard to be said before it. ``left`` is also what its
    typical holes meet, until the part is in hand.
    """

    name: str
    kind: Kind
    place: Place
    left: tuple[Finding, ...]
    far_mm: float = _GUARD_AS_FAR_MM

    def applied(self, layout: Layout) -> Layout:
        """Return the layout with the guard; EditError where it cannot be."""
        return placed_new(layout, self.kind, self.place)[0]


Suggestion = Move | Guard


@dataclass(frozen=True, eq=False)
class Suggestions:
    """What was found for one finding about the fitting ``name``; nothing where nothing near clears it."""

    finding: Finding
    name: str
    found: tuple[Suggestion, ...]


def one_matter(report: Report, finding: Finding) -> tuple[str, str] | None:
    """Return the rule and the fitting that are one matter with a finding, None for what no move can mend.

    Findings of one matter have the same places.
    """
    asked = _asked_of(report, finding) if may_be_mended(finding) else None
    return None if asked is None else (asked[1].rule.code, asked[1].name)


def suggestions(
    report: Report, finding: Finding, kinds: Iterable[Kind] = (), between: Between | None = None
) -> Suggestions | None:
    """Look for the nearest places that clear a finding; None for what no move can mend.

    Guards are tried of the layout's own kinds and of ``kinds``. ``between`` is told how far it is,
    in chunks of places, and may end it by raising.
    """
    asked = _asked_of(report, finding)
    if asked is None:
        return None
    family, matter = asked
    ways = list(ways_of(report.scene, family))
    told = _Told(between, sum(map(_chunks, ways)))
    found: list[Suggestion] = [*_along(report, family, ways, matter, told)]
    if finding.code.startswith("tack/"):
        known = {kind.id: kind for kind in (*kinds, *report.scene.layout.kinds)}
        found += _guarded(report, family, matter, known.values(), told.tell)
    if not found:
        rest = [way for way in (elsewhere(report.scene, family),) if way is not None]
        told.of += sum(map(_chunks, rest))
        found += _along(report, family, rest, matter, told)
    return Suggestions(finding, matter.name, tuple(sorted(found, key=lambda one: one.far_mm)))


def _asked_of(report: Report, finding: Finding) -> tuple[Family, Matter] | None:
    """Return what would be moved for a finding, of two that clash the new one, and the matter."""
    scene = report.scene
    names = [name for name in dict.fromkeys(finding.things) if name in scene.placed]
    for name in sorted(names, key=lambda name: not scene.placed[name].fitting.new):
        family = family_of(scene, name)
        if not family.root.fitting.is_built:
            matter = matter_of(report, finding, name, family)
            return None if matter is None else (family, matter)
    return None


def _along(
    report: Report, family: Family, ways: Iterable[Way], matter: Matter, told: "_Told"
) -> list[Suggestion]:
    moves: list[Suggestion] = []
    for way in ways:
        found = nearest(report, family, way, matter, told.tell)
        told.pass_by(_chunks(way))
        if found is not None:
            left = _left(found.report, family.names)
            far_mm = way.far_mm(family.root, found.step)
            moves.append(Move(family.root.id, way.direction, way.fields[found.step], far_mm, left))
    return moves


def _guarded(
    report: Report, family: Family, matter: Matter, kinds: Iterable[Kind], tell: Tell
) -> list[Suggestion]:
    found = guard_before(report, family, matter, kinds, tell)
    if found is None:
        return []
    kind, place, after = found
    new = frozenset(after.scene.placed) - frozenset(report.scene.placed)
    holes = (own for own in after.open if own.typical and not new.isdisjoint(own.things))
    return [Guard(matter.name, kind, place, (*_left(after, family.names | new), *holes))]


def _left(report: Report, names: frozenset[str]) -> tuple[Finding, ...]:
    return tuple(own for own in said(report) if own.measure and not names.isdisjoint(own.things))


def _chunks(way: Way) -> int:
    return -(-len(way) // CHUNK)


@dataclass
class _Told:
    """Tells how far a search is, in chunks; what was passed by counts as done."""

    between: Between | None
    of: int
    passed: int = 0

    def tell(self) -> None:
        """Tell how far it is, to whoever wants to know."""
        if self.between is not None:
            self.between(min(self.passed, self.of), self.of)

    def pass_by(self, chunks: int) -> None:
        """Count chunks as done, looked at or not."""
        self.passed += chunks
