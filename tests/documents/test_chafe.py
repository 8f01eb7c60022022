"""The chafe sheet of the three yachts: read back from the page and from the PDF, drawn to scale."""

import io
import re

import known
import pdfplumber
import pytest
from builders import a_layout, a_main
from sheet_check import faults, words

from mastlayout.checks.main import CLOTH
from mastlayout.checks.report import check, unasked
from mastlayout.checks.tack import TACK
from mastlayout.documents.chafe import chafe_pages
from mastlayout.documents.page import Polyline
from mastlayout.documents.papers import papers
from mastlayout.documents.pdf import pdf
from mastlayout.documents.rows import Chafe, Plan
from mastlayout.documents.schedule.chafe import chafe_of
from mastlayout.documents.schedule.chafed import touched
from mastlayout.documents.schedule.plan import head_of
from mastlayout.geometry.scene import build
from mastlayout.model.edits import change
from mastlayout.model.layout import LimitOverride
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

YACHTS = ("whimbrel", "sanderling", "turnstone")


@pytest.fixture(scope="module")
def plans():
    """The three yachts' plans, in millimetres and in inches."""
    reports = {y: known.report(y) for y in YACHTS}
    return {
        (y, units): Plan(head_of(report, units, "2026-11-25"), chafe=chafe_of(report, units))
        for y, report in reports.items()
        for units in ("metric", "inches")
    }


def sail_of(chafe, name):
    """One sail of a chafe sheet."""
    return next(sail for sail in chafe.sails if sail.name == name)


def row_of(sail, what):
    """The patch that is for a thing."""
    return next(row for row in sail.rows if what in row.what)


@pytest.mark.parametrize("yacht", YACHTS)
@pytest.mark.parametrize(("units", "paper"), [("metric", "A4"), ("inches", "Letter"), ("inches", "A3")])
def test_every_text_has_its_place(plans, yacht, units, paper):
    """Inside the block, over no other text, 7 pt at least; no figure is cut."""
    plan = plans[yacht, units]
    pages = chafe_pages(plan.head, plan.chafe, paper)
    assert pages
    for page in pages:
        assert faults(page) == []
    said = " ".join(words(pages))
    assert not re.search(r"\d…", said)
    for sail in plan.chafe.sails:
        assert sail.name in said


def test_what_a_rigger_looks_for_is_there(plans):
    """Spreader tips of an overlapping genoa, her guard, the main on swept shroud and spreader (practice)."""
    genoa = sail_of(plans["whimbrel", "metric"].chafe, "Genoa, 140 %")
    tips = [row_of(genoa, name) for name in ("Upper spreader, P and S", "Lower spreader, P and S")]
    assert [row.when for row in tips] == ["sheeted in", "sheeted in"]
    assert row_of(genoa, "Radome guard").when == "on the tack"
    assert "15 Reflector, cluster 230" in genoa.moved
    assert "51 Pole track" in genoa.rubs
    main = sail_of(plans["turnstone", "metric"].chafe, "Mainsail")
    assert {row.what for row in main.rows} >= {"Cap shroud, P and S", "Spreader, P and S"}
    assert row_of(sail_of(plans["turnstone", "metric"].chafe, "Mainsail, second reef"), "Spreader").up == (
        "6660",
    )


def test_a_jib_that_reaches_no_tip_has_no_tip_patch(plans):
    """Whimbrel's 92 % jib and staysail end short of both spreaders' tips."""
    for name in ("Jib, 92 %", "Staysail"):
        rows = sail_of(plans["whimbrel", "metric"].chafe, name).rows
        assert not [row for row in rows if row.what.startswith(("Upper spreader, ", "Lower spreader, "))]


def test_a_free_luff_and_an_unmeasured_sail_are_named(plans):
    """Never left out without a word."""
    assert plans["sanderling", "metric"].chafe.left_out == (
        "Code sail: its luff is free: see on the water what it meets.",
    )
    chafe = chafe_of(check(build(a_layout(sails=(a_main(e_mm=None),)))), "metric")
    assert chafe.sails == ()
    assert chafe.left_out == ("Main: not worked out, its measures are not known: see MEASURE FIRST.",)


