"""The mainsail as a rigger sees it: three yachts, each grade on a plain mast, what is not known."""

import known
import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_kind, a_layout, a_main, a_mast, a_stay

from mastlayout.checks import main
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places
from mastlayout.checks.sentence import names_of, short
from mastlayout.geometry.main.carried import missing_of_carried
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in
from mastlayout.model.edits import remove
from mastlayout.model.sails import Halyard, LinePoint, Reef
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

# What a rigger must be told, and why (common practice, no source).
MUST_BE_FOUND = [
    # On the aft face, proud of the groove: the cloth lies on them as soon as the boom goes out.
    ("whimbrel", "camera-1", "main/bears", "fault"),
    ("sanderling", "camera-1", "main/bears", "fault"),
    # and headboard or receptacles meet them on every hoist.
    ("whimbrel", "camera-1", "main/carried", "fault"),
    ("sanderling", "camera-1", "main/carried", "fault"),
    # Under a spreader, on the way of a main that is eased and full of wind.
    ("whimbrel", "flood-p", "main/presses", "caution"),
    # Under a swept spreader: the head flogs there on its way up, and glass breaks.
    ("sanderling", "flood-s", "main/whips", "fault"),
    # Hangs abaft a swept spreader: gear that works there, so the sail is patched.
    ("turnstone", "flag-block", "main/gear", "caution"),
]
# What the sail lives with on every mast: a note at most.
ONLY_RUBS = [
    ("whimbrel", "tang-runner-p"),  # 18 proud, round edges
    ("whimbrel", "spreader-bracket-lower-p"),
    ("whimbrel", "lazy-jack-eye-p"),
    ("turnstone", "lazy-jack-eye-s"),
    ("turnstone", "spreader-socket-p"),
]
# Never named: ahead of all cloth, beside the mast's own shade, above the head or below the boom.
CLEAR = [
    ("whimbrel", "hailer-1"),  # fore face
    ("whimbrel", "radome-1"),
    ("whimbrel", "exit-main"),  # at bearing 110, 12 proud
    ("whimbrel", "winch-p"),  # below the boom
    ("whimbrel", "gooseneck"),  # the sail is set on it, and cut to clear it
    ("whimbrel", "sheaves-aft"),  # above the head
    ("sanderling", "lazy-jack-block-p"),
    ("sanderling", "gooseneck"),
    ("sanderling", "crane"),
    ("turnstone", "vang-eye"),
]


@pytest.fixture(scope="module")
def reports():
    """The reports of the three yachts."""
    return known.reports()


def by_main(report, name):
    """What is said of the mainsail and a fitting."""
    return [one for one in report.open if one.code.startswith("main/") and one.subjects[0] == name]


@pytest.mark.parametrize(("yacht", "name", "code", "standing"), MUST_BE_FOUND)
def test_what_a_rigger_must_be_told(reports, yacht, name, code, standing):
    """Each once, graded, with the state in which it is worst."""
    (said,) = [one for one in by_main(reports[yacht], name) if one.code == code]
    assert said.standing == standing
    assert said.state


@pytest.mark.parametrize(("yacht", "name"), ONLY_RUBS)
def test_what_lies_close_to_the_skin_makes_no_more_than_a_note(reports, yacht, name):
    """Tangs, brackets and eyes are on every mast."""
    assert {one.standing for one in by_main(reports[yacht], name)} <= {"note"}


@pytest.mark.parametrize(("yacht", "name"), CLEAR)
def test_what_no_mainsail_reaches_is_not_named(reports, yacht, name):
    """Out of the way of all cloth, or what the sail itself is set on."""
    assert by_main(reports[yacht], name) == []


def test_every_finding_has_its_words(reports):
    """No finding of the mainsail is left without a sentence."""
    for report in reports.values():
        names = names_of(report.scene.layout)
        for one in report.open:
            if one.code.startswith("main/"):
                assert len(short(report.scene, one, names)) > 20


def a_part(size=(100, 80, 120), group="sound", edge=0.0, **fields):
    """A box of a size, standing on the skin."""
    solid = {"shape": "box", "centre": (0, 0, size[2] / 2), "size": size, "edge_radius_mm": edge, **fields}
    return a_kind(group=group, solids=[solid])


def on_aft_face(kind=None, main_sail=None, stays=(), **fields):
    """What is said of a box in the middle of the aft face, or where a test puts it."""
    fitting = a_fitting(**({"girth": "aft", "in_hand": None} | fields))
    layout = a_layout(
        kinds=(kind or a_part(),), fittings=(fitting,), sails=(main_sail or a_main(),), stays=stays
    )
    report = check(build(layout))
    assert not report.broken
    return [one for one in report.open if one.code.startswith("main/")]


