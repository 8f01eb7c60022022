"""Horizons and ranges against what is printed elsewhere; each figure with its publication beside it."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from mastlayout.geometry.frames import above_water_mm
from mastlayout.ranges.horizon import LIGHTS, NAVIGATOR, RADIO, horizon_nm, range_nm

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
FROM_MEMORY_FT = ((1, 1.2), (4, 2.3), (10, 3.7), (20, 5.2), (40, 7.4), (80, 10.5), (100, 11.7))


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


def test_horizons_are_plausible():
    """Bent rays see farther than straight ones, radio farthest; a table from memory is near."""
    for metres, km in STRAIGHT:
        seen = [float(horizon_nm(np.array(float(metres)), by)) for by in (LIGHTS, NAVIGATOR, RADIO)]
        assert km / 1.852 < seen[0] < seen[1] < seen[2] < 1.2 * km / 1.852
    for feet, nm in FROM_MEMORY_FT:
        assert horizon_nm(np.array(feet * M_PER_FT), NAVIGATOR) == pytest.approx(nm, abs=0.1)


def test_radio_line_of_sight_is_that_of_the_recommendation():
    """ITU-R P.526 and P.2001: 4.12 km to the root of metres, where the earth is taken as 8500 km."""
    assert RADIO.factor_nm * 1.852 == pytest.approx(4.12, abs=0.005)
    # The same in other units, as printed by handbooks of the sea: 1.22 and 1.23 to the root of feet.
    assert 1.22 <= RADIO.factor_nm * M_PER_FT**0.5 <= 1.23


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
