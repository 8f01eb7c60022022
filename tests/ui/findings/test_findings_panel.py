"""The findings panel: counts, rows, filters, what opens below, and every deed by keys alone."""

import datetime as dt
from collections import Counter

import pytest
from builders import a_fitting, a_foot
from dragging import rest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from mastlayout.documents.schedule.findings import finding_rows
from mastlayout.model.edits import change, remove
from mastlayout.model.layout import LimitOverride
from mastlayout.ui.findings.panel import FindingsPanel
from mastlayout.ui.findings.table import BOTH, MEASURED, NEEDED

GAP = "clearance/fitting"


@pytest.fixture
def panel(session, theme, qtbot):
    """The panel on screen; the horn, 90 wide and 80 high, stands 84 below box-1: 4 apart, 5 wanted."""
    made = FindingsPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(694, 400)
    made.show()
    return made


def visible(panel):
    """The rows on screen, from the top."""
    return [
        panel.shown.index(at, 0).data(int(Qt.ItemDataRole.UserRole)) for at in range(panel.shown.rowCount())
    ]


def row_at(panel, code):
    """Where the first row of a rule stands on screen."""
    return next(at for at, row in enumerate(visible(panel)) if row.key[0] == code)


def choose(panel, code=GAP):
    """Choose a row as the arrow keys do."""
    panel.view.selectRow(row_at(panel, code))


def counts(panel):
    """What the buttons of the head say."""
    return {state: int(button.text().split()[0]) for state, button in panel.filters.buttons.items()}


def test_the_counts_are_those_of_the_findings_sheet(panel, session):
    """All states, also those with none; clear are the fittings that nothing open is about."""
    paper = Counter(row.standing for row in finding_rows(session.desk.report, "metric"))
    said = counts(panel)
    assert said.keys() == {"fault", "caution", "not checked", "note", "clear", "accepted"}
    assert {state: said[state] for state in said if state != "clear"} == {
        state: paper[state] for state in said if state != "clear"
    }
    about = {name for found in session.desk.report.open for name in found.things}
    assert said["clear"] == len(session.desk.scene.placed.keys() - about)


def test_a_row_says_what_how_much_and_what_is_needed(panel, session):
    """4 measured between 8000 + 40 and 8084 - 40, 5 needed."""
    row = visible(panel)[row_at(panel, GAP)]
    assert (row.measured, row.needed) == ("4.0", "5")
    # By name, by number where room is short; the figures have columns of their own.
    assert row.words == ("Horn: near box-1", "No. 3: near box-1", "No. 3: near No. 1")


def test_all_that_waits_for_one_measure_is_one_row(panel, session):
    """As many rows as measures are missing."""
    missing = {found.measure for found in session.desk.report.open if found.measure}
    rows = [row for row in visible(panel) if row.state == "not checked"]
    assert len(rows) == len(missing) > 0
    assert {name for row in rows for name in row.findings} == {
        found for found in session.desk.report.open if found.measure
    }


def test_the_chosen_row_opens_below(panel, session):
    """The desk's whole sentence, the limit with its source, the working with its code."""
    choose(panel)
    assert panel.opened.whole.text() == session.desk.sentence(panel.chosen.findings[0])
    assert "Fitting to fitting: 5 mm, common practice, no source." in panel.opened.limit.text()
    assert "Measured 4.0 mm, needed 5 mm; rule clearance/fitting." in panel.opened.limit.text()


def test_a_limit_of_the_owners_says_so(panel, session):
    """With the owner's reason."""
    own = LimitOverride(key="clearance.fitting", value=9.0, unit="mm", why="gloves")
    session.take(session.layout.but(limits=(own,)))
    choose(panel)
    assert "limit set by the owner. “gloves”" in panel.opened.limit.text()


def test_show_it_takes_in_hand_and_goes_to_the_worst_point(panel, session):
    """By the button and by Enter alike."""
    choose(panel)
    found = panel.chosen.findings[0]
    QTest.mouseClick(panel.opened.show_it, Qt.MouseButton.LeftButton)
    assert (session.hand, session.z_mm) == (found.things[0], found.z_mm)
    session.pick("")
    session.go_to(1.0)
    QTest.keyClick(panel.view, Qt.Key.Key_Return)
    assert (session.hand, session.z_mm) == (found.things[0], found.z_mm)


