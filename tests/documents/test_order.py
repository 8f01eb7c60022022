"""The order sheet: what is counted, what waits, what is rounded up; expected by hand."""

import csv
import io

import known
import openpyxl
import pytest
from builders import a_fitting, a_foot, a_layout, a_mast
from sheet_check import faults, texts, words

from mastlayout.checks.report import check
from mastlayout.documents.order import order_pages
from mastlayout.documents.papers import papers
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.geometry.scene import build
from mastlayout.model.fitting import Cable
from mastlayout.model.mast import Wall

RIVETED = a_foot(
    holes=[
        {"across_mm": 0.0, "along_mm": a, "fastener": "rivet 4.8, nickel-copper"} for a in (-20.0, 0.0, 20.0)
    ]
)


def ordered(**layout):
    """The rows of a layout's order by what they are, and by size where several share that."""
    plan = plan_of(check(build(a_layout(**layout))))
    return {(row.group, row.what, row.size): row for row in plan.order}


def one(rows, group, what):
    """The only row of a group that is called so."""
    (row,) = [row for key, row in rows.items() if key[:2] == (group, what)]
    return row


def test_nothing_new_needs_no_order():
    """No row, no sheet."""
    report = check(build(a_layout(fittings=(a_fitting(new=False),))))
    assert plan_of(report).order == ()
    assert not [paper for paper in papers(report) if "order" in paper.name]


def test_fasteners_of_one_size_are_bought_together_with_spares():
    """Twice three rivets: 3 + 0.5 + 5 is 8.5, gripped by 16 (ISO 15981, 8 to 12); a fifth more."""
    fittings = (
        a_fitting(tag=1, in_hand=RIVETED), a_fitting("box-2", tag=2, from_masthead_mm=9000.0, in_hand=RIVETED)
    )  # fmt: skip
    row = one(ordered(fittings=fittings), "fasteners", "rivet 4.8 × 16")
    assert (row.needed, row.buy, row.size, row.for_, row.state) == (
        6, 8, "nickel-copper, grip 8.0 to 12.0", "1, 2", ""
    )  # fmt: skip


PACKERS = [
    ({"seat": "shaped"}, 0.0, None),
    ({"seat": "shaped"}, 4.0, "60 × 50, packer 4.0 all over"),
    # By the ellipse 100 (1 - sqrt(1 - (a / 65)^2)): 30 aside 11.29, 8.9 aside 0.94: bedding fills 1.
    ({"seat": "flat"}, 0.0, "60 × 50, packer 11.3 at its edges"),
    ({"seat": "flat"}, 4.0, "60 × 50, packer 4.0 in its middle, 15.3 at its edges"),
    ({"seat": "flat", "across_mm": 17.8}, 0.0, None),
    ({"seat": "radiused"}, 0.0, None),
]


@pytest.mark.parametrize(("foot", "off_mm", "size"), PACKERS)
def test_a_packer_is_made_for_a_foot_that_does_not_fit(foot, off_mm, size):
    """One for each, as thick as the curve rule says; of a radius not known nothing can be ordered."""
    own = RIVETED.but(across_mm=60.0, along_mm=50.0).but(**foot)
    rows = ordered(fittings=(a_fitting(tag=1, in_hand=own, stand_off_mm=off_mm),))
    packers = [row for key, row in rows.items() if key[1].startswith("Packer")]
    assert [(row.size, row.buy, row.for_) for row in packers] == ([(size, 1, "1")] if size else [])


def test_a_backing_bar_is_made_as_large_as_its_foot():
    """And the sum of the schedule has it."""
    own = a_fitting(tag=1, in_hand=RIVETED.but(across_mm=60.0, along_mm=50.0, backing_mm=4.0))
    row = one(ordered(fittings=(own,)), "consumables", "Backing bar, of the mast’s metal")
    assert (row.size, row.buy, row.for_) == ("60 × 50, 4.0 thick", 1, "1")
    (block,) = plan_of(check(build(a_layout(fittings=(own,))))).drill
    assert [hole.stack for hole in block.rows] == ["3.0 + 0.5 + 4.0 + 5.0 = 12.5"] * 3


def test_what_hangs_on_an_unknown_wall_is_not_bought():
    """It is listed, with how many, and says what it waits for."""
    far = (Wall(from_masthead_mm=2000.0, thickness_mm=4.0),)
    row = one(ordered(mast=a_mast(walls=far), fittings=(a_fitting(),)), "fasteners", "M6 tapped")
    assert (row.needed, row.buy, row.state) == (4, None, "after the wall is measured")


def test_what_hangs_on_a_typical_foot_is_not_bought():
    """The part in hand may have other holes: no length is named."""
    rows = ordered(fittings=(a_fitting(in_hand=None),))
    row = one(rows, "fasteners", "M6 tapped")
    assert (row.buy, row.state) == (None, "once part is in hand")
    part = next(iter(rows.values()))
    assert (part.buy, part.state) == (1, "foot typical: offer up")


def test_a_part_in_hand_is_not_bought_again():
    """It is listed as in hand."""
    part = next(iter(ordered(fittings=(a_fitting(),)).values()))
    assert (part.group, part.needed, part.buy, part.state) == ("fittings", 1, 0, "part in hand")


