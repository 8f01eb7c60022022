"""Worked examples a rigger does on the back of an envelope, asked of whole layouts.

Each is closed geometry done by hand: 2 asin(b / 2d) of a round thing b wide at d from the middle of what
sees, 2 atan for a flat one (they differ by a twentieth of a degree here); h / tan of the beam's edge;
m h / (displacement + m). Printed to a tenth.
"""

import numpy as np
import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast

from mastlayout.checks.arcs import ARCS
from mastlayout.checks.rule import findings, where_it_stands
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.model.boat import Boat
from mastlayout.model.mast import Ellipse
from mastlayout.ranges.hidden import cast
from mastlayout.ranges.own_radar import radar_table
from mastlayout.ranges.reflector import reflector_table
from mastlayout.ranges.rings import rings
from mastlayout.ranges.weight import weight_figures

MAST_MM, HIGH_MM = 120.0, 8000.0
ROUND = {"from_deg": 0.0, "to_deg": 360.0, "name": "all round"}


def rod(id_, ahead_mm, wide_mm, part="body", **fields):
    """A kind that is one upright can so far ahead of the mast's axis."""
    out = ahead_mm - MAST_MM / 2
    body = {
        "shape": "can",
        "part": part,
        "start": (0, -100, out),
        "end": (0, 100, out),
        "radius_mm": wide_mm / 2,
    }
    return a_kind(id_, **({"foot": None, "solids": [body], "mass_kg": 1.0} | fields))


def a_scene(*kinds, on_board=None, **of_first):
    """A round mast of 120 with one fitting of each kind, all at one height, 8 m above heel and water."""
    known = {"name": "Test", "heel_above_water_mm": 0.0, "sailing_heel_deg": 10.0}
    at = {"from_masthead_mm": LENGTH_MM - HIGH_MM}
    fittings = tuple(
        a_fitting(kind.id, kind=kind.id, in_hand=None, **(at | (of_first if kind is kinds[0] else {})))
        for kind in kinds
    )
    mast = a_mast(section=Ellipse(shape="ellipse", length_mm=MAST_MM, width_mm=MAST_MM))
    boat = Boat(**(known | (on_board or {})))
    return build(a_layout(boat=boat, mast=mast, kinds=kinds, fittings=fittings))


def a_reflector(ahead_mm, wide_mm=0.2, **fields):
    """A reflector; as good as a point unless told otherwise."""
    return rod("echo", ahead_mm, wide_mm, group="reflector", sectors=[{"what": "echo"} | ROUND], **fields)


def a_radar(ahead_mm, wide_mm=450.0):
    """A radar whose antenna is so wide."""
    return rod("radar", ahead_mm, wide_mm, group="radar", sectors=[{"what": "radar"} | ROUND])


def a_light(ahead_mm, colour):
    """An all-round light whose lens is 60 wide."""
    sector = {"what": "light", "colour": colour} | ROUND
    return rod("light", ahead_mm, 60.0, part="lens", group="light", sectors=[sector])


def seen(scene, own, thing):
    """The degrees a thing takes as seen from the middle of a source, and whether any of that is dark."""
    ring = next(ring for ring in rings(scene) if ring.id == own)
    way = next(one for one in ring.in_the_way if one.id == thing)
    return way.seen[1] - way.seen[0], way.dark


# -- what hides a reflector, a radar, a light


def test_a_mast_hides_23_degrees_of_a_reflector_300_ahead_of_it():
    """2 asin(60 / 300) = 23.1, all of it dark for a reflector that is narrow."""
    scene = a_scene(a_reflector(300.0))
    assert seen(scene, "echo", "mast")[0] == pytest.approx(23.1, abs=0.05)
    (row,) = reflector_table(scene)
    assert row.figures["widest_hidden_deg"].value == pytest.approx(23.1, abs=0.1)


