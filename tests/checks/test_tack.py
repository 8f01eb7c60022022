"""Cloth on the tack, graded: the three yachts as a rigger sees them, and each grade on a plain mast."""

import known
import numpy as np
import pytest
import shapely
from asking import found
from builders import a_fitting, a_kind, a_layout, a_mast, a_stay

from mastlayout.checks import tack
from mastlayout.checks.finding import Finding
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places, where_it_stands
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.checks.worst import worst_of
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.geometry.tack.drawn import swept
from mastlayout.limits import built_in
from mastlayout.model.boat import Boat
from mastlayout.model.edits import change, remove
from mastlayout.model.layout import LimitOverride
from mastlayout.model.sails import Reef, Sail
from mastlayout.storage.catalogue import catalogue

# What a rigger must be told, with the grade and about how far it stands out (common practice, no
# source; the figures by hand from LP, corners and section, no belly, no sag: 25 mm are allowed for
# prebend, foil and rounded corners).
MUST_BE_FOUND = [
    ("whimbrel", "reflector-1", "tack/bears", "fault", -245),
    ("whimbrel", "hailer-1", "tack/bears", "fault", -210),
    ("whimbrel", "camera-1", "tack/bears", "fault", -16),
    ("whimbrel", "flood-p", "tack/bears", "fault", -424),
    ("whimbrel", "radome-1", "tack/guarded", "caution", -580),
    ("sanderling", "reflector-1", "tack/whips", "caution", -20),
    ("sanderling", "radome-1", "tack/guarded", "caution", -590),
    ("sanderling", "steaming-light", "tack/guarded", "caution", -128),
    ("turnstone", "reflector-1", "tack/bears", "fault", -71),
]
# Rubs on every yacht, and is patched: never more than a note.
ONLY_RUBS = [
    ("whimbrel", "pole-track"),
    ("whimbrel", "tang-intermediate-p"),
    ("whimbrel", "tang-lower-s"),
    ("whimbrel", "exit-genoa"),
    ("sanderling", "tang-lower-p"),
    ("sanderling", "exit-1"),
    ("sanderling", "tang-jumper-upper"),
    ("turnstone", "exit-jib"),
    ("turnstone", "tang-lower-p"),
]
# Above every sail, or within the mast's own shade: no cloth comes there.
CLEAR = [
    ("whimbrel", "tricolour-1"),
    ("whimbrel", "sheaves-aft"),
    ("whimbrel", "vang-tang"),
    ("sanderling", "tang-forestay"),
    ("sanderling", "wind-1"),
    ("turnstone", "crane"),
]


@pytest.fixture(scope="module")
def reports():
    """The reports of the three yachts."""
    return known.reports()


def on_tack(report, name) -> list[Finding]:
    """What is said of cloth on a fitting."""
    return [one for one in report.open if one.code.startswith("tack/") and one.subjects[0] == name]


@pytest.mark.parametrize(("yacht", "name", "code", "standing", "about_mm"), MUST_BE_FOUND)
def test_what_a_rigger_must_be_told(reports, yacht, name, code, standing, about_mm):
    """Each once, graded, within what prebend, foil and corners move it."""
    (said,) = on_tack(reports[yacht], name)
    assert (said.code, said.standing) == (code, standing)
    assert said.measured == pytest.approx(about_mm, abs=25)
    assert said.state


@pytest.mark.parametrize(("yacht", "name"), ONLY_RUBS)
def test_what_lies_close_to_the_skin_only_rubs(reports, yacht, name):
    """Track, tangs and exit plates are on every mast: a note, never a fault."""
    assert [(one.code, one.standing) for one in on_tack(reports[yacht], name)] == [("tack/rubs", "note")]


@pytest.mark.parametrize(("yacht", "name"), CLEAR)
def test_what_no_cloth_reaches_is_not_flagged(reports, yacht, name):
    """Nobody is bothered with it."""
    assert not on_tack(reports[yacht], name)


