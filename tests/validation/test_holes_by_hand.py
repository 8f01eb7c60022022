"""Feet laid on a round and on a flat, their holes found by hand."""

import math

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout, a_mast

from mastlayout.geometry.scene import build
from mastlayout.model.mast import DShape, Ellipse, RoundedBox

RADIUS = 80.0
ROUND = Ellipse(shape="ellipse", length_mm=2 * RADIUS, width_mm=2 * RADIUS)


def drilled(section, seat, across, along=0.0, **fitting):
    """The one hole of a foot ahead on a section."""
    foot = a_foot(
        seat=seat, across_mm=150.0, holes=[{"across_mm": across, "along_mm": along, "fastener": "M6 tapped"}]
    )
    layout = a_layout(mast=a_mast(section=section), fittings=(a_fitting(in_hand=foot, **fitting),))
    return build(layout).placed["box-1"].holes


@pytest.mark.parametrize("across", [-60.0, -20.0, 0.0, 35.0, 70.0])
def test_a_flat_foot_on_a_round_mast(across):
    """Square to the foot a hole at ``across`` meets a circle at R asin(across / R), drilled straight aft."""
    holes = drilled(ROUND, "flat", across)
    half = math.pi * RADIUS
    # Seen from outside, right of the middle is to port on the fore face.
    forward = half - abs(float(holes.girth_mm[0, 0]))
    assert forward == pytest.approx(RADIUS * abs(math.asin(across / RADIUS)), abs=0.01)
    assert holes.point[0, 0, :2] == pytest.approx((math.sqrt(RADIUS**2 - across**2), across), abs=0.01)
    assert holes.direction[0, 0] == pytest.approx((-1, 0, 0), abs=1e-4)


@pytest.mark.parametrize("across", [-60.0, 35.0, 120.0])
def test_a_shaped_foot_on_a_round_mast(across):
    """Square to the skin it lies ``across`` along the girth, its drill towards the middle."""
    holes = drilled(ROUND, "shaped", across)
    angle = across / RADIUS
    assert math.pi * RADIUS - abs(float(holes.girth_mm[0, 0])) == pytest.approx(abs(across), abs=0.01)
    assert holes.point[0, 0, :2] == pytest.approx(
        (RADIUS * math.cos(angle), RADIUS * math.sin(angle)), abs=0.01
    )
    assert holes.direction[0, 0, :2] == pytest.approx((-math.cos(angle), -math.sin(angle)), abs=2e-3)


@pytest.mark.parametrize("seat", ["flat", "shaped"])
def test_on_a_flat_face_both_feet_drill_the_same(seat):
    """A box with a flat side of 120: 50 along the face is 50 off the middle, straight in."""
    box = RoundedBox(shape="rounded box", length_mm=200, width_mm=120, corner_radius_mm=40)
    holes = drilled(box, seat, 30.0, girth="bearing 90")
    # To starboard, right as seen from outside is forward.
    assert holes.point[0, 0, :2] == pytest.approx((30.0, -60.0), abs=0.01)
    assert holes.direction[0, 0] == pytest.approx((0, 1, 0), abs=1e-3)


@pytest.mark.parametrize(
    ("turn", "across", "along"), [(0, 20, 10), (90, 10, -20), (180, -20, -10), (-90, -10, 20)]
)
def test_a_foot_turns_clockwise_as_seen_from_outside(turn, across, along):
    """A hole 20 right and 10 up goes to 10 right and 20 down by a quarter turn clockwise."""
    holes = drilled(ROUND, "shaped", 20.0, 10.0, turn_deg=float(turn))
    port = RADIUS * math.atan2(float(holes.point[0, 0, 1]), float(holes.point[0, 0, 0]))
    assert (port, float(holes.z_mm[0, 0]) - 9000.0) == pytest.approx((across, along), abs=0.01)


def test_a_wall_twice_as_wide_is_missed():
    """A hole 81 off the middle of a flat foot passes a mast of radius 80."""
    assert np.isnan(drilled(ROUND, "flat", 81.0).girth_mm[0, 0])


