"""Threads in the wall, grips of rivets, what no table has, what a through bolt meets: expected by hand."""

import known
import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.checks.report import check, worse
from mastlayout.geometry.scene import build
from mastlayout.model.layout import LimitOverride
from mastlayout.model.mast import Ellipse, Wall


def one_hole(fastener, **foot):
    """A foot with one hole in its middle."""
    return a_foot(holes=[{"across_mm": 0.0, "along_mm": 0.0, "fastener": fastener}], **foot)


def walled(thickness_mm):
    """A mast with one reading, at the fitting."""
    return a_mast(walls=(Wall(from_masthead_mm=8000.0, thickness_mm=thickness_mm),))


def held_by(fastener, thickness_mm, *, foot=None, **fitting):
    """A layout of one fitting held so in a wall."""
    own = a_fitting(in_hand=one_hole(fastener, **(foot or {})), **fitting)
    return a_layout(mast=walled(thickness_mm), fittings=(own,))


@pytest.mark.parametrize(
    ("fastener", "wall_mm", "standing", "threads"),
    [
        ("M6 tapped", 5.0, None, 5.0),  # at the limit: pitch 1.0
        ("M6 tapped", 4.98, "caution", 4.98),
        ("M6 tapped", 3.9, "caution", 3.9),
        ("M6 tapped", 3.0, "caution", 3.0),
        ("M6 tapped", 2.98, "fault", 2.98),
        ("M8 tapped", 3.4, "fault", 2.72),  # pitch 1.25
        ("1/4-20 tapped", 4.0, "caution", 3.15),  # pitch 1.27
        ("M6 through", 1.0, None, None),
        ("rivet 4.8", 1.0, None, None),
    ],
)
def test_full_threads_in_the_wall(fastener, wall_mm, standing, threads):
    """Wall over pitch; fewer than five a caution, fewer than three a fault (common practice, no source)."""
    said = found(held_by(fastener, wall_mm), "fastener/threads")
    assert [one.standing for one in said] == ([standing] if standing else [])
    assert [one.measured for one in said] == ([pytest.approx(threads, abs=0.01)] if standing else [])


BACKED = [(2.85, []), (2.83, ["caution"]), (0.35, ["caution"]), (0.33, ["fault"])]


@pytest.mark.parametrize(("bar_mm", "standings"), BACKED)
def test_a_backing_bar_counts_in_the_threads(bar_mm, standings):
    """M8, pitch 1.25, in a wall of 3.4: five threads want 6.25, three 3.75."""
    said = found(held_by("M8 tapped", 3.4, foot={"backing_mm": bar_mm}), "fastener/threads")
    assert [one.standing for one in said] == standings
    assert all("its backing bar counted" in one.state for one in said)


def test_a_wall_nobody_measured_counts_no_threads_and_is_asked_for():
    """Not checked, with what to measure; no thread is guessed."""
    layout = held_by("M8 tapped", 3.4, from_masthead_mm=9000.0)
    assert not found(layout, "fastener/threads")
    assert [(f.standing, f.measure) for f in found(layout, "hole/wall")] == [("not checked", "mast.wall")]


def test_the_wall_is_taken_at_each_hole():
    """A foot of 1000 whose middle has a reading within reach, and whose lower hole has none."""
    holes = [{"across_mm": 0.0, "along_mm": a, "fastener": "M6 tapped"} for a in (450.0, -450.0)]
    foot = a_foot(along_mm=1000, holes=holes)
    layout = a_layout(
        mast=a_mast(walls=(Wall(from_masthead_mm=7700.0, thickness_mm=2.0),)),
        fittings=(a_fitting(in_hand=foot),),
    )
    assert [f.measure for f in found(layout, "hole/wall")] == ["mast.wall"]
    assert [f.subjects for f in found(layout, "fastener/threads")] == [("box-1/h1",)]


def test_what_has_held_for_years_is_no_caution_but_one_that_cannot_hold_is_a_fault():
    """A rigger is not bothered with old screws of three to five threads: they are noted; fewer are found."""
    noted = found(held_by("M6 tapped", 3.9, new=False), "fastener/threads")
    fault = found(held_by("M8 tapped", 3.4, new=False), "fastener/threads")
    assert [one.standing for one in (*noted, *fault)] == ["note", "fault"]


def test_a_typical_foot_makes_no_fault_of_its_screws():
    """The part in hand may have others."""
    kind = a_kind(foot=one_hole("M8 tapped"))
    layout = a_layout(mast=walled(3.4), kinds=(kind,), fittings=(a_fitting(in_hand=None),))
    assert [(f.standing, f.typical) for f in found(layout, "fastener/threads")] == [("caution", True)]


def test_an_owner_may_set_how_many_threads_hold():
    """A finding then says that the limit is the owner's; what holds for him is no fault."""
    own = LimitOverride(key="fastener.threads_least", value=2.5, unit="threads", why="My rigger says so.")
    layout = held_by("M8 tapped", 3.4).but(limits=(own,))
    assert [f.standing for f in found(layout, "fastener/threads")] == ["caution"]


def test_an_accepted_caution_of_threads_opens_again_when_it_is_worse():
    """Any thread fewer is worse: 3.9 were accepted, 3.8 are less."""
    said = found(held_by("M6 tapped", 3.8), "fastener/threads")[0]
    assert worse(said, 3.9)
    assert not worse(said, 3.8)


