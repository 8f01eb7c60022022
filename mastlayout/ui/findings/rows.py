"""The rows of the findings: what is said, how much, what is needed, and all that opens below."""

from collections.abc import Callable, Iterator
from functools import partial

from mastlayout.checks.alike import Alike, alike
from mastlayout.checks.built import WRONG
from mastlayout.checks.finding import Finding, Key, Unit
from mastlayout.checks.report import Report
from mastlayout.checks.sentence import (
    brief,
    measured_text,
    names_of,
    needed_text,
    not_checked,
    sentence,
    tagged,
    tags,
    thing,
)
from mastlayout.checks.wanted import Wanted, wanted
from mastlayout.desk import Desk
from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import masthead_first
from mastlayout.model.layout import Accepted
from mastlayout.units import Units
from mastlayout.words import _


@dataclass(frozen=True)
class Row:
    """One row. ``state`` is a standing, "accepted" or "clear"; ``things`` are ids, the first to be shown.

    ``words`` say it in one line, longest first: the first that finds room is shown. ``findings`` are
    those that say this; ``own`` is the owner's word on them. ``limit`` and ``working`` are empty where
    nothing was measured.
    """

    key: Key
    state: str
    words: tuple[str, ...]
    whole: str
    things: tuple[str, ...]
    z_mm: float | None = None
    measured: str = ""
    needed: str = ""
    limit: str = ""
    working: str = ""
    findings: tuple[Finding, ...] = ()
    own: Accepted | None = None

    @property
    def may_be_accepted(self) -> bool:
        """Tell whether the owner may accept it: what nobody measured is measured, not accepted."""
        return (
            bool(self.findings) and self.own is None and all(found.measure is None for found in self.findings)
        )

    def says(self, key: Key) -> bool:
        """Tell whether it is about the matter of a key."""
        return key == self.key or any(key == found.key for found in self.findings)


# The layout shows before the rules are asked: until then nothing is clear.
_BEING_CHECKED = Row(
    ("", frozenset(), "asked"), "not checked", (_("Being checked …"),), _("Being checked …"), ()
)


class Worded:
    """The rows as they were worded last; those that would be worded alike are taken as they are."""

    def __init__(self) -> None:
        self._said_with: object = None
        self._old: dict[object, Row] = {}
        self._new: dict[object, Row] = {}

    def begin(self, said_with: object) -> None:
        """Begin anew: all that words hang on besides the findings, such as names, units and limits."""
        self._old, self._new = (self._new if said_with == self._said_with else {}), {}
        self._said_with = said_with

    def row(self, key: object, word_it: Callable[[], Row]) -> Row:
        """Return the row of a key, worded where it was not worded before."""
        row = self._new[key] = self._old.get(key) or word_it()
        return row


def rows_of(desk: Desk, units: Units, worded: Worded | None = None) -> list[Row]:
    """Return every row, loud to quiet: as the findings sheet has them, then what is clear."""
    report, says = desk.report, _Saying(desk, units, worded or Worded())
    if not report.asked:
        return [_BEING_CHECKED]
    groups = alike(found for found in report.open if found.measure is None)
    loud = [says.group(group) for group in groups if group[0].standing != "note"]
    quiet = [says.group(group) for group in groups if group[0].standing == "note"]
    unknown = [says.unknown(one) for one in wanted(report)]
    accepted = [says.group((found,), own) for found, own in report.accepted]
    return [*says.broken(), *loud, *unknown, *quiet, *accepted, *says.clear()]


