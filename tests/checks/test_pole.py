"""Poles, set and stowed: each grade on a plain mast, at the limit, by hand, and on the three yachts."""

import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout, a_spreader, a_stay

from mastlayout.checks import pole_rig
from mastlayout.checks.pole import POLE
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places, findings, where_it_stands
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in, limits_of
from mastlayout.model.boat import Boat
from mastlayout.model.edits import change
from mastlayout.model.layout import LimitOverride
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import Pole
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

BOAT = Boat(name="Test", heel_above_water_mm=0.0, deck_above_heel_mm=0.0)
# The mast of the builders is 17,000 long, its fore face 100 ahead of the axis.
RING_Z, AHEAD, RADIUS, TILT = 1500.0, 50.0, 40.0, np.radians(20)


def a_pole(**fields):
    """A pole of 80 on a fixed ring 1500 above the heel, its eye 50 off the fore face, stowed on deck."""
    known = {
        "id": "pole",
        "name": "Pole",
        "length_mm": 4000.0,
        "diameter_mm": 80.0,
        "ring_from_mm": 17000.0 - RING_Z,
        "ring_to_mm": 17000.0 - RING_Z,
        "ring_ahead_mm": AHEAD,
        "stowed_on": "deck",
        "chock_fore": DeckEnd(ahead_mm=3000.0, off_mm=900.0, above_mm=100.0),
        "chock_aft": DeckEnd(ahead_mm=-1000.0, off_mm=900.0, above_mm=100.0),
    }
    return Pole(**(known | fields))


def a_ring(z_mm=RING_Z, **fields):
    """What the pole is made fast to."""
    return a_fitting("ring", kind="ring", from_masthead_mm=17000.0 - z_mm, **fields)


KINDS = (a_kind(), a_kind("ring", group="pole"), a_kind("cleat", group="deck"), a_kind("lamp", group="light"))


def with_pole(*fittings, **fields):
    """A plain mast with a pole, its ring and some fittings."""
    parts = {"stays": (), "limits": ()}
    parts |= {key: fields.pop(key) for key in ("stays", "spreaders", "limits", "boat") if key in fields}
    return a_layout(
        **({"boat": BOAT} | parts), kinds=KINDS, fittings=(a_ring(), *fittings), poles=(a_pole(**fields),)
    )


def of_pole(layout):
    """What is said of poles, sorted by code."""
    report = check(build(layout))
    assert not report.broken
    return sorted((one for one in report.open if one.code.startswith("pole/")), key=lambda one: one.code)


def box_above(gap_mm, kind="box", **fields):
    """A box ahead, 100 across, 80 high, 120 proud: its lower fore corners are so far above a tilted pole.

    By hand: the corners are 120 off the face, 70 beyond the eye, and 50 aside, so 86 from the eye; the
    pole's upper side is there 86 tan 20 + 40 / cos 20 above the ring's height.
    """
    lowest = RING_Z + np.hypot(70, 50) * np.tan(TILT) + (RADIUS + gap_mm) / np.cos(TILT)
    return a_fitting("box-1", kind=kind, from_masthead_mm=17000.0 - lowest - 40.0, **fields)


def test_a_pole_that_meets_nothing_says_nothing():
    """Its own ring is not asked."""
    assert of_pole(with_pole(box_above(60.0))) == []


@pytest.mark.parametrize(
    ("gap", "said"), [(20.4, None), (19.0, "pole/near"), (1.0, "pole/near"), (-3.0, "pole/strikes")]
)
def test_at_the_limit_by_hand(gap, said):
    """20 is wanted: above it nothing, below it a note, touched a fault; to the fan's flat sides."""
    told = of_pole(with_pole(box_above(gap)))
    assert [one.code for one in told] == ([said] if said else [])
    for one in told:
        assert one.measured == pytest.approx(gap, abs=0.6)
        assert one.measured <= gap + 0.01
        assert one.standing == ("fault" if gap < 0 else "note")
        assert one.state in ("set to port", "set to starboard")


def test_what_works_there_is_knocked_not_broken():
    """A cleat in the way is a caution; a lamp a fault."""
    (cleat,) = of_pole(with_pole(box_above(-5.0, "cleat")))
    (lamp,) = of_pole(with_pole(box_above(-5.0, "lamp")))
    assert (cleat.code, cleat.standing) == ("pole/knocks", "caution")
    assert (lamp.code, lamp.standing) == ("pole/strikes", "fault")


