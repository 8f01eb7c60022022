"""Where it goes, in the window: places of what is in hand, the answer, workings, moving it there, a drag."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from test_heights_window import settle, window  # noqa: F401 - a fixture

from mastlayout.model.edits import BOAT, change
from mastlayout.ui.heights.where import FIRST, FOUND, PLACE

REFLECTOR = "reflector-1"


@pytest.fixture
def where(qtbot, window):  # noqa: F811
    """The view, opened by the keys from the bar above it, once every place was looked at."""
    heights = window.heights
    heights.tabs.setFocus()
    QTest.keyClick(heights.tabs, Qt.Key.Key_Right)
    looked(qtbot, heights.where)
    return heights.where


def looked(qtbot, where):
    """Wait until every place was looked at."""
    settle()
    qtbot.waitUntil(lambda: not where.is_looking, timeout=60_000)
    settle()


def rows(where, column=PLACE):
    """What a column says, from the masthead down."""
    table = where.view.table
    return [table.index(row, column).data() for row in range(table.rowCount())]


def test_the_reflector_is_answered_first_and_every_cell_has_its_working(where, window):  # noqa: F811
    """With nothing in hand it is the reflector: where she carries it the genoa bears on it."""
    assert where.answer.text().startswith("Reflector, cluster 230. Farthest, free of faults: B, ")
    assert "As planned at fault: Genoa, 140 % bears on it." in where.why.text()
    assert rows(where)[0] == "A  at the masthead"
    own = rows(where).index("D  as planned, ahead")
    assert rows(where, FOUND)[own] == "at fault"
    assert where.view.currentIndex().row() == own
    assert not where.go.isEnabled()
    assert "Genoa, 140 % (full) bears on it" in where.found.text()
    table = where.view.table
    for row in range(table.rowCount()):
        for column in range(table.columnCount()):
            worked = table.worked(row, column)
            assert worked.formula
            assert worked.source
    where.view.setCurrentIndex(table.index(own, FIRST))
    assert window.heights.worked.result.text().endswith("12.81 m")


def test_the_button_moves_it_there_as_one_step(qtbot, where, window):  # noqa: F811
    """Down to a free place by the keys, the button: the reflector stands there, and undo brings it back."""
    session, before = window.session, window.session.layout
    (row,) = [i for i, words in enumerate(rows(where)) if words.startswith("B  highest free place")]
    where.view.setCurrentIndex(where.view.table.index(row, PLACE))
    assert where.go.isEnabled()
    where.go.setFocus()
    QTest.keyClick(where.go, Qt.Key.Key_Space)
    placed = session.desk.scene.placed[REFLECTOR]
    assert placed.fitting.from_masthead_mm == 400.0
    assert session.undo.undoText() == "Move Reflector, cluster 230"
    assert not [f for f in session.desk.report.faults if REFLECTOR in f.things]
    session.undo.undo()
    assert session.layout == before


def test_it_follows_the_hand_units_and_what_is_unknown(qtbot, where, window):  # noqa: F811
    """The horn in hand: levels for miles. Feet for metres. No waterline: what to measure is said."""
    session = window.session
    session.pick("fog-horn-1")
    looked(qtbot, where)
    assert where.answer.text().startswith("Fog horn. ")
    table = where.view.table
    heads = [table.headerData(i, Qt.Orientation.Horizontal) for i in range(table.columnCount())]
    assert heads[FIRST:] == ["Above water", "At the helm", "Foredeck", "Moment"]
    session.write_in("inches")
    assert all(words.endswith(" ft") for words in rows(where, FIRST))
    session.pick(REFLECTOR)
    session.edit(change(session.layout, BOAT, heel_above_water_mm=None), "Water")
    looked(qtbot, where)
    assert "What a height gives is not known: measure first: " in where.answer.text()
    assert set(rows(where, FIRST)) == {"not known"}


def test_a_drag_waits_and_its_end_is_looked_at(qtbot, where, window):  # noqa: F811
    """While it is dragged nothing is looked for: each place is a whole check of its own."""
    session = window.session
    session.pick(REFLECTOR)
    looked(qtbot, where)
    shown = where.view.table.places
    session.preview(change(session.layout, REFLECTOR, from_masthead_mm=900.0))
    settle()
    assert where.view.table.places is shown
    session.edit(change(session.layout, REFLECTOR, from_masthead_mm=905.0), "Move")
    looked(qtbot, where)
    table = where.view.table
    assert "905" in [table.index(row, 1).data() for row in range(table.rowCount())]
