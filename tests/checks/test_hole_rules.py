"""The hole rules by hand: old holes, edges, cut-outs, loaded parts, and what nobody measured.

The limits are common practice of the trade, no source, unless said.
"""

import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast, a_spreader, a_stay

from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import OldHole
from mastlayout.model.layout import LimitOverride
from mastlayout.model.mast import Stretch, Taper, Track


def pattern(*places, fastener="M6 tapped", **foot):
    """A foot with holes at (across, along)."""
    return a_foot(holes=[{"across_mm": a, "along_mm": b, "fastener": fastener} for a, b in places], **foot)


def one_hole(**fields):
    """A fitting with one M6 hole, drilled 5.0, in its middle."""
    return a_fitting(**({"in_hand": pattern((0.0, 0.0))} | fields))


def slot(id="box-1", from_masthead_mm=8000.0, width=16.0, length=80.0, corner=8.0, **fields):  # noqa: A002
    """A fitting whose foot has a slot and no holes."""
    cut = {"width_mm": width, "length_mm": length, "corner_radius_mm": corner}
    known = {"in_hand": a_foot(holes=[], cutouts=[cut], along_mm=120), "from_masthead_mm": from_masthead_mm}
    return a_fitting(id, **(known | fields))


def old(diameter_mm, along_mm=0.0, **fields):
    """An old hole below the middle of the fitting at 8000."""
    return OldHole(
        id="old-1", name="Old hole", from_masthead_mm=8000.0 + along_mm, girth="ahead",
        diameter_mm=diameter_mm, **fields,
    )  # fmt: skip


# ---------------------------------------------------------------- old holes


@pytest.mark.parametrize("diameter_mm", [3.0, 5.0])
def test_an_old_hole_on_the_same_middle_is_used(diameter_mm):
    """A 5.0 drill opens one of 3.0, and finds one of 5.0 made: a note, and no neighbour too close."""
    layout = a_layout(fittings=(one_hole(),), holes=(old(diameter_mm, 0.4),))
    assert [(f.standing, f.subjects) for f in found(layout, "hole/old-used")] == [
        ("note", ("box-1/h1", "old-1"))
    ]
    assert not found(layout, "hole/spacing")


def test_an_old_hole_wider_than_the_drill_leaves_the_fastener_loose():
    """6.4 in the place of a 5.0 drill: a fault, and the next larger fastener is wanted."""
    layout = a_layout(fittings=(one_hole(),), holes=(old(6.4),))
    (finding,) = found(layout, "hole/old-large")
    assert (finding.standing, finding.measured, finding.required) == ("fault", 5.0, 6.4)
    assert not found(layout, "hole/old-used")


def test_an_old_hole_cut_away_whole_is_no_neighbour():
    """A 13.5 clearance hole (M12, ISO 273) 4 off swallows one of 5: 4 + 2.5 is less than 6.75."""
    fittings = (a_fitting(in_hand=pattern((0.0, 0.0), fastener="M12 through")),)
    layout = a_layout(fittings=fittings, holes=(old(5.0, 4.0),))
    assert found(layout, "hole/old-used")
    assert not found(layout, "hole/spacing")


def test_an_old_hole_half_cut_is_a_fault():
    """A 5.0 drill 3 off a hole of 5: an egg, whatever published minimum may be quoted."""
    layout = a_layout(fittings=(one_hole(),), holes=(old(5.0, 3.0),))
    assert [f.standing for f in found(layout, "hole/spacing")] == ["fault"]


def test_published_minima_stand_beside_a_fault_and_leave_it_one():
    """2.5 diameters pass EN 1993-1-8 (2.2 d0) and fail the trade's 3: a fault, the standards by name."""
    layout = a_layout(fittings=(a_fitting(in_hand=pattern((0.0, 0.0), (12.5, 0.0))),))
    (finding,) = found(layout, "hole/spacing")
    said = sentence(build(layout), finding, names_of(layout))
    assert finding.standing == "fault"
    assert "EN 1993-1-8 Table 3.3 asks 2.2 diameters of the hole, 2.4 across the load" in said
    assert "AISC 360-16 J3.3 asks 2.67 diameters of the fastener" in said
    assert "FAA AC 43.13-1B asks 3 diameters of the fastener" in said


def test_over_the_forward_centreline_of_a_taper_the_girth_there_counts():
    """In a taper the girth is less: holes 6 either side of ahead are 12 apart there as everywhere."""
    mast = a_mast(taper=Taper(from_masthead_mm=5000, length_mm=150, width_mm=100))
    fittings = (
        one_hole(from_masthead_mm=500.0, girth="6 to port of ahead"),
        one_hole(id="box-2", from_masthead_mm=500.0, girth="6 to starboard of ahead"),
    )
    (finding,) = found(a_layout(mast=mast, fittings=fittings), "hole/spacing")
    assert finding.measured == pytest.approx(12.0, abs=0.01)


