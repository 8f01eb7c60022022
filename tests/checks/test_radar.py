"""Reflectors and the own radar as a rigger sees them: passes, fails, at the limit, and what is not known."""

import known
import numpy as np
import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_main, a_mast, a_stay

from mastlayout.checks.radar import BEAMS, SHADOWS
from mastlayout.checks.reflector import HIDDEN
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places, where_it_stands
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.arcs import hull_edges
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in
from mastlayout.model.boat import Boat
from mastlayout.model.edits import change
from mastlayout.model.sails import Sail
from mastlayout.ranges.own_radar import radar_table

PAPERS = {
    "echo_x_m2": 7.5, "echo_s_m2": 0.5, "echo_arc_deg": 300.0, "echo_null_deg": 10.0,
    "echo_apart_deg": 20.0, "echo_heel_deg": 20.0,
}  # fmt: skip
ROUND = {"from_deg": 0.0, "to_deg": 360.0, "name": "all round"}
DEEP_MM, WIDE_MM = 200.0, 130.0


def a_source(what, out, radius, **fields):
    """A can so far off the skin that sends back or looks out; no foot, nothing that holds it."""
    body = {"shape": "can", "start": (0, -100, out), "end": (0, 100, out), "radius_mm": radius}
    group = "reflector" if what == "echo" else "radar"
    return a_kind(what, group=group, foot=None, solids=[body], sectors=[{"what": what} | ROUND], **fields)


def with_one(kind, *others, boat=None, high_mm=8000.0, kinds=(), **fields):
    """A mast, its heel on the water, with one such thing ahead."""
    own = a_fitting(
        "own", kind=kind.id, in_hand=None, from_masthead_mm=LENGTH_MM - high_mm, new=False, **fields
    )
    known = {"name": "Test", "heel_above_water_mm": 0.0, "sailing_heel_deg": 10.0}
    return a_layout(
        boat=Boat(**(known | (boat or {}))), mast=a_mast(), kinds=(kind, *kinds), fittings=(own, *others)
    )


def a_reflector(*, out=2000.0, radius=100.0, corner=None, **fields):
    """A layout with a reflector, far enough off the mast unless told otherwise."""
    boat, high = fields.pop("boat", None), fields.pop("high_mm", 8000.0)
    return with_one(a_source("echo", out, radius, corner=corner), boat=boat, high_mm=high, **fields)


def said(layout):
    """What is said of reflectors and radars, by code."""
    report = check(build(layout))
    assert not report.broken
    return {one.code: one for one in report.open if one.code.startswith(("reflector/", "radar/"))}


# -- reflector


def test_reflector_that_meets_it_all_says_nothing():
    """Each of its papers' figures exactly at what MSC.164(78) asks."""
    assert said(a_reflector(**PAPERS)) == {}


@pytest.mark.parametrize(
    ("field", "value", "code"),
    [
        ("echo_x_m2", 7.4, "reflector/echo_x"),
        ("echo_s_m2", 0.4, "reflector/echo_s"),
        ("echo_arc_deg", 279.0, "reflector/arc"),
        ("echo_null_deg", 10.5, "reflector/null"),
        ("echo_apart_deg", 19.0, "reflector/apart"),
        ("echo_heel_deg", 19.0, "reflector/heel"),
    ],
)
def test_each_row_that_fails_is_told(field, value, code):
    """One finding for the reflector: the row that fails, a caution."""
    (one,) = said(a_reflector(**(PAPERS | {field: value}))).values()
    assert (one.code, one.standing) == (code, "caution")
    assert one.measured == pytest.approx(value)


@pytest.mark.parametrize("field", list(PAPERS))
def test_a_row_nobody_read_is_not_checked(field):
    """What the papers do not say is neither met nor failed."""
    (one,) = said(a_reflector(**(PAPERS | {field: None}))).values()
    assert (one.standing, one.measure) == ("not checked", "fitting.echo")


