"""Running lines: the three yachts as a rigger sees them, and each grade and state on a plain mast."""

import numpy as np
import pytest
from asking import of_rules
from builders import a_fitting, a_kind, a_layout, a_spreader, a_stay

from mastlayout.checks import aloft, lines
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in
from mastlayout.model.layout import LimitOverride
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import Halyard, LinePoint, Sail
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

# What a rigger warns of (common practice, no source): mast steps catch the main halyard as the sail goes
# up; a slack topping lift wraps round a spreader in a gybe; a pole lift tied off at its track hangs
# across all that stands on the fore face; lazy jacks led forward past a spreader chafe on its bracket.
MUST_BE_FOUND = [
    ("whimbrel", "line/hooks", "step-p", "halyard-main"),
    ("whimbrel", "line/hooks", "step-s", "halyard-main"),
    ("whimbrel", "line/wraps", "spreader-upper-p", "topping-lift"),
    ("whimbrel", "line/wraps", "spreader-upper-s", "topping-lift"),
    ("whimbrel", "line/chafes", "hailer-1", "pole-lift"),
    ("whimbrel", "line/chafes", "steaming-light", "pole-lift"),
    ("whimbrel", "line/chafes", "spreader-bracket-lower-p", "lazy-jack-p"),
    ("whimbrel", "line/near", "camera-1", "halyard-main"),
    ("sanderling", "line/hooks", "camera-1", "halyard-main"),
    ("turnstone", "line/hooks", "steaming-light", "halyard-main"),
    ("turnstone", "line/chafes", "hailer-1", "pole-lift"),
]
# And what nobody should be bothered with, and why.
NOT_FLAGGED = [
    ("whimbrel", "tricolour-1"),  # above every sheave
    ("whimbrel", "vhf-whip-1"),
    ("whimbrel", "wind-1"),
    ("whimbrel", "radome-1"),  # its bracket keeps the lift off, and its guard is smooth
    ("whimbrel", "cleat-lower-s"),  # lines are made fast there
    ("whimbrel", "exit-main"),
    ("whimbrel", "tang-runner-p"),  # the runner hangs on it, rigged, let go and stowed
    ("whimbrel", "tang-inner-stay"),  # and the inner stay on this
    ("whimbrel", "lazy-jack-eye-p"),
    ("whimbrel", "tang-lower-p"),  # a line may run close by what is smooth
    ("sanderling", "tang-forestay"),
    ("sanderling", "lazy-jack-block-p"),
    ("sanderling", "radome-1"),
    ("turnstone", "crane"),
    ("turnstone", "reflector-1"),  # its tube is round, and no line is led past it
]


@pytest.fixture(scope="module")
def reports():
    """What is said of lines on the three yachts."""
    rules = (lines.LINES, lines.KNOWN, *aloft.RULES)
    return {path.stem: of_rules(open_document(path).layout, rules) for path in demo_masts().glob("*.toml")}


@pytest.mark.parametrize(("yacht", "code", "name", "line"), MUST_BE_FOUND)
def test_what_a_rigger_warns_of(reports, yacht, code, name, line):
    """By name, with the state in which it is so."""
    said = [one for one in reports[yacht] if one.code == code and one.subjects == (name, line)]
    assert len(said) == 1
    assert said[0].state


@pytest.mark.parametrize(("yacht", "name"), NOT_FLAGGED)
def test_what_no_line_minds_is_not_flagged(reports, yacht, name):
    """Nothing is said of it and a line."""
    assert not [f for f in reports[yacht] if f.code.startswith("line/") and name in f.things]


def test_a_jumpers_strut_and_the_lines_abaft_it(reports):
    """Nothing gets round a strut between its wire and the mast."""
    assert not [f for f in reports["sanderling"] if f.code == "line/wraps" and "jumper" in f.subjects[0]]


@pytest.mark.parametrize("yacht", ["whimbrel", "sanderling", "turnstone"])
def test_one_finding_for_a_fitting_and_a_matter(reports, yacht):
    """Two lines that hook on the same horn are one matter: the worse is named."""
    of_lines = [f for f in reports[yacht] if f.code.startswith("line/") and f.standing != "not checked"]
    matters = [(f.code, f.subjects[0]) for f in of_lines]
    assert len(matters) == len(set(matters))


