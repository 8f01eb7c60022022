"""Distances of solids and stays against python-fcl, a collision library of its own; slices by hand."""

import math

import fcl
import numpy as np
import pytest

from mastlayout.geometry.distance import gap
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.solids import bar, joined, solids_of, tubes
from mastlayout.model.kind import Ball, Box, Can, Tube

COUNT = 1000


def turn(dice):
    """A random rotation matrix (Shoemake's unit quaternion)."""
    w, x, y, z = (q := dice.normal(size=4)) / np.linalg.norm(q)
    return np.array([
        [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
        [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
        [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
    ])  # fmt: skip


def shape(kind, dice):
    """One solid of a kind as the model has it, and the same one as the library has it."""
    radius, long = float(dice.uniform(5, 150)), float(dice.uniform(10, 500))
    ends = {"start": (0, 0, -long / 2), "end": (0, 0, long / 2), "radius_mm": radius}
    match kind:
        case "ball":
            return Ball(shape="ball", centre=(0, 0, 0), radius_mm=radius), fcl.Sphere(radius)
        case "tube":
            return Tube(shape="tube", **ends), fcl.Capsule(radius, long)
        case "can":
            return Can(shape="can", **ends), fcl.Cylinder(radius, long)
        case "cone":
            return Can(shape="can", end_radius_mm=0.0, **ends), fcl.Cone(radius, long)
        case _:
            size = tuple(float(s) for s in dice.uniform(10, 300, 3))
            return Box(shape="box", centre=(0, 0, 0), size=size), fcl.Box(*size)


def seated(solid, rotation, place):
    """The solid turned and moved."""
    return solids_of([solid]).moved(place[None], rotation.T[None])


@pytest.mark.parametrize("kind", ["ball", "tube", "can", "cone", "box"])
def test_a_thousand_pairs_of_each_solid_and_a_stay(kind):
    """Against fcl to 0.1 mm where they are apart, never larger than true; never positive where they meet."""
    dice = np.random.default_rng(len(kind))
    solids, stays, true = [], [], []
    for _pair in range(COUNT):
        (solid, theirs), place, rotation = shape(kind, dice), dice.uniform(-300, 300, 3), turn(dice)
        wire, foot, lean = float(dice.uniform(2, 12)), dice.uniform(-300, 300, 3), turn(dice)
        stay = fcl.CollisionObject(fcl.Capsule(wire, 2000.0), fcl.Transform(lean, foot))
        true.append(fcl.distance(fcl.CollisionObject(theirs, fcl.Transform(rotation, place)), stay))
        solids.append(seated(solid, rotation, place))
        along = lean @ np.array([0, 0, 1000.0])
        stays.append(tubes((foot - along)[None], (foot + along)[None], wire))
    found, true = gap(joined(solids), joined(stays)).distance_mm, np.array(true)
    apart = true > 0
    assert 100 < apart.sum() < COUNT
    assert found[apart] == pytest.approx(true[apart], abs=0.1)
    assert (found[apart] - true[apart]).max() < 0.001
    assert found[~apart].max() <= 0.001


@pytest.mark.parametrize("other", ["ball", "can", "box"])
def test_solids_against_each_other(other):
    """Two solids of different kinds, a thousand pairs."""
    dice = np.random.default_rng(7)
    ones, others, true = [], [], []
    for _pair in range(COUNT):
        (one, a), (two, b) = shape("box", dice), shape(other, dice)
        here, there, t1, t2 = dice.uniform(-400, 400, 3), dice.uniform(-400, 400, 3), turn(dice), turn(dice)
        ones.append(seated(one, t1, here))
        others.append(seated(two, t2, there))
        pair = [fcl.CollisionObject(s, fcl.Transform(t, p)) for s, t, p in ((a, t1, here), (b, t2, there))]
        true.append(fcl.distance(*pair))
    found, true = gap(joined(ones), joined(others)).distance_mm, np.array(true)
    apart = true > 0
    assert found[apart] == pytest.approx(true[apart], abs=0.1)
    assert found[~apart].max() <= 0.001


def test_an_overlap_is_never_said_too_shallow():
    """A ball of 50 whose middle lies 20 inside a face of a large box must move 70 to come clear."""
    box = solids_of([Box(shape="box", centre=(0, 0, 0), size=(1000, 1000, 400))])
    ball = solids_of([Ball(shape="ball", centre=(0, 0, 180), radius_mm=50)])
    assert gap(box, ball).distance_mm[0] == pytest.approx(-70, abs=0.01)


def test_a_tapered_bar_by_hand():
    """Straight out of the narrow end: 10 beyond the middle of a bar 100 long is 10 away."""
    spans = [np.array([[0, w, 0], [0, 0, 5.0], [0, 0, 0]]) for w in (20.0, 10.0)]
    spreader = bar(np.zeros(3), np.array([100.0, 0, 0]), *spans)
    ball = solids_of([Ball(shape="ball", centre=(111, 0, 0), radius_mm=1)])
    assert gap(spreader, ball).distance_mm[0] == pytest.approx(10, abs=0.01)


def test_legs_against_the_library():
    """The closed form of two legs is fcl's distance of two thin capsules, and its radius apart."""
    dice = np.random.default_rng(3)
    for _pair in range(200):
        a, b, c, d = dice.uniform(-300, 300, (4, 3))
        apart = float(leg_distance(a[None], b[None], c[None], d[None])[0][0])
        found = gap(tubes(a[None], b[None], 0.5), tubes(c[None], d[None], 0.5)).distance_mm[0]
        assert apart - 1.0 == pytest.approx(found, abs=0.01)


def test_slices_of_ball_and_can_by_hand():
    """A ball of 50 cut 30 above its middle has a radius of 40; a level can keeps length and width."""
    directions = np.array([(1.0, 0.0), (0.0, 1.0), (math.sqrt(0.5), math.sqrt(0.5))])
    ball = solids_of([Ball(shape="ball", centre=(10, 0, 0), radius_mm=50)])
    assert ball.slice(np.array([30.0, 60.0]), directions)[0, 0] == pytest.approx(
        (50, 40, 40 + 10 * math.sqrt(0.5)), abs=0.01
    )
    assert np.isnan(ball.slice(np.array([60.0]), directions)).all()
    can = solids_of([Can(shape="can", start=(-100, 0, 0), end=(100, 0, 0), radius_mm=50)])
    assert can.slice(np.array([30.0]), directions)[0, 0, :2] == pytest.approx((100, 40), abs=0.05)