def test_a_formula_proves_a_failure_but_no_success():
    """Corners of 150 mm have 2.1 m² at their best; of 300 mm 33 m², but who knows over how much."""
    small = {"shape": "triangular", "edge_mm": 150.0}
    (one,) = said(a_reflector(corner=small)).values()
    assert (one.code, one.standing) == ("reflector/echo_x", "caution")
    assert one.measured == pytest.approx(2.089, abs=0.001)
    (one,) = said(a_reflector(corner=small | {"edge_mm": 300.0})).values()
    assert one.standing == "not checked"


def test_a_tall_stack_fails_at_her_heel():
    """A stack 600 tall with 300 mm corners: 33 m² upright, next to nothing at 20 degrees."""
    stack = {"shape": "triangular", "edge_mm": 300.0, "tall_mm": 600.0}
    (one,) = said(a_reflector(corner=stack)).values()
    assert (one.code, one.required) == ("reflector/stack", 20.0)
    # what its papers say goes before the formula
    assert said(a_reflector(corner=stack, **PAPERS)) == {}


def test_heel_is_asked_by_the_hull():
    """MSC.164(78): 10 degrees for multihulls, 20 for other sailing yachts."""
    ten = PAPERS | {"echo_heel_deg": 10.0}
    assert said(a_reflector(boat={"hull": "multihull"}, **ten)) == {}
    assert set(said(a_reflector(**ten))) == {"reflector/heel"}


@pytest.mark.parametrize(("high", "codes"), [(4000.0, set()), (3999.0, {"reflector/height"})])
def test_height_above_the_water(high, codes):
    """4 m, the middle of it."""
    assert set(said(a_reflector(high_mm=high, **PAPERS))) == codes


def test_height_waits_for_the_waterline_alone():
    """Waterline unknown: the height is not checked, the rest is."""
    (one,) = said(a_reflector(boat={"heel_above_water_mm": None}, **PAPERS)).values()
    assert (one.code, one.standing, one.measure) == ("reflector/height", "not checked", "boat.water")


def test_mast_hides_a_slim_reflector_behind_it():
    """A tube of 50 its axis 100 ahead of the fore face: by hand, from the middle less half its width.

    The ellipse 200 x 130 from (200, 0): its tangents touch where x = 100² / 200; grown by −25 each side.
    """
    (one,) = said(a_reflector(out=100.0, radius=25.0, **PAPERS)).values()
    assert (one.code, one.standing) == ("reflector/hidden", "caution")
    angle = np.linspace(0.0, 2 * np.pi, 200_001)
    x, y = 100.0 * np.cos(angle), 65.0 * np.sin(angle)
    away = np.hypot(200.0 - x, y)
    half = np.degrees((np.arcsin(y / away) - np.arcsin(25.0 / away)).max())
    # the mast's outline is asked by 36 of its points, which lie within it
    assert one.measured == pytest.approx(2 * half, abs=0.8)
    assert one.subjects == ("own", "mast")


def test_far_off_or_wide_it_is_not_hidden():
    """Wider than the mast nothing covers it whole; 2 m off the mast is narrower than 10 degrees."""
    assert said(a_reflector(out=200.0, radius=115.0, **PAPERS)) == {}
    assert said(a_reflector(out=1000.0, radius=20.0, **PAPERS)) == {}


# -- own radar


def a_radar(*others, out=345.0, radius=235.0, kinds=(), **fields):
    """A layout with a radome ahead, its beam 25 degrees unless told otherwise."""
    given = {"beam_tall_deg": 25.0, "beam_wide_deg": 5.2, "mean_power_w": 2.4} | fields
    boat = given.pop("boat", None)
    return with_one(a_source("radar", out, radius), *others, boat=boat, kinds=kinds, **given)


