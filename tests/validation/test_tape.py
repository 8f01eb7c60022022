"""The tape measure against figures worked out elsewhere: Pythagoras, scipy's integrals, python-fcl."""

import math

import fcl
import numpy as np
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast, a_spreader, a_stay
from scipy.special import ellipe, ellipeinc

from mastlayout.errors import NotKnownError
from mastlayout.geometry.scene import build
from mastlayout.geometry.solids import solids_of
from mastlayout.geometry.spot import InSpace, OnSkin, OnThing, end_of, parts_of
from mastlayout.geometry.tape import closest, taped
from mastlayout.model.fitting import OldHole
from mastlayout.model.kind import Ball, Box
from mastlayout.model.mast import Ellipse, Taper

# The builders' mast: an ellipse of half axes 100 fore and aft and 65 athwart, 17000 long.
LONG, WIDE, LENGTH = 100.0, 65.0, 17000.0
HALF_GIRTH = 2 * LONG * ellipe(1 - (WIDE / LONG) ** 2)


def girth_to(degrees):
    """The tape from aft round starboard to (-a cos t, -b sin t), by the incomplete integral."""
    m = 1 - (WIDE / LONG) ** 2
    return LONG * (ellipe(m) - ellipeinc(math.pi / 2 - math.radians(degrees), m))


@pytest.fixture(scope="module")
def scene():
    """Three boxes, a spreader, a forestay, an old hole."""
    fittings = (
        a_fitting(tag=1),
        a_fitting("box-2", tag=2, from_masthead_mm=8300.0, girth="bearing 90"),
        a_fitting("box-3", tag=3, from_masthead_mm=9000.0, girth="aft", in_hand=a_foot(across_mm=90)),
    )
    hole = OldHole(id="old", name="Old eye", from_masthead_mm=7000.0, girth="bearing 90")
    return build(a_layout(fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),), holes=(hole,)))


def test_between_two_seats(scene):
    """Ahead at 8000 and to starboard at 8300: 300 down, a quarter of the girth, straight by Pythagoras."""
    read = taped(scene, OnThing("box-1", "seat"), OnThing("box-2", "seat"))
    assert read.along_mm == pytest.approx(-300.0)
    assert read.around.length_mm == pytest.approx(HALF_GIRTH / 2, abs=0.01)
    assert (read.around.start, read.around.end, read.around.over) == (None, "starboard", None)
    assert read.straight_mm == pytest.approx(math.sqrt(300**2 + LONG**2 + WIDE**2), abs=0.01)
    assert not read.off_skin


@pytest.mark.parametrize(("one", "other"), [(30, 75), (75, 140), (15, 165)])
def test_round_an_ellipse_on_one_side(scene, one, other):
    """Two places to starboard: the difference of two integrals, and straight across the plan."""
    a, b = girth_to(one), girth_to(other)
    read = taped(scene, OnSkin(5000.0, a), OnSkin(5000.0, b))
    assert read.around.length_mm == pytest.approx(b - a, abs=0.01)
    assert (read.around.start, read.around.end, read.around.over) == ("starboard", "starboard", None)
    places = [(LONG * math.cos(math.radians(t)), WIDE * math.sin(math.radians(t))) for t in (one, other)]
    assert read.straight_mm == pytest.approx(math.dist(*places), abs=0.02)
    assert read.along_mm == 0.0


@pytest.mark.parametrize(
    ("girths", "length", "over"),
    [
        ((20.0, -30.0), 50.0, "aft"),
        ((-30.0, 20.0), 50.0, "aft"),
        ((HALF_GIRTH - 44.0, 44.0 - HALF_GIRTH), 88.0, "forward"),
        ((44.0 - HALF_GIRTH, HALF_GIRTH - 20.0), 64.0, "forward"),
        ((0.0, -100.0), 100.0, None),
    ],
)
def test_the_shorter_way_round_names_the_line_it_crosses(scene, girths, length, over):
    """44 and 44 from ahead are 88 apart over the forward line, not 564 round the back."""
    read = taped(scene, *(OnSkin(5000.0, girth) for girth in girths))
    assert read.around.length_mm == pytest.approx(length, abs=0.01)
    assert read.around.over == over


