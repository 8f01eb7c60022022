"""Horizons and ranges against what is printed elsewhere; each figure with its publication beside it."""

import math

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from mastlayout.geometry.frames import above_water_mm
from mastlayout.ranges.horizon import (
    LIGHTS,
    NAVIGATOR,
    RADIO,
    Convention,
    horizon_nm,
    nm_per_root_m,
    range_nm,
)

M_PER_FT = 0.3048
# Icelandic government List of Lights and Seamarks, 1 January 1929, page 7: geographic range in NM of a
# light (rows) to an eye (columns), heights in metres, by 2.08 (sqrt(H1) + sqrt(H2)). Four cells that are
# misprints against its own formula are None.
EYE_M = (0, 3, 5, 6, 9, 12, 15, 18, 21, 24, 27, 30)
LIST_OF_LIGHTS = {
    5: (4.6, 8.2, 9.3, 9.7, 10.9, 11.9, 12.7, 13.5, 14.2, 14.8, 15.5, 16.0),
    10: (6.6, 10.2, 11.2, 11.7, 12.8, 13.8, 14.6, 15.4, 16.1, 16.8, 17.4, 18.0),
    20: (9.3, 12.9, 14.0, 14.4, 15.5, 16.5, 17.4, 18.1, 18.9, 19.5, 20.1, 20.7),
    25: (10.4, 14.0, 15.1, 15.5, 16.6, 17.6, 18.5, 19.2, 20.0, 20.6, 21.2, 21.8),
    30: (11.4, 15.0, 16.0, 16.5, 17.6, 18.6, 19.5, 20.2, 20.9, 21.6, 22.2, 22.8),
    40: (13.2, 16.8, 17.8, 18.3, 19.4, 20.4, 21.2, 22.0, 22.7, 23.4, 24.0, 24.6),
    45: (14.0, 17.6, 18.6, 19.1, 20.2, 21.2, 22.0, 22.8, 23.5, 24.2, 24.8, None),
    50: (14.7, 18.3, 19.4, 19.8, 20.9, 21.9, 22.8, 23.5, 24.3, 24.9, 25.5, 26.1),
    60: (16.1, 19.7, 20.8, 21.2, 22.4, 23.3, 24.2, 24.9, 25.7, 26.3, 26.9, 27.5),
    65: (16.8, 20.4, 21.4, 21.9, 23.0, 24.0, 24.8, 25.6, 26.3, 27.0, 27.6, 28.2),
    70: (17.4, 21.0, 22.1, 22.5, 23.6, 24.6, 25.5, 26.2, 27.0, None, 28.2, 28.8),
    80: (18.6, 22.2, 23.3, 23.7, 24.8, None, 26.7, 27.4, 28.2, 28.8, 29.4, 30.0),
}  # fmt: skip
# US Light List and handbook examples, 1.17 to the root of feet: (feet, NM).
HORIZON_FT = ((5, 2.6), (8, 3.31), (16, 4.7), (30, 6.4), (35, 6.9), (70, 9.8), (125, 13.1), (170, 15.25))
# The same pages, the sum of two horizons: (light in feet, eye in feet, NM).
RANGE_FT = ((170, 8, 18.56), (65, 35, 16.3), (30, 5, 9.0), (100, 70, 21.5), (6, 10, 6.6))
# A radar handbook's table, 2.23 (sqrt(h) + sqrt(H)): (antenna in metres, target in metres, NM).
RADAR_HANDBOOK = ((3, 3, 7.8), (3, 10, 10.9), (5, 10, 12.0), (5, 0, 5.0), (5, 5, 10.0))