@pytest.mark.parametrize(
    ("thickness_mm", "outside_mm"), [(8.2, []), (8.22, [-0.02]), (11.0, [-0.37]), (12.0, []), (16.0, [-1.45])]
)
def test_a_rivet_grips_what_it_is_listed_to(thickness_mm, outside_mm):
    """US Army TM 10-5410-221-14/1, 1/4 in: 3.18 to 12.7, and 15.9 to 19.05; what lies between was not read.

    The stack is foot, liner 0.5 and wall 4; a range is held to 0.03, since it was rounded in inches.
    """
    foot = {"thickness_mm": thickness_mm, "liner_mm": 0.5}
    said = found(held_by("rivet 6.4", 4.0, foot=foot), "fastener/grip")
    assert [f.measured for f in said] == [pytest.approx(short, abs=0.001) for short in outside_mm]


def test_a_packer_counts_in_what_a_rivet_grips():
    """4.8: listed to 25 (ISO 15981); 3 + 0.5 + 4 and 20 off the skin are 27.5."""
    said = found(held_by("rivet 4.8", 4.0, stand_off_mm=20.0), "fastener/grip")
    assert [(f.standing, round(f.measured, 2)) for f in said] == [("caution", -2.5)]


@pytest.mark.parametrize(("across_mm", "clear"), [(0.0, True), (19.99, True), (20.2, False)])
def test_the_curve_under_a_flat_foot_counts_in_what_a_rivet_grips(across_mm, clear):
    """2.4 is listed to 9 (ISO 15981). Foot 1.568 and wall 4 leave 3.432: a radius of 60 falls that at 20."""
    foot = {"seat": "flat", "across_mm": 80, "along_mm": 60, "thickness_mm": 1.568, "liner_mm": 0.0}
    holes = [{"across_mm": across_mm, "along_mm": 0.0, "fastener": "rivet 2.4"}]
    mast = walled(4.0).but(section=Ellipse(shape="ellipse", length_mm=120, width_mm=120))
    layout = a_layout(mast=mast, fittings=(a_fitting(in_hand=a_foot(**foot, holes=holes)),))
    short = 3.432 - (60.0 - (60.0**2 - across_mm**2) ** 0.5)
    said = found(layout, "fastener/grip")
    assert [f.measured for f in said] == ([] if clear else [pytest.approx(short, abs=0.005)])


@pytest.mark.parametrize(("fastener", "said"), [("M7 tapped", 1), ("M6 tapped", 0), ("cable", 0)])
def test_a_fastener_that_no_table_has_is_named(fastener, said):
    """Its hole has no drill until somebody writes one."""
    assert len(found(held_by(fastener, 9.0), "fastener/unlisted")) == said


CONDUIT = {
    "id": "pipe", "name": "Pipe", "bore_mm": 25.0, "outside_mm": 30.0,
    "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 180.0}],
}  # fmt: skip


@pytest.mark.parametrize(("across_mm", "measured"), [(0.0, -20.5), (22.0, 1.5), (26.0, None)])
def test_a_through_bolt_meets_what_lies_across(across_mm, measured):
    """A pipe of 30 aft, an M10 from ahead: its hole of 11 on the axis is 15 + 5.5 deep in it; 5 are wanted.

    The drill itself runs 50, and never comes near.
    """
    holes = [{"across_mm": across_mm, "along_mm": 0.0, "fastener": "M10 through"}]
    layout = a_layout(
        mast=a_mast(conduits=[CONDUIT]), fittings=(a_fitting(in_hand=a_foot(seat="flat", holes=holes)),)
    )
    said = found(layout, "fastener/through")
    assert [f.measured for f in said] == ([] if measured is None else [pytest.approx(measured, abs=0.01)])
    assert not found(layout, "hole/inside")


def test_what_the_drill_meets_is_said_once():
    """The same pipe ahead lies before the drill: that is the hole's finding, not the bolt's too."""
    pipe = CONDUIT | {"runs": [CONDUIT["runs"][0] | {"bearing_deg": 0.0}]}
    layout = a_layout(
        mast=a_mast(conduits=[pipe]), fittings=(a_fitting(in_hand=one_hole("M10 through", seat="flat")),)
    )
    assert found(layout, "hole/inside")
    assert not found(layout, "fastener/through")


def test_a_mast_of_carbon_is_its_builders():
    """No thread, grip or metal is judged: it says so, once."""
    layout = held_by("M8 tapped", 1.0).but(mast=walled(1.0).but(material="carbon"))
    report = check(build(layout))
    assert not [f for f in report.open if f.code.startswith("fastener/")]
    assert [(f.standing, f.state) for f in report.open if f.code == "metals/builder"] == [
        ("not checked", "carbon")
    ]


def test_whimbrels_m8_in_the_vang_is_found():
    """Planted 4: M8 tapped in 3.4, 2.7 threads."""
    report = known.report("whimbrel")
    said = [f for f in report.open if f.code == "fastener/threads" and f.standing == "fault"]
    assert [(f.subjects, round(f.measured, 1)) for f in said] == [(("vang-tang/h6",), 2.7)]
