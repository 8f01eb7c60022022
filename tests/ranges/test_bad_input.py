"""What cannot be, and what nobody knows, of heights, beams, lengths: a sentence with the range."""

import json

import pytest
from builders import a_layout

from mastlayout.__main__ import main
from mastlayout.documents.printed import ranges_json
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.edits import BOAT, change
from mastlayout.model.measure import instructions
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

WHIMBREL = demo_masts() / "whimbrel.toml"
# What is a height above the water, or a reach or a moment of one, by section and key.
OF_WATER = {
    "heights": {"above_water_m", "geographic_range_nm", "geographic_range_2_12_nm", "radar_horizon_nm",
                "radio_horizon_nm", "radio_line_of_sight_nm", "visible_horizon_nm",
                "visible_horizon_2_12_nm"},
    "lights": {"above_water_m"},
    "antennas": {"middle_above_water_m", "radio_horizon_nm", "radio_line_of_sight_nm"},
    "reflectors": {"above_water_m", "first_seen_nm", "first_seen_s_nm", "radar_horizon_nm", "found"},
    "radars": {"above_water_m", "nearest_sea_m", "nearest_sea_leeward_m", "nearest_sea_windward_m"},
    "air_draught": {"stiff_laden_m", "stiff_light_m", "whips_laden_m", "whips_light_m", "before"},
    "weight": {"moment_kgm", "heel_moment_nm", "roll_inertia_kgm2", "centre_of_gravity_mm",
               "wind_moment_20kn_nm", "wind_moment_40kn_nm"},
}  # fmt: skip


def figures(value, path=()):
    """Every figure of a JSON by its path."""
    if isinstance(value, dict):
        if "formula" in value and "value" in value:
            yield path, value
        for key, inner in value.items():
            yield from figures(inner, (*path, key))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from figures(inner, (*path, place))


def test_waterline_unknown_leaves_only_heights_above_the_water():
    """All other figures of Whimbrel are what they were; these say what to measure."""
    layout = open_document(WHIMBREL).layout
    dry = change(layout, BOAT, heel_above_water_mm=None)
    before, after = (dict(figures(json.loads(ranges_json(build(one), "w")))) for one in (layout, dry))
    assert before.keys() == after.keys()
    lost = {path for path in before if before[path] != after[path]}
    of_water = {(part, key) for part, keys in OF_WATER.items() for key in keys}
    assert {(path[0], path[-1]) for path in lost} == of_water
    assert {after[path]["missing"] for path in lost} == {"boat.water"}
    assert all(after[path]["value"] is None for path in lost)
    assert "from the water up to the step" in instructions()["boat.water"].how


# Line by line as somebody may type it, and what is allowed.
WRONG = (
    ("beam_tall = 25 ", "beam_tall = 0 ", "beam_tall is 0: 1 to 90 is allowed"),
    ("beam_tall = 25 ", "beam_tall = 200 ", "beam_tall is 200: 1 to 90 is allowed"),
    ("beam_wide = 5.2", "beam_wide = 0", "beam_wide is 0: 0.1 to 90 is allowed"),
    ("beam_wide = 5.2", "beam_wide = 200", "beam_wide is 200: 0.1 to 90 is allowed"),
    ("length_overall = 12100", "length_overall = 0", "length_overall is 0: 2000 to 150000 is allowed"),
    ("length_overall = 12100", "length_overall = -12100", "-12100: 2000 to 150000 is allowed"),
    ("length_overall = 12100", 'length_overall = "1 km"', "1000000: 2000 to 150000 is allowed"),
    ("length_overall = 12100", 'length_overall = "151 m"', "“151 m”: 2000 to 150000 is allowed"),
    ("length_overall = 12100", 'length_overall = "12"', "“12”: 2000 to 150000 is allowed"),
    ("tone_hz = 470", "tone_hz = 0", "tone_hz is 0: 50 to 5000 is allowed"),
    ("level_db = 116", "level_db = 200", "level_db is 200: 60 to 170 is allowed"),
    ("sailing_heel = 20", "sailing_heel = -1", "sailing_heel is -1: 0 to 60 is allowed"),
)


@pytest.mark.parametrize(("line", "typed", "said"), WRONG)
def test_what_cannot_be_has_its_range(line, typed, said, tmp_path, capsys):
    """Where it stands, what was typed, from what to what is allowed; nothing else is printed."""
    text = WHIMBREL.read_text(encoding="utf-8")
    assert line in text
    path = tmp_path / "bad.toml"
    path.write_text(text.replace(line, typed, 1), encoding="utf-8")
    assert main(["ranges", str(path)]) == 2
    out = capsys.readouterr()
    assert said in out.err
    assert "line " in out.err
    assert not out.out


@pytest.mark.parametrize(
    ("option", "said"),
    [
        ("--eye=-2 m", "Eye height −2 m cannot be: 0 to 100 m is allowed"),
        ("--antenna=-5 m", "Other antenna's height −5 m cannot be: 0 to 1000 m is allowed"),
        ("--target=-1 m", "Target height −1 m cannot be: 0 to 1000 m is allowed"),
        ("--heel-angle=100", "Heel 100 ° cannot be: −60 to 60 ° is allowed"),
        ("--trim=50", "Trim, bow down 50 ° cannot be: −15 to 15 ° is allowed"),
    ],
)
def test_negative_heights_asked_have_their_range(option, said, capsys):
    """A height below the water, a heel past any sailing."""
    assert main(["ranges", str(WHIMBREL), option]) == 2
    out = capsys.readouterr()
    assert said in out.err
    assert not out.out


@pytest.mark.parametrize("length", [2000.0, 150_000.0])
def test_the_ends_of_the_range_are_allowed(length):
    """At either end a yacht has her class."""
    assert Boat(name="Test", length_overall_mm=length).length_overall_mm == length


def test_a_thing_below_the_water_reaches_nothing():
    """A fitting whose place is under the waterline: a negative height is told, and every reach is none."""
    layout = a_layout(boat=Boat(name="Test", heel_above_water_mm=-16_000.0))
    rows = json.loads(ranges_json(build(layout), "t"))["heights"]
    assert rows[0]["above_water_m"]["value"] < 0
    assert all(rows[0][key]["value"] in (0.0, None) for key in ("visible_horizon_nm", "radio_horizon_nm"))
