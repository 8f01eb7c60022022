"""What slack wires sweep: parabolas by hand, plane regions against shapely, bodies against python-fcl."""

import fcl
import numpy as np
import pytest
import shapely
from builders import a_mast, a_spreader, a_stay
from test_distances import hull, turn

from mastlayout.geometry.distance import gap
from mastlayout.geometry.rig import place_spreader, place_stay
from mastlayout.geometry.skin import skin_of
from mastlayout.geometry.slack import Bows, Slackness, slack_of
from mastlayout.geometry.solids import joined, solids_of
from mastlayout.limits import built_in
from mastlayout.model.kind import Ball, Box

SPAN, HANGS, WIRE = 2000.0, 150.0, 5.0
PART = np.linspace(0, 1, 201)
# In its own plane: a chord along x, its parabola off to y.
EDGE = np.column_stack([SPAN * PART, 4 * HANGS * PART * (1 - PART)])


def bow(rotation, place):
    """One slack span turned and moved."""
    ends = np.array([[0, 0, 0], [SPAN, 0, 0]]) @ rotation.T + place
    return Bows(ends[None], (rotation @ np.array([0, HANGS, 0]))[None], np.array([WIRE]))


def bows(many):
    """Several as one."""
    return Bows(
        *(np.concatenate([getattr(one, name) for one in many]) for name in ("ends", "sag", "round_mm"))
    )


def test_five_hundred_balls_and_a_slack_span():
    """By Pythagoras from shapely's distance in the plane, to 0.02 mm; negative where they meet."""
    dice, region = np.random.default_rng(8), shapely.Polygon(EDGE)
    spans, balls, true = [], [], []
    for _ball in range(500):
        rotation, place, radius = turn(dice), dice.uniform(-500, 500, 3), float(dice.uniform(2, 60))
        at = dice.uniform((-100, -80, -60), (2100, 220, 60))
        spans.append(bow(rotation, place))
        centre = tuple(float(value) for value in rotation @ at + place)
        balls.append(solids_of([Ball(shape="ball", centre=centre, radius_mm=radius)]))
        true.append(np.hypot(region.distance(shapely.Point(at[:2])), at[2]) - radius - WIRE)
    found, true = gap(joined(balls), bows(spans)).distance_mm, np.array(true)
    apart = true > 0
    assert 50 < apart.sum() < 450
    assert found[apart] == pytest.approx(true[apart], abs=0.02)
    assert (found[~apart] <= 0.01).all()


def test_five_hundred_boxes_and_a_slack_span():
    """Against fcl's hull of the same, a hundredth thick: to 0.05 mm, never farther."""
    dice = np.random.default_rng(9)
    sheet = hull(np.vstack([np.column_stack([EDGE, np.full(len(EDGE), off)]) for off in (-0.005, 0.005)]))
    spans, boxes, true = [], [], []
    for _box in range(500):
        lean, foot = turn(dice), dice.uniform(-500, 500, 3)
        size, rotation = dice.uniform(20, 200, 3), turn(dice)
        place = lean @ dice.uniform((-200, -300, -250), (2200, 450, 250)) + foot
        spans.append(bow(lean, foot))
        box = solids_of([Box(shape="box", centre=(0, 0, 0), size=tuple(float(s) for s in size))])
        boxes.append(box.moved(place[None], rotation.T[None]))
        theirs = fcl.CollisionObject(fcl.Box(*size), fcl.Transform(rotation, place))
        true.append(fcl.distance(theirs, fcl.CollisionObject(sheet, fcl.Transform(lean, foot))) - WIRE)
    found, true = gap(joined(boxes), bows(spans)).distance_mm, np.array(true)
    apart = true > 0
    assert 100 < apart.sum() < 450
    assert found[apart] == pytest.approx(true[apart], abs=0.05)
    # The hull's chords lie within the parabola by at most 150 / 200² = 0.004.
    assert (found[apart] - true[apart]).max() < 0.02
    assert (found[~apart] <= 0.02).all()


def test_each_span_hangs_by_its_own_length():
    """A shroud over a tip 1,065 out hangs 1 % of each of its two spans, to both sides."""
    skin = skin_of(a_mast())
    tips = {"spreader-p": place_spreader(skin, a_spreader())}
    shroud = place_stay(
        skin,
        a_stay("cap-p", role="cap", side="port", via=("spreader-p",),
               deck={"ahead_mm": 0.0, "off_mm": 1200.0, "above_mm": 0.0}),
        tips,
    )  # fmt: skip
    found = slack_of({"cap-p": shroud}, Slackness(0.01, 0.02, 0.002)).of("cap-p")
    # Its pin at 130 ahead and 16,800, the tip at 1,065 out and 8,000, the deck at 1,200 out.
    upper, lower = np.sqrt(130**2 + 1065**2 + 8800**2), np.hypot(1200 - 1065, 8000)
    by_hand = [(0, side * 0.01 * span, 0) for side in (1, -1) for span in (upper, lower)]
    assert found.sag == pytest.approx(np.array(by_hand), abs=0.01)
    assert len(found) == 4
    drawn = found.polylines(3)
    assert drawn[:, [0, 2]] == pytest.approx(found.ends)
    assert drawn[:, 1] == pytest.approx(found.ends.mean(axis=1) + found.sag)


@pytest.mark.parametrize(
    ("role", "part", "aft"),
    [
        ("cap", 0.01, False), ("intermediate", 0.01, False), ("lower", 0.01, False), ("runner", 0.01, False),
        ("backstay", 0.01, False), ("forestay", 0.02, True), ("inner", 0.02, True), ("luff", 0.02, True),
        ("diamond", 0.002, False), ("jumper", 0.002, False),
    ],
)  # fmt: skip
def test_each_sort_of_stay_hangs_by_its_own_part_to_either_side(role, part, aft):
    """Common practice, no source: shrouds 1 % of their span, forestay 2 %, what is short and tight 0.2 %.

    A stay a sail is set on is pulled aft by as much. The wire leads 4,470 ahead over 16,800 down.
    """
    skin = skin_of(a_mast())
    stay = place_stay(skin, a_stay("one", role=role), {})
    found = slack_of({"one": stay}, Slackness.of(built_in())).of("one")
    hangs = part * np.hypot(4470.0, 16800.0)
    by_hand = [(0, hangs, 0), (0, -hangs, 0)] + [(-hangs, 0, 0)] * aft
    assert found.sag == pytest.approx(np.array(by_hand), abs=0.01)
