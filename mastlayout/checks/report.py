"""The report: every rule run over a scene, and again over only what a change can touch."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from mastlayout.checks import FITTING_RULES, WHOLE_RULES, Rule, WholeRule
from mastlayout.checks.finding import STANDINGS, Finding, Standing, loud_first
from mastlayout.checks.rule import Depends, findings, where_it_stands
from mastlayout.geometry.crowd import crowd_of
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits, limits_of
from mastlayout.model.layout import Accepted, begun_lists, same_items

# An accepted finding opens again when it is worse by this much, in mm or in degrees.
_WORSE = {"mm": 1.0, "deg": 0.1, "%": 1.0, "V": 0.05, "NM": 0.0, "m²": 0.1, "dB": 0.5, "": 0.0}
# Families that no rule of this version asks; the papers say so.
NOT_RUN = ("what stands before a horn",)
_HOLE_RULES = "hole rules"
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

    ``by_fitting``, by rule and fitting, and ``whole`` keep each rule's own results. One that was not
    ``asked`` yet says nothing: nothing in it is clear, and nothing may be drilled. ``behind`` are the
    rules that were left for later, each with the fittings that moved since; what they say is of before.
    """

    scene: Scene
    limits: Limits
    by_fitting: Mapping[str, "_Results"]
    whole: Mapping[str, tuple[Finding, ...]]
    broken: tuple[Broken, ...]
    open: tuple[Finding, ...]
    accepted: tuple[tuple[Finding, Accepted], ...]
    asked: bool = True
    behind: Mapping[str, frozenset[str]] = field(default_factory=dict)

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
        for finding, _own in self.accepted:
            states |= dict.fromkeys(finding.things, "accepted")
        said: list[tuple[Standing, tuple[str, ...]]] = [(one.standing, one.things) for one in self.open]
        said += [("not checked", (item.subject,)) for item in self.broken]
        for standing, things in sorted(said, key=lambda one: -STANDINGS.index(one[0])):
            states.update(dict.fromkeys(things, standing))
        return states

    @property
    def faults(self) -> tuple[Finding, ...]:
        """The open findings that are faults."""
        return tuple(finding for finding in self.open if finding.standing == "fault")


# Told before each rule how many are done, of how many; what it raises ends the check.
Between = Callable[[int, int], None]


def _untold(_done: int, _of: int) -> None:
    """Nobody watches a check that is quick."""


def unasked(scene: Scene) -> Report:
    """Return the report of a scene that no rule was asked about yet."""
    none = {rule.code: {} for rule in FITTING_RULES}  # type: dict[str, _Results]
    return Report(scene, limits_of(scene.layout), none, {}, (), (), (), asked=False)


def check(
    scene: Scene,
    previous: Report | None = None,
    between: Between = _untold,
    leave: frozenset[str] = frozenset(),
) -> Report:
    """Run the rules over a scene; with a previous report only those that the change can touch.

    Of these the ones in ``leave`` are left for later, where a fitting moved and nothing else changed.
    """
    limits = limits_of(scene.layout)
    previous = previous if previous and previous.asked else None
    changed, moved = _changed(scene, previous), _moved(scene, previous)
    touched = changed | ({"fittings"} if moved or _listed_anew(scene, previous) else set())
    if previous is None or previous.scene.placed.keys() != scene.placed.keys():
        leave = frozenset()
    broken: list[Broken] = []
    behind: dict[str, frozenset[str]] = {}
    by_fitting: dict[str, _Results] = {}
    for done, rule in enumerate(FITTING_RULES):
        between(done, len(FITTING_RULES))
        old = _kept(rule, previous) if previous and not (rule.depends & changed) else None
        due = moved | _behind(rule, scene, previous, limits, moved) | _late(rule.code, previous)
        if old is not None and old.keys() == scene.placed.keys() and (not due or rule.code in leave):
            by_fitting[rule.code] = old
            if due:
                behind[rule.code] = due
            continue
        results = by_fitting[rule.code] = _run(rule, scene, limits, old, due, broken)
        if rule.pairs and old and previous and moved:
            near = _near(rule, scene, previous, limits, moved)
            _ask_near(rule, scene, limits, results, moved, near, broken)
    failed = {item.code for item in previous.broken} if previous else set()
    whole: dict[str, tuple[Finding, ...]] = {}
    for one in WHOLE_RULES:
        kept = previous.whole.get(one.code) if previous and one.code not in failed else None
        stands = not (one.depends & touched) and one.code not in _waiting(previous)
        left = not (one.depends & changed) and one.code in leave
        if kept is None or not (stands or left):
            whole[one.code] = _run_whole(one, scene, limits, broken)
            continue
        whole[one.code] = kept
        if not stands:
            behind[one.code] = frozenset()
    said = (*(own for results in by_fitting.values() for own in results.values()), *whole.values())
    found = {f.key: f for results in said for f in results}
    opened, accepted = _sorted_out(sorted(found.values(), key=loud_first), scene.layout.accepted)
    return Report(scene, limits, by_fitting, whole, tuple(broken), opened, accepted, behind=behind)


