"""Girths against elliptic integrals, tubes against closed forms and against figures worked out elsewhere."""

import math

import numpy as np
import pytest
from builders import a_mast
from scipy.special import ellipe, ellipeinc

from mastlayout.errors import NotKnownError
from mastlayout.geometry.section import tube_properties
from mastlayout.geometry.skin import skin_of
from mastlayout.model.mast import DShape, Ellipse, RoundedBox, Taper

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


@pytest.mark.parametrize("degrees", [15, 30, 45, 60, 75, 90, 120, 165])
@pytest.mark.parametrize(("a", "b"), [(75.0, 45.0), (103.0, 69.5), (65.0, 43.0)])
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_girth_from_aft_to_a_point(a, b, degrees, side):
    """The incomplete integral of scipy gives the tape from aft to (-a cos t, b sin t), either side."""
    t, ring = math.radians(degrees), ellipse(a, b)
    # The integral begins at the side, where t is a quarter turn.
    along = a * (ellipe(1 - (b / a) ** 2) - ellipeinc(math.pi / 2 - t, 1 - (b / a) ** 2))
    point, normal = ring.at(np.array([side * along]))
    assert point[0] == pytest.approx((-a * math.cos(t), -side * b * math.sin(t)), abs=0.01)
    square = np.array([-math.cos(t) / a, -side * math.sin(t) / b])
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
    found = tube_properties(ellipse(50, 50), 4)
    assert found.area_mm2 == pytest.approx(math.pi * (50**2 - 46**2), rel=1e-4)
    assert found.fore_aft_mm4 == pytest.approx(math.pi / 4 * (50**4 - 46**4), rel=1e-4)
    assert found.athwart_mm3 == pytest.approx(math.pi / 4 * (50**4 - 46**4) / 50, rel=1e-4)


@pytest.mark.parametrize(("a", "b", "wall"), [(60, 40, 3), (90, 60, 4), (100, 60, 4), (120, 80, 5)])
def test_area_of_a_constant_wall(a, b, wall):
    """Steiner's formula for a parallel outline: P t - pi t2."""
    perimeter = 4 * a * ellipe(1 - (b / a) ** 2)
    assert tube_properties(ellipse(a, b), wall).area_mm2 == pytest.approx(
        perimeter * wall - math.pi * wall**2, rel=2e-4
    )


# Half axes, wall, girth, then area, second moments and moduli of a constant wall: computed with scipy and
# shapely outside this project, none of it published. Moduli in the table are rounded to 0.1 mm3.
CONSTANT_WALLS = [
    (50, 50, 4, 314.15927, 1206.4, 1392153, 1392153, 27843.1, 27843.1),
    (60, 40, 3, 317.30879, 923.7, 754405, 1420385, 18860.1, 23673.1),
    (90, 60, 4, 475.96319, 1853.6, 3434235, 6451839, 57237.3, 71687.1),
    (100, 60, 4, 510.53998, 1991.9, 3769405, 8366437, 62823.4, 83664.4),
    (120, 80, 5, None, 3094.5, 10234360, 19206167, 127929.5, 160051.4),
]


@pytest.mark.parametrize("row", CONSTANT_WALLS, ids=lambda row: f"{row[0]}x{row[1]}x{row[2]}")
def test_what_a_constant_wall_resists(row):
    """Area, second moments and moduli to 0.1 % of the computed table; the girth to 0.01 mm."""
    a, b, wall, girth, area, athwart_mm4, fore_aft_mm4, athwart_mm3, fore_aft_mm3 = row
    found = tube_properties(ellipse(a, b), wall)
    assert found.area_mm2 == pytest.approx(area, rel=1e-3)
    assert (found.athwart_mm4, found.fore_aft_mm4) == pytest.approx((athwart_mm4, fore_aft_mm4), rel=1e-3)
    assert (found.athwart_mm3, found.fore_aft_mm3) == pytest.approx((athwart_mm3, fore_aft_mm3), rel=1e-3)
    assert girth is None or found.girth_mm == pytest.approx(girth, abs=0.01)