def test_arrows_walk_and_open_without_taking_in_hand(panel, session):
    """Down opens the next row; what is in hand stays."""
    panel.view.selectRow(0)
    QTest.keyClick(panel.view, Qt.Key.Key_Down)
    assert panel.chosen is visible(panel)[1]
    assert panel.opened.whole.text() == visible(panel)[1].whole
    assert session.hand == ""


def accept(panel, remark="the horn is soft"):
    """Choose the gap, press A, type a remark, Return."""
    choose(panel)
    QTest.keyClick(panel.view, Qt.Key.Key_A)
    QTest.keyClicks(panel.accept_dialog.remark, remark)
    QTest.keyClick(panel.accept_dialog.remark, Qt.Key.Key_Return)


def test_a_finding_is_accepted_with_a_remark_and_opened_again(panel, session):
    """By keys alone: code, subjects, measured value and today's day are kept, each deed one step."""
    before = session.layout
    accept(panel)
    own = session.layout.accepted[0]
    assert (own.code, set(own.subjects), own.remark) == (GAP, {"box-1", "box-3"}, "the horn is soft")
    assert own.measured == pytest.approx(4.0)
    assert own.day == dt.datetime.now().astimezone().date().isoformat()
    assert session.undo.undoText() == "Accept finding"
    assert counts(panel)["accepted"] == 1
    assert panel.chosen.state == "accepted"
    assert "“the horn is soft”" in panel.opened.whole.text()
    QTest.keyClick(panel.opened.reopen, Qt.Key.Key_Space)
    assert session.layout.accepted == before.accepted == ()
    assert session.undo.undoText() == "Open finding again"
    assert panel.chosen.state == "caution"
    assert counts(panel)["accepted"] == 0


def test_nothing_is_accepted_without_a_remark(panel, session):
    """The button waits for words; Return does nothing."""
    accept(panel, "  ")
    assert not panel.accept_dialog.button.isEnabled()
    assert session.layout.accepted == ()


def test_what_nobody_measured_cannot_be_accepted(panel):
    """It is measured instead: the button is off and A does nothing."""
    at = next(at for at, row in enumerate(visible(panel)) if row.state == "not checked")
    panel.view.selectRow(at)
    assert not panel.opened.accept_it.isEnabled()
    QTest.keyClick(panel.view, Qt.Key.Key_A)
    assert panel.accept_dialog is None


def test_an_accepted_finding_that_gets_worse_is_open_again(panel, session):
    """2 less than when it was accepted: caution, chosen still."""
    accept(panel)
    session.preview(change(session.layout, "box-3", from_masthead_mm=8082.0))
    rest()
    assert panel.chosen.state == "caution"
    assert panel.chosen.measured == "2.0"


def test_the_chosen_finding_stays_chosen_through_a_drag(panel, session):
    """Its figure changes in place; while the gap is wide enough nothing else is opened in its stead."""
    choose(panel)
    key = panel.chosen.key
    for height, measured in ((8083.0, "3.0"), (8081.0, "1.0"), (8079.0, "\u22121")):
        session.preview(change(session.layout, "box-3", from_masthead_mm=height))
        rest()
        assert panel.chosen.key == key
        assert panel.chosen.measured == measured
    session.preview(change(session.layout, "box-3", from_masthead_mm=9500.0))
    rest()
    assert panel.chosen is None
    assert "no longer open" in panel.opened.whole.text()
    session.cancel()
    assert panel.chosen.key == key


def test_only_what_differs_is_told_to_the_view(panel, session, qtbot):
    """A moved horn resets nothing: its own row changes."""
    changed = []
    panel.table.dataChanged.connect(
        lambda first, _last, _roles: changed.append(panel.table.rows[first.row()])
    )
    with qtbot.assertNotEmitted(panel.table.modelReset):
        session.preview(change(session.layout, "box-3", from_masthead_mm=8083.0))
        rest()
    assert [row.key[0] for row in changed].count(GAP) == 1
    assert all("box-3" in {name for found in row.findings for name in found.things} for row in changed)


