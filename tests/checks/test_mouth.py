"""What stands before a horn's mouth: each grade on a plain mast, its limit, what is not known, and sails."""

import math

import numpy as np
import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_main, a_spreader, a_stay

from mastlayout.checks.mouth import COVERED, SAILS
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places, findings, where_it_stands
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.desk import Desk
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in, limits_of
from mastlayout.model.edits import change
from mastlayout.model.sails import Sail
from mastlayout.ranges.mouth import in_all, in_front
from mastlayout.ranges.rings import mouth_rings
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

AHEAD = {"what": "sound", "from_deg": 300, "to_deg": 60, "name": "ahead"}
AFT = {"what": "sound", "from_deg": 120, "to_deg": 240, "name": "aft"}
# The mouth stands 100 off a skin that is 100 ahead of the mast's axis, 9000 above the heel.
FORE, Z = 200.0, 9000.0


def a_horn(sector=AHEAD):
    """A horn whose mouth is a disc 100 wide."""
    mouth = {"shape": "can", "part": "mouth", "start": (0, 0, 99.5), "end": (0, 0, 100.5), "radius_mm": 50}
    return a_kind("horn", group="sound", foot=None, solids=[mouth], sectors=[sector])


def a_drum(radius, tall, out):
    """An upright drum so far off the skin."""
    body = {"shape": "can", "start": (0, -tall / 2, out), "end": (0, tall / 2, out), "radius_mm": radius}
    return a_kind("drum", group="radar", foot=None, solids=[body])


def a_yacht(*drum, above=0.0, horn=None, sector=AHEAD, girth="ahead", **parts):
    """A horn and, where one is told, a drum (radius, height, off the skin) so far above it."""
    known = {"tone_hz": 700} | (horn or {})
    fittings = [a_fitting("horn-1", kind="horn", in_hand=None, from_masthead_mm=LENGTH_MM - Z, **known)]
    kinds = [a_horn(sector)]
    if drum:
        kinds.append(a_drum(*drum))
        place = {"from_masthead_mm": LENGTH_MM - Z - above, "girth": girth}
        fittings.append(a_fitting("drum-1", kind="drum", in_hand=None, **place))
    return a_layout(kinds=tuple(kinds), fittings=tuple(fittings), **parts)


def said(layout):
    """What is said of mouths, each with a sentence."""
    scene, limits = build(layout), limits_of(layout)
    found = [*SAILS.findings(scene, limits)]
    for placed in scene.placed.values():
        (margins,) = COVERED.margins(scene, [where_it_stands(placed)], limits)
        found += findings(COVERED, placed, margins, limits)
    assert all(sentence(scene, one, names_of(layout)) for one in found)
    return found


def told(layout):
    """Code, standing, subjects and the measure that is missing."""
    return [(one.code, one.standing, one.subjects, one.measure) for one in said(layout)]


BOTH = ("horn-1", "drum-1")


def test_nothing_before_it():
    """Not a thing, and not a radome half a metre above, as on every mast."""
    assert not told(a_yacht())
    assert not told(a_yacht(240.0, 220.0, 400.0, above=525.0))


@pytest.mark.parametrize(
    ("tone", "expected"),
    [
        # 600 wide and tall; a wave is 340 000 / tone: 486 at 700 Hz, 600 at 566.7, 680 at 500.
        (700, [("sound/covered", "caution", BOTH, None)]),
        (567, [("sound/covered", "caution", BOTH, None)]),
        (566, [("sound/before", "note", BOTH, None)]),
        (500, [("sound/before", "note", BOTH, None)]),
        (None, [("sound/covered", "not checked", BOTH, "sound.tone")]),
    ],
)
def test_sound_bends_round_what_is_smaller_than_its_wave(tone, expected):
    """ISO 9613-2, 7.4, from memory: a screen is wider than the wave; nobody guesses a tone."""
    assert told(a_yacht(300.0, 600.0, 1100.0, horn={"tone_hz": tone})) == expected


@pytest.mark.parametrize(("radius", "tall"), [(300.0, 150.0), (75.0, 600.0)])
def test_low_or_narrow_is_no_screen_whatever_the_tone(radius, tall):
    """150 is less than the shortest wave, 162 at 2100 Hz: nobody is sent to read a plate."""
    one = told(a_yacht(radius, tall, 1100.0 if radius > 100 else 700.0, horn={"tone_hz": None}))
    assert one == [("sound/before", "note", BOTH, None)]


# By hand: a drum 1000 before the mouth hides 2 asin(r / 1000) of it; 10 degrees are 87.156.
@pytest.mark.parametrize(("radius", "found"), [(87.1, False), (87.7, True)])
def test_ten_degrees_are_allowed(radius, found):
    """At the limit nothing is said, past it a caution, with what it covers and its bearings."""
    every = said(a_yacht(radius, 400.0, 1100.0, horn={"tone_hz": 2100}))
    assert bool(every) == found
    if found:
        (one,) = every
        assert (one.code, one.required) == ("sound/covered", 10.0)
        assert one.measured == pytest.approx(2 * math.degrees(math.asin(radius / 1000.0)), abs=0.01)
        assert one.state == "355° to 005°"