# A geometric table, straight rays over a round earth, 3.57 km to the root of metres: (metres, km).
STRAIGHT = ((1, 3.6), (2, 5.1), (5, 8.0), (8, 10.1), (10, 11.3), (16, 14.3), (20, 16.0), (25, 17.9))
# NGA Pub. 9, Table 12, from memory: plausibility only. (feet, NM)
FROM_MEMORY_FT = (
    (1, 1.2), (2, 1.7), (4, 2.3), (5, 2.6), (6, 2.9), (8, 3.3), (9, 3.5), (10, 3.7), (12, 4.1), (13, 4.2),
    (14, 4.4), (16, 4.7), (17, 4.8), (18, 5.0), (20, 5.2), (30, 6.4), (40, 7.4), (60, 9.1), (70, 9.8),
    (80, 10.5), (100, 11.7),
)  # fmt: skip
# By hand: √(2 · 3440.1 · 1852 h / 0.8279) / 1852; 2.08 √h; the tangent, earth of 6371 km. (m, NM, NM, NM)
BY_HAND = (
    (1.0, 2.118, 2.08, 1.927), (1.5, 2.594, 2.547, 2.361), (3.0, 3.669, 3.603, 3.338),
    (4.0, 4.237, 4.16, 3.855), (5.0, 4.737, 4.651, 4.31), (8.0, 5.992, 5.883, 5.452),
    (10.0, 6.699, 6.578, 6.095), (12.0, 7.338, 7.205, 6.677), (18.0, 8.987, 8.825, 8.177),
    (20.0, 9.473, 9.302, 8.62), (25.0, 10.592, 10.4, 9.637),
)  # fmt: skip
RAY = Convention("1", nm_per_root_m(1.0), "", "a straight ray")


def test_geographic_range_is_that_of_a_list_of_lights():
    """Every cell of the table, its rows at once; printed to 0.1, by hand and eye."""
    for light, printed in LIST_OF_LIGHTS.items():
        found = range_nm(np.full(len(EYE_M), float(light)), np.array(EYE_M, float), LIGHTS)
        for eye, nm, ours in zip(EYE_M, printed, found, strict=True):
            assert nm is None or ours == pytest.approx(nm, abs=0.08), (light, eye)


def test_horizon_is_that_of_the_american_practical_navigator():
    """NGA Pub. 9: 1.169 NM to the root of feet, printed 1.17, which is 2.12 to the root of metres."""
    assert NAVIGATOR.factor_nm * M_PER_FT**0.5 == pytest.approx(1.169, abs=0.0005)
    assert round(NAVIGATOR.factor_nm, 2) == 2.12
    for feet, nm in HORIZON_FT:
        assert horizon_nm(np.array(feet * M_PER_FT), NAVIGATOR) == pytest.approx(nm, abs=0.06), feet
    for light, eye, nm in RANGE_FT:
        assert range_nm(np.array(light * M_PER_FT), eye * M_PER_FT, NAVIGATOR) == pytest.approx(nm, abs=0.06)


def test_the_other_factors_in_print():
    """Read in the same publications, so that none is mixed with another.

    NGA Pub. 9: 1.346 statute miles to the root of feet. 2.12 belongs to its 1.17; the 2.07 that its 1995
    and 2002 editions print beside it is the older 1.144 to the root of feet, and their 2.11 of 1984 is cut
    off. 1.15 to the root of feet is 2.08 to that of metres, the bending of an earth of 7/6; 2.1 lies between.
    """
    feet = NAVIGATOR.factor_nm * M_PER_FT**0.5
    assert feet * 6076.1 / 5280.0 == pytest.approx(1.346, abs=0.001)
    assert feet == pytest.approx(1.17, abs=0.005)
    assert NAVIGATOR.factor_nm == pytest.approx(2.11, abs=0.01)
    assert 2.07 < LIGHTS.factor_nm < 2.1 < NAVIGATOR.factor_nm
    assert LIGHTS.factor_nm * M_PER_FT**0.5 == pytest.approx(1.15, abs=0.005)
    assert nm_per_root_m(7 / 6) == pytest.approx(LIGHTS.factor_nm, abs=0.003)


@pytest.mark.parametrize(("metres", "navigator", "lights", "straight"), BY_HAND)
def test_horizons_by_hand(metres, navigator, lights, straight):
    """Worked out apart from the program, to 0.002 NM."""
    found = [float(horizon_nm(np.array(metres), by)) for by in (NAVIGATOR, LIGHTS, RAY)]
    assert found == pytest.approx([navigator, lights, straight], abs=0.002)


@pytest.mark.parametrize(("metres", "km"), STRAIGHT)
def test_a_straight_ray_is_that_of_a_geometric_table(metres, km):
    """Read: printed to 0.1 km. It is the least of all, and shown to nobody: air always bends."""
    seen = [float(horizon_nm(np.array(float(metres)), by)) for by in (RAY, LIGHTS, NAVIGATOR, RADIO)]
    assert seen[0] * 1.852 == pytest.approx(km, abs=0.06)
    assert seen == sorted(seen)
    assert seen[-1] < 1.2 * seen[0]


