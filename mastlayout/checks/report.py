"""The report: every rule run over a scene, and again over only what a change can touch."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import field, replace
from functools import cached_property

from mastlayout.checks.ahead import Ahead
from mastlayout.checks.finding import Finding, loud_first
from mastlayout.checks.rule import Batch, Margins, Rule, WholeRule, findings, where_it_stands
from mastlayout.checks.since import Changes, guarded_in, near_of, same_things
from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import crowd_of
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits, limits_of
from mastlayout.model.layout import Accepted, same_items

# An accepted finding opens again when it is worse by this much, in mm or in degrees.
_WORSE = {"mm": 1.0, "deg": 0.1, "%": 1.0, "V": 0.05, "NM": 0.0, "m²": 0.1, "dB": 0.5, "": 0.0}
# Families that no rule of this version asks; the papers say so.
NOT_RUN: tuple[str, ...] = ()
_HOLE_RULES = "hole rules"
# What these measured is kept: the chafe sheet draws from it, and they are the dearest to ask.
_DRAWN = ("tack/bears", "main/bears")
# One of these that broke leaves holes unchecked.
_OF_HOLES = ("hole/", "fastener/", "seat/", "cable/", "known/")


@dataclass(frozen=True, eq=False)
class Broken:
    """A rule that broke: a fault of the program, not of the layout."""

    code: str
    subject: str
    what: str


@dataclass(frozen=True, eq=False)
class Report:
    """What the rules say of one scene.

    ``by_fitting``, by rule and fitting, and ``said``, by rule alone, keep what each rule says. One that
    was not ``asked`` yet says nothing: nothing in it is clear, and nothing may be drilled. ``behind``
    are the rules that were left for later, each with the scene that it was asked of last. ``measured``
    are the margins of the rules of cloth, by rule and fitting, as far as they were not asked ahead.
    """

    scene: Scene
    limits: Limits
    by_fitting: Mapping[str, "_Results"]
    said: Mapping[str, tuple[Finding, ...]]
    broken: tuple[Broken, ...]
    open: tuple[Finding, ...]
    accepted: tuple[tuple[Finding, Accepted], ...]
    asked: bool = True
    behind: Mapping[str, Scene] = field(default_factory=dict)
    measured: Mapping[str, Mapping[str, Margins]] = field(default_factory=dict)

    @property
    def holes_checked(self) -> bool:
        """Tell whether every rule about holes has run: otherwise nothing may be drilled."""
        broke = any(one.code.startswith(_OF_HOLES) for one in self.broken)
        return self.asked and _HOLE_RULES not in NOT_RUN and not broke

    @cached_property
    def states(self) -> Mapping[str, str]:
        """The state of each thing that anything is said about; all others are clear.

        A thing has its loudest standing; a rule that broke on it leaves it at least "not checked".
        """
        if not self.asked:
            seen = (self.scene.placed, self.scene.stays, self.scene.spreaders)
            return {name: "not checked" for things in seen for name in things}
        states: dict[str, str] = {}
        loud: dict[str, str] = {}
        for finding, _own in self.accepted:
            states |= dict.fromkeys(finding.things, "accepted")
        # The findings stand loud to quiet: what is first said of a thing is its loudest.
        for finding in self.open:
            for name in finding.things:
                loud.setdefault(name, finding.standing)
        for item in self.broken:
            if loud.get(item.subject, "note") == "note":
                loud[item.subject] = "not checked"
        return states | loud

    def scene_of(self, finding: Finding) -> Scene:
        """Return the scene that a finding was found in: while its rule waits, the one of before."""
        waiting = (before for code, before in self.behind.items() if finding in self.said[code])
        return next(waiting, self.scene)

    def said_by(self, code: str, fitting: str) -> tuple[Finding, ...]:
        """Return what one rule says of one fitting; nothing before it was asked."""
        return self.by_fitting.get(code, {}).get(fitting, ())

    @property
    def faults(self) -> tuple[Finding, ...]:
        """The open findings that are faults."""
        return tuple(finding for finding in self.open if finding.standing == "fault")


_NOT_AHEAD: Ahead = {}
# Asked of a rule that is due, by its code: whether it is left for later.
Leave = Callable[[str], bool]
# Told before each rule how many are done, of how many; what it raises ends the check.
Between = Callable[[int, int], None]


def _untold(_done: int, _of: int) -> None:
    """Nobody watches a check that is quick."""


def nothing_left(_code: str) -> bool:
    """Every rule that is due is asked."""
    return False


def unasked(scene: Scene) -> Report:
    """Return the report of a scene that no rule was asked about yet."""
    return Report(scene, limits_of(scene.layout), {}, {}, (), (), (), asked=False)


def check(
    scene: Scene,
    previous: Report | None = None,
    between: Between = _untold,
    leave: Leave = nothing_left,
    ahead: Ahead = _NOT_AHEAD,
) -> Report:
    """Run the rules over a scene; with a previous report only those that the change can touch.

    Of these some may be left for later (``leave``) where the layout holds the same things as before; what
    was asked ``ahead`` of what moved is not asked again.
    """
    from mastlayout.checks import rules  # noqa: PLC0415 - a report that says "not asked yet" needs none

    limits = limits_of(scene.layout)
    previous = previous if previous and previous.asked else None
    if previous is None or not same_things(previous.scene, scene):
        leave = nothing_left
    asking = _Asking(scene, limits, previous, leave, Changes(scene), ahead)
    by_fitting: dict[str, _Results] = {}
    said: dict[str, tuple[Finding, ...]] = {}
    for done, rule in enumerate(rules.FITTING_RULES):
        between(done, len(rules.FITTING_RULES))
        results = by_fitting[rule.code] = asking.fittings(rule)
        kept = previous is not None and results is previous.by_fitting[rule.code]
        said[rule.code] = previous.said[rule.code] if previous and kept else _all_of(results)
    said |= {rule.code: asking.whole(rule) for rule in rules.WHOLE_RULES}
    opened, accepted = _laid_out(said, scene, previous)
    broken = tuple(asking.broken)
    return Report(
        scene,
        limits,
        by_fitting,
        said,
        broken,
        opened,
        accepted,
        behind=asking.behind,
        measured=asking.measured,
    )


def _laid_out(
    said: Mapping[str, tuple[Finding, ...]], scene: Scene, previous: Report | None
) -> tuple["_Open", "_Closed"]:
    """Return what is open and what was accepted, loud to quiet: as before where the same is said."""
    accepted = scene.layout.accepted
    if previous and same_items(previous.scene.layout.accepted, accepted) and previous.said == said:
        return previous.open, previous.accepted
    found = {f.key: f for results in said.values() for f in results}
    return _sorted_out(sorted(found.values(), key=loud_first), accepted)


def _all_of(results: "_Results") -> tuple[Finding, ...]:
    return tuple(finding for own in results.values() for finding in own)


@dataclass(frozen=True, eq=False)
class _Asking:
    """One check under way: what is asked of what, what is kept of before, and what is left for later."""

    scene: Scene
    limits: Limits
    previous: Report | None
    leave: Leave
    changes: Changes
    ahead: Ahead = field(default_factory=dict)
    broken: list[Broken] = field(default_factory=list)
    behind: dict[str, Scene] = field(default_factory=dict)
    measured: dict[str, Mapping[str, Margins]] = field(default_factory=dict)

    @cached_property
    def same(self) -> bool:
        """Whether the same fittings are placed as before."""
        return self.previous is not None and self.previous.scene.placed.keys() == self.scene.placed.keys()

    def _before(self, code: str) -> Scene | None:
        """Return the scene that a rule was asked of last."""
        return self.previous.behind.get(code, self.previous.scene) if self.previous else None

    def _left(self, code: str) -> bool:
        """Tell whether a rule that is due is left for later, and keep in mind what it was asked of."""
        before = self._before(code)
        if before is None or not self.leave(code):
            return False
        self.behind[code] = before
        return True

    def _goes_on_waiting(self, code: str) -> bool:
        """Tell whether a rule that waits already is left again: nobody looks what it would be asked of."""
        return self.previous is not None and code in self.previous.behind and self._left(code)

    def fittings(self, rule: Rule) -> "_Results":
        """Ask a rule of the fittings that the change can touch; keep what it said of the others."""
        kept = _kept(rule, self.previous) if self.previous else None
        if rule.code in _DRAWN:
            self.measured[rule.code] = self.previous.measured.get(rule.code, {}) if self.previous else {}
        stands = self.previous is not None and kept is self.previous.by_fitting[rule.code] and self.same
        if kept is not None and stands and self._goes_on_waiting(rule.code):
            return kept
        before = self._before(rule.code)
        since = self.changes.since(before)
        moved, holds = since.moved, not (rule.depends & since.changed)
        due = moved | _behind(rule, self.scene, before, self.limits, moved) if holds else frozenset[str]()
        if kept is not None and stands and ((holds and not due) or self._left(rule.code)):
            return kept
        old = kept if holds else None
        if rule.code in _DRAWN:
            rule = self._noting(rule, {name for name in old or () if name not in due})
        if old is not None and self.ahead:
            old, due = self._told_ahead(rule, old, due)
        results = _run(rule, self.scene, self.limits, old, due, self.broken)
        if rule.pairs and old and before and moved:
            near = near_of(rule, self.scene, before, self.limits, moved)
            if rule.mutual:
                near = _spoken_of(results, near, moved)
            _ask_near(rule, self.scene, self.limits, results, moved, near, self.broken)
        return results

    def _noting(self, rule: Rule, stay: AbstractSet[str]) -> Rule:
        """Return a rule that notes what it measures when it is asked; of what may ``stay`` it is kept."""
        measured = {name: own for name, own in self.measured[rule.code].items() if name in stay}
        self.measured[rule.code] = measured

        def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
            """Ask the rule and note its answer."""
            found = rule.margins(scene, batches, limits)
            measured.update((batch.placed.id, own) for batch, own in zip(batches, found, strict=True))
            return found

        return replace(rule, many=margins)

    def _told_ahead(
        self, rule: Rule, old: "_Results", due: frozenset[str]
    ) -> tuple["_Results", frozenset[str]]:
        """Return what is kept with what was asked ahead, and what of the fittings due is left to ask."""
        placed = {name: self.scene.placed[name] for name in due if name in self.scene.placed}
        told = {name: self.ahead.get((rule.code, one)) for name, one in placed.items()}
        known = {name: found for name, found in told.items() if found is not None}
        return {**old, **known}, due - known.keys()

    def whole(self, rule: WholeRule) -> tuple[Finding, ...]:
        """Ask a rule about the whole layout where the change can touch it."""
        kept = self.previous.said.get(rule.code) if self.previous else None
        if self.previous and any(item.code == rule.code for item in self.previous.broken):
            kept = None
        if kept is not None and self._goes_on_waiting(rule.code):
            return kept
        before = self._before(rule.code)
        stands = not (rule.depends & self.changes.since(before).touched)
        if kept is not None and (stands or self._left(rule.code)):
            return kept
        return _run_whole(rule, self.scene, self.limits, self.broken)


def _kept(rule: Rule, previous: Report) -> "_Results":
    """Return the results of a rule that may be kept: where it broke it is asked again."""
    failed = {item.subject for item in previous.broken if item.code == rule.code}
    results = previous.by_fitting[rule.code]
    return {name: found for name, found in results.items() if name not in failed} if failed else results


_Results = Mapping[str, tuple[Finding, ...]]


def _behind(
    rule: Rule, scene: Scene, before: Scene | None, limits: Limits, moved: frozenset[str]
) -> frozenset[str]:
    """Return what is to be asked whole again: before a guard that moved, or near what a rule adds up."""
    if before is None or not moved:
        return frozenset()
    if rule.together:
        return frozenset(near_of(rule, scene, before, limits, moved))
    return guarded_in(rule, scene, before, limits, moved) if "guards" in rule.depends else frozenset()


def _run(
    rule: Rule,
    scene: Scene,
    limits: Limits,
    old: _Results | None,
    moved: frozenset[str],
    broken: list[Broken],
) -> dict[str, tuple[Finding, ...]]:
    """Run one rule over the fittings that moved, or over all where nothing old can be kept."""
    kept = old or {}
    asked = [name for name in scene.placed if name in moved or name not in kept]
    if list(kept) == list(scene.placed):
        results = dict(kept)
    else:
        results = {name: kept.get(name, ()) for name in scene.placed}
    for name, found in zip(asked, _ask(rule, scene, limits, asked, broken), strict=True):
        results[name] = found
    return results


def _ask_near(
    rule: Rule,
    scene: Scene,
    limits: Limits,
    results: dict[str, tuple[Finding, ...]],
    moved: frozenset[str],
    near: Sequence[str],
    broken: list[Broken],
) -> None:
    """Ask of what stands near what moved again, but against that alone: what it has with others is kept."""
    placed = {name: one for name, one in scene.placed.items() if name in moved}
    gear, none = crowd_of([(name, one.solids) for name, one in placed.items()]), crowd_of([])
    alone = replace(scene, placed=placed, gear=gear, wires=none, bars=none)
    for name, found in zip(near, _ask(rule, alone, limits, near, broken, scene), strict=True):
        own = [finding for finding in results[name] if not _about(finding, moved)]
        results[name] = (*own, *(finding for finding in found if _about(finding, moved)))


def _spoken_of(
    results: Mapping[str, tuple[Finding, ...]], near: Sequence[str], moved: frozenset[str]
) -> tuple[str, ...]:
    """Return what is near of which something is or was found beside what moved."""
    found = {thing for name in moved & results.keys() for one in results[name] for thing in one.things}
    return tuple(name for name in near if name in found or any(_about(one, moved) for one in results[name]))


def _ask(
    rule: Rule,
    scene: Scene,
    limits: Limits,
    names: Sequence[str],
    broken: list[Broken],
    whole: Scene | None = None,
) -> list[tuple[Finding, ...]]:
    """Ask a rule about some fittings at once; where it breaks, about each, so that one breaks alone.

    The fittings are those of ``whole``, where the scene they are held against is but a part of it.
    """
    placed = [(whole or scene).placed[name] for name in names]
    if not placed:
        return []
    try:
        margins = rule.margins(scene, [where_it_stands(one) for one in placed], limits)
        return [tuple(findings(rule, one, own, limits)) for one, own in zip(placed, margins, strict=True)]
    except Exception as error:  # noqa: BLE001 - a broken rule is reported, and the others still run
        if len(names) > 1:
            return [found for name in names for found in _ask(rule, scene, limits, [name], broken, whole)]
        broken.append(Broken(rule.code, names[0], f"{type(error).__name__}: {error}"))
        return [()]


def _about(finding: Finding, names: frozenset[str]) -> bool:
    return not names.isdisjoint(finding.things)


def _run_whole(rule: WholeRule, scene: Scene, limits: Limits, broken: list[Broken]) -> tuple[Finding, ...]:
    try:
        return tuple(rule.findings(scene, limits))
    except Exception as error:  # noqa: BLE001 - a broken rule is reported, and the others still run
        broken.append(Broken(rule.code, "", f"{type(error).__name__}: {error}"))
        return ()


_Open = tuple[Finding, ...]
_Closed = tuple[tuple[Finding, Accepted], ...]


def _sorted_out(found: Sequence[Finding], accepted: Sequence[Accepted]) -> tuple[_Open, _Closed]:
    """Part what the owner accepted, and is no worse since, from what is open."""
    signed: dict[tuple[str, frozenset[str], str | None], Accepted] = {
        (own.code, frozenset(own.subjects), None): own for own in accepted
    }
    opened, closed = [], []
    for finding in found:
        own = signed.get(finding.key)
        if own and not worse(finding, own.measured):
            closed.append((finding, own))
        else:
            opened.append(finding)
    return tuple(opened), tuple(closed)


def worse(finding: Finding, measured: float | None) -> bool:
    """Tell whether a finding is worse than when ``measured`` was, by more than an accepted one may become."""
    if finding.measured is None or measured is None:
        return False
    shortfall = abs((finding.required or 0.0) - finding.measured)
    return shortfall > abs((finding.required or 0.0) - measured) + _WORSE[finding.unit]


def of_fitting(report: Report, name: str) -> Iterator[Finding]:
    """Yield the open findings about a fitting or its holes."""
    return (finding for finding in report.open if _about(finding, frozenset({name})))


def state_of(report: Report, name: str) -> str:
    """Return a fitting's loudest standing, else "accepted" or "clear"."""
    return report.states.get(name, "clear")
