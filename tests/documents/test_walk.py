"""The order of the walk, the labels that mark it, and the cards for the chair."""

import io
from dataclasses import replace
from itertools import pairwise, permutations

import known
import pdfplumber
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_spreader
from sample_plan import DRILL, HEAD, hailer, hole
from sheet_check import faults, texts, words

from mastlayout.checks.report import check
from mastlayout.documents.chair import chair_pages
from mastlayout.documents.labels import label_pages
from mastlayout.documents.page import Rect
from mastlayout.documents.pdf import pdf
from mastlayout.documents.rows import Note
from mastlayout.documents.schedule.chair import chair_cards
from mastlayout.documents.schedule.drill import drill_blocks
from mastlayout.documents.strips import strip_pages
from mastlayout.documents.walk import FACES_ROUND, face_order, quarter_turns, row_order, walk_order
from mastlayout.geometry.scene import build

CHECKED = replace(HEAD, holes_checked=True)


# By hand on the ring forward, port, aft, starboard: what lies side by side is one quarter turn apart.
@pytest.mark.parametrize(
    ("faces", "way", "turns"),
    [
        ({"forward", "aft", "port", "starboard"}, ("forward", "port", "aft", "starboard"), 3),
        ({"forward", "port", "starboard"}, ("port", "forward", "starboard"), 2),
        ({"forward", "starboard", "aft"}, ("forward", "starboard", "aft"), 2),
        ({"forward", "aft"}, ("forward", "aft"), 2),
        ({"aft"}, ("aft",), 0),
        (set(), (), 0),
    ],
)
def test_the_mast_is_rolled_the_fewest_quarter_turns(faces, way, turns):
    """Every face with work comes up once, and no other way rolls less."""
    found = face_order(faces)
    assert (found, quarter_turns(found)) == (way, turns)


def test_no_way_of_rolling_is_shorter():
    """Against every order of every set of faces, each step counted on the ring by hand."""
    far = {(a, b): min(abs(i - j), 4 - abs(i - j)) for i, a in enumerate(FACES_ROUND)
           for j, b in enumerate(FACES_ROUND)}  # fmt: skip
    for count in range(1, 5):
        for faces in {frozenset(way) for way in permutations(FACES_ROUND, count)}:
            least = min(sum(far[pair] for pair in pairwise(way)) for way in permutations(faces))
            assert quarter_turns(face_order(faces)) == least


def test_blocks_go_by_face_then_along_the_mast_then_by_drill():
    """At one height the smaller drill comes first: it is in the chuck for the pilot anyway."""
    low, high = hailer(), replace(hailer(), centre=hole("9", 4000.0, 0.0, 4000.0), fitting="high")
    large = replace(low, rows=tuple(replace(row, drill_mm=12.0) for row in low.rows), fitting="large")
    aft = replace(high, face="aft", fitting="aft")
    order = walk_order([aft, large, low, high])
    assert order == [high, low, large, aft]


def test_holes_of_one_height_go_by_drill():
    """Height first, whatever the drill."""
    rows = [
        hole("1.1", 9000, 30, 9000, drill_mm=8.0),
        hole("1.2", 9000, -30, 9000, drill_mm=5.0),
        hole("1.3", 8990, 0, 9000, drill_mm=8.0),
    ]
    assert [row.tag for row in row_order(rows)] == ["1.3", "1.2", "1.1"]


def test_every_paper_follows_the_walk():
    """Schedule, labels and tables are one list: an aft fitting above a forward one comes later."""
    fittings = (
        a_fitting("up-1", tag=1, girth="aft", from_masthead_mm=2000.0),
        a_fitting("down-1", tag=2, from_masthead_mm=9000.0),
        a_fitting("side-1", tag=3, girth="bearing 90", from_masthead_mm=5000.0),
    )
    blocks = drill_blocks(check(build(a_layout(fittings=fittings))), "metric")
    assert [block.tag for block in blocks] == ["2", "3", "1"]


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
@pytest.mark.parametrize("head", [HEAD, CHECKED])
def test_labels_are_cut_true_and_read_whole(paper, head):
    """24 to a sheet, 63.5 x 25.5, nothing over anything else, none beyond the block."""
    pages = label_pages(head, DRILL, paper)
    for page in pages:
        assert faults(page) == []
        cut = [m for m in page.marks if isinstance(m, Rect) and m.dash_mm]
        assert [(m.width, m.height) for m in cut] == [(63.5, 25.5)] * 24
        assert all(m.x + m.width <= 259.01 and m.y + m.height < 182.6 for m in cut)


