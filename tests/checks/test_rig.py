"""The rig closes: lengths, bisectors, pairs, I, J and P, each by hand."""

import math

import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_layout, a_mast, a_spreader, a_stay

from mastlayout.model.boat import Boat
from mastlayout.model.sails import Sail

# From (130, 0, 16800) to (4600, 0, 0).
FORESTAY_MM = math.hypot(4600 - 130, 16800)


@pytest.mark.parametrize(("off_mm", "clear"), [(9.9, True), (10.1, False)])
def test_a_measured_length_is_held_against_the_pins(off_mm, clear):
    """The pins are one hypotenuse apart; ten is allowed."""
    layout = a_layout(stays=(a_stay(length_mm=FORESTAY_MM + off_mm),))
    assert (not found(layout, "rig/length")) is clear


def test_a_stay_never_measured_is_not_checked():
    """A stay without a length asks for it."""
    assert [f.measure for f in found(a_layout(stays=(a_stay(),)), "rig/length")] == ["stay.length"]


def a_shroud(spreader="spreader-p"):
    """A shroud over the port spreader's tip, 2000 above its root and 8000 below."""
    return a_stay(
        "cap-p", role="cap", side="port", via=(spreader,),
        upper={"from_masthead_mm": 7000.0, "girth": "bearing 270", "stand_off_mm": 0.0},
        deck={"ahead_mm": 0.0, "off_mm": 1065.0, "above_mm": 0.0},
    )  # fmt: skip


@pytest.mark.parametrize(("off_deg", "clear"), [(0.0, True), (0.9, True), (-0.9, True), (-1.1, False)])
def test_a_spreader_halves_the_angle_of_its_wire(off_deg, clear):
    """Below the tip the wire is plumb, above it leans atan(1000/2000): half of that is the rise asked."""
    # The tip moves with the rise, so the lean is worked out for the rise that is set.
    rise = 13.0
    for _step in range(50):
        tip_out, tip_up = 1000 * math.cos(math.radians(rise)), 1000 * math.sin(math.radians(rise))
        above = math.degrees(math.atan2(tip_out, 2000 - tip_up))
        below = math.degrees(math.atan2(1000 - tip_out, 8000 + tip_up))
        rise = (above + below) / 2
    layout = a_layout(spreaders=(a_spreader(rise_deg=rise + off_deg),), stays=(a_shroud(),))
    assert (not found(layout, "rig/bisector")) is clear


def test_port_and_starboard_spreaders_are_alike():
    """Lengths may differ by 5, rise by half a degree."""
    starboard = a_spreader("spreader-s", side="starboard", length_mm=1006.0, rise_deg=-1.5)
    layout = a_layout(spreaders=(a_spreader(), starboard))
    assert [f.measured for f in found(layout, "rig/pair-length")] == [pytest.approx(6.0)]
    assert [f.measured for f in found(layout, "rig/pair-rise")] == [pytest.approx(1.5)]
    assert not found(layout, "rig/pair-sweep")


@pytest.mark.parametrize(("j_mm", "clear"), [(4500.0, True), (4524.0, True), (4526.0, False)])
def test_j_runs_from_the_fore_face_to_the_pin(j_mm, clear):
    """Upright, the fore face is 100 ahead of the axis: 4600 less 100."""
    layout = a_layout(boat=Boat(name="Test", foretriangle_base_mm=j_mm), stays=(a_stay(),))
    assert (not found(layout, "rig/j")) is clear


def test_i_runs_from_the_sheer_to_the_halyard_bearing():
    """Bearing 16800 above the heel, sheer 1500: I is 15300 upright; 60 more is a finding."""
    boat = Boat(
        name="Test", foretriangle_height_mm=15360.0, foretriangle_top_mm=200.0, sheer_above_heel_mm=1500.0
    )
    assert [f.measured for f in found(a_layout(boat=boat), "rig/i")] == [pytest.approx(60.0)]
    unknown = Boat(name="Test", foretriangle_height_mm=15300.0, foretriangle_top_mm=200.0)
    assert [f.measure for f in found(a_layout(boat=unknown), "rig/i")] == ["boat.sheer"]


def test_p_is_what_lies_between_its_marks():
    """Marks 400 and 14000 from the masthead are 13600 apart."""
    main = Sail(id="main", name="Main", role="main", p_mm=13500.0, upper_mark_mm=400.0, lower_mark_mm=14000.0)
    assert [f.measured for f in found(a_layout(sails=(main,)), "rig/p")] == [pytest.approx(100.0)]


def test_rake_of_the_layout_turns_j():
    """With rake the fore face at the pin's height lies abaft where it was: J grows by height x tan(rake)."""
    mast = a_mast(rake_deg=2.0)
    stay = a_stay(deck={"ahead_mm": 4600.0, "above_mm": 1000.0})
    grown = 4600 - (100 / math.cos(math.radians(2.0)) - 1000 * math.tan(math.radians(2.0)))
    layout = a_layout(mast=mast, boat=Boat(name="Test", foretriangle_base_mm=grown + 24), stays=(stay,))
    assert not found(layout, "rig/j")
    layout = a_layout(mast=mast, boat=Boat(name="Test", foretriangle_base_mm=grown + 26), stays=(stay,))
    assert found(layout, "rig/j")


@pytest.mark.parametrize("hung", [False, True])
def test_a_stay_of_no_length_is_named_and_nothing_breaks(hung):
    """Both pins typed alike, with a terminal, and with a fitting that hangs on it."""
    pin = {"from_masthead_mm": 4000.0, "girth": "bearing 270"}
    end = {"kind": "terminal", "end": "upper", "length_mm": 100.0, "diameter_mm": 20.0}
    stay = a_stay("diamond", role="diamond", side="port", deck=None, upper=pin, lower=pin, terminals=[end])
    light = a_fitting("light", on="diamond", from_masthead_mm=None, girth=None, along_mm=10.0)
    layout = a_layout(stays=(stay,), fittings=(light,) if hung else (a_fitting(),))
    with np.errstate(all="raise"):
        (one,) = found(layout, "rig/no-length")
    assert (one.subjects, one.standing) == (("diamond",), "caution")


@pytest.mark.parametrize(("apart", "said"), [(9.0, 1), (11.0, 0)])
def test_two_pins_close_together_are_one_point(apart, said):
    """Under 10 mm somebody typed one of them twice."""
    stay = a_stay(
        "diamond", role="diamond", side="port", deck=None,
        upper={"from_masthead_mm": 4000.0, "girth": "bearing 270"},
        lower={"from_masthead_mm": 4000.0 + apart, "girth": "bearing 270"},
    )  # fmt: skip
    assert len(found(a_layout(stays=(stay,)), "rig/no-length")) == said
