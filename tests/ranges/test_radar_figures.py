"""Figures of reflectors and the own radar: their working, what waits for a measure, and only that."""

import json

import numpy as np
import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast

from mastlayout.__main__ import main
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.own_radar import radar_table
from mastlayout.ranges.reflector import reflector_table
from mastlayout.resources import demo_masts

ROUND = {"from_deg": 0.0, "to_deg": 360.0, "name": "all round"}


def a_scene(what, corner=None, high_mm=8000.0, boat=None, **fields):
    """A reflector or a radar 2 m ahead of a mast whose heel is on the water."""
    body = {"shape": "can", "start": (0, -100, 2000), "end": (0, 100, 2000), "radius_mm": 100}
    kind = a_kind(what, foot=None, solids=[body], sectors=[{"what": what} | ROUND], corner=corner)
    own = a_fitting("own", kind=what, in_hand=None, from_masthead_mm=LENGTH_MM - high_mm, **fields)
    known = Boat(**({"name": "Test", "heel_above_water_mm": 0.0, "sailing_heel_deg": 10.0} | (boat or {})))
    return build(a_layout(boat=known, mast=a_mast(), kinds=(kind,), fittings=(own,)))


def answers(scene):
    """Yes, no or unknown, by row."""
    (row,) = reflector_table(scene)
    return {ask.key: ask.answer for ask in row.asked}


def test_every_row_is_yes_no_or_unknown():
    """MSC.164(78): met by papers, failed by a formula's peak, unknown where nothing says."""
    papers = {
        "echo_x_m2": 8.0, "echo_s_m2": 0.5, "echo_arc_deg": 290.0, "echo_null_deg": 9.0,
        "echo_apart_deg": 25.0, "echo_heel_deg": 25.0,
    }  # fmt: skip
    assert set(answers(a_scene("echo", **papers)).values()) == {"yes"}
    unknown = answers(a_scene("echo"))
    assert unknown.pop("height") == "yes"
    assert set(unknown.values()) == {"unknown"}
    small = answers(a_scene("echo", corner={"shape": "triangular", "edge_mm": 100.0}, high_mm=3000.0))
    assert (small["echo_x"], small["echo_s"], small["height"]) == ("no", "no", "no")
    assert (small["arc"], small["heel"]) == ("unknown", "unknown")


def test_mast_takes_its_share_of_the_circle():
    """A tube close to the mast: 300 stated less what the mast hides of it; a null wider than 10."""
    body = {"shape": "can", "start": (0, -100, 100), "end": (0, 100, 100), "radius_mm": 25}
    kind = a_kind("echo", foot=None, solids=[body], sectors=[{"what": "echo"} | ROUND])
    own = a_fitting("own", kind="echo", in_hand=None, echo_arc_deg=300.0, echo_null_deg=5.0)
    (row,) = reflector_table(build(a_layout(kinds=(kind,), fittings=(own,))))
    rows = {ask.key: ask for ask in row.asked}
    hidden = row.figures["widest_hidden_deg"].value
    assert hidden > 20.0
    assert rows["arc"].answer == rows["null"].answer == "no"
    assert rows["arc"].figure.value == pytest.approx(300.0 - hidden)
    assert rows["null"].figure.value == pytest.approx(hidden)


def test_figures_wait_for_the_waterline_and_only_those():
    """Waterline unknown: heights, horizons, first seen and fades are not known; the echo is."""
    corner = {"shape": "triangular", "edge_mm": 200.0}
    (row,) = reflector_table(a_scene("echo", corner, boat={"heel_above_water_mm": None}))
    assert row.figures["above_water_m"].missing == "boat.water"
    assert row.figures["echo_x_m2"].value is not None
    for ship in row.ships:
        assert ship.fades is None
        assert ship.horizon.missing == ship.first_seen.missing == "boat.water"


def test_higher_sees_farther_and_fades_more():
    """Both are told for ships of 15, 30 and 40 m; the horizon by √h, the fades by their number."""
    corner = {"shape": "triangular", "edge_mm": 250.0}
    (low,), (high,) = (reflector_table(a_scene("echo", corner, high_mm=h)) for h in (5000.0, 15000.0))
    assert [ship.antenna_m for ship in low.ships] == [15.0, 30.0, 40.0]
    for below, above in zip(low.ships, high.ships, strict=True):
        assert above.horizon.value > below.horizon.value
        assert len(above.fades) > len(below.fades)
        for ship in (below, above):
            first = ship.first_seen.value
            # Where it is first seen it does not fade: so higher need not be seen sooner.
            assert 1.0 < first < ship.horizon.value
            assert not any(fade.from_nm <= first <= fade.to_nm for fade in ship.fades)


