"""From a checked layout to rows: readings by hand, typical feet, notes, holds, what is not known."""

import math
from dataclasses import replace

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast, a_spreader, a_stay
from scipy.special import ellipe
from sheet_check import faults, texts

from mastlayout.checks import report
from mastlayout.checks.report import check
from mastlayout.documents.drill import drill_pages
from mastlayout.documents.labels import label_pages
from mastlayout.documents.page import Polyline
from mastlayout.documents.schedule.plan import day_in_words, plan_mark, plan_of
from mastlayout.documents.walk import hold_of
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import AsBuilt, Cable, HoleBuilt, OldHole
from mastlayout.model.layout import Accepted, LimitOverride
from mastlayout.model.mast import Conduit, Run, Taper, Wall
from mastlayout.units import MM_PER_INCH

# Half the girth of an ellipse 200 x 130, by the complete elliptic integral: 262.3.
HALF_GIRTH = 2 * 100 * ellipe(1 - (65 / 100) ** 2)


def planned(units="metric", **parts):
    """Return the rows of a small layout."""
    return plan_of(check(build(a_layout(**parts))), units, "2026-11-25")


def test_holes_stand_at_their_readings():
    """Foot ahead at 8000, holes 30 round and 15 along: 7985 and 8015, heel 9015 and 8985, to 17000."""
    (block,) = planned().drill
    assert [(row.height.masthead, row.height.heel) for row in block.rows] == [
        (7985, 9015), (7985, 9015), (8015, 8985), (8015, 8985)
    ]  # fmt: skip
    assert [(row.round.forward / 2, row.round.side) for row in block.rows] == [
        (30.0, "starboard"), (30.0, "port"), (30.0, "starboard"), (30.0, "port")
    ]  # fmt: skip


def test_the_second_reading_round_counts_from_the_track_edge():
    """Half the girth to 0.5, less half the slot of 5.0 to 0.5, less 30.0."""
    (block,) = planned().drill
    total = round(HALF_GIRTH * 2) / 2 - 2.5
    assert {row.round.track_edge / 2 for row in block.rows} == {total - 30.0}
    assert (block.half_girth, block.half_track) == (f"{round(HALF_GIRTH * 2) / 2:.1f}", "2.5")


def test_holes_are_pictured_seen_from_outside():
    """Ahead, starboard is left: the first row is the hole to starboard, masthead side."""
    (block,) = planned().drill
    assert block.rows[0].at == pytest.approx((-30.0, 15.0), abs=0.1)
    assert block.foot.line_across_mm == pytest.approx(0.0, abs=0.1)
    assert max(x for x, _y in block.foot.outline) == pytest.approx(55.0)


def test_drill_pilot_stop_and_stack_of_a_tapped_hole():
    """M6: drill 5.0, pilot 2.5, stop 5.0 + 0.3 x 5.0 + 4 rounded up; 8.5 and a pitch want a screw of 10."""
    (block,) = planned().drill
    row = block.rows[0]
    assert (row.drill_mm, row.how) == (5.0, "pilot 2.5 · stop 11")
    assert (row.fastener, row.stack) == ("M6 × 10 tapped", "3.0 + 0.5 + 5.0 = 8.5")


def test_an_unknown_wall_asks_for_it():
    """The nearest reading is 3000 away: no pilot, no stop, no sum, and the hole is stopped."""
    walls = (Wall(from_masthead_mm=5000.0, thickness_mm=4.0),)
    (block,) = planned(mast=a_mast(walls=walls)).drill
    row = block.rows[0]
    assert row.wall_missing
    assert (row.how, row.fastener, row.stack) == ("", "M6, after wall", "3.0 + 0.5 + wall")
    assert row.stop is not None
    assert "wall" in row.stop.text


def test_a_typical_foot_has_a_centre_and_no_rows():
    """Until the owner confirms it from the part in hand."""
    plan = planned(fittings=(a_fitting(in_hand=None),))
    (block,) = plan.drill
    assert block.rows == ()
    assert block.centre.height.masthead == 8000
    assert "typical" in " ".join(block.facts)
    (row,) = plan.mount
    assert (row.hold, row.remark) == (True, "offer up the part")