def test_only_the_90_degrees_before_it():
    """Off the beam a drum covers nothing of them; at their edge what lies within counts."""
    assert not told(a_yacht(300.0, 600.0, 1100.0, girth="bearing 090"))
    # square to an ellipse of 200 x 130 the skin at 020 faces 041
    (one,) = said(a_yacht(300.0, 600.0, 1500.0, girth="bearing 020"))
    assert 10.0 < one.measured < 2 * math.degrees(math.asin(300.0 / 1300.0))


@pytest.mark.parametrize(
    ("sector", "expected"), [(AHEAD, [("sound/before", "note", ("horn-1", "mast"), None)]), (AFT, [])]
)
def test_mast_before_a_horn_on_its_aft_side(sector, expected):
    """What is made to be heard ahead has the mast before it there; a loudspeaker for the cockpit has not.

    A mast 130 by 200 is small against the wave of 700 Hz, 486: sound bends round it.
    """
    assert told(a_yacht(horn={"girth": "bearing 180"}, sector=sector)) == expected


def test_wires_and_struts_are_not_told():
    """Under a fifth of the mouth: an inner stay of 10 before a mouth 100 wide."""
    stay = a_stay(deck={"ahead_mm": 400.0, "above_mm": 0.0}, role="inner")
    assert not [one for one in said(a_yacht(stays=(stay,))) if one.code != "sound/sails"]


def test_spreader_before_a_horn_beside_it():
    """A spreader close before a mouth that looks along it: 30 thick, no whistle's wave is stopped by it."""
    bar = a_spreader(from_masthead_mm=LENGTH_MM - Z, sweep_deg=-80.0)
    layout = a_yacht(spreaders=(bar,))
    assert not told(layout)
    scene = build(layout)
    # It does stand there: its tip is level with the mouth, 18 degrees off its axis.
    ahead, port, up = scene.spreaders["spreader-p"].tip - (FORE, 0.0, Z)
    assert math.degrees(math.atan2(port, ahead)) == pytest.approx(17.0, abs=2.0)
    assert up == pytest.approx(0.0, abs=1.0)


@pytest.mark.parametrize(
    ("radius", "out", "expected"),
    [
        # As near as its own width it stands over the mouth: 2 asin(r / d) passes 45 degrees at r / d = 0.383.
        (75.0, 100.0 + 195.0, "caution"),
        (75.0, 100.0 + 199.0, "note"),
        # Rods and hoops stand before many a horn: 76 wide is under half of the shortest wave.
        (38.0, 200.0, None),
        (41.0, 300.0, "note"),
    ],
)
def test_what_stands_right_over_the_mouth(radius, out, expected):
    """A caution whatever the tone, which need not even be known."""
    for tone in (250, None):
        found = told(a_yacht(radius, 600.0, out, horn={"tone_hz": tone}))
        assert [one[1] for one in found] == ([expected] if expected else [])


def test_same_at_one_place_and_at_many():
    """A horn past a drum finds at each place what it finds alone there."""
    scene = build(a_yacht(300.0, 600.0, 1100.0))
    horn, z = scene.placed["horn-1"], np.linspace(Z - 1500.0, Z + 1500.0, 31)
    places = Places(z, np.full(31, horn.places.around[0]), np.zeros(31), np.zeros(31))
    (many,) = COVERED.margins(scene, [at_places(horn, places)], built_in())
    alone = []
    for i in range(31):
        one = Places(
            *(
                part[i : i + 1]
                for part in (places.along_mm, places.around, places.stand_off_mm, places.turn_deg)
            )
        )
        (own,) = COVERED.margins(scene, [at_places(horn, one)], built_in())
        alone.append(bool(own.short.any()))
    assert many.short.any(axis=1).tolist() == alone
    # 600 tall, and 10 degrees over the 1000 to its middle are 176; the mouth is 100 tall.
    reached = np.abs(z - Z) < 300.0 + 176.0 + 50.0
    assert not many.short.any(axis=1)[~reached].any()
    assert many.short.any(axis=1)[np.abs(z - Z) < 300.0].all()


def test_moving_one_asks_as_checking_anew():
    """A drum past a horn, then the horn itself."""
    desk = Desk(a_yacht(300.0, 600.0, 1100.0))
    for name, from_masthead in (
        ("drum-1", 8300.0),
        ("drum-1", 7400.0),
        ("horn-1", 7500.0),
        ("drum-1", 9000.0),
    ):
        desk.show(change(desk.layout, name, from_masthead_mm=from_masthead))
        fresh = check(build(desk.layout))
        assert desk.report.open == fresh.open


