"""The report: every rule run over a scene, and again over only what a change can touch."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from mastlayout.checks import FITTING_RULES, WHOLE_RULES, Rule, WholeRule
from mastlayout.checks.finding import STANDINGS, Finding, Standing, loud_first
from mastlayout.checks.rule import Depends, findings, where_it_stands
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits, limits_of
from mastlayout.model.layout import Accepted

# An accepted finding opens again when it is worse by this much, in mm or in degrees.
_WORSE = {"mm": 1.0, "deg": 0.1, "%": 1.0, "": 0.0}
# Families that no rule of this version asks; the papers say so.
NOT_RUN = ("sails", "hole rules", "ranges and arcs")


_HOLE_RULES = "hole rules"


@dataclass(frozen=True, eq=False)
class Broken:
    """A rule that broke: a fault of the program, not of the layout."""

    code: str
    subject: str
    what: str


@dataclass(frozen=True, eq=False)
class Report:
    """What the rules say of one scene. ``by_fitting`` and ``whole`` keep each rule's own results."""

    scene: Scene
    limits: Limits
    by_fitting: Mapping[tuple[str, str], tuple[Finding, ...]]
    whole: Mapping[str, tuple[Finding, ...]]
    broken: tuple[Broken, ...]
    open: tuple[Finding, ...]
    accepted: tuple[tuple[Finding, Accepted], ...]

    @property
    def holes_checked(self) -> bool:
        """Tell whether every rule about holes has run: otherwise nothing may be drilled."""
        return _HOLE_RULES not in NOT_RUN and not any(one.code.startswith("hole/") for one in self.broken)

    @property
    def faults(self) -> tuple[Finding, ...]:
        """The open findings that are faults."""
        return tuple(finding for finding in self.open if finding.standing == "fault")


# Told before each rule how many are done, of how many; what it raises ends the check.
Between = Callable[[int, int], None]


def _untold(_done: int, _of: int) -> None:
    """Nobody watches a check that is quick."""


def check(scene: Scene, previous: Report | None = None, between: Between = _untold) -> Report:
    """Run the rules over a scene; with a previous report only those that the change can touch."""
    limits = limits_of(scene.layout)
    changed = _changed(scene, previous)
    moved = _moved(scene, previous)
    broken: list[Broken] = []
    by_fitting: dict[tuple[str, str], tuple[Finding, ...]] = {}
    kept = _kept(previous)
    for done, rule in enumerate(FITTING_RULES):
        between(done, len(FITTING_RULES))
        old = kept if previous and not (rule.depends & changed) else None
        by_fitting |= _run(rule, scene, limits, old, moved, broken)
    touched = changed | ({"fittings"} if moved else set())
    failed = {item.code for item in previous.broken} if previous else set()
    whole = {
        rule.code: previous.whole[rule.code]
        if previous and not (rule.depends & touched) and rule.code not in failed
        else _run_whole(rule, scene, limits, broken)
        for rule in WHOLE_RULES
    }
    found = {f.key: f for results in (*by_fitting.values(), *whole.values()) for f in results}
    opened, accepted = _sorted_out(sorted(found.values(), key=loud_first), scene.layout.accepted)
    return Report(scene, limits, by_fitting, whole, tuple(broken), opened, accepted)


def _kept(previous: Report | None) -> dict[tuple[str, str], tuple[Finding, ...]]:
    """Return the results that may be kept: those of a rule that broke are asked again."""
    if previous is None:
        return {}
    failed = {(item.code, item.subject) for item in previous.broken}
    return {key: found for key, found in previous.by_fitting.items() if key not in failed}


def _changed(scene: Scene, previous: Report | None) -> frozenset[Depends]:
    """Return what has changed for every fitting at once; single fittings that moved are not in it."""
    if previous is None:
        return frozenset()
    old, new = previous.scene.layout, scene.layout
    halyards = not _same(old.halyards, new.halyards)
    differs: dict[Depends, bool] = {
        # A list that was begun and holds nothing says more than one that nobody began.
        "mast": old.mast is not new.mast
        or not _same(old.holes, new.holes)
        or old.model_fields_set != new.model_fields_set,
        "boat": old.boat is not new.boat,
        "stays": previous.scene.wires is not scene.wires,
        "spreaders": previous.scene.bars is not scene.bars,
        "inside": halyards,
        "cables": not _same(old.cables, new.cables),
        "sails": halyards or not _same(old.sails, new.sails),
        "limits": not _same(old.limits, new.limits),
    }
    return frozenset(name for name, it_does in differs.items() if it_does)


def _same(old: Sequence[object], new: Sequence[object]) -> bool:
    return len(old) == len(new) and all(a is b for a, b in zip(old, new, strict=True))