def _waiting(previous: Report | None) -> Mapping[str, frozenset[str]]:
    return previous.behind if previous else {}


def _late(code: str, previous: Report | None) -> frozenset[str]:
    """Return the fittings a rule was not asked of since they moved."""
    return _waiting(previous).get(code, frozenset())


def _kept(rule: Rule, previous: Report) -> "_Results":
    """Return the results of a rule that may be kept: where it broke it is asked again."""
    failed = {item.subject for item in previous.broken if item.code == rule.code}
    results = previous.by_fitting[rule.code]
    return {name: found for name, found in results.items() if name not in failed} if failed else results


def _changed(scene: Scene, previous: Report | None) -> frozenset[Depends]:
    """Return what has changed for every fitting at once; single fittings that moved are not in it."""
    if previous is None:
        return frozenset()
    old, new = previous.scene.layout, scene.layout
    halyards = not same_items(old.halyards, new.halyards)
    # A list that was begun and holds nothing says more than one that nobody began.
    begun = begun_lists(old) ^ begun_lists(new)
    differs: dict[Depends, bool] = {
        "mast": old.mast is not new.mast,
        "holes": not same_items(old.holes, new.holes) or "holes" in begun,
        "boat": old.boat is not new.boat,
        "stays": previous.scene.wires is not scene.wires or "stays" in begun,
        "spreaders": previous.scene.bars is not scene.bars or "spreaders" in begun,
        "inside": not same_items(previous.scene.inside, scene.inside) or "halyards" in begun,
        "lines": previous.scene.running is not scene.running,
        "cables": not same_items(old.cables, new.cables),
        "sails": halyards or not (same_items(old.sails, new.sails) and same_items(old.poles, new.poles)),
        "limits": not same_items(old.limits, new.limits),
    }
    return frozenset(name for name, it_does in differs.items() if it_does)


def _moved(scene: Scene, previous: Report | None) -> frozenset[str]:
    """Return the fittings that are new, gone or otherwise placed than before."""
    old = previous.scene.placed if previous else {}
    return frozenset(
        name for name in old.keys() | scene.placed.keys() if old.get(name) is not scene.placed.get(name)
    )


def _listed_anew(scene: Scene, previous: Report | None) -> bool:
    """Tell whether a fitting came, went or changed, one that has no place included."""
    return previous is not None and not same_items(previous.scene.layout.fittings, scene.layout.fittings)


def _near(
    rule: Rule, scene: Scene, previous: Report, limits: Limits, moved: frozenset[str]
) -> tuple[str, ...]:
    """Return what a rule of pairs may say something else of, since a fitting that moved is near or was."""
    far = max(rule.reach_mm, limits[rule.limit].value if rule.limit else 0.0)
    spans = [
        where.placed[name].span_z_mm
        for where in (previous.scene, scene)
        for name in moved
        if name in where.placed
    ]
    names, low, high = scene.spans_z
    near = np.zeros(len(names), dtype=bool)
    for bottom, top in spans:
        near |= (low - far <= top) & (bottom <= high + far)
    return tuple(names[i] for i in np.flatnonzero(near).tolist() if names[i] not in moved)


def _behind(
    rule: Rule, scene: Scene, previous: Report | None, limits: Limits, moved: frozenset[str]
) -> frozenset[str]:
    """Return what is to be asked whole again: before a guard that moved, or near what a rule adds up."""
    if previous is None:
        return frozenset()
    if rule.together and moved:
        return frozenset(_near(rule, scene, previous, limits, moved))
    if "guards" not in rule.depends:
        return frozenset()
    guards = {
        name
        for where in (previous.scene, scene)
        for name in moved
        if name in where.placed and where.placed[name].kind.guards
    }
    return frozenset(_near(rule, scene, previous, limits, frozenset(guards))) if guards else frozenset()


_Results = Mapping[str, tuple[Finding, ...]]


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
    alone = replace(scene, placed=placed, gear=crowd_of([(name, one.solids) for name, one in placed.items()]))
    for name, found in zip(near, _ask(rule, alone, limits, near, broken, scene), strict=True):
        own = [finding for finding in results[name] if not _about(finding, moved)]
        results[name] = (*own, *(finding for finding in found if _about(finding, moved)))


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
