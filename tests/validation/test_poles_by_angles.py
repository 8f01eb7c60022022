"""What a pole sweeps: python-fcl asked at sampled angles, the yachts' figures by hand, support by corners."""

import fcl
import numpy as np
import pytest
from test_distances import seated, shape, turn

from mastlayout.geometry.pole.clear import clear_of
from mastlayout.geometry.pole.fan import fans
from mastlayout.geometry.solids import joined

KINDS = ("ball", "tube", "can", "box")
# Half a step of the sampled angles, at most 1.2 m from the ring: what lies between is as much nearer.
CASES, FARTHEST, NEAR = 30, 1200.0, 150.0
BEARINGS, TILTS, HEIGHTS = 41, 7, 5


def pole(dice):
    """A pole: its run, length, tilt, how far squared, half its diameter."""
    low = np.array([dice.uniform(80, 200), 0.0, dice.uniform(900, 3000)])
    high = low + (dice.uniform(-20, 0), 0.0, dice.choice([0.0, dice.uniform(50, 600)]))
    tilt = np.radians([-dice.uniform(0, 35), dice.uniform(0, 35)])
    return (
        np.stack([low, high]),
        dice.uniform(1500, 5000),
        tilt,
        np.radians(dice.uniform(60, 110)),
        dice.uniform(20, 60),
    )


def ways(run, tilt, squared):
    """Sampled inner ends (n, 3) and directions (n, 3), those to port first told apart by a mask."""
    bearing, up, part = (
        axis.ravel()
        for axis in np.meshgrid(
            np.linspace(-squared, squared, BEARINGS),
            np.linspace(*tilt, TILTS),
            np.linspace(0, 1, HEIGHTS),
            indexing="ij",
        )
    )
    hinge = run[0] + part[:, None] * (run[1] - run[0])
    pointing = np.stack([np.cos(up) * np.cos(bearing), np.cos(up) * np.sin(bearing), np.sin(up)], axis=1)
    return hinge, pointing, bearing


def sampled(theirs, place, rotation, one):
    """The least distance fcl finds over all sampled angles, of a pole to port and to starboard."""
    run, length, tilt, squared, radius = one
    hinge, pointing, bearing = ways(run, tilt, squared)
    body = fcl.CollisionObject(theirs, fcl.Transform(rotation, place))
    capsule, found = fcl.Capsule(radius, length), np.full(2, np.inf)
    for foot, way, off in zip(hinge, pointing, bearing, strict=True):
        across = np.cross(way, (0.0, 0.0, 1.0) if abs(way[2]) < 0.9 else (1.0, 0.0, 0.0))
        across /= np.linalg.norm(across)
        axes = np.stack([across, np.cross(way, across), way], axis=1)
        bar = fcl.CollisionObject(capsule, fcl.Transform(axes, foot + way * length / 2))
        apart = fcl.distance(body, bar, fcl.DistanceRequest(), fcl.DistanceResult())
        for side in [0, 1] if off == 0 else [0 if off > 0 else 1]:
            found[side] = min(found[side], max(apart, 0.0))
    return found


def test_a_pole_is_never_clear_where_a_sampled_one_touches():
    """Thirty poles and solids about their ring: never farther than any of 1,435 ways, nor much nearer."""
    dice, told = np.random.default_rng(4), []
    for case in range(CASES):
        one = pole(dice)
        solid, theirs = shape(KINDS[case % 4], dice)
        place = one[0].mean(axis=0) + dice.uniform((-100, -500, -700), (500, 500, 700))
        rotation = turn(dice)
        run, length, tilt, squared, radius = one
        found = clear_of(
            fans(run, length, tuple(tilt), squared, radius), seated(solid, rotation, place), NEAR
        )[0]
        theirs_apart = sampled(theirs, place, rotation, one)
        told.append((found, np.minimum(theirs_apart, NEAR)))
    found, true = (np.array(side) for side in zip(*told, strict=True))
    assert (found <= true + 0.02).all()
    # Between samples the pole comes nearer by at most half a step, at the solid's distance from the ring.
    step = (
        FARTHEST * (np.radians(220) / (BEARINGS - 1) + np.radians(70) / (TILTS - 1)) / 2
        + 600 / (HEIGHTS - 1) / 2
    )
    apart = found > 0
    assert (true[apart] - found[apart] < step).all()
    assert 10 < (true == 0).sum() < 50
    assert 10 < (true == NEAR).sum() < 50


def test_a_ball_ahead_of_a_fixed_ring_by_hand():
    """By plane geometry: a ball above a pole that tilts 20 degrees up is off the cone, not off the level."""
    run = np.array([[100.0, 0.0, 1000.0], [100.0, 0.0, 1000.0]])
    swept = fans(run, 3000.0, (-np.radians(20), np.radians(20)), np.radians(90), 25.0)
    dice = np.random.default_rng(5)
    bearing, out, above = (
        dice.uniform(-89, 89, 200),
        dice.uniform(200, 2500, 200),
        dice.uniform(1.2, 2.0, 200),
    )
    turned = np.radians(bearing)
    up = out * np.tan(np.radians(20)) * above
    places = np.column_stack([100 + out * np.cos(turned), out * np.sin(turned), 1000 + up])
    solids = joined(
        [seated(shape("ball", dice)[0].but(radius_mm=10.0), np.eye(3), place) for place in places]
    )
    # Off the cone's edge in the upright plane: height less the edge's, foreshortened by the tilt.
    true = (up - out * np.tan(np.radians(20))) * np.cos(np.radians(20)) - 25 - 10
    found = clear_of(swept, solids, 1e4).min(axis=1)
    assert (found <= true + 0.01).all()
    # Between two bearings 7.5 degrees apart the flat side stands 0.2 % of the way out beyond the cone.
    assert (true - found < 0.0022 * out).all()


@pytest.mark.parametrize("squared", [5.0, 60.0, 90.0, 115.0])
def test_what_is_swept_holds_every_way(squared):
    """Support in a thousand directions: never less than any end of a sampled pole."""
    dice = np.random.default_rng(int(squared))
    run, length, tilt, _squared, radius = pole(dice)
    swept = fans(run, length, tuple(tilt), np.radians(squared), radius)
    hinge, pointing, _bearing = ways(run, tilt, np.radians(squared))
    ends = np.concatenate([hinge, hinge + length * pointing])
    directions = dice.normal(size=(1000, 3))
    directions /= np.linalg.norm(directions, axis=1)[:, None]
    reach = np.array([swept[np.full(1000, fan)].support(directions) for fan in range(len(swept))]).max(axis=0)
    assert (reach >= (directions @ ends.T).max(axis=1) + radius - 1e-6).all()
    assert (reach <= (directions @ ends.T).max(axis=1) + radius + 0.01 * length).all()
