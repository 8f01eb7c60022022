"""Holes where they were drilled: every rule asks them there, and what is wrong has three ways out."""

import math

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout

from mastlayout.checks.built import off_plan, remedies_of
from mastlayout.checks.report import check
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.errors import EditError
from mastlayout.fastening.wrong import next_larger, remedies
from mastlayout.geometry.scene import build
from mastlayout.limits import built_in
from mastlayout.model.edits import add, change, forget_hole, hole_built
from mastlayout.model.fitting import HoleBuilt, OldHole
from mastlayout.model.kind import Fastener
from mastlayout.model.wrong import fill_hole, leave_out

# Two tapped holes 60 apart up and down the forward centreline: 7970 and 8030 from the masthead.
HOLES = [{"across_mm": 0.0, "along_mm": along, "fastener": "M5 tapped"} for along in (30.0, -30.0)]


def a_hole(from_masthead_mm=7970.0, girth="ahead", number=1, **fields):
    """A hole as Jo measured it."""
    known = {"number": number, "from_masthead_mm": from_masthead_mm, "girth": girth}
    return HoleBuilt(**(known | {"by": "Jo", "day": "2026-11-26"} | fields))


def drilled(*holes, **fields):
    """The small layout with holes as they were drilled."""
    foot = a_foot(across_mm=60, along_mm=110, holes=HOLES)
    return a_layout(fittings=(a_fitting(in_hand=foot, tag=7, holes_built=holes, **fields),))


def said(layout):
    """Code, standing and figure of what is said of holes as drilled."""
    report = check(build(layout))
    return [
        (f.code, f.standing, round(f.measured, 2))
        for f in report.open
        if f.code in ("hole/off", "hole/large")
    ]


# The scene has the hole where it was measured; how far off is by hand.
@pytest.mark.parametrize(
    ("hole", "across", "along"),
    [
        (a_hole(), 0.0, 0.0),
        (a_hole(7967.0), 0.0, 3.0),
        (a_hole(7970.0, "4 to starboard of ahead"), -4.0, 0.0),
        (a_hole(7973.0, "4 to port of ahead"), 4.0, -3.0),
    ],
)
def test_a_hole_is_where_it_was_drilled(hole, across, along):
    """Towards the masthead positive; past the forward centreline the girth goes on from the other side."""
    placed = build(drilled(hole)).placed["box-1"]
    assert placed.holes.z_mm[0, 0] == pytest.approx(17000.0 - hole.from_masthead_mm)
    assert placed.holes.z_mm[0, 1] == pytest.approx(17000.0 - 8030.0)
    (off,) = off_plan(placed)
    assert (off.round_mm, off.along_mm) == pytest.approx((across, along), abs=0.01)
    assert off.off_mm == pytest.approx(math.hypot(across, along), abs=0.01)
    point, _out = placed.skin.at(placed.holes.z_mm[0, :1], placed.holes.girth_mm[0, :1])
    assert placed.holes.point[0, 0] == pytest.approx(point[0])


@pytest.mark.parametrize(
    ("hole", "expected"),
    [
        (a_hole(7969.0), []),  # at the limit of 1
        (a_hole(7968.9), [("hole/off", "caution", 1.1)]),
        (a_hole(7967.0), [("hole/off", "fault", 3.0)]),  # more than half of a drill of 4.2
        (a_hole(diameter_mm=4.4), []),  # M5 is tapped in 4.2; 0.2 more is the limit
        (a_hole(diameter_mm=4.5), [("hole/large", "caution", 4.5)]),
        (a_hole(7968.0, diameter_mm=6.0), [("hole/off", "caution", 2.0), ("hole/large", "caution", 6.0)]),
    ],
)
def test_off_its_place_or_too_large_is_said(hole, expected):
    """To the limit nothing; further than its own radius no fastener goes in."""
    assert sorted(said(drilled(hole))) == sorted(expected)


def test_nothing_measured_is_nothing_said():
    """A hole that nobody measured is planned, not wrong."""
    assert said(drilled()) == []