def test_working_gear_is_no_fault(reports):
    """Winches, cleats, brackets, blocks must be where they are: patched at most."""
    groups = {kind.id: kind.group for report in reports.values() for kind in report.scene.layout.kinds}
    for report in reports.values():
        for name, placed in report.scene.placed.items():
            if groups[placed.kind.id] in ("deck", "stay", "spreader", "boom", "halyard", "pole"):
                assert all(one.standing != "fault" for one in on_tack(report, name))


GENOA = Sail(
    id="genoa", name="Genoa", role="headsail", stay="forestay", lp_mm=6500, luff_mm=16900,
    tack_mm=16400, clew_mm=15600, head_mm=900,
)  # fmt: skip
SHORT = GENOA.model_copy(update={"id": "jib", "name": "Jib", "lp_mm": 1500.0})
FLAT = {"shape": "box", "centre": (0, 0, 10), "size": (60, 80, 20), "edge_radius_mm": 6}
LENS = {"shape": "ball", "part": "lens", "centre": (0, 0, 60), "radius_mm": 30}


def said(*, sails=(GENOA,), stays=(), kind=None, fittings=None, **mast):
    """What is said of cloth on box-1 on a plain mast with a forestay."""
    layout = a_layout(
        mast=a_mast(**mast), kinds=(kind or a_kind(),), sails=sails, stays=(a_stay(), *stays),
        fittings=fittings or (a_fitting(),),
    )  # fmt: skip
    report = check(build(layout))
    assert not report.broken
    return on_tack(report, "box-1")


def test_a_sail_bears_on_a_box_ahead():
    """120 proud and 100 wide on an ellipse of 200 by 130: its height, and a little for its corners."""
    (one,) = said()
    assert (one.code, one.standing, one.subjects) == ("tack/bears", "fault", ("box-1", "genoa"))
    # By hand: max over t of 220 cos t + 50 sin t - sqrt((100 cos t)^2 + (65 sin t)^2), corners of 220 and 50.
    turn = np.radians(np.linspace(0, 90, 9001))
    stands = 220 * np.cos(turn) + 50 * np.sin(turn) - np.hypot(100 * np.cos(turn), 65 * np.sin(turn))
    assert -one.measured == pytest.approx(stands.max(), abs=0.5)


def test_a_sail_too_short_for_the_mast_touches_nothing():
    """What stands farther from the luff than the cloth is long is out of reach."""
    assert not said(sails=(SHORT,))


def test_a_longer_sail_never_leaves_more_room():
    """Longer and longer, nearer and nearer."""
    room = []
    for lp in (3000.0, 4000.0, 5000.0, 6500.0):
        found_ = said(sails=(GENOA.model_copy(update={"lp_mm": lp}),))
        room.append(found_[0].measured if found_ else 1e3)
    assert room == sorted(room, reverse=True)
    assert room[0] > room[-1]


def test_what_stands_on_the_aft_face_within_the_mast_is_sheltered():
    """A box of 60 behind a mast of 130: the cloth leaves the mast beside it."""
    narrow = a_kind(solids=[{"shape": "box", "centre": (0, 0, 60), "size": (60, 80, 120)}])
    assert not said(kind=narrow, fittings=(a_fitting(girth="aft"),))


def test_a_low_round_thing_is_only_rubbed_on():
    """Under 40 proud with edges rounded 5 or more."""
    low = a_kind(solids=[FLAT])
    (one,) = said(kind=low)
    assert (one.code, one.standing) == ("tack/rubs", "note")
    sharp = a_kind(solids=[FLAT | {"edge_radius_mm": 2}])
    assert said(kind=sharp)[0].code == "tack/bears"
    hooked = a_kind(solids=[FLAT | {"snags": True}])
    assert said(kind=hooked)[0].code == "tack/bears"


