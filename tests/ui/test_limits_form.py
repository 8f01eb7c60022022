"""The form of the limits: what is typed holds on this mast, and what cannot be is refused with a sentence."""

import pytest
from builders import a_layout
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF

from mastlayout.desk import Desk
from mastlayout.limits import built_in, limits_of
from mastlayout.model.layout import LimitOverride
from mastlayout.ui.forms.limits import LimitsDialog
from mastlayout.ui.session import Session

OWN = LimitOverride(key="clearance.stay", value=35.0, unit="mm", why="her shrouds are slack")


@pytest.fixture
def session(qapp):
    """A layout with one limit of its own."""
    return Session(Desk(a_layout(limits=(OWN,))))


@pytest.fixture
def dialog(session, qtbot):
    """The form, shown."""
    form = LimitsDialog(session)
    qtbot.addWidget(form)
    form.show()
    return form


def typed(qtbot, dialog, key, value, why):
    """Type a value and a reason over what is there, by keys, and take the form."""
    for field, text in ((dialog.cell(key), value), (dialog.cell(key, why=True), why)):
        field.setFocus()
        field.selectAll()
        qtbot.keyClick(field, Qt.Key.Key_Delete)
        qtbot.keyClicks(field, text)
    qtbot.mouseClick(dialog.button, Qt.MouseButton.LeftButton)


def test_each_limit_has_a_row_with_its_standing_and_value(dialog):
    """Title, standing, the program's value in its unit; the owner's beside it."""
    rows = [
        [dialog.table.item(row, column).text() for column in range(3)]
        for row in range(dialog.table.rowCount())
    ]
    assert rows == [
        [limit.title, limit.standing, f"{limit.value:g} {limit.unit}"] for limit in built_in().values()
    ]
    assert dialog.cell("clearance.stay").text() == "35 mm"
    assert dialog.cell("clearance.stay", why=True).text() == "her shrouds are slack"
    assert dialog.cell("hole.spacing").text() == ""


def test_a_limit_typed_holds_and_is_one_step(qtbot, dialog, session):
    """Half an inch to what runs inside is 12.7 mm; the one that was there stays, undo takes it back."""
    typed(qtbot, dialog, "hole.inside", "1/2 in", "drilled by jig")
    assert [(own.key, own.value, own.unit, own.why) for own in session.layout.limits] == [
        ("clearance.stay", 35.0, "mm", "her shrouds are slack"),
        ("hole.inside", 12.7, "mm", "drilled by jig"),
    ]
    assert session.desk.report.limits["hole.inside"].value == 12.7
    assert session.undo.undoText() == "Set limits"
    session.undo.undo()
    assert limits_of(session.layout)["hole.inside"] == built_in()["hole.inside"]


def test_an_emptied_limit_gives_the_programs_back(qtbot, dialog, session):
    """Neither value nor reason: 20 mm again."""
    typed(qtbot, dialog, "clearance.stay", "", "")
    assert session.layout.limits == ()
    assert session.desk.report.limits["clearance.stay"].value == 20.0


@pytest.mark.parametrize(
    ("key", "value", "why", "sentence"),
    [
        ("clearance.stay", "-1", "slack", "-1 cannot be, 0 to 1000 mm is allowed"),
        ("clearance.stay", "wide", "slack", "wide cannot be, 0 to 1000 mm is allowed"),
        ("cable.fill_one", "101 %", "few cables", "101 % cannot be, 0 to 100 % is allowed"),
        ("hole.spacing", "nan", "thick wall", "nan cannot be, 0 to 20 diameters is allowed"),
        ("rig.bisector", "2", "ok", "a reason of 3 to 500 letters is needed"),
        ("rig.bisector", "2", "", "a reason of 3 to 500 letters is needed"),
        ("rig.bisector", "", "because", "there is a reason but no value"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_changes(qtbot, dialog, session, key, value, why, sentence):
    """The sentence names the limit; the form stays open with what was typed."""
    before = session.layout
    typed(qtbot, dialog, key, value, why)
    assert dialog.said.text().startswith(built_in()[key].title)
    assert sentence in dialog.said.text()
    assert dialog.isVisible()
    assert session.layout is before
    assert not session.undo.canUndo()


def test_taking_the_form_untouched_is_no_step(qtbot, dialog, session):
    """Nothing typed, nothing done."""
    before = session.layout
    qtbot.mouseClick(dialog.button, Qt.MouseButton.LeftButton)
    assert session.layout is before
    assert not session.undo.canUndo()


def test_a_title_is_read_whole_and_a_reason_has_room(dialog, qapp):
    """As it opens: every title on the lines it takes, thirty letters of a reason in sight."""
    qapp.processEvents()
    table, titles = dialog.table, [limit.title for limit in built_in().values()]
    for row, title in enumerate(titles):
        room = QRectF(0, 0, table.columnWidth(0) - 8, 1000)
        metrics = QFontMetricsF(table.item(row, 0).font())
        words = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, title)
        assert words.width() <= room.width()
        assert words.height() <= table.rowHeight(row), title
    field = dialog.cell(OWN.key, why=True)
    assert field.width() >= QFontMetricsF(field.font()).averageCharWidth() * 30
