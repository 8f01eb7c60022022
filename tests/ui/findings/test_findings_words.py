"""The findings' words where room is short: whole ones are chosen, thing and figures are never cut."""

import pytest
from builders import a_fitting, a_layout
from PySide6.QtGui import QFontMetricsF

from mastlayout.checks.counts import counts
from mastlayout.checks.wordings import WORDINGS
from mastlayout.desk import Desk
from mastlayout.documents.printed import counted
from mastlayout.documents.schedule.findings import finding_rows
from mastlayout.model.edits import hole_built
from mastlayout.model.fitting import HoleBuilt
from mastlayout.model.moving import turned
from mastlayout.resources import demo_masts
from mastlayout.ui.findings.panel import FindingsPanel
from mastlayout.ui.findings.rows import rows_of
from mastlayout.ui.findings.table import BOTH, MEASURED, NEEDED, WORDS, FindingTable
from mastlayout.ui.inwords import fitting_words
from mastlayout.ui.look import BODY, GAP, UNIT, font, load_fonts
from mastlayout.ui.session import Session

DEMOS = ["sanderling", "whimbrel", "turnstone"]


@pytest.fixture(params=DEMOS)
def desk(request):
    """Each example."""
    return Desk.open(demo_masts() / f"{request.param}.toml")


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("width", [512, 694])
def test_every_figure_and_every_thing_finds_room(desk, theme, qtbot, width, units):
    """In the columns as they stand at both widths; words of a measured row lose nothing at all."""
    load_fonts()
    panel = FindingsPanel(Session(desk), theme)
    qtbot.addWidget(panel)
    panel.resize(width, 400)
    panel.show()
    panel.session.write_in(units)
    room = {column: panel.view.columnWidth(column) - UNIT - GAP for column in (WORDS, MEASURED, NEEDED, BOTH)}
    plain, bold = QFontMetricsF(font(BODY)), QFontMetricsF(font(BODY, bold=True))
    figures = (BOTH,) if width < 560 else (MEASURED, NEEDED)
    for row in panel.table.rows:
        said = fitting_words(row.words, plain, room[WORDS])
        # The measure and its thing may be longer than the panel, and end in "…": what is measured not.
        assert said in row.words or not row.measured, said
        shown = {MEASURED: row.measured, NEEDED: row.needed, BOTH: f"{row.measured} / {row.needed}"}
        for column in figures:
            assert bold.horizontalAdvance(shown[column]) <= room[column]


def test_brief_words_hold_no_figures():
    """Each rule that says something says it briefly too, deep or not."""
    for code, wording in WORDINGS.items():
        for long, brief in ((wording.short, wording.brief), (wording.deep, wording.brief_deep)):
            assert bool(long) is bool(brief) or (long and wording.brief), code
            assert "{m}" not in brief
            assert "{r}" not in brief
            assert "{a}" not in brief


def test_window_paper_and_command_line_count_alike(desk, theme, qtbot):
    """What is said once counts once, in all three."""
    panel = FindingsPanel(Session(desk), theme)
    qtbot.addWidget(panel)
    count = counts(desk.report)
    window = panel.table.counts()
    paper = [row.standing for row in finding_rows(desk.report, "metric")]
    assert {state: window[state] for state in count} == count
    assert {state: paper.count(state) for state in count} == count
    line = counted(desk.report, "x")
    assert f", {count['caution']} caution" in line
    assert f", {count['not checked']} not checked" in line


def test_ways_out_of_a_wrong_hole_are_worded_anew_when_its_fitting_turns():
    """The same hole, as large in the same place; how far the fitting goes to clear it differs."""
    drilled = HoleBuilt(
        number=1,
        from_masthead_mm=7985.0,
        girth="30 to port of ahead",
        diameter_mm=8.2,
        by="Ann",
        day="2026-11-20",
    )
    session = Session(Desk(hole_built(a_layout(fittings=(a_fitting(),)), "box-1", drilled)))
    table = FindingTable(session)
    before = table.rows
    session.edit(turned(session.layout, "box-1", 20.0), "Turn it")
    table.take()
    assert table.rows == rows_of(session.desk, "metric")
    assert before != table.rows