def _moved(scene: Scene, previous: Report | None) -> frozenset[str]:
    """Return the fittings that are new, gone or otherwise placed than before."""
    old = previous.scene.placed if previous else {}
    return frozenset(
        name for name in old.keys() | scene.placed.keys() if old.get(name) is not scene.placed.get(name)
    )


_Results = dict[tuple[str, str], tuple[Finding, ...]]


def _run(
    rule: Rule,
    scene: Scene,
    limits: Limits,
    old: Mapping[tuple[str, str], tuple[Finding, ...]] | None,
    moved: frozenset[str],
    broken: list[Broken],
) -> _Results:
    """Run one rule over the fittings that moved, or over all where nothing old can be kept."""
    kept = old or {}
    asked = [name for name in scene.placed if name in moved or (rule.code, name) not in kept]
    results: _Results = {(rule.code, name): kept.get((rule.code, name), ()) for name in scene.placed}
    for name, found in zip(asked, _ask(rule, scene, limits, asked, broken), strict=True):
        results[rule.code, name] = found
    if rule.pairs and old is not None:
        _mend_pairs(results, moved)
    return results


def _ask(
    rule: Rule, scene: Scene, limits: Limits, names: Sequence[str], broken: list[Broken]
) -> list[tuple[Finding, ...]]:
    """Ask a rule about some fittings at once; where it breaks, about each, so that one breaks alone."""
    placed = [scene.placed[name] for name in names]
    if not placed:
        return []
    try:
        margins = rule.margins(scene, [where_it_stands(one) for one in placed], limits)
        return [tuple(findings(rule, one, own)) for one, own in zip(placed, margins, strict=True)]
    except Exception as error:  # noqa: BLE001 - a broken rule is reported, and the others still run
        if len(names) > 1:
            return [found for name in names for found in _ask(rule, scene, limits, [name], broken)]
        broken.append(Broken(rule.code, names[0], f"{type(error).__name__}: {error}"))
        return [()]


def _mend_pairs(results: _Results, moved: frozenset[str]) -> None:
    """Leave out of the others' results what they had with a fitting that moved: its own results have it."""
    for (code, name), found in results.items():
        if name not in moved and any(_about(finding, moved) for finding in found):
            results[code, name] = tuple(f for f in found if not _about(f, moved))


def _about(finding: Finding, names: frozenset[str]) -> bool:
    return not names.isdisjoint(finding.things)


def _run_whole(rule: WholeRule, scene: Scene, limits: Limits, broken: list[Broken]) -> tuple[Finding, ...]:
    try:
        return tuple(rule.findings(scene, limits))
    except Exception as error:  # noqa: BLE001 - a broken rule is reported, and the others still run
        broken.append(Broken(rule.code, "", f"{type(error).__name__}: {error}"))
        return ()


def _sorted_out(
    found: Sequence[Finding], accepted: Sequence[Accepted]
) -> tuple[tuple[Finding, ...], tuple[tuple[Finding, Accepted], ...]]:
    """Part what the owner accepted, and is no worse since, from what is open."""
    signed: dict[tuple[str, frozenset[str], str | None], Accepted] = {
        (own.code, frozenset(own.subjects), None): own for own in accepted
    }
    opened, closed = [], []
    for finding in found:
        own = signed.get(finding.key)
        if own and not _worse(finding, own):
            closed.append((finding, own))
        else:
            opened.append(finding)
    return tuple(opened), tuple(closed)


def _worse(finding: Finding, own: Accepted) -> bool:
    if finding.measured is None or own.measured is None:
        return False
    shortfall = abs((finding.required or 0.0) - finding.measured)
    return shortfall > abs((finding.required or 0.0) - own.measured) + _WORSE[finding.unit]


def of_fitting(report: Report, name: str) -> Iterator[Finding]:
    """Yield the open findings about a fitting or its holes."""
    return (finding for finding in report.open if _about(finding, frozenset({name})))


def state_of(report: Report, name: str) -> str:
    """Return a fitting's loudest standing, else "accepted" or "clear".

    A rule that broke on it leaves it at least "not checked".
    """
    return states_of(report).get(name, "clear")


def states_of(report: Report) -> dict[str, str]:
    """Return the state of each thing that anything is said about, in one walk; all others are clear."""
    states: dict[str, str] = {}
    for finding, _own in report.accepted:
        states |= dict.fromkeys(finding.things, "accepted")
    said: list[tuple[Standing, tuple[str, ...]]] = [(one.standing, one.things) for one in report.open]
    said += [("not checked", (item.subject,)) for item in report.broken]
    for standing, things in sorted(said, key=lambda one: -STANDINGS.index(one[0])):
        states |= dict.fromkeys(things, standing)
    return states