# A line down the fore face of a mast 200 deep, 120 off its axis: its rope's near side stands 14 off the skin.
DOWN = (
    LinePoint(at="block", from_masthead_mm=4000.0, ahead_mm=120.0, port_mm=0.0),
    LinePoint(at="cleat", from_masthead_mm=12000.0, ahead_mm=120.0, port_mm=0.0),
)
LINE = Halyard(id="line", name="Line", rope_mm=12.0, inside="outside", points=DOWN)
BOX = {"shape": "box", "centre": (0, 0, 0), "size": (40, 60, 60)}


def a_box(out, **more):
    """A kind with one box, its outer side so far off the skin."""
    return a_kind(solids=[BOX | {"centre": (0, 0, out - 30.0)}], **more)


def report_of(kind, *halyards, **parts):
    """The report of box-1 ahead, halfway down the line."""
    layout = a_layout(kinds=(kind,), halyards=halyards or (LINE,), **parts)
    report = check(build(layout))
    assert not report.broken
    return report


def said(kind, *halyards, **parts):
    """Code and standing of what is said of box-1 and lines."""
    report = report_of(kind, *halyards, **parts)
    return [(f.code, f.standing) for f in report.open if f.code.startswith("line/") and "box-1" in f.subjects]


@pytest.mark.parametrize(
    ("out", "group", "snags", "expected"),
    [
        (2.0, "light", False, []),  # 12 off the rope
        (4.0, "light", False, []),  # ten: at the limit
        (4.1, "light", False, [("line/near", "note")]),
        (14.1, "light", False, [("line/bears", "fault")]),
        (14.1, "deck", False, [("line/chafes", "caution")]),
        (13.0, "deck", False, []),  # it is smooth, and holds fast
        (13.0, "deck", True, [("line/hooks", "caution")]),
        (14.1, "deck", True, [("line/chafes", "caution")]),  # of one line the louder,
    ],
)
def test_each_grade(out, group, snags, expected):
    """By how near it stands to the taut line, what it is for, and whether it hooks."""
    kind = a_kind(group=group, solids=[BOX | {"centre": (0, 0, out - 30.0), "snags": snags}])
    assert said(kind) == expected


@pytest.mark.parametrize(("below_mm", "expected"), [(140.0, []), (160.0, [("line/bears", "fault")])])
def test_within_a_hand_of_its_end_a_line_is_made_fast_there(below_mm, expected):
    """It leads over a light's face and ends so far below its middle, 20 ahead: by 150 it is no passer-by."""
    ends = LINE.but(points=(LINE.points[0], LINE.points[1].but(from_masthead_mm=8000.0 + below_mm)))
    assert said(a_box(14.1, group="light"), ends) == expected


# Square to port of the line's middle: its near edge is so far off.
def beside(off_mm):
    """A hook as high as the line's middle, off it to port by so much."""
    solid = {"shape": "ball", "centre": (-off_mm - 16.0, 0, 20.0), "radius_mm": 10, "snags": True}
    return a_kind(group="deck", solids=[solid])


# 8,000 long with 0.5 % of slack, 40, its middle comes sqrt(4,020^2 - 4,000^2) = 400.5 aside.
@pytest.mark.parametrize(("off", "many"), [(300.0, 1), (400.0, 1), (401.0, 0), (600.0, 0)])
def test_how_far_a_slack_line_hooks(off, many):
    """To where two legs of the slack line reach."""
    assert len(said(beside(off))) == many


def test_how_much_slack_it_takes_is_said():
    """By Pythagoras, the hook 300 off the rope: 2 (sqrt(4,000^2 + 300^2) - 4,000) = 22.5 of 40."""
    (one,) = [f for f in report_of(beside(300.0)).open if f.code == "line/hooks"]
    assert one.measured == pytest.approx(22.47, abs=0.1)
    assert one.required == pytest.approx(40.0)
    assert one.limit == "line.slack"


def test_slack_as_it_was_measured_goes_before_the_setting():
    """Kept taut it hooks nowhere, left with a metre it comes two metres aside."""
    assert not said(beside(300.0), LINE.but(slack_mm=0.0))
    assert said(beside(1900.0), LINE.but(slack_mm=1000.0))
    own = LimitOverride(key="line.slack", value=0.2, unit="%", why="tied tight")
    assert not said(beside(300.0), limits=(own,))


