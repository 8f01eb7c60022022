"""All papers of a layout as files."""

import io
import os
import subprocess
import sys
from dataclasses import replace

import known
import pdfplumber
import pytest
from builders import a_fitting, a_layout
from sheet_check import faults, texts

from mastlayout.checks import report as checks
from mastlayout.checks.report import Broken, check
from mastlayout.documents.drill import drill_pages
from mastlayout.documents.drillcells import DRILL
from mastlayout.documents.filename import file_stem
from mastlayout.documents.findings import findings_pages
from mastlayout.documents.lettering import as_read
from mastlayout.documents.measure import measure_pages
from mastlayout.documents.mount import mount_pages
from mastlayout.documents.papers import first_paper, papers
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.first_answers import FirstAnswers
from mastlayout.resources import demo_masts

NAMES = [
    "test-drill.pdf", "test-templates.pdf", "test-mount.pdf", "test-order.pdf", "test-labels.pdf",
    "test-chair.pdf", "test-elevation.pdf", "test-heights.pdf", "test-measure.pdf", "test-findings.pdf",
    "test-template-box-1.dxf", "test-template-box-1.svg", "test-schedule.xlsx",
    "test-holes.csv", "test-fittings.csv", "test-order.csv",
]  # fmt: skip


def printed(**more):
    """Print a small layout."""
    return papers(check(build(a_layout())), day="2026-11-25", **more)


def test_every_paper_has_its_file():
    """Named after the yacht and the kind of sheet."""
    assert [paper.name for paper in printed()] == NAMES


def test_a_layout_without_new_gear_has_no_drill_sheet_no_template_no_mount_and_no_order_sheet():
    """No empty sheet is printed; the tables are there with their heads."""
    old = papers(check(build(a_layout(fittings=(a_fitting(new=False),)))))
    new = ("drill", "template", "mount", "order", "labels", "chair", "heights")
    kept = [name for name in NAMES if not name.removeprefix("test-").startswith(new)]
    assert [paper.name for paper in old] == kept


@pytest.mark.parametrize("more", [{}, {"paper": "A3"}, {"units": "inches", "paper": "Letter"}])
def test_two_printings_are_the_same_bytes(more):
    """Day and plan alike, the files are alike."""
    assert printed(**more) == printed(**more)


def test_two_processes_print_the_same_bytes(tmp_path):
    """Each orders its sets otherwise; these two seeds differ in the kinds of things that a drawing holds."""
    made = []
    for seed in ("1", "4"):
        to = tmp_path / seed
        layout, environment = str(demo_masts() / "turnstone.toml"), {**os.environ, "PYTHONHASHSEED": seed}
        command = [
            sys.executable,
            "-m",
            "mastlayout",
            "papers",
            layout,
            "--to",
            str(to),
            "--date",
            "2026-11-25",
        ]
        subprocess.run(command, check=True, capture_output=True, env=environment)
        made.append({path.name: path.read_bytes() for path in to.iterdir()})
    assert made[0] == made[1]
    assert any(name.endswith(".dxf") for name in made[0])


def test_the_title_of_a_file_names_yacht_and_kind():
    """So that a viewer's window says what it shows."""
    sheet = printed()[0]
    with pdfplumber.open(io.BytesIO(sheet.data)) as book:
        assert book.metadata["Title"] == "Test, drilling schedule"
        text = book.pages[0].extract_text()
    assert "DO NOT DRILL" not in text
    assert "25 Nov 2026" in text


@pytest.mark.parametrize("broken", [False, True])
def test_the_banner_stands_where_a_hole_rule_has_not_run(monkeypatch, broken):
    """One that a version lacks, or one that broke on one fitting: nothing may be drilled from that sheet."""
    report = check(build(a_layout()))
    if broken:
        report = replace(report, broken=(Broken("hole/spacing", "box-1", "ValueError"),))
    else:
        monkeypatch.setattr(checks, "NOT_RUN", ("hole rules",))
    assert not report.holes_checked
    with pdfplumber.open(io.BytesIO(papers(report)[0].data)) as book:
        assert "DO NOT DRILL" in book.pages[0].extract_text()


@pytest.mark.parametrize(
    ("yacht", "stem"),
    [("Whimbrel", "whimbrel"), ("Løgn & Latin II", "løgn-latin-ii"), ("../../etc", "etc"), ("***", "mast")],
)
def test_file_names_are_safe(yacht, stem):
    """No separator, no dot, never empty."""
    assert file_stem(yacht) == stem


def test_a_long_yacht_name_makes_a_file_name_of_bounded_length():
    """File systems take 255 bytes."""
    assert len(file_stem("W" * 200)) == 60
    assert papers(check(build(a_layout(boat=Boat(name="W" * 200)))))[0].name.startswith("w" * 60 + "-drill")


def test_the_first_measure_list_needs_no_layout():
    """Six answers and a name are enough."""
    paper = first_paper("Whimbrel", FirstAnswers(mast_length_mm=17300.0, new_gear=("radar",)))
    assert paper.name == "whimbrel-measure.pdf"
    with pdfplumber.open(io.BytesIO(paper.data)) as book:
        text = "\n".join(page.extract_text() for page in book.pages)
    assert "WHILE THE MAST STANDS" in text
    assert "Wall at each new foot" in text


@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_drill_sheets_in_inches_write_every_size_whole(demo):
    """Nothing overlaps, and no drill, pilot, stop, fastener or stack ends in an ellipsis."""
    report = known.report(demo)
    plan = plan_of(report, "inches", "2026-11-25")
    pages = drill_pages(plan.head, plan.drill)
    assert [fault for page in pages for fault in faults(page)] == []
    sizes = [text.text for page in pages for text in texts(page) if text.x >= DRILL]
    assert any(" in" in text for text in sizes)
    assert not [text for text in sizes if text.endswith("…")]


@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_mount_and_measure_sheets_in_inches_mix_no_units_up(demo):
    """Nothing overlaps; no cable's size is cut; a tolerance says that it is in millimetres."""
    plan = plan_of(known.report(demo), "inches", "2026-11-25")
    mount, measure = mount_pages(plan.head, plan.mount), measure_pages(plan.head, plan.measure)
    assert [fault for page in (*mount, *measure) for fault in faults(page)] == []
    said = [text.text for page in measure for text in texts(page)]
    wall = next(row.tolerance for row in plan.measure if "wall" in row.title.lower())
    assert (f"{wall} mm" in said, wall in said) == (True, False)
    cables = {row.cable for row in plan.mount if " mm) " in row.cable}
    assert cables
    lines = " ".join(text.text for page in mount for text in texts(page))
    assert all(cable in lines for cable in cables)


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_the_findings_sheet_writes_every_figure_whole(demo, units):
    """What was measured and what is needed, feet and thirty-seconds too, and nothing over anything else."""
    plan = plan_of(known.report(demo), units, "2026-11-25")
    pages = findings_pages(plan.head, plan.findings, plan.limits)
    assert [fault for page in pages for fault in faults(page)] == []
    written = [as_read(text.text) for page in pages for text in texts(page)]
    for row in plan.findings:
        for figure in (row.measured, row.needed):
            assert not figure or figure in written, figure
