"""How far slack lines reach: by hand, against a hanging catenary and scipy; taut ones against python-fcl."""

import fcl
import numpy as np
import pytest
from builders import a_fitting, a_kind, a_layout
from scipy.optimize import brentq, minimize
from test_distances import turn

from mastlayout.checks import lines
from mastlayout.checks.rule import where_it_stands
from mastlayout.geometry.running.reach import Reaches, needed_by
from mastlayout.geometry.scene import build
from mastlayout.geometry.solids import joined, solids_of, tubes
from mastlayout.limits import built_in
from mastlayout.model.kind import Box
from mastlayout.model.sails import Halyard, LinePoint


def a_reach(start, end, slack, radius=0.0):
    """One line."""
    return Reaches(np.array([[start, end]], dtype=float), np.array([slack]), np.array([radius]))


def test_the_middle_of_a_slack_line_by_two_legs():
    """8,000 between its ends and 40 more: two legs of 4,020, so 400.5 aside (Pythagoras)."""
    line = a_reach((0, 0, 0), (0, 0, 8000), 40.0)
    aside = np.sqrt(4020.0**2 - 4000.0**2)
    assert line.aside_mm[0] == pytest.approx(aside)
    assert aside == pytest.approx(400.5, abs=0.1)
    assert line.needed_mm(np.array([[aside, 0.0, 4000.0]]))[0, 0] == pytest.approx(40.0)
    # A quarter down: legs of the ellipse, (x / b)^2 + (z / a)^2 = 1.
    quarter = aside * np.sqrt(1 - (2000.0 / 4020.0) ** 2)
    assert line.needed_mm(np.array([[0.0, quarter, 2000.0]]))[0, 0] == pytest.approx(40.0)
    # Beyond an end: half of what it has to spare.
    assert line.needed_mm(np.array([[0.0, 0.0, 8020.0]]))[0, 0] == pytest.approx(40.0)


def test_a_ball_beside_a_line_by_hand():
    """Its near side 300 from the middle of 8,000: 2 (sqrt(4,000^2 + 300^2) - 4,000) = 22.47."""
    line = a_reach((0, 0, 0), (0, 0, 8000), 40.0, radius=6.0)
    ball = tubes(np.array([[366.0, 0.0, 4000.0]]), np.array([[366.0, 0.0, 4000.0]]), 60.0)
    needed, _where = needed_by(line, ball)
    true = 2 * (np.hypot(4000.0, 300.0) - 4000.0)
    assert needed[0, 0] == pytest.approx(true, abs=0.05)
    assert needed[0, 0] <= true + 1e-6


def test_a_hanging_line_stays_within_its_reach():
    """A catenary between two ends, its length 0.5 % more: at no point is more slack needed than it has."""
    span, slack = 5000.0, 25.0
    # y = a cosh(x / a) between -span / 2 and span / 2 is 2 a sinh(span / 2a) long.
    a = brentq(lambda a: 2 * a * np.sinh(span / (2 * a)) - span - slack, 1000.0, 1e6)
    x = np.linspace(-span / 2, span / 2, 201)
    y = a * (np.cosh(x / a) - np.cosh(span / (2 * a)))
    line = a_reach((-span / 2, 0, 0), (span / 2, 0, 0), slack)
    needed = line.needed_mm(np.stack([x, np.zeros(201), y], axis=1))[:, 0]
    assert needed.max() <= slack
    # Hung so it sags by nearly as much as two legs do; the bound is close above it.
    assert -y.min() < line.aside_mm[0] < -1.2 * y.min()


def test_boxes_against_scipy():
    """80 boxes by lot: never more slack than scipy's least over the box, and not much less."""
    dice = np.random.default_rng(11)
    line = a_reach((0, 0, 0), (300, -200, 9000), 60.0)
    boxes, true = [], []
    for _box in range(80):
        centre = np.array([*dice.uniform(-500, 600, 2), dice.uniform(300, 8700)])
        size, rotation = dice.uniform(20, 220, 3), turn(dice)
        box = Box(shape="box", centre=(0, 0, 0), size=tuple(size))
        boxes.append(solids_of([box]).moved(centre[None], rotation.T[None]))

        def way(p, centre=centre, rotation=rotation):
            point = centre + rotation @ p
            return float(np.linalg.norm(point - line.ends[0], axis=1).sum() - line.long_mm[0])

        bounds = [(-half, half) for half in size / 2]
        true.append(minimize(way, np.zeros(3), bounds=bounds, method="L-BFGS-B").fun)
    needed, _where = needed_by(line, joined(boxes))
    found, true = needed[:, 0], np.array(true)
    asked = np.isfinite(found)
    assert asked.sum() > 30
    assert (found[asked] <= true[asked] + 0.01).all()
    # What is not asked is truly out of reach.
    assert (true[~asked] > 60.0).all()
    close = asked & (true < 60.0)
    assert np.median(true[close] - found[close]) < 0.5
    assert (true[close] - found[close]).max() < 8.0


def test_taut_lines_against_fcl():
    """40 boxes by lot beside a line from aloft to a cleat: as far as python-fcl's capsule, to 0.1 mm."""
    dice = np.random.default_rng(7)
    rope = 12.0
    ends = np.array([[110.0, 60.0, 14000.0], [180.0, -90.0, 9000.0]])
    points = tuple(
        LinePoint(at=at, from_masthead_mm=17000.0 - z, ahead_mm=x, port_mm=y)
        for at, (x, y, z) in zip(("block", "cleat"), ends.tolist(), strict=True)
    )
    line = Halyard(id="line", name="Line", rope_mm=rope, inside="outside", points=points)
    along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    side = np.cross(along, (0.0, 1.0, 0.0))
    side /= np.linalg.norm(side)
    axes = np.stack([side, np.cross(along, side), along], axis=1)
    capsule = fcl.CollisionObject(
        fcl.Capsule(rope / 2, float(np.linalg.norm(ends[1] - ends[0]))),
        fcl.Transform(axes, ends.mean(axis=0)),
    )
    met = 0
    for _box in range(40):
        z, size = float(dice.uniform(9200, 13800)), dice.uniform(20, 120, 3)
        kind = a_kind(
            group="light", solids=[{"shape": "box", "centre": (0, 0, size[2] / 2), "size": tuple(size)}]
        )
        box = a_fitting(from_masthead_mm=17000.0 - z, turn_deg=float(dice.uniform(0, 90)))
        scene = build(a_layout(kinds=(kind,), fittings=(box,), halyards=(line,)))
        placed = scene.placed["box-1"]
        (found,) = lines.margins(scene, [where_it_stands(placed)], built_in())
        theirs = fcl.CollisionObject(
            fcl.Box(*size), fcl.Transform(placed.seats.axes[0].T, placed.solids.centre[0])
        )
        result = fcl.DistanceResult()
        apart = fcl.distance(capsule, theirs, fcl.DistanceRequest(), result)
        if 0 < apart < 10.0:
            met += 1
            assert found.measured[0, 0] == pytest.approx(apart, abs=0.1)
        assert (found.grade[0, 0] > 0) == (apart < 10.0)
    assert met > 3