def test_a_smaller_ellipse_is_not_the_inside():
    """On 100 x 60 x 4 the formula of two ellipses is 1.86 % short of the constant wall (computed table)."""
    smaller = math.pi / 4 * (60 * 100**3 - 56 * 96**3)
    assert smaller / tube_properties(ellipse(100, 60), 4).fore_aft_mm4 == pytest.approx(0.98145, abs=5e-4)


def test_a_rectangle_from_first_principles():
    """A box of 200 x 100 with square corners and a wall of 5: w h3 / 12 outside less inside.

    To 1e-4: the outline's square corners are cut by 0.001 mm, which moves the inside by as much.
    """
    box = ring_of(RoundedBox(shape="rounded box", length_mm=200, width_mm=100, corner_radius_mm=0))
    found = tube_properties(box, 5)
    assert found.fore_aft_mm4 == pytest.approx((100 * 200**3 - 90 * 190**3) / 12, rel=1e-4)
    assert found.athwart_mm4 == pytest.approx((200 * 100**3 - 190 * 90**3) / 12, rel=1e-4)
    assert found.centroid_x_mm == pytest.approx(0, abs=1e-9)


def rounded_box_mm4(length, width, radius):
    """A rectangle's l w3 / 12 less, at each corner, a square and plus a quarter disc (plane geometry)."""
    square = radius**4 / 12 + radius**2 * (width / 2 - radius / 2) ** 2
    area, off = math.pi * radius**2 / 4, 4 * radius / (3 * math.pi)
    quarter = math.pi * radius**4 / 16 - area * off**2 + area * (width / 2 - radius + off) ** 2
    return length * width**3 / 12 - 4 * (square - quarter)


@pytest.mark.parametrize(("length", "width", "radius", "wall"), [(238, 148, 70, 4.2), (200, 120, 40, 5)])
def test_a_rounded_box_from_first_principles(length, width, radius, wall):
    """Rectangle minus corners outside, the same moved in by the wall inside, the corners' radius too."""
    section = RoundedBox(shape="rounded box", length_mm=length, width_mm=width, corner_radius_mm=radius)
    found = tube_properties(ring_of(section), wall)
    inside = (length - 2 * wall, width - 2 * wall, radius - wall)
    athwart = rounded_box_mm4(length, width, radius) - rounded_box_mm4(*inside)
    fore_aft = rounded_box_mm4(width, length, radius) - rounded_box_mm4(inside[1], inside[0], inside[2])
    assert (found.athwart_mm4, found.fore_aft_mm4) == pytest.approx((athwart, fore_aft), rel=2e-4)
    assert found.fore_aft_mm3 == pytest.approx(fore_aft / (length / 2), rel=2e-4)


def half_disc_box(side, radius):
    """Area and first moment about the disc's middle of a box ``side`` long abaft half a disc ahead."""
    box, disc = 2 * radius * side, math.pi * radius**2 / 2
    return np.array([box + disc, -box * side / 2 + disc * 4 * radius / (3 * math.pi)])


def test_a_d_from_first_principles():
    """Sides of 80 abaft a half round of 60: the centroid lies abaft the middle, the modulus at the nose."""
    found = tube_properties(ring_of(DShape(shape="d", length_mm=140, width_mm=120, side_mm=80)), 4)
    outer, inner = half_disc_box(80, 60), half_disc_box(76, 56)
    area, first = outer - inner
    # From the disc's middle to the middle of the length is 80 - 70 forward.
    assert found.area_mm2 == pytest.approx(area, rel=1e-4)
    assert found.centroid_x_mm == pytest.approx(first / area + 10, abs=0.01)
    second = math.pi / 8 * (60**4 - 56**4) + (120 * 80**3 - 112 * 76**3) / 3 - first**2 / area
    assert found.fore_aft_mm4 == pytest.approx(second, rel=2e-4)
    assert found.fore_aft_mm3 == pytest.approx(second / max(60 - first / area, 80 + first / area), rel=2e-4)


@pytest.mark.parametrize("wall", [60.0, 0.0, -3.0])
def test_a_wall_that_no_tube_has(wall):
    """A wall that fills the section, none, or less than none: refused with the wall named."""
    with pytest.raises(NotKnownError, match=f"wall of {wall:g} mm"):
        tube_properties(ellipse(90, 60), wall)