def codes(said):
    """Codes and standings."""
    return [(one.code, one.standing) for one in said]


def test_a_box_abaft_the_mast_bears_by_what_it_stands_proud():
    """120 proud of the groove, in the middle of it: whatever the boom does, the cloth meets all of it."""
    said = on_aft_face()
    assert codes(said) == [("main/bears", "fault"), ("main/carried", "fault")]
    assert said[0].measured == pytest.approx(-120, abs=0.1)


def test_gear_that_works_abaft_the_mast_is_a_caution_at_most():
    """Halyard gear stays where it works: the sail is patched."""
    assert codes(on_aft_face(a_part(group="halyard"))) == [
        ("main/carried", "caution"),
        ("main/gear", "caution"),
    ]


def test_a_low_round_plate_beside_the_groove_only_rubs():
    """12 proud, 60 round to the side, edges round: what every mast has."""
    kind = a_part((40, 60, 12), group="stay", edge=5.0)
    said = on_aft_face(kind, a_main(boom_limit_deg=88.0), girth="60 to port of aft")
    assert {one.standing for one in said} <= {"note"}


def test_a_box_on_the_side_of_the_mast_is_out_of_the_way():
    """At 90 degrees round, with the boom at 70, the cloth never comes abeam."""
    assert on_aft_face(girth="bearing 270") == []


def test_a_box_on_the_side_is_met_by_a_main_that_nothing_stops():
    """With the boom 120 degrees off, past abeam, it lies on what stands proud of the side."""
    said = on_aft_face(girth="bearing 270", main_sail=a_main(boom_limit_deg=120.0))
    assert said[0].code == "main/bears"


def test_only_a_belly_reaches_it():
    """The straight cloth passes abaft a box on the quarter; full of wind it presses on it."""
    said = on_aft_face(
        a_part((40, 80, 120)), a_main(boom_limit_deg=88.0, headboard_ahead_mm=0.0), girth="bearing 250"
    )
    assert codes(said)[0] == ("main/presses", "caution")


def test_what_only_a_twisted_head_on_its_way_reaches_is_flogged_against():
    """Low down the boom's angle is all there is; the head comes past with all its twist."""
    low = {"from_masthead_mm": 14000.0, "girth": "bearing 262"}
    kind = a_part((40, 80, 120))
    twisted = a_main(boom_limit_deg=70.0, twist_deg=40.0)
    assert ("main/whips", "caution") in codes(on_aft_face(kind, twisted, **low))


def test_a_reef_is_named_where_it_is_the_worst():
    """High up the full sail's head is twisted most; lower down that of a reefed one."""
    reefed = a_main(twist_deg=45.0, reefs=(Reef(name="deep reef", head_mm=8000.0),))
    said = on_aft_face(a_part((40, 80, 120)), reefed, from_masthead_mm=8700.0, girth="bearing 255")
    cloth = next(one for one in said if one.code != "main/carried")
    assert "deep reef" in cloth.state or "going up" in cloth.state


def test_above_the_head_and_below_the_boom_there_is_no_cloth():
    """More than the 100 beyond its ends that a fitting is carried."""
    assert on_aft_face(from_masthead_mm=1300.0) == []
    assert on_aft_face(from_masthead_mm=15700.0) == []


def test_a_headboard_jams_on_a_low_plate_in_its_way():
    """Its corner stands 40 ahead of the luff: a plate 25 beside the groove is in the way at any angle."""
    plate = a_part((20, 60, 12), group="foot", edge=5.0)
    beside = {"girth": "30 to port of aft"}
    said = on_aft_face(plate, a_main(headboard_ahead_mm=40.0), **beside)
    assert ("main/carried", "fault") in codes(said)
    assert "main/carried" not in [code for code, _standing in codes(on_aft_face(plate, a_main(), **beside))]


def test_receptacles_are_carried_where_battens_run_full():
    """A receptacle 60 long meets what stands 25 beside the groove; with short battens there is none."""
    plate = a_part((20, 60, 30), group="foot", edge=5.0)
    beside = {"girth": "35 to port of aft"}
    full = a_main(battens_full=4, receptacle=(60.0, 45.0))
    (said,) = [one for one in on_aft_face(plate, full, **beside) if one.code == "main/carried"]
    assert said.state == "batten receptacle"


