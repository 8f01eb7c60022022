"""The session: undo steps with names, previews that leave none, what is in hand."""

import pytest

from mastlayout.errors import EditError
from mastlayout.model.edits import change


def moved(session, name="box-1", to=8500.0):
    """The session's layout with one fitting moved."""
    return change(session.layout, name, from_masthead_mm=to)


def test_an_edit_is_one_undo_step_under_its_name(session):
    """Undo puts the very same layout back."""
    before = session.layout
    session.edit(moved(session), "Move box-1")
    assert session.undo.undoText() == "Move box-1"
    assert session.layout.fittings[0].from_masthead_mm == 8500.0
    session.undo.undo()
    assert session.layout is before
    session.undo.redo()
    assert session.layout.fittings[0].from_masthead_mm == 8500.0


def test_an_edit_that_changes_nothing_keeps_what_could_be_redone(session):
    """Nothing pushed, nothing cleared."""
    session.edit(moved(session), "Move box-1")
    session.undo.undo()
    session.edit(moved(session, to=8000.0), "Move box-1")
    assert session.undo.canRedo()
    assert session.undo.count() == 1


def test_a_drag_is_one_step_however_many_previews(session):
    """Ten previews and one edit make one step, back to where the drag began."""
    before = session.layout
    for step in range(10):
        session.preview(moved(session, to=8000.0 + step))
    session.edit(moved(session, to=8010.0), "Move box-1")
    assert session.undo.count() == 1
    session.undo.undo()
    assert session.layout is before


def test_a_cancelled_drag_leaves_no_step(session):
    """Escape puts the layout back."""
    before = session.layout
    session.preview(moved(session))
    session.cancel()
    assert session.layout is before
    assert session.undo.count() == 0


def test_a_drag_that_ends_where_it_began_is_no_step(session):
    """Back to the start is nothing done."""
    session.preview(moved(session))
    session.edit(moved(session, to=8000.0), "Move box-1")
    assert session.undo.count() == 0


def test_the_height_in_hand_follows_what_is_in_hand(session, qtbot):
    """Picking a fitting takes its height; moving it takes the height along."""
    with qtbot.waitSignals([session.hand_changed, session.height_changed]):
        session.pick("box-1")
    assert session.z_mm == 9000.0
    with qtbot.waitSignal(session.height_changed):
        session.edit(moved(session), "Move box-1")
    assert session.z_mm == 8500.0


def test_shown_names_the_shapes_that_changed(session, qtbot):
    """Panels repaint no more than the ids they are told of."""
    with qtbot.waitSignal(session.shown) as told:
        session.edit(moved(session), "Move box-1")
    assert told.args[0].shapes == {"box-1"}


def test_an_edit_that_has_no_scene_is_no_step(session, monkeypatch):
    """What the desk refuses leaves neither a step nor the preview before it."""
    before = session.layout
    session.preview(moved(session))

    def refuse(_layout, _leave=None):
        raise EditError("no scene")

    with monkeypatch.context() as without:
        without.setattr(session.desk, "show", refuse)
        with pytest.raises(EditError):
            session.edit(moved(session, to=9000.0), "Move box-1")
    session.cancel()
    assert session.layout is before
    assert session.undo.count() == 0