# ---------------------------------------------------------------- edges


@pytest.mark.parametrize(("from_masthead_mm", "clear"), [(10.0, True), (9.9, False)])
def test_holes_keep_two_diameters_from_the_masthead(from_masthead_mm, clear):
    """A 5.0 hole wants 10 to the end of the tube."""
    layout = a_layout(fittings=(one_hole(from_masthead_mm=from_masthead_mm),))
    assert (not found(layout, "hole/mast-end")) is clear


GROOVES = [(0.0, 12.5, True), (0.0, 12.4, False), (11.0, 15.5, True), (11.0, 15.4, False)]


@pytest.mark.parametrize(("chamber_mm", "off_mm", "clear"), GROOVES)
def test_holes_keep_two_diameters_from_a_groove_and_its_chamber(chamber_mm, off_mm, clear):
    """Half a slot of 5.0, or half its chamber of 11, and 10 more."""
    track = Track(kind="groove", width_mm=5.0, chamber_mm=chamber_mm)
    layout = a_layout(mast=a_mast(track=track), fittings=(one_hole(girth=f"{off_mm} to port of aft"),))
    assert (not found(layout, "hole/track-edge")) is clear


def test_a_mast_whose_groove_nobody_measured_is_not_checked():
    """No edge, no distance."""
    findings = found(a_layout(mast=a_mast(track=None), fittings=(one_hole(),)), "hole/track-edge")
    assert [(f.standing, f.measure) for f in findings] == [("not checked", "mast.track")]


SLEEVES = [(8010.0, "hole/sleeve"), (8009.9, "hole/sleeve-end"), (7995.0, "hole/sleeve-end")]


@pytest.mark.parametrize(("ends_mm", "code"), SLEEVES)
def test_sleeves(ends_mm, code):
    """Through a sleeve is a note; nearer its end than 10 the drill runs off it, inside or out."""
    sleeve = Stretch(kind="sleeve", from_masthead_mm=7000.0, to_mm=ends_mm)
    layout = a_layout(mast=a_mast(stretches=[sleeve]), fittings=(one_hole(),))
    assert [f.standing for f in found(layout, code)] == ["note" if code == "hole/sleeve" else "caution"]
    if code == "hole/sleeve":
        assert not found(layout, "hole/sleeve-end")


# ---------------------------------------------------------------- cut-outs


@pytest.mark.parametrize(("apart_mm", "clear"), [(305.0, True), (304.9, False)])
def test_cut_outs_on_one_side_stand_a_foot_apart(apart_mm, clear):
    """305 between middles."""
    layout = a_layout(fittings=(slot(), slot("box-2", 8000.0 + apart_mm)))
    assert (not found(layout, "hole/cutouts")) is clear


@pytest.mark.parametrize(("apart_mm", "clear"), [(80.0, True), (79.0, False)])
def test_no_cut_out_faces_another_in_one_ring(apart_mm, clear):
    """Slots 80 long, ahead and near aft: level by 1 where their middles are 79 apart."""
    layout = a_layout(fittings=(slot(), slot("box-2", 8000.0 + apart_mm, girth="80 to port of aft")))
    findings = found(layout, "hole/facing")
    assert [f.measured for f in findings] == ([] if clear else [pytest.approx(-1.0)])
    assert not found(layout, "hole/cutouts")


def test_what_the_maker_cut_is_not_held_against_itself():
    """T-slots of a pair of tangs face each other on every mast: nobody is bothered with them."""
    kind = a_kind("tang", group="stay", foot=slot().in_hand)
    tangs = (
        a_fitting("tang-p", kind="tang", new=False, in_hand=None, girth="bearing 270"),
        a_fitting("tang-s", kind="tang", new=False, in_hand=None, girth="bearing 090"),
    )
    layout = a_layout(kinds=(a_kind(), kind), fittings=tangs)
    assert not found(layout, "hole/facing")
    beside = slot("box-9", 8100.0, girth="bearing 270")
    assert found(a_layout(kinds=(a_kind(), kind), fittings=(*tangs, beside)), "hole/cutouts")


def test_exits_that_are_there_are_a_caution():
    """Two exits of lines 240 apart on one side: they stand, and somebody should look."""
    kind = a_kind("exit", group="halyard", foot=slot().in_hand)
    fittings = tuple(
        a_fitting(f"exit-{i}", kind="exit", new=False, in_hand=None, from_masthead_mm=8000.0 + 240.0 * i)
        for i in (0, 1)
    )
    lines = [
        {"id": f"line-{i}", "name": f"Line {i}", "rope_mm": 10.0, "inside": "outside",
         "points": [{"at": "exit", "fitting": f"exit-{i}"}]}
        for i in (0, 1)
    ]  # fmt: skip
    findings = found(a_layout(kinds=(a_kind(), kind), fittings=fittings, halyards=lines), "hole/cutouts")
    assert [(f.standing, f.measured) for f in findings] == [("caution", pytest.approx(240.0))]