def test_half_way_round_is_as_long_either_way(scene):
    """Ahead and aft: half the girth."""
    read = taped(scene, OnSkin(5000.0, 0.0), OnSkin(5000.0, HALF_GIRTH))
    assert read.around.either
    assert read.around.length_mm == pytest.approx(HALF_GIRTH, abs=0.01)


def test_a_taper_is_taped_at_the_first_ends_height():
    """A quarter of the way round stays a quarter; which quarter's length is that of the first end."""
    section = Ellipse(shape="ellipse", length_mm=130, width_mm=86)
    taper = Taper(from_masthead_mm=1700, length_mm=96, width_mm=70)
    scene = build(a_layout(mast=a_mast(section=section, taper=taper)))
    full, head = (4 * a * ellipe(1 - (b / a) ** 2) for a, b in ((65, 43), (48, 35)))
    low, high = OnSkin(1000.0, 0.0), OnSkin(LENGTH, head / 4)
    assert taped(scene, low, high).around.length_mm == pytest.approx(full / 4, abs=0.02)
    assert taped(scene, high, low).around.length_mm == pytest.approx(head / 4, abs=0.02)


def test_holes_are_taped_round_and_along(scene):
    """60 across and 30 along between the corners of a shaped pattern, whatever the curve."""
    read = taped(scene, OnThing("box-1", "hole", 1), OnThing("box-1", "hole", 4))
    assert (read.along_mm, read.around.length_mm) == pytest.approx((-30.0, 60.0), abs=0.01)
    assert read.around.over == "forward"
    assert read.bodies is None


def test_bodies_against_a_collision_library(scene):
    """Two boxes on the mast, one ahead and one aft 1000 lower, as the library has them."""
    read = taped(scene, OnThing("box-1", "body"), OnThing("box-3", "body"))
    # Each stands out from the skin by 60 to its middle; across lies athwart.
    boxes = [fcl.Box(120.0, 100.0, 80.0), fcl.Box(120.0, 100.0, 80.0)]
    at = [np.array([160.0, 0.0, 9000.0]), np.array([-160.0, 0.0, 8000.0])]
    things = [fcl.CollisionObject(b, fcl.Transform(np.eye(3), p)) for b, p in zip(boxes, at, strict=True)]
    assert read.straight_mm == pytest.approx(fcl.distance(*things), abs=0.02)
    assert read.bodies.distance_mm == pytest.approx(math.hypot(920.0, 200.0), abs=0.02)
    assert read.around is None
    assert len(read.off_skin) == 2
    assert "take its seat" in read.off_skin[0]


def test_seats_say_how_far_their_bodies_are_apart(scene):
    """Held to the seats, the least distance of the bodies is told beside."""
    read = taped(scene, OnThing("box-1", "seat"), OnThing("box-3", "seat"))
    assert read.straight_mm == pytest.approx(math.hypot(1000.0, 200.0), abs=0.01)
    assert read.bodies.distance_mm == pytest.approx(math.hypot(920.0, 200.0), abs=0.02)


def test_a_body_is_held_at_its_nearest_point(scene):
    """1000 above the middle of a box 80 high on its axis: 960, and its top is the end."""
    read = taped(scene, InSpace(160.0, 0.0, 10000.0), OnThing("box-1", "body"))
    assert read.straight_mm == pytest.approx(960.0, abs=0.01)
    assert read.along_mm == pytest.approx(-960.0, abs=0.01)
    assert read.points[1, 2] == pytest.approx(9040.0, abs=0.01)


def test_a_point_within_a_body_is_no_way_off(scene):
    """Both ends are at that point."""
    read = taped(scene, InSpace(160.0, 0.0, 9000.0), OnThing("box-1", "body"))
    assert (read.straight_mm, read.along_mm) == (0.0, 0.0)
    assert tuple(read.points[1]) == (160.0, 0.0, 9000.0)


