"""The chord of a headsail against its corner points, laid in space and turned about the stay by hand."""

import math
from itertools import pairwise

import numpy as np
import pytest
from builders import a_layout, a_mast, a_stay
from scipy.spatial.transform import Rotation

from mastlayout.geometry.scene import build
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import cloths
from mastlayout.model.sails import Sail

LENGTH = 17000.0
# J 4.5 m and I 15 m from a fore face 100 ahead of the axis; clew at 1.2 m, head at 15.
J_MM, I_MM, CLEW, HEAD = 4500.0, 15000.0, 1200.0, 15000.0
UPPER, LOWER = np.array([100.0, 0.0, I_MM]), np.array([100.0 + J_MM, 0.0, 0.0])
WIDTHS = {"quarter_width_mm": 4200.0, "half_width_mm": 2700.0, "three_quarter_width_mm": 1300.0}


def cloth(lp_mm, **widths):
    """The states of one sail on that stay, as the program has them, without foil or sag."""
    stay = a_stay(
        upper={"from_masthead_mm": LENGTH - I_MM, "girth": "ahead", "stand_off_mm": 0.0},
        deck={"ahead_mm": LOWER[0], "above_mm": 0.0},
    )
    sail = Sail(
        id="jib", name="Jib", role="headsail", stay="forestay", lp_mm=lp_mm,
        tack_mm=LENGTH - 300.0, clew_mm=LENGTH - CLEW, head_mm=LENGTH - HEAD, **widths,
    )  # fmt: skip
    scene = build(a_layout(mast=a_mast(), stays=(stay,), sails=(sail,)))
    points = np.asarray(scene.stays["forestay"].points)
    assert points[[0, -1]] == pytest.approx(np.array([UPPER, LOWER]), abs=0.01)
    return cloths((sail,), scene.stays, Bend(LENGTH, 0.0), 0.0, 0.0)


def corners(lp_mm, turned, **widths):
    """The sail's corners (k, 3) from tack over clew to head, turned about the stay by radians."""
    along = (UPPER - LOWER) / np.linalg.norm(UPPER - LOWER)
    square = np.cross(along, [0.0, 1.0, 0.0])
    square *= -np.sign(square[0])
    parts = [0.0, 0.25, 0.5, 0.75, 1.0]
    width = [lp_mm, *widths.values(), 0.0] if widths else [lp_mm * (1 - part) for part in parts]
    tack = LOWER + along * 300.0 / along[2]
    leech = [tack]
    for part, across in zip(parts, width, strict=True):
        z = CLEW + part * (HEAD - CLEW)
        leech.append(LOWER + along * (z - across * square[2]) / along[2] + across * square)
    return LOWER + Rotation.from_rotvec(along * turned).apply(np.array(leech) - LOWER)


def cut(points, z_mm):
    """The farthest point (2,) from the luff where a level plane cuts the edge from tack to head."""
    luff = (LOWER + (UPPER - LOWER) * z_mm / I_MM)[:2]
    found = [
        low[:2] + (high - low)[:2] * (z_mm - low[2]) / (high[2] - low[2])
        for low, high in pairwise(points)
        if min(low[2], high[2]) <= z_mm <= max(low[2], high[2]) and low[2] != high[2]
    ]
    return max((point - luff for point in found), key=np.linalg.norm)


@pytest.mark.parametrize(("overlap", "metres"), [(1.50, 3.06), (0.95, 1.94)])
def test_two_chords_at_nine_metres(overlap, metres):
    """LP / cos(stay) (z_head - z) / (z_head - z_clew): one overlaps, one reaches the bare mast."""
    angle = math.atan(J_MM / I_MM)
    by_hand = overlap * J_MM / math.cos(angle) * (HEAD - 9000) / (HEAD - CLEW)
    chord = cloth(overlap * J_MM).chord(np.array([0]), np.array([9000.0]))[0]
    assert by_hand == pytest.approx(1000 * metres, abs=6)
    assert chord == pytest.approx(by_hand, abs=0.1)
    assert chord > J_MM * (1 - 9000 / I_MM)


@pytest.mark.parametrize("widths", [{}, WIDTHS], ids=["straight", "measured"])
@pytest.mark.parametrize("turned", [-1.2, -0.5, -0.1, 0.0, 0.05, 0.2, 0.6, 1.0, 1.5])
def test_a_sail_turns_about_its_stay_as_a_door_does(turned, widths):
    """Its level cut, at the bearing the turned corners give, to 0.1 mm from the clew to the head."""
    known, points = cloth(6000.0, **widths), corners(6000.0, turned, **widths)
    for z_mm in np.arange(points[1, 2] + 10, HEAD - 100, 370.0):
        end = cut(points, z_mm)
        swung = math.atan2(abs(end[1]), -end[0])
        chord = known.chord(np.array([0]), np.array([z_mm]), np.array([swung]))[0]
        assert chord == pytest.approx(np.linalg.norm(end), abs=0.1)


@pytest.mark.parametrize("turned", [0.0, 0.3, 0.8])
def test_below_the_clew_the_foot_ends_the_cloth(turned):
    """From the tack up to the clew, in a straight line: nowhere less than the turned corners reach."""
    known, points = cloth(6000.0), corners(6000.0, turned)
    full = next(i for i, state in enumerate(known.states) if not (state.hoisting or state.sagged))
    for z_mm in np.arange(400.0, points[1, 2], 200.0):
        end = cut(points, z_mm)
        swung = math.atan2(abs(end[1]), -end[0])
        chord = known.chord(np.array([full]), np.array([z_mm]), np.array([swung]))[0]
        assert chord >= np.linalg.norm(end) - 0.1


@pytest.mark.parametrize("swung", [0.1, 0.35, 0.7, 1.2])
def test_the_longest_cloth_on_the_way_just_above_the_clew(swung):
    """The corners turned a hundredth of a radian at a time: none reaches farther than said, to 5 mm."""
    known = cloth(6000.0)
    full = next(i for i, state in enumerate(known.states) if not (state.hoisting or state.sagged))
    turns = [corners(6000.0, turned) for turned in np.arange(0.0, 1.8, 0.01)]
    for z_mm in np.arange(CLEW - 300.0, CLEW + 1500.0, 50.0):
        ends = [cut(points, z_mm) for points in turns if points[0, 2] <= z_mm]
        reached = [np.linalg.norm(end) for end in ends if math.atan2(abs(end[1]), -end[0]) <= swung]
        longest = known.longest(np.array([full]), np.array([z_mm]), np.array([swung]))[0]
        assert longest >= max(reached) - 5.0
