"""Suggestions: each clears when it is applied and checked anew, and nothing nearer does."""

from functools import cache

import known
import numpy as np
import pytest
from builders import a_fitting, a_kind, a_layout, a_mast

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import check
from mastlayout.desk import Desk
from mastlayout.documents.suggested import found_for
from mastlayout.geometry.scene import build
from mastlayout.model.edits import change, item_of
from mastlayout.model.fitting import AsBuilt, OldHole
from mastlayout.model.mast import Wall
from mastlayout.places.suggest import Guard, Move, one_matter, suggestions
from mastlayout.places.words import sentence
from mastlayout.storage.catalogue import catalogue

DEMOS = ("whimbrel", "sanderling", "turnstone")
GAP = "clearance/fitting"


@cache
def desk_of(demo):
    """A demo as it is opened."""
    return known.a_desk(demo)


@cache
def matters(demo):
    """Every matter of a demo that holds a fault, with what was suggested for it."""
    report, found = desk_of(demo).report, {}
    for finding in report.faults:
        about = one_matter(report, finding)
        if about is not None and about not in found:
            found[about] = suggestions(report, finding, tuple(catalogue().values()))
    return found


def family(rule):
    """What the codes of a rule begin with: the tack speaks in grades."""
    return "tack/" if rule.startswith("tack/") else rule


def is_clear(report, layout, rule, name, moved):
    """Tell, of a layout checked anew, whether a rule is silent on a fitting and nothing got louder."""
    after = check(build(layout))
    before = {finding.key: finding.standing for finding in report.open}
    for finding in after.open:
        ours = not moved.isdisjoint(finding.things)
        if finding.measure is None and name in finding.things and finding.code.startswith(family(rule)):
            return False
        if ours and finding.standing == "fault":
            return False
        if finding.standing != "note" and before.get(finding.key, "") not in (finding.standing, "fault"):
            return False
    return not after.broken


def carried(scene, name):
    """A fitting and all that hangs on it."""
    found = {name}
    for guest in scene.guests.get(name, ()):
        found |= carried(scene, guest)
    return found


@pytest.mark.parametrize("demo", DEMOS)
def test_every_suggestion_clears_when_it_is_applied(demo):
    """Every fault of every demo, checked anew without what was known before."""
    desk, asked = desk_of(demo), 0
    for (rule, name), one in matters(demo).items():
        for each in one.found:
            layout = each.applied(desk.layout)
            if isinstance(each, Move):
                moved = carried(desk.scene, each.name)
                assert is_clear(desk.report, layout, rule, name, moved), (rule, name, each.fields)
            else:
                after = check(build(layout))
                guards = {fitting.id for fitting in layout.fittings} - set(desk.scene.placed)
                said = [own for own in after.open if not (guards | {name}).isdisjoint(own.things)]
                assert not [own for own in said if own.standing == "fault"]
                assert [own.code for own in said if name in own.things and own.code.startswith("tack/")] == [
                    "tack/guarded"
                ]
            asked += 1
    assert asked


@pytest.mark.parametrize(
    "demo", [DEMOS[0], *(pytest.param(one, marks=pytest.mark.full) for one in DEMOS[1:])]
)
def test_no_height_nearer_than_the_suggested_one_clears(demo):
    """Heights between, or on the whole way where none was found, drawn by lot."""
    desk, dice = desk_of(demo), np.random.default_rng(8)
    for (rule, name), one in matters(demo).items():
        here = item_of(desk.layout, name)[1].from_masthead_mm
        if here is None:
            continue
        found = {own.direction: own.fields["from_masthead_mm"] for own in one.found if isinstance(own, Move)}
        ends = (found.get("up", 200.0), found.get("down", desk.scene.skin.length_mm - 2000.0))
        grid = [value for value in np.arange(*ends, 10.0).tolist() if value not in (here, *ends)]
        for value in dice.choice(grid, 1).tolist():
            layout = change(desk.layout, name, from_masthead_mm=value)
            moved = carried(desk.scene, name)
            assert not is_clear(desk.report, layout, rule, name, moved), (rule, name, value)


@pytest.mark.parametrize(
    ("group", "code"), [("deck", "clew/hooks"), ("deck", "metals/foot"), ("light", "metals/foot")]
)
def test_what_no_place_mends_is_not_looked_for(group, code):
    """A winch stays where its halyard is led, whatever a sheet does there; bare metals touch anywhere."""
    desk = Desk(a_layout(kinds=(a_kind(group=group),)))
    finding = Finding(code, "caution", ("box-1",), -5.0, 0.0)
    assert one_matter(desk.report, finding) is None


def test_what_is_not_the_masts_own_gear_is_moved_out_of_a_sheets_way():
    """A camera where a sheet hooks may stand elsewhere."""
    desk = Desk(a_layout(kinds=(a_kind(group="camera"),)))
    assert one_matter(desk.report, Finding("clew/hooks", "caution", ("box-1",), -5.0, 0.0))


def two_boxes(**parts):
    """Boxes of 80 along at 8000 and 8084 from the masthead: 4 apart, 5 wanted; two columns of holes."""
    fittings = (a_fitting(), a_fitting("box-2", from_masthead_mm=8084.0, **parts.pop("second", {})))
    return Desk(a_layout(fittings=fittings, **parts))


def places(desk, code=GAP):
    """What is suggested for the first finding of a code."""
    finding = next(own for own in desk.report.open if own.code == code)
    return suggestions(desk.report, finding)


def heights(found):
    """From the masthead, by direction."""
    return {
        one.direction: one.fields["from_masthead_mm"]
        for one in found.found
        if isinstance(one, Move) and one.direction in ("up", "down")
    }


