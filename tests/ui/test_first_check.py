"""At the start the layout shows first, and is checked once it was painted; until then nothing is clear."""

import pytest
from window_builder import a_window, whimbrel

from mastlayout.desk import Desk
from mastlayout.model.edits import needed_by, remove
from mastlayout.storage.reading import open_document

pytestmark = pytest.mark.anew


@pytest.fixture
def window(qtbot, tmp_path):
    """A window at its start that nobody has seen yet, with the largest example."""
    made = a_window(qtbot, tmp_path)
    made.open_first(whimbrel(tmp_path))
    return made


def test_before_the_check_nothing_is_clear_and_nothing_may_be_drilled(window):
    """Every fitting has the mark of what was not checked; the findings say that the check is under way."""
    report, states = window.session.desk.report, set(window.session.desk.report.states.values())
    assert states == {"not checked"}
    assert window.session.desk.scene.placed.keys() <= report.states.keys()
    assert not report.holes_checked
    rows = window.arrangement.panels.findings.table.rows
    assert [row.words for row in rows] == [("Being checked …",)]


def test_once_painted_it_is_checked_by_itself(window, qtbot, tmp_path):
    """What is found then is what a check that was waited for finds."""
    document = open_document(tmp_path / "whimbrel.toml")
    window.show()
    qtbot.waitUntil(lambda: window.session.desk.report.asked, timeout=30_000)
    waited = Desk(document.layout, document).report
    assert set(window.session.desk.report.open) == set(waited.open)
    assert window.session.desk.report.states == waited.states
    assert len(window.arrangement.panels.findings.table.rows) > 20


def test_what_needs_the_report_waits_for_it(window):
    """Papers, the trestles and the walk through the findings never speak of a layout nobody checked."""
    window.go_to_finding(1)
    assert window.session.desk.report.asked
    assert window.session.hand


def test_an_edit_made_meanwhile_asks_for_itself(window):
    """The check that was under way is of a layout that shows no more, and is dropped."""
    session = window.session
    window.first_check.begin()
    name = next(one for one in session.desk.scene.placed if not needed_by(session.layout, one))
    session.edit(remove(session.layout, name), "Delete")
    report = session.desk.report
    assert report.asked
    window.first_check.end()
    assert session.desk.report is report
    assert name not in report.states
