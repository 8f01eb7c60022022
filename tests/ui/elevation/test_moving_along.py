"""Dragging and nudging in the elevation: fittings, spreaders, stay ends, and what stands on them."""

import dragging
import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout, a_spreader, a_stay
from gestures import INTERRUPTIONS, focused, heard, interrupted, the
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.model.fitting import AsBuilt
from mastlayout.ui.elevation.panel import ElevationPanel
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.look import load_fonts
from mastlayout.ui.session import Session

FOUND = {"by": "Jo", "day": "2026-11-20", "from_masthead_mm": 8000.0, "girth": "ahead"}
AWAY = {"from_masthead_mm": None, "girth": None}


@pytest.fixture
def rigged(qapp):
    """A mast with a fitting, a spreader and a stay with a fitting each, and a diamond between two pins."""
    load_fonts()
    fittings = (
        a_fitting(tag=1, name="Hailer"),
        a_fitting("on-spreader", tag=2, name="Block", on="spreader-p", along_mm=500.0, **AWAY),
        a_fitting("on-stay", tag=3, name="Reflector", on="forestay", along_mm=8000.0, **AWAY),
    )
    pins = {"upper": {"from_masthead_mm": 7600.0, "girth": "bearing 270", "stand_off_mm": 20.0}, "deck": None,
            "lower": {"from_masthead_mm": 9500.0, "girth": "bearing 270", "stand_off_mm": 20.0}}  # fmt: skip
    stays = (a_stay(), a_stay("diamond", role="diamond", side="port", name="Diamond, P", **pins))
    spreaders = (a_spreader(name="Spreader, P", from_masthead_mm=8600.0),)
    return Session(Desk(a_layout(fittings=fittings, spreaders=spreaders, stays=stays)))


@pytest.fixture
def panel(rigged, theme, qtbot):
    """Its elevation from starboard, focused, 8000 to 9600 from the masthead well in sight."""
    made = focused(qtbot, ElevationPanel(rigged, theme), 1000, 900)
    rigged.go_to(8400.0)
    return made


@pytest.fixture
def canvas(panel):
    """Its canvas; the panel lives as long as the test."""
    return panel.canvas


def pixel(canvas, point):
    """The pixel of a place in the mast frame."""
    right, up = AXES[canvas.session.view] @ point
    return QPointF(canvas.span.x_px(float(right)), canvas.span.y_px(float(up)))


def middle(canvas, name):
    """The pixel of a fitting's middle."""
    outline = canvas._fittings[name].outline
    right, z = (outline.low + outline.high) / 2
    return QPointF(canvas.span.x_px(float(right)), canvas.span.y_px(float(z)))


def test_a_click_that_shakes_moves_nothing(canvas, rigged):
    """Three pixels are a hand's shake, not a move."""
    before = rigged.layout
    dragging.drag(canvas.viewport(), middle(canvas, "box-1"), QPoint(1, 2))
    assert rigged.layout is before
    assert rigged.hand == "box-1"


def test_a_pull_to_the_side_moves_nothing_round_and_says_where_to(canvas, rigged):
    """An elevation shows no girth."""
    said = heard(rigged)
    dragging.drag(canvas.viewport(), middle(canvas, "box-1"), QPoint(90, 0), dragging.CONTROL)
    assert str(the(rigged, "box-1").girth) == "ahead"
    assert any("along the mast only" in words for words in said)
    assert rigged.undo.count() == 0


@pytest.mark.parametrize(
    ("by", "kept", "words"), [(-9000, 0.0, "held at the masthead"), (9000, 17000.0, "held at the heel")]
)
def test_a_drag_beyond_the_mast_is_held_at_its_end(canvas, rigged, by, kept, words):
    """And the sentence says what is allowed."""
    said = heard(rigged)
    dragging.drag(canvas.viewport(), middle(canvas, "box-1"), QPoint(0, by))
    assert the(rigged, "box-1").from_masthead_mm == kept
    assert any(words in sentence and "17\u2009000" in sentence for sentence in said)
    assert rigged.undo.count() == 1


def test_what_is_fitted_is_not_dragged_and_says_why(canvas, rigged):
    """Nothing moves, no step is made; a click still takes it in hand without a word."""
    rigged.edit(change(rigged.layout, "box-1", as_built=AsBuilt(**FOUND)), "Build")
    said, before = heard(rigged), rigged.layout
    dragging.drag(canvas.viewport(), middle(canvas, "box-1"), QPoint(0, 0))
    assert not any(said)
    dragging.drag(canvas.viewport(), middle(canvas, "box-1"), QPoint(0, 80))
    assert rigged.layout is before
    assert any("is fitted: Jo found it here on 2026-11-20" in words for words in said)
    assert rigged.undo.count() == 1