def test_behind_a_jumper_it_is_whipped_and_a_lens_breaks():
    """A ball of 60 behind a jumper 320 off: jumper and mast shelter it together; a loose leech whips it."""
    jumper = JUMPER
    body = a_kind(solids=[LENS | {"part": "body"}])
    (one,) = said(kind=body, stays=(jumper,))
    assert (one.code, one.standing) == ("tack/whips", "caution")
    plain = LENS | {"part": "body"}
    breaks = (
        a_kind(solids=[LENS]), a_kind(solids=[LENS | {"part": "antenna"}]),
        a_kind(group="wind", solids=[plain]), a_kind(solids=[plain | {"snags": True}]),
    )  # fmt: skip
    for kind in breaks:
        (one,) = said(kind=kind, stays=(jumper,))
        assert (one.code, one.standing) == ("tack/whips", "fault")
    away = jumper.model_copy(update={"removable": True})
    assert said(kind=body, stays=(away,))[0].code == "tack/bears", "what may be absent shelters nothing"


JUMPER = a_stay(
    "jumper", role="jumper", wire_mm=8.0, deck=None,
    upper={"from_masthead_mm": 4000.0, "girth": "ahead", "stand_off_mm": 320.0},
    lower={"from_masthead_mm": 13000.0, "girth": "ahead", "stand_off_mm": 320.0},
)  # fmt: skip


def behind_the_jumper(proud_mm):
    """A batten 2 mm thick and wide whose face stands so proud on the fore face, behind the jumper."""
    thin = a_kind(solids=[{"shape": "box", "centre": (0, 0, proud_mm - 1), "size": (2, 40, 2)}])
    return build(a_layout(kinds=(thin,), sails=(GENOA,), stays=(a_stay(), JUMPER), fittings=(a_fitting(),)))


def beyond_the_belly(proud_mm, belly):
    """By hand: how far the batten stands out of cloth on wire and mast, k its belly between them."""
    turn = np.linspace(0.0, 2 * np.pi, 4001)
    mast = shapely.Polygon(np.stack([100 * np.cos(turn), 65 * np.sin(turn)], axis=1))
    both = shapely.union_all([mast, shapely.Point(420.0, 0.0).buffer(4.0, quad_segs=500)])
    corners = shapely.get_coordinates(shapely.convex_hull(both).exterior)
    # Of the hull's edges the one that touches both is by far the longest.
    ends = np.stack([corners[:-1], corners[1:]], axis=1)
    ends = ends[ends[:, :, 1].min(axis=1) > 0]
    start, end = ends[np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1).argmax()]
    part = np.linspace(0.0, 1.0, 2001)[:, None]
    along = end - start
    inward = np.array([along[1], -along[0]]) / np.hypot(*along)
    inward = -inward if inward[1] > 0 else inward
    cloth = start + part * along + 4 * belly * part * (1 - part) * np.hypot(*along) * inward
    line, clear = shapely.LineString(cloth), []
    for ahead in (98.0 + proud_mm, 100.0 + proud_mm):
        corner = shapely.Point(ahead, 1.0)
        across = shapely.LineString([(ahead, -100.0), (ahead, 200.0)]).intersection(line)
        # On the centreline's side of the cloth it is clear of it.
        clear.append(line.distance(corner) * (1.0 if across.y > corner.y else -1.0))
    return min(clear)


@pytest.mark.parametrize("proud_mm", [2.0, 10.0, 30.0, 50.0, 160.0])
def test_held_and_backed_cloth_hang_in_by_their_own_bellies(proud_mm):
    """Both states are asked, each with its own k; held clear, it is as near as the wire's own shade ends.

    1.5 mm is allowed: outlines are known in 120 directions, so where a mast of this size is touched to 4 mm.
    """
    scene = behind_the_jumper(proud_mm)
    (own,) = tack.TACK.margins(scene, [where_it_stands(scene.placed["box-1"])], built_in())
    measured = {tack.in_words(state): m for state, m in zip(own.states, own.measured[0], strict=True)}
    for name, belly in (("full", 0.10), ("full, backed", 0.20)):
        by_hand = beyond_the_belly(proud_mm, belly)
        assert measured[name] == pytest.approx(min(by_hand, 3.7), abs=1.5), name
    assert measured["full, backed"] < measured["full"]


