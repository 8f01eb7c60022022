"""Lights beside their arcs: each rule with a layout that passes, one that fails, at the limit, unknown."""

import pytest
from asking import found
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast, a_stay

from mastlayout.checks.report import check
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat

ARCS = {
    "red": (247.5, 360.0, "red"),
    "green": (0.0, 112.5, "green"),
    "stern": (112.5, 247.5, "white"),
    "steaming": (247.5, 112.5, "white"),
    "anchor": (0.0, 360.0, "white"),
    "round red": (0.0, 360.0, "red"),
    "round green": (0.0, 360.0, "green"),
    "odd": (0.0, 200.0, "white"),
}
BOAT = {
    "name": "Test",
    "length_overall_mm": 12000.0,
    "heel_above_water_mm": 0.0,
    "deck_above_heel_mm": 1000.0,
    "sheer_above_heel_mm": 1000.0,
    "sidelights_above_heel_mm": 1500.0,
    "sailing_heel_deg": 20.0,
}


def a_light(id, *arcs):  # noqa: A002 - the model's own word
    """A kind of light: its glass 40 high round the foot's height, 60 off the skin."""
    glass = {"shape": "can", "part": "lens", "start": (0, -20, 60), "end": (0, 20, 60), "radius_mm": 30}
    sectors = [
        {"what": "light", "from_deg": ARCS[a][0], "to_deg": ARCS[a][1], "name": a, "colour": ARCS[a][2]}
        for a in arcs
    ]
    return a_kind(id, group="light", foot=None, solids=[glass], sectors=sectors)


KINDS = (
    a_light("steaming", "steaming"),
    a_light("tricolour", "red", "green", "stern"),
    a_light("round-red", "round red"),
    a_light("round-green", "round green"),
    a_light("odd", "odd"),
    a_light("flood"),
    a_light("round-white", "anchor"),
)


def a_yacht(*fittings, boat=None, mast=None, **parts):
    """A yacht of 12 m with lights on the fore face: (kind, height above the heel, other fields)."""
    placed = tuple(
        a_fitting(
            f"{kind}-1",
            kind=kind,
            in_hand=None,
            **({"from_masthead_mm": LENGTH_MM - z, "visible_nm": 3} | fields),
        )
        for kind, z, fields in fittings
    )
    return a_layout(
        boat=Boat(**(BOAT | (boat or {}))), mast=a_mast(**(mast or {})), kinds=KINDS, fittings=placed, **parts
    )


def codes(layout, but=()):
    """Which lights' findings there are, notes left out."""
    report = check(build(layout))
    assert not report.broken
    names = names_of(layout)
    assert all(sentence(report.scene, one, names) for one in report.open)
    own = [one for one in report.open if one.code.startswith("lights/") and one.standing != "note"]
    return sorted((one.code, one.standing) for one in own if one.code not in but)


STEAMING = ("steaming", 8000.0, {})
TRICOLOUR = ("tricolour", 16000.0, {})


def test_a_yacht_with_all_in_order_is_clear():
    """Steaming light, tricolour, everything measured."""
    assert codes(a_yacht(STEAMING, TRICOLOUR)) == []


@pytest.mark.parametrize(
    ("length", "z", "boat", "expected"),
    [
        # 12 m or more: 2.5 m above the gunwale (Annex I, 2(c)).
        (12000.0, 3500.0, {}, []),
        (12000.0, 3499.0, {}, [("lights/masthead", "fault")]),
        (19999.0, 3499.0, {}, [("lights/masthead", "fault")]),
        (12000.0, 3500.0, {"sheer_above_heel_mm": None}, [("lights/masthead", "not checked")]),
        # Under 12 m: 1 m above the sidelights (Annex I, 2(d)); the class begins at 12.0 m.
        (11999.0, 2500.0, {"sidelights_above_heel_mm": 1500.0}, []),
        (11999.0, 2499.0, {"sidelights_above_heel_mm": 1500.0}, [("lights/over_sidelights", "fault")]),
        (11999.0, 2500.0, {"sidelights_above_heel_mm": None}, [("lights/over_sidelights", "not checked")]),
        # 20 m or more: 6 m above the hull (Annex I, 2(a)(i)), whatever the bulwark.
        (20000.0, 7000.0, {"sheer_above_heel_mm": 2500.0}, []),
        (
            20000.0,
            7000.0,
            {"deck_above_heel_mm": None, "sidelights_above_heel_mm": None},
            [("lights/masthead_long", "not checked"), ("lights/sidelights", "not checked")],
        ),
        (20000.0, 7000.0, {}, []),
        (20000.0, 6999.0, {}, [("lights/masthead_long", "fault")]),
        (None, 8000.0, {}, [("lights/height", "not checked"), ("lights/visible", "not checked")]),
    ],
)
def test_height_of_the_steaming_light(length, z, boat, expected):
    """Each class of length has its datum: gunwale, or sidelights."""
    layout = a_yacht(("steaming", z, {"visible_nm": 6}), boat={"length_overall_mm": length} | boat)
    assert codes(layout) == expected