def test_the_saddle_is_the_depth_of_the_ellipse():
    """Foot of 110 round the front of an ellipse 200 x 130: the fall 55 along the arc, integrated."""
    angle = np.linspace(0, math.pi / 2, 200001)
    x, y = 100 * np.cos(angle), 65 * np.sin(angle)
    arc = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), np.diff(y)))])
    depth = 100 - np.interp(55.0, arc, x)
    (block,) = planned().drill
    assert f"saddle {depth:.1f} deep" in block.facts


def test_a_hole_with_an_open_finding_is_stopped():
    """A conduit right behind one hole: that row carries its sentence, measured and wanted in it."""
    pipe = Conduit(
        id="a", name="Conduit A", bore_mm=20.0, outside_mm=24.0, slots=(),
        runs=(Run(from_masthead_mm=100.0, to_mm=16000.0, bearing_deg=330.0),),
    )  # fmt: skip
    (block,) = planned(mast=a_mast(conduits=(pipe,))).drill
    stopped = [row for row in block.rows if row.stop]
    assert stopped
    assert all("Conduit A" in row.stop.text for row in stopped)
    assert all(row.round.side == "port" for row in stopped)
    assert block.section.conduits[0].centre is not None


def test_a_conduit_without_a_place_is_named_and_not_drawn():
    """Unknown is no place."""
    pipe = Conduit(
        id="b", name="Conduit B", outside_mm=24.0, runs=(Run(from_masthead_mm=100.0, to_mm=16000.0),)
    )
    (block,) = planned(mast=a_mast(conduits=(pipe,))).drill
    assert [(mark.letter, mark.centre) for mark in block.section.conduits] == [("B", None)]
    (block,) = planned(mast=a_mast(conduits=None)).drill
    assert block.section.conduits is None


def test_no_track_is_no_second_reading():
    """The width of the slot is not known."""
    (block,) = planned(mast=a_mast(track=None)).drill
    assert block.half_track is None


def test_in_a_taper_each_row_has_its_own_sum():
    """The girth shrinks towards the masthead, and rows 30 apart tell it."""
    mast = a_mast(taper=Taper(from_masthead_mm=10000.0, length_mm=100.0, width_mm=60.0))
    foot = a_foot(along_mm=400.0, holes=[
        {"across_mm": 30.0, "along_mm": along, "fastener": "M6 tapped"} for along in (180.0, -180.0)
    ])  # fmt: skip
    (block,) = planned(mast=mast, fittings=(a_fitting(in_hand=foot),)).drill
    assert block.rows[0].round.total < block.rows[1].round.total


def test_inches_sum_in_sixteenths():
    """Every pair is whole sixteenths that add up to the length of 17000 mm, 10709 of them."""
    (block,) = planned("inches").drill
    for row in block.rows:
        assert row.height.masthead + row.height.heel == round(17000 / MM_PER_INCH * 16) == 10709
    # 3.0, 0.5 and 5.0 mm to a thousandth of an inch each; 0.335 in is 8.509 mm.
    assert block.rows[0].stack == "0.118+0.020+0.197 = 0.335 in (8.5 mm)"


def test_only_new_fittings_are_drilled_and_mounted():
    """What is there already stands in the elevation alone."""
    plan = planned(fittings=(a_fitting(new=False),))
    assert (plan.drill, plan.mount) == ((), ())
    assert [row.what for row in plan.elevation.rows] == ["box-1"]


