"""What hides or dims a light, as a rigger sees it: three yachts, each grade on a plain mast, its edges."""

import known
import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_kind, a_layout, a_mast

from mastlayout.checks.arcs import ARCS
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places, where_it_stands
from mastlayout.checks.sentence import names_of, short
from mastlayout.desk import Desk
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in
from mastlayout.model.edits import change

STERN = [
    {"what": "light", "from_deg": 247.5, "to_deg": 360.0, "name": "port", "colour": "red"},
    {"what": "light", "from_deg": 0.0, "to_deg": 112.5, "name": "starboard", "colour": "green"},
    {"what": "light", "from_deg": 112.5, "to_deg": 247.5, "name": "stern", "colour": "white"},
]
ROUND = [{"what": "light", "from_deg": 0.0, "to_deg": 360.0, "name": "round", "colour": "white"}]
POST_MM = 300.0


def a_lamp(sectors, width=60.0, low=300.0, high=340.0):
    """A lamp on a post over the masthead, its glass a can."""
    glass = {
        "shape": "can",
        "part": "lens",
        "start": (0, 0, low),
        "end": (0, 0, high),
        "radius_mm": width / 2,
    }
    post = {"shape": "can", "start": (0, 0, 0), "end": (0, 0, low), "radius_mm": 10}
    return a_kind("lamp", group="light", foot=None, solids=[post, glass], sectors=sectors)


def a_pole(width, high=400.0):
    """A pole standing beside it."""
    body = {"shape": "can", "start": (0, 0, 0), "end": (0, 0, high), "radius_mm": width / 2}
    return a_kind("pole", group="antenna", foot=None, solids=[body])


def a_head(lamp, pole, bearing_deg, away_mm, **mast):
    """A plate on the masthead with a lamp over the mast's axis and a pole at a bearing from it."""
    aft, port = -away_mm * np.cos(np.radians(bearing_deg)), -away_mm * np.sin(np.radians(bearing_deg))
    # On the fore face: across is to port, along up, out ahead; the axis lies 100 abaft the face.
    mounts = [
        {"name": "lamp", "at": (0, 0, -100), "facing": "up"},
        {"name": "pole", "at": (port, 0, -100 - aft), "facing": "up"},
    ]
    plate = a_kind("plate", group="masthead", foot=None, solids=[], mounts=mounts)
    fittings = (
        a_fitting("plate-1", kind="plate", from_masthead_mm=0.0, in_hand=None, new=False),
        a_fitting(
            "lamp-1", kind="lamp", on="plate-1", mount="lamp", from_masthead_mm=None, girth=None, in_hand=None
        ),
        a_fitting(
            "pole-1", kind="pole", on="plate-1", mount="pole", from_masthead_mm=None, girth=None, in_hand=None
        ),
    )
    return a_layout(mast=a_mast(**mast), kinds=(plate, lamp, pole), fittings=fittings)


def arcs_of(report):
    """What a report says of arcs."""
    assert not report.broken
    return [one for one in report.open if one.code.startswith("arcs/")]


def said(layout):
    """What is said of the arcs of a layout."""
    return arcs_of(check(build(layout)))


@pytest.fixture(scope="module")
def reports():
    """The reports of the three yachts."""
    return known.reports()


def test_narrow_thing_dims():
    """25 wide at 220, 210 degrees, before a lens of 60: 42 % of it, no dark arc: asin((b + w) / d)."""
    (one,) = said(a_head(a_lamp(STERN), a_pole(25.0), 210.0, 220.0))
    assert (one.code, one.standing) == ("arcs/dimmed", "caution")
    assert one.subjects == ("lamp-1", "pole-1")
    # at least a fifth of the lens is covered while the pole is within 12.5 + 0.6 x 30 of the line of sight
    assert one.measured == pytest.approx(2 * np.degrees(np.arcsin(30.5 / 220.0)), abs=0.01)
    assert "sternlight, 202° to 218°, 42 % of the lens" in one.state