def test_a_spreader_moves_along_the_mast_and_takes_what_is_on_it(canvas, rigged):
    """64 pixels at 0.32 are 200; the block on it goes down with it."""
    rigged.look_from("ahead")
    block = float(rigged.desk.scene.placed["on-spreader"].z_mm)
    bar = rigged.desk.scene.spreaders["spreader-p"]
    start = pixel(canvas, bar.root + 0.25 * (bar.tip - bar.root))
    dragging.drag(canvas.viewport(), start, QPoint(0, 64), dragging.CONTROL)
    assert rigged.hand == "spreader-p"
    assert the(rigged, "spreader-p").from_masthead_mm == 8800.0
    assert float(rigged.desk.scene.placed["on-spreader"].z_mm) == pytest.approx(block - 200.0)
    assert rigged.undo.undoText() == "Move Spreader, P"


@pytest.fixture
def paired(rigged):
    """The same mast with the spreader's mate to starboard; its id."""
    mate = a_spreader("spreader-s", name="Spreader, S", side="starboard", from_masthead_mm=8600.0)
    rigged.take(rigged.layout.but(spreaders=(*rigged.layout.spreaders, mate)))
    return mate.id


def heights(rigged):
    """The heights of both spreaders from the masthead."""
    return [bar.from_masthead_mm for bar in rigged.layout.spreaders]


