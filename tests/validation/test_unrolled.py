"""The skin on paper against unrolling of its own: elliptic integrals, fine lines, a cone cut open.

The outlines are drawn here a second time, from what their shapes are, in steps of a thousandth of a
millimetre or less; nothing of the program's outline is used but the girth it calls a place by.
"""

import math

import numpy as np
import pytest
from builders import a_mast
from scipy.special import ellipeinc
from template_cases import TRACED, ring_points

from mastlayout.geometry.skin import skin_of
from mastlayout.geometry.unrolled import Unrolled
from mastlayout.model.mast import DShape, Ellipse, RoundedBox, Taper

PAPER_MM = 0.5  # thick card: five times a sheet, so that a slip would show
FINE = 40_001


def arc(half_long, half_wide, start, stop, at=(0.0, 0.0)):
    """Return a quarter of an ellipse from angle to angle, and its outward normals."""
    angle = np.linspace(start, stop, FINE)
    points = np.stack([half_long * np.cos(angle), half_wide * np.sin(angle)], -1) + at
    normals = np.stack([half_wide * np.cos(angle), half_long * np.sin(angle)], -1)
    return points, normals / np.linalg.norm(normals, axis=1, keepdims=True)


def straight(start, stop, normal):
    """Return a side, and its outward normals."""
    points = np.linspace(start, stop, 4_001)
    return points, np.broadcast_to(np.array(normal, float), points.shape)


def box(length, width, radius):
    """Return port half a rounded box from ahead to aft."""
    x, y = length / 2 - radius, width / 2 - radius
    return [
        straight((length / 2, 0.0), (length / 2, y), (1, 0)),
        arc(radius, radius, 0.0, np.pi / 2, (x, y)),
        straight((x, width / 2), (-x, width / 2), (0, 1)),
        arc(radius, radius, np.pi / 2, np.pi, (-x, y)),
        straight((-length / 2, y), (-length / 2, 0.0), (-1, 0)),
    ]


def d_shape(length, width, side, radius):
    """Return port half a D from ahead to aft: half an ellipse, a straight side, a corner, a flat back."""
    nose, widest, back = length - side, length / 2 - (length - side), -length / 2
    return [
        arc(nose, width / 2, 0.0, np.pi / 2, (widest, 0.0)),
        straight((widest, width / 2), (back + radius, width / 2), (0, 1)),
        arc(radius, radius, np.pi / 2, np.pi, (back + radius, width / 2 - radius)),
        straight((back, width / 2 - radius), (back, 0.0), (-1, 0)),
    ]


def ellipse(length, width):
    """Return port half an ellipse from ahead to aft."""
    return [arc(length / 2, width / 2, 0.0, np.pi)]


def superellipse():
    """Return port half of the curve that ``ring_points`` takes its 400 points from."""
    points = np.array(ring_points(count=80_000))[:40_001]
    step = np.gradient(points, axis=0)
    normals = np.stack([step[:, 1], -step[:, 0]], -1)
    return [(points, normals / np.linalg.norm(normals, axis=1, keepdims=True))]


def an_ellipse(length, width):
    """Return an ellipse as the model has it, and drawn here."""
    return Ellipse(shape="ellipse", length_mm=length, width_mm=width), ellipse(length, width)


def a_box(length, width, radius):
    """Return a rounded box as the model has it, and drawn here."""
    section = RoundedBox(shape="rounded box", length_mm=length, width_mm=width, corner_radius_mm=radius)
    return section, box(length, width, radius)


def a_d(length, width, side, radius):
    """Return a D as the model has it, and drawn here."""
    section = DShape(shape="d", length_mm=length, width_mm=width, side_mm=side, corner_radius_mm=radius)
    return section, d_shape(length, width, side, radius)


OUTLINES = {
    "206 x 139": an_ellipse(206.0, 139.0),
    "130 x 86": an_ellipse(130.0, 86.0),
    "80 x 60": an_ellipse(80.0, 60.0),
    "round": an_ellipse(150.0, 150.0),
    "slim": an_ellipse(300.0, 100.0),
    "box 238 x 148": a_box(238.0, 148.0, 70.0),
    "box 200 x 120": a_box(200.0, 120.0, 20.0),
    "d 180 x 120": a_d(180.0, 120.0, 70.0, 15.0),
    "d 140 x 95": a_d(140.0, 95.0, 30.0, 5.0),
    "traced": (TRACED, superellipse()),
}


def lengths(points):
    """Return the way along a line."""
    return np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])