@pytest.mark.parametrize(
    ("sidelights", "expected"),
    [
        (4000.0, []),  # 3 of 4 m above the deck: three quarters
        (4010.0, [("lights/sidelights", "caution")]),
        (None, [("lights/sidelights", "not checked")]),
    ],
)
def test_sidelights_at_most_three_quarters_as_high(sidelights, expected):
    """Annex I, 2(g): above the hull, that is the deck under the light (section 1)."""
    layout = a_yacht(("steaming", 5000.0, {}), boat={"sidelights_above_heel_mm": sidelights})
    assert codes(layout) == expected


@pytest.mark.parametrize(
    ("length", "sidelights", "expected"),
    [
        # 3900 above the deck, the sidelights a metre below it are 2900: three quarters are 2925.
        (12000.0, 3900.0, []),
        (12000.0, 3901.0, [("lights/lantern", "caution")]),
        (19999.0, 3901.0, [("lights/lantern", "caution")]),
        (20000.0, 3901.0, []),
        (12000.0, None, [("lights/sidelights", "not checked")]),
    ],
)
def test_a_combined_lantern_is_a_metre_below(length, sidelights, expected):
    """Annex I, 2(h), under 20 m: whether her sidelights are one lantern nobody asks, so a caution."""
    boat = {"length_overall_mm": length, "sidelights_above_heel_mm": sidelights}
    found_ = codes(a_yacht(("steaming", 4900.0, {"visible_nm": 6}), boat=boat), ("lights/masthead_long",))
    assert found_ == expected


@pytest.mark.parametrize(
    ("length", "more", "expected"),
    [
        (49999.0, (), []),
        (50000.0, (), [("lights/second", "caution")]),
        (50000.0, (("steaming", 12500.0, {"visible_nm": 6}),), []),
        (None, (), [("lights/height", "not checked"), ("lights/visible", "not checked")]),
    ],
)
def test_a_second_steaming_light_from_50_metres(length, more, expected):
    """Rule 23(a)(ii): a vessel of less than 50 m is not obliged to show it."""
    layout = a_yacht(("steaming", 8000.0, {"visible_nm": 6}), *more, boat={"length_overall_mm": length})
    if more:
        first, other = layout.fittings
        layout = layout.but(fittings=(first, other.but(id="steaming-2")))
    assert codes(layout) == expected


def test_only_heights_above_water_wait_for_the_waterline():
    """Gunwale, hull and sidelights are datums of the yacht: no light's rule asks for the waterline."""
    assert codes(a_yacht(STEAMING, TRICOLOUR, boat={"heel_above_water_mm": None})) == []


@pytest.mark.parametrize(
    ("rake", "shim", "expected"),
    [
        (2.0, 0.0, []),
        (2.1, 0.0, [("lights/level", "caution")]),
        (3.0, 3.0, []),
        (3.0, 0.9, [("lights/level", "caution")]),
        (0.0, 2.1, [("lights/level-forward", "caution")]),
        (None, 0.0, [("lights/level", "not checked")]),
    ],
)
def test_rake_eats_the_level_band(rake, shim, expected):
    """A light leans with the mast unless a wedge stands it up."""
    layout = a_yacht(
        ("tricolour", 16000.0, {"shim_deg": shim}),
        ("steaming", 8000.0, {"shim_deg": rake or 0.0}),
        mast={"rake_deg": rake},
    )
    about = [
        one
        for one in found(layout, "lights/level") + found(layout, "lights/level-forward")
        if one.subjects == ("tricolour-1",)
    ]
    assert [(one.code, one.standing) for one in about] == expected


