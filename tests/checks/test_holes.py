"""Holes against holes, against their foot's edge, against what runs inside: expected by hand."""

import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.model.fitting import OldHole
from mastlayout.model.mast import Ellipse, Wall


def pattern(*places, fastener="M6 tapped", **foot):
    """A foot with holes at (across, along)."""
    return a_foot(holes=[{"across_mm": a, "along_mm": b, "fastener": fastener} for a, b in places], **foot)


@pytest.mark.parametrize(("apart_mm", "clear"), [(15.0, True), (14.98, False)])
def test_own_holes_stand_three_diameters_apart(apart_mm, clear):
    """M6 is tapped with a 5.0 drill (ISO 273 and d less pitch), so 15 between centres."""
    layout = a_layout(fittings=(a_fitting(in_hand=pattern((0.0, 0.0), (apart_mm, 0.0))),))
    assert (not found(layout, "hole/spacing")) is clear


def test_spacing_counts_the_larger_hole():
    """A rivet of 6.4 wants a 6.5 hole: 19.5 from an old hole of 4."""
    old = OldHole(id="old-1", name="Old hole", from_masthead_mm=8019.0, girth="ahead", diameter_mm=4.0)
    layout = a_layout(fittings=(a_fitting(in_hand=pattern((0.0, 0.0), fastener="rivet 6.4")),), holes=(old,))
    finding = found(layout, "hole/spacing")[0]
    assert finding.measured == pytest.approx(19.0)
    assert finding.required == pytest.approx(19.5)
    assert set(finding.subjects) == {"box-1/h1", "old-1"}


def test_spacing_runs_along_the_skin_over_the_forward_centreline():
    """Two feet on either side of the centreline: 20 round the skin, not half the girth apart."""
    fittings = (
        a_fitting(girth="10 to starboard of ahead", in_hand=pattern((0.0, 0.0), fastener="M8 tapped")),
        a_fitting("box-2", girth="10 to port of ahead", in_hand=pattern((0.0, 0.0), fastener="M8 tapped")),
    )
    finding = found(a_layout(fittings=fittings), "hole/spacing")[0]
    assert finding.measured == pytest.approx(20.0)


def test_an_old_hole_of_unknown_size_near_by_is_not_checked():
    """An old hole nobody measured, 40 off, asks for its diameter."""
    old = OldHole(id="old-1", name="Old hole", from_masthead_mm=8040.0, girth="ahead")
    layout = a_layout(fittings=(a_fitting(in_hand=pattern((0.0, 0.0))),), holes=(old,))
    assert {(f.standing, f.measure) for f in found(layout, "hole/spacing")} == {
        ("not checked", "hole.diameter")
    }


@pytest.mark.parametrize(("along_mm", "clear"), [(20.0, True), (20.02, False)])
def test_holes_keep_two_diameters_from_the_edge_of_their_foot(along_mm, clear):
    """A 5.0 hole wants 10 to the edge of a foot that ends 30 along."""
    layout = a_layout(fittings=(a_fitting(in_hand=pattern((0.0, along_mm))),))
    assert (not found(layout, "hole/foot-edge")) is clear


def test_a_typical_foot_says_offer_up_the_part():
    """Until the part is in hand its holes are not checked."""
    findings = found(a_layout(fittings=(a_fitting(in_hand=None),)), "hole/foot-typical")
    assert [(f.standing, f.measure) for f in findings] == [("not checked", "fitting.foot")]


def test_what_is_there_already_is_not_drilled_again():
    """An old fitting's own pattern asks nothing."""
    layout = a_layout(fittings=(a_fitting(new=False, in_hand=pattern((0.0, 0.0), (1.0, 0.0))),))
    assert not found(layout, "hole/spacing")


CONDUIT = {
    "id": "conduit-a", "name": "Conduit A", "bore_mm": 25.0, "outside_mm": 30.0,
    "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 0.0}],
}  # fmt: skip


@pytest.mark.parametrize(("across_mm", "measured"), [(0.0, -17.5), (40.0, None)])
def test_a_drill_square_to_a_flat_foot_passes_a_conduit_ahead(across_mm, measured):
    """A pipe of 30 ahead: a 5.0 drill on its axis meets it 17.5 deep, 40 aside it clears by 22.5."""
    foot = pattern((across_mm, 0.0), seat="flat")
    layout = a_layout(mast=a_mast(conduits=[CONDUIT]), fittings=(a_fitting(in_hand=foot),))
    findings = found(layout, "hole/inside")
    assert [f.measured for f in findings] == ([pytest.approx(measured, abs=0.01)] if measured else [])