@pytest.mark.parametrize("middle", ["forward", "aft"])
@pytest.mark.parametrize("name", OUTLINES)
def test_a_place_lies_where_card_bent_about_its_own_middle_has_it(name, middle):
    """The girth of a point, and its way along the parallel curve in the middle of the card; 0.05 mm."""
    section, pieces = OUTLINES[name]
    points, normals = (np.concatenate([piece[k] for piece in pieces]) for k in (0, 1))
    points[:, 0] -= (points[:, 0].max() + points[:, 0].min()) / 2
    skin = skin_of(a_mast(section=section))
    on_skin, in_card = lengths(points), lengths(points + PAPER_MM / 2 * normals)
    for share in (0.03, 0.11, 0.26, 0.42, 0.5, 0.63, 0.77, 0.94):
        i = int(np.searchsorted(on_skin, share * on_skin[-1]))
        # Port half from ahead: a girth that falls from minus half to nothing.
        bearing = -math.degrees(math.atan2(points[i, 1], points[i, 0])) % 360.0
        girth = skin.full.girth_at_bearing(bearing)
        assert girth == pytest.approx(-(on_skin[-1] - on_skin[i]), abs=0.05)
        paper = Unrolled(skin, 5000.0, middle, PAPER_MM)
        ((port, up), (starboard, _up)) = paper.at(np.array([girth, -girth]), np.array([5030.0, 5030.0]))
        away = in_card[i] if middle == "forward" else -(in_card[-1] - in_card[i])
        assert port == pytest.approx(away, abs=0.05)
        assert starboard == pytest.approx(-away, abs=0.05)
        assert up == pytest.approx(30.0, abs=1e-9)


@pytest.mark.parametrize(("length", "width"), [(206.0, 139.0), (130.0, 86.0), (300.0, 100.0)])
def test_a_girth_of_an_ellipse_is_its_elliptic_integral(length, width):
    """The way from ahead to a parameter t: a E(pi/2 | m) - a E(pi/2 - t | m), m = 1 - b^2 / a^2; no paper."""
    skin = skin_of(a_mast(section=Ellipse(shape="ellipse", length_mm=length, width_mm=width)))
    a, b = length / 2, width / 2
    paper = Unrolled(skin, 5000.0, "forward")
    for t in (0.2, 0.7, 1.2, 1.9, 2.8):
        # Counted from the end of the long axis, where the curve is tightest.
        squared = 1 - (b / a) ** 2
        expected = a * (ellipeinc(np.pi / 2, squared) - ellipeinc(np.pi / 2 - t, squared))
        girth = skin.full.girth_at_bearing(-math.degrees(math.atan2(b * math.sin(t), a * math.cos(t))) % 360)
        (place,) = paper.at(np.array([girth]), np.array([5000.0]))
        assert place[0] == pytest.approx(expected, abs=0.05)


def test_half_the_girth_grows_by_half_the_paper_times_half_a_turn():
    """A sheet of 0.10 mm: pi / 2 x 0.10 = 0.157 mm, whatever the outline is."""
    for section, _pieces in OUTLINES.values():
        skin = skin_of(a_mast(section=section))
        half = skin.full.half_girth_mm
        (place,) = Unrolled(skin, 0.0, "forward", 0.10).sheet(np.array([half]), np.array([0.0]))
        assert place[0] - half == pytest.approx(math.pi / 2 * 0.10, abs=1e-6)


def cone_cut_open(radius_low, radius_high, tall, angle, z):
    """Return a place (right, up) of an oblique cone's skin rolled out about its forward line, by triangles.

    A round mast whose aft line stays straight narrows evenly: a cone whose apex lies on the aft line.
    Its skin is a fan of thin triangles about the apex, laid flat one beside the other: exact but for
    the chord of each. Common geometry; no source needed.
    """
    apex = radius_low * tall / (radius_low - radius_high)
    angles = np.linspace(0.0, angle, 40_001)
    foot = np.stack([radius_low * np.cos(angles), radius_low * np.sin(angles), np.zeros_like(angles)], -1)
    top = np.array([-radius_low, 0.0, apex])
    sides = np.linalg.norm(foot - top, axis=1)
    chords = np.linalg.norm(np.diff(foot, axis=0), axis=1)
    cosines = (sides[1:] ** 2 + sides[:-1] ** 2 - chords**2) / (2 * sides[1:] * sides[:-1])
    turned = float(np.arccos(np.clip(cosines, -1, 1)).sum())
    part = 1 - z / apex
    return sides[-1] * part * math.sin(turned), sides[0] - sides[-1] * part * math.cos(turned)


@pytest.mark.parametrize("angle", [0.3, 0.8, 1.3])
@pytest.mark.parametrize("above", [-40.0, 0.0, 40.0])
def test_a_level_line_on_a_taper_bends_as_on_a_cone(angle, above):
    """Round, 150 to 110 over 1500, 1000 up it: as the cone cut open has it, to 0.05 mm."""
    low, high, tall = 75.0, 55.0, 1500.0
    mast = a_mast(
        section=Ellipse(shape="ellipse", length_mm=150.0, width_mm=150.0),
        taper=Taper(from_masthead_mm=tall, length_mm=2 * high, width_mm=2 * high),
    )
    skin = skin_of(mast)
    start = skin.length_mm - tall
    z = 1000.0
    radius = low + (high - low) * (z + above) / tall
    girth = radius * (math.pi - angle)
    paper = Unrolled(skin, start + z, "forward")
    (place,) = paper.at(np.array([-girth]), np.array([start + z + above]))
    right, up = cone_cut_open(low, high, tall, angle, z + above)
    _zero, here = cone_cut_open(low, high, tall, 0.0, z)
    assert place[0] == pytest.approx(right, abs=0.05)
    assert place[1] == pytest.approx(up - here, abs=0.05)
    if angle > 1.0 and above == 0.0:
        # What the test is for: the ring is no straight line, and a sheet that drew one would be wrong.
        assert place[1] > 0.5