def test_a_stay_is_held_at_its_surface(scene):
    """A wire of 10 on a straight line: the distance of the point to the line, less 5."""
    top, foot = np.array([130.0, 0.0, 16800.0]), np.array([4600.0, 0.0, 0.0])
    point = np.array([100.0, 0.0, 9000.0])
    way = (foot - top) / np.linalg.norm(foot - top)
    off = np.linalg.norm(np.cross(point - top, way))
    read = taped(scene, OnThing("forestay", "body"), InSpace(*point))
    assert read.straight_mm == pytest.approx(off - 5.0, abs=0.02)
    assert "forestay" in read.off_skin[0]


def balls(centres, radii):
    """Balls as solids."""
    both = zip(centres, radii, strict=True)
    return solids_of([Ball(shape="ball", centre=tuple(map(float, p)), radius_mm=float(r)) for p, r in both])


def test_many_solids_keep_the_nearest_pair():
    """Leaving out what must be farther never loses the least, against every pair by closed form."""
    dice = np.random.default_rng(3)
    for _case in range(40):
        ones, others = dice.uniform(-400, 400, (2, 12, 3))
        radii = dice.uniform(1, 60, (2, 12))
        apart = np.linalg.norm(ones[:, None] - others[None], axis=2)
        least = (apart - radii[0][:, None] - radii[1][None]).min()
        found = closest(balls(ones, radii[0]), balls(others, radii[1]))
        if least > 0:
            assert found.distance_mm == pytest.approx(least, abs=0.01)
            assert np.linalg.norm(found.points[0] - found.points[1]) == pytest.approx(least, abs=0.02)
        else:
            assert found.distance_mm <= 0


def test_bodies_that_meet_are_told_negative():
    """Two boxes 20 into each other."""
    a, b = (
        solids_of([Box(shape="box", centre=(x, 0.0, 0.0), size=(100.0, 100.0, 100.0))]) for x in (0.0, 80.0)
    )
    assert closest(a, b).distance_mm == pytest.approx(-20.0, abs=0.1)


def test_every_thing_offers_its_parts(scene):
    """A fitting its seat, its body and its holes; a stay its wire; an old hole itself; nothing else."""
    assert [(s.part, s.number) for s in parts_of(scene, "box-1")] == [
        ("seat", 0), ("body", 0), ("hole", 1), ("hole", 2), ("hole", 3), ("hole", 4),
    ]  # fmt: skip
    assert [s.part for s in parts_of(scene, "spreader-p")] == ["seat", "body"]
    assert [s.part for s in parts_of(scene, "forestay")] == ["body"]
    assert [s.part for s in parts_of(scene, "old")] == ["hole"]
    assert parts_of(scene, "nothing") == ()
    root = end_of(scene, OnThing("spreader-p", "seat"))
    assert root.girth_mm == pytest.approx(-HALF_GIRTH / 2, abs=0.01)
    old = taped(scene, OnThing("old", "hole"), OnThing("box-2", "seat"))
    assert (old.along_mm, old.around.length_mm) == pytest.approx((-1300.0, 0.0), abs=0.01)


@pytest.mark.parametrize(
    ("parts", "spot", "says"),
    [
        ({}, OnThing("gone", "seat"), "no longer"),
        ({"fittings": (a_fitting(new=False, in_hand=None),)}, OnThing("box-1", "hole", 1), "nobody knows"),
        ({}, OnThing("box-1", "hole", 9), "no hole 9"),
        ({"stays": (a_stay(deck=None),)}, OnThing("forestay", "body"), "not known"),
        ({"spreaders": (a_spreader(length_mm=None),)}, OnThing("spreader-p", "body"), "not known"),
        (
            {
                "spreaders": (a_spreader(length_mm=None),),
                "fittings": (
                    a_fitting(
                        on="spreader-p", from_masthead_mm=None, girth=None, along_mm=300.0, in_hand=None
                    ),
                ),
                "kinds": (a_kind(foot=None),),
            },
            OnThing("box-1", "seat"),
            "not known",
        ),
    ],
)
def test_what_is_not_known_is_said(parts, spot, says):
    """A sentence names what is missing; nothing stands in for it."""
    with pytest.raises(NotKnownError, match=says):
        taped(build(a_layout(**parts)), spot, OnSkin(100.0, 0.0))