def test_leaning_light_is_told_what_helps():
    """Stands 3 degrees aft: shim the base."""
    layout = a_yacht(TRICOLOUR, mast={"rake_deg": 3.0})
    (one,) = found(layout, "lights/level")
    words = sentence(build(layout), one, names_of(layout))
    assert "stands 3.0° aft of plumb" in words
    assert "Shim the base" in words


@pytest.mark.parametrize(
    ("heel", "expected"),
    [(25.0, []), (25.1, [("lights/heel", "caution")]), (None, [("lights/heel", "not checked")])],
)
def test_heel_of_sailing_within_25_degrees(heel, expected):
    """Annex I, 10(b): half strength to 25 degrees under sail; a steaming light is not asked."""
    assert codes(a_yacht(STEAMING, TRICOLOUR, boat={"sailing_heel_deg": heel})) == expected


@pytest.mark.parametrize(
    ("bearing", "turn", "expected"),
    [("ahead", 0.0, []), ("bearing 002", 0.0, [("lights/turned", "caution")])],
)
def test_light_faces_ahead(bearing, turn, expected):
    """A foot round the mast turns the arc's ends with it."""
    assert codes(a_yacht(("steaming", 8000.0, {"girth": bearing, "turn_deg": turn}))) == expected


@pytest.mark.parametrize(
    ("length", "plate", "expected"),
    [
        (11900.0, 2, []),
        (12000.0, 2, [("lights/visible", "fault")]),
        (12000.0, 3, []),
        (12000.0, None, [("lights/visible", "not checked")]),
    ],
)
def test_range_on_the_plate(length, plate, expected):
    """Rule 22: a masthead light 3 NM from 12.0 m on, 2 below; nobody guesses a plate."""
    assert (
        codes(a_yacht(("steaming", 8000.0, {"visible_nm": plate}), boat={"length_overall_mm": length}))
        == expected
    )


@pytest.mark.parametrize(("length", "expected"), [(19999.0, []), (20000.0, [("lights/tricolour", "fault")])])
def test_tricolour_under_20_m(length, expected):
    """Rule 25(b): less than 20 m; 20.0 m belongs to the upper class."""
    layout = a_yacht(("steaming", 9000.0, {"visible_nm": 6}), TRICOLOUR, boat={"length_overall_mm": length})
    assert codes(layout) == expected


def test_tricolour_never_with_red_over_green():
    """Rule 25(c): both may be there, on a switch that allows one."""
    pair = (("round-red", 14500.0, {}), ("round-green", 13500.0, {}))
    layout = a_yacht(STEAMING, TRICOLOUR, *pair)
    assert codes(layout) == [("lights/together", "caution")]
    (one,) = found(layout, "lights/together")
    assert one.subjects == ("tricolour-1", "round-red-1", "round-green-1")


@pytest.mark.parametrize(
    ("red", "green", "expected"),
    [
        (14500.0, 13500.0, []),
        (14499.0, 13500.0, [("lights/apart", "fault")]),
        (13500.0, 14500.0, [("lights/apart", "fault")]),
        (4000.0, 3000.0, []),
        (3999.0, 2999.0, [("lights/lowest", "fault")]),
    ],
)
def test_red_a_metre_above_green(red, green, expected):
    """Annex I, 2(i): a metre apart, the lower 2 m above the gunwale."""
    assert codes(a_yacht(STEAMING, ("round-red", red, {}), ("round-green", green, {}))) == expected


@pytest.mark.parametrize(
    ("length", "red", "green", "boat", "expected"),
    [
        # 20 m or more: two metres apart, the lower four above the hull (from memory).
        (20000.0, 14500.0, 12500.0, {}, []),
        (20000.0, 14499.0, 12500.0, {}, [("lights/apart", "fault")]),
        (20000.0, 7000.0, 5000.0, {}, []),
        (20000.0, 6999.0, 4999.0, {}, [("lights/lowest_long", "fault")]),
        (19999.0, 4000.0, 3000.0, {}, []),
        (12000.0, 4000.0, 3000.0, {"sheer_above_heel_mm": None}, [("lights/lowest", "not checked")]),
        (None, 4000.0, 3000.0, {}, [("lights/apart", "not checked")]),
    ],
)
def test_red_over_green_by_length(length, red, green, boat, expected):
    """Annex I, 2(i): each class has its distances and its datum."""
    lights = (("round-red", red, {}), ("round-green", green, {}))
    found_ = codes(a_yacht(*lights, boat={"length_overall_mm": length} | boat), ("lights/visible",))
    assert found_ == expected


