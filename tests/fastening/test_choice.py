"""What is chosen for a hole: lengths, grips and tubes, by hand; nothing where the wall is not known."""

import math

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout, a_mast
from shapely.geometry import LineString, Polygon

from mastlayout.fastening.at_hole import choice_of, choices
from mastlayout.fastening.at_hole import packer_mm as packer_at
from mastlayout.fastening.choice import Stack, choose
from mastlayout.fastening.words import bought_as, holds_by, not_chosen_words
from mastlayout.geometry.scene import build
from mastlayout.geometry.through import span_mm
from mastlayout.model.kind import read_fastener
from mastlayout.model.mast import Ellipse, RoundedBox, Taper, Wall

STACK = Stack(foot_mm=3.0, liner_mm=0.5, packer_mm=0.0, wall_mm=4.2)


def chosen(fastener, stack=STACK, span_mm=None):
    """What is chosen for a fastener by its phrase."""
    return choose(read_fastener(fastener), stack, span_mm)


@pytest.mark.parametrize(
    ("fastener", "bought", "holds"),
    [
        # 7.7 and a pitch of 1.0 are 8.7: 10 is sold, 2.3 stand inside; 4.2 threads of 1.0.
        ("M6 tapped", "M6 × 10 tapped", ("4.2 threads", "2.3 inside")),
        # 7.7, a nut and washer of 6 and two pitches are 15.7.
        ("M6 nut", "M6 × 16 nut", ("8.3 inside",)),
        # A rivet nut of M5 draws 5 of thread: 12.7; it stands 1.5 diameters inside (from memory).
        ("M5 rivet nut", "M5 × 16 rivet nut", ("8.3 inside",)),
        # ISO 15981: 6 to 8 wants 12, at most 13 long.
        ("rivet 4.8, nickel-copper", "rivet 4.8 × 12", ("grips 6.0 to 8.0", "5.3 inside, unset")),
        # 7.7 + 1.27 is 8.97 mm: 3/8 in is 9.53.
        ("1/4-20 tapped", "1/4-20 × 0.375 in tapped", ("3.3 threads", "1.8 inside")),
        ("M6 clearance", "M6 clearance", ()),
        ("rivet 5.5", "rivet 5.5", ("no rivet listed for 7.7",)),
    ],
)
def test_what_is_bought_and_how_it_holds(fastener, bought, holds):
    """Lengths are rounded up to what is sold; nothing is rounded to more threads than there are."""
    choice = chosen(fastener)
    assert bought_as(choice) == bought
    assert holds_by(choice, "metric") == holds


def test_a_through_bolt_has_its_tube_cut():
    """139 across: the tube stands 0.5 proud; the bolt holds both feet, a nut of 10 and two pitches of 1.5."""
    choice = chosen("M10 through", span_mm=139.0)
    assert choice.tube_mm == 139.5
    assert bought_as(choice) == "M10 × 160 through"  # 139.5 + 2 x 3.5 + 13 = 159.5
    assert choice.inside_mm == pytest.approx(139.0 - 8.4)


@pytest.mark.parametrize("fastener", ["cable", "weld", "none"])
def test_what_holds_nothing_is_not_bought(fastener):
    """A cable, a weld, a bare hole."""
    assert chosen(fastener) is None


def test_a_backing_bar_holds_threads_and_lengthens_what_goes_through_it():
    """4 behind a wall of 4.2: 8.2 threads of M6, 7.7 + 4 and a pitch are 12.7; the rivet grips 11.7."""
    backed = Stack(3.0, 0.5, 0.0, 4.2, 4.0)
    screw = chosen("M6 tapped", backed)
    assert (screw.threads, screw.length_mm) == (pytest.approx(8.2), 16.0)
    assert bought_as(chosen("rivet 4.8", backed)) == "rivet 4.8 × 16"


def test_a_packer_lengthens_the_screw():
    """20 under the foot: 27.7 and a pitch are 28.7, so 30."""
    assert chosen("M6 tapped", Stack(3.0, 0.5, 20.0, 4.2)).length_mm == 30.0


# A mast of radius 60, and feet 60 across with holes 20 either side of their middle. The packer there is
# 60 - sqrt(60^2 - 20^2) = 3.431 under a flat foot, less R - sqrt(R^2 - 20^2) under one of radius R.
ROUND = Ellipse(shape="ellipse", length_mm=120, width_mm=120)
FALL_AT_20, FALL_AT_30 = 60 - math.sqrt(60**2 - 20**2), 60 - math.sqrt(60**2 - 30**2)


def over_a_gap(fastener="rivet 4.8", stand_off_mm=0.0, mast=None, **foot):
    """A foot with two holes over a gap, on a wall of 4."""
    holes = [{"across_mm": a, "along_mm": b, "fastener": fastener} for a, b in ((-20, 10), (20, -10))]
    own = a_foot(across_mm=60, along_mm=60, thickness_mm=3.0, liner_mm=0.5, holes=holes, **foot)
    known = {"section": ROUND, "walls": (Wall(from_masthead_mm=8000.0, thickness_mm=4.0),)}
    fitting = a_fitting(in_hand=own, stand_off_mm=stand_off_mm)
    return build(a_layout(mast=a_mast(**(known | (mast or {}))), fittings=(fitting,))).placed["box-1"]


