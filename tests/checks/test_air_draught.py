"""Air draught against a bridge: what is stiff, what bends, laden and light; and new gear above the old."""

import math

import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast

from mastlayout.checks.air_draught import RULES
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.model.boat import Boat
from mastlayout.ranges.air_draught import air_draught, top

# A stiff post 20 wide and a whip 5 wide: 100 and 1000 above the masthead, both 30 off the fore face.
POST = {"shape": "box", "centre": (0, 300, 30), "size": (20, 600, 20)}
WHIP = {"shape": "can", "part": "antenna", "start": (0, 600, 30), "end": (0, 1500, 30), "radius": 2.5}
RAKE_DEG, WATER_MM = 2.0, 500.0
# The post's highest corner is its fore one: half the section, 30 off it, half its own width.
TOP_Z, AHEAD = LENGTH_MM + 100.0, 100.0 + 30.0 + 10.0


def yacht(*, new=True, post=POST, **boat):
    """The mast with one fitting that ends above it."""
    known = {"name": "Test", "heel_above_water_mm": WATER_MM, "light_rise_mm": 70.0}
    return a_layout(
        boat=Boat(**(known | boat)),
        mast=a_mast(rake_deg=RAKE_DEG),
        kinds=(a_kind(group="antenna", solids=[post, WHIP]),),
        fittings=(a_fitting(from_masthead_mm=500.0, new=new),),
    )


def by_hand(z_mm, ahead_mm):
    """A point of the mast over the water, mm, by plain trigonometry: rake leans it aft."""
    rake = math.radians(RAKE_DEG)
    return z_mm * math.cos(rake) + ahead_mm * math.sin(rake) + WATER_MM


def said(layout):
    """What the rules say: code, standing, what was measured, and the measure that is missing."""
    scene = build(layout)
    every = [f for rule in RULES for f in rule.findings(scene, limits_of(layout))]
    return [(f.code, f.standing, f.measured and round(f.measured, 3), f.measure) for f in every]


def test_the_four_air_draughts_are_those_by_hand():
    """Stiff is the post's fore corner; the whip's tip is 900 higher; light adds how much she rises."""
    layout = yacht()
    scene, limits = build(layout), limits_of(layout)
    whip = by_hand(LENGTH_MM + 1000.0, 100.0 + 30.0 + 2.5)
    for gear, load, mm in (
        ("stiff", "laden", by_hand(TOP_Z, AHEAD)),
        ("stiff", "light", by_hand(TOP_Z, AHEAD) + 70.0),
        ("whips", "laden", whip),
        ("whips", "light", whip + 70.0),
    ):
        assert air_draught(scene, limits, gear, load).value == pytest.approx(mm / 1000.0, abs=2e-6)
    bare = air_draught(scene, limits, "whips", "laden", old_only=True)
    assert bare.value == pytest.approx(by_hand(LENGTH_MM, 100.0) / 1000.0, abs=2e-6)
    assert top(scene, limits, old_only=True).id == "mast"


@pytest.mark.parametrize(
    ("room", "expected"),
    [
        (1500.0, []),
        (500.0, [("air/whips", "caution")]),  # stiff gear passes at the very limit, the whip does not
        (499.0, [("air/bridge", "caution"), ("air/whips", "caution")]),
        (-1.0, [("air/bridge", "fault")]),  # then the whip says nothing new
    ],
)
def test_the_room_under_a_bridge(room, expected):
    """Asked light, which is her highest."""
    bridge = by_hand(TOP_Z, AHEAD) + 70.0 + room
    found = [f for f in said(yacht(new=False, bridge_above_water_mm=bridge)) if f[0] != "air/higher"]
    assert [f[:2] for f in found] == expected
    if expected and expected[0][0] == "air/bridge":
        assert found[0][2] == pytest.approx(room, abs=0.01)


@pytest.mark.parametrize(
    ("lacks", "measure"), [("heel_above_water_mm", "boat.water"), ("light_rise_mm", "boat.light")]
)
def test_what_nobody_measured_is_not_checked(lacks, measure):
    """Laden alone is not the answer: light she stands higher."""
    found = said(yacht(new=False, bridge_above_water_mm=30000.0, **{lacks: None}))
    assert found == [("air/bridge", "not checked", None, measure)]


def test_who_passes_no_bridge_is_asked_nothing():
    """Most yachts on open water pass under none: no measure is wanted for it."""
    assert said(yacht(new=False, heel_above_water_mm=None, light_rise_mm=None)) == []


def test_new_gear_above_all_that_stays_is_told():
    """Nobody looks up at a bridge he has passed for years."""
    rise = by_hand(LENGTH_MM + 1000.0, 132.5) - by_hand(LENGTH_MM, 100.0)
    assert said(yacht()) == [("air/higher", "note", round(rise, 3), None)]
    assert said(yacht(new=False)) == []


def test_a_thick_antenna_is_stiff():
    """A rod 20 thick does not bend under a bridge."""
    layout = yacht(post=WHIP | {"radius": 10.0})
    assert top(build(layout), limits_of(layout), "stiff").z_mm == pytest.approx(LENGTH_MM + 1000.0)