def test_a_deviation_is_asked_of_all_rules():
    """An old hole 20 below the plan is clear; drilled 12 down the hole stands 8 from it: 12.6 is wanted."""
    old = OldHole(id="old-1", name="Old", from_masthead_mm=7990.0, girth="ahead", diameter_mm=4.2)
    close = {"hole/spacing"}

    def codes(layout):
        return {f.code for f in check(build(add(layout, "holes", old))).open if "old-1" in f.subjects} & close

    assert codes(drilled()) == set()
    assert codes(drilled(a_hole(7982.0))) == close


# -- ways out


def test_a_fitting_moves_until_every_hole_is_three_diameters_away():
    """By hand: wrong hole 3 above hole 1 of two 60 apart, all 4.2: 12.6 away.

    Up: hole 1 must come 12.6 above it, 15.6 from where it is; hole 2, 63 below, is far. Down: hole 1
    9.6 further down, 12.6 below it.
    """
    plan = np.array([[0.0, 30.0], [0.0, -30.0]])
    found = remedies(
        plan, 0, np.array([0.0, 33.0]), 4.2, Fastener(how="tapped", thread="M5"), np.full(2, 4.2), 3.0
    )
    assert (found.up_mm, found.down_mm, found.move_mm) == pytest.approx((15.6, 9.6, -9.6))
    assert not found.again


@pytest.mark.parametrize(("off_mm", "again"), [(12.6, True), (12.5, False)])
def test_a_filled_hole_is_drilled_anew_only_three_diameters_away(off_mm, again):
    """4.2: 12.6 from the filled hole its own place is sound metal, nearer it is not."""
    found = remedies(
        np.array([[0.0, 0.0]]), 0, np.array([0.0, off_mm]), 4.2, Fastener(how="tapped", thread="M5"),
        np.array([4.2]), 3.0,
    )  # fmt: skip
    assert found.again is again


@pytest.mark.parametrize("seed", range(8))
def test_no_shorter_move_does(seed):
    """Against every shift in steps of 0.05 tried one by one."""
    random = np.random.default_rng(seed)
    plan, wrong = random.uniform(-60, 60, (6, 2)), random.uniform(-60, 60, 2)
    sizes, wide = random.uniform(3, 8, 6), 5.0
    found = remedies(plan, 2, wrong, wide, Fastener(how="tapped", thread="M5"), sizes, 3.0)

    def clear(shift):
        return (np.hypot(*(plan + [0.0, shift] - wrong).T) >= 3 * np.maximum(sizes, wide) - 1e-6).all()

    for way, shift in ((1, found.up_mm), (-1, found.down_mm)):
        assert clear(way * shift)
        assert not any(clear(way * step) for step in np.arange(0.0, shift - 0.05, 0.05))


# Tap drills and clearance as in the published tables: M5 4.2, M6 5.0, M8 6.8; rivets 4.9 and 6.5 from memory.
@pytest.mark.parametrize(
    ("fastener", "least", "size"),
    [
        ("M5 tapped", 4.3, "M6 tapped"),
        ("M5 tapped", 5.1, "M8 tapped"),
        ("M6 nut", 6.7, "M8 nut"),
        ("1/4-20 tapped", 5.2, "5/16-18 tapped"),
        ("M12 tapped", 30.0, None),
    ],
)
def test_the_next_fastener_takes_the_wrong_hole_in(fastener, least, size):
    """Of the same sort and the same system of threads."""
    thread, how = fastener.split(" ", 1)
    found = next_larger(Fastener(how=how, thread=thread), least)
    assert (found.size if found else None) == size


def test_the_finding_says_all_three_ways():
    """Move, enlarge, fill: 4.2 drilled 3 off wants 10.2 to be swallowed, and M12 is tapped in 10.3."""
    layout = drilled(a_hole(7967.0))
    scene = build(layout)
    (found,) = (f for f in check(scene).open if f.code == "hole/off")
    words = sentence(scene, found, names_of(layout))
    for part in ("drilled 3.0 off its place", "towards the heel", "M12 tapped", "fill it and leave it out"):
        assert part in words
    assert remedies_of(scene.placed["box-1"], 2, built_in()) is None


OLD = OldHole(id="hole", name="Wrong", from_masthead_mm=7967.0, girth="ahead", diameter_mm=4.2)