def test_a_square_lens_is_as_wide_as_a_round_one():
    """A box 60 wide: 25 before it are 42 % of it, as of a glass of 60."""
    lamp = a_lamp(STERN)
    glass = {"shape": "box", "part": "lens", "centre": (0, 0, 320), "size": (60, 60, 40)}
    square = a_kind("lamp", group="light", foot=None, solids=[lamp.solids[0], glass], sectors=STERN)
    (one,) = said(a_head(square, a_pole(25.0), 210.0, 220.0))
    assert "sternlight, 202° to 218°, 42 % of the lens" in one.state


def test_wide_thing_hides():
    """80 wide at 220: dark while it covers the whole lens, 2 asin((40 - 30) / 220)."""
    (one,) = said(a_head(a_lamp(STERN), a_pole(80.0), 180.0, 220.0))
    assert (one.code, one.standing) == ("arcs/hidden", "fault")
    assert one.measured == pytest.approx(2 * np.degrees(np.arcsin(10.0 / 220.0)), abs=0.01)


@pytest.mark.parametrize(
    ("bearing", "code"), [(112.5, "arcs/edge"), (119.0, "arcs/edge"), (128.0, "arcs/hidden")]
)
def test_end_of_an_arc_comes_first(bearing, code):
    """Dark within 5 degrees of where two lights meet is another matter than dark in the midst of one."""
    (one,) = said(a_head(a_lamp(STERN), a_pole(80.0), bearing, 220.0))
    assert (one.code, one.standing) == (code, "fault")


def test_below_or_beyond_is_clear():
    """A pole that ends well below the band of 5 degrees hides nothing, nor does one as thin as a wire."""
    assert not said(a_head(a_lamp(STERN), a_pole(80.0, high=270.0), 180.0, 220.0))
    assert not said(a_head(a_lamp(STERN), a_pole(11.9), 180.0, 220.0))
    assert said(a_head(a_lamp(STERN), a_pole(12.1), 180.0, 220.0))


def test_just_below_the_lens_is_within_its_band():
    """220 away 5 degrees below the level is 19 lower: what ends there still darkens the band."""
    (one,) = said(a_head(a_lamp(STERN), a_pole(80.0, high=300.0), 180.0, 220.0))
    assert one.code == "arcs/dimmed"


def test_what_is_level_with_the_lower_half_hides_the_band_below():
    """5 degrees below the level is 52 lower at 600: from there all of the lens is covered."""
    (one,) = said(a_head(a_lamp(STERN), a_pole(80.0, high=321.0), 180.0, 600.0))
    assert one.code == "arcs/hidden"


@pytest.mark.parametrize(
    ("width", "expected"), [(22.9, []), (23.3, ["arcs/anchor"]), (120.0, ["arcs/anchor"])]
)
def test_anchor_light_is_a_caution_only(width, expected):
    """Annex I, 9(b): 6 degrees at 220 is 23.03 wide; an anchor light need not be impracticably high."""
    found = said(a_head(a_lamp(ROUND), a_pole(width), 180.0, 220.0))
    assert [one.code for one in found] == expected
    assert all(one.standing == "caution" for one in found)


@pytest.mark.parametrize(("width", "expected"), [(82.9, "arcs/dimmed"), (83.3, "arcs/hidden")])
def test_any_other_all_round_light_is_bound(width, expected):
    """Wholly hidden over more than 6 degrees: 60 + 23.03 wide at 220 with a lens of 60."""
    red = [ROUND[0] | {"colour": "red"}]
    (one,) = said(a_head(a_lamp(red), a_pole(width), 180.0, 220.0))
    assert one.code == expected
    assert one.required == 6.0


def beside(above_mm):
    """A steaming light and a dome ahead of it, the underside of the dome so far and 40 above its foot."""
    dome = {"shape": "can", "start": (0, 40, 400), "end": (0, 240, 400), "radius_mm": 230}
    glass = {"shape": "can", "part": "lens", "start": (0, -27, 62), "end": (0, 27, 62), "radius_mm": 43}
    ahead = [{"what": "light", "from_deg": 247.5, "to_deg": 112.5, "name": "steaming", "colour": "white"}]
    kinds = (
        a_kind("steaming", group="light", foot=None, solids=[glass], sectors=ahead),
        a_kind("dome", group="radar", foot=None, solids=[dome]),
    )
    fittings = (
        a_fitting("steaming-1", kind="steaming", from_masthead_mm=9000.0, in_hand=None),
        a_fitting("dome-1", kind="dome", from_masthead_mm=9000.0 - above_mm, in_hand=None),
    )
    return a_layout(kinds=kinds, fittings=fittings)


