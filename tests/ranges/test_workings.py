"""Every figure of ``ranges --json`` opens its working, and its inputs give it again.

Each formula is written here a second time, from the publication it names or from plain geometry, and
fed with the inputs the program tells: to a part in five hundred, and what three places of them leave open.
"""

import json
import math

import pytest

from mastlayout.documents.printed import ranges_json
from mastlayout.geometry.scene import build
from mastlayout.ranges.asked import Asked
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

YACHTS = ("sanderling", "turnstone", "whimbrel")
# Read off a plate, a paper or the tape: nothing went in.
READ = ("plate_range_nm", "level_1m_db", "heel_deg")
# Numbers that are asked, or given by the layout, not worked out.
GIVEN = ("asked", "arcs", "at_least", "at_most", "antenna_m", "required_mm", "measured_mm")


def sin(degrees):
    """The sine of degrees."""
    return math.sin(math.radians(degrees))


def cos(degrees):
    """The cosine of degrees."""
    return math.cos(math.radians(degrees))


def tan(degrees):
    """The tangent of degrees."""
    return math.tan(math.radians(degrees))


def above_water(i):
    """Plumb height of a place on a raked mast, heeled; metres."""
    upright = i["z_mm"] * cos(i["rake_deg"]) + i["heel_above_water_mm"]
    return upright * cos(i.get("heel_deg", 0.0)) / 1000.0


def seen(i):
    """A factor to the root of each height."""
    ends = ("height_above_water_m", "eye_height_m", "antenna_height_m", "target_height_m")
    return i["nm_per_root_m"] * sum(math.sqrt(i[end]) for end in ends if end in i)


def candela(nm):
    """COLREG Annex I, 8."""
    return 3.43e6 * 2e-7 * nm**2 * 0.8**-nm


def far_enough(i):
    """The range whose candela a part of a plate's is, by halving; the part itself went in, too."""
    low, high, wanted = 0.0, 20.0, i["share"] * candela(i["range_nm"])
    assert i["intensity_cd"] == pytest.approx(wanted, abs=1e-3)
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if candela(middle) < wanted else (low, middle)
    return low


def least_range(i):
    """COLREG Rule 22 under 20 m, of the lights these yachts have."""
    return {2.0, 3.0} if i["length_m"] >= 12.0 else {1.0, 2.0}


def drag(i, area="area_m2"):
    """½ ρ v² Cd A."""
    return 0.5 * i["air_kg_m3"] * i["wind_ms"] ** 2 * i["cd"] * i[area]


def echo(i):
    """Physical optics: three triangles, or three quarters of a disc, n of them in step."""
    edge, wave = i["edge_mm"] / 1000.0, i["wave_mm"] / 1000.0
    return {i["stacked"] ** 2 * factor * edge**4 / wave**2 for factor in (4 * math.pi / 3, 15.6)}


def heeled(i):
    """Over the crests of a stack."""
    way = 2 * math.pi * i["tall_mm"] * sin(i["heel_deg"]) / i["wave_mm"]
    return i["peak_m2"] / way**2


def sectors(i):
    """The widths that were told."""
    return [value for key, value in i.items() if key.startswith("sector")]


def kept(i):
    """What is stated less what is hidden."""
    return max(i["stated_deg"] - i["hidden_deg"], 0.0)


def top(i):
    """The highest point of a raked mast."""
    plumb = i["z_mm"] * cos(i["rake_deg"]) + i["ahead_mm"] * sin(i["rake_deg"])
    return (plumb + i["heel_above_water_mm"] + i.get("light_rise_mm", 0.0)) / 1000.0


def sea(side):
    """The edge of the beam meets the sea, or never does."""

    def near(i):
        edge = i["beam_tall_deg"] / 2 + side * i["heel_deg"]
        return i["height_above_water_m"] / tan(edge) if edge > 0.0 else None

    return near


def whistle(i):
    """COLREG Annex III, 1(c), under 20 m."""
    return 120.0 if i["tone_hz"] <= 450.0 else 115.0 if i["tone_hz"] <= 800.0 else 111.0


def raised(i):
    """The lever of two masses."""
    return (1000.0 * i["moment_kgm"] - i["mass_kg"] * i["gravity_mm"]) / (i["displacement_kg"] + i["mass_kg"])


def balance(i):
    """The lever of the tube and what is mounted on it."""
    moments = i["tube_kg"] * i["tube_z_mm"] + i["fittings_kg"] * i["fittings_z_mm"]
    return moments / i["total_kg"]


