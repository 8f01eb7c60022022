"""While a gesture is under way the views take turns: none falls far behind, all are right at its end."""

import dragging
import pytest
from PySide6.QtCore import QPoint, QPointF
from PySide6.QtWidgets import QApplication
from window_builder import a_window

from mastlayout.desk import Desk
from mastlayout.resources import demo_masts
from mastlayout.ui.strip.rows import READING
from mastlayout.ui.tapewords import figure

# How many moves of the mouse the slowest view may be behind, on however slow a machine: a round for
# rules, one for each of nine views that follow, and one for its painting.
_MOST_BEHIND = 27


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on a catamaran's mast, its hailer in hand."""
    made = a_window(qtbot, tmp_path)
    made.resize(1920, 1080)
    made.show_desk(Desk.open(demo_masts() / "sanderling.toml"))
    made.session.pick("hailer-1")
    dragging.rest()
    return made


def heights(window):
    """What each view shows of the height in hand."""
    panels, session = window.arrangement.panels, window.session
    rows = panels.strip.list.rows
    row = rows.index(rows.row_of(session.hand), 0)
    return {
        "skin": panels.skin.canvas.patch.z_mm,
        "section": panels.section.canvas.cut.z_mm,
        "list": row.data(READING),
        "hand": panels.hand.readings.fields["masthead"].text(),
    }


def right(window):
    """What they must show."""
    session = window.session
    z_mm = session.desk.scene.placed[session.hand].z_mm
    return {"skin": z_mm, "section": z_mm, "list": figure(session, z_mm), "hand": figure(session, z_mm)}


def grip(window):
    """The viewport of the elevation, and the middle of what is in hand on it."""
    canvas = window.arrangement.panels.elevation.canvas
    label = next(placed for placed in canvas.labels if placed.label.in_hand)
    return canvas.viewport(), QPointF(canvas.label_box(label).center().toPoint())


def test_no_view_is_far_behind_a_drag(window):
    """After every move each view shows a place of the last few moves; at rest all show the last."""
    view, start = grip(window)
    dragging.press(view, start)
    shown = []
    for step in range(1, 90):
        dragging.move(view, start + QPoint(0, step), dragging.CONTROL)
        QApplication.processEvents()
        shown.append(right(window))
        if step > _MOST_BEHIND:
            for name, value in heights(window).items():
                assert value in [one[name] for one in shown[-_MOST_BEHIND - 1 :]], name
    assert len({one["skin"] for one in shown}) > 20
    dragging.rest()
    assert heights(window) == right(window)


@pytest.mark.parametrize("keep", [True, False])
def test_all_are_right_as_the_gesture_ends(window, keep):
    """Let go or taken back, without a round of the event loop: every view at once."""
    view, start = grip(window)
    before = heights(window)
    dragging.press(view, start)
    for step in range(1, 6):
        dragging.move(view, start + QPoint(0, 9 * step), dragging.CONTROL)
    if keep:
        dragging.release(view, start + QPoint(0, 45))
    else:
        window.session.cancel()
    assert heights(window) == right(window)
    assert (heights(window) == before) is not keep
