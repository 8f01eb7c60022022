"""The list: its order, its states, and that list and session pick for each other, with real keys."""

import pytest
from builders import LENGTH_MM, a_fitting, a_spreader
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest

from mastlayout.checks.finding import STANDINGS
from mastlayout.checks.report import of_fitting
from mastlayout.desk import Desk
from mastlayout.model.edits import accept, change
from mastlayout.model.layout import Accepted
from mastlayout.ui.strip.list import MastList
from mastlayout.ui.strip.rows import READING, STATE, THING


@pytest.fixture
def mast_list(session, theme, qtbot):
    """A list on screen, its rows focused."""
    made = MastList(session, theme)
    qtbot.addWidget(made)
    made.resize(292, 500)
    made.show()
    qtbot.waitActive(made)
    made.view.setFocus()
    return made


def shown(mast_list, role=THING):
    """What a role says in each row of what is on the mast, from the top; the rig's group stands below."""
    model = mast_list.view.model()
    rows = [model.index(row, 0) for row in range(model.rowCount())]
    return [index.data(role) for index in rows if index.data(THING).id and not index.data(THING).sort]


def rig(mast_list, role=THING):
    """What a role says in each row of the group below, its head left out."""
    model = mast_list.view.model()
    rows = [model.index(row, 0) for row in range(model.rowCount())]
    return [index.data(role) for index in rows if index.data(THING).sort]


def ids(mast_list):
    """The ids of the rows, from the top."""
    return [thing.id for thing in shown(mast_list)]


def told(model):
    """A list that fills with the first rows of every later dataChanged."""
    rows = []
    model.dataChanged.connect(lambda first, last, *_: rows.extend(range(first.row(), last.row() + 1)))
    return rows


def test_rows_run_from_the_masthead_down(mast_list):
    """8000, 8084, 8300 from the masthead, then the spreader at 9000."""
    assert ids(mast_list) == ["box-1", "box-3", "box-2", "spreader-p"]
    assert shown(mast_list, READING) == ["8\u2009000", "8\u2009084", "8\u2009300", "9\u2009000"]


def reported(session, name):
    """The loudest standing that the report's open findings have for an id."""
    standings = {finding.standing for finding in of_fitting(session.desk.report, name)}
    return next((standing for standing in STANDINGS if standing in standings), "clear")


def test_a_state_is_the_loudest_open_finding_of_its_row(mast_list, session):
    """As the report has it for each id; clear where it has none."""
    states = shown(mast_list, STATE)
    assert states == [reported(session, name) for name in ids(mast_list)]
    assert set(states) != {"clear"}


def test_a_screen_reader_hears_the_whole_row(mast_list):
    """Name, tag, new, height and state, in that order."""
    view = QAccessible.queryAccessibleInterface(mast_list.view)
    state = shown(mast_list, STATE)[2]
    heard = view.child(2).text(QAccessible.Text.Name)
    assert heard == f"Hailer, tag 2, new, 8\u2009300 from the masthead, {state}"


def test_arrows_walk_the_list_and_pick(mast_list, session):
    """Each row walked to is in hand, and the height in hand follows it."""
    session.pick("box-1")
    for name, read in (("box-3", 8084.0), ("box-2", 8300.0), ("spreader-p", 9000.0)):
        QTest.keyClick(mast_list.view, Qt.Key.Key_Down)
        assert session.hand == name
        assert session.z_mm == LENGTH_MM - read
    QTest.keyClick(mast_list.view, Qt.Key.Key_Home)
    assert session.hand == "box-1"


def test_a_click_picks(mast_list, session):
    """With a real press on the third row; again after the height went elsewhere."""
    middle = mast_list.view.visualRect(mast_list.view.model().index(2, 0)).center()
    QTest.mouseClick(mast_list.view.viewport(), Qt.MouseButton.LeftButton, pos=middle)
    assert session.hand == "box-2"
    session.go_to(0.0)
    QTest.mouseClick(mast_list.view.viewport(), Qt.MouseButton.LeftButton, pos=middle)
    assert session.z_mm == LENGTH_MM - 8300.0


def test_what_is_picked_elsewhere_is_the_selected_row(mast_list, session):
    """And nothing is selected where nothing is in hand."""
    session.pick("box-2")
    assert [i.data(THING).id for i in mast_list.view.selectedIndexes()] == ["box-2"]
    session.pick("")
    assert not mast_list.view.selectedIndexes()


def test_enter_activates_what_is_in_hand(mast_list, session, qtbot):
    """The signal carries its id."""
    session.pick("box-3")
    with qtbot.waitSignal(mast_list.activated) as heard:
        QTest.keyClick(mast_list.view, Qt.Key.Key_Return)
    assert heard.args == ["box-3"]


@pytest.mark.parametrize(
    ("typed", "left"),
    [("ho", ["box-3"]), ("2", ["box-2"]), ("hai", ["box-2"]), ("HAILER 2", ["box-2"]), ("x y z", [])],
)
def test_typing_finds_by_name_or_tag(mast_list, typed, left):
    """Typed in the list it goes to the field; a word is within a name or begins a tag."""
    QTest.keyClicks(mast_list.view, typed[0])
    QTest.keyClicks(mast_list.search, typed[1:])
    assert mast_list.search.text() == typed
    assert ids(mast_list) == left


def test_finding_by_keys_alone(mast_list, session):
    """Search, type, down, and what was found is in hand; Escape in the field shows all again."""
    mast_list.begin_search()
    assert mast_list.search.hasFocus()
    QTest.keyClicks(mast_list.search, "hailer")
    QTest.keyClick(mast_list.search, Qt.Key.Key_Down)
    assert mast_list.view.hasFocus()
    assert session.hand == "box-2"
    mast_list.begin_search()
    QTest.keyClick(mast_list.search, Qt.Key.Key_Escape)
    assert len(ids(mast_list)) == 4


