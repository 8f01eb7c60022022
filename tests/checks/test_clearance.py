"""Clearance between solids, each expected gap worked out by hand."""

import pytest
from asking import found
from builders import a_fitting, a_kind, a_layout, a_mast, a_spreader, a_stay

from mastlayout.checks.report import check
from mastlayout.checks.worst import worst_of
from mastlayout.geometry.scene import build
from mastlayout.model.layout import LimitOverride
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

# A wire straight up 300 ahead of the axis, 10 thick: 195 off the fore face less its radius.
WIRE = a_stay(
    upper={"from_masthead_mm": 0.0, "girth": "ahead", "stand_off_mm": 200.0},
    deck={"ahead_mm": 300.0, "above_mm": 0.0},
)


def proud(mm):
    """A kind 100 across and 80 along that stands so far off the skin."""
    return a_kind(solids=[{"shape": "box", "centre": (0, 0, mm / 2), "size": (100, 80, mm)}])


@pytest.mark.parametrize(
    ("stands_mm", "standing"),
    [(170, None), (175, None), (175.02, "caution"), (180, "caution"), (196, "fault")],
)
def test_a_fitting_clears_a_stay_by_twenty(stands_mm, standing):
    """195 to the wire less what the fitting stands proud is its gap; 20 is enough, 0 is a fault."""
    layout = a_layout(kinds=(proud(stands_mm),), stays=(WIRE,))
    findings = found(layout, "clearance/stay")
    assert [f.standing for f in findings] == ([standing] if standing else [])
    if standing == "caution":
        assert findings[0].measured == pytest.approx(195 - stands_mm, abs=0.02)
        assert findings[0].subjects == ("box-1", "forestay")


def test_an_untaped_stay_is_one_not_checked():
    """A stay whose deck end nobody taped is named once, whatever the number of fittings."""
    fittings = (a_fitting(), a_fitting("box-2", from_masthead_mm=4000.0))
    layout = a_layout(fittings=fittings, stays=(a_stay(deck=None),))
    findings = found(layout, "clearance/stay")
    assert [(f.standing, f.subjects, f.measure) for f in findings] == [
        ("not checked", ("forestay",), "stay.deck")
    ]


def test_rake_is_needed_to_place_a_deck_end():
    """Without rake a deck end has no place in the mast frame."""
    layout = a_layout(mast=a_mast(rake_deg=None), stays=(a_stay(),))
    assert {f.measure for f in found(layout, "clearance/stay")} == {"mast.rake"}


def test_a_tang_is_not_measured_against_the_stay_it_holds():
    """A fitting of the rig whose foot is at the pin holds that stay."""
    tang = a_kind(group="stay", solids=[{"shape": "box", "centre": (0, 0, 15), "size": (40, 120, 30)}])
    layout = a_layout(kinds=(tang,), fittings=(a_fitting(from_masthead_mm=200.0),), stays=(a_stay(),))
    assert not found(layout, "clearance/stay")


@pytest.mark.parametrize(("below_mm", "standing"), [(65.1, None), (64.9, "caution"), (54, "fault")])
def test_a_fitting_clears_a_spreader_by_ten(below_mm, standing):
    """Half the bar's 30 and half the box's 80 make 55 between their middles when they touch."""
    fitting = a_fitting(from_masthead_mm=9000.0 + below_mm, girth="bearing 270")
    layout = a_layout(fittings=(fitting,), spreaders=(a_spreader(),))
    assert [f.standing for f in found(layout, "clearance/spreader")] == ([standing] if standing else [])


def test_a_spreader_without_sweep_is_not_checked():
    """A spreader whose sweep nobody measured is named with the measure it lacks."""
    findings = found(a_layout(spreaders=(a_spreader(sweep_deg=None),)), "clearance/spreader")
    assert [(f.standing, f.measure) for f in findings] == [("not checked", "spreader.sweep")]


@pytest.mark.parametrize(("apart_mm", "standing"), [(85.1, None), (84.9, "caution"), (79, "fault")])
def test_two_fittings_clear_each_other_by_five_and_are_named_once(apart_mm, standing):
    """Two boxes 80 along the mast touch when their middles are 80 apart."""
    fittings = (a_fitting(), a_fitting("box-2", from_masthead_mm=8000.0 + apart_mm))
    findings = found(a_layout(fittings=fittings), "clearance/fitting")
    assert [f.standing for f in findings] == ([standing] if standing else [])


def test_a_guest_is_not_measured_against_its_host():
    """What stands on another's mount touches it by nature."""
    host = a_kind(mounts=[{"name": "top", "at": (0, 40, 60), "facing": "up"}])
    guest = a_fitting("box-2", on="box-1", mount="top", from_masthead_mm=None, girth=None, in_hand=None)
    layout = a_layout(kinds=(host,), fittings=(a_fitting(), guest))
    assert not found(layout, "clearance/fitting")