def test_a_label_names_no_drill_where_no_hole_may_be_drilled():
    """Hole 13.4 passes a conduit, those of 14 wait for the wall; before the rules ran no drill stands."""
    said = words(label_pages(CHECKED, DRILL))
    drilled = sum(text.startswith("⌀") for text in said)
    held = sum(text in {"STOP", "WALL?"} for text in said)
    rows = [row for block in DRILL for row in block.rows]
    assert drilled + held == len(rows)
    assert (drilled, "WALL?" in said, "STOP" in said) == (4, True, True)
    unchecked = words(label_pages(HEAD, DRILL))
    assert not [text for text in unchecked if text.startswith("⌀")]
    assert unchecked.count("DO NOT DRILL") == drilled


def test_nothing_to_drill_has_no_labels():
    """Not even those of the sides."""
    assert label_pages(HEAD, ()) == []


@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_labels_and_cards_of_the_yachts_fit(demo):
    """Nothing overlaps in millimetres or in feet and inches, rules run or not."""
    report, pages = known.report(demo), []
    for units in ("metric", "inches"):
        blocks = drill_blocks(report, units)
        for checked in (True, False):
            head = replace(HEAD, units=units, holes_checked=checked)
            cards = chair_cards(report, units, holes_checked=checked)
            pages += [*label_pages(head, blocks), *strip_pages(head, blocks), *chair_pages(head, cards)]
    assert [fault for page in pages for fault in faults(page)] == []


# -- strips along the tape