@pytest.mark.parametrize(("along_mm", "clear"), [(50.0, True), (49.9, False)])
def test_holes_keep_two_diameters_from_a_cut_out(along_mm, clear):
    """A slot ends 40 from its middle: a 5.0 hole wants its own middle 10 beyond."""
    foot = a_foot(
        holes=[{"across_mm": 0.0, "along_mm": along_mm, "fastener": "M6 tapped"}],
        cutouts=[{"width_mm": 16, "length_mm": 80, "corner_radius_mm": 8}],
        along_mm=140,
    )
    layout = a_layout(fittings=(a_fitting(in_hand=foot),))
    assert (not found(layout, "hole/cutout-edge")) is clear
    assert not found(layout, "hole/spacing")


def test_a_turned_slot_reaches_round_the_mast():
    """Turned a quarter its 80 lie along the girth: a hole of another fitting 45 round is 5 from its edge."""
    fittings = (slot(turn_deg=90.0), one_hole(id="box-2", girth="45 to starboard of ahead"))
    (finding,) = found(a_layout(fittings=fittings), "hole/cutout-edge")
    assert finding.measured == pytest.approx(5.0, abs=0.01)


CORNERS = [(20.0, 6.0, True), (20.0, 5.9, False), (40.0, 10.0, True), (40.0, 9.0, False), (10.0, 5.0, True)]


@pytest.mark.parametrize(("width", "corner", "clear"), CORNERS)
def test_corners_of_cut_outs(width, corner, clear):
    """6, or a quarter of the width where that is more; a round end is as round as can be."""
    layout = a_layout(fittings=(slot(width=width, corner=corner),))
    assert (not found(layout, "hole/corner")) is clear


def test_a_corner_nobody_gave_is_not_checked():
    """A new cut-out whose corners are not known asks for them."""
    findings = found(a_layout(fittings=(slot(corner=None),)), "hole/corner")
    assert [(f.standing, f.measure) for f in findings] == [("not checked", "cutout.corner")]


DRAINS = [("deck", 16900.0, True), ("deck", 7000.0, False), ("deck", None, False), ("keel", None, True)]


@pytest.mark.parametrize(("step", "drain_mm", "clear"), DRAINS)
def test_a_new_cut_out_wants_a_drain_below_it(step, drain_mm, clear):
    """What stands on deck holds water until it finds a hole; what stands on the keel is open at its heel."""
    drains = () if drain_mm is None else (
        OldHole(id="drain", name="Drain", from_masthead_mm=drain_mm, girth="aft", state="drain"),
    )  # fmt: skip
    layout = a_layout(mast=a_mast(step=step), fittings=(slot(),), holes=drains)
    assert (not found(layout, "hole/drain")) is clear


# ---------------------------------------------------------------- loaded parts

DEPTH = 200.0  # the section of these masts, fore and aft


@pytest.mark.parametrize(("apart_mm", "clear"), [(DEPTH, True), (DEPTH - 0.1, False)])
def test_no_hole_within_a_depth_of_a_spreader_root(apart_mm, clear):
    """Two roots level are one matter; the owner's word is to accept it."""
    roots = (a_spreader(), a_spreader("spreader-s", side="starboard"))
    layout = a_layout(fittings=(one_hole(from_masthead_mm=9000.0 - apart_mm),), spreaders=roots)
    findings = found(layout, "hole/near-root")
    assert [(f.standing, f.subjects) for f in findings] == (
        [] if clear else [("caution", ("box-1", "spreader-p", "spreader-s"))]
    )


def test_the_hounds_are_where_forestay_and_caps_are_pinned():
    """The forestay's pin at 7900, 100 above the hole; a lower shroud's is none of them."""
    stays = (
        a_stay(upper={"from_masthead_mm": 7900.0, "girth": "ahead"}),
        a_stay("lower", role="lower", upper={"from_masthead_mm": 8050.0, "girth": "bearing 270"}),
    )
    findings = found(a_layout(fittings=(one_hole(),), stays=stays), "hole/near-hounds")
    assert [(f.subjects, f.measured) for f in findings] == [(("box-1", "forestay"), pytest.approx(100.0))]