def test_a_pair_of_spreaders_moves_as_one(canvas, rigged, paired):
    """By drag and by keys, each one step with the pair's name; the mate is nothing to snap to."""
    rigged.look_from("ahead")
    bar = rigged.desk.scene.spreaders["spreader-p"]
    start = pixel(canvas, bar.root + 0.25 * (bar.tip - bar.root))
    said = heard(rigged)
    dragging.drag(canvas.viewport(), start, QPoint(0, 64), dragging.CONTROL)
    assert heights(rigged) == [8800.0, 8800.0]
    dragging.drag(canvas.viewport(), start + QPointF(0, 64), QPoint(0, 32))
    assert not any("Spreader, S" in words for words in said)
    rigged.pick(paired)
    canvas.setFocus()
    before = heights(rigged)
    QTest.keyClick(canvas, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert heights(rigged) == [height - 100.0 for height in before]
    assert rigged.undo.undoText() == "Move Spreaders"
    for _step in range(rigged.undo.count()):
        rigged.undo.undo()
    assert heights(rigged) == [8600.0, 8600.0]


def test_spreaders_that_are_not_level_move_alone(canvas, rigged, paired):
    """As somebody measured them."""
    rigged.take(change(rigged.layout, paired, from_masthead_mm=8605.0))
    rigged.pick("spreader-p")
    QTest.keyClick(canvas, Qt.Key.Key_Down)
    assert heights(rigged) == [8610.0, 8605.0]
    assert rigged.undo.undoText() == "Move Spreader, P"


@pytest.mark.parametrize(("end", "was"), [("upper", 7600.0), ("lower", 9500.0)])
def test_a_stay_goes_by_its_ends(canvas, rigged, end, was):
    """The pin under the pointer moves, the other stays."""
    points = rigged.desk.scene.stays["diamond"].points
    # The pin stands 85 off the axis to port, behind the mast as seen from starboard: look from ahead.
    rigged.look_from("ahead")
    start = pixel(canvas, points[0] if end == "upper" else points[-1])
    dragging.drag(canvas.viewport(), start, QPoint(0, 32), dragging.CONTROL)
    pins = the(rigged, "diamond")
    moved, other = (pins.upper, pins.lower) if end == "upper" else (pins.lower, pins.upper)
    assert rigged.hand == "diamond"
    assert moved.from_masthead_mm == was + 100.0
    assert other.from_masthead_mm == (9500.0 if end == "upper" else 7600.0)


def test_between_its_ends_a_stay_is_only_taken_in_hand(canvas, rigged):
    """The picture moves instead."""
    rigged.look_from("ahead")
    points, before, centre = rigged.desk.scene.stays["diamond"].points, rigged.layout, canvas.span.centre_z_mm
    dragging.drag(canvas.viewport(), pixel(canvas, points.mean(axis=0)), QPoint(0, 32))
    assert rigged.hand == "diamond"
    assert rigged.layout is before
    assert canvas.span.centre_z_mm == pytest.approx(centre + 100.0)


def test_a_fitting_on_a_spreader_goes_out_along_it(canvas, rigged):
    """Seen from ahead port is right: 48 pixels are 150 outboard; never past the tip at 1000."""
    rigged.look_from("ahead")
    said = heard(rigged)
    dragging.drag(canvas.viewport(), middle(canvas, "on-spreader"), QPoint(48, 30), dragging.CONTROL)
    assert the(rigged, "on-spreader").along_mm == 650.0
    dragging.drag(canvas.viewport(), middle(canvas, "on-spreader"), QPoint(900, 0), dragging.CONTROL)
    assert the(rigged, "on-spreader").along_mm == 1000.0
    assert any("held at the tip of Spreader, P: 0 to 1\u2009000" in words for words in said)


def test_seen_end_on_it_is_carried_round_the_spreader(canvas, rigged):
    """From port forward is left: from the top a quarter turn ahead is to the left of the spreader."""
    rigged.look_from("port")
    bar = rigged.desk.scene.spreaders["spreader-p"]
    centre, start = pixel(canvas, bar.root), middle(canvas, "on-spreader")
    up = centre.y() - start.y()
    dragging.drag(canvas.viewport(), start, QPointF(-up, up) - QPointF(start.x() - centre.x(), 0))
    assert the(rigged, "on-spreader").round_deg == pytest.approx(90.0)
    assert the(rigged, "on-spreader").along_mm == 500.0


def test_a_fitting_on_a_stay_goes_along_its_wire(canvas, rigged):
    """The pointer's way on the screen is the fitting's: it stays under the pointer."""
    rigged.go_to(float(rigged.desk.scene.placed["on-stay"].z_mm))
    stay = rigged.desk.scene.stays["forestay"]
    _points, up = stay.at(np.array([8000.0]))
    right, rise = AXES["starboard"] @ up[0]
    start = middle(canvas, "on-stay")
    by = QPointF(200 * right, -200 * rise) * canvas.span.scale
    dragging.drag(canvas.viewport(), start, by, dragging.CONTROL)
    assert the(rigged, "on-stay").along_mm == pytest.approx(8200.0, abs=1.0)
    after = middle(canvas, "on-stay")
    assert (after - start - by).manhattanLength() < 1.5


@pytest.mark.parametrize("how", INTERRUPTIONS)
def test_whatever_interrupts_a_drag_puts_it_back(canvas, how):
    """Also what takes the canvas away; the pointer may go on moving, nothing follows it any more."""
    interrupted(canvas, canvas.viewport(), middle(canvas, "box-1"), QPoint(0, 64), how)
    assert not canvas.pointer.busy


def test_no_key_does_anything_else_during_a_drag(canvas, rigged):
    """An arrow neither moves it nor makes a step in the middle of it."""
    dragging.drag(canvas.viewport(), middle(canvas, "box-1"), QPoint(0, 64), dragging.CONTROL, let_go=False)
    QTest.keyClick(canvas, Qt.Key.Key_Down)
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert the(rigged, "box-1").from_masthead_mm == 8200.0
    assert rigged.undo.count() == 0


def test_control_pressed_during_a_drag_lets_the_snap_go(canvas, rigged):
    """Without the pointer moving: near the spreader's 8600, 8585 is where it is."""
    start, by = middle(canvas, "box-1"), 585 * canvas.span.scale
    dragging.press(canvas.viewport(), start)
    dragging.move(canvas.viewport(), start + QPointF(0, by))
    assert the(rigged, "box-1").from_masthead_mm == 8600.0
    QTest.keyPress(canvas, Qt.Key.Key_Control)
    assert the(rigged, "box-1").from_masthead_mm == pytest.approx(8585.0, abs=1.0)
    QTest.keyRelease(canvas, Qt.Key.Key_Control)
    assert the(rigged, "box-1").from_masthead_mm == 8600.0


def test_what_it_snaps_to_is_a_line_with_words(canvas, rigged):
    """At the row of the spreader's height, and gone when the button comes up."""
    start, by = middle(canvas, "box-1"), QPointF(0, 595 * canvas.span.scale)
    dragging.drag(canvas.viewport(), start, by, let_go=False)
    (guide,) = canvas.guides()
    assert guide.words == "level with Spreader, P"
    assert guide.line.y1() == guide.line.y2() == pytest.approx(canvas.span.y_px(17000.0 - 8600.0), abs=0.5)
    dragging.release(canvas.viewport(), start + by)
    assert not list(canvas.guides())


def test_equal_spacing_midway_and_onward(qapp, theme, qtbot):
    """Three exits: between two at 8000 and 8800 is 8400; after 8000 and 8800 comes 9600."""
    load_fonts()
    names = {"exit-1": 8000.0, "exit-2": 8800.0, "exit-3": 9100.0}
    foot = a_foot(along_mm=40)
    fittings = tuple(
        a_fitting(name, name=name, from_masthead_mm=at, in_hand=foot) for name, at in names.items()
    )
    session = Session(Desk(a_layout(fittings=fittings)))
    made = ElevationPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(1000, 900)
    made.show()
    session.go_to(8200.0)
    canvas = made.canvas
    for by, words, kept in (
        (490, "800 from exit-2, as exit-2 from exit-1", 9600.0),
        (-1190, "midway between exit-1 and exit-2, 400 from each", 8400.0),
    ):
        start, scale = middle(canvas, "exit-3"), canvas.span.scale
        dragging.drag(canvas.viewport(), start, QPointF(0, by * scale), let_go=False)
        assert [guide.words for guide in canvas.guides()] == [words]
        dragging.release(canvas.viewport(), start + QPointF(0, by * scale))
        assert the(session, "exit-3").from_masthead_mm == kept


@pytest.mark.parametrize(
    ("held", "step"), [(dragging.NOTHING, 10.0), (dragging.SHIFT, 100.0), (dragging.ALT, 1.0)]
)
def test_left_and_right_go_round_as_seen_from_outside(canvas, rigged, held, step):
    """Right of a thing ahead, seen from ahead, is port."""
    rigged.pick("box-1")
    canvas.setFocus()
    QTest.keyClick(canvas, Qt.Key.Key_Right, held)
    assert str(the(rigged, "box-1").girth) == f"{step:g} to port of ahead"
    QTest.keyClick(canvas, Qt.Key.Key_Left, held)
    QTest.keyClick(canvas, Qt.Key.Key_Left, held)
    assert str(the(rigged, "box-1").girth) == f"{step:g} to starboard of ahead"


def test_keys_reach_everything_that_moves(canvas, rigged):
    """Stand-off, along and round a spreader, up a stay, a stay's either end; what cannot go says why."""
    said = heard(rigged)
    canvas.setFocus()
    rigged.pick("box-1")
    QTest.keyClick(canvas, Qt.Key.Key_PageUp)
    assert the(rigged, "box-1").stand_off_mm == 10.0
    rigged.pick("on-spreader")
    QTest.keyClick(canvas, Qt.Key.Key_Up)
    QTest.keyClick(canvas, Qt.Key.Key_Right, dragging.SHIFT)
    assert (the(rigged, "on-spreader").along_mm, the(rigged, "on-spreader").round_deg) == (510.0, 90.0)
    rigged.pick("on-stay")
    QTest.keyClick(canvas, Qt.Key.Key_Up, dragging.SHIFT)
    assert the(rigged, "on-stay").along_mm == 8100.0
    rigged.pick("diamond")
    QTest.keyClick(canvas, Qt.Key.Key_Up)
    QTest.keyClick(canvas, Qt.Key.Key_Up, dragging.CONTROL)
    assert (the(rigged, "diamond").upper.from_masthead_mm, the(rigged, "diamond").lower.from_masthead_mm) == (
        7590.0,
        9490.0,
    )
    rigged.pick("spreader-p")
    QTest.keyClick(canvas, Qt.Key.Key_Left)
    assert "type its sweep" in said[-1]


def test_a_key_held_down_is_one_step(canvas, rigged):
    """Pressed anew it is another."""
    rigged.pick("box-1")
    canvas.setFocus()
    for again in (False, True, True, False):
        kind = QKeyEvent.Type.KeyPress
        QApplication.sendEvent(canvas, QKeyEvent(kind, Qt.Key.Key_Down, dragging.NOTHING, "", again))
    assert the(rigged, "box-1").from_masthead_mm == 8040.0
    assert rigged.undo.count() == 2
    rigged.undo.undo()
    assert the(rigged, "box-1").from_masthead_mm == 8030.0
    rigged.undo.undo()
    assert the(rigged, "box-1").from_masthead_mm == 8000.0


def test_enter_and_a_double_click_ask_for_the_height_field(canvas, rigged):
    """Once each."""
    asked = []
    rigged.typing_wanted.connect(lambda: asked.append(rigged.hand))
    dragging.double_click(canvas.viewport(), middle(canvas, "box-1"))
    assert asked == ["box-1"]
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    assert asked == ["box-1", "box-1"]
    assert rigged.undo.count() == 0


def test_delete_takes_it_off(canvas, rigged):
    """One step, with the thing's name; what something stands on stays and says so."""
    canvas.setFocus()
    rigged.pick("box-1")
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert "box-1" not in rigged.desk.scene.placed
    assert (rigged.undo.undoText(), rigged.hand) == ("Remove Hailer", "")
    said = heard(rigged)
    rigged.pick("spreader-p")
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert "spreader-p" in rigged.desk.scene.spreaders
    assert said[-1]