def test_room_for_a_hand_is_kept_free():
    """A box that stands in the room another needs is a fault by how far it stands in."""
    room = {"shape": "box", "part": "room", "centre": (0, 100, 60), "size": (100, 120, 120)}
    solid = {"shape": "box", "centre": (0, 0, 60), "size": (100, 80, 120)}
    needs_room = a_kind("lidded", solids=[solid, room])
    fittings = (a_fitting(kind="lidded"), a_fitting("box-2", from_masthead_mm=7850.0))
    findings = found(a_layout(kinds=(a_kind(), needs_room), fittings=fittings), "clearance/room")
    # The room ends 160 above the lidded one's middle; the other begins 110 above it.
    assert [f.standing for f in findings] == ["fault"]
    assert findings[0].measured == pytest.approx(-50, abs=0.5)


# A shroud straight down 400 to port of the axis, 10 thick: slack by 1 % of 17,000 it hangs 170 off there.
SHROUD = a_stay(
    "cap-p", role="cap", side="port",
    upper={"from_masthead_mm": 0.0, "girth": "bearing 270", "stand_off_mm": 335.0},
    deck={"ahead_mm": 0.0, "off_mm": 400.0, "above_mm": 0.0},
)  # fmt: skip


@pytest.mark.parametrize(("stands_mm", "measured"), [(155, None), (160, None), (165, -4.5), (300, -55)])
def test_a_slack_shroud_swings_onto_a_fitting(stands_mm, measured):
    """From 65 to port the box stands out; 40 below its middle the shroud hangs 169.5 in: 395 less both.

    Deep in a box 100 wide the nearest way out is sideways, past half of that and half the wire.
    """
    box = a_fitting(girth="bearing 270")
    layout = a_layout(kinds=(proud(stands_mm),), fittings=(box,), stays=(SHROUD,))
    said = found(layout, "clearance/slack")
    assert not found(layout, "clearance/stay")
    assert [one.standing for one in said] == ([] if measured is None else ["caution"])
    if measured is not None:
        assert said[0].subjects == ("box-1", "cap-p")
        assert said[0].state == "slack to leeward"
        # The depth of an overlap is never said too small, and up to a few per cent too large.
        assert measured * 1.05 - 0.1 <= said[0].measured <= measured + 0.1


def test_what_a_shroud_meets_at_rest_is_said_once():
    """As at rest, whatever it does slack."""
    layout = a_layout(kinds=(proud(320),), fittings=(a_fitting(girth="bearing 270"),), stays=(SHROUD,))
    assert [one.state for one in found(layout, "clearance/stay")] == [""]
    assert not found(layout, "clearance/slack")


@pytest.mark.parametrize(("role", "many"), [("forestay", 1), ("backstay", 0)])
def test_a_sail_pulls_its_stay_aft(role, many):
    """Straight up 300 ahead, 75 off a box 120 proud: 2 % of 17,000 aft of that is through it."""
    stay = WIRE.model_copy(update={"role": role})
    assert len(found(a_layout(stays=(stay,)), "clearance/slack")) == many


def test_a_measured_sag_counts_before_the_setting():
    """70 at the middle leaves 5, 80 does not."""
    for sag_mm, many in ((70.0, 0), (80.0, 1)):
        stay = WIRE.model_copy(update={"sag_mm": sag_mm})
        assert len(found(a_layout(stays=(stay,)), "clearance/slack")) == many


def test_slack_by_nothing_is_at_rest():
    """The owner's own setting holds."""
    tight = LimitOverride(key="slack.shroud", value=0.0, unit="%", why="rod, never slack")
    box = a_fitting(girth="bearing 270")
    layout = a_layout(kinds=(proud(300),), fittings=(box,), stays=(SHROUD,), limits=(tight,))
    assert not found(layout, "clearance/slack")


@pytest.mark.parametrize("path", sorted(demo_masts().glob("*.toml")), ids=lambda path: path.stem)
def test_no_slack_wire_of_the_yachts_meets_a_fitting(path):
    """Tangs, spreader lights, eyes beside the shrouds: none is flagged, as on a mast rigged well."""
    assert not found(open_document(path).layout, "clearance/slack")


def test_the_worst_place_of_a_slack_wire_is_on_it():
    """Between the box's outer face and the wire hanging in, 395 less 169.5 from the axis."""
    near = LimitOverride(key="clearance.slack", value=10.0, unit="mm", why="a wide berth")
    scene = build(
        a_layout(
            kinds=(proud(155),), fittings=(a_fitting(girth="bearing 270"),), stays=(SHROUD,), limits=(near,)
        )
    )
    (said,) = [one for one in check(scene).open if one.code == "clearance/slack"]
    worst = worst_of(scene, said)
    assert worst is not None
    assert worst.at[1] == pytest.approx(65 + 155, abs=0.1)
    assert worst.other[1] == pytest.approx(395 - 169.5, abs=0.2)