def test_a_weld_is_near_only_where_it_runs():
    """A weld line down the aft face lies more than a depth round the skin from a hole ahead."""
    weld = Stretch(kind="weld", from_masthead_mm=7000.0, to_mm=9000.0, girth="aft")
    mast = a_mast(stretches=[weld])
    assert not found(a_layout(mast=mast, fittings=(one_hole(),)), "hole/near-weld")
    (finding,) = found(a_layout(mast=mast, fittings=(one_hole(girth="60 to port of aft"),)), "hole/near-weld")
    assert finding.measured == pytest.approx(60.0)


def test_partners_and_gooseneck():
    """Wedge zone 15800 to 15900, gooseneck at 14000: 100 and 150 from two holes."""
    mast = a_mast(
        stretches=[Stretch(kind="partners", from_masthead_mm=15800.0, to_mm=15900.0)], gooseneck_mm=14000.0
    )
    low = one_hole(from_masthead_mm=16000.0)
    high = one_hole(id="box-2", from_masthead_mm=13850.0)
    layout = a_layout(mast=mast, fittings=(low, high))
    assert [f.measured for f in found(layout, "hole/near-partners")] == [pytest.approx(100.0)]
    assert [f.measured for f in found(layout, "hole/near-gooseneck")] == [pytest.approx(150.0)]


def test_vang_and_gooseneck_fittings_are_zones_of_their_own():
    """A tang 60 along, its middle 150 away: 120 from its edge."""
    kind = a_kind("vang", group="boom")
    vang = a_fitting("vang", kind="vang", new=False, in_hand=None, from_masthead_mm=8150.0, girth="aft")
    findings = found(a_layout(kinds=(a_kind(), kind), fittings=(one_hole(), vang)), "hole/near-boom")
    assert [(f.subjects, f.measured) for f in findings] == [(("box-1", "vang"), pytest.approx(120.0))]


def test_partners_nobody_measured_are_asked_for_low_on_the_mast_only():
    """Where she may be stepped on the keel, holes of the lowest quarter wait for the deck's height."""
    boat = Boat(name="Test")
    low = a_layout(boat=boat, fittings=(one_hole(from_masthead_mm=16000.0),))
    assert [f.measure for f in found(low, "hole/near-partners")] == ["boat.deck"]
    assert [f.measure for f in found(low, "hole/near-gooseneck")] == ["mast.gooseneck"]
    assert not found(a_layout(boat=boat, fittings=(one_hole(),)), "hole/near-partners")
    on_deck = a_layout(mast=a_mast(step="deck"), fittings=(one_hole(from_masthead_mm=16000.0),))
    assert not found(on_deck, "hole/near-partners")


def test_the_owner_may_set_the_depth():
    """Half a depth asked: 150 from a root is clear."""
    own = LimitOverride(key="hole.zone", value=50.0, unit="%", why="the rigger's word")
    layout = a_layout(fittings=(one_hole(from_masthead_mm=8850.0),), spreaders=(a_spreader(),), limits=(own,))
    assert not found(layout, "hole/near-root")


# ---------------------------------------------------------------- what nobody measured


@pytest.mark.parametrize(("apart_mm", "clear"), [(60.0, True), (44.9, False)])
def test_a_foot_there_already_whose_holes_nobody_measured_is_asked_for(apart_mm, clear):
    """Its typical foot ends 30 from its middle and M6 holes want 15 more: nearer than 45 it is asked."""
    there = a_fitting("box-2", new=False, in_hand=None, from_masthead_mm=8000.0 + apart_mm)
    layout = a_layout(fittings=(one_hole(), there))
    assert [(f.standing, f.subjects, f.measure) for f in found(layout, "hole/there")] == (
        [] if clear else [("not checked", ("box-1", "box-2"), "fitting.holes")]
    )


def test_one_whose_foot_was_measured_is_not_asked_for():
    """Its holes stand against the new ones."""
    there = one_hole(id="box-2", new=False, from_masthead_mm=8010.0)
    layout = a_layout(fittings=(one_hole(), there))
    assert not found(layout, "hole/there")
    assert [f.measured for f in found(layout, "hole/spacing")] == [pytest.approx(10.0)]


def test_a_welded_fitting_is_a_weld_of_its_own():
    """Its foot ends 30 along and 55 across: a hole 200 along is 170 off, one nearly aft 167 more round."""
    kind = a_kind("eye", welded=True)
    eye = a_fitting("eye", kind="eye", new=False, in_hand=None, from_masthead_mm=8200.0)
    (finding,) = found(a_layout(kinds=(a_kind(), kind), fittings=(one_hole(), eye)), "hole/near-welded")
    assert (finding.subjects, finding.measured) == (("box-1", "eye"), pytest.approx(170.0))
    aft = one_hole(girth="40 to port of aft")
    assert not found(a_layout(kinds=(a_kind(), kind), fittings=(aft, eye)), "hole/near-welded")
