"""Clew and sheets, graded: the three yachts as a rigger sees them, and each grade on a plain mast."""

import known
import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_kind, a_layout, a_mast, a_stay

from mastlayout.checks import clew
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places, where_it_stands
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in
from mastlayout.model.boat import Boat
from mastlayout.model.layout import LimitOverride
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import Reef, Sail

# Where a rigger looks for a bight on a tack: cleats, winches, clutches, the pole's ring, all between the
# deck and a little above the clew (common practice, no source).
MUST_BE_FOUND = [
    ("whimbrel", "winch-p"),
    ("whimbrel", "winch-s"),
    ("whimbrel", "cleat-upper-p"),
    ("whimbrel", "cleat-lower-s"),
    ("whimbrel", "pole-car"),
    ("sanderling", "winch-s"),
    ("sanderling", "clutches"),
    ("turnstone", "winch-s"),
    ("turnstone", "cleat-upper-p"),
    ("turnstone", "cleat-lower-s"),
    ("turnstone", "pole-ring"),
]
# And what nobody should be bothered with, and why.
NOT_FLAGGED = [
    ("whimbrel", "gooseneck"),  # the boom and the foot of the main are about it
    ("whimbrel", "vang-tang"),  # so it is with the vang
    ("whimbrel", "pole-track"),  # 28 proud, nothing on it hooks
    ("whimbrel", "partners-collar"),  # 30 proud and smooth
    ("whimbrel", "cable-exit"),  # below the deck
    ("whimbrel", "exit-genoa"),  # above every clew's reach
    ("whimbrel", "steaming-light"),  # far above it, though it snags
    ("whimbrel", "step-p"),  # at the masthead
    ("sanderling", "cable-exit"),  # flush
    ("sanderling", "exit-5"),  # above
    ("sanderling", "gooseneck"),
    ("sanderling", "steaming-light"),
    ("turnstone", "vang-eye"),
    ("turnstone", "exit-main"),
]


@pytest.fixture(scope="module")
def reports():
    """The reports of the three yachts."""
    return known.reports()


def of_clews(report, name):
    """What is said of clew and sheets at a fitting."""
    return [one for one in report.open if one.code.startswith("clew/") and one.subjects[0] == name]


@pytest.mark.parametrize(("yacht", "name"), MUST_BE_FOUND)
def test_where_a_sheet_can_hook(reports, yacht, name):
    """Once, as a caution: it must be where it is."""
    (said,) = of_clews(reports[yacht], name)
    assert (said.code, said.standing) == ("clew/hooks", "caution")
    assert said.measured < 0
    assert said.state


@pytest.mark.parametrize(("yacht", "name"), NOT_FLAGGED)
def test_what_no_sheet_hooks_on_is_not_flagged(reports, yacht, name):
    """Nobody is bothered with it."""
    assert not of_clews(reports[yacht], name)


def test_a_turnbuckle_in_the_way_is_a_note(reports):
    """Sanderling's diamonds end beside her clew: taped, no more."""
    for name in ("tang-diamond-lower-p", "tang-diamond-lower-s"):
        assert [one.standing for one in of_clews(reports["sanderling"], name)] == ["note"]


def test_the_pole_ring_is_met_by_the_jib_alone(reports):
    """The genoa's clew flies to 300 + 500 above the heel, the jib's to 550 + 500; the ring is at 950."""
    (said,) = of_clews(reports["turnstone"], "pole-ring")
    assert said.subjects == ("pole-ring", "jib")
    # The ring is a disc of 19 round its middle at 950: 119 up and it is clear.
    assert -said.measured == pytest.approx(1050 - (950 - 19), abs=1)


