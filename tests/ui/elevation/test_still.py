"""What a drag leaves where it is keeps its picture; what is on the screen stays what the scene draws."""

import pytest
from dragging import rest
from PySide6.QtGui import QImage

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.resources import demo_masts
from mastlayout.ui.elevation.panel import ElevationPanel
from mastlayout.ui.session import Session


@pytest.fixture
def panel(qtbot, theme):
    """The elevation of a real mast, a fitting in hand and on its way."""
    session = Session(Desk.open(demo_masts() / "sanderling.toml"))
    panel = ElevationPanel(session, theme)
    qtbot.addWidget(panel)
    panel.resize(700, 700)
    panel.show()
    session.pick("hailer-1")
    moved(session, "hailer-1", 40.0)
    screen(panel.canvas)
    return panel


def moved(session, name, by_mm):
    """Show a fitting farther down, as a drag does."""
    fitting = next(one for one in session.layout.fittings if one.id == name)
    session.preview(change(session.layout, name, from_masthead_mm=fitting.from_masthead_mm + by_mm))
    rest()


def screen(canvas):
    """The dots of the view as it paints itself."""
    return canvas.viewport().grab().toImage().convertToFormat(QImage.Format.Format_RGB32)


def at_rest(canvas):
    """The dots once the drag has ended there, when Qt paints the whole scene."""
    canvas.session.edit(canvas.session.layout, "Move")
    assert not canvas.session.previewing
    return screen(canvas)


def test_a_drag_shows_what_stands_there_at_rest(panel):
    """The thing in hand moves on: nothing of it stays behind."""
    canvas = panel.canvas
    before = screen(canvas)
    moved(canvas.session, "hailer-1", 60.0)
    assert screen(canvas) != before
    assert screen(canvas) == at_rest(canvas)


@pytest.mark.parametrize("edit", ["a neighbour", "an old hole", "the side", "the scale"])
def test_what_else_changes_is_painted(panel, edit):
    """The kept picture goes whenever something beside the thing in hand changes."""
    canvas = panel.canvas
    session = canvas.session
    before = screen(canvas)
    if edit == "a neighbour":
        shown = [placed.label.id for placed in canvas.labels if not placed.label.in_hand]
        name = next(one.id for one in session.layout.fittings if one.id in shown and one.on == "mast")
        moved(session, name, 25.0)
    elif edit == "an old hole":
        session.preview(session.layout.but(holes=()))
        rest()
    elif edit == "the side":
        session.look_from("port")
    else:
        canvas.show_span(canvas.span.zoomed(1.2, 300.0))
    assert session.previewing
    assert edit == "an old hole" or screen(canvas) != before
    assert screen(canvas) == at_rest(canvas)
