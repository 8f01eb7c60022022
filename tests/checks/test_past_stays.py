"""Taut lines past stays: what saws on what, in which state, and which are not asked.

The wire leads from (130, 0, 16800) to (4600, 0, 0); a rope of 10 crosses it athwart at a height of
10,000, from 500 to starboard and 2,000 above to 500 to port and 2,000 below.
"""

import numpy as np
import pytest
from builders import a_fitting, a_layout, a_stay

from mastlayout.checks.report import check
from mastlayout.geometry.scene import build
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import Halyard, LinePoint, Sail

TOUCH_MM = (10.0 + 10.0) / 2
WIRE = a_stay(role="lower")
WIRE_WAY, ROPE_WAY = np.array([4470.0, 0.0, -16800.0]), np.array([0.0, 1000.0, -4000.0])
# How far the two straight lines are apart for each millimetre that the rope stands ahead or abaft.
SQUARE = np.cross(WIRE_WAY, ROPE_WAY)
PER_MM = abs(SQUARE[0]) / np.linalg.norm(SQUARE)
AT_WIRE_MM = 130.0 + 4470.0 * 6800.0 / 16800.0


def rope(apart_mm, y_mm=500.0, **fields):
    """A line that passes the wire's middle so far off."""
    ahead = AT_WIRE_MM - apart_mm / PER_MM
    points = tuple(
        LinePoint(at=at, from_masthead_mm=down, ahead_mm=ahead, port_mm=y)
        for at, y, down in (("block", -y_mm, 5000.0), ("cleat", y_mm, 9000.0))
    )
    return Halyard(
        **({"id": "line", "name": "Line", "rope_mm": 10.0, "inside": "outside", "points": points} | fields)
    )


def said(*lines, stays=(WIRE,), **parts):
    """What is said of lines and stays: standing, and how far they are apart."""
    report = check(build(a_layout(halyards=lines, stays=stays, **parts)))
    assert not report.broken
    return [(f.standing, f.measured) for f in report.open if f.code == "line/stay"]


@pytest.mark.parametrize(
    ("gap_mm", "standing"), [(-3.0, "caution"), (0.0, "note"), (9.9, "note"), (10.0, None), (60.0, None)]
)
def test_each_grade_by_hand(gap_mm, standing):
    """The distance of two straight lines, w (u x v) / |u x v|, less both radii; ten is the limit."""
    found = said(rope(TOUCH_MM + gap_mm))
    assert [one for one, _apart in found] == ([standing] if standing else [])
    if standing:
        assert found[0][1] == pytest.approx(gap_mm, abs=0.01)


def test_the_worst_stay_and_state_are_named_once():
    """A wire beside it that it touches too is a matter of its own; a state is named."""
    beside = a_stay("lower-2", role="lower", deck={"ahead_mm": 4610.0, "above_mm": 0.0})
    report = check(build(a_layout(halyards=(rope(TOUCH_MM - 3.0),), stays=(WIRE, beside))))
    found = {f.subjects: f.state for f in report.open if f.code == "line/stay"}
    assert found == {
        ("line", "forestay"): "down to where it is made fast",
        ("line", "lower-2"): "down to where it is made fast",
    }


def test_what_is_tied_off_by_hand_is_no_more_than_a_note():
    """It can be tied off elsewhere; near by it is not said at all."""
    hung = LinePoint(at="block", from_masthead_mm=5000.0, ahead_mm=AT_WIRE_MM, port_mm=-500.0)
    for off, expected in ((0.0, ["note"]), (TOUCH_MM + 5.0, [])):
        tied = Halyard(
            id="line", name="Line", rope_mm=10.0, inside="outside",
            points=(hung.but(ahead_mm=AT_WIRE_MM - off / PER_MM),),
            tied_at=DeckEnd(ahead_mm=AT_WIRE_MM - off / PER_MM, off_mm=500.0, above_mm=8000.0),
        )  # fmt: skip
        assert [one for one, _apart in said(tied)] == expected


def test_a_halyard_along_its_own_stay_is_not_asked():
    """The sail's swivel runs on it; on another's stay it saws."""
    sail = Sail(
        id="jib", name="Jib", role="headsail", stay="forestay", halyard="line", lp_mm=3000.0, luff_mm=12000.0,
        tack_mm=16000.0, clew_mm=15500.0, head_mm=4000.0,
    )  # fmt: skip
    assert not said(rope(0.0), sails=(sail,))
    assert said(rope(0.0), sails=(sail.but(halyard=None),))


def test_where_it_is_made_fast_it_is_led_to_the_stay():
    """Within 150 of its end a line is at the wire because it is tied there; farther off it is not."""
    assert not said(rope(0.0, y_mm=30.0, points=ends_at(140.0)))
    assert said(rope(0.0, y_mm=30.0, points=ends_at(160.0)))


def ends_at(below_mm):
    """Points of a line that goes on past the wire by so much and no more."""
    way = ROPE_WAY / np.linalg.norm(ROPE_WAY)
    middle = np.array([AT_WIRE_MM, 0.0, 10000.0])
    return tuple(
        LinePoint(at=at, from_masthead_mm=17000.0 - z, ahead_mm=x, port_mm=y)
        for at, (x, y, z) in (("block", middle - 3000.0 * way), ("cleat", middle + below_mm * way))
    )


def test_on_the_centreline_they_pass_to_one_side():
    """A pole's lift led ahead through the forestay on paper stands to port or starboard of it."""
    points = tuple(
        LinePoint(at=at, from_masthead_mm=down, ahead_mm=ahead, port_mm=0.0)
        for at, ahead, down in (("block", 120.0, 7000.0), ("cleat", 4600.0, 12000.0))
    )
    assert not said(rope(0.0, points=points))


def test_a_stay_whose_place_nobody_knows_is_asked_for():
    """Without its lower end there is no wire to pass; its length is what is not checked."""
    lost = a_stay(role="lower", deck=None, length_mm=None)
    report = check(build(a_layout(halyards=(rope(0.0),), stays=(lost,), fittings=(a_fitting(),))))
    assert not [f for f in report.open if f.code == "line/stay"]
    assert [f for f in report.open if f.standing == "not checked" and "forestay" in f.subjects]