@pytest.mark.parametrize(
    ("girth", "face", "words"),
    [
        ("ahead", "forward", ("AHEAD", "on line")),
        ("40 to port", "forward", ("AHEAD, PORT", "40.0 off line")),
        ("aft", "aft", ("AFT", "on track")),
        ("30 to port of aft", "aft", ("AFT, PORT", "27.5 off track edge")),
        ("bearing 90", "starboard", ("STARBOARD", f"{round(HALF_GIRTH / 2 * 2) / 2:.1f} off line")),
    ],
)
def test_faces_in_words(girth, face, words):
    """The slot is 5.0 wide, so its edge is 2.5 nearer than its middle."""
    plan = planned(fittings=(a_fitting(girth=girth),))
    assert plan.drill[0].face == face
    assert (plan.mount[0].face, plan.mount[0].place) == words


def test_the_order_of_work_is_mast_spreader_then_top():
    """From the masthead down on the mast, before what hangs on a spreader."""
    fittings = (
        a_fitting("low", from_masthead_mm=9500.0),
        a_fitting("flood", on="spreader-p", along_mm=400.0, from_masthead_mm=None, girth=None),
        a_fitting("high", from_masthead_mm=1000.0),
    )
    plan = planned(fittings=fittings, spreaders=(a_spreader(),))
    assert [row.name for row in plan.mount] == ["high", "low", "flood"]
    assert (plan.mount[2].face, plan.mount[2].place) == ("PORT spreader", "400 out")


def test_cables_say_where_they_go():
    """7.0 to Conduit A; without a conduit the way is not known."""
    pipe = Conduit(id="a", name="Conduit A", runs=())
    cable = Cable(id="c", name="Cable", fitting="box-1", outside_mm=7.0, conduit="a")
    assert planned(mast=a_mast(conduits=(pipe,)), cables=(cable,)).mount[0].cable == "7.0 to Conduit A"
    lost = cable.but(conduit=None)
    assert planned(mast=a_mast(conduits=(pipe,)), cables=(lost,)).mount[0].cable == "7.0, way not known"


def test_unchecked_hole_rules_hold_every_fitting_that_is_drilled(monkeypatch):
    """Only the dry run may be done; where all ran and all is known, nothing holds it."""
    assert not planned().mount[0].hold
    monkeypatch.setattr(report, "NOT_RUN", ("hole rules",))
    assert planned().mount[0].hold


def drilled_rows(**parts):
    """Tell of each hole of one fitting whether it may be drilled."""
    (block,) = planned(**parts).drill
    return [hold_of(row, block) is None for row in block.rows]


LOST_PIPE = {
    "id": "pipe", "name": "Conduit A", "bore_mm": 25.0, "outside_mm": 30.0,
    "runs": [{"from_masthead_mm": 7000.0, "to_mm": 9000.0}],
}  # fmt: skip
PINNED = {"from_masthead_mm": 7900.0, "girth": "ahead"}


@pytest.mark.parametrize(
    "parts",
    [
        {"mast": a_mast(walls=[])},
        {"mast": a_mast(conduits=[LOST_PIPE])},
        {"mast": a_mast(conduits=None)},
        {"mast": a_mast(stretches=None)},
        {"mast": a_mast(track=None)},
        {"mast": a_mast(taper=None)},
        {"spreaders": (a_spreader(from_masthead_mm=8100.0),)},
        {"stays": (a_stay(upper=PINNED),)},
        {"holes": (OldHole(id="old", name="Old", from_masthead_mm=8030.0, girth="aft"),)},
        {"fittings": (a_fitting(), a_fitting("box-2", new=False, in_hand=None, from_masthead_mm=8060.0))},
    ],
    ids=[
        "wall",
        "lost conduit",
        "conduits",
        "sleeves",
        "track",
        "taper",
        "root",
        "hounds",
        "old hole",
        "old foot",
    ],
)
def test_what_is_not_known_of_a_hole_holds_it_back(parts):
    """All is known and all ran: four holes may be drilled. Take one measure away, or its word: none."""
    assert drilled_rows() == [True] * 4
    assert drilled_rows(**parts) == [False] * 4