def test_filled_near_its_place_the_hole_is_left_out_and_the_others_keep_their_numbers():
    """The part keeps its hole 1; the mast gets hole 2 alone, and the filled one stands against it."""
    layout = fill_hole(drilled(a_hole(7967.0)), "box-1", 1, OLD, again=False)
    placed = build(layout).placed["box-1"]
    assert [(o.number, o.fastener.size) for o in placed.holes.openings] == [(2, "M5 tapped")]
    assert [str(hole.fastener) for hole in layout.fittings[0].in_hand.holes] == ["left out", "M5 tapped"]
    assert [(h.from_masthead_mm, h.state) for h in layout.holes] == [(7967.0, "filled")]
    block = plan_of(check(build(layout))).drill[0]
    assert [row.tag for row in block.rows] == ["7.2"]
    assert [note.text for note in block.notes if note.tags == "7.1"] == [
        "left out: the part has this hole, the mast gets none"
    ]


def test_filled_far_from_its_place_it_is_drilled_anew():
    """20 off: the plan stands as it was."""
    layout = fill_hole(drilled(a_hole(7950.0)), "box-1", 1, OLD.but(from_masthead_mm=7950.0), again=True)
    assert [o.number for o in build(layout).placed["box-1"].holes.openings] == [1, 2]
    assert layout.fittings[0].holes_built == ()


def test_of_a_foot_nobody_has_in_hand_no_hole_is_left_out():
    """Its typical holes are the catalogue's: confirm it first."""
    layout = a_layout(fittings=(a_fitting(in_hand=None),))
    with pytest.raises(EditError, match="confirm the foot"):
        leave_out(layout, "box-1", 1)


def test_a_hole_left_out_is_not_recorded_as_drilled():
    """One of the two is wrong, and the file says which."""
    layout = fill_hole(drilled(a_hole(7967.0)), "box-1", 1, OLD, again=False)
    with pytest.raises(EditError, match="left out of this foot"):
        hole_built(layout, "box-1", a_hole(7968.0))


# -- what is kept


def test_a_hole_is_recorded_once_and_forgotten():
    """A later word takes the place of an earlier one; the hole then stands where it is planned."""
    layout = hole_built(drilled(), "box-1", a_hole(7967.0, number=2))
    layout = hole_built(layout, "box-1", a_hole(7968.0, number=1))
    layout = hole_built(layout, "box-1", a_hole(7969.0, number=1))
    assert [(h.number, h.from_masthead_mm) for h in layout.fittings[0].holes_built] == [
        (1, 7969.0),
        (2, 7967.0),
    ]
    assert [h.number for h in forget_hole(layout, "box-1", 1).fittings[0].holes_built] == [2]


@pytest.mark.parametrize(
    ("fields", "word"),
    [
        ({"number": 3}, "there is no hole 3 in this foot: 1 to 2 is allowed"),
        ({"from_masthead_mm": 17001.0}, "below the heel"),
    ],
)
def test_a_hole_that_cannot_be_is_refused(fields, word):
    """What no foot has, and what is not on the mast."""
    with pytest.raises(EditError, match=word):
        hole_built(drilled(), "box-1", a_hole(**fields))


def test_a_foot_with_fewer_holes_waits_for_the_hole_to_be_forgotten():
    """Otherwise a hole in the mast would be lost."""
    layout = hole_built(drilled(), "box-1", a_hole(number=2))
    with pytest.raises(EditError, match="forget that hole first"):
        change(layout, "box-1", in_hand=a_foot(holes=HOLES[:1]))


@pytest.mark.parametrize(
    "photo", ["/etc/passwd.png", "../a.jpg", "a/../../b.jpg", "C:\\a.jpg", "a.txt", "", "x" * 300 + ".jpg"]
)
def test_a_photo_stays_beside_the_layout(photo):
    """No path from the root, no drive, no way up, no other sort of file."""
    with pytest.raises(ValueError, match="photo"):
        a_hole(photo=photo)


@pytest.mark.parametrize(("typed", "kept"), [("p.jpg", "p.jpg"), ("photos\\13-2.JPG", "photos/13-2.JPG")])
def test_a_photo_is_kept_with_forward_strokes(typed, kept):
    """The same file on every system."""
    assert a_hole(photo=typed).photo == kept
