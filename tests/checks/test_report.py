"""The report: kept results equal a fresh check, accepted findings, broken rules."""

import dataclasses
from functools import partial

import known
import pytest
from agreement import assert_same_report
from builders import a_fitting, a_layout, a_spreader, a_stay
from hypothesis import given, settings
from hypothesis import strategies as st

from mastlayout.checks import report as report_module
from mastlayout.checks import rules
from mastlayout.checks.finding import STANDINGS
from mastlayout.checks.report import check, state_of
from mastlayout.checks.rule import where_it_stands
from mastlayout.checks.rules import FITTING_RULES, WHOLE_RULES
from mastlayout.checks.wordings import WORDINGS
from mastlayout.geometry.scene import build
from mastlayout.model.adding import add_old_hole
from mastlayout.model.around import AHEAD
from mastlayout.model.edits import change, remove
from mastlayout.model.layout import Accepted, Layout

CROWDED = a_layout(
    fittings=tuple(a_fitting(f"box-{i}", from_masthead_mm=8000.0 + 84 * i) for i in range(5)),
    spreaders=(a_spreader(),),
    stays=(a_stay(),),
)


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 4), st.integers(7800, 9200)), min_size=1, max_size=6))
def test_a_kept_report_equals_a_fresh_one(moves):
    """Whatever is moved, running only what changed finds what running everything finds."""
    scene = build(CROWDED)
    report = check(scene)
    for which, height in moves:
        layout = change(scene.layout, f"box-{which}", from_masthead_mm=float(height))
        scene = build(layout, scene)
        report = check(scene, report)
    assert {(f.key, f.standing) for f in report.open} == {
        (f.key, f.standing) for f in check(build(scene.layout)).open
    }


@pytest.fixture
def read(monkeypatch):
    """The names of a layout's parts as they are asked for."""
    names = set()

    def told(layout, name):
        names.add(name)
        return object.__getattribute__(layout, name)

    monkeypatch.setattr(Layout, "__getattribute__", told, raising=False)
    return names


@pytest.mark.parametrize("yacht", ["whimbrel", "sanderling", "turnstone"])
def test_what_reads_old_holes_is_asked_again_when_one_changes(read, yacht):
    """Each rule over a whole yacht: only those that say so read the holes that are there."""
    report = known.report(yacht)
    fitting = [where_it_stands(placed) for placed in report.scene.placed.values()]
    ask = {rule: partial(rule.margins, report.scene, fitting, report.limits) for rule in FITTING_RULES}
    ask |= {rule: lambda rule=rule: list(rule.findings(report.scene, report.limits)) for rule in WHOLE_RULES}
    reads = set()
    for rule, asked in ask.items():
        read.clear()
        asked()
        if "holes" in read:
            reads.add(rule.code)
    assert reads
    assert reads <= {rule.code for rule in ask if "holes" in rule.depends}


@pytest.mark.parametrize("yacht", ["whimbrel", "sanderling", "turnstone"])
def test_a_new_old_hole_is_held_against_what_is_drilled_near_it(yacht):
    """Beside a hole to be drilled: the report is a fresh one's, and what reads no old hole was kept."""
    before = known.report(yacht)
    new = next(one for one in before.scene.placed.values() if one.fitting.new and one.holes and one.skin)
    height = before.scene.skin.length_mm - float(new.holes.z_mm[0, 0]) + 9.0
    layout, _name = add_old_hole(before.scene.layout, height, new.fitting.girth or AHEAD, 8.0)
    after = check(build(layout, before.scene), before)
    assert_same_report(after, check(build(layout)))
    assert after.by_fitting["tack/bears"] is before.by_fitting["tack/bears"]


def test_findings_about_a_fitting_go_with_it():
    """A fitting taken off leaves no finding behind."""
    scene = build(CROWDED)
    report = check(scene)
    assert any("box-1" in f.subjects for f in report.open)
    layout = remove(CROWDED, "box-1")
    after = check(build(layout, scene), report)
    assert not any("box-1" in subject for f in after.open for subject in f.subjects)


def accepted(measured):
    """The owner's word on the first two boxes standing close."""
    return Accepted(code="clearance/fitting", subjects=("box-2", "box-1"), remark="seen", day="2026-11-25",
                    measured=measured)  # fmt: skip


def two(apart):
    """Two boxes so far apart, and the owner's word given at a gap of 3."""
    fittings = (a_fitting(), a_fitting("box-2", from_masthead_mm=8000.0 + 80 + apart))
    return a_layout(fittings=fittings, accepted=(accepted(3.0),))


def test_an_accepted_finding_is_closed_until_it_is_worse_by_one():
    """Accepted at 3 it stays closed at 2.1 and opens again at 1.9."""
    for gap, closed in ((3.0, True), (2.1, True), (1.9, False)):
        report = check(build(two(gap)))
        assert bool(report.accepted) is closed


def test_a_broken_rule_is_reported_and_the_others_run(monkeypatch):
    """A rule that raises is a fault of the program; what the others find is still found."""

    def breaks(*_):
        raise RuntimeError("on purpose")

    first, *rest = rules.FITTING_RULES
    monkeypatch.setattr(rules, "FITTING_RULES", (dataclasses.replace(first, many=breaks), *rest))
    report = check(build(CROWDED))
    assert {item.code for item in report.broken} == {first.code}
    assert any(f.code == "clearance/fitting" for f in report.open)


def test_a_rule_that_broke_is_asked_again(monkeypatch):
    """A rule that broke once is not kept as clear."""
    scene = build(CROWDED)
    with monkeypatch.context() as patched:
        first, *rest = rules.FITTING_RULES
        patched.setattr(rules, "FITTING_RULES", (dataclasses.replace(first, many=lambda *_: 1 / 0), *rest))
        broken = check(scene)
    assert broken.broken
    assert check(scene, broken).broken == ()


def test_every_code_has_its_words():
    """Each rule's code, and each code a whole rule may find, says what it asks."""
    for rule in rules.FITTING_RULES:
        assert rule.code in WORDINGS
    assert all(wording.asks for wording in WORDINGS.values())
    # What helps is said as it stands.
    assert not [code for code, wording in WORDINGS.items() if "{" in wording.helps]


def test_the_state_of_a_fitting_is_never_quieter_than_what_is_known_of_it():
    """Accepted is not clear, a finding is louder than an acceptance, and one far from all is clear."""
    assert state_of(check(build(two(3.0))), "box-1") != "clear"
    report = check(build(two(1.9)))
    loudest = min(
        (f for f in report.open if "box-1" in f.subjects), key=lambda f: STANDINGS.index(f.standing)
    )
    assert state_of(report, "box-1") == loudest.standing


def test_a_rule_that_broke_on_a_fitting_leaves_it_not_checked():
    """Nothing found and one rule broken is not clear; a fault found stays a fault."""
    report = check(build(CROWDED))
    quiet = dataclasses.replace(
        report, open=(), accepted=(), broken=(report_module.Broken("x", "box-0", "why"),)
    )
    assert state_of(quiet, "box-0") == "not checked"
    assert state_of(quiet, "box-1") == "clear"
    signed = (report.open[0], accepted(3.0))
    named = report.open[0].subjects[0]
    assert state_of(dataclasses.replace(report, open=(), accepted=(signed,), broken=()), named) == "accepted"