# The masthead is at 17,000: tack at 600, clew at 1,400, so it flies up to 1,900.
GENOA = Sail(
    id="genoa", name="Genoa", role="headsail", stay="forestay", lp_mm=6500, luff_mm=16900, tack_mm=16400,
    clew_mm=15600, head_mm=900, sheet_lead=DeckEnd(ahead_mm=-1500, off_mm=1200, above_mm=300),
)  # fmt: skip
# It flies within 3,420 of a tack some 4,400 ahead: it is the sheets that pass the mast.
SMALL = GENOA.model_copy(update={"lp_mm": 2500.0, "foot_mm": 3200.0})
HORN = {"shape": "box", "centre": (0, 0, 60), "size": (60, 80, 120), "snags": True}
BALL = {"shape": "ball", "part": "lens", "centre": (0, 0, 60), "radius_mm": 30}
PLATE = {"shape": "box", "centre": (0, 0, 10), "size": (60, 80, 20)}
HOOP = {"shape": "tube", "part": "guard", "start": (-60, 0, 90), "end": (60, 0, 90), "radius_mm": 8}


def report_of(*, sails=(GENOA,), kind=None, z_mm=1000.0, stay=None, boat=None, limits=(), **fitting):
    """The report of box-1 at a height on a plain mast with a forestay."""
    layout = a_layout(
        mast=a_mast(), kinds=(kind or a_kind(solids=[HORN]),), sails=sails, stays=(stay or a_stay(),),
        fittings=(a_fitting(from_masthead_mm=17000 - z_mm, **fitting),), limits=limits,
        **({"boat": boat} if boat else {}),
    )  # fmt: skip
    report = check(build(layout))
    assert not report.broken
    return report


def said(**asked):
    """What is said of clew and sheets at box-1."""
    return of_clews(report_of(**asked), "box-1")


@pytest.mark.parametrize(
    ("group", "solids", "code", "standing"),
    [
        ("deck", [HORN], "clew/hooks", "caution"),
        ("pole", [HORN], "clew/hooks", "caution"),
        ("sound", [HORN], "clew/tears", "fault"),
        ("sound", [PLATE | {"part": "mouth"}], "clew/tears", "fault"),
        ("boom", [HORN], "clew/hooks", "caution"),
        ("light", [BALL], "clew/strikes", "caution"),
        ("light", [BALL, HOOP], "clew/knocks", "note"),
        ("deck", [HORN | {"snags": False}], "clew/knocks", "note"),
    ],
)
def test_each_grade(group, solids, code, standing):
    """By what it is for and by its parts."""
    (one,) = said(kind=a_kind(group=group, solids=solids))
    assert (one.code, one.standing, one.subjects) == (code, standing, ("box-1", "genoa"))


@pytest.mark.parametrize(("group", "solids"), [("deck", [PLATE]), ("boom", [HORN | {"snags": False}])])
def test_a_plate_and_the_booms_gear_are_left_alone(group, solids):
    """A plate 20 proud lets every rope by; the boom keeps them off its own gear."""
    assert not said(kind=a_kind(group=group, solids=solids))


@pytest.mark.parametrize(("z_mm", "many"), [(1930.0, 1), (1950.0, 0), (160.0, 0), (250.0, 1)])
def test_from_the_deck_to_a_little_above_the_clew(z_mm, many):
    """80 high: met up to 1,900 + 40, and down to a deck at 200 less 40."""
    assert len(said(z_mm=z_mm, boat=Boat(name="Test", deck_above_heel_mm=200.0))) == many


def test_an_unknown_deck_hides_nothing():
    """Where nobody measured it, what stands at the heel is still met."""
    assert said(z_mm=60.0)


def test_a_short_foot_leaves_the_fitting_to_the_sheets():
    """By name: the sheet that crosses before the mast."""
    (one,) = said(sails=(SMALL,))
    assert one.state in ("full, taut port sheet", "full, taut starboard sheet")
    assert -one.measured < 900


