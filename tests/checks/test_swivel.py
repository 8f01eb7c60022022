"""The halyard at a furler's swivel: measured, as drawn, against the furler's own limits and without them."""

import pytest
from builders import a_fitting, a_kind, a_layout, a_stay

from mastlayout.checks.swivel import SWIVEL, drawn_deg
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.model.rig import Terminal
from mastlayout.model.sails import Halyard, LinePoint, Sail
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

GENOA = Sail(
    id="genoa", name="Genoa", role="headsail", stay="forestay", halyard="line", furled_mm=170.0,
    lp_mm=6000, luff_mm=14000, tack_mm=15500, clew_mm=15000, head_mm=1500,
)  # fmt: skip
TURNS = Terminal(kind="swivel", end="upper", from_end_mm=1000.0, length_mm=115.0, diameter_mm=90.0)
FURLER = {"swivel_least_deg": 8.0, "swivel_most_deg": 15.0}


def plan(*, angle=None, points=(), stay=None, **parts):
    """A mast with a genoa on a furler, its halyard and what that passes."""
    forestay = a_stay(**({"terminals": (TURNS,)} | (FURLER if stay is None else stay)))
    line = Halyard(id="line", name="Halyard", rope_mm=12.0, swivel_angle_deg=angle, points=points)
    return a_layout(stays=(forestay,), sails=(GENOA,), halyards=(line,), **parts)


def said(layout):
    """What is said of the swivel: codes, standings and missing measures."""
    scene = build(layout)
    return [(f.code, f.standing, f.measure) for f in SWIVEL.findings(scene, limits_of(layout))]


@pytest.mark.parametrize(
    ("angle", "code", "standing"),
    [
        (8.0, None, None),  # the least the furler allows
        (15.0, None, None),  # and the most
        (7.9, "halyard/swivel", "caution"),
        (5.0, "halyard/swivel", "caution"),
        (4.9, "halyard/swivel", "fault"),
        (0.0, "halyard/swivel", "fault"),  # parallel to the foil: it winds round it
        (15.1, "halyard/wide", "caution"),
    ],
)
def test_against_the_furlers_own_limits(angle, code, standing):
    """Least and most as its manual says; below five degrees any halyard winds round any foil."""
    assert said(plan(angle=angle)) == ([(code, standing, None)] if code else [])


@pytest.mark.parametrize(("least", "angle", "standing"), [(12.0, 11.9, "caution"), (12.0, 12.0, None)])
def test_the_furlers_limit_goes_before_the_trades(least, angle, standing):
    """Eight is the trade's; this furler wants twelve."""
    layout = plan(angle=angle, stay={"swivel_least_deg": least, "swivel_most_deg": 20.0})
    assert [standing_ for _code, standing_, _measure in said(layout)] == ([standing] if standing else [])


@pytest.mark.parametrize(("angle", "standing"), [(4.9, "fault"), (7.9, "caution"), (10.0, "not checked")])
def test_without_the_furlers_manual_a_wide_angle_is_not_checked(angle, standing):
    """What winds round any foil is said; what the trade finds wide enough may not do for this furler."""
    (one,) = said(plan(angle=angle, stay={}))
    assert one[1] == standing
    assert one[2] == ("stay.furler" if standing == "not checked" else None)


def test_limits_the_wrong_way_round_are_named():
    """Never a crash: the finding names the furler's stay."""
    layout = plan(angle=12.0, stay={"swivel_least_deg": 15.0, "swivel_most_deg": 10.0})
    assert ("halyard/limits", "caution", None) in said(layout)


def test_an_angle_nobody_measured_is_asked_for():
    """Nothing is drawn either: only that nobody knows."""
    assert said(plan()) == [("halyard/swivel", "not checked", "halyard.swivel")]


# The stay leans atan(4,500 / 16,800) = 15 degrees. The swivel's upper end is 1,000 down it, at
# x = 130 + 258.8 and z = 16,800 - 965.9. From there a lead at (130, 16,800) is along the stay.
def lead(*, ahead, z, at="sheave"):
    """A lead at a place of its own."""
    return LinePoint(at=at, from_masthead_mm=17000.0 - z, ahead_mm=ahead, port_mm=0.0)


def forestay_15(**fields):
    """A forestay that leans 15 degrees: 4,501.5 ahead over 16,800 down."""
    return a_stay(**({"terminals": (TURNS,), "deck": {"ahead_mm": 130 + 4501.55, "above_mm": 0.0}} | fields))


@pytest.mark.parametrize(
    ("ahead", "z", "angle"),
    [
        (130.0, 16800.0, 0.0),  # over the stay's own pin: parallel
        (388.8 - 1000 * 0.5, 15834.1 + 1000 * 0.866, 15.0),  # 30 from the mast, 15 from the stay
        (388.8, 15834.1 + 1000.0, -15.0),  # straight up: ahead of the stay
        (388.8 - 0.3420 * 500, 15834.1 + 0.9397 * 500, 5.0),  # 20 from the mast
    ],
)
def test_the_angle_as_drawn_by_hand(ahead, z, angle):
    """By the sines of the angles to the mast, to a tenth of a degree."""
    line = Halyard(id="line", name="Halyard", rope_mm=12.0, points=(lead(ahead=ahead, z=z),))
    scene = build(a_layout(stays=(forestay_15(),), sails=(GENOA,), halyards=(line,)))
    assert drawn_deg(scene, line, scene.stays["forestay"]) == pytest.approx(angle, abs=0.1)


def test_a_halyard_drawn_along_its_stay_is_a_reason_to_look():
    """A caution, whatever it comes to: what is drawn may be a hand's breadth off."""
    layout = plan(points=(lead(ahead=130.0, z=16850.0),))
    assert said(layout) == [
        ("halyard/swivel", "not checked", "halyard.swivel"),
        ("halyard/drawn", "caution", None),
    ]


def test_a_restrainer_goes_before_the_sheave():
    """By hand: from (160, 16,250) to the swivel it leans 28.8 degrees to the mast, 13.8 to the stay."""
    sheave = lead(ahead=100.0, z=16850.0)
    kind = a_kind(
        "restrainer",
        group="halyard",
        foot=None,
        solids=[{"shape": "ball", "part": "mouth", "centre": (0, 0, 60), "radius_mm": 10}],
    )
    restrainer = a_fitting("restrainer", kind="restrainer", from_masthead_mm=750.0, in_hand=None)
    through = LinePoint(at="restrainer", fitting="restrainer")
    layout = plan(points=(through, sheave), kinds=(kind,), fittings=(restrainer,))
    assert ("halyard/drawn", "caution", None) not in said(layout)
    assert ("halyard/drawn", "caution", None) in said(plan(points=(sheave,)))


@pytest.mark.parametrize("yacht", ["whimbrel", "sanderling", "turnstone"])
def test_the_three_yachts_halyards_lead_along_their_foils(yacht):
    """Sheave and stay share a height on each: nobody photographed it, and as drawn it winds round."""
    assert said(open_document(demo_masts() / f"{yacht}.toml").layout) == [
        ("halyard/swivel", "not checked", "halyard.swivel"),
        ("halyard/drawn", "caution", None),
    ]