def test_a_pole_squared_back_passes_what_stands_abaft_its_ring():
    """Ninety degrees from ahead its middle is 150 ahead of the axis: a box on the side reaches 50 ahead.

    Told that it goes to 115 it meets the box; the owner's measure holds over the setting.
    """
    side = a_fitting("box-1", from_masthead_mm=17000.0 - RING_Z, girth="bearing 90", in_hand=a_foot())
    assert of_pole(with_pole(side)) == []
    (said,) = of_pole(with_pole(side, squared_deg=115.0))
    assert (said.code, said.state) == ("pole/strikes", "set to starboard")


def test_a_pole_that_is_never_tilted_passes_a_box_above():
    """The measured tilt holds over the setting, and the setting is the owner's to change."""
    low = box_above(-5.0)
    assert of_pole(with_pole(low, tilt_deg=0.0)) == []
    flat = LimitOverride(key="pole.tilt", value=0.0, unit="degrees", why="it is set level")
    assert of_pole(with_pole(low, limits=(flat,))) == []


def test_a_longer_run_strikes_what_a_fixed_ring_leaves():
    """The ring's run is swept, not its ends alone."""
    layout = with_pole(a_fitting("box-1", from_masthead_mm=17000.0 - 3000.0))
    assert of_pole(layout) == []
    track = a_kind(
        "ring", group="pole", solids=[{"shape": "box", "centre": (0, 0, 10), "size": (30, 3200, 20)}]
    )
    ring = a_ring(3000.0)
    whole = a_pole(ring_from_mm=17000.0 - 4500.0, ring_to_mm=17000.0 - 1500.0)
    layout = layout.but(kinds=(a_kind(), track), fittings=(ring, layout.fittings[1]), poles=(whole,))
    assert [one.code for one in of_pole(layout)] == ["pole/strikes"]


@pytest.mark.parametrize(
    ("field", "measure"),
    [
        ("diameter_mm", "pole.diameter"),
        ("ring_ahead_mm", "pole.ring"),
        ("stowed_on", "pole.stowed"),
        ("chock_aft", "pole.chocks"),
    ],
)
def test_what_is_not_known_of_a_pole_is_asked_for(field, measure):
    """Once, by its measure; and what it would touch is never called clear."""
    said = of_pole(with_pole(box_above(60.0), **{field: None}))
    assert [(one.code, one.standing, one.measure) for one in said] == [("pole/known", "not checked", measure)]


@pytest.mark.parametrize(
    ("on", "measures"), [("mast", ["pole.stowed_ahead", "pole.stowed_top"]), ("track", ["pole.stowed_ahead"])]
)
def test_what_is_not_known_of_its_stowage(on, measures):
    """Each way to stow asks for its own measures."""
    said = of_pole(with_pole(stowed_on=on))
    assert sorted(one.measure for one in said if one.code == "pole/known") == measures


# Stowed along the mast: 60 ahead of the face, its after side 20 off it.
STOWED = {"stowed_on": "mast", "stowed_top_mm": 17000.0 - 6000.0, "stowed_ahead_mm": 60.0}


@pytest.mark.parametrize(
    ("proud", "kind", "said"), [(0.0, "box", "pole/presses"), (0.0, "cleat", "pole/rests")]
)
def test_a_stowed_pole_against_what_stands_along_it(proud, kind, said):
    """A box 120 proud on the fore face, 4 m up: the pole, its after side 20 off the face, lies 100 in it."""
    layout = with_pole(a_fitting("box-1", kind=kind, from_masthead_mm=13000.0, stand_off_mm=proud), **STOWED)
    (one,) = of_pole(layout)
    assert (one.code, one.state) == (said, "stowed along the mast")
    assert one.standing == ("fault" if kind == "box" else "caution")
    assert one.measured < -75.0


def test_above_and_below_the_stowed_pole_nothing_is_said():
    """It ends at 6000 and 2000."""
    above = a_fitting("box-1", from_masthead_mm=17000.0 - 6000.0 - 40.0 - 40.0 - 21.0)
    below = a_fitting("box-2", from_masthead_mm=17000.0 - 2000.0 + 40.0 + 40.0 + 25.0)
    assert of_pole(with_pole(above, below, **STOWED)) == []