def test_a_slack_sheet_whips_where_the_taut_one_does_not_come():
    """From 1,900 the taut sheets fall to their leads; at 1,850 the mast is passed by slack ones alone."""
    (one,) = said(sails=(SMALL,), z_mm=1850.0)
    assert one.state in ("full, slack port sheet", "full, slack starboard sheet")
    none = LimitOverride(key="clew.slap", value=0.0, unit="mm", why="sheets of wire")
    assert not said(sails=(SMALL,), z_mm=1850.0, limits=(none,))


def test_without_its_leads_a_short_sail_is_not_checked():
    """Nothing is said of the fitting, but that nobody knows."""
    bare = SMALL.model_copy(update={"sheet_lead": None})
    report = report_of(sails=(bare,))
    assert not of_clews(report, "box-1")
    assert [(one.standing, one.measure) for one in of_clews(report, "genoa")] == [
        ("not checked", "sail.sheet")
    ]


@pytest.mark.parametrize(
    ("field", "key"), [("lp_mm", "sail.lp"), ("tack_mm", "sail.tack"), ("clew_mm", "sail.clew")]
)
def test_a_missing_measure_is_named(field, key):
    """Never a silent pass."""
    report = report_of(sails=(GENOA.model_copy(update={field: None}),))
    assert [one.measure for one in of_clews(report, "genoa")] == [key]


def test_a_stay_that_nobody_taped_is_named():
    """Where the tack is nobody knows."""
    layout = a_layout(sails=(GENOA,), stays=(a_stay(deck=None),))
    assert [(one.subjects, one.measure) for one in found(layout, "clew/known")] == [
        (("forestay", "genoa"), "stay.deck")
    ]


def test_a_reef_flies_higher():
    """Its clew 1,000 higher: a cleat at 2,500 is met by it alone, and by name."""
    reefed = GENOA.model_copy(update={"reefs": (Reef(name="one reef", lp_mm=5500.0, clew_mm=14600.0),)})
    assert not said(z_mm=2500.0)
    (one,) = said(z_mm=2500.0, sails=(reefed,))
    assert one.state == "one reef, clew"


def test_measured_hardware_counts_before_the_setting():
    """4,240 from the tack: a foot of 4,150 and the setting meet it, with a soft loop of 20 it does not."""
    short = SMALL.model_copy(update={"foot_mm": 4150.0, "sheet_lead": None})
    assert said(sails=(short,))
    assert not said(sails=(short.model_copy(update={"clew_reach_mm": 20.0}),))


@pytest.mark.parametrize(("foot", "many"), [(None, 0), (6900.0, 0), (6700.0, 1)])
def test_a_foot_unlike_its_corners_is_named(foot, many):
    """LP 6,500 and a clew 800 above the tack on a stay that leans 14.9 degrees close with 6,985."""
    layout = a_layout(sails=(GENOA.model_copy(update={"foot_mm": foot}),), stays=(a_stay(),))
    assert len(found(layout, "sail/foot")) == many


def test_many_places_at_once_are_the_places_one_by_one():
    """Height by height, all round."""
    scene = build(a_layout(kinds=(a_kind(solids=[HORN, PLATE]),), sails=(SMALL, GENOA), stays=(a_stay(),)))
    placed, dice = scene.placed["box-1"], np.random.default_rng(3)
    places = Places(dice.uniform(100, 2600, 40), dice.uniform(20, 500, 40), np.zeros(40), np.zeros(40))
    (together,) = clew.margins(scene, [at_places(placed, places)], built_in())
    assert 0 < (together.measured < 0).any(axis=1).sum() < 40
    for i in range(40):
        one = Places(*(getattr(places, name)[i : i + 1] for name in vars(places)))
        (alone,) = clew.margins(scene, [at_places(placed, one)], built_in())
        assert alone.measured[0] == pytest.approx(together.measured[i], abs=1e-3)
        assert (alone.grade[0] == together.grade[i]).all()


def test_no_sails_no_margins():
    """Nothing sweeps."""
    scene = build(a_layout())
    assert clew.margins(scene, [where_it_stands(scene.placed["box-1"])], built_in())[0].subjects == ()
