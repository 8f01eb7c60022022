"""Distances of solids and stays against python-fcl, a collision library of its own; slices by hand."""

import math

import fcl
import numpy as np
import pytest
import shapely
from scipy.spatial import ConvexHull

from mastlayout.geometry.crowd import Herd, crowd_of, nearest
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


def hull(corners):
    """A convex body of fcl from its corners, its faces turned outwards."""
    found = ConvexHull(corners)
    faces = []
    for face, plane in zip(found.simplices, found.equations, strict=True):
        a, b, c = corners[face]
        outward = np.cross(b - a, c - a) @ plane[:3] > 0
        faces += [3, *(face if outward else face[::-1])]
    return fcl.Convex(corners, len(found.simplices), np.array(faces))


def test_a_thousand_tapered_bars_and_a_stay():
    """A spreader's bar is the hull of its eight corners, against fcl's hull of the same."""
    dice = np.random.default_rng(11)
    bars, stays, true = [], [], []
    for _pair in range(COUNT):
        root, lean = dice.uniform(-300, 300, 3), turn(dice)
        tip = root + dice.uniform(300, 1300) * lean[:, 0]
        half = dice.uniform(8, 50, (2, 2))
        spans = [np.stack([w * lean[:, 1], t * lean[:, 2], np.zeros(3)]) for w, t in half]
        corners = [
            end + sign * own[0] + other * own[1]
            for end, own in zip((root, tip), spans, strict=True)
            for sign in (-1, 1)
            for other in (-1, 1)
        ]
        wire, foot, way = float(dice.uniform(2, 12)), dice.uniform(-500, 500, 3), turn(dice)
        stay = fcl.CollisionObject(fcl.Capsule(wire, 2000.0), fcl.Transform(way, foot))
        true.append(fcl.distance(fcl.CollisionObject(hull(np.array(corners)), fcl.Transform()), stay))
        bars.append(bar(root, tip, *spans))
        along = 1000.0 * way[:, 2]
        stays.append(tubes((foot - along)[None], (foot + along)[None], wire))
    found, true = gap(joined(bars), joined(stays)).distance_mm, np.array(true)
    apart = true > 0
    assert 100 < apart.sum() < COUNT
    assert found[apart] == pytest.approx(true[apart], abs=0.1)
    assert (found[apart] - true[apart]).max() < 0.02
    assert found[~apart].max() <= 0.001


def test_a_blunt_cone_by_its_half_section():
    """Round its axis a cone cut off square is a trapezium: a ball's distance is shapely's in the plane."""
    dice = np.random.default_rng(5)
    cone = Can(shape="can", start=(0, 0, 0), end=(0, 0, 120), radius_mm=80, end_radius_mm=30)
    flat = shapely.Polygon([(-80, 0), (80, 0), (30, 120), (-30, 120)])
    for _ball in range(300):
        radius, place = float(dice.uniform(1, 20)), dice.uniform(-200, 250, 3)
        ball = solids_of([Ball(shape="ball", centre=tuple(map(float, place)), radius_mm=radius)])
        true = flat.distance(shapely.Point(math.hypot(place[0], place[1]), place[2])) - radius
        found = float(gap(solids_of([cone]), ball).distance_mm[0])
        assert found == pytest.approx(true, abs=0.02) if true > 0 else found <= 0.001