def test_what_a_line_is_led_to_hooks_it_by_right():
    """A cleat at the end of one line is not flagged for the other."""
    end = LinePoint(at="cleat", fitting="box-1")
    other = LINE.but(id="other", points=(DOWN[0], end))
    assert said(beside(100.0))
    assert not said(beside(100.0), LINE, other)


TIED = DeckEnd(ahead_mm=600.0, off_mm=0.0, above_mm=0.0)
HANK = Sail(
    id="jib", name="Jib", role="headsail", stay="forestay", halyard="line", head_mm=1500.0, tack_mm=15500.0
)


def states_of(*halyards, **parts):
    """What each line is worked out to do."""
    running = build(a_layout(halyards=halyards, **parts)).running
    return [way.doing for way in running.ways], running.unmeasured


def test_the_states_of_a_halyard():
    """At its sail's head, as the sail goes up, tied off; and its fall from exit to winch."""
    sheave, leave = DOWN[0].but(at="sheave"), DOWN[1].but(at="exit")
    winch = DOWN[1].but(at="winch", from_masthead_mm=14000.0)
    line = LINE.but(inside="straight", points=(sheave, leave, winch), tied_at=TIED)
    doing, lacking = states_of(line, sails=(HANK,), stays=(a_stay(),))
    assert doing == ["led", "hoisted", "going up", "tied off"]
    assert not lacking


@pytest.mark.parametrize(
    ("fields", "lacking"),
    [
        ({}, []),  # it ends at its cleat
        ({"tied_off": "at the rail"}, ["tied off"]),  # where, nobody measured
        ({"tied_off": "at the rail", "tied_at": TIED}, []),
        ({"hoisted": "at the boom's end"}, ["hoisted"]),
    ],
)
def test_where_nobody_knows_where_it_leads_it_is_not_checked(fields, lacking):
    """Never a silent pass: the finding names the measure."""
    line = LINE.but(**fields)
    assert [doing for _line, doing in states_of(line)[1]] == lacking
    report = report_of(a_box(2.0), line)
    keys = {"tied off": "halyard.tied", "hoisted": "halyard.hoisted"}
    found = [f for f in report.open if f.code == "line/known"]
    assert [(f.standing, f.measure) for f in found] == [("not checked", keys[doing]) for doing in lacking]


def test_a_loaded_halyard_is_not_slack():
    """With its sail hoisted on it, it hooks on nothing; as the sail goes up it does."""
    running = build(a_layout(halyards=(LINE,), sails=(HANK,), stays=(a_stay(),))).running
    slack = {way.doing: float(way.slack_mm.max()) for way in running.ways}
    assert slack["hoisted"] == 0.0
    assert slack["going up"] > 0.0


RUNNER = a_stay(
    "runner", role="runner", side="port", wire_mm=6.0, removable=True,
    upper={"from_masthead_mm": 5000.0, "girth": "bearing 210", "stand_off_mm": 10.0},
    deck={"ahead_mm": -5000.0, "off_mm": 1500.0, "above_mm": 1000.0},
)  # fmt: skip
STOWED = DeckEnd(ahead_mm=150.0, off_mm=200.0, above_mm=1000.0)


def test_a_runner_rigged_let_go_and_stowed():
    """Where it is stowed nobody knows, until somebody measures it."""
    doing, lacking = states_of(stays=(RUNNER,))
    assert (doing, lacking) == (["let go"], (("runner", "stowed"),))
    doing, lacking = states_of(stays=(RUNNER.but(stowed_at=STOWED),))
    assert (doing, lacking) == (["let go", "stowed"], ())


def test_a_stowed_runner_meets_what_a_rigged_one_clears():
    """From its pin at (-80, 55) to (150, 200) at 1,000: by hand (-17, 95) at the box."""
    box = a_fitting(girth="bearing 270", from_masthead_mm=8000.0)
    kind = a_box(90.0, group="deck")
    assert not said(kind, stays=(RUNNER,), fittings=(box,))
    assert said(kind, stays=(RUNNER.but(stowed_at=STOWED),), fittings=(box,)) == [("line/chafes", "caution")]


