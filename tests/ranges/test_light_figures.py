"""The figures of lights and their working: what is known, what waits for a measure, and only that."""

import json

import numpy as np
import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast

from mastlayout.__main__ import main
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.light_figures import light_table
from mastlayout.resources import demo_masts

KNOWN = {
    "name": "Test",
    "length_overall_mm": 12000.0,
    "heel_above_water_mm": 500.0,
    "deck_above_heel_mm": 1000.0,
    "sheer_above_heel_mm": 900.0,
    "sidelights_above_heel_mm": 1500.0,
}


def figures(*, rake=2.0, asked=None, **boat):
    """The figures of a steaming light, its lens 8000 above the heel and 160 ahead of the axis."""
    glass = {"shape": "can", "part": "lens", "start": (0, -20, 60), "end": (0, 20, 60), "radius_mm": 30}
    arc = {"what": "light", "from_deg": 247.5, "to_deg": 112.5, "name": "steaming", "colour": "white"}
    kind = a_kind("steaming", group="light", foot=None, solids=[glass], sectors=[arc])
    light = a_fitting(
        "light-1",
        kind="steaming",
        in_hand=None,
        from_masthead_mm=LENGTH_MM - 8000.0,
        visible_nm=3,
        shim_deg=0.5,
    )
    layout = a_layout(
        boat=Boat(**(KNOWN | boat)), mast=a_mast(rake_deg=rake), kinds=(kind,), fittings=(light,)
    )
    (row,) = light_table(build(layout), asked or Asked())
    return row.figures


def test_heights_from_their_own_datums():
    """By hand: leaning aft lifts the fore face, so plumb height z cos r + x sin r, less the datum."""
    found = figures()
    plumb = (8000.0 * np.cos(np.radians(2.0)) + 160.0 * np.sin(np.radians(2.0))) / 1000.0
    for key, datum in (("above_gunwale_m", 0.9), ("above_hull_m", 1.0), ("above_sidelights_m", 1.5)):
        assert found[key].value == pytest.approx(plumb - datum, abs=1e-6)
    assert found["above_water_m"].value == pytest.approx((8000.0 * np.cos(np.radians(2.0)) + 500.0) / 1000.0)


def test_every_figure_has_its_working():
    """Formula, source, and what went in, but for what is only read."""
    for key, figure in figures().items():
        assert figure.value is not None, key
        assert figure.formula
        assert figure.source
        assert figure.inputs or key == "plate_range_nm"


def test_unknown_waterline_blocks_heights_above_the_water_only():
    """Measure from the waterline to the heel: nothing else of a light waits for it."""
    known, unknown = figures(), figures(heel_above_water_mm=None)
    assert {key for key, figure in unknown.items() if figure.value is None} == {"above_water_m"}
    assert unknown["above_water_m"].missing == "boat.water"
    assert {key: f.value for key, f in unknown.items() if key != "above_water_m"} == {
        key: f.value for key, f in known.items() if key != "above_water_m"
    }


@pytest.mark.parametrize(
    ("field", "keys"),
    [
        ("length_overall_mm", {"least_range_nm", "least_intensity_cd"}),
        ("sheer_above_heel_mm", {"above_gunwale_m"}),
        ("deck_above_heel_mm", {"above_hull_m"}),
        ("sidelights_above_heel_mm", {"above_sidelights_m"}),
    ],
)
def test_what_is_not_known_blocks_its_own(field, keys):
    """A missing measure is never a default, and names itself."""
    found = figures(**{field: None})
    assert {key for key, figure in found.items() if figure.value is None} == keys
    assert all(found[key].missing for key in keys)


def test_rake_trim_and_wedge_eat_the_band():
    """2 degrees of rake, less a wedge of 0.5, less 1 by the bow: 0.5 of the 5 degrees gone."""
    found = figures(asked=Asked(trim_deg=1.0), flotation_abaft_mast_mm=900.0)
    assert found["lean_aft_deg"].value == pytest.approx(0.5, abs=1e-6)
    assert found["level_band_left_deg"].value == pytest.approx(4.5, abs=1e-6)
    assert figures(rake=9.0)["level_band_left_deg"].value == 0.0


def test_off_the_level_a_steaming_light_keeps_60_percent():
    """COLREG Annex I, 10(a): by hand 3 NM at 60 % is 2.4664 NM; 10(b) binds what shows under sail."""
    found = figures()
    assert found["rolled_range_nm"].value == pytest.approx(2.4664, abs=0.002)
    assert "half_strength_range_nm" not in found


def test_ranges_json_gives_lights_and_what_hides_them(capsys):
    """One object: each figure with formula, source, inputs; each thing in the way with its bearings."""
    assert main(["ranges", str(demo_masts() / "whimbrel.toml"), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    stern = next(one for one in told["lights"] if one["light"] == "sternlight")
    assert stern["least_range_nm"]["value"] == 2.0
    assert stern["least_intensity_cd"]["value"] == pytest.approx(4.2875, abs=1e-3)
    assert stern["half_strength_range_nm"]["value"] == pytest.approx(1.496, abs=2e-3)
    ring = next(one for one in told["seen_round"] if len(one["arcs"]) == 3)
    whip = next(one for one in ring["in_the_way"] if one["id"] == "vhf-whip-1")
    assert whip["dark_from_deg"] is None
    assert 206.0 < whip["seen_from_deg"] < 207.0
    assert whip["share_percent"] == pytest.approx(42.0, abs=1.0)
