"""A lying mast: left is not port. Four cases, both ends; common practice, no source: right = look x up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mastlayout.geometry.frames import hand_of, reading, round_reading

# Face up, side asked, hand at the heel looking to the masthead, hand at the masthead looking to the heel.
HANDS = [
    ("forward", "starboard", "left", "right"), ("forward", "port", "right", "left"),
    ("aft", "starboard", "right", "left"), ("aft", "port", "left", "right"),
    ("port", "forward", "left", "right"), ("port", "aft", "right", "left"),
    ("starboard", "forward", "right", "left"), ("starboard", "aft", "left", "right"),
]  # fmt: skip


@pytest.mark.parametrize(("face_up", "side", "at_heel", "at_masthead"), HANDS)
def test_the_hand_of_a_side(face_up, side, at_heel, at_masthead):
    """Four ways to lie, both ends, all sides that are at a hand."""
    assert hand_of(side, face_up, "heel") == at_heel
    assert hand_of(side, face_up, "masthead") == at_masthead


@pytest.mark.parametrize("end", ["heel", "masthead"])
@pytest.mark.parametrize(
    ("up", "down"), [("forward", "aft"), ("aft", "forward"), ("port", "starboard"), ("starboard", "port")]
)
def test_up_and_down_are_at_no_hand(up, down, end):
    """The face that is up, and the one that is down."""
    assert hand_of(up, up, end) is None
    assert hand_of(down, up, end) is None


@given(st.floats(0, 30000), st.floats(0, 30000), st.sampled_from(["metric", "inches"]))
def test_the_two_tapes_always_sum_to_the_length(a, b, units):
    """In whole millimetres and in sixteenths, whatever the place; each within half a part of the truth."""
    place, length = min(a, b), max(a, b)
    read = reading(place, length, units)
    part = 1.0 if units == "metric" else 25.4 / 16
    assert read.masthead + read.heel == read.total
    assert abs(read.masthead * part - place) <= part / 2 + 1e-6
    assert abs(read.heel * part - (length - place)) <= part + 1e-6


@given(st.floats(-400, 400), st.floats(100, 400), st.floats(0, 20), st.sampled_from(["metric", "inches"]))
def test_the_two_girths_always_sum_to_the_half(girth, half, half_track, units):
    """From the forward centreline and from the track's edge, in halves of a millimetre and in 1/32."""
    girth = max(min(girth, half), -half)
    read = round_reading(girth, half, half_track, units)
    part = 0.5 if units == "metric" else 25.4 / 32
    assert read.forward + read.track_edge == read.total
    assert abs(read.forward * part - (half - abs(girth))) <= part / 2 + 1e-6
    assert abs(read.total * part - (half - half_track)) <= part + 1e-6
    assert (read.side is None) == (
        read.forward == 0 or abs(girth) < (0.25 if units == "metric" else 25.4 / 64)
    )
    if read.side:
        assert read.side == ("starboard" if girth > 0 else "port")
