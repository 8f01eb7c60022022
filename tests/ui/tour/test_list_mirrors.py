"""A painted view is one thing to a screen reader: the list says all that the views draw."""

import pytest
from PySide6.QtGui import QAccessible
from stops import sanderling

from mastlayout.resources import demo_masts
from mastlayout.ui.strip.rows import THING, Rows
from mastlayout.ui.strip.view import RowsView


@pytest.mark.parametrize("demo", sorted(path.stem for path in demo_masts().glob("*.toml")))
def test_the_list_holds_everything_that_the_elevation_draws(dressed, demo):
    """Every fitting, spreader and old hole of the scene, and every stay, sail, line, pipe and cable."""
    window = dressed()
    window.files.open(sanderling().with_stem(demo))
    scene, layout = window.session.desk.scene, window.session.layout
    rows = window.arrangement.panels.strip.findChild(Rows)
    listed = {rows.index(row).data(THING).id for row in range(rows.rowCount())}
    drawn = {*scene.placed, *scene.spreaders, *(hole.id for hole in layout.holes)}
    rig = (
        layout.stays,
        layout.sails,
        layout.poles,
        layout.halyards,
        layout.cables,
        layout.mast.conduits or (),
    )
    assert drawn | {item.id for items in rig for item in items} <= listed


def test_a_screen_reader_hears_name_height_and_state_of_a_row(dressed):
    """Each row's own accessible text, through Qt's accessible tree."""
    window = dressed()
    window.files.open(sanderling())
    told = QAccessible.queryAccessibleInterface(window.findChild(RowsView))
    said = [told.child(i).text(QAccessible.Text.Name) for i in range(told.childCount())]
    fitting = window.session.layout.fittings[0]
    own = next(words for words in said if words.startswith(fitting.name))
    assert f"tag {fitting.tag}" in own
    assert "masthead" in own