PACKED = [
    ({"seat": "shaped"}, 0.0, 0.0),
    ({"seat": "shaped"}, 2.0, 2.0),
    ({"seat": "flat"}, 0.0, FALL_AT_20),
    ({"seat": "flat"}, 2.0, 2.0 + FALL_AT_20),
    ({"seat": "radiused", "radius_mm": 60.0}, 0.0, 0.0),
    # Of radius 80: less its own 80 - sqrt(80^2 - 20^2).
    ({"seat": "radiused", "radius_mm": 80.0}, 0.0, FALL_AT_20 - (80 - math.sqrt(80**2 - 20**2))),
    # Of radius 40 its edges touch first: the middle stands off by what it falls more at 30 than the skin.
    (
        {"seat": "radiused", "radius_mm": 40.0},
        0.0,
        40 - math.sqrt(40**2 - 30**2) - FALL_AT_30 + FALL_AT_20 - (40 - math.sqrt(40**2 - 20**2)),
    ),
]


@pytest.mark.parametrize(("foot", "off_mm", "packer_mm"), PACKED)
def test_the_packer_at_a_hole_counts_in_what_is_chosen(foot, off_mm, packer_mm):
    """Grip holds all of foot 3.0, liner 0.5, packer there and wall 4.0: by circles."""
    one = over_a_gap(stand_off_mm=off_mm, **foot)
    for index in (0, 1):
        assert packer_at(one, index + 1) == pytest.approx(packer_mm, abs=0.01)
        choice = choice_of(one, index + 1)
        assert choice.stack_mm == pytest.approx(7.5 + packer_mm, abs=0.01)
        assert choice.grip.low_mm <= choice.stack_mm <= choice.grip.high_mm


def test_a_flat_foot_on_a_curve_wants_longer_rivets_and_screws():
    """7.5 is gripped by a 12; over 3.43 more it is a 16 (ISO 15981). M6: 10.93 and a pitch of 1.0, so 12."""
    assert bought_as(choice_of(over_a_gap(seat="shaped"), 1)) == "rivet 4.8 × 12"
    assert bought_as(choice_of(over_a_gap(seat="flat"), 1)) == "rivet 4.8 × 16"
    assert bought_as(choice_of(over_a_gap("M6 tapped", seat="flat"), 1)) == "M6 × 12 tapped"
    assert bought_as(choice_of(over_a_gap("M6 tapped", seat="shaped"), 1)) == "M6 × 10 tapped"


def test_a_through_bolt_holds_a_packer_on_either_side():
    """120 through at the middle; here by the chord 2 sqrt(60^2 - 20^2) and 2 x (3.5 + 3.43), nut 10 + 3."""
    one = over_a_gap("M10 through", seat="flat")
    through = 2 * math.sqrt(60**2 - 20**2)
    assert choice_of(one, 1).tube_mm == pytest.approx(through + 0.5, abs=0.02)
    assert choice_of(one, 1).length_mm == 150.0  # 113.6 + 13.9 + 13 = 140.5


def test_in_a_taper_the_foot_leans_and_the_slope_is_no_packer():
    """Round, 120 to 100 over 1000: ahead the skin runs in 20 over that, 0.2 at a hole 10 up; not counted."""
    taper = {"taper": Taper(from_masthead_mm=8500, length_mm=100, width_mm=120)}
    slim = over_a_gap(seat="flat", mast=taper)
    level = over_a_gap(seat="flat", mast={"section": Ellipse(shape="ellipse", length_mm=118.8, width_mm=120)})
    assert packer_at(slim, 1) == pytest.approx(packer_at(level, 1), abs=0.02)
    assert packer_at(slim, 1) == pytest.approx(packer_at(slim, 2), abs=0.02)


def test_a_radius_nobody_measured_chooses_nothing():
    """How thick the packer is hangs on it; it is asked for."""
    one = over_a_gap(seat="radiused")
    assert [choice for _opening, choice in choices(one)] == [None, None]
    assert not_chosen_words(one) == "after the foot’s radius is measured"
    assert not_chosen_words(placed(walls=())) == "after the wall is measured"


def placed(**mast):
    """Four screws on a mast."""
    fitting = a_fitting(in_hand=a_foot(), stand_off_mm=0.0)
    return build(a_layout(mast=a_mast(**mast), fittings=(fitting,))).placed["box-1"]


def test_without_a_wall_nothing_is_chosen():
    """Nor from a reading too far away; with one, each hole has its screw."""
    far = (Wall(from_masthead_mm=5000.0, thickness_mm=4.0),)
    assert [choice for _opening, choice in choices(placed(walls=far))] == [None] * 4
    assert [bought_as(choice) for _opening, choice in choices(placed())] == ["M6 × 10 tapped"] * 4


@pytest.mark.parametrize("material", ["carbon", "wood"])
def test_a_builder_chooses_for_carbon_and_wood(material):
    """Nothing is chosen, whatever the wall."""
    assert choice_of(placed(material=material), 1) is None


@pytest.mark.parametrize(
    "section",
    [
        Ellipse(shape="ellipse", length_mm=206, width_mm=139),
        RoundedBox(shape="rounded box", length_mm=180, width_mm=100, corner_radius_mm=30),
    ],
)
@pytest.mark.parametrize("girth", [3.0, 80.0, 130.0, 200.0, -150.0])
def test_how_far_it_is_through(section, girth):
    """Against shapely: the drill's line cut with the outline, in a taper too."""
    taper = Taper(from_masthead_mm=4000, length_mm=150, width_mm=90)
    skin = build(a_layout(mast=a_mast(section=section, taper=taper))).skin
    z = 14800.0
    point, normal = skin.at(np.array([z]), np.array([girth]))
    polygon = Polygon(skin.ring(z).polygon())
    start, way = point[0, :2], -normal[0, :2] / math.hypot(*normal[0, :2])
    line = LineString([start - 5 * way, start + 500 * way])
    assert span_mm(skin, point[0], np.array([*way, 0.0])) == pytest.approx(
        line.intersection(polygon).length, abs=0.01
    )