def test_a_pole_hung_on_its_track_by_hand():
    """Its inner end stays 50 ahead on the car, hoisted to 4.5 m; its foot stands 300 ahead.

    By hand: level it goes 250 out over 4 m, so 3 m up, 1.5 m down, it is 144 off the face.
    """
    track = a_kind(
        "ring", group="pole", solids=[{"shape": "box", "centre": (0, 0, 10), "size": (30, 3200, 20)}]
    )
    pole = {
        "stowed_on": "track",
        "stowed_ahead_mm": 300.0,
        "ring_from_mm": 12500.0,
        "tilt_deg": 0.0,
        "squared_deg": 0.0,
    }
    off = 50 + 250 * 1500 / np.sqrt(4000**2 - 250**2)
    post = a_kind("post", solids=[{"shape": "ball", "centre": (0, 0, 50), "radius_mm": 30.0}])
    fitting = a_fitting("post-1", kind="post", from_masthead_mm=14000.0)
    layout = with_pole(fitting, **pole).but(
        kinds=(track, post),
        fittings=(a_ring(3000.0), fitting),
        limits=(LimitOverride(key="pole.near", value=40.0, unit="mm", why="a bent pole"),),
    )
    layout = layout.but(poles=(layout.poles[0].but(ring_to_mm=12500.0),))
    (one,) = (said for said in of_pole(layout) if said.subjects[0] == "post-1")
    # Square to the leaning pole.
    assert one.measured == pytest.approx((off - 50) * np.cos(np.arcsin(250 / 4000)) - 30 - 40, abs=0.3)
    assert one.state == "stowed on its track"


def test_many_places_at_once_say_what_each_alone_says():
    """As the search over places asks."""
    scene = build(with_pole(box_above(-5.0), **STOWED))
    placed, limits = scene.placed["box-1"], built_in()
    heights = np.linspace(1300.0, 6300.0, 40)
    zeros = np.zeros(40)
    places = Places(heights, np.full(40, float(placed.places.around[0])), zeros, zeros)
    (every,) = POLE.margins(scene, [at_places(placed, places)], limits)
    for i, z in enumerate(heights):
        one = Places(np.array([z]), places.around[:1], zeros[:1], zeros[:1])
        (alone,) = POLE.margins(scene, [at_places(placed, one)], limits)
        assert every.measured[i] == pytest.approx(alone.measured[0], abs=0.01)
    assert where_it_stands(placed).places.along_mm[0] == placed.places.along_mm[0]


# -- stays, ring, room


def test_a_forestay_within_reach_is_a_note_by_hand():
    """Upright at 3000 ahead of the ring, it is passed by 4000 + 40 + 5 less 3000."""
    stay = a_stay(
        upper={"from_masthead_mm": 200.0, "girth": "ahead", "stand_off_mm": 3050.0},
        deck={"ahead_mm": 3150.0, "above_mm": 0.0},
    )
    (said,) = of_pole(with_pole(stays=(stay,)))
    assert (said.code, said.standing) == ("pole/forestay", "note")
    assert said.measured == pytest.approx(-1045.0, abs=0.5)
    assert (
        of_pole(
            with_pole(
                stays=(stay,),
                length_mm=2940.0,
                chock_fore=DeckEnd(ahead_mm=1940.0, off_mm=900.0, above_mm=100.0),
            )
        )
        == []
    )


@pytest.mark.parametrize(
    ("removable", "said"), [(False, ("pole/inner", "caution")), (True, ("pole/taken-off", "note"))]
)
def test_an_end_that_hits_a_baby_stay(removable, said):
    """Fixed it is in the way in each gybe; one that is taken off is told of."""
    baby = a_stay(
        "baby",
        role="inner",
        removable=removable,
        upper={"from_masthead_mm": 9000.0, "girth": "ahead"},
        deck={"ahead_mm": 1800.0, "above_mm": 0.0},
    )
    (one,) = of_pole(with_pole(stays=(baby,)))
    assert (one.code, one.standing) == said
    assert one.subjects == ("pole", "baby")