def test_finding_picks_nothing_of_itself(mast_list, session):
    """With the row in hand filtered out no neighbour is taken for it; a later pick clears the field."""
    session.pick("box-1")
    mast_list.search.setText("horn")
    assert session.hand == "box-1"
    session.pick("box-2")
    assert mast_list.search.text() == ""
    assert [i.data(THING).id for i in mast_list.view.selectedIndexes()] == ["box-2"]


def test_only_rows_that_changed_are_told_of(mast_list, session):
    """A new name is one row's matter, and keeps what is selected."""
    session.pick("box-3")
    rows = told(mast_list.rows)
    session.edit(change(session.layout, "box-2", name="Loud hailer"), "Rename")
    assert set(rows) == {2}
    assert shown(mast_list)[2].name == "Loud hailer"


def test_a_row_moves_with_its_fitting(mast_list, session):
    """8200 is below 8084; the row in hand stays in hand, and each state is still the report's."""
    session.pick("box-1")
    session.edit(change(session.layout, "box-1", from_masthead_mm=8200.0), "Move box-1")
    assert ids(mast_list) == ["box-3", "box-1", "box-2", "spreader-p"]
    assert mast_list.view.currentIndex().data(THING).id == "box-1"
    assert session.hand == "box-1"
    assert shown(mast_list, STATE) == [reported(session, name) for name in ids(mast_list)]
    session.undo.undo()
    assert ids(mast_list) == ["box-1", "box-3", "box-2", "spreader-p"]


def test_what_is_taken_off_leaves_the_list(mast_list, session):
    """And no other is taken in hand for it; what is added has its row."""
    session.pick("box-1")
    fittings = session.layout.fittings
    session.edit(session.layout.model_copy(update={"fittings": fittings[1:]}), "Take off box-1")
    assert ids(mast_list) == ["box-3", "box-2", "spreader-p"]
    assert session.hand == "box-1"
    more = (*session.layout.fittings, a_fitting("box-9", from_masthead_mm=10000.0))
    session.edit(session.layout.model_copy(update={"fittings": more}), "Place box-9")
    assert ids(mast_list)[-1] == "box-9"


def test_what_has_no_place_on_the_mast_stands_below_by_its_sort(mast_list, session):
    """Mast, yacht, stay and conduit under a head of their own, each with a word for what it is."""
    assert [(thing.name, thing.sort) for thing in rig(mast_list)] == [
        ("Mast", "mast"), ("Test", "yacht"), ("forestay", "stay"), ("Conduit A", "conduit"),
    ]  # fmt: skip
    assert rig(mast_list, READING) == ["mast", "yacht", "stay", "conduit"]


def test_the_arrows_go_over_the_head_of_the_group(mast_list, session):
    """From the last on the mast to the mast itself, and back; the head is never in hand."""
    session.pick("spreader-p")
    QTest.keyClick(mast_list.view, Qt.Key.Key_Down)
    assert session.hand == "mast"
    QTest.keyClick(mast_list.view, Qt.Key.Key_Up)
    assert session.hand == "spreader-p"


def test_a_sort_is_found_by_its_word(mast_list):
    """“stay” finds the forestay, by name and by what it is; no head stands over what is found."""
    mast_list.search.setText("conduit")
    assert [thing.id for thing in rig(mast_list)] == ["pipe"]
    assert mast_list.view.model().rowCount() == 1


def test_inches(mast_list, session):
    """8300 mm is 26 ft 2.77 in, 2 12/16 to the nearest sixteenth."""
    session.write_in("inches")
    assert shown(mast_list, READING)[2] == "27-2 3/4"


def test_what_has_no_place_yet_comes_last(mast_list, session):
    """A light on a spreader of unknown length has a dash, and says so; it is not clear."""
    light = a_fitting("light", on="spreader-p", from_masthead_mm=None, girth=None, along_mm=300.0)
    bare = session.layout.model_copy(
        update={"fittings": (light, *session.layout.fittings), "spreaders": (a_spreader(length_mm=None),)}
    )
    session.open(Desk(bare))
    assert ids(mast_list)[-2:] == ["spreader-p", "light"]
    assert shown(mast_list, READING)[-1] == "–"
    assert shown(mast_list, STATE)[-1] == "not checked"
    assert "height not known yet" in shown(mast_list, Qt.ItemDataRole.AccessibleTextRole)[-1]


def test_another_layout_takes_the_lists_place(mast_list, session):
    """Rows of the new one only."""
    session.open(Desk(session.layout.model_copy(update={"spreaders": (), "stays": ()})))
    assert ids(mast_list) == ["box-1", "box-3", "box-2"]


def test_a_state_follows_an_accepted_finding_that_goes(mast_list, session):
    """Accepted, the pair too near each other says so; moved apart, nothing is left to accept."""
    for found in [f for f in session.desk.report.open if set(f.things) & {"box-1", "box-3"}]:
        own = Accepted(code=found.code, subjects=found.subjects, remark="Seen", day="2026-11-25",
                       measured=found.measured)  # fmt: skip
        session.edit(accept(session.layout, own), "Accept")
    rows = mast_list.rows
    assert rows.index(rows.row_of("box-3")).data(STATE) == "accepted"
    session.edit(change(session.layout, "box-3", from_masthead_mm=12000.0), "Move Horn")
    assert rows.index(rows.row_of("box-3")).data(STATE) == session.desk.report.states.get("box-3", "clear")
    assert rows.index(rows.row_of("box-1")).data(STATE) != "accepted"
