"""Where a finding would be clear: asked for, said, and done as one undo step, by keys alone as well."""

import pytest
from builders import a_fitting, a_layout
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.places.suggest import suggestions
from mastlayout.ui.findings import placing
from mastlayout.ui.findings.panel import FindingsPanel
from mastlayout.ui.session import Session

GAP = "clearance/fitting"


@pytest.fixture
def boxes(qapp):
    """Two boxes of 80 along, at 8000 and 8084 from the masthead: 4 apart, 5 wanted."""
    fittings = (a_fitting(), a_fitting("box-2", name="Horn", from_masthead_mm=8084.0))
    return Session(Desk(a_layout(fittings=fittings)))


@pytest.fixture
def panel(boxes, theme, qtbot):
    """The panel on screen, the gap between the boxes opened."""
    made = FindingsPanel(boxes, theme)
    qtbot.addWidget(made)
    made.resize(694, 400)
    with qtbot.waitExposed(made):
        made.show()
    at = next(row for row in range(made.shown.rowCount()) if data(made, row).key[0] == GAP)
    made.view.selectRow(at)
    return made


def data(panel, row):
    """The row on screen."""
    return panel.shown.index(row, 0).data(int(Qt.ItemDataRole.UserRole))


def at_mm(session):
    """Where the second box stands from the masthead."""
    return session.layout.fittings[1].from_masthead_mm


def test_the_opened_finding_says_where_it_clears_and_a_button_moves_it_there(panel, boxes, qtbot):
    """Half of 80 twice and 5 free from 8000: 8085, by tens 8090; one undo step brings it back.

    It is also clear beside the other box, which is farther to go.
    """
    places = panel.opened.places
    assert places.look.isVisible()
    assert not places.said.isVisible()
    qtbot.mouseClick(places.look, Qt.MouseButton.LeftButton)
    assert "at 8090 from the masthead (6 lower)" in places.said.text()
    assert places.deeds[0].text() == "Move to 8090"
    qtbot.mouseClick(places.deeds[0], Qt.MouseButton.LeftButton)
    assert at_mm(boxes) == 8090.0
    assert (boxes.undo.count(), boxes.undo.undoText(), boxes.hand) == (1, "Move Horn", "box-2")
    assert not [own for own in boxes.desk.report.open if own.code == GAP]
    boxes.undo.undo()
    assert at_mm(boxes) == 8084.0


def test_by_keys_alone(panel, boxes, qtbot):
    """Space asks, the first place has the keys then, and Space goes there."""
    places = panel.opened.places
    panel.activateWindow()
    places.look.setFocus()
    QTest.keyClick(places.look, Qt.Key.Key_Space)
    assert panel.focusWidget() is places.deeds[0]
    QTest.keyClick(places.deeds[0], Qt.Key.Key_Space)
    assert at_mm(boxes) == 8090.0


def test_what_was_found_goes_with_the_layout_it_was_found_for(panel, boxes, qtbot):
    """After another edit it may be wrong: it is asked anew."""
    places = panel.opened.places
    qtbot.mouseClick(places.look, Qt.MouseButton.LeftButton)
    assert places.deeds
    boxes.edit(change(boxes.layout, "box-1", from_masthead_mm=8001.0), "Move box-1")
    assert not places.deeds
    assert not places.said.isVisible()
    assert places.look.isVisible()


def test_a_search_that_was_cancelled_says_nothing(panel, monkeypatch, qtbot):
    """The button stays, to ask again."""
    monkeypatch.setattr(placing, "waited", lambda *_given: None)
    places = panel.opened.places
    qtbot.mouseClick(places.look, Qt.MouseButton.LeftButton)
    assert places.look.isVisible()
    assert not places.said.isVisible()


def test_what_no_move_mends_offers_no_search(panel, boxes):
    """What was not checked, and what is clear, has no such button."""
    for row in range(panel.shown.rowCount()):
        if data(panel, row).state in ("not checked", "clear", "note"):
            panel.view.selectRow(row)
            assert not panel.opened.places.isVisible()


def test_in_inches_too(panel, boxes, qtbot):
    """8090 is 318 8/16 inches: 26 feet 6 and a half; 6 mm is 4/16."""
    boxes.write_in("inches")
    qtbot.mouseClick(panel.opened.places.look, Qt.MouseButton.LeftButton)
    assert "at 26-6 1/2 from the masthead (1/4 lower)" in panel.opened.places.said.text()


def test_a_place_that_can_no_longer_be_is_said(boxes, qtbot):
    """The fitting was taken off meanwhile: a sentence, and no step."""
    report = boxes.desk.report
    found = suggestions(report, next(own for own in report.open if own.code == GAP)).found[0]
    gone = boxes.layout.but(fittings=boxes.layout.fittings[:1])
    boxes.take(gone)
    with qtbot.waitSignal(boxes.said) as said:
        placing.take(boxes, found)
    assert "box-2" in said.args[0]
    assert boxes.undo.count() == 0