class _Saying:
    """The sentences of one report."""

    def __init__(self, desk: Desk, units: Units, worded: Worded) -> None:
        self._scene, self._report, self._units = desk.scene, desk.report, units
        self._names, self._worded = names_of(desk.layout), worded
        tagged_too = (one for one in desk.layout.fittings if one.tag)
        self._numbers = {one.id: _("No. {tag}").format(tag=one.tag) for one in tagged_too}
        tags = [fitting.tag for fitting in desk.layout.fittings]
        worded.begin((self._names, tags, units, desk.scene.skin.length_mm, self._report.limits))

    def group(self, group: Alike, own: Accepted | None = None) -> Row:
        """Say findings alike, open or accepted."""
        named = group[0].things if group[0].code in WRONG else ()
        stand = tuple(self._scene.placed.get(name) for name in named)
        return self._worded.row((group, own, stand), lambda: self._group(group, own))

    def _group(self, group: Alike, own: Accepted | None) -> Row:
        first = group[0]
        whole = sentence(self._scene, group, self._names, self._units)
        if own is not None:
            whole += " " + _("Accepted {day}: “{remark}”.").format(day=own.day, remark=own.remark)
        return Row(
            key=first.key,
            state="accepted" if own else first.standing,
            words=self._clauses(group),
            whole=whole,
            things=first.things,
            z_mm=first.z_mm,
            measured=measured_text(first, self._units),
            needed=needed_text(first, self._units),
            limit=_limit(self._report, first),
            working=self._working(first),
            findings=group,
            own=own,
        )

    def _clauses(self, group: Alike) -> tuple[str, ...]:
        """Say what happens to what, by name, then by tag; its figures have columns of their own."""
        happens = brief(self._scene, group, self._names)
        called = [say(self._scene, group, self._names) for say in (thing, tagged)]
        if group[0].subjects[0] != group[0].things[0]:
            called.append(tags(self._scene, group))
        said = [f"{what}: {happens}" for what in called]
        # At last the other thing by its tag too.
        by_tag = brief(self._scene, group, {**self._names, **self._numbers})
        said.append(f"{tagged(self._scene, group, self._names)}: {by_tag}")
        return tuple(dict.fromkeys(said))

    def unknown(self, one: Wanted) -> Row:
        """Say all that waits for one measure in one row."""
        first, count = one.findings[0], len(one.things)
        named = "; ".join(self._names.get(name, name) for name in one.things[:2])
        more = _(" and {n} more").format(n=count - 2) if count > 2 else ""
        title = one.instruction.title
        words = [_("{title}: {names}{more}").format(title=title, names=named, more=more)]
        if count > 1:
            words.append(_("{title}: {n} things").format(title=title, n=count))
        whole = not_checked(one, self._names)
        key = ("", frozenset[str](), one.instruction.key)
        return Row(key, "not checked", tuple(words), whole, one.things, first.z_mm, findings=one.findings)

    def broken(self) -> Iterator[Row]:
        """Say the rules that broke, as the findings sheet says them."""
        if not self._report.broken:
            return
        from mastlayout.documents.schedule.findings import finding_rows  # noqa: PLC0415 - rules seldom break

        said = finding_rows(self._report, self._units)
        for broken, paper in zip(self._report.broken, said, strict=False):
            words = (f"{self._names.get(broken.subject, paper.subjects)}: {paper.code}",)
            things = (broken.subject,) if broken.subject else ()
            yield Row((broken.code, frozenset(things), "broken"), "fault", words, paper.sentence, things)

    def clear(self) -> Iterator[Row]:
        """Say each fitting that nothing open is about, masthead first."""
        about = {name for found in self._report.open for name in found.things}
        about |= {broken.subject for broken in self._report.broken}
        for placed in masthead_first(self._scene):
            if placed.id not in about:
                yield self._worded.row((placed.id, placed.z_mm), partial(_clear, placed))

    def _working(self, found: Finding) -> str:
        if found.measured is None:
            return _("Rule {code}.").format(code=found.code)
        unit = _unit(found.unit, self._units)
        words = _("Measured {measured}{unit}, needed {needed}{unit}; rule {code}.")
        return words.format(
            measured=measured_text(found, self._units),
            needed=needed_text(found, self._units),
            unit=unit,
            code=found.code,
        )


def _clear(placed: Placed) -> Row:
    whole = _("{name}: no rule that was asked finds anything open.").format(name=placed.fitting.name)
    key = ("clear", frozenset({placed.id}), None)
    return Row(key, "clear", (placed.fitting.name,), whole, (placed.id,), placed.z_mm)


def _unit(unit: Unit, units: Units) -> str:
    """Return what stands behind a written number: degrees and per cent stand there already."""
    if unit != "mm":
        return ""
    return " mm" if units == "metric" else _(" in")


def _limit(report: Report, found: Finding) -> str:
    limit = report.limits.get(found.limit or "")
    if limit is None:
        return ""
    words = _("{title}: {value:g} {unit}, {source}.")
    said = words.format(title=limit.title, value=limit.value, unit=limit.unit, source=limit.source)
    return f"{said} “{limit.why}”" if limit.why else said