def test_mast_behind_a_radome_is_a_note():
    """130 wide behind 470: dim over 2 arcsin of the point rule, never blind; every yacht's is so."""
    (one,) = said(a_radar()).values()
    assert (one.code, one.standing) == ("radar/dimmed", "note")
    assert one.subjects == ("own", "mast")
    angle = np.linspace(0.0, 2 * np.pi, 200_001)
    x, y = 100.0 * np.cos(angle), 65.0 * np.sin(angle)
    half = np.degrees(np.arctan2(y, 445.0 - x).max())
    assert one.measured == pytest.approx(2 * half, abs=0.1)


@pytest.mark.parametrize(("width", "distance", "degrees"), [
    (0.3, 1.0, 17.254), (0.15, 0.5, 17.254), (0.15, 1.0, 8.602), (0.2, 0.4, 28.955), (0.05, 0.3, 9.56),
])  # fmt: skip
def test_blind_arc_of_a_round_thing(width, distance, degrees):
    """2 arcsin(d / 2 r); the first row read (a mast of 0.3 m at 1 m hides 17 degrees), the rest by hand."""
    first, last = hull_edges(np.array([[0.0]]), np.array([[-distance]]), np.array([[width / 2]]), 0.0)
    assert last[0] - first[0] == pytest.approx(degrees, abs=0.01)


def a_thing(group, bearing_deg, away_mm, above_mm, radius=40.0, tall=200.0):
    """Another fitting at the radar's height, so far from the antenna at a bearing from it."""
    ahead = away_mm * np.cos(np.radians(bearing_deg))
    starboard = away_mm * np.sin(np.radians(bearing_deg))
    out = 345.0 + ahead
    body = {
        "shape": "can",
        "start": (-starboard, above_mm - tall / 2, out),
        "end": (-starboard, above_mm + tall / 2, out),
        "radius_mm": radius,
    }
    kind = a_kind("thing", group=group, foot=None, solids=[body])
    own = a_fitting("thing-1", kind="thing", in_hand=None, from_masthead_mm=LENGTH_MM - 8000.0, new=False)
    return own, kind


def test_what_stands_before_the_radar_forward():
    """A post 150 wide 600 off covers a third of the antenna over 14 degrees: a caution forward."""
    post, kind = a_thing("bracket", 30.0, 600.0, 0.0, radius=75.0)
    found_ = said(a_radar(post, kinds=(kind,)))
    one = found_["radar/ahead"]
    assert (one.standing, one.subjects) == ("caution", ("own", "thing-1"))
    assert one.measured == pytest.approx(2 * np.degrees(np.arcsin(75.0 / 600.0)), abs=0.01)
    assert "023° to 037°" in one.state


def test_a_thin_post_is_not_told():
    """60 wide before 470 covers an eighth: less than a fifth says nothing."""
    post, kind = a_thing("bracket", 30.0, 600.0, 0.0, radius=30.0)
    assert "radar/ahead" not in said(a_radar(post, kinds=(kind,)))


def test_what_hides_all_of_a_small_antenna():
    """A board 400 wide 700 off abaft the beam before an antenna of 160: dark 2 arcsin((200 − 80) / 700)."""
    post, kind = a_thing("bracket", 140.0, 700.0, 0.0, radius=200.0)
    one = said(a_radar(post, kinds=(kind,), radius=80.0, out=345.0))["radar/hidden"]
    assert one.standing == "caution"
    assert one.measured == pytest.approx(2 * np.degrees(np.arcsin(120.0 / 700.0)), abs=0.01)


@pytest.mark.parametrize(
    ("group", "code", "standing"), [("antenna", "radar/receiver", "caution"), ("camera", "radar/lit", "note")]
)
def test_what_stands_in_the_beam(group, code, standing):
    """Half a metre off, level: a receiver is a caution, another thing with electronics a note."""
    other, kind = a_thing(group, 60.0, 600.0, 0.0, radius=10.0)
    one = said(a_radar(other, kinds=(kind,)))[code]
    assert one.standing == standing
    assert one.measured == pytest.approx(600.0, abs=0.1)