def test_the_margin_of_fifteen_to_a_conduit_is_the_edge_of_the_drill():
    """30 aside leaves 30 - 15 - 2.5 = 12.5, less than 15: a caution."""
    foot = pattern((30.0, 0.0), seat="flat")
    finding = found(
        a_layout(mast=a_mast(conduits=[CONDUIT]), fittings=(a_fitting(in_hand=foot),)), "hole/inside"
    )[0]
    assert (finding.standing, finding.measured) == ("caution", pytest.approx(12.5, abs=0.01))


def test_a_drill_is_followed_no_deeper_than_its_reach():
    """A pipe on the aft wall is 200 - 4 - 30 = 166 behind the fore face: no drill runs so far."""
    aft = CONDUIT | {"runs": [CONDUIT["runs"][0] | {"bearing_deg": 180.0}]}
    layout = a_layout(mast=a_mast(conduits=[aft]), fittings=(a_fitting(in_hand=pattern((0.0, 0.0))),))
    assert not found(layout, "hole/inside")


def test_a_conduit_nobody_found_blocks_the_holes_beside_it():
    """A run without a bearing lies nowhere: the holes at its heights are not checked against it."""
    lost = CONDUIT | {"runs": [{"from_masthead_mm": 7000.0, "to_mm": 9000.0}]}
    layout = a_layout(mast=a_mast(conduits=[lost]))
    assert [(f.standing, f.subjects, f.measure) for f in found(layout, "hole/inside")] == [
        ("not checked", ("box-1", "conduit-a"), "conduit.place")
    ]
    below = a_layout(mast=a_mast(conduits=[lost]), fittings=(a_fitting(from_masthead_mm=9500.0),))
    assert not found(below, "hole/inside")


@pytest.mark.parametrize(("from_masthead_mm", "known"), [(8485.0, True), (8486.0, False)])
def test_a_wall_reading_speaks_for_holes_within_five_hundred(from_masthead_mm, known):
    """A reading at 8000 is good to 8500: the lowest holes are 15 below the middle of the foot."""
    mast = a_mast(walls=[Wall(from_masthead_mm=8000.0, thickness_mm=4.0)])
    layout = a_layout(mast=mast, fittings=(a_fitting(from_masthead_mm=from_masthead_mm),))
    assert (not found(layout, "hole/wall")) is known


def test_a_flat_foot_wider_than_the_mast_misses_it():
    """A hole 70 aside of the middle, square to a flat foot, passes a mast 130 wide by 5."""
    foot = pattern((70.0, 0.0), seat="flat", across_mm=160)
    findings = found(a_layout(fittings=(a_fitting(in_hand=foot),)), "seat/misses")
    assert [f.standing for f in findings] == ["fault"]


def test_a_foot_wider_than_the_girth_is_a_fault():
    """Round a tube of 60 the tape runs 188.5: a foot of 190 laps itself."""
    mast = a_mast(section=Ellipse(shape="ellipse", length_mm=60, width_mm=60))
    layout = a_layout(mast=mast, fittings=(a_fitting(in_hand=a_foot(across_mm=190)),))
    assert [f.standing for f in found(layout, "seat/girth")] == ["fault"]


@pytest.mark.parametrize(("off_mm", "clear"), [(57.5, True), (57.0, False)])
def test_a_foot_keeps_off_the_groove(off_mm, clear):
    """Half a foot of 110 and half a slot of 5 make 57.5 from the track's middle."""
    layout = a_layout(fittings=(a_fitting(girth=f"{off_mm} to port of aft"),))
    assert (not found(layout, "seat/track")) is clear


def test_a_mast_whose_track_nobody_measured_is_not_checked():
    """Where the track's edge is not known, no foot can be said to clear it."""
    findings = found(a_layout(mast=a_mast(track=None)), "seat/track")
    assert [f.measure for f in findings] == ["mast.track"]


def test_a_kind_without_a_foot_asks_nothing_of_holes():
    """No foot, no holes, no finding."""
    layout = a_layout(kinds=(a_kind(foot=None),), fittings=(a_fitting(in_hand=None),))
    assert not [f for code in ("hole/spacing", "hole/foot-typical", "hole/wall") for f in found(layout, code)]


def test_holes_far_from_their_fittings_middle_are_compared_too():
    """A foot of two pads 440 apart: an old hole beside the far pad is in the way."""
    old = OldHole(id="old-1", name="Old hole", from_masthead_mm=8225.0, girth="ahead", diameter_mm=5.0)
    foot = pattern((0.0, 220.0), (0.0, -220.0), along_mm=480)
    findings = found(a_layout(fittings=(a_fitting(in_hand=foot),), holes=(old,)), "hole/spacing")
    assert [set(f.subjects) for f in findings] == [{"box-1/h2", "old-1"}]


def test_the_wall_is_asked_for_at_a_typical_foot_too():
    """The gauge is wanted wherever a new foot goes, in hand or not."""
    layout = a_layout(mast=a_mast(walls=[]), fittings=(a_fitting(in_hand=None),))
    assert [f.measure for f in found(layout, "hole/wall")] == ["mast.wall"]
