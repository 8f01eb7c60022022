"""The findings panel on a small layout: what stands in it, and what a choice does."""

import pytest
from PySide6.QtCore import Qt

from mastlayout.checks.finding import loud_first
from mastlayout.model.edits import change, remove
from mastlayout.ui.findings.panel import FindingsPanel


@pytest.fixture
def findings(qtbot, session, theme):
    """The panel, shown."""
    panel = FindingsPanel(session, theme)
    qtbot.addWidget(panel)
    panel.resize(640, 320)
    panel.show()
    return panel


def first_about(panel, name):
    """The first row that speaks of an id."""
    return next(row for row, found in enumerate(panel.rows.findings) if name in found.things)


def test_every_open_finding_stands_once_loud_first(findings, session):
    """As the report has them, in the one order of the program."""
    assert findings.rows.findings == sorted(session.desk.report.open, key=loud_first)
    assert findings.rows.rowCount() == len(session.desk.report.open) > 0


def test_a_click_takes_in_hand_what_the_finding_is_about(findings, session, qtbot):
    """The first subject is in hand and the whole sentence shows."""
    row = first_about(findings, "box-1")
    box = findings.view.visualRect(findings.rows.index(row))
    qtbot.mouseClick(findings.view.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    found = findings.rows.findings[row]
    assert session.hand == found.things[0]
    assert findings.whole.text() == session.desk.sentence(found)


def test_a_thing_in_hand_shows_its_loudest_finding(findings, session):
    """One without findings chooses none."""
    session.pick("box-3")
    assert findings.chosen is findings.rows.findings[first_about(findings, "box-3")]
    session.pick("")
    assert findings.chosen is None


def test_an_edit_renews_the_rows_and_undo_puts_them_back(findings, session):
    """Taking off a fitting takes its findings off; undo brings them."""
    before = [found.key for found in findings.rows.findings]
    session.edit(remove(session.layout, "box-3"), "Remove Horn")
    assert not any("box-3" in found.things for found in findings.rows.findings)
    session.undo.undo()
    assert [found.key for found in findings.rows.findings] == before


def test_a_moved_fitting_keeps_the_chosen_finding_chosen(findings, session):
    """While its gap changes, the same matter stays under the eye with its new figure."""
    session.edit(change(session.layout, "box-3", from_masthead_mm=8081.0), "Move Horn")
    row = next(at for at, found in enumerate(findings.rows.findings) if found.code == "clearance/fitting")
    findings.view.setCurrentIndex(findings.rows.index(row))
    key, said = findings.chosen.key, findings.whole.text()
    session.edit(change(session.layout, "box-3", from_masthead_mm=8082.0), "Move Horn")
    assert findings.chosen.key == key
    assert findings.whole.text() != said


def test_the_units_chosen_write_the_sentence(findings, session):
    """In inches the sentence is the desk's own in inches."""
    findings.view.setCurrentIndex(findings.rows.index(0))
    session.write_in("inches")
    assert findings.whole.text() == session.desk.sentence(findings.rows.findings[0], "inches")
