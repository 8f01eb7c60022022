"""What stands before a mouth against the outside: a thin screen by exact diffraction, sectors by polygons.

The curve of Maekawa 1968 is held against that of Kurze and Anderson 1971 (from memory) and against the
exact field behind the edge of a half plane (scipy's Fresnel integrals); what is seen of a swept
sector against polygons cut by shapely.
"""

import math

import numpy as np
import pytest
import shapely
from scipy.special import fresnel

from mastlayout.geometry.sector import seen_round
from mastlayout.ranges.screen import SHORTEST_WAVE_MM, screen_db, wave_mm

# 10 log10(3 + 20 N), by hand: N, dB.
BY_HAND = ((0.0, 4.77), (0.1, 6.99), (0.5, 11.14), (1.0, 13.62), (5.0, 20.13))


@pytest.mark.parametrize(("n", "expected"), BY_HAND)
def test_curve_of_a_thin_screen(n, expected):
    """Maekawa's curve; N is twice the detour in waves."""
    wave = wave_mm(500.0)
    assert wave == 680.0
    taken = float(screen_db(n * wave / 2, wave))
    assert taken == pytest.approx(expected, abs=0.01)
    root = math.sqrt(2 * math.pi * n)
    kurze = 5.0 + (20 * math.log10(root / math.tanh(root)) if n else 0.0)
    assert taken == pytest.approx(kurze, abs=1.0)


def test_curve_stays_beside_the_exact_half_plane():
    """The field behind an edge by Fresnel's integrals; the curve was measured, up to 3 dB less is taken."""
    for n in (0.0, 0.05, 0.2, 1.0, 3.0):
        s, c = fresnel(math.sqrt(2 * n) if n else 0.0)
        field = math.hypot(0.5 - c, 0.5 - s) / math.sqrt(2)
        exact = -20 * math.log10(field)
        taken = float(screen_db(n / 2, 1.0))
        assert exact - 3.0 <= taken <= exact + 0.5


def test_shortest_wave():
    """2100 Hz is the highest tone COLREG Annex III 1(a) lets a whistle be heard by: 340 / 2100 m."""
    assert pytest.approx(161.9, abs=0.05) == SHORTEST_WAVE_MM


def a_sector(apex, radius, half_angle):
    """A sector about straight aft, as a polygon with arcs of a twentieth of a degree."""
    angle = np.linspace(-half_angle, half_angle, int(np.degrees(2 * half_angle) * 20))
    arc = apex + radius * np.stack([-np.cos(angle), np.sin(angle)], axis=1)
    return shapely.Polygon([apex, *arc])


def seen_of(point, apex, shape):
    """How far round from the apex's bearing a shape is seen, anticlockwise and clockwise, by its corners."""
    if shape.is_empty:
        return None
    corners = shapely.get_coordinates(shape) - point
    corners = corners[np.hypot(corners[:, 0], corners[:, 1]) > 1e-3]
    bearing = np.arctan2(-corners[:, 1], corners[:, 0])
    off = apex - point
    own = np.arctan2(-off[1], off[0])
    turned = np.degrees((bearing - own + np.pi) % (2 * np.pi) - np.pi)
    # What lies right behind the point is as far round to either side.
    behind = shapely.LineString([point, point - off / np.hypot(*off) * 1e5])
    if shape.intersection(behind).length > 1.0:
        return 180.0, 180.0
    return max(-turned.min(), 0.0), max(turned.max(), 0.0)


def test_sectors_are_seen_as_polygons_are():
    """A hundred sectors and points at random: ahead of them, beside, within; near parts left out."""
    random = np.random.default_rng(7)
    for _case in range(100):
        apex = random.uniform((1000.0, -300.0), (5000.0, 300.0))
        point = random.uniform((-500.0, -1500.0), (1500.0, 1500.0))
        radius, half = random.uniform(500.0, 7000.0), random.choice([np.pi / 2, random.uniform(0.3, 2.4)])
        beyond = random.choice([0.0, random.uniform(0.0, 6000.0)])
        shape = a_sector(apex, radius, half)
        if beyond:
            shape = shape.difference(shapely.Point(*point).buffer(beyond, quad_segs=200))
        _bearing, port, starboard = seen_round(
            point, apex[None], *(np.array([v]) for v in (radius, half, beyond))
        )
        expected = seen_of(point, apex, shape)
        if expected is None or shape.area < 2e3:
            continue
        assert (port[0], starboard[0]) == pytest.approx(expected, abs=0.3)


def test_nothing_of_a_sector_is_near_the_far():
    """All of it is nearer than what is asked for: nothing is seen; nor of a sail of no width."""
    apex, half = np.array([[3000.0, 0.0]]), np.array([np.pi / 2])
    for radius, beyond in ((1000.0, 4001.0), (0.0, 0.0)):
        _bearing, port, _starboard = seen_round(
            np.zeros(2), apex, np.array([radius]), half, np.array([beyond])
        )
        assert np.isnan(port[0])


def test_tangent_of_a_door_by_hand():
    """A chord of 1000 about a luff 2000 ahead is seen to asin(1 / 2) = 30 degrees on either side."""
    one = (np.array([v]) for v in (1000.0, np.pi / 2, 0.0))
    bearing, port, starboard = seen_round(np.zeros(2), np.array([[2000.0, 0.0]]), *one)
    assert (bearing[0], port[0], starboard[0]) == pytest.approx((0.0, 30.0, 30.0))