def read_back(head, blocks, paper):
    """The level lines of the strips' first page and its words, in mm from the paper's top."""
    data = pdf(strip_pages(head, blocks, paper), "strips")
    with pdfplumber.open(io.BytesIO(data)) as book:
        page = book.pages[0]
        level = [line for line in page.lines if abs(line["top"] - line["bottom"]) < 0.01]
        mm = 25.4 / 72
        lines = sorted((line["x0"] * mm, line["x1"] * mm, line["top"] * mm) for line in level)
        return lines, page.extract_words()


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
@pytest.mark.parametrize(("units", "part_mm"), [("metric", 1.0), ("inches", 25.4 / 16)])
def test_a_strip_is_the_tape_itself(paper, units, part_mm):
    """Read back from the file: named lines and holes are as far apart as their readings, to 0.05 mm."""
    head, block = replace(CHECKED, units=units), hailer(units)
    lines, said = read_back(head, [block], paper)
    left = min(x0 for x0, x1, _y in lines if abs(x1 - x0 - 4.0) < 0.01)
    named = sorted(y for x0, x1, y in lines if abs(x0 - left) < 0.01 and abs(x1 - x0 - 4.0) < 0.01)
    apart = {round(b - a, 3) for a, b in pairwise(named)}
    assert apart == {round({"metric": 10.0, "inches": 25.4}[units], 3)}
    readings = sorted({row.height.masthead for row in block.rows})
    low = {"metric": 9650, "inches": readings[0] // 16 * 16 - 16}[units]
    marks = sorted(y for x0, x1, y in lines if abs(x0 - left - 44.0) < 0.01 and abs(x1 - x0 - 6.0) < 0.01)
    assert marks == pytest.approx([named[0] + (r - low) * part_mm for r in readings], abs=0.05)
    bar = [x1 - x0 for x0, x1, _y in lines if abs(x1 - x0 - 100.0) < 1.0]
    assert bar == pytest.approx([100.0], abs=0.05)
    assert {"13.1,", "13.5"} <= {word["text"] for word in said}


def test_a_long_fitting_is_cut_into_strips_that_hold_every_hole_once():
    """Each piece begins at its own round number, so none depends on the one before."""
    rows = tuple(hole(f"3.{n}", 2000.0 + 100.0 * n, 0.0, 2500.0, drill_mm=5.0) for n in range(1, 31))
    long = replace(hailer(), rows=rows)
    pages = strip_pages(CHECKED, [long])
    assert [fault for page in pages for fault in faults(page)] == []
    said = words(pages)
    assert all(said.count(row.tag) == 1 for row in rows)


def test_no_strip_marks_what_may_not_be_marked():
    """An open fault takes even the marks; a typical foot has no holes; a held hole is marked STOP."""
    none = [replace(hailer(), fault=Note("13", "a fault")), replace(hailer(), rows=())]
    assert strip_pages(CHECKED, none) == []
    said = words(strip_pages(CHECKED, DRILL))
    assert "13.3, 13.4 STOP" in said
    assert "14.2, 14.3 STOP" in said


def test_a_row_of_many_holes_fits_its_strip():
    """Tags are never cut: what does not fit is counted."""
    rows = tuple(hole(f"113.{n}", 9667.0, 10.0 * n, 9685.0, drill_mm=5.0) for n in range(1, 9))
    pages = strip_pages(CHECKED, [replace(hailer(), rows=rows)])
    assert "113.1 and 7 more" in words(pages)
    assert faults(pages[0]) == []


# -- cards for the chair


def cards_of(*fittings, units="metric", checked=True, **parts):
    """The cards of some fittings on the small mast."""
    layout = a_layout(fittings=fittings, **parts)
    return chair_cards(check(build(layout)), units, holes_checked=checked)


def test_what_is_fitted_on_trestles_makes_no_card():
    """What nobody said when to fit does: it may be left for the chair."""
    assert cards_of(a_fitting(fitted="before stepping")) == ()
    assert cards_of(a_fitting(new=False)) == ()
    assert len(cards_of(a_fitting())) == len(cards_of(a_fitting(fitted="at the dock"))) == 1


def test_one_card_holds_what_one_place_of_the_chair_reaches():
    """800 apart is one card, more is two; each named by its own readings."""
    high = a_fitting("a-1", from_masthead_mm=5000.0)
    near, far = (a_fitting("b-1", from_masthead_mm=z, girth="aft") for z in (5800.0, 5801.0))
    (one,) = cards_of(high, near)
    assert (one.top.masthead, one.bottom.masthead, len(one.jobs)) == (5000, 5800, 2)
    assert [card.top.masthead for card in cards_of(high, far)] == [5000, 5801]


def test_a_card_measures_from_what_is_on_the_mast_already():
    """From the root of a spreader, by hand 9000 - 8400; past a metre a tape is hoisted."""
    spreader = a_spreader(name="lower spreader P")
    (card,) = cards_of(a_fitting(from_masthead_mm=8400.0), spreaders=(spreader,))
    assert card.near == "600 above root of lower spreader P"
    (card,) = cards_of(a_fitting(from_masthead_mm=400.0), spreaders=(spreader,))
    assert card.near == "400 below the masthead"
    (card,) = cards_of(a_fitting(from_masthead_mm=5000.0), spreaders=(spreader,))
    assert card.near.startswith("no landmark within")


def far_holes(fastener, count=2):
    """A foot whose holes keep their distance."""
    holes = [
        {"across_mm": 0.0, "along_mm": 40.0 * k - 20.0 * count, "fastener": fastener} for k in range(count)
    ]
    return a_foot(along_mm=40.0 * count + 40.0, holes=holes)


def test_a_card_brings_what_its_holes_want():
    """M6 tapped: drill 5.0 by the table of tap drills, a pilot of half of it, tap, one screw to spare."""
    (card,) = cards_of(a_fitting(tag=7, in_hand=far_holes("M6 tapped")))
    assert not card.jobs[0].hold
    bring = " | ".join(card.bring)
    for thing in ("drills 2.5, 5.0", "tap M6", "3 × M6", "the parts: 7"):
        assert thing in bring
    (held,) = cards_of(a_fitting(tag=7, in_hand=far_holes("M6 tapped")), checked=False)
    assert held.jobs[0].hold
    assert "drill" not in " ".join(held.bring)


def test_a_card_warns_of_what_is_no_work_for_one_hand():
    """Large rivets and many taps (common practice, no source); small and few are no matter."""
    (card,) = cards_of(a_fitting(tag=7, in_hand=far_holes("rivet 6.4")))
    assert any("2 rivets 6.4" in line for line in card.warnings)
    (card,) = cards_of(a_fitting(tag=7, in_hand=far_holes("rivet 4.8")))
    assert card.warnings == ()
    (card,) = cards_of(a_fitting(tag=7, in_hand=far_holes("M5 tapped", 5)))
    assert any("5 holes to tap" in line for line in card.warnings)
    assert cards_of(a_fitting(tag=7, in_hand=far_holes("M5 tapped", 4)))[0].warnings == ()


def test_every_card_asks_the_same_before_anyone_goes_up():
    """Never alone, two halyards, radar off; on each card, also the ones that go on."""
    jobs = tuple(
        a_fitting(f"f-{k}", name="N" * 200, from_masthead_mm=5000.0 + 90 * k, girth=g, note="n" * 300)
        for k, g in enumerate(("ahead", "aft", "bearing 90", "bearing 270", "ahead", "aft", "bearing 90"))
    )
    pages = chair_pages(HEAD, cards_of(*jobs, kinds=(a_kind(name="K" * 200),)))
    said = [word for page in pages for word in words([page])]
    many = sum(word == "from the MASTHEAD" for word in said)
    assert many > 1
    for asked in ("Never aloft alone", "Two halyards", "Radar and radio off"):
        assert sum(word.startswith(asked) for word in said) == many
    assert [fault for page in pages for fault in faults(page)] == []
    fitted = [text for page in pages for text in texts(page) if text.text == "BRING, in the order used"]
    assert len(fitted) == 1