def test_a_thin_member_hides_little():
    """A jumper of 10 at 250 from the reflector: 2.3 degrees; its working tells the 250."""
    scene = a_scene(a_reflector(300.0), rod("jumper", 550.0, 10.0))
    assert seen(scene, "echo", "jumper")[0] == pytest.approx(2.3, abs=0.05)
    (ring,) = (ring for ring in rings(scene) if ring.id == "echo")
    away = {thing.id: thing.away_mm for thing in ring.in_the_way}
    assert away["jumper"] == pytest.approx(250.0, abs=0.01)
    assert ring.wide_mm == pytest.approx(0.2)


def test_a_wide_antenna_sees_past_the_mast():
    """The same mast at 450: 15.3 degrees from a point; of an antenna 450 wide nothing is dark, more is dim.

    Dim is where a fifth of it is covered: 2 asin((60 + 225 - 90) / 450) = 51.36 degrees. The mast takes
    120 / 450 of it.
    """
    scene = a_scene(a_radar(450.0))
    degrees, dark = seen(scene, "radar", "mast")
    assert degrees == pytest.approx(15.3, abs=0.05)
    assert dark is None
    own = scene.placed["radar"]
    found = cast(scene, own, own.solids, (0,), limits_of(scene.layout)["radar.dim"].value / 100.0, 0.0).found
    assert np.ptp(found.dim[0]) == pytest.approx(51.36, abs=0.1)
    assert found.share[0] == pytest.approx(120.0 / 450.0, abs=0.002)
    # a narrow one is blind over nearly all of the 15.3
    assert np.ptp(seen(a_scene(a_radar(450.0, 1.0)), "radar", "mast")[1]) == pytest.approx(15.3, abs=0.2)


@pytest.mark.parametrize(("between_deg", "sectors"), [(2.0, 1), (4.0, 2)])
def test_members_less_than_3_degrees_apart_are_one_sector(between_deg, sectors):
    """As a ship's card counts them, IMO SN.1/Circ.271: two rods of 30 at 2 m, before a point."""
    off = np.radians((between_deg + 2 * np.degrees(np.arcsin(15.0 / 2000.0))) / 2)
    ahead, aside = 2450.0 - 2000.0 * (1 - np.cos(off)), 2000.0 * np.sin(off)
    solid = {"shape": "can", "radius_mm": 15.0}
    rods = [
        a_kind(
            name, foot=None, solids=[solid | {"start": (x, -100, ahead - 60), "end": (x, 100, ahead - 60)}]
        )
        for name, x in (("port", -aside), ("starboard", aside))
    ]
    (row,) = radar_table(a_scene(a_radar(450.0, 0.2), *rods))
    ahead_row = next(ask for ask in row.asked if ask.key == "ahead")
    rods_deg = 2 * 2 * np.degrees(np.arcsin(15.0 / 2000.0))
    wide = rods_deg + (between_deg if sectors == 1 else 0.0)
    assert ahead_row.figure.value == pytest.approx(wide, abs=0.02)
    assert (ahead_row.answer, ahead_row.required) == ("no", 0.0)


def test_a_radar_before_a_mast_fails_a_ships_single_sector():
    """15.3 degrees astern where 5 is asked, under the 20 in all; 11.46 diameters off, 1375, it is met."""
    (near,), (far,) = (radar_table(a_scene(a_radar(ahead, 1.0))) for ahead in (450.0, 1376.0))
    assert [ask.answer for ask in near.asked] == ["yes", "no", "yes"]
    assert near.asked[1].figure.value == pytest.approx(15.3, abs=0.05)
    assert [ask.answer for ask in far.asked] == ["yes", "yes", "yes"]