def from_compass(i):
    """Pythagoras."""
    return math.dist(*([i[f"{whose}_{axis}_mm"] for axis in "xyz"] for whose in ("compass", "nearest")))


def bearing(i):
    """Clockwise from ahead; y is to port."""
    return math.degrees(math.atan2(-i["out_y"], i["out_x"])) % 360.0


def covered(i):
    """Of the 90 degrees about the mouth's axis, or about ahead: by tenths of a degree, once each."""
    count = sum(key.endswith("_from_deg") for key in i)
    ends = [(i[f"sector_{n}_from_deg"], i[f"sector_{n}_to_deg"]) for n in range(1, count + 1)]

    def about(axis):
        bearings = [axis - 45.0 + n / 20 for n in range(1800)]
        hit = [any((one - first) % 360 < (last - first) % 360 for first, last in ends) for one in bearings]
        return sum(hit) / 20

    return max(about(i["axis_deg"]), about(0.0) if count == 1 else 0.0)


def screen(i):
    """Maekawa 1968: 10 log10(3 + 20 N)."""
    detour = math.hypot(i["distance_mm"], i["edge_mm"]) - i["distance_mm"]
    return 10 * math.log10(3 + 20 * 2 * detour / (1000 * i["wave_m"]))


# By its key, the figure of its inputs; a set where several formulas share a key.
AGAIN = {
    "above_water_m": above_water,
    "middle_above_water_m": above_water,
    "arc_deg": lambda i: (i["last_deg"] - i["first_deg"]) % 360.0 or 360.0,
    "least_range_nm": least_range,
    "least_intensity_cd": lambda i: candela(i["range_nm"]),
    "half_strength_range_nm": far_enough,
    "rolled_range_nm": far_enough,
    "lean_aft_deg": lambda i: i["lean_deg"] - i["trim_deg"] - i["shim_deg"],
    "level_band_left_deg": lambda i: max(i["band_deg"] - abs(i["lean_deg"]), 0.0),
    "edge_needed_mm": lambda i: 1000 * (3 * i["asked_m2"] * (i["wave_mm"] / 1000) ** 2 / 4 / math.pi) ** 0.25,
    "echo_x_m2": echo,
    "echo_s_m2": echo,
    "echo_heeled_m2": heeled,
    "first_null_deg": lambda i: math.degrees(math.asin(i["wave_mm"] / (2 * i["tall_mm"]))),
    "hidden_deg": lambda i: sum(sectors(i)),
    "widest_hidden_deg": lambda i: max(sectors(i), default=0.0),
    "nearest_sea_m": sea(0),
    "nearest_sea_leeward_m": sea(1),
    "nearest_sea_windward_m": sea(-1),
    "loss_abeam_db": lambda i: 6 * (i["heel_deg"] / (i["beam_tall_deg"] / 2)) ** 2,
    "in_beam_deg": lambda i: math.degrees(
        math.asin(min(sin(i["beam_tall_deg"] / 2) / sin(i["heel_deg"]), 1.0))
    ),
    "harmless_m": lambda i: math.sqrt(
        i["mean_power_w"] * 30000 / (i["beam_tall_deg"] * i["beam_wide_deg"]) / 4 / math.pi / i["limit_w_m2"]
    ),
    "loss_db": lambda i: i["db_per_100m"] * i["length_m"] / 100 + i["connectors"] * i["connector_db"],
    "arrives_percent": lambda i: 100 * 10 ** (-i["loss_db"] / 10),
    "arrives_of_25_w": lambda i: 25 * 10 ** (-i["loss_db"] / 10),
    "voltage_lost_percent": lambda i: (
        100 * 0.017871 * i["current_a"] * 2 * i["length_m"] / i["copper_mm2"] / i["supply_v"]
    ),
    "may_turn_deg": lambda i: 18 / i["field_ut"],
    "points_to_deg": bearing,
    "least_level_1m_db": whistle,
    "least_within_45_deg_db": lambda i: whistle(i) - 4.0,
    "least_elsewhere_db": lambda i: whistle(i) - 10.0,
    "taken_db": screen,
    "from_compass_mm": from_compass,
    "helm_at_db": lambda i: i["level_1m_db"] - 20 * math.log10(i["distance_m"]),
    "foredeck_at_db": lambda i: i["level_1m_db"] - 20 * math.log10(i["distance_m"]),
    "from_heel_mm": balance,
    "moment_kgm": lambda i: i["mass_kg"] * i["mean_height_m"],
    "heel_moment_nm": lambda i: i["g_ms2"] * i["moment_kgm"] * sin(i["heel_deg"]),
    "roll_inertia_kgm2": lambda i: i["sum_of_mh2_kgm2"] + i["sum_of_my2_kgm2"],
    "centre_of_gravity_mm": raised,
}
HORIZONS = ("_horizon_nm", "_horizon_2_12_nm", "_range_nm", "_range_2_12_nm", "_sight_nm")