def test_an_edit_renews_the_rows_and_undo_puts_them_back(panel, session):
    """Taking off a fitting takes its findings off; undo brings them."""
    before = [row.key for row in panel.table.rows]
    session.edit(remove(session.layout, "box-3"), "Remove Horn")
    assert not any(row.key[0] == GAP for row in panel.table.rows)
    session.undo.undo()
    assert [row.key for row in panel.table.rows] == before


@pytest.mark.parametrize("state", ["caution", "not checked"])
def test_a_button_hides_the_rows_of_its_state(panel, state):
    """Pressed again they are back; the count stays."""
    before, said = visible(panel), counts(panel)
    QTest.keyClick(panel.filters.buttons[state], Qt.Key.Key_Space)
    assert visible(panel) == [row for row in before if row.state != state] != before
    assert counts(panel) == said
    QTest.keyClick(panel.filters.buttons[state], Qt.Key.Key_Space)
    assert visible(panel) == before


def test_clear_fittings_show_when_they_are_asked_for(panel, session):
    """A fitting alone on the aft side, its foot and wall known, has nothing open."""
    calm = a_fitting("box-9", tag=9, name="Calm", from_masthead_mm=15000.0, in_hand=a_foot(holes=[]))
    session.take(session.layout.but(fittings=(*session.layout.fittings, calm)))
    QTest.keyClick(panel.filters.buttons["clear"], Qt.Key.Key_Space)
    names = [row.words[0] for row in visible(panel) if row.state == "clear"]
    assert len(names) == counts(panel)["clear"]
    assert "Calm" in names


def test_only_what_is_in_hand_follows_the_hand(panel, session):
    """Every row is about it; nothing in hand shows all."""
    everything = visible(panel)
    session.pick("box-3")
    QTest.keyClick(panel.opened.only, Qt.Key.Key_Space)
    shown = visible(panel)
    assert shown
    assert shown != everything
    assert all("box-3" in {name for found in row.findings for name in found.things} for row in shown)
    session.pick("")
    assert visible(panel) == everything


def test_a_thing_in_hand_opens_its_loudest_finding(panel, session):
    """Unless the one that is open is about it."""
    session.pick("box-3")
    assert panel.chosen is next(row for row in visible(panel) if "box-3" in row.things)


def test_narrow_measured_and_needed_share_a_column(panel):
    """Below 560 one column has both."""
    panel.resize(512, 400)
    hidden = [panel.view.isColumnHidden(column) for column in (MEASURED, NEEDED, BOTH)]
    assert hidden == [True, True, False]
    at = row_at(panel, GAP)
    assert panel.shown.index(at, BOTH).data() == "4.0 / 5"
    panel.resize(694, 400)
    hidden = [panel.view.isColumnHidden(column) for column in (MEASURED, NEEDED, BOTH)]
    assert hidden == [False, False, True]


def test_the_units_chosen_write_the_rows(panel, session):
    """In inches the sentence is the desk's own in inches."""
    choose(panel)
    session.write_in("inches")
    assert panel.opened.whole.text() == session.desk.sentence(panel.chosen.findings[0], "inches")


def test_a_rule_that_broke_is_a_row(panel, session, monkeypatch):
    """As a fault of the program, with the sheet's own sentence."""
    from mastlayout.checks import rules  # noqa: PLC0415 - only this case breaks a rule

    def break_it(*_args):
        raise ZeroDivisionError

    broken = tuple(
        type(rule)(rule.code, rule.limit, rule.depends, one=break_it) if rule.code == "seat/track" else rule
        for rule in rules.FITTING_RULES
    )
    monkeypatch.setattr(rules, "FITTING_RULES", broken)
    session.take(change(session.layout, "box-2", from_masthead_mm=5000.0))
    row = visible(panel)[0]
    assert row.state == "fault"
    assert "The rule broke: ZeroDivisionError" in row.whole
    assert not row.may_be_accepted