def test_what_a_radome_takes_is_by_the_published_curve():
    """By hand: drum 300 x 600 at 1000; edge 300: N = 2 (1044.03 - 1000) / 485.7 = 0.1813; 8.21 dB."""
    layout = a_yacht(300.0, 600.0, 1100.0)
    scene = build(layout)
    horn = scene.placed["horn-1"]
    (thing,) = in_front(scene, horn, limits_of(layout))
    assert thing.taken.value == pytest.approx(8.21, abs=0.01)
    assert thing.covered.value == pytest.approx(34.915, abs=0.01)
    assert in_all([thing], horn).value == pytest.approx(34.915, abs=0.01)
    # Two that overlap are counted once.
    assert in_all([thing, thing], horn).value == pytest.approx(34.915, abs=0.01)


def test_ring_of_a_horn_is_the_90_degrees_before_it():
    """In the ring picture after lights and antennas: its arc, and what it is behind."""
    scene = build(a_yacht(300.0, 600.0, 1100.0))
    (ring,) = mouth_rings(scene)
    assert [(arc.first_deg, arc.last_deg) for arc in ring.arcs] == [(315.0, 45.0)]
    (thing,) = ring.in_the_way
    assert thing.id == "drum-1"
    assert thing.seen == pytest.approx((-17.458, 17.458), abs=0.001)


# -- sails

HEAD, CLEW, TACK = 1000.0, 15000.0, 15500.0
# A plumb stay 3000 ahead of the axis: its sail swings as a door does and nothing rises.
PLUMB = {
    "upper": {"from_masthead_mm": 500.0, "girth": "ahead", "stand_off_mm": 2900.0},
    "deck": {"ahead_mm": 3000.0, "above_mm": 0.0},
    "sag_mm": 0.0,
}


def a_jib(lp, **fields):
    """A headsail on the plumb stay: its chord falls from LP at the clew to none at the head."""
    known = {"lp_mm": lp, "clew_mm": CLEW, "head_mm": HEAD, "tack_mm": TACK}
    return Sail(id="jib", name="Jib", role="headsail", stay="forestay", **(known | fields))


def under_sail(*sails, **parts):
    """A horn under sails, its level alone asked."""
    limits = parts.pop("limits", ())
    return a_yacht(stays=(a_stay(**PLUMB),), sails=sails, limits=limits, **parts)


def level_only():
    """No band above and below the level."""
    return ({"key": "sound.band", "value": 0.0, "unit": "degrees", "why": "by hand"},)


def test_a_short_jib_covers_what_its_leech_can_reach():
    """By hand: its chord c at 9000 is half its LP of 2000; as far round as asin(c / 2800) on either tack."""
    chord = 2000.0 * (16000.0 - Z) / (16000.0 - 2000.0)
    (one,) = said(under_sail(a_jib(2000.0), limits=level_only()))
    assert (one.code, one.standing, one.subjects) == ("sound/sails", "note", ("horn-1", "jib"))
    # the luff's foil stands some millimetres before the cloth
    foil = built_in()["tack.foil"].value
    expected = math.degrees(math.asin((chord + foil) / (3000.0 - FORE)))
    assert one.measured == pytest.approx(expected, abs=0.05)


def test_a_genoa_covers_all_of_one_side():
    """Its chord reaches past the mouth: half of the 90 degrees, on the lee side."""
    (one,) = said(under_sail(a_jib(7000.0)))
    assert one.measured == 45.0
    assert "under sail in fog" in sentence(build(under_sail()), one, {"horn-1": "Horn", "jib": "Jib"})


def test_a_sail_below_or_above_it_says_nothing():
    """A jib whose head is far below the horn's level."""
    assert not said(under_sail(a_jib(2000.0, head_mm=13000.0)))


@pytest.mark.parametrize("lacks", ["lp_mm", "clew_mm", "head_mm"])
def test_a_sail_nobody_measured_is_not_checked(lacks):
    """The sail is what to measure."""
    every = [one for one in said(under_sail(a_jib(2000.0, **{lacks: None}))) if one.code == "sound/sails"]
    assert [(one.standing, one.subjects) for one in every] == [("not checked", ("jib", "horn-1"))]
    assert every[0].measure


def test_main_is_asked_of_what_points_aft_only():
    """A horn for ships ahead is not told of the mainsail, known or not; a loudspeaker to the cockpit is."""
    unknown = a_main(e_mm=None)
    assert not said(under_sail(unknown))
    (one,) = said(under_sail(unknown, horn={"girth": "bearing 180"}, sector=AFT))
    assert (one.standing, one.subjects) == ("not checked", ("main", "horn-1"))
    (one,) = said(under_sail(a_main(), horn={"girth": "bearing 180"}, sector=AFT))
    assert (one.standing, one.subjects) == ("note", ("horn-1", "main"))


def test_one_note_a_horn_and_nothing_else_of_the_yachts():
    """Nothing of the three yachts stands before a mouth but the headsail, as on every yacht."""
    for path in sorted(demo_masts().glob("*.toml")):
        layout = open_document(path).layout
        horns = [one for one in build(layout).placed.values() if one.kind.group == "sound"]
        found = said(layout)
        assert [one.code for one in found] == ["sound/sails"] * len(horns)
        assert all(one.standing == "note" for one in found)