@pytest.mark.parametrize("part", ["halyards", "holes", "stays", "spreaders"])
def test_a_list_nobody_began_holds_every_hole_back(part):
    """Left out is not empty: nobody has looked."""
    layout = a_layout()
    lacking = type(layout).model_construct(**dict(layout), _fields_set=layout.model_fields_set - {part})
    (block,) = plan_of(check(build(lacking)), "metric", "2026-11-25").drill
    assert not any(hold_of(row, block) is None for row in block.rows)


def test_a_word_that_was_given_lets_a_hole_go():
    """Near a root it is held until the rigger's word is written down."""
    parts = {"spreaders": (a_spreader(from_masthead_mm=8100.0),)}
    word = Accepted(
        code="hole/near-root",
        subjects=("box-1", "spreader-p"),
        remark="rigger: fine",
        day="2026-11-25",
        measured=85.0,
    )
    assert drilled_rows(**parts, accepted=(word,)) == [True] * 4


def test_only_the_entry_waits_for_its_cable():
    """A slot that nobody looked for holds the entry; the screws may be drilled."""
    entry = {"across_mm": 0.0, "along_mm": -58.0, "diameter_mm": 10.0}
    pipe = LOST_PIPE | {"runs": [{"from_masthead_mm": 100.0, "to_mm": 16900.0, "bearing_deg": 180.0}]}
    cable = Cable(id="c", name="C", fitting="box-1", outside_mm=7.0, plug_mm=0.0, conduit="pipe", new=True)
    rows = drilled_rows(
        mast=a_mast(conduits=[pipe]), fittings=(a_fitting(in_hand=a_foot(entry=entry)),), cables=(cable,)
    )
    assert rows == [True] * 4 + [False]


@pytest.mark.parametrize("checked", [True, False])
def test_what_is_drilled_has_no_empty_box_to_drill(checked):
    """Hole 1 is ticked as drilled, hole 2 was measured in the mast; 3 and 4 are to be made."""
    built = HoleBuilt(number=2, from_masthead_mm=8015.0, girth="ahead", by="Jo", day="2026-11-26")
    done = ("h1 marked", "h1 measured again", "h1 drilled")
    plan = planned(fittings=(a_fitting(tag=7, done=done, holes_built=(built,)),))
    rows = {row.number: row.done for block in plan.drill for row in block.rows}
    assert rows == {
        1: {"marked", "measured again", "drilled"}, 2: {"drilled"}, 3: frozenset(), 4: frozenset(),
    }  # fmt: skip
    head = replace(plan.head, holes_checked=checked)
    pages = (*drill_pages(head, plan.drill), *label_pages(head, plan.drill))
    said = [text.text for page in pages for text in texts(page)]
    assert said.count("DRILLED") >= 2
    assert [fault for page in pages for fault in faults(page)] == []
    # A tick is a bent line of three points within its box.
    ticks = [m for page in pages for m in page.marks if isinstance(m, Polyline) and len(m.points) == 3
             and m.width_mm == 0.9]  # fmt: skip
    assert bool(ticks)


@pytest.mark.parametrize(
    ("foot", "said"),
    [
        ({"seat": "flat"}, ["packer 11.3 at its edges", "square to the foot"]),
        ({"seat": "radiused", "radius_mm": 30.0}, ["packer 18.7 in its middle", "square to the foot"]),
        ({"seat": "radiused"}, ["packer not known", "square to the foot"]),
        ({"seat": "shaped"}, ["square to the skin"]),
    ],
)
def test_a_foot_says_its_packer_and_how_its_holes_are_drilled(foot, said):
    """60 across the nose of 200 x 130 the skin falls 100 (1 - sqrt(1 - (30/65)^2)) = 11.29; R 30 falls 30."""
    (block,) = planned(fittings=(a_fitting(in_hand=a_foot(across_mm=60, **foot)),)).drill
    assert [fact for fact in block.facts if fact.startswith(("packer", "square"))] == said