@pytest.mark.parametrize(("feet", "nm"), FROM_MEMORY_FT)
def test_horizons_are_plausible(feet, nm):
    """A navigator's table from memory: plausibility only."""
    assert horizon_nm(np.array(feet * M_PER_FT), NAVIGATOR) == pytest.approx(nm, abs=0.1)


def test_radio_line_of_sight_is_that_of_the_recommendation():
    """ITU-R P.526 and P.2001: 4.12 km to the root of metres, where the earth is taken as 8500 km."""
    assert RADIO.factor_nm * 1.852 == pytest.approx(4.12, abs=0.005)
    assert RADIO.factor_nm * 1.852 == pytest.approx(4.1218, abs=5e-5)  # by hand, R 6371 km
    # The same in other units, as printed by handbooks of the sea: 1.22 and 1.23 to the root of feet, and
    # to that of metres 2.2, 2.21, 2.23 and, for VHF, 2.25.
    assert 1.22 <= RADIO.factor_nm * M_PER_FT**0.5 <= 1.23
    for printed in (2.2, 2.21, 2.23, 2.25):
        assert RADIO.factor_nm == pytest.approx(printed, rel=0.012)


@pytest.mark.parametrize(("gradient", "k"), [(0.0, 1.0), (-39.0, 1.3306), (-40.0, 1.342)])
def test_an_earth_of_four_thirds_is_that_of_standard_air(gradient, k):
    """By hand, k = 1 / (1 + R dN/dh), N units a kilometre.

    ITU-R P.453 reckons N from the day's pressure, warmth and vapour. The program takes standard air: no
    one refits a mast for a day's weather, and its maker's figures are for standard air too.
    """
    # The tangent over the earth that bends away less, km to NM, from 1 m up.
    tangent = math.sqrt(2 * 6371.0 / 1000.0 / (1.0 + 6371.0 * gradient * 1e-6)) / 1.852
    assert nm_per_root_m(k) == pytest.approx(tangent, rel=3e-4)
    if gradient < 0:
        assert RADIO.factor_nm == pytest.approx(tangent, rel=0.004)


def test_radio_line_of_sight_is_the_tangent_over_a_larger_earth():
    """Against no formula at all: the ray's touching point, from the right angle at 4/3 of 6371 km."""
    radius, high, low = 4 / 3 * 6371e3, 15.0, 62.0
    arc = radius * (np.arccos(radius / (radius + high)) + np.arccos(radius / (radius + low))) / 1852.0
    assert range_nm(np.array(high), low, RADIO) == pytest.approx(arc, abs=0.001)


def test_radar_horizon_is_that_of_a_radar_handbook():
    """Its factor is 2.23; its table is printed to 0.1."""
    for antenna, target, nm in RADAR_HANDBOOK:
        assert range_nm(np.array(float(antenna)), target, RADIO) == pytest.approx(nm, abs=0.1)


def test_radio_worked_example_of_a_course_is_near():
    """A course for radio operators works 2.25 (sqrt(30) + sqrt(62)) = 30.04: a rounder factor, 1.1 % more."""
    ours = float(range_nm(np.array(30.0), 62.0, RADIO))
    assert 30.04 / 1.012 < ours < 30.04


@pytest.mark.parametrize(("trim", "heel"), [(0.0, 20.0), (1.5, 0.0), (-2.0, 0.0), (1.5, -20.0)])
def test_height_above_water_is_that_of_a_turned_mast(trim, heel):
    """Against scipy's rotations about the centre of flotation: roll about her own axis, then pitch."""
    rake, above, abaft, z = 3.0, 2450.0, 1800.0, np.array([0.0, 8700.0, 17400.0])
    lean = Rotation.from_euler("y", -rake, degrees=True)
    mast = lean.apply(np.column_stack([0 * z, 0 * z, z]))
    assert mast[2, 0] < 0  # the masthead is abaft the heel
    afloat = mast + [abaft, 0.0, above]
    turned = Rotation.from_euler("YX", [trim, heel], degrees=True).apply(afloat)
    found = above_water_mm(z, rake, above, trim_deg=trim, heel_deg=heel, flotation_abaft_mm=abaft)
    assert found == pytest.approx(turned[:, 2], abs=1e-6)
