"""Feet laid on a round and on a flat, their holes found by hand."""

import math

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout, a_mast

from mastlayout.geometry.scene import build
from mastlayout.model.mast import Ellipse, RoundedBox

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
