"""Girths against elliptic integrals, tubes against closed forms and against figures worked out elsewhere."""

import math

import numpy as np
import pytest
from builders import a_mast
from scipy.special import ellipe, ellipeinc

from mastlayout.geometry.section import tube
from mastlayout.geometry.skin import skin_of
from mastlayout.model.mast import Ellipse, RoundedBox, Taper

# Twenty sections from a dinghy's to a ship's: half length, half width.
SECTIONS = [(30 + 5 * i, (30 + 5 * i) * (0.45 + 0.5 * (i % 7) / 6)) for i in range(20)]


def ring_of(section):
    """The outline of an untapered section."""
    return skin_of(a_mast(section=section)).full


def ellipse(a, b):
    """An ellipse by its half axes."""
    return ring_of(Ellipse(shape="ellipse", length_mm=2 * a, width_mm=2 * b))


@pytest.mark.parametrize(("a", "b"), SECTIONS)
def test_girth_of_an_ellipse(a, b):
    """4 a E(1 - b2/a2), the complete elliptic integral of scipy, to 0.01 mm."""
    assert 2 * ellipse(a, b).half_girth_mm == pytest.approx(4 * a * ellipe(1 - (b / a) ** 2), abs=0.01)


@pytest.mark.parametrize("degrees", [15, 30, 45, 60, 75, 90])
def test_girth_from_ahead_to_a_point(degrees):
    """Half axes 75 and 45: the incomplete integral gives the tape to (a cos t, b sin t)."""
    a, b, t = 75.0, 45.0, math.radians(degrees)
    ring = ellipse(a, b)
    # Counted from the side, where the integral's own parameter begins.
    along = a * (ellipe(1 - (b / a) ** 2) - ellipeinc(math.pi / 2 - t, 1 - (b / a) ** 2))
    point, normal = ring.at(np.array([ring.half_girth_mm - along]))
    assert point[0] == pytest.approx((a * math.cos(t), -b * math.sin(t)), abs=0.01)
    square = np.array([math.cos(t) / a, -math.sin(t) / b])
    assert normal[0] == pytest.approx(square / np.linalg.norm(square), abs=0.001)


def test_girth_of_a_rounded_box_and_of_a_taper():
    """98 + 8 twice and a circle of 70 are 651.8; a head of 96 x 70 on a mast of 130 x 86 by the integral."""
    box = ring_of(RoundedBox(shape="rounded box", length_mm=238, width_mm=148, corner_radius_mm=70))
    assert 2 * box.half_girth_mm == pytest.approx(2 * (98 + 8) + 2 * math.pi * 70, abs=0.01)
    taper = Taper(from_masthead_mm=1700, length_mm=96, width_mm=70)
    skin = skin_of(a_mast(section=Ellipse(shape="ellipse", length_mm=130, width_mm=86), taper=taper))
    assert 2 * skin.ring(17000).half_girth_mm == pytest.approx(4 * 48 * ellipe(1 - (35 / 48) ** 2), abs=0.01)
    # The aft face stays straight: the front and the sides give way.
    assert skin.ring(17000).polygon().min(axis=0) == pytest.approx((-65, -35), abs=0.01)


def test_a_round_tube():
    """By pi (R2 - r2) and pi/4 (R4 - r4), the modulus by its radius."""
    found = tube(ellipse(50, 50), 4)
    assert found.area_mm2 == pytest.approx(math.pi * (50**2 - 46**2), rel=1e-4)
    assert found.fore_aft_mm4 == pytest.approx(math.pi / 4 * (50**4 - 46**4), rel=1e-4)
    assert found.athwart_mm3 == pytest.approx(math.pi / 4 * (50**4 - 46**4) / 50, rel=1e-4)


@pytest.mark.parametrize(("a", "b", "wall"), [(60, 40, 3), (90, 60, 4), (100, 60, 4), (120, 80, 5)])
def test_area_of_a_constant_wall(a, b, wall):
    """Steiner's formula for a parallel outline: P t - pi t2."""
    perimeter = 4 * a * ellipe(1 - (b / a) ** 2)
    assert tube(ellipse(a, b), wall).area_mm2 == pytest.approx(perimeter * wall - math.pi * wall**2, rel=2e-4)


@pytest.mark.parametrize(
    ("a", "b", "wall", "athwart_mm4", "fore_aft_mm4"),
    [(60, 40, 3, 754405, 1420385), (90, 60, 4, 3434235, 6451839), (120, 80, 5, 10234360, 19206167)],
)
def test_second_moments_of_a_constant_wall(a, b, wall, athwart_mm4, fore_aft_mm4):
    """Computed with scipy and shapely outside this project, to 0.1 %; a smaller ellipse is 2 % off."""
    found = tube(ellipse(a, b), wall)
    assert (found.athwart_mm4, found.fore_aft_mm4) == pytest.approx((athwart_mm4, fore_aft_mm4), rel=1e-3)
    inner_a, inner_b = a - wall, b - wall
    assert found.fore_aft_mm4 == pytest.approx(math.pi / 4 * (b * a**3 - inner_b * inner_a**3), rel=0.02)


def test_a_rectangle_from_first_principles():
    """A box of 200 x 100 with square corners and a wall of 5: w h3 / 12 outside less inside."""
    box = ring_of(RoundedBox(shape="rounded box", length_mm=200, width_mm=100, corner_radius_mm=0))
    found = tube(box, 5)
    assert found.fore_aft_mm4 == pytest.approx((100 * 200**3 - 90 * 190**3) / 12, rel=1e-6)
    assert found.athwart_mm4 == pytest.approx((200 * 100**3 - 190 * 90**3) / 12, rel=1e-6)
    assert found.centroid_x_mm == pytest.approx(0, abs=1e-9)
