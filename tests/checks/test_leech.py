"""The leech and its batten ends: topping lift, runners, backstays beside the centreline, shrouds.

Expected figures are sums by hand on straight lines; what a rigger is told of them is common practice.
"""

import math

import known
import numpy as np
import pytest
from builders import a_layout, a_main, a_stay

from mastlayout.checks.report import check
from mastlayout.geometry.scene import build
from mastlayout.model.sails import Halyard, LinePoint

# The mast of the tests reaches 100 abaft its axis; the sail stands on 1,500 and its head on 15,500.
LUFF_MM, BOOM_MM, HEAD_MM = -100.0, 1500.0, 15500.0
# A leech as straight as a string, from 4,000 at the boom to 150 at the head.
STRAIGHT = {
    "quarter_width_mm": 3037.5,
    "half_width_mm": 2075.0,
    "three_quarter_width_mm": 1112.5,
    "seven_eighths_width_mm": 631.25,
}


def said(main_sail, stays=(), halyards=()):
    """What is said of the leech."""
    report = check(build(a_layout(sails=(main_sail,), stays=stays, halyards=halyards)))
    assert not report.broken
    codes = ("main/lift", "main/runner", "main/backstay", "main/hooks", "main/leech")
    return [one for one in report.open if one.code in codes]


def a_lift(room_mm, port_mm=0.0):
    """A topping lift that passes a straight leech everywhere at the same distance."""
    points = (
        LinePoint(at="block", from_masthead_mm=1500.0, ahead_mm=LUFF_MM - 150.0 - room_mm, port_mm=0.0),
        LinePoint(at="end", from_masthead_mm=15500.0, ahead_mm=LUFF_MM - 4000.0 - room_mm, port_mm=port_mm),
    )
    return Halyard(id="lift", name="Topping lift", rope_mm=8.0, inside="outside", points=points)


@pytest.mark.parametrize(("room_mm", "measured"), [(80.0, None), (50.0, None), (49.0, 49.0), (-60.0, -60.0)])
def test_a_topping_lift_wants_50_behind_the_leech(room_mm, measured):
    """Clear, just at the limit, too near, and in the way of the leech: a note, for under way it is slack."""
    found = said(a_main(**STRAIGHT), halyards=(a_lift(room_mm),))
    assert [(one.code, one.standing) for one in found] == (
        [] if measured is None else [("main/lift", "note")]
    )
    assert [one.measured for one in found] == ([] if measured is None else [pytest.approx(measured)])


def test_a_roach_stands_beyond_its_topping_lift():
    """Half way up the leech stands 225 farther aft than a straight one, its lift 50 behind that."""
    (found,) = said(a_main(**STRAIGHT | {"half_width_mm": 2300.0}), halyards=(a_lift(50.0),))
    assert found.measured == pytest.approx(50.0 - 225.0, abs=2.0)


def test_a_line_beside_the_boom_is_no_topping_lift():
    """It is a lazy jack, and asked as one."""
    assert said(a_main(**STRAIGHT), halyards=(a_lift(-60.0, port_mm=400.0),)) == []


def pair(role, ahead_mm, off_mm, **fields):
    """Two wires from the hounds to the deck, one to either side."""
    return tuple(
        a_stay(
            f"{role}-{side[0]}",
            name=f"{role}, {side[0].upper()}",
            role=role,
            side=side,
            wire_mm=6.0,
            upper={"from_masthead_mm": 4000.0, "girth": f"60 to {side} of aft"},
            deck={"ahead_mm": ahead_mm, "off_mm": off_mm, "above_mm": 0.0},
            **fields,
        )
        for side in ("port", "starboard")
    )


def by_hand(scene, name, sail):
    """At which angle, degrees, the leech first meets a straight wire: walked down in steps of 5 mm."""
    upper, lower = scene.stays[name].points
    parts = (0.0, 0.25, 0.5, 0.75, 0.875, 1.0)
    widths = (
        sail.e_mm, sail.quarter_width_mm, sail.half_width_mm, sail.three_quarter_width_mm,
        sail.seven_eighths_width_mm, sail.head_width_mm,
    )  # fmt: skip
    least = math.inf
    for z_mm in np.arange(BOOM_MM, HEAD_MM, 5.0):
        part = (z_mm - lower[2]) / (upper[2] - lower[2])
        if 0 <= part <= 1:
            aft, off = (
                LUFF_MM - (lower[0] + part * (upper[0] - lower[0])),
                abs(lower[1] + part * (upper[1] - lower[1])),
            )
            chord = np.interp((z_mm - BOOM_MM) / (HEAD_MM - BOOM_MM), parts, widths)
            if aft > 0 and math.hypot(aft, off) <= chord:
                least = min(least, math.degrees(math.atan2(off, aft)))
    return least


def test_a_runner_to_leeward_is_let_go_before_the_boom_is_out():
    """A note that says at which angle; one for both sides."""
    sail, runners = a_main(), pair("runner", -5000.0, 1500.0, removable=True)
    (found,) = said(sail, runners)
    scene = build(a_layout(sails=(sail,), stays=runners))
    assert (found.code, found.standing) == ("main/runner", "note")
    assert found.measured == pytest.approx(by_hand(scene, "runner-p", sail), abs=0.1)
    assert found.required == pytest.approx(70.0)


def test_a_leech_that_reaches_no_runner_says_nothing():
    """A sail as narrow as a batten, or a boom that stays inside."""
    narrow = dict.fromkeys(("e_mm", "quarter_width_mm", "half_width_mm", "three_quarter_width_mm",
                            "seven_eighths_width_mm", "head_width_mm"), 60.0)  # fmt: skip
    runners = pair("runner", -5000.0, 1500.0, removable=True)
    assert said(a_main(**narrow), runners) == []
    assert said(a_main(boom_limit_deg=12.0), runners) == []


def test_a_backstay_on_either_quarter_holds_the_boom_in():
    """It is not let go: a caution."""
    (found,) = said(a_main(), pair("backstay", -5000.0, 900.0))
    assert (found.code, found.standing) == ("main/backstay", "caution")


def test_battens_hook_behind_shrouds_that_stand_far_aft():
    """Within 10 degrees of the boom's line; without battens, or with shrouds farther out, not."""
    near, out = pair("lower", -3500.0, 350.0), pair("lower", -1000.0, 1500.0)
    found = said(a_main(battens_short=4), near)
    assert [(one.code, one.standing) for one in found] == [("main/hooks", "note")]
    assert said(a_main(), near) == []
    assert said(a_main(battens_short=4), out) == []


@pytest.mark.parametrize(("yacht", "codes"), [
    ("whimbrel", ["main/runner"]), ("sanderling", []), ("turnstone", ["main/lift"])])  # fmt: skip
def test_what_a_rigger_says_of_the_three_yachts(yacht, codes):
    """Her runners; no shroud is near enough to hook battens; a roach chafes on the lift to its boom's end."""
    report = known.report(yacht)
    asked = ("main/lift", "main/runner", "main/backstay", "main/hooks")
    assert [one.code for one in report.open if one.code in asked] == codes