@pytest.mark.parametrize(
    ("lacking", "measure"),
    [
        ({"e_mm": None}, "sail.e"),
        ({"lower_mark_mm": None}, "sail.marks"),
        ({"head_mm": None}, "sail.head"),
        ({"boom_limit_deg": None}, "sail.boom"),
        ({"boom_limit_deg": -20.0}, "sail.boom"),  # can be no boom's
        ({"boom_limit_deg": 359.0}, "sail.boom"),
        ({"headboard_ahead_mm": None}, "sail.headboard"),
        ({"battens_full": 3}, "sail.receptacle"),
        ({"car_across_mm": None}, "sail.cars"),
    ],
)
def test_what_nobody_measured_is_not_checked(lacking, measure):
    """Each by the measure that is missing, once."""
    said = [one for one in on_aft_face(main_sail=a_main(**lacking)) if one.standing == "not checked"]
    assert [one.measure for one in said] == [measure]


def test_a_main_without_height_is_not_checked():
    """Its head at its boom: nothing can be said, and that is said."""
    said = on_aft_face(main_sail=a_main(head_mm=15500.0))
    assert codes(said) == [("main/nothing", "not checked")]


def shrouds(ahead_mm=-800.0):
    """A pair of lowers swept aft, from 8,000 above the heel to the deck 1,400 off."""
    ends = {"port": "bearing 270", "starboard": "bearing 90"}
    return tuple(
        a_stay(
            f"lower-{side}",
            role="lower",
            side=side,
            upper={"from_masthead_mm": 9000.0, "girth": girth},
            deck={"ahead_mm": ahead_mm, "off_mm": 1400.0, "above_mm": 0.0},
        )
        for side, girth in ends.items()
    )


def test_swept_shrouds_say_how_far_the_boom_goes():
    """Nobody measured it: it is worked out, and the sail is checked."""
    said = on_aft_face(main_sail=a_main(boom_limit_deg=None), stays=shrouds())
    assert "not checked" not in [one.standing for one in said]
    assert said[0].code == "main/bears"


def test_a_boom_measured_unlike_its_shrouds_is_named():
    """The lowers stop it near 65 degrees; 89 was written."""
    said = on_aft_face(main_sail=a_main(boom_limit_deg=89.0), stays=shrouds())
    assert ("main/boom", "caution") in codes(said)
    assert ("main/boom", "caution") not in codes(
        on_aft_face(main_sail=a_main(boom_limit_deg=66.0), stays=shrouds())
    )


def a_backstay(ahead_mm):
    """From 200 abaft the mast at its head to the deck."""
    upper = {"from_masthead_mm": 0.0, "girth": "aft", "stand_off_mm": 100.0}
    return a_stay("backstay", role="backstay", upper=upper, deck={"ahead_mm": ahead_mm, "above_mm": 0.0})


def test_a_roach_beyond_the_backstay_is_named():
    """Half way up the sail is 2,300 wide: a backstay 2,000 abaft the mast is in its way, one 3,600 is not."""
    near = on_aft_face(stays=(a_backstay(-3800.0),))
    assert ("main/leech", "caution") in codes(near)
    far = on_aft_face(stays=(a_backstay(-7000.0),))
    assert "main/leech" not in [code for code, _standing in codes(far)]


def a_jack(port_mm):
    """From 10,000 above the heel, 100 beside the mast, to 2,100 along the boom."""
    return Halyard(
        id="jack", name="Lazy jack", rope_mm=6.0, inside="outside",
        points=(
            LinePoint(at="end", from_masthead_mm=7000.0, ahead_mm=-100.0, port_mm=100.0),
            LinePoint(at="end", from_masthead_mm=15500.0, ahead_mm=-2100.0, port_mm=port_mm),
        ),
    )  # fmt: skip


@pytest.mark.parametrize(("port_mm", "degrees"), [(200.0, 5.71), (500.0, None), (0.0, None)])
def test_batten_ends_catch_on_lazy_jacks_near_the_boom(port_mm, degrees):
    """2,000 abaft the groove on the boom, 200 off it: atan 0.1, 5.7 degrees. 500 off is 14: room enough.

    The full width at the boom, 4,000, reaches it there; higher up the line comes nearer the mast and
    stands at a wider angle. On the centreline it is a topping lift, slack while she sails.
    """
    layout = a_layout(sails=(a_main(battens_short=3),), halyards=(a_jack(port_mm),))
    said = found(layout, "main/jacks")
    assert [round(one.measured, 2) for one in said] == ([degrees] if degrees else [])
    assert {one.standing for one in said} <= {"note"}
    assert found(a_layout(sails=(a_main(),), halyards=(a_jack(port_mm),)), "main/jacks") == []  # no battens


def test_port_and_starboard_are_answered_alike():
    """The same box as far round to either side."""
    both = [
        [(one.code, round(one.measured, 3)) for one in on_aft_face(girth=f"70 to {side} of aft")]
        for side in ("port", "starboard")
    ]
    assert both[0] == both[1] != []


