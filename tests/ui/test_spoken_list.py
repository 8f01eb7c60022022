"""What a screen reader is told of the tables, and that the list mirrors the drawings."""

import pytest
from PySide6.QtGui import QAccessible
from window_builder import a_window, whimbrel

from mastlayout.desk import Desk
from mastlayout.documents.schedule.places import height_of
from mastlayout.resources import demo_masts
from mastlayout.ui.findings.table import ROW
from mastlayout.ui.session import Session
from mastlayout.ui.strip.rows import THING
from mastlayout.ui.tapewords import figure

Role, Name = QAccessible.Role, QAccessible.Text.Name


@pytest.fixture
def panels(qtbot, tmp_path):
    """The panels of a window on the example Whimbrel."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    return made.arrangement.panels


def told_items(view):
    """Role and name of everything in a view, as the system is told."""
    told = QAccessible.queryAccessibleInterface(view)
    return [(told.child(i).role(), told.child(i).text(Name)) for i in range(told.childCount())]


def test_the_list_mirrors_everything_that_is_drawn(panels):
    """Fittings, spreaders, stays and old holes of the scene each have a row."""
    scene = panels.strip.session.desk.scene
    view = panels.strip.list.view
    listed = {view.model().index(row, 0).data(THING).id for row in range(view.model().rowCount())}
    holes = {hole.id for hole in scene.layout.holes}
    drawn = {*scene.placed, *scene.spreaders, *scene.stays, *holes}
    assert len(drawn) > 50
    assert drawn - listed == set()


def test_a_row_of_the_list_is_told_with_name_and_height(panels):
    """Each is a list item whose name holds the thing's own and its reading."""
    view = panels.strip.list.view
    told = told_items(view)
    assert len(told) == view.model().rowCount()
    for row, (role, name) in enumerate(told):
        thing = view.model().index(row, 0).data(THING)
        assert role == Role.ListItem
        assert thing.name in name


def test_a_row_of_the_findings_is_told_whole(panels):
    """The cell of the words says the state's word and the whole sentence, not the brief one."""
    view = panels.findings.view
    told = [name for role, name in told_items(view) if role == Role.Cell]
    rows = [view.model().index(row, 0).data(ROW) for row in range(view.model().rowCount())]
    assert rows
    for row in rows:
        assert any(row.whole in name for name in told), row.whole


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["sanderling", "turnstone", "whimbrel"])
def test_list_and_paper_read_alike(demo, units):
    """A tape hooked at the masthead reads nothing above it: both say 0 of what stands on the crane."""
    session = Session(Desk.open(demo_masts() / f"{demo}.toml"))
    session.write_in(units)
    skin, said = session.desk.scene.skin, []
    for placed in session.desk.scene.placed.values():
        height = height_of(placed, skin, units)
        said.append(figure(session, placed.z_mm))
        assert said[-1].replace("\u2009", "") == height.text(height.masthead).replace("\u2009", "")
    assert not any(reading.startswith("\u2212") for reading in said)
    assert any(placed.z_mm > skin.length_mm for placed in session.desk.scene.placed.values())
