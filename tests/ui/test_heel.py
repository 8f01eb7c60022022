"""Cutting the heel from the window: one undo step with a name, masthead readings unmoved."""

import pytest
from builders import a_layout
from PySide6.QtCore import Qt

from mastlayout.desk import Desk
from mastlayout.ui.heel import CutHeelDialog
from mastlayout.ui.session import Session


@pytest.fixture
def dialog(qtbot):
    """The form on the small mast, 17000 long."""
    made = CutHeelDialog(Session(Desk(a_layout())))
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.mark.parametrize(("units", "typed", "left", "step"), [
    ("metric", "60", 16940.0, "Cut heel by 60"),
    ("metric", "2 in", 16949.2, "Cut heel by 51"),
    ("inches", "2", 16949.2, "Cut heel by 2"),
])  # fmt: skip
def test_the_heel_is_cut(qtbot, dialog, units, typed, left, step):
    """Heights above the heel get less by as much; the fitting stays 8000 from the masthead."""
    session = dialog._session
    session.write_in(units)
    dialog.by.setText(typed)
    assert "afterwards" in dialog.after.text()
    qtbot.mouseClick(dialog.button, Qt.MouseButton.LeftButton)
    assert session.layout.mast.length_mm == pytest.approx(left)
    assert session.layout.fittings[0].from_masthead_mm == 8000.0
    assert session.desk.scene.placed["box-1"].z_mm == pytest.approx(left - 8000.0)
    assert session.undo.undoText() == step
    session.undo.undo()
    assert session.layout.mast.length_mm == 17000.0


@pytest.mark.parametrize("typed", ["0", "-60", "17000", "much", "", "9500"])
def test_what_cannot_be_cut_says_why(qtbot, dialog, typed):
    """Nothing, more than there is, and what something still stands on."""
    before = dialog._session.layout
    dialog.by.setText(typed)
    qtbot.mouseClick(dialog.button, Qt.MouseButton.LeftButton)
    assert dialog.said.text()
    assert dialog._session.layout is before
    assert dialog.isVisible()