@pytest.mark.parametrize(
    ("wide", "away", "degrees"), [(6.0, 200.0, 1.7), (25.0, 250.0, 5.7), (25.0, 150.0, 9.5)]
)
def test_an_antenna_beside_an_all_round_light(wide, away, degrees):
    """2 atan(D / 2d); what is over 6 is said (COLREG Annex I, 9(b))."""
    scene = a_scene(a_light(400.0, "red"), rod("whip", 400.0 + away, wide))
    own, limits = scene.placed["light"], limits_of(scene.layout)
    (margins,) = ARCS.margins(scene, [where_it_stands(own)], limits)
    said = [one for one in findings(ARCS, own, margins, limits) if "whip" in one.subjects]
    assert [one.code for one in said] == (["arcs/dimmed"] if degrees > 6.0 else [])
    if said:
        assert said[0].measured == pytest.approx(degrees, abs=0.1)
    if wide > 20.0:
        assert seen(scene, "light", "whip")[0] == pytest.approx(degrees, abs=0.1)


# -- what is asked of a reflector


@pytest.mark.parametrize(
    ("ahead", "kept", "answers"), [(300.0, 276.9, ["no", "no"]), (2000.0, 296.6, ["yes", "yes"])]
)
def test_what_the_mast_leaves_of_a_reflector(ahead, kept, answers):
    """Stated: 300 degrees, nulls of 5; less the mast's 23.1 or 3.4. Asked: 280, no null over 10."""
    scene = a_scene(
        a_reflector(ahead), echo_x_m2=7.5, echo_s_m2=0.5, echo_arc_deg=300.0, echo_null_deg=5.0,
        echo_apart_deg=20.0, echo_heel_deg=20.0,
    )  # fmt: skip
    (row,) = reflector_table(scene)
    asked = {ask.key: ask for ask in row.asked}
    assert asked["arc"].figure.value == pytest.approx(kept, abs=0.1)
    assert [asked["arc"].answer, asked["null"].answer] == answers
    assert {asked[key].answer for key in ("echo_x", "echo_s", "height", "apart", "heel")} == {"yes"}


# -- the own radar and what it weighs


def test_the_nearest_sea_at_8_metres():
    """Beam of 25: upright 36 m; heeled 10, 8 / tan 22.5 = 19 m to leeward, 8 / tan 2.5 = 183 m to windward.

    The antenna itself comes down by cos 10, 1.5 %. Heeled 15 the sea to windward is not seen at all.
    """
    (row,) = radar_table(a_scene(a_radar(450.0), beam_tall_deg=25.0))
    for key, metres in (
        ("nearest_sea_m", 36.0),
        ("nearest_sea_leeward_m", 19.0),
        ("nearest_sea_windward_m", 183.0),
    ):
        assert row.figures[key].value == pytest.approx(metres, rel=0.02), key
    (row,) = radar_table(a_scene(a_radar(450.0), beam_tall_deg=25.0, on_board={"sailing_heel_deg": 15.0}))
    assert row.figures["nearest_sea_windward_m"].value is None
    assert row.figures["nearest_sea_windward_m"].missing is None


@pytest.mark.parametrize(
    ("kg", "high_m", "tonnes", "raised_mm"), [(6.0, 9.0, 7.0, 7.7), (1.0, 17.0, 8.0, 2.1)]
)
def test_what_a_weight_aloft_does(kg, high_m, tonnes, raised_mm):
    """6 kg at 9 m in 7 t: 7.7 mm; 6 x 9.81 x 9 x sin 20 = 181 N m; 6 x 81 = 486 kg m². 1 kg at 17 m."""
    body = {"shape": "ball", "centre": (0, 0, -MAST_MM / 2), "radius_mm": 50.0}
    kind = a_kind("weight", foot=None, mass_kg=kg, solids=[body])
    scene = a_scene(
        kind, from_masthead_mm=LENGTH_MM - 1000.0 * high_m,
        on_board={"displacement_kg": 1000.0 * tonnes, "gravity_above_water_mm": 0.0},
    )  # fmt: skip
    found = weight_figures(scene, "change")
    assert found["centre_of_gravity_mm"].value == pytest.approx(raised_mm, abs=0.05)
    assert found["roll_inertia_kgm2"].value == pytest.approx(kg * high_m**2, rel=1e-4)
    assert found["heel_moment_nm"].value == pytest.approx(
        kg * 9.81 * high_m * np.sin(np.radians(20.0)), rel=1e-3
    )