@pytest.mark.parametrize(
    ("group", "away", "above"),
    [
        ("bracket", 600.0, 0.0),
        ("antenna", 1001.0, 0.0),
        ("antenna", 600.0, 600.0),
        ("antenna", 600.0, -600.0),
    ],
)
def test_what_the_beam_does_not_hurt(group, away, above):
    """Metal without electronics, what is a metre off, what is above or below 12.5 degrees of the antenna."""
    other, kind = a_thing(group, 60.0, away, above, radius=10.0)
    assert not {"radar/lit", "radar/receiver"} & set(said(a_radar(other, kinds=(kind,))))


def test_edge_of_the_beam():
    """600 off a beam of 25 has climbed 133 over an antenna that reaches 100 (asked to 80): 190 is met."""
    for above, met in ((190.0, True), (360.0, False)):
        other, kind = a_thing("antenna", 60.0, 600.0, above, radius=10.0, tall=100.0)
        assert ("radar/receiver" in said(a_radar(other, kinds=(kind,)))) == met, above


@pytest.mark.parametrize(("heel", "codes"), [(12.4, set()), (12.5, {"radar/heel"}), (20.0, {"radar/heel"})])
def test_heel_past_half_the_beam(heel, codes):
    """At half its beam the sea to windward is lost."""
    found_ = said(a_radar(boat={"sailing_heel_deg": heel}))
    assert set(found_) - {"radar/dimmed"} == codes


def test_catamaran_has_a_heel_of_her_own():
    """8 degrees, where nobody typed another; a monohull's is not checked."""
    assert "radar/heel" not in said(a_radar(boat={"sailing_heel_deg": None, "hull": "multihull"}))
    one = said(a_radar(boat={"sailing_heel_deg": None}))["radar/heel"]
    assert (one.standing, one.measure) == ("not checked", "boat.sailing_heel")


def test_a_beam_nobody_read_is_not_checked():
    """Neither the heel nor what the beam meets."""
    found_ = said(a_radar(beam_tall_deg=None))
    assert {code for code, one in found_.items() if one.standing == "not checked"} == {
        "radar/heel", "radar/lit", "radar/sails",
    }  # fmt: skip


# -- arrays, drags, yachts


@pytest.mark.parametrize("rule", [HIDDEN, SHADOWS, BEAMS])
@pytest.mark.parametrize("make", [lambda: a_reflector(out=100.0, radius=25.0, **PAPERS), a_radar])
def test_many_places_are_asked_as_one_is(rule, make):
    """At 40 places the margins are those of 40 scenes."""
    layout, limits = make(), built_in()
    scene = build(layout)
    own = scene.placed["own"]
    heights = np.linspace(2000.0, 16500.0, 40)
    places = Places(heights, np.full(40, own.places.around[0]), np.zeros(40), np.zeros(40))
    (many,) = rule.margins(scene, [at_places(own, places)], limits)
    for i in (0, 13, 39):
        moved = build(change(layout, "own", from_masthead_mm=LENGTH_MM - float(heights[i])))
        (one,) = rule.margins(moved, [where_it_stands(moved.placed["own"])], limits)
        told = {name: float(one.measured[0, k]) for k, name in enumerate(one.subjects) if one.short[0, k]}
        ours = {name: float(many.measured[i, k]) for k, name in enumerate(many.subjects) if many.short[i, k]}
        assert ours == pytest.approx(told, abs=0.05)


def test_a_drag_says_what_a_new_check_says():
    """The thing in the beam moves: the report built on the one before is the report built anew."""
    other, kind = a_thing("antenna", 60.0, 600.0, 0.0, radius=10.0)
    layout = a_radar(other, kinds=(kind,))
    before = check(build(layout))
    for height in (8100.0, 8400.0, 12000.0, 8000.0):
        layout = change(layout, "thing-1", from_masthead_mm=LENGTH_MM - height)
        before = check(build(layout, before.scene), before)
        assert set(before.open) == set(check(build(layout)).open)


