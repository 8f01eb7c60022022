"""What every test of a gesture does around it: show a panel, ask for a thing, listen, interrupt."""

import dragging
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from mastlayout.desk import Desk
from mastlayout.model.edits import item_of

INTERRUPTIONS = ("escape", "right", "focus", "hidden", "opened")


def focused(qtbot, panel, wide, high):
    """Show a panel at a size in pixels, with the keys on its canvas."""
    qtbot.addWidget(panel)
    panel.resize(wide, high)
    panel.show()
    qtbot.waitActive(panel)
    panel.canvas.setFocus()
    return panel


def the(session, name="box-1"):
    """The item of an id as it is now."""
    return item_of(session.layout, name)[1]


def heard(session):
    """A list that every sentence for the status line goes to."""
    said = []
    session.said.connect(said.append)
    return said


def interrupted(canvas, widget, start, by, how):
    """Drag from a place, let something come between, go on with the pointer: all must be as it was."""
    session = canvas.session
    before = session.layout
    dragging.drag(widget, start, by, let_go=False)
    assert session.layout is not before
    if how == "escape":
        QTest.keyClick(canvas, Qt.Key.Key_Escape)
    elif how == "right":
        dragging.press(widget, start, button=dragging.RIGHT)
    elif how == "focus":
        canvas.clearFocus()
    elif how == "hidden":
        canvas.hide()
    else:
        session.open(Desk(before))
    after = start + QPointF(by) * 1.5
    dragging.move(widget, after)
    dragging.release(widget, after)
    assert session.layout == before
    assert session.undo.count() == 0
