"""The whistle by length class, where it points, ears, and its magnet near the compass."""

import math

import pytest
from builders import a_fitting, a_kind, a_layout

from mastlayout.checks.sound import RULES
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.model.boat import Boat
from mastlayout.model.rig import DeckEnd
from mastlayout.ranges.sound import required_off_axis

AHEAD = {"what": "sound", "from_deg": 300, "to_deg": 60, "name": "ahead"}
# The mouth of a_kind's box is the middle of its front: z 9000, 120 off a skin 100 ahead of the axis.
Z, FORE = 9000.0, 220.0
FAR = DeckEnd(ahead_mm=-6000.0, above_mm=2000.0)


def said(layout):
    """Code, standing, what was measured, and the measure that is missing."""
    scene = build(layout)
    every = [f for rule in RULES for f in rule.findings(scene, limits_of(layout))]
    return [(f.code, f.standing, f.measured and round(f.measured, 3), f.measure) for f in every]


def yacht(*, boat=None, group="sound", **fitting):
    """A horn ahead on a mast of a yacht of 13 m, far from her compass."""
    known = {"name": "Test", "length_overall_mm": 13000.0, "compass_at": FAR}
    horn = {"level_db": 115, "tone_hz": 500} | fitting
    kind = a_kind(group=group, sectors=[AHEAD])
    return a_layout(boat=Boat(**(known | (boat or {}))), kinds=(kind,), fittings=(a_fitting(**horn),))


@pytest.mark.parametrize(
    ("level", "tone", "found"),
    [(115, 500, False), (114, 500, True), (119, 450, True), (120, 450, False), (111, 900, False)],
)
def test_a_whistle_of_her_length(level, tone, found):
    """COLREG Annex III 1(c): 120, 115 or 111 dB by its tone, under 20 m."""
    expected = [("sound/level", "caution", float(level), None)] if found else []
    assert said(yacht(level_db=level, tone_hz=tone)) == expected


@pytest.mark.parametrize(("lacks", "measure"), [("level_db", "sound.level"), ("tone_hz", "sound.tone")])
def test_without_its_plate_it_is_not_checked(lacks, measure):
    """What is new is asked; what has hung there for years is not."""
    assert said(yacht(**{lacks: None})) == [("sound/level", "not checked", None, measure)]
    assert said(yacht(**{lacks: None}, new=False)) == []


def test_under_12_metres_no_whistle_is_asked():
    """COLREG Rule 33(a): some efficient sound signal, which may be blown by mouth."""
    assert said(yacht(boat={"length_overall_mm": 11999.0}, level_db=None)) == []
    unknown = said(yacht(boat={"length_overall_mm": None}))
    assert unknown == [("sound/level", "not checked", None, "boat.length")]


def test_one_whistle_serves():
    """A hailer beside a horn that meets the rule is no whistle, and need not be loud."""
    horn = yacht()
    hailer = a_fitting("hailer", from_masthead_mm=9000.0)
    assert said(horn.but(fittings=(*horn.fittings, hailer))) == []


@pytest.mark.parametrize(("bearing", "found"), [(356.0, False), (355.0, True), (180.0, True)])
def test_a_sole_whistle_points_ahead(bearing, found):
    """COLREG Annex III 1(e). It stands square to the skin, which an ellipse of 200 x 130 turns farther.

    By hand the normal at a bearing b points to atan(tan b x (200/130)²).
    """
    turned = math.degrees(math.atan(math.tan(math.radians(bearing)) * (200 / 130) ** 2))
    off = 180.0 if bearing == 180.0 else abs(turned)
    said_of = said(yacht(girth=f"bearing {bearing:g}"))
    assert said_of == ([("sound/axis", "caution", pytest.approx(off, abs=0.1), None)] if found else [])


@pytest.mark.parametrize(
    ("metres", "level", "expected"),
    [
        (3.163, 120, ("sound/loud", "note", 109.998)),
        (3.161, 120, ("sound/ears", "caution", 110.003)),
        (10.1, 120, None),
        (0.5, 120, ("sound/ears", "caution", 120.0)),  # nearer than 1 m it is no louder than its plate
    ],
)
def test_ears(metres, level, expected):
    """COLREG Annex III 1(e): at most 110 dB(A), 100 so far as practicable.

    120 dB at 1 m are 110 at 3.162 m, by hand.
    """
    ear = DeckEnd(ahead_mm=FORE + 1000.0 * metres, above_mm=Z)
    found = said(yacht(boat={"foredeck_at": ear}, level_db=level, tone_hz=450))
    assert [f[:3] for f in found] == (
        [(*expected[:2], pytest.approx(expected[2], abs=0.002))] if expected else []
    )


@pytest.mark.parametrize(
    ("off", "plate", "expected"),
    [
        (1500.0, 1500.0, []),
        (1499.0, 1500.0, [("sound/compass", "fault", 1499.0, None)]),
        (2999.0, None, [("sound/compass", "not checked", None, "fitting.compass")]),
        (3001.0, None, []),  # farther than the largest figure in print: nobody is sent to read a plate
    ],
)
def test_its_magnet_near_the_compass(off, plate, expected):
    """As ISO 694 measures: from the nearest of it to the middle of the compass; the plate decides."""
    place = DeckEnd(ahead_mm=FORE + off, above_mm=Z)
    found = said(yacht(boat={"compass_at": place}, compass_safe_mm=plate))
    assert [f[:2] for f in found] == [f[:2] for f in expected]
    if expected and expected[0][2] is not None:
        assert found[0][2] == pytest.approx(expected[0][2], abs=0.1)
    assert [f[3] for f in found] == [f[3] for f in expected]


def test_a_compass_nobody_placed():
    """A horn high on the mast is far from any compass; one near the deck asks where it is."""
    nowhere = {"compass_at": None, "deck_above_heel_mm": 0.0}
    assert said(yacht(boat=nowhere)) == []
    low = said(yacht(boat=nowhere, from_masthead_mm=13500.0))
    assert low == [("sound/compass", "not checked", None, "boat.compass")]
    assert said(yacht(boat=nowhere, group="light", from_masthead_mm=13500.0)) == []


def test_beside_its_axis_it_may_give_less():
    """COLREG Annex III 1(d): 4 dB less within 45 degrees of the axis, 10 elsewhere; 115 dB at 500 Hz."""
    scene = build(yacht())
    off = required_off_axis(scene, scene.placed["box-1"])
    assert {key: one.value for key, one in off.items()} == {
        "least_within_45_deg_db": 111.0,
        "least_elsewhere_db": 105.0,
    }
    nowhere = build(yacht(tone_hz=None))
    off = required_off_axis(nowhere, nowhere.placed["box-1"])
    assert {one.missing for one in off.values()} == {"sound.tone"}
