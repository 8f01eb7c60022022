"""Where a fitting was found: one form, from what is in hand as from the mast on trestles."""

from PySide6.QtCore import Qt

from mastlayout.model.edits import change
from mastlayout.model.fitting import AsBuilt
from mastlayout.ui.hand.panel import HandPanel


def opened(qtbot, session, theme):
    """The form as the property in hand opens it."""
    panel = HandPanel(session, theme)
    qtbot.addWidget(panel)
    panel.grid.open_form("as_built")
    return panel.grid.dialog


def test_a_place_nobody_typed_anew_is_kept_to_the_hundredth(qtbot, session, theme):
    """In feet and inches the girth is typed and the height left: 8003.27 stays."""
    session.edit(change(session.layout, "box-1", from_masthead_mm=8003.27), "Move")
    session.write_in("inches")
    session.pick("box-1")
    form = opened(qtbot, session, theme)
    form.girth.setText("1 to port of ahead")
    form.by.setText("Jo")
    qtbot.mouseClick(form.button, Qt.MouseButton.LeftButton)
    built = session.layout.fittings[0].as_built
    assert (built.from_masthead_mm, built.girth.offset) == (8003.27, -25.4)


def test_what_was_recorded_is_taken_back(qtbot, session, theme):
    """The fitting stands where it is planned again, as one undo step with a name."""
    found = AsBuilt(by="Jo", day="2026-11-20", from_masthead_mm=8012.0)
    session.edit(change(session.layout, "box-1", as_built=found), "Build")
    session.pick("box-1")
    form = opened(qtbot, session, theme)
    qtbot.mouseClick(form.forget_button, Qt.MouseButton.LeftButton)
    assert session.layout.fittings[0].as_built is None
    assert session.undo.undoText() == "Forget where box-1 was found"