def test_the_elevation_reads_heights_above_the_water():
    """Rake 2 degrees, heel 250 below the water: 9000 cos 2 - 250 = 8744.5."""
    plan = planned(
        boat=Boat(name="Test", heel_above_water_mm=-250.0, deck_above_heel_mm=1950.0),
        mast=a_mast(rake_deg=2.0),
        stays=(a_stay(),),
    )
    (row,) = plan.elevation.rows
    assert row.water_mm == pytest.approx(9000 * math.cos(math.radians(2)) - 250, abs=0.01)
    assert plan.elevation.deck_mm == 17000 - 1950
    assert [stay.name for stay in plan.elevation.stays] == ["forestay"]
    assert max(x for x, _y in plan.elevation.gear[0]) == pytest.approx(100 + 120, abs=1)


def test_water_is_not_known_without_rake_or_heel():
    """A question, not a height."""
    assert planned(mast=a_mast(rake_deg=None)).elevation.rows[0].water_mm is None


def test_pairs_share_a_label():
    """Port and starboard of one height and one name but for the side."""
    pair = (
        a_fitting("winch-p", name="Winch, P", girth="bearing 270", new=False),
        a_fitting("winch-s", name="Winch, S", girth="bearing 90", new=False),
        a_fitting("horn", name="Horn", new=False),
    )
    rows = planned(fittings=pair).elevation.rows
    assert sorted((row.what, row.face) for row in rows) == [("Horn", "ahead"), ("Winch", "P S")]


def test_what_is_not_known_is_on_the_measure_list():
    """The typical foot of one fitting, by its tag."""
    rows = planned(fittings=(a_fitting(in_hand=None, tag=13),)).measure
    feet = next(row for row in rows if row.picture == "foot" and row.boxes == ("13",))
    assert feet.group == "trestles"


def test_limits_of_the_owner_and_accepted_findings_are_printed():
    """Beside the program's own limit, with day and remark."""
    near = (a_fitting(), a_fitting("box-2", from_masthead_mm=8083.0))
    own = (LimitOverride(key="clearance.fitting", value=20.0, unit="mm", why="tools must pass"),)
    before = planned(fittings=near, limits=own)
    found = next(row for row in before.findings if row.code == "clearance/fitting")
    assert (found.measured, found.needed, found.source) == ("3.0", "20", "limit set by the owner")
    assert [(row.own, row.why) for row in before.limits] == [("20 mm", "tools must pass")]
    signed = Accepted(
        code="clearance/fitting", subjects=("box-1", "box-2"), remark="seen", day="2026-11-24", measured=3.0
    )
    after = planned(fittings=near, limits=own, accepted=(signed,))
    found = next(row for row in after.findings if row.code == "clearance/fitting")
    assert found.standing == "accepted"
    assert "2026-11-24" in found.remark
    assert "seen" in found.remark
    assert any("seen" in note.text for block in after.drill for note in block.notes)


def test_as_built_is_what_is_printed():
    """The measured height stands in the rows, and the heading says by whom."""
    built = AsBuilt(from_masthead_mm=8010.0, by="Kim", day="2026-11-20")
    (block,) = planned(fittings=(a_fitting(as_built=built),)).drill
    assert block.centre.height.masthead == 8010
    assert any("Kim" in fact for fact in block.facts)


def test_the_plan_mark_changes_with_the_plan_and_not_with_ticks():
    """Four signs; a hole ticked as drilled is the same plan."""
    layout = a_layout()
    mark = plan_mark(layout)
    assert len(mark) == 4
    assert plan_mark(a_layout(fittings=(a_fitting(from_masthead_mm=8001.0),))) != mark
    assert plan_mark(a_layout(fittings=(a_fitting(done=("h1 drilled",)),))) == mark


@pytest.mark.parametrize(("day", "words"), [("2026-11-05", "5 Nov 2026"), ("", ""), ("soon", "soon")])
def test_days_are_written_as_on_paper(day, words):
    """Anything that is no date stays as it is."""
    assert day_in_words(day) == words


def test_a_kind_without_metal_says_so():
    """No liner is chosen for what nobody knows."""
    plan = planned(kinds=(a_kind(metal=None),))
    assert plan.mount[0].isolation == "metal not known"
    assert replace(plan.head).units == "metric"