def test_backed_is_a_state_of_its_own_and_named_where_it_is_worst():
    """What only a backed sail presses on says so; what taut cloth touches is named without it."""
    (one,) = on_tack(check(behind_the_jumper(10.0)), "box-1")
    assert (one.code, one.standing, one.state) == ("tack/presses", "caution", "full, backed")
    (one,) = said()
    assert one.state == "full"
    states = [tack.in_words(state) for state in behind_the_jumper(10.0).tack.cloths.states]
    assert states == [
        "full", "going up or down", "full, backed",
        "full, luff sagged", "going up or down, luff sagged", "full, backed, luff sagged",
    ]  # fmt: skip


def test_what_backed_cloth_presses_on_is_drawn_as_deep_as_it_is_said():
    """The worst point and its like on the belly, which hangs in by k of its length at its middle."""
    scene = behind_the_jumper(10.0)
    (one,) = on_tack(check(scene), "box-1")
    worst = worst_of(scene, one)
    assert np.hypot(*np.subtract(worst.at, worst.other)[:2]) == pytest.approx(-one.measured, abs=0.02)
    number = [tack.in_words(state) for state in scene.tack.cloths.states].index("full, backed")
    drawn = swept(scene.tack, number, 9000.0, (), 0.2)
    assert len(drawn.bellies) == 2, "from the wire to either side of the mast"
    for line in drawn.bellies:
        span, half_way = np.hypot(*(line[-1] - line[0])), line[len(line) // 2]
        assert np.hypot(*(half_way - (line[0] + line[-1]) / 2)) == pytest.approx(0.2 * span, abs=0.01)
        ends = sorted(abs(np.hypot(*end / (100.0, 65.0)) - 1) < 0.01 for end in line[[0, -1]])
        assert ends == [False, True], "one end on the mast"


def test_held_cloth_presses_too_where_it_hangs_in_deep_enough():
    """With no more belly backed than held the held sail is named: it needs nobody to back it."""
    limits = (LimitOverride(key="tack.belly_backed", value=10.0, unit="%", why="she is never backed"),)
    scene = behind_the_jumper(160.0)
    layout = scene.layout.but(limits=limits)
    (one,) = on_tack(check(build(layout)), "box-1")
    assert (one.code, one.state) == ("tack/presses", "full")


@pytest.mark.parametrize(("group", "codes"), [("light", ["tack/near"]), ("halyard", [])])
def test_cloth_that_only_comes_near_is_not_said_of_working_gear(group, codes):
    """4 mm off: a light may be moved; an exit stays, and is patched for only where cloth lies on it."""
    limits = (LimitOverride(key="tack.belly_backed", value=10.0, unit="%", why="she is never backed"),)
    layout = behind_the_jumper(10.0).layout
    kinds = tuple(kind.but(group=group) for kind in layout.kinds)
    assert [
        one.code for one in on_tack(check(build(layout.but(limits=limits, kinds=kinds))), "box-1")
    ] == codes


def test_a_guard_makes_a_fault_a_caution():
    """A hoop outside the box over its whole height; a shorter one does not guard it."""
    hoop = [
        {"shape": "tube", "part": "guard", "start": (x, -80, 160), "end": (x, 80, 160), "radius_mm": 10}
        for x in (-90, 90)
    ]
    kinds = (a_kind(), a_kind("hoop", group="guard", guards=True, solids=hoop))
    guarded = a_layout(
        kinds=kinds, sails=(GENOA,), stays=(a_stay(),),
        fittings=(a_fitting(), a_fitting("hoop-1", kind="hoop")),
    )  # fmt: skip
    (one,) = on_tack(check(build(guarded)), "box-1")
    assert (one.code, one.standing) == ("tack/guarded", "caution")
    (own,) = on_tack(check(build(guarded)), "hoop-1")
    assert own.code == "tack/guarded"
    short = [part | {"start": (part["start"][0], -5, 160), "end": (part["end"][0], 5, 160)} for part in hoop]
    bare = a_layout(
        kinds=(a_kind(), a_kind("hoop", group="guard", guards=True, solids=short)), sails=(GENOA,),
        stays=(a_stay(),), fittings=(a_fitting(), a_fitting("hoop-1", kind="hoop")),
    )  # fmt: skip
    assert on_tack(check(build(bare)), "box-1")[0].code == "tack/bears"


def test_mirrored_fittings_are_said_the_same_of():
    """Port and starboard at the same height, a symmetric rig."""
    sides = [said(fittings=(a_fitting(girth=f"70 to {side} of ahead"),)) for side in ("port", "starboard")]
    assert sides[0][0].measured == pytest.approx(sides[1][0].measured, abs=0.01)


def test_the_worst_state_is_named():
    """A reef that lies lower, a sail on its way down, a luff that sags: each says so where it is worst."""
    low = a_fitting(from_masthead_mm=16300.0)
    (one,) = said(fittings=(low,))
    assert "up or down" in one.state


DECKED = Boat(name="Test", heel_above_water_mm=0.0, deck_above_heel_mm=1000.0)


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"head_mm": -300.0}, "sail/head-high"),
        ({"head_mm": 15800.0}, "sail/head-low"),
        ({"lp_mm": 18000.0}, "sail/lp-long"),
        ({"half_width_mm": 3000.0, "three_quarter_width_mm": 3500.0}, "sail/widths-grow"),
        ({"tack_mm": 17600.0}, "sail/off-stay"),
        ({"luff_mm": 12000.0}, "sail/luff"),
        ({"head_mm": 15100.0, "clew_mm": 15200.0, "tack_mm": 15000.0}, "sail/head-tack"),
        ({"clew_mm": 16500.0}, "sail/clew-low"),
        ({"reefs": (Reef(name="one reef", clew_mm=16500.0),)}, "sail/clew-low"),
        ({"reefs": (Reef(name="one reef", head_mm=GENOA.head_mm - 10.0),)}, "sail/reef-high"),
        ({"reefs": (Reef(name="one reef", head_mm=16000.0),)}, "sail/reef-low"),
        ({"reefs": (Reef(name="one reef", lp_mm=GENOA.lp_mm + 1.0),)}, "sail/reef-long"),
    ],
)
def test_measures_that_cannot_be_are_named(change, code):
    """A finding that names the measure, once; never a crash."""
    layout = a_layout(sails=(GENOA.but(**change),), stays=(a_stay(),), boat=DECKED)
    (one,) = found(layout, code)
    assert (one.subjects[0], one.standing) == (GENOA.id, "caution")
    text = sentence(build(layout), one, names_of(layout))
    assert text.startswith(GENOA.name)
    assert "None" not in text