@pytest.mark.parametrize("kind", ["ball", "tube", "can", "cone", "box"])
def test_a_stay_over_its_tips_is_as_near_as_its_nearest_leg(kind):
    """Fittings and stays of three legs at once: fcl's least of the legs, or no less than what is enough."""
    dice = np.random.default_rng(len(kind) + 40)
    pairs, stays, enough, true = 30, 12, 60.0, {}
    pins = dice.uniform(-700, 700, (stays, 4, 3))
    solids = []
    for n in range(pairs):
        (solid, theirs), place, rotation = shape(kind, dice), dice.uniform(-500, 500, 3), turn(dice)
        body = fcl.CollisionObject(theirs, fcl.Transform(rotation, place))
        solids.append(seated(solid, rotation, place))
        for s in range(stays):
            true[n, s] = min(
                fcl.distance(body, leg(a, b, 5.0)) for a, b in zip(pins[s], pins[s, 1:], strict=False)
            )
    crowd = crowd_of([(f"stay-{s}", tubes(p[:-1], p[1:], 5.0)) for s, p in enumerate(pins)])
    herd = Herd(joined(solids), np.ones(pairs, dtype=np.intp))
    found = nearest(herd, crowd, enough, np.zeros((pairs, stays), dtype=bool)).gap_mm
    for (n, s), apart in true.items():
        if apart <= 0:
            assert found[n, s] <= 0.001
        elif apart < enough - 0.1:
            assert found[n, s] == pytest.approx(apart, abs=0.1)
            assert found[n, s] < apart + 0.02
        else:
            assert found[n, s] == pytest.approx(min(apart, enough), abs=0.1)
    assert sum(0 < apart < enough for apart in true.values()) > 10


def leg(start, end, radius):
    """A capsule of fcl between two points."""
    along = end - start
    long = np.linalg.norm(along)
    up = along / long
    side = np.cross(up, (1.0, 0, 0) if abs(up[0]) < 0.9 else (0, 1.0, 0))
    side /= np.linalg.norm(side)
    rotation = np.stack([side, np.cross(up, side), up], axis=1)
    return fcl.CollisionObject(fcl.Capsule(radius, long), fcl.Transform(rotation, (start + end) / 2))


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


@pytest.mark.parametrize("z", [-60.0, 0.0, 45.0])
def test_slices_of_a_box_and_of_standing_cans_by_hand(z):
    """Upright nothing depends on the height but a cone's radius, which falls evenly."""
    angle = np.radians([0.0, 90.0, 30.0])
    directions = np.stack([np.cos(angle), np.sin(angle)], -1)
    box = solids_of([Box(shape="box", centre=(5, -3, 0), size=(80, 60, 200))])
    middle, reach = directions @ (5, -3), np.abs(directions) @ (40, 30)
    assert box.slice(np.array([z]), directions)[0, 0] == pytest.approx(middle + reach, abs=0.01)
    can = solids_of([Can(shape="can", start=(0, 0, -100), end=(0, 0, 100), radius_mm=50)])
    assert can.slice(np.array([z]), directions)[0, 0] == pytest.approx((50, 50, 50), abs=0.01)
    cone = Can(shape="can", start=(0, 0, -100), end=(0, 0, 100), radius_mm=50, end_radius_mm=10)
    here = 50 - 40 * (z + 100) / 200
    assert solids_of([cone]).slice(np.array([z]), directions)[0, 0] == pytest.approx([here] * 3, abs=0.01)
    assert np.isnan(box.slice(np.array([101.0, -101.0]), directions)).all()


def test_slices_of_leaning_boxes_by_their_edges():
    """The cut of a box leaning any way is the hull of where its twelve edges pass the height."""
    dice = np.random.default_rng(2)
    signs = np.array([(x, y, z) for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)])
    edges = [(i, j) for i in range(8) for j in range(i) if np.abs(signs[i] - signs[j]).sum() == 2]
    angle = np.radians(np.arange(0.0, 360.0, 45.0))
    directions = np.stack([np.cos(angle), np.sin(angle)], -1)
    for _box in range(60):
        size, place, rotation = dice.uniform(10, 300, 3), dice.uniform(-50, 50, 3), turn(dice)
        corners = place + (signs * size / 2) @ rotation.T
        z = float(dice.uniform(corners[:, 2].min() + 0.5, corners[:, 2].max() - 0.5))
        cut = [
            corners[i, :2]
            + (z - corners[i, 2]) / (corners[j, 2] - corners[i, 2]) * (corners[j] - corners[i])[:2]
            for i, j in edges
            if (corners[i, 2] - z) * (corners[j, 2] - z) < 0
        ]
        box = Box(shape="box", centre=(0, 0, 0), size=tuple(map(float, size)))
        found = seated(box, rotation, place).slice(np.array([z]), directions)[0, 0]
        assert found == pytest.approx((directions @ np.array(cut).T).max(axis=1), abs=0.05)