def test_the_nearest_heights_are_those_of_hand_figures():
    """Two halves of 40 and 5 free: 8085 and 7915, by tens 8090 and 7910."""
    desk = two_boxes()
    found = places(desk)
    assert found.name == "box-2"
    assert heights(found) == {"up": 7910.0, "down": 8090.0}
    said = sentence(desk.scene, found)
    assert said.startswith("Clears at ")
    assert "at 8090 from the masthead (6 lower)" in said
    assert "at 7910 from the masthead (174 higher)" in said


def test_an_old_hole_pushes_the_place_farther():
    """Rows of holes 15 off the middle, 3 x 6 from an old one: at 8090 one is 14 off, at 8160 26 and more."""
    taken = OldHole(
        id="old", name="Old", from_masthead_mm=8119.0, girth="30 to port of ahead", diameter_mm=6.0
    )
    assert heights(places(two_boxes(holes=(taken,)))) == {"up": 7910.0, "down": 8160.0}


def test_a_place_whose_wall_nobody_measured_is_not_offered():
    """Readings end at 7601 and speak for 500 on: holes 15 below 8084 have a wall, 15 below 8090 none."""
    walls = tuple(Wall(from_masthead_mm=float(z), thickness_mm=4.0) for z in range(401, 7602, 400))
    assert heights(places(two_boxes(mast=a_mast(walls=walls)))) == {"up": 7910.0}


def test_what_nobody_could_check_before_is_named():
    """A foot that is not in hand is not checked anywhere: its place is clear as far as it was checked."""
    fittings = (a_fitting(in_hand=None), a_fitting("box-2", from_masthead_mm=8084.0, new=False))
    desk = Desk(a_layout(fittings=fittings))
    found = places(desk)
    assert {own.measure for one in found.found for own in one.left} == {"fitting.foot"}
    assert "Not checked there either: Feet of the new parts." in sentence(desk.scene, found)


def test_of_two_that_clash_the_new_one_is_moved_and_never_what_was_found_as_built():
    """Box-1 stands there already; then box-2 is as built as well, and nothing is looked for."""
    fittings = (a_fitting(new=False), a_fitting("box-2", from_masthead_mm=8084.0))
    assert places(Desk(a_layout(fittings=fittings))).name == "box-2"
    built = AsBuilt(from_masthead_mm=8084.0, by="A", day="2026-01-01")
    desk = Desk(a_layout(fittings=(a_fitting(as_built=built, from_masthead_mm=8000.0),)))
    assert all(one_matter(desk.report, finding) is None for finding in desk.report.open)


def test_a_smaller_stand_off_is_offered():
    """A box 200 ahead of another's face comes within 5 of it; nearer the mast it stands free beside it."""
    wide = a_kind("arm", solids=[{"shape": "box", "centre": (0, 300, 160), "size": (40, 600, 20)}])
    fittings = (
        a_fitting(),
        a_fitting("arm-1", kind="arm", from_masthead_mm=8500.0, stand_off_mm=30.0, new=True),
    )
    desk = Desk(a_layout(kinds=(a_kind(), wide), fittings=fittings))
    # The box reaches 120 out, the arm begins 180 out: 60 apart, nothing to mend.
    assert not [own for own in desk.report.open if own.code == GAP]
    low = a_kind("arm", solids=[{"shape": "box", "centre": (0, 300, 60), "size": (40, 600, 20)}])
    high = a_layout(
        kinds=(a_kind(solids=[{"shape": "box", "centre": (0, 0, 160), "size": (100, 80, 120)}]), low),
        fittings=fittings,
    )
    found = places(Desk(high))
    nearer = [one.fields["stand_off_mm"] for one in found.found if one.direction == "nearer"]
    # The arm's upper face at 70 + s, the box's lower at 100: free by 5 at s = 25.
    assert nearer == [25.0]


def test_a_search_can_be_ended():
    """What ``between`` raises comes through at the first chunk."""

    def stop(_done, _of):
        raise TimeoutError

    desk = two_boxes()
    finding = next(own for own in desk.report.open if own.code == GAP)
    with pytest.raises(TimeoutError):
        suggestions(desk.report, finding, between=stop)


def test_progress_rises_to_its_end():
    """Never back, never beyond."""
    told = []
    desk = two_boxes()
    finding = next(own for own in desk.report.open if own.code == GAP)
    suggestions(desk.report, finding, between=lambda done, of: told.append((done, of)))
    assert len({of for _done, of in told}) == 1
    done = [each for each, _of in told]
    assert done == sorted(done)
    assert done[-1] <= told[0][1]


def test_progress_of_many_findings_rises_once_to_its_end():
    """Each matter is looked for once; what is told is how far all of them are, never back to nothing."""
    desk, told = two_boxes(), []
    findings = [own for own in desk.report.open if one_matter(desk.report, own)]
    found = found_for(desk.report, findings, (), lambda done, of: told.append(done / of))
    assert found.keys() == set(findings)
    assert told == sorted(told)
    assert told[0] == 0.0
    assert told[-1] > 0.5
    assert max(told) <= 1.0


def test_a_guard_is_a_guard():
    """A guard stands before the fitting and brings its own kind along."""
    one = matters("whimbrel")["tack/bears", "hailer-1"]
    guard = next(each for each in one.found if isinstance(each, Guard))
    layout = guard.applied(desk_of("whimbrel").layout)
    new = layout.fittings[-1]
    assert (new.kind, new.new, new.in_hand) == (guard.kind.id, True, None)
    assert any(kind.id == guard.kind.id and kind.guards for kind in layout.kinds)