def test_measures_that_can_just_be_are_not_named():
    """A reef no lower, no longer than the full sail, a clew on deck; lower yet it has no sail."""
    reef = Reef(name="one reef", lp_mm=GENOA.lp_mm, head_mm=GENOA.head_mm, clew_mm=16000.0)
    layout = a_layout(sails=(GENOA.but(reefs=(reef,)),), stays=(a_stay(),), boat=DECKED)
    kinds = ("sail/reef", "sail/clew", "sail/head", "sail/lp", "sail/widths")
    assert not [one for one in check(build(layout)).open if one.code.startswith(kinds)]


def test_a_mainsail_whose_boom_is_below_the_deck_is_named():
    """Its lower mark at 500 above the heel, the deck at 1000."""
    main_ = Sail(id="main", name="Mainsail", role="main", lower_mark_mm=16500.0, upper_mark_mm=300.0)
    (one,) = found(a_layout(sails=(main_,), boat=DECKED), "sail/boom-low")
    assert one.measured == pytest.approx(500.0)
    assert not found(a_layout(sails=(main_.but(lower_mark_mm=16000.0),), boat=DECKED), "sail/boom-low")


def test_a_free_luff_and_an_unknown_bend_are_said_not_to_be_checked():
    """Never a silent pass."""
    flying = Sail(id="code", name="Code sail", role="code sail")
    assert found(a_layout(sails=(flying,)), "sail/free-luff")[0].standing == "not checked"
    unknown = a_layout(mast=a_mast(prebend_mm=None), sails=(GENOA,), stays=(a_stay(),))
    assert found(unknown, "sail/prebend")[0].measure == "mast.prebend"


