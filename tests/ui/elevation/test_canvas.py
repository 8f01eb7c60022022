"""The elevation against the scene, and every gesture with real mouse and key events."""

import itertools

import dragging
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from mastlayout.ui.elevation.panel import ElevationPanel


@pytest.fixture
def panel(session, theme, qtbot):
    """An elevation on screen, focused."""
    made = ElevationPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(900, 900)
    made.show()
    qtbot.waitActive(made)
    session.go_to(8900.0)
    return made


def where(canvas, name):
    """The pixel of a fitting's middle."""
    item = canvas._fittings[name]
    right, z = (item.outline.low + item.outline.high) / 2
    return QPointF(canvas.span.x_px(float(right)), canvas.span.y_px(float(z))).toPoint()


def height(session, name):
    """A fitting's reading from the masthead."""
    return next(f.from_masthead_mm for f in session.layout.fittings if f.id == name)


def drag(canvas, start, by, held=Qt.KeyboardModifier.NoModifier, *, release=True):
    """Press, move straight down in two steps, release."""
    dragging.drag(canvas.viewport(), start, QPoint(0, by), held, let_go=release)


def test_a_fitting_is_drawn_where_it_stands(panel, session):
    """Its outline's edges, mapped by Qt, lie on the scene's own to half a pixel."""
    canvas = panel.canvas
    for name, placed in session.desk.scene.placed.items():
        item = canvas._fittings[name]
        low = item.mapToScene(QPointF(*item.outline.low))
        z_low = float(placed.solids.span_z()[0].min())
        assert low.y() == pytest.approx(canvas.span.y_px(min(z_low, placed.z_mm)), abs=0.5)
    assert canvas.span.y_px(canvas.span.z_mm(123.0)) == pytest.approx(123.0)


def test_the_tapes_marks_are_where_the_canvas_has_them(panel):
    """A mark of the heel's edge at 9000 is the canvas's row of z = 9000."""
    marks = {read: y for y, read in panel.tape.marks(from_heel=True)}
    assert marks[9000] == pytest.approx(panel.canvas.span.y_px(9000.0), abs=0.5)
    from_masthead = {read: y for y, read in panel.tape.marks(from_heel=False)}
    assert from_masthead[8000] == pytest.approx(marks[9000], abs=0.5)


def test_a_drag_is_one_undo_step_with_a_spoken_name(panel, session):
    """Down by 64 pixels at 0.32 is 200 mm, in whole millimetres."""
    start = where(panel.canvas, "box-1")
    drag(panel.canvas, start, 64, Qt.KeyboardModifier.ControlModifier)
    assert session.undo.count() == 1
    assert session.undo.undoText() == "Move box-1"
    assert height(session, "box-1") == pytest.approx(8200.0, abs=2.0)
    session.undo.undo()
    assert height(session, "box-1") == 8000.0


def test_a_drag_snaps_to_a_neighbours_height(panel, session):
    """Near 8300 it takes the other's 8300 to the hundredth."""
    start = where(panel.canvas, "box-1")
    drag(panel.canvas, start, 95)
    assert height(session, "box-1") == 8300.0


@pytest.mark.parametrize("how", ["escape", "right click"])
def test_a_drag_can_be_put_back(panel, session, how):
    """No step, no change."""
    before = session.layout
    start = where(panel.canvas, "box-1")
    drag(panel.canvas, start, 64, release=False)
    assert session.layout is not before
    if how == "escape":
        QTest.keyClick(panel.canvas, Qt.Key.Key_Escape)
    else:
        QTest.mousePress(panel.canvas.viewport(), Qt.MouseButton.RightButton, pos=start)
    assert session.layout is before
    QTest.mouseRelease(panel.canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)
    assert session.undo.count() == 0


@pytest.mark.parametrize(
    ("held", "step"),
    [
        (Qt.KeyboardModifier.NoModifier, 10),
        (Qt.KeyboardModifier.ShiftModifier, 100),
        (Qt.KeyboardModifier.AltModifier, 1),
    ],
)
def test_arrows_move_what_is_in_hand(panel, session, held, step):
    """By ten, with Shift a hundred, with Alt one; down is farther from the masthead."""
    session.pick("box-1")
    panel.canvas.setFocus()
    QTest.keyClick(panel.canvas, Qt.Key.Key_Down, held)
    assert height(session, "box-1") == 8000.0 + step
    QTest.keyClick(panel.canvas, Qt.Key.Key_Up, held)
    assert height(session, "box-1") == 8000.0


def test_a_click_takes_in_hand(panel, session):
    """On the fitting, and on its label."""
    QTest.mouseClick(panel.canvas.viewport(), Qt.MouseButton.LeftButton, pos=where(panel.canvas, "box-1"))
    assert session.hand == "box-1"
    label = next(p for p in panel.canvas.labels if p.label.id == "box-2")
    at = panel.canvas.label_box(label).center().toPoint()
    QTest.mouseClick(panel.canvas.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert session.hand == "box-2"
    assert session.undo.count() == 0


def test_labels_never_overlap(panel):
    """Their rows keep their pitch, in order of height."""
    rows = [placed.y for placed in panel.canvas.labels]
    assert len(rows) == 3
    assert all(b - a >= 22.9 for a, b in itertools.pairwise(rows))
    anchors = [placed.label.anchor_y for placed in panel.canvas.labels]
    assert anchors == sorted(anchors)


def test_zoom_keeps_the_height_under_the_pointer(panel):
    """The row of z stays where it was."""
    span = panel.canvas.span
    z = span.z_mm(300.0)
    assert span.zoomed(1.5, 300.0).y_px(z) == pytest.approx(300.0)


@pytest.mark.parametrize("view", ["starboard", "port", "ahead"])
def test_every_view_shows_every_fitting(panel, session, view):
    """Turned round, nothing is lost; forward goes to the other side from port."""
    session.look_from(view)
    assert panel.canvas._fittings.keys() == session.desk.scene.placed.keys()
    right = panel.canvas._fittings["box-1"].outline.anchor[0]
    assert bool(right > 1) is (view == "starboard")