def again(key, inputs):
    """The figure of a key, from its inputs by what stands here."""
    if key in AGAIN:
        return AGAIN[key](inputs)
    if key.startswith("above_"):
        return (inputs["lens_mm"] - inputs["datum_mm"]) / 1000.0
    if key.startswith(("stiff_", "whips_")):
        return top(inputs)
    if key.startswith("drag_"):
        return drag(inputs)
    if key.startswith("wind_moment_"):
        return drag(inputs, "sum_of_area_height_m3")
    if key.endswith(HORIZONS):
        return seen(inputs)
    raise AssertionError(key)


@pytest.fixture(scope="module", params=YACHTS)
def said(request):
    """All that is said of a yacht, heeled, as any program reads it."""
    scene = build(open_document(demo_masts() / f"{request.param}.toml").layout)
    return json.loads(ranges_json(scene, request.param, Asked(heel_deg=12.0)))


def leaves(value, path=()):
    """Yield every figure with its path, and every number that is none, with the object it stands in."""
    if isinstance(value, dict):
        if {"value", "formula"} <= value.keys():
            yield path, value, None
            if "before" in value:
                yield from leaves(value["before"], path)
            return
        for key, item in value.items():
            if key != "inputs" and not key.endswith("_inputs"):
                if isinstance(item, int | float) and not isinstance(item, bool):
                    yield (*path, key), item, value
                else:
                    yield from leaves(item, (*path, key))
    elif isinstance(value, list):
        for item in value:
            yield from leaves(item, path)


def test_every_figure_opens_its_working(said):
    """Formula, source, and what went in; one not known says what has to be measured, or why there is none."""
    figures = [(path[-1], figure) for path, figure, own in leaves(said) if own is None]
    assert len(figures) > 200
    for key, figure in figures:
        assert figure["formula"], key
        assert figure["source"], key
        stated = figure["formula"] == "as stated"
        if figure["value"] is None:
            assert figure["missing"] or figure["formula"].startswith("none"), key
        elif key not in READ and not stated:
            assert figure["inputs"] or figure["value"] == 0.0, key


def test_its_inputs_give_every_figure_again(said):
    """By formulas written a second time."""
    skipped = ("first_seen_nm", "first_seen_s_nm", "found", "mass_kg", *READ)
    count = 0
    for path, figure, own in leaves(said):
        key = path[-1]
        if own is not None or figure["value"] is None or key in skipped or figure["formula"] == "as stated":
            continue
        if key == "covered_deg":
            assert figure["value"] == pytest.approx(covered(figure["inputs"]), abs=0.11), path
            continue
        expected = again(key, figure["inputs"])
        if key in AGAIN and isinstance(expected, set):
            assert any(figure["value"] == pytest.approx(one, rel=2e-3, abs=2e-3) for one in expected), path
        else:
            # JSON keeps three places: what went in is known to half of the last
            within = 2e-3 + sum(5e-4 / abs(one) for one in figure["inputs"].values() if abs(one) > 1e-3)
            assert figure["value"] == pytest.approx(expected, rel=within, abs=2e-3), path
        count += 1
    assert count > 150


def test_what_is_asked_is_answered_by_its_figure(said):
    """Each row's figure is one of the others, or follows from its inputs; the answer from both."""
    for row in said["reflectors"] + said["radars"]:
        for ask in row["asked_of_it"]:
            found = ask["found"]
            if ask["key"] == "arc" and found["value"] is not None:
                assert found["value"] == pytest.approx(kept(found["inputs"]), abs=2e-3)
            if ask["key"] == "null" and found["value"] is not None:
                assert found["value"] == pytest.approx(max(found["inputs"].values()), abs=2e-3)
            if found["value"] is not None and ask["answer"] != "unknown":
                most = "at_most" in ask
                met = found["value"] <= ask["at_most"] if most else found["value"] >= ask["at_least"]
                assert (ask["answer"] == "yes") == met, ask["key"]