def test_a_taut_line_on_a_spreader():
    """Past its middle it chafes; one that hangs from the spreader does not."""
    aside = tuple(point.but(ahead_mm=0.0, port_mm=600.0) for point in DOWN)
    report = report_of(a_box(2.0), LINE.but(points=aside), spreaders=(a_spreader(),))
    assert [f.subjects for f in report.open if f.code == "line/spreader"] == [("spreader-p", "line")]
    clear = tuple(point.but(ahead_mm=200.0, port_mm=600.0) for point in DOWN)
    report = report_of(a_box(2.0), LINE.but(points=clear), spreaders=(a_spreader(),))
    assert not [f for f in report.open if f.code == "line/spreader"]


# The tip is 65 + 1,000 off, as high as 5,000 down the line of 8,000.
@pytest.mark.parametrize(("port", "many"), [(800.0, 1), (600.0, 0)])
def test_a_slack_line_round_a_spreaders_tip(port, many):
    """40 of slack: it comes sqrt(4,020^2 - 4,000^2) sqrt(1 - (1,000 / 4,020)^2) = 388 aside there."""
    aside = tuple(point.but(ahead_mm=0.0, port_mm=1065.0 - port) for point in DOWN)
    if many:
        aside = tuple(point.but(ahead_mm=0.0, port_mm=1065.0 - 380.0) for point in DOWN)
    report = report_of(a_box(2.0), LINE.but(points=aside), spreaders=(a_spreader(),))
    assert len([f for f in report.open if f.code == "line/wraps"]) == many


@pytest.mark.parametrize(("ahead", "many"), [(4500.0, 1), (5500.0, 0)])
def test_a_halyard_tied_off_beside_a_furled_sail(ahead, many):
    """At the stem it is wound in; half a metre ahead of it, it is not."""
    genoa = HANK.but(halyard=None, furled_mm=170.0)
    block = LinePoint(at="block", from_masthead_mm=100.0, ahead_mm=300.0, port_mm=0.0)
    line = LINE.but(points=(block,), tied_at=TIED.but(ahead_mm=ahead))
    report = report_of(a_box(2.0), line, sails=(genoa,), stays=(a_stay(),))
    assert len([f for f in report.open if f.code == "line/furled"]) == many


def test_many_places_at_once_are_the_places_one_by_one():
    """Height by height, all round."""
    solids = [BOX | {"snags": True}, BOX | {"centre": (0, 30, 40)}]
    scene = build(
        a_layout(kinds=(a_kind(solids=solids),), halyards=(LINE, LINE.but(id="other", rope_mm=8.0)))
    )
    placed, dice = scene.placed["box-1"], np.random.default_rng(3)
    places = Places(dice.uniform(4000, 14000, 40), dice.uniform(-500, 500, 40), np.zeros(40), np.zeros(40))
    (together,) = lines.margins(scene, [at_places(placed, places)], built_in())
    assert 0 < (together.grade > 0).any(axis=1).sum() < 40
    for i in range(40):
        one = Places(*(getattr(places, name)[i : i + 1] for name in vars(places)))
        (alone,) = lines.margins(scene, [at_places(placed, one)], built_in())
        assert alone.measured[0] == pytest.approx(together.measured[i], abs=1e-3)
        assert (alone.grade[0] == together.grade[i]).all()


def test_a_moved_cleat_takes_its_line_along():
    """What a line meets is asked again where the fitting it is led to moves."""
    cleat = a_fitting("cleat", from_masthead_mm=12000.0, girth="ahead", kind="cleat")
    kinds = (a_box(30.0, group="light"), a_kind("cleat", group="deck", solids=[BOX]))
    line = LINE.but(points=(DOWN[0], LinePoint(at="cleat", fitting="cleat")))
    first = check(build(a_layout(kinds=kinds, fittings=(a_fitting(), cleat), halyards=(line,))))
    layout = first.scene.layout
    moved = layout.but(fittings=(layout.fittings[0], cleat.but(girth="bearing 180")))
    again = check(build(moved, first.scene), first)
    assert {f.key for f in again.open} == {f.key for f in check(build(moved)).open}
    assert [f.code for f in first.open if "line" in f.subjects] != [
        f.code for f in again.open if "line" in f.subjects
    ]