@pytest.fixture(scope="module")
def yachts():
    """What is said on the three yachts, by code and subjects."""
    return known.reports()


def test_yachts_as_a_rigger_sees_them(yachts):
    """Common practice, no source: a small tube adds little, and close to the mast it is hidden by it.

    A radome before the mast is dim astern: a note, never more; its own bracket and guard say nothing.
    """
    told = {
        name: {
            (one.code, *one.subjects) for one in report.open if one.code.startswith(("reflector/", "radar/"))
        }
        for name, report in yachts.items()
    }
    assert told["whimbrel"] == {
        ("reflector/echo_x", "reflector-1"),
        ("radar/dimmed", "radome-1", "mast"),
        ("radar/heel", "radome-1"),
        ("radar/sails", "radome-1", "genoa", "jib", "staysail", "main"),
    }
    assert told["sanderling"] == {
        ("reflector/echo_x", "reflector-1"),
        ("reflector/hidden", "reflector-1", "mast"),
        ("radar/dimmed", "radome-1", "mast"),
        ("radar/sails", "radome-1", "genoa", "main"),
    }
    assert told["turnstone"] == {
        ("reflector/echo_x", "reflector-1"),
        ("reflector/hidden", "reflector-1", "mast"),
    }


def test_sentences_name_thing_figures_and_bearings(yachts):
    """What, where, how much, what helps."""
    report = yachts["sanderling"]
    (one,) = (found_ for found_ in report.open if found_.code == "reflector/hidden")
    text = sentence(report.scene, one, names_of(report.scene.layout))
    assert text.startswith("Radar reflector, tube: Mast hides it over 26.9°, 10.0° is allowed: 167° to 193°")


# -- sails in the beam

# A plumb stay 5000 ahead of the axis, straight: its sail swings as a door does.
PLUMB = {
    "upper": {"from_masthead_mm": 500.0, "girth": "ahead", "stand_off_mm": 4900.0},
    "deck": {"ahead_mm": 5000.0, "above_mm": 0.0},
    "sag_mm": 0.0,
}
OFF_MM = 5000.0 - 100.0 - 345.0


def under_sail(*sails, **fields):
    """A radome 445 ahead of the axis, 8000 above the heel, under sails."""
    return a_radar(**fields).but(stays=(a_stay(**PLUMB),), sails=sails)


def a_jib(**fields):
    """A jib as long as it is at its clew all the way up to 14 000, no luff leans: LP 2000."""
    known = {"lp_mm": 2000.0, "clew_mm": 15000.0, "head_mm": 3000.0, "tack_mm": 15500.0}
    return Sail(id="jib", name="Jib", role="headsail", stay="forestay", **(known | fields))


def met_by(layout):
    """The sails a radar's beam meets: state, bearings, heights."""
    (row,) = radar_table(build(layout))
    return row.met


def test_jib_in_the_beam_by_hand():
    """Its chord falls from 2000 at 2000 to none at 14 000; the beam reaches 12.5 degrees to either side.

    Seen widest just where its leech touches a line from the antenna, by scipy over heights in the beam.
    """
    (one,) = [each for each in met_by(under_sail(a_jib())) if not each.state.sagged]
    foil = built_in()["tack.foil"].value

    def chord(z):
        return 2000.0 * (14000.0 - z) / 12000.0 + foil

    def seen(z):
        """How far round a door of that chord is seen which is far enough off to be in the beam there."""
        beyond, c = abs(z - 8000.0) / np.tan(np.radians(12.5)), chord(z)
        touch = np.arcsin(c / OFF_MM)
        if beyond <= OFF_MM * np.cos(touch):
            return np.degrees(touch)
        cosine = (OFF_MM**2 + beyond**2 - c**2) / (2 * OFF_MM * beyond)
        return np.degrees(np.arccos(cosine)) if abs(cosine) <= 1 else 0.0

    expected = max(seen(z) for z in np.arange(6000.0, 10001.0, 5.0))
    assert one.port_deg == pytest.approx(expected, abs=0.2)
    assert one.starboard_deg == pytest.approx(one.port_deg, abs=1e-6)
    # The luff itself is 4555 off: 1010 above and below the antenna; cloth farther off no farther than that.
    assert one.high_mm == pytest.approx(8000.0 + OFF_MM * np.tan(np.radians(12.5)), abs=51.0)
    assert one.luff_deg == pytest.approx(0.0, abs=1e-6)


