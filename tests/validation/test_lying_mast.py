"""A lying mast: left is not port. Four cases, both ends; common practice, no source: right = look x up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mastlayout.geometry.frames import hand_of, reading, round_reading

# face up, side asked, hand at the heel looking to the masthead.
AT_THE_HEEL = [
    ("forward", "starboard", "left"), ("forward", "port", "right"),
    ("aft", "starboard", "right"), ("aft", "port", "left"),
    ("port", "forward", "left"), ("port", "aft", "right"),
    ("starboard", "forward", "right"), ("starboard", "aft", "left"),
]  # fmt: skip


@pytest.mark.parametrize(("face_up", "side", "hand"), AT_THE_HEEL)
def test_the_hand_of_a_side(face_up, side, hand):
    """At the masthead looking to the heel everything is the other way."""
    assert hand_of(side, face_up, "heel") == hand
    assert hand_of(side, face_up, "masthead") == {"left": "right", "right": "left"}[hand]


@pytest.mark.parametrize("face", ["forward", "aft", "port", "starboard"])
def test_up_and_down_are_at_no_hand(face):
    """The face that is up, and the one that is down."""
    assert hand_of(face, face, "heel") is None


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
    assert read.forward + read.track_edge == read.total
    assert (read.side is None) == (
        read.forward == 0 or abs(girth) < (0.25 if units == "metric" else 25.4 / 64)
    )
    if read.side:
        assert read.side == ("starboard" if girth > 0 else "port")