def test_many_places_at_once_are_the_places_one_by_one():
    """Grades and figures of eighty places together and alone."""
    scene = build(a_layout(sails=(GENOA,), stays=(a_stay(),)))
    dice = np.random.default_rng(3)
    places = Places(
        dice.uniform(500, 16500, 80), dice.uniform(30, 500, 80), dice.uniform(0, 40, 80), np.zeros(80)
    )
    placed, limits = scene.placed["box-1"], built_in()
    (together,) = tack.TACK.margins(scene, [at_places(placed, places)], limits)
    assert set(np.unique(together.grade)) > {0}
    for i in range(80):
        one = Places(*(getattr(places, name)[i : i + 1] for name in Places.__dataclass_fields__))
        (alone,) = tack.TACK.margins(scene, [at_places(placed, one)], limits)
        assert (alone.grade[0] == together.grade[i]).all()
        assert alone.measured[0] == pytest.approx(together.measured[i], abs=1e-6)


def test_an_edit_elsewhere_keeps_what_was_worked_out():
    """Moving a fitting keeps the tack of the scene; another sail makes it anew."""
    layout = a_layout(sails=(GENOA,), stays=(a_stay(),))
    scene = build(layout)
    stands = {"stays": layout.stays, "mast": layout.mast, "boat": layout.boat}
    moved = a_layout(sails=layout.sails, fittings=(a_fitting(from_masthead_mm=7000.0),), **stands)
    assert build(moved, scene).tack is scene.tack
    assert build(a_layout(sails=(SHORT,), **stands), scene).tack is not scene.tack


@pytest.mark.parametrize("yacht", ["whimbrel", "sanderling"])
def test_without_its_guard_a_radome_is_borne_on_at_once(reports, yacht):
    """What a guard stood before is asked again when it goes, though it did not move itself."""
    before = reports[yacht]
    scene = build(remove(before.scene.layout, "radome-guard-1"), before.scene)
    after = check(scene, before)
    assert [one.standing for one in on_tack(before, "radome-1")] == ["caution"]
    assert [one.standing for one in on_tack(after, "radome-1")] == ["fault"]
    assert set(after.open) == set(check(build(scene.layout)).open)


@pytest.mark.parametrize("above_mm", [16800.0, 16900.0])
def test_a_stay_that_does_not_rise_is_named(above_mm):
    """Level, or with its deck end above its hounds: the sail is off its stay, and nothing breaks."""
    stay = a_stay(deck={"ahead_mm": 4600.0, "above_mm": above_mm})
    assert found(a_layout(sails=(GENOA,), stays=(stay,)), "sail/off-stay")


def test_sanderlings_cluster_behind_the_jumper_is_borne_on(reports):
    """Outside the line from jumper to mast by 79, by hand: where her tube may stay, that is a fault.

    Once past the wire alone a loose leech gets in deeper: the ball's 115 less the wire's own shade, 5.
    """
    scene = reports["sanderling"].scene
    cluster = catalogue()["reflector-cluster-230"]
    fittings = tuple(
        one.but(kind=cluster.id, from_masthead_mm=7085.0, in_hand=None) if one.id == "reflector-1" else one
        for one in scene.layout.fittings
    )
    layout = scene.layout.but(kinds=(*scene.layout.kinds, cluster), fittings=fittings)
    (one,) = on_tack(check(build(layout, scene), reports["sanderling"]), "reflector-1")
    assert (one.code, one.standing) == ("tack/bears", "fault")
    assert one.measured == pytest.approx(-(115 - 5), abs=3)


@pytest.mark.parametrize(("z_mm", "foul"), [(5000.0, False), (6300.0, True)])
def test_sanderlings_radome_stays_below_her_jumper(reports, z_mm, foul):
    """A rigger puts it below 5,900: above, the wire is in its way."""
    scene = reports["sanderling"].scene
    layout = change(scene.layout, "radome-1", from_masthead_mm=17400.0 - z_mm)
    report = check(build(layout, scene), reports["sanderling"])
    met = [one for one in report.faults if set(one.subjects) == {"radome-1", "jumper"}]
    assert bool(met) == foul