def test_without_sails_there_is_no_sheet(plans):
    """As all sheets that have nothing to say."""
    assert chafe_pages(plans["whimbrel", "metric"].head, Chafe()) == []
    assert not [paper for paper in papers(check(build(a_layout()))) if "chafe" in paper.name]


def test_the_picture_is_to_its_scale(plans):
    """Outline and patches read back from the page's marks, times the scale that it names."""
    plan = plans["turnstone", "metric"]
    page = chafe_pages(plan.head, plan.chafe)[0]
    sail = plan.chafe.sails[0]
    scale = int(next(re.match(r"1:(\d+)", text)[1] for text in words([page]) if text.startswith("1:")))
    shapes = [mark.points for mark in page.marks if isinstance(mark, Polyline) and mark.closed]

    def size(points):
        return tuple(max(axis) - min(axis) for axis in zip(*points, strict=True))

    drawn = [tuple(round(side * scale, 3) for side in size(points)) for points in shapes]
    for outline in (sail.outline, *(row.outline for row in sail.rows)):
        assert tuple(round(side, 3) for side in size(outline)) in drawn


def test_the_owners_margins_are_taken_and_printed(plans):
    """A patch is smaller by as much as the owner took off its margins."""
    own = [LimitOverride(key=f"chafe.{way}", value=mm, unit="mm", why="thin cloth")
           for way, mm in (("above", 100.0), ("below", 200.0), ("beside", 100.0))]  # fmt: skip
    layout = open_document(demo_masts() / "turnstone.toml").layout
    report = check(build(layout.model_copy(update={"limits": (*layout.limits, *own)})))
    chafe = chafe_of(report, "metric")
    assert chafe.margin == ("100", "200", "100")
    own_size, size = (
        [int(side.split()[0]) for side in row_of(sail_of(one, "Genoa, 135 %"), "Spreader, P and S").size]
        for one in (chafe, plans["turnstone", "metric"].chafe)
    )
    # 150 and 450 became 100 and 200; twice 150 became twice 100.
    assert [known - own for known, own in zip(size, own_size, strict=True)] == [300, 100]


def test_the_file_reads_back(plans):
    """The PDF's own text: kind, sail, where to measure, and its cautions."""
    plan = plans["whimbrel", "metric"]
    data = pdf(chafe_pages(plan.head, plan.chafe), "Whimbrel, chafe sheet")
    with pdfplumber.open(io.BytesIO(data)) as book:
        text = "\n".join(page.extract_text() for page in book.pages)
    row = row_of(plan.chafe.sails[0], "Upper spreader, P and S")
    for said in ("CHAFE 1 of", "Genoa, 140 %", *row.up, *row.out, "before it is sewn"):
        assert said in text


def test_what_is_printed_before_the_check_has_run_says_no_less():
    """A report that names nothing yet leaves no fitting out: the same sheet as after the check."""
    layout = open_document(demo_masts() / "turnstone.toml").layout
    scene = build(layout)
    assert chafe_of(unasked(scene), "metric") == chafe_of(check(scene), "metric")


def test_after_a_move_it_draws_what_a_check_from_nothing_would():
    """What rules of cloth measured is kept with the report; of what moved, and what its guard left, anew."""
    before = known.report("whimbrel")
    layout = change(before.scene.layout, "radome-bracket-1", from_masthead_mm=7_300.0)
    after = check(build(layout, before.scene), before)
    fresh = check(build(layout))
    for rule in (TACK, CLOTH):
        told = [set(_told(report, rule)) for report in (before, after, fresh)]
        assert told[1] == told[2]
    assert set(_told(before, TACK)) != set(_told(after, TACK))


def _told(report, rule):
    """What is touched, in which state and how."""
    return ((one.placed.id, one.state, round(one.z_mm, 3), one.does) for one in touched(report, rule))