@pytest.mark.parametrize(
    ("length", "more", "expected"),
    [
        (12000.0, (), ("lights/no-steaming", "caution")),
        (11999.0, (), ("lights/power-small", "caution")),
        (7000.0, (), ("lights/power-small", "caution")),
        (6999.0, (), ("lights/power-tiny", "note")),
        # Rule 23(d)(i): an all-round white light with the sidelights, under 12 m only.
        (11999.0, (("round-white", 16500.0, {}),), ("lights/power-white", "note")),
        (12000.0, (("round-white", 16500.0, {}),), ("lights/no-steaming", "caution")),
        (6999.0, (STEAMING,), ("lights/power", "note")),
    ],
)
def test_what_a_tricolour_leaves_for_motoring(length, more, expected):
    """Rule 23: a tricolour is for sailing; what she shows under power goes by her length."""
    layout = a_yacht(TRICOLOUR, *more, boat={"length_overall_mm": length})
    every = [one for one in check(build(layout)).open if "/power" in one.code or "/no-" in one.code]
    assert [(one.code, one.standing) for one in every] == [expected]


def test_length_unknown_a_tricolour_is_not_checked():
    """Neither whether she may show it nor, taken at its loudest, what serves under power."""
    assert codes(a_yacht(TRICOLOUR, boat={"length_overall_mm": None}), ("lights/visible",)) == [
        ("lights/no-steaming", "caution"),
        ("lights/tricolour", "not checked"),
    ]


def test_red_over_green_without_a_tricolour_is_clear():
    """Rule 25(c) asks only that she does not show both."""
    pair = (("round-red", 14500.0, {}), ("round-green", 13500.0, {}))
    assert codes(a_yacht(STEAMING, *pair)) == []


def test_no_flood_no_note():
    """One is named; two are named together; none says nothing."""
    assert not found(a_yacht(STEAMING), "lights/flood")
    one = ("flood", 6000.0, {})
    layout = a_yacht(STEAMING, one, one)
    own = layout.fittings
    layout = layout.but(fittings=(*own[:2], own[2].but(id="flood-2")))
    assert [each.subjects for each in found(layout, "lights/floods")] == [("flood-1", "flood-2")]


def test_tricolour_and_floods_are_noted_once():
    """For sailing only; for work on deck only."""
    layout = a_yacht(STEAMING, TRICOLOUR, ("flood", 6000.0, {}))
    assert [one.standing for one in found(layout, "lights/power")] == ["note"]
    assert [one.subjects for one in found(layout, "lights/flood")] == [("flood-1",)]


def test_arc_of_no_rule():
    """200 degrees is no arc of Rule 21."""
    assert codes(a_yacht(("odd", 9000.0, {}))) == [("lights/arc", "caution")]


@pytest.mark.parametrize(
    ("above", "expected"),
    [
        (700.0, []),
        (585.5, []),
        (580.0, [("lights/foredeck", "caution")]),
        (500.0, [("lights/foredeck", "caution")]),
    ],
)
def test_low_steaming_light_dazzles(above, expected):
    """7.5 degrees down over 4.44 m to the pulpit is 584 mm: lower, the band itself lights the foredeck.

    Angles are held to a twentieth of a degree, here 4 mm.
    """
    layout = a_yacht(
        ("steaming", 4000.0 + above, {}),
        stays=(a_stay(deck={"ahead_mm": 4600.0, "above_mm": 4000.0}, length_mm=13747.0),),
    )
    assert codes(layout) == expected


def test_a_forestay_nobody_measured_leaves_the_foredeck_open():
    """Where its lower end is nobody knows: neither does anybody how far below the light the pulpit is."""
    layout = a_yacht(("steaming", 4600.0, {}), stays=(a_stay(deck=None),))
    assert codes(layout) == [("lights/foredeck", "not checked")]