def test_nearest_sea_at_the_heel():
    """8 m up, 25 degrees, heeled 10: 36 m upright, 19 to leeward, 183 to windward; at 15 none."""
    scene = a_scene("radar", beam_tall_deg=25.0, beam_wide_deg=5.2, mean_power_w=2.4)
    (row,) = radar_table(scene)
    for key, metres in (
        ("nearest_sea_m", 36.0),
        ("nearest_sea_leeward_m", 19.3),
        ("nearest_sea_windward_m", 183.2),
    ):
        assert row.figures[key].value == pytest.approx(metres, abs=0.2), key
    assert row.figures["harmless_m"].value == pytest.approx(2.0994, rel=1e-3)
    # heeled further the antenna comes lower, too: 8 cos 15
    (heeled,) = radar_table(scene, Asked(heel_deg=15.0))
    lee = 8.0 * np.cos(np.radians(15.0)) / np.tan(np.radians(27.5))
    assert heeled.figures["nearest_sea_leeward_m"].value == pytest.approx(lee, rel=1e-3)
    windward = heeled.figures["nearest_sea_windward_m"]
    assert (windward.value, windward.missing) == (None, None)
    assert "none" in windward.formula


def test_each_radar_figure_names_what_it_waits_for():
    """Beam, power, heel, waterline: each by its own measure."""
    (row,) = radar_table(a_scene("radar", boat={"sailing_heel_deg": None}))
    assert row.figures["nearest_sea_m"].missing == "fitting.beam"
    assert row.figures["nearest_sea_leeward_m"].missing == "boat.sailing_heel"
    (row,) = radar_table(a_scene("radar", beam_tall_deg=25.0, beam_wide_deg=5.0))
    assert row.figures["harmless_m"].missing == "fitting.mean_power"


@pytest.mark.parametrize("yacht", ["sanderling", "turnstone", "whimbrel"])
def test_json_has_it_all(yacht, capsys):
    """One object: each figure with formula, source and inputs; each row asked with its answer; each fade."""
    assert main(["ranges", "--json", str(demo_masts() / f"{yacht}.toml")]) == 0
    said = json.loads(capsys.readouterr().out)
    for row in said["reflectors"]:
        assert {ask["key"] for ask in row["asked_of_it"]} == {
            "echo_x", "echo_s", "height", "arc", "null", "apart", "heel",
        }  # fmt: skip
        assert all(ask["answer"] in ("yes", "no", "unknown") and ask["source"] for ask in row["asked_of_it"])
        for ship in row["ships"]:
            assert "estimate" in ship["first_seen_nm"]["source"]
            assert all(1.0 <= fade["from_nm"] <= fade["to_nm"] for fade in ship["fades"])
    assert len(said["radars"]) == (yacht != "turnstone")
    for row in said["radars"]:
        assert row["nearest_sea_m"]["source"]
        assert "genoa" in " ".join(row["sails_in_beam"])
    assert {row["id"] for row in said["seen_round"]} >= {
        row["id"] for row in said["reflectors"] + said["radars"]
    }


def test_text_has_each_row_and_its_caution(capsys):
    """For a person: each row asked with its answer, what ships see, and the cautions."""
    assert main(["ranges", str(demo_masts() / "whimbrel.toml")]) == 0
    said = capsys.readouterr().out
    assert "no       echoing area, X band: at least 7.5 m², here 1.9 m²" in said
    assert "yes      height above the water, upright: at least 4 m, here 12.8 m" in said
    assert said.count("(estimate)") == 3
    assert "No reflector is a promise of being seen." in said
    assert "Off when someone is aloft." in said
    # heeled 20 with a beam of 25
    assert "nearest sea seen to windward: none" in said


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ("beam_tall = 0 ", "1 to 90 is allowed"),
        ("beam_tall = 200 ", "1 to 90 is allowed"),
        ("beam_tall = 25 \necho_x_m2 = -1 ", "0 or more is allowed"),
        ("beam_tall = 25 \necho_heel = 90 ", "0 to 60 is allowed"),
        ('beam_tall = 25 \necho_s_m2 = "much" ', "a number is wanted"),
    ],
)
def test_what_cannot_be_gets_a_sentence(wrong, words, tmp_path, capsys):
    """A beam of 0 or 200 degrees, an echo below nothing: where, what is allowed, no traceback."""
    text = (demo_masts() / "whimbrel.toml").read_text(encoding="utf-8")
    path = tmp_path / "bad.toml"
    path.write_text(text.replace("beam_tall = 25 ", wrong), encoding="utf-8")
    assert main(["ranges", str(path)]) != 0
    said = capsys.readouterr()
    assert words in said.out + said.err
    assert "line " in said.out + said.err