def test_a_carbon_masts_fasteners_are_its_builders():
    """None is chosen or bought."""
    row = one(ordered(mast=a_mast(material="carbon"), fittings=(a_fitting(),)), "fasteners", "M6 tapped")
    assert (row.buy, row.state) == (None, "its builder decides")


def test_a_through_bolt_brings_its_tube():
    """From ahead through 200 of an ellipse: the tube is 0.5 longer."""
    foot = a_foot(
        seat="flat", holes=[{"across_mm": 0.0, "along_mm": 0.0, "fastener": "M10 through, stainless"}]
    )
    rows = ordered(fittings=(a_fitting(in_hand=foot),))
    tube = one(rows, "fasteners", "Compression tube for M10")
    assert (tube.size, tube.buy) == ("cut 200.5", 1)
    assert one(rows, "fasteners", "M10 × 240 through").buy == 2  # 200.5 + 7 + 13 is 220.5


def cable(**fields):
    """A new cable of the box."""
    return Cable(
        **({"id": "cable-1", "name": "Cable", "fitting": "box-1", "outside_mm": 7.0, "new": True} | fields)
    )


@pytest.mark.parametrize(("exit_mm", "metres"), [(16900.0, 10), (16000.0, 9), (16001.0, 10), (None, None)])
def test_a_cable_is_rounded_up_to_whole_metres(exit_mm, metres):
    """From 8000 to its exit and a metre more: 9.9, 9.0 and 9.001; without its exit nobody knows."""
    rows = ordered(fittings=(a_fitting(),), cables=(cable(exit_from_masthead_mm=exit_mm),))
    row = one(rows, "cables", "Cable")
    assert (row.buy, row.state) == (metres, "" if metres else "length after its exit is known")


def test_tools_are_those_of_the_holes_in_both_units():
    """M6: drill 5.0 and its pilot of 2.5, in mm and inch, and a tap, a spare of each."""
    rows = ordered(fittings=(a_fitting(),))
    assert [(row.what, row.size, row.buy) for row in rows.values() if row.group == "tools"] == [
        ("Drill, cobalt", "2.5 mm, 0.098 in", 2),
        ("Drill, cobalt", "5.0 mm, 0.197 in", 2),
        ("Tap", "M6", 2),
        ("Depth stops, centre punch, deburrer", "a collar for each drill", 1),
    ]


def test_liners_and_tape_are_added_up_and_rounded_up():
    """110 x 60 is 66 of 100 cm2, round it 340 of 1000 mm; two feet are 132 of 200 cm2."""
    rows = ordered(fittings=(a_fitting(), a_fitting("box-2", from_masthead_mm=9000.0)))
    assert one(rows, "consumables", "Sheet of plastic for liners").buy == 200
    assert one(rows, "consumables", "Isolating tape").buy == 1
    assert one(rows, "consumables", "Sleeves and washers of plastic").buy == 8


@pytest.fixture(scope="module", params=["whimbrel", "sanderling", "turnstone"])
def demo(request):
    """A demo's report."""
    return known.report(request.param)


@pytest.mark.parametrize(("paper", "units"), [("A4", "metric"), ("Letter", "inches"), ("A3", "metric")])
def test_every_page_of_the_demos_can_be_read(demo, paper, units):
    """Nothing outside its block, over other words, or too small; every row is on a page."""
    plan = plan_of(demo, units)
    pages = order_pages(plan.head, plan.order, paper)
    assert [fault for page in pages for fault in faults(page)] == []
    said = " ".join(words(pages))
    assert all(row.what.split()[0] in said for row in plan.order)


def test_a_row_not_known_well_enough_has_no_box():
    """No number, no box: what waits is not ordered by mistake."""
    far = (Wall(from_masthead_mm=2000.0, thickness_mm=4.0),)
    plan = plan_of(check(build(a_layout(mast=a_mast(walls=far), fittings=(a_fitting(),)))))
    (page,) = order_pages(plan.head, plan.order)
    boxes = [mark for mark in page.marks if getattr(mark, "width", None) == getattr(mark, "height", 0) == 5.6]
    assert len(boxes) == 2 * sum(bool(row.buy) for row in plan.order)
    assert any(mark.text == "–" for mark in texts(page))


def test_names_that_a_spreadsheet_would_run_are_text():
    """In the workbook as text, in the comma separated file after a '; a long name is cut nowhere."""
    name = "=1+1 <b>&" + "x" * 190
    report = check(build(a_layout(fittings=(a_fitting(name=name),))))
    files = {paper.name: paper.data for paper in papers(report)}
    rows = list(csv.reader(io.StringIO(files["test-order.csv"].decode("utf-8"))))
    assert rows[1][1] == f"'{name}"
    sheet = openpyxl.load_workbook(io.BytesIO(files["test-schedule.xlsx"]))["Order"]
    assert (sheet.cell(2, 2).value, sheet.cell(2, 2).data_type) == (name, "s")
    plan = plan_of(report)
    assert [fault for page in order_pages(plan.head, plan.order) for fault in faults(page)] == []


def test_tags_stand_in_the_order_of_their_numbers():
    """As they are looked up in the schedules, not as the mast has them."""
    rows = plan_of(known.report("whimbrel")).order
    for_ = [row.for_ for row in rows if row.for_ not in ("", "all")]
    numbers = [[int(tag) for tag in told.split(", ") if tag.isdigit()] for told in for_]
    assert any(len(own) > 2 for own in numbers)
    assert all(own == sorted(own) for own in numbers)