def test_what_a_radar_loses_follows_from_its_sectors(said):
    """Each sector from its two bearings; forward or abaft of 22.5 degrees abaft the beam."""
    for row in said["radars"]:
        by_key = {ask["key"]: ask["found"] for ask in row["asked_of_it"]}
        inputs = by_key["total"]["inputs"]
        count = len(inputs) // 2
        ends = [(inputs[f"sector_{i}_from_deg"], inputs[f"sector_{i}_to_deg"]) for i in range(1, count + 1)]
        tenths = [
            (first + n / 10) % 360 for first, last in ends for n in range(round(10 * ((last - first) % 360)))
        ]
        abaft = sum(112.5 < bearing < 247.5 for bearing in tenths) / 10
        assert by_key["total"]["value"] == pytest.approx(abaft, abs=0.2 * max(count, 1))
        assert by_key["ahead"]["value"] == pytest.approx(len(tenths) / 10 - abaft, abs=0.2 * max(count, 1))


def test_sums_are_those_of_what_is_mounted(said):
    """Mass, moment, inertia and area by adding up the list of fittings."""
    each, sums = said["weight"]["each"], said["weight"]
    if said["weight"]["unweighed"]:
        assert all(sums[when]["mass_kg"]["value"] is None for when in ("before", "after"))
        return
    for when in ("before", "after", "change"):
        kg = [one[f"{when}_kg"] for one in each]
        high = [one["height_m"] for one in each]
        own = {key: sums[when][key]["value"] for key in ("mass_kg", "moment_kgm", "roll_inertia_kgm2")}
        assert own["mass_kg"] == pytest.approx(sum(kg), abs=0.01)
        assert own["moment_kgm"] == pytest.approx(sum(m * h for m, h in zip(kg, high, strict=True)), rel=2e-3)
        square = [h * h + one["off_m"] ** 2 for h, one in zip(high, each, strict=True)]
        assert own["roll_inertia_kgm2"] == pytest.approx(
            sum(m * s for m, s in zip(kg, square, strict=True)), rel=2e-3
        )
    area = sum(one["abeam_m2"] for one in each)
    assert sums["after"]["drag_abeam_20kn_n"]["inputs"]["area_m2"] == pytest.approx(area, abs=0.02)


def test_no_number_stands_alone(said):
    """What is no figure is given, or stands beside its formula, its source and its inputs."""
    for path, _number, own in leaves(said):
        if own is None or set(path) & set(GIVEN):
            continue
        key = path[-1]
        worked = own if "formula" in own else {k.removeprefix("fades_"): v for k, v in own.items()}
        if "fades" in path or "each" in path:
            continue  # worked out for the whole list, beside it
        assert {"formula", "source", "inputs"} <= worked.keys(), (path, key)


def test_lists_carry_their_working(said):
    """What is worked out for a whole list stands beside it."""
    for row in said["reflectors"]:
        for ship in row["ships"]:
            assert {"fades_formula", "fades_source", "fades_inputs"} <= ship.keys()


def test_cloth_stands_between_its_bearings(said):
    """From as far to port of its luff as to starboard of it."""
    horns = [sail for horn in said["sound"] for sail in horn["sails_before_its_mouth"]]
    for sail in horns + [sail for radar in said["radars"] for sail in radar["sails_met"]]:
        i = sail["inputs"]
        assert sail["from_deg"] == pytest.approx((i["luff_deg"] - i["port_deg"]) % 360.0, abs=2e-3)
        assert sail["to_deg"] == pytest.approx((i["luff_deg"] + i["starboard_deg"]) % 360.0, abs=2e-3)


def test_antennas_stand_as_far_apart_as_their_ends(said):
    """Level by Pythagoras, plumb by their ends."""
    for pair in said["antennas_apart"]:
        i = pair["inputs"]
        if "b_x_mm" in i:
            level = math.hypot(i["a_x_mm"] - i["b_x_mm"], i["a_y_mm"] - i["b_y_mm"])
            plumb = max(i["a_low_mm"] - i["b_high_mm"], i["b_low_mm"] - i["a_high_mm"], 0.0)
            assert (pair["level_mm"], pair["plumb_mm"]) == pytest.approx((level, plumb), abs=0.01)


def test_readings_of_a_height_are_its_own(said):
    """From the heel z, from the masthead the rest of the mast."""
    for row in said["heights"]:
        i = row["inputs"]
        assert row["from_heel_mm"] == pytest.approx(i["z_mm"], abs=1.0)
        assert row["from_masthead_mm"] == pytest.approx(i["mast_mm"] - i["z_mm"], abs=1.0)
        if row["above_deck_mm"] is not None:
            assert row["above_deck_mm"] == pytest.approx(i["z_mm"] - i["deck_mm"], abs=0.01)