@pytest.mark.parametrize(("above", "codes"), [(0.0, ["arcs/dimmed"]), (-140.0, ["arcs/hidden"]), (120.0, [])])
def test_radome_over_a_steaming_light(above, codes):
    """Its underside 13 over the glass it takes the top of the band; level it is dark; higher, clear."""
    found = said(beside(above))
    assert [one.code for one in found] == codes
    assert all(one.subjects == ("steaming-1", "dome-1") for one in found)


def test_mast_behind_a_steaming_light_is_outside_its_arc(reports):
    """105 off the skin the mast lies within the 135 degrees astern; its own hoop is the maker's."""
    for report in reports.values():
        assert not [one for one in arcs_of(report) if "steaming-light" in one.subjects]


def test_light_on_the_side_of_a_mast_is_dark_to_the_other():
    """A tricolour screwed to the starboard side: the mast hides the other side of it."""
    lamp = a_lamp(STERN, low=-20.0, high=20.0)
    layout = a_layout(
        kinds=(lamp,),
        fittings=(a_fitting("lamp-1", kind="lamp", girth="bearing 090", stand_off_mm=100.0, in_hand=None),),
    )
    (one,) = said(layout)
    # The dark side is to port, where port sidelight and sternlight meet.
    assert (one.code, one.subjects) == ("arcs/edge", ("lamp-1", "mast"))


def test_planted_whip_and_what_it_must_not_be_called(reports):
    """The loading coil level with the lens dims the sternlight about bearing 210, and does not hide it."""
    report = reports["whimbrel"]
    one = next(one for one in report.open if one.subjects == ("tricolour-1", "vhf-whip-1"))
    assert (one.code, one.standing) == ("arcs/dimmed", "caution")
    assert "sternlight, 202° to 218°, 42 %" in one.state
    words = short(report.scene, one, names_of(report.scene.layout))
    assert words.startswith("Tricolour and anchor light: VHF whip dims it over 16.")


def test_only_what_stands_in_the_way_is_named(reports):
    """No stay, spreader or thing below the masthead is named of the three yachts' lights."""
    for report in reports.values():
        named = {one.subjects[1] for one in arcs_of(report)}
        assert named <= {"vhf-whip-1", "wind-1"}


def test_same_at_one_place_and_at_many(reports):
    """A light at many places finds at each what it finds alone there."""
    scene = reports["whimbrel"].scene
    light = scene.placed["steaming-light"]
    z = np.linspace(5800.0, 9000.0, 40)
    places = Places(z, np.full(40, light.places.around[0]), np.zeros(40), np.zeros(40))
    many = ARCS.margins(scene, [at_places(light, places)], built_in())[0]
    for i in range(40):
        alone = Places(
            *(
                part[i : i + 1]
                for part in (places.along_mm, places.around, places.stand_off_mm, places.turn_deg)
            )
        )
        one = ARCS.margins(scene, [at_places(light, alone)], built_in())[0]
        mine = {s: g for s, g in zip(one.subjects, one.grade[0], strict=True) if g}
        theirs = {s: g for s, g in zip(many.subjects, many.grade[i], strict=True) if g}
        assert mine == theirs
    assert many.short.any(axis=1).any()
    assert not many.short.any(axis=1).all()


def test_moving_one_thing_asks_as_checking_anew():
    """What a drag says of lights is what a fresh check says: a dome past a light, then the light itself."""
    desk = Desk(beside(0.0))
    for name, from_masthead in (
        ("dome-1", 9140.0),
        ("dome-1", 9500.0),
        ("steaming-1", 9400.0),
        ("dome-1", 8000.0),
    ):
        layout = change(desk.layout, name, from_masthead_mm=from_masthead)
        desk.show(layout)
        assert arcs_of(desk.report) == arcs_of(check(build(layout)))


def test_layout_without_lights_is_not_asked():
    """A box has no arcs."""
    scene = build(a_layout())
    (margins,) = ARCS.margins(scene, [where_it_stands(scene.placed["box-1"])], built_in())
    assert not margins.subjects
    assert not found(a_layout(), "arcs/hidden")