@pytest.mark.parametrize(("ahead", "standing"), [(400.0, "note"), (1100.0, "caution")])
def test_a_shroud_that_stops_the_pole_by_hand(ahead, standing):
    """Wires 1000 out: atan2 of how far out and how far ahead of the ring, less what both are thick."""
    wires = [
        a_stay(
            name, role="lower", side=side, deck={"ahead_mm": ahead, "off_mm": 1000.0, "above_mm": 0.0},
            upper={"from_masthead_mm": 9000.0, "girth": f"bearing {bearing}", "stand_off_mm": 0.0},
        )
        for name, side, bearing in (("lower-p", "port", 280), ("lower-s", "starboard", 80))
    ]  # fmt: skip
    (said,) = of_pole(with_pole(stays=wires, tilt_deg=0.0))
    points = build(with_pole(stays=wires)).stays["lower-p"].points
    part = (RING_Z + np.array([-RADIUS, RADIUS]) - points[1, 2]) / (points[0, 2] - points[1, 2])
    there = points[1] + part[:, None] * (points[0] - points[1])
    bearings = np.degrees(
        np.arctan2(there[:, 1], there[:, 0] - 150.0)
        - np.arcsin(45.0 / np.hypot(there[:, 0] - 150.0, there[:, 1]))
    )
    assert said.measured == pytest.approx(bearings.min(), abs=0.2)
    assert (said.code, said.standing, said.unit) == ("pole/shroud", standing, "deg")
    assert set(said.subjects) == {"pole", "lower-p", "lower-s"}


@pytest.mark.parametrize(
    ("from_", "to", "said"),
    [(15500.0, 15500.0, []), (15400.0, 15500.0, [60.0]), (15410.5, 15589.5, []), (15300.0, 15700.0, [160.0])],
)
def test_a_run_beyond_every_ring_by_hand(from_, to, said):
    """The ring's box stands 40 up and down of 15500; 50 beyond is allowed."""
    told = [one for one in of_pole(with_pole(ring_from_mm=from_, ring_to_mm=to)) if one.code == "pole/ring"]
    assert [one.measured for one in told] == pytest.approx(said)


def test_a_pole_without_a_ring_is_not_checked():
    """Nor with one that stands on the side."""
    bare = with_pole().but(fittings=())
    assert [one.code for one in of_pole(bare)] == ["pole/no-ring"]
    aside = with_pole().but(fittings=(a_ring(girth="bearing 60"),))
    assert [one.code for one in of_pole(aside)] == ["pole/no-ring"]


def test_a_ring_out_of_reach_of_the_pole():
    """A ring 1500 up and a pole of 1400: its end never comes to the deck."""
    short = {"length_mm": 1400.0, "chock_aft": DeckEnd(ahead_mm=1600.0, off_mm=900.0, above_mm=100.0)}
    (said,) = of_pole(with_pole(**short))
    assert (said.code, said.standing, said.measured, said.required) == (
        "pole/reach",
        "caution",
        1500.0,
        1400.0,
    )
    at_limit = {"length_mm": 1500.0, "chock_aft": DeckEnd(ahead_mm=1500.0, off_mm=900.0, above_mm=100.0)}
    assert of_pole(with_pole(**at_limit)) == []


@pytest.mark.parametrize(("top", "said"), [(4000.0, []), (3999.0, ["pole/long"])])
def test_a_stowed_pole_needs_its_length_above_the_deck(top, said):
    """Four metres of pole along four metres of mast, and a millimetre less."""
    layout = with_pole(**(STOWED | {"stowed_top_mm": 17000.0 - top}))
    assert [one.code for one in of_pole(layout)] == said


def test_a_deck_of_unknown_height_is_asked_for():
    """Whether it fits nobody can say."""
    layout = with_pole(boat=Boat(name="Test", heel_above_water_mm=0.0), **STOWED)
    assert [one.measure for one in of_pole(layout)] == ["boat.deck"]


def test_ends_on_deck_that_are_farther_apart_than_the_pole_is_long():
    """By 60, where 50 is allowed."""
    (said,) = of_pole(with_pole(chock_aft=DeckEnd(ahead_mm=-1060.0, off_mm=900.0, above_mm=100.0)))
    assert (said.code, said.measured) == ("pole/chocks", pytest.approx(60.0))


@pytest.mark.parametrize(("off", "said"), [(965.0, []), (960.0, ["note"]), (940.0, ["caution"])])
def test_a_pole_on_deck_lies_against_a_shroud(off, said):
    """A wire of 10, upright, with its middle so far out and the pole of 80 at 900: by hand 20, 15 and -5."""
    wire = a_stay(
        "cap",
        role="cap",
        side="port",
        upper={"from_masthead_mm": 200.0, "girth": "bearing 270", "stand_off_mm": off - 65.0},
        deck={"ahead_mm": 0.0, "off_mm": off, "above_mm": 0.0},
    )
    found_ = [
        one for one in of_pole(with_pole(stays=(wire,), squared_deg=20.0)) if one.code == "pole/lies-on"
    ]
    assert [one.standing for one in found_] == said
    if said:
        assert found_[0].measured == pytest.approx(off - 945.0, abs=0.1)