def test_a_longer_boom_never_clears_more():
    """E and every width half as long again: nothing stands farther off."""
    names = [
        "e_mm", "quarter_width_mm", "half_width_mm", "three_quarter_width_mm", "seven_eighths_width_mm",
        "head_width_mm",
    ]  # fmt: skip
    sail = a_main(boom_limit_deg=88.0)
    longer = sail.model_copy(update={name: 1.5 * getattr(sail, name) for name in names})
    for girth in ("bearing 250", "bearing 235", "60 to port of aft"):
        short_, long_ = (
            next(iter(on_aft_face(a_part((40, 80, 120)), one, girth=girth))) for one in (sail, longer)
        )
        assert long_.measured <= short_.measured + 0.01


def test_what_is_left_out_beforehand_nothing_comes_near(monkeypatch):
    """The quick look by balls drops no place that the cloth itself would touch."""
    layout = open_document(demo_masts() / "turnstone.toml").layout
    scene = build(layout)
    placed, n = scene.placed["reflector-1"], 60
    dice = np.random.default_rng(4)
    places = Places(
        dice.uniform(1500, 10500, n), dice.uniform(-171, 171, n), dice.uniform(0, 60, n), np.zeros(n)
    )
    batches = [at_places(placed, places)]
    quick = [rule.margins(scene, batches, built_in())[0].measured for rule in (main.CLOTH, main.CARRIED)]
    for name in ("near", "near_track"):
        monkeypatch.setattr(Main, name, lambda _self, solids, *_limits: np.ones(len(solids), dtype=bool))
    slow = [rule.margins(scene, batches, built_in())[0].measured for rule in (main.CLOTH, main.CARRIED)]
    for one, other in zip(quick, slow, strict=True):
        assert np.minimum(one, 10.0) == pytest.approx(np.minimum(other, 10.0))
        assert (one < 0).any()


def test_many_places_at_once_equal_each_alone():
    """One box at 30 places round and up the mast through the same functions."""
    layout = a_layout(kinds=(a_part(),), fittings=(a_fitting(girth="aft"),), sails=(a_main(twist_deg=30.0),))
    scene = build(layout)
    placed, n = scene.placed["box-1"], 30
    along = np.linspace(3000.0, 14000.0, n)
    around = np.linspace(-250.0, 250.0, n)
    together = main.CLOTH.margins(
        scene, [at_places(placed, Places(along, around, np.zeros(n), np.zeros(n)))], built_in()
    )[0]
    for i in range(n):
        one = Places(along[[i]], around[[i]], np.zeros(1), np.zeros(1))
        alone = main.CLOTH.margins(scene, [at_places(placed, one)], built_in())[0]
        assert together.measured[i] == pytest.approx(alone.measured[0])
        assert (together.grade[i] == alone.grade[0]).all()


def test_a_layout_without_a_mainsail_says_nothing():
    """No main, no finding; and a headsail is none."""
    assert found(a_layout(), "main/not-asked") == []
    assert missing_of_carried(a_main()) == ()


def test_a_mast_with_a_raised_track_holds_the_luff_off_it():
    """A box 10 proud abaft the mast, in the shade of a track 13 high beside it, is not borne on."""
    raised = a_mast(track={"kind": "track", "width_mm": 30.0, "depth_mm": 13.0})
    layout = a_layout(
        mast=raised,
        kinds=(a_part((10, 60, 5)),),
        fittings=(a_fitting(girth="40 to port of aft", in_hand=None),),
        sails=(a_main(),),
    )
    assert found(layout, "main/bears") == []


def test_without_its_guard_the_sail_bears_on_it_in_the_very_next_check():
    """What a guard on the aft face stood before is asked again when it goes, as the tack asks it."""
    hoop = [
        {"shape": "tube", "part": "guard", "start": (x, -80, 160), "end": (x, 80, 160), "radius_mm": 10}
        for x in (-90, 90)
    ]
    kinds = (a_part(), a_kind("hoop", group="guard", guards=True, solids=hoop))
    aft = {"girth": "aft", "in_hand": None}
    layout = a_layout(
        kinds=kinds, sails=(a_main(),), fittings=(a_fitting(**aft), a_fitting("hoop-1", kind="hoop", **aft))
    )
    before = check(build(layout))
    assert ("main/guarded", "caution") in codes(by_main(before, "box-1"))
    scene = build(remove(layout, "hoop-1"), before.scene)
    after = check(scene, before)
    assert ("main/bears", "fault") in codes(by_main(after, "box-1"))
    assert set(after.open) == set(check(build(scene.layout)).open)