@pytest.mark.parametrize("seat", ["flat", "radiused", "shaped"])
def test_on_the_aft_face_of_a_d(seat):
    """Right of the middle of the flat aft face is to starboard: 25 across is a girth of 25, drilled ahead."""
    section = DShape(shape="d", length_mm=180, width_mm=120, side_mm=60)
    holes = drilled(section, seat, 25.0, girth="aft")
    assert holes.girth_mm[0, 0] == pytest.approx(25.0, abs=0.01)
    assert holes.point[0, 0, :2] == pytest.approx((-90.0, -25.0), abs=0.01)
    assert holes.direction[0, 0] == pytest.approx((1, 0, 0), abs=1e-3)


@pytest.mark.parametrize("across", [-50.0, 20.0, 70.0])
def test_a_radiused_foot_is_drilled_square_to_itself(across):
    """On the port side of a round mast its hole lies at R asin(across / R), drilled straight to starboard."""
    holes = drilled(ROUND, "radiused", across, girth="bearing 270")
    # To port, right as seen from outside is aft, towards girth 0.
    assert float(holes.girth_mm[0, 0]) == pytest.approx(
        -RADIUS * (math.pi / 2 - math.asin(across / RADIUS)), abs=0.01
    )
    assert holes.direction[0, 0] == pytest.approx((0, -1, 0), abs=1e-4)


def test_a_foot_over_the_forward_centreline_has_holes_on_both_sides():
    """44 round to port, 50 across: one hole 94 round to port, its mirror 6 round to starboard."""
    half = math.pi * RADIUS
    for across, girth in ((50.0, -(half - 94)), (-50.0, half - 6)):
        holes = drilled(ROUND, "shaped", across, girth="44 to port of ahead")
        assert float(holes.girth_mm[0, 0]) == pytest.approx(girth, abs=0.01)


def test_a_flat_foot_beside_the_nose_of_an_ellipse_by_its_own_line():
    """The drill leaves the foot's plane along its normal: where that line cuts the ellipse the hole is."""
    a, b, t = 103.0, 69.5, math.radians(40)
    section = Ellipse(shape="ellipse", length_mm=2 * a, width_mm=2 * b)
    bearing = math.degrees(math.atan2(-b * math.sin(t), a * math.cos(t)))
    holes = drilled(section, "flat", 30.0, girth=f"bearing {bearing % 360:.6f}")
    seat = np.array([a * math.cos(t), b * math.sin(t)])
    out = np.array([math.cos(t) / a, math.sin(t) / b])
    out /= np.linalg.norm(out)
    # Right as seen from outside on the port bow is towards aft: out turned a quarter to port.
    start = seat + 30.0 * np.array([-out[1], out[0]])
    square, half, rest = ((p / (a, b)) @ (q / (a, b)) for p, q in ((out, out), (start, out), (start, start)))
    cut = start + out * (-half + math.sqrt(half**2 - square * (rest - 1))) / square
    assert holes.point[0, 0, :2] == pytest.approx(cut, abs=0.01)
    assert holes.direction[0, 0, :2] == pytest.approx(-out, abs=1e-4)


def test_a_cable_entry_is_drilled_with_the_holes():
    """It takes the next number, its own diameter, and lies where the pattern says."""
    entry = {"across_mm": 12.0, "along_mm": 8.0, "diameter_mm": 16.0}
    foot = a_foot(entry=entry)
    holes = (
        build(a_layout(mast=a_mast(section=ROUND), fittings=(a_fitting(in_hand=foot),))).placed["box-1"].holes
    )
    last = holes.openings[-1]
    assert (last.number, last.use, last.diameter_mm) == (5, "entry", 16.0)
    # Ahead, right as seen from outside is to port; 8000 from the masthead is 9000 up.
    assert holes.z_mm[0, -1] == pytest.approx(9008.0)
    assert holes.point[0, -1, 1] == pytest.approx(RADIUS * math.sin(12.0 / RADIUS), abs=0.01)