def test_a_pole_stowed_on_the_mast_against_a_strut():
    """A strut ahead, 4 m up, is run through."""
    strut = a_spreader("strut", role="strut", side="centre", from_masthead_mm=13000.0, length_mm=400.0)
    (said,) = [one for one in of_pole(with_pole(spreaders=(strut,), **STOWED)) if one.code == "pole/lies-on"]
    assert (said.subjects, said.standing) == (("pole", "strut"), "caution")


# -- the three yachts


def of_yacht(layout):
    """What the rules of poles alone say of a layout, by code: the others take a second a yacht."""
    scene, limits = build(layout), limits_of(layout)
    found_ = [one for rule in pole_rig.RULES for one in rule.findings(scene, limits)]
    placed = list(scene.placed.values())
    every = POLE.margins(scene, [where_it_stands(one) for one in placed], limits)
    for one, own in zip(placed, every, strict=True):
        found_ += findings(POLE, one, own, limits)
    return sorted(found_, key=lambda one: one.code)


@pytest.fixture(scope="module")
def yachts():
    """The three yachts, as they are."""
    return {path.stem: open_document(path).layout for path in sorted(demo_masts().glob("*.toml"))}


def test_what_a_rigger_is_told_of_the_yachts_poles(yachts):
    """Notes alone: no fitting of theirs is in a pole's way, and Sanderling has a sprit, no pole.

    The forestay is within reach of any pole as long as J, forward lowers stop it, an inner stay comes
    off first.
    """
    said = {name: [(one.code, one.standing) for one in of_yacht(layout)] for name, layout in yachts.items()}
    assert said == {
        "whimbrel": [("pole/forestay", "note"), ("pole/shroud", "note"), ("pole/taken-off", "note")],
        "turnstone": [("pole/forestay", "note")],
        "sanderling": [],
    }


def test_whimbrels_pole_against_her_wires_by_hand(yachts):
    """Off the figures of her stays.

    Forestay, wire 10, from (4652, 1759) to (133, 17080): from the car's ring at its highest, 56 ahead of
    the face (103) and 5850 up, it is (4652 - 4091 x 4519 / 15321 - 159) cos 16.43 = 3152 away, and a
    pole of 4550 and 70 reaches 4590. Forward lower, wire 8: (481, 1490, 1578) to (30, 75, 6900);
    lowest ring 2950, 20 degrees down.
    """
    said = {one.code: one for one in of_yacht(yachts["whimbrel"])}
    assert said["pole/forestay"].measured == pytest.approx(-(4590 - 3152), abs=2.0)
    assert said["pole/shroud"].measured == pytest.approx(77.0, abs=0.5)


@pytest.mark.parametrize(
    ("reading", "girth", "said"),
    [(12500.0, "bearing 45", "pole/strikes"), (9685.0, "ahead", None), (10600.0, "bearing 270", None)],
)
def test_a_horn_beside_whimbrels_pole_track(yachts, reading, girth, said):
    """Beside the track a horn 170 proud is struck; where it is, above the car, and athwart, it is not."""
    layout = yachts["whimbrel"]
    horn = next(fitting for fitting in layout.fittings if "horn" in fitting.id)
    moved = change(layout, horn.id, from_masthead_mm=reading, girth=_around(girth))
    codes = [one.code for one in of_yacht(moved) if one.subjects[0] == horn.id]
    assert codes == ([said] if said else [])


def _around(text):
    """A place round the mast from its words."""
    return a_fitting(girth=text).girth


def test_an_edit_asks_again_what_it_can_touch():
    """A pole that is edited, a ring and a box that move: the report is what a fresh one would be."""
    before = with_pole(box_above(60.0), **STOWED)
    scene = build(before)
    report = check(scene)
    for edited in (
        before.but(poles=(before.poles[0].but(tilt_deg=60.0),)),
        change(before, "ring", from_masthead_mm=14000.0),
        change(before, "box-1", from_masthead_mm=15000.0),
    ):
        again, fresh = check(build(edited, scene), report), check(build(edited))
        assert set(again.open) == set(fresh.open) != set(report.open)


def test_words_of_every_finding_are_there():
    """One of each rule's codes is put in a sentence elsewhere; here that a fault names pole and state."""
    layout = with_pole(box_above(-5.0))
    scene = build(layout)
    (one,) = found(layout, "pole/strikes")
    text = sentence(scene, one, names_of(layout))
    assert "box-1: Pole, set to" in text
    assert "strikes it, 5" in text