def test_sails_in_the_beam_are_one_note():
    """So it is on every yacht: the radar, its sails, the bearings of each; no figure, no limit."""
    one = said(under_sail(a_jib(), a_main()))["radar/sails"]
    assert (one.standing, one.subjects, one.measured) == ("note", ("own", "jib", "main"), None)
    assert one.state.startswith("Jib: 3")
    # A boom free to 70 degrees, no twist: its leech amidships 4000 aft is seen 20 degrees and more off aft.
    assert "; Main: 1" in one.state


def test_mainsail_in_the_beam_by_hand():
    """Eased to 70 degrees at the track 108 aft of the axis, its leech: seen from 445 ahead of it."""
    (one,) = met_by(under_sail(a_main(twist_deg=0.0)))
    luff = build(under_sail(a_main())).main.luff
    bearings = []
    for z in np.arange(6500.0, 9501.0, 50.0):
        part = (z - 1500.0) / 14000.0
        chord = np.interp(part, [0, 0.25, 0.5, 0.75, 0.875, 1], [4000, 3200, 2300, 1300, 700, 150])
        for r in np.linspace(0.0, chord, 400):
            x = luff[0] - r * np.cos(np.radians(70.0)) - 445.0
            y = r * np.sin(np.radians(70.0))
            if np.hypot(x, y) >= abs(z - 8000.0) / np.tan(np.radians(12.5)):
                bearings.append(np.degrees(np.arctan2(y, -x)))
    assert one.port_deg == pytest.approx(max(bearings), abs=0.2)
    assert one.luff_deg % 360.0 == pytest.approx(180.0)


@pytest.mark.parametrize("sails", [(), (a_jib(head_mm=12000.0),)])
def test_no_sail_in_the_beam_says_nothing(sails):
    """No sail, and one whose head is 3000 below the radar: its beam passes 1000 over it."""
    assert "radar/sails" not in said(under_sail(*sails))
    assert met_by(under_sail(*sails)) == ()


def test_edge_of_the_beam_at_a_sail():
    """The head at the beam's lower edge where the luff crosses it, 1010 below, is met; 60 lower it is not.

    Cloth is asked at heights 50 apart.
    """
    edge = 8000.0 - OFF_MM * np.tan(np.radians(12.5))
    for above, met in ((60.0, True), (-60.0, False)):
        jib = a_jib(head_mm=LENGTH_MM - edge - above)
        assert bool([one for one in met_by(under_sail(jib)) if not one.state.sagged]) == met, above


def test_sails_wait_for_their_measures_and_the_beam():
    """A sail nobody measured, and a beam nobody read: not checked, and no sail is told."""
    one = said(under_sail(a_jib(lp_mm=None)))["radar/sails"]
    assert (one.standing, one.subjects, one.measure) == ("not checked", ("jib", "own"), "sail.lp")
    one = said(under_sail(a_jib(), beam_tall_deg=None))["radar/sails"]
    assert (one.standing, one.measure) == ("not checked", "fitting.beam")


def test_a_receiver_at_the_limit():
    """Nearer than 1000 a receiver in the beam is a caution; at 1000 it is not."""
    for away, met in ((999.0, True), (1000.0, False)):
        other, kind = a_thing("antenna", 60.0, away, 0.0, radius=10.0)
        assert ("radar/receiver" in said(a_radar(other, kinds=(kind,)))) == met
