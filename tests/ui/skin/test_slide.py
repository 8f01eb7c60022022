"""Sliding things over the unrolled skin, both ways at once, against the scene."""

import dragging
import pytest
from builders import a_fitting, a_layout
from gestures import INTERRUPTIONS, focused, heard, interrupted, the
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.model.fitting import AsBuilt, OldHole
from mastlayout.ui.look import load_fonts
from mastlayout.ui.session import Session
from mastlayout.ui.skin.panel import SkinPanel


@pytest.fixture
def holed(qapp):
    """Two boxes ahead 150 apart, the lower 40 to port, and an old hole between them."""
    load_fonts()
    hole = OldHole(
        id="hole-1",
        name="Old hole",
        from_masthead_mm=8070.0,
        girth="60 to starboard of ahead",
        diameter_mm=8.0,
    )
    fittings = (
        a_fitting(tag=1),
        a_fitting("box-2", tag=2, from_masthead_mm=8150.0, girth="40 to port of ahead"),
    )
    return Session(Desk(a_layout(fittings=fittings, holes=(hole,))))


@pytest.fixture
def panel(holed, theme, qtbot):
    """The skin with the upper box in hand, all of both in sight, focused."""
    made = focused(qtbot, SkinPanel(holed, theme), 560, 640)
    holed.pick("box-1")
    return made


@pytest.fixture
def canvas(panel):
    """Its canvas; the panel lives as long as the test."""
    return panel.canvas


def foot(canvas, name="box-1"):
    """The pixel of a foot's middle."""
    placed = canvas.session.desk.scene.placed[name]
    return canvas.development.at(float(placed.places.around[0]), placed.z_mm)


def test_it_slides_both_ways_under_the_pointer(canvas, holed):
    """To the right as seen from outside is to port of ahead; the foot is where the pointer let go."""
    made, start = canvas.development, foot(canvas)
    by = QPointF(33 * made.scale, 47 * made.scale)
    dragging.drag(canvas, start, by, dragging.CONTROL, let_go=False)
    assert canvas.development is made
    assert (foot(canvas) - start - by).manhattanLength() < 1.0
    dragging.release(canvas, start + by)
    assert the(holed).from_masthead_mm == 8047.0
    assert str(the(holed).girth) == "33 to port of ahead"
    assert holed.undo.count() == 1
    assert canvas.development.centre_z_mm == pytest.approx(17000.0 - 8047.0)


def test_one_of_the_two_ways_is_kept_when_only_the_other_is_meant(canvas, holed):
    """Two pixels to the side of straight down: it stays ahead."""
    made, start = canvas.development, foot(canvas)
    dragging.drag(canvas, start, QPointF(2.0, 30 * made.scale), let_go=False)
    words = [guide.words for guide in canvas.guides()]
    assert words == ["on the forward centreline"]
    dragging.release(canvas, start + QPointF(2.0, 30 * made.scale))
    assert str(the(holed).girth) == "ahead"
    assert the(holed).from_masthead_mm == pytest.approx(8030.0, abs=1.0)


def test_it_snaps_to_a_neighbours_height_with_a_line(canvas, holed):
    """Level with the lower box, drawn at that box's own row."""
    made, start = canvas.development, foot(canvas)
    row = foot(canvas, "box-2").y()
    by = QPointF(0, 148 * made.scale)
    dragging.drag(canvas, start, by, let_go=False)
    level = next(guide for guide in canvas.guides() if guide.words == "level with box-2")
    assert level.line.y1() == pytest.approx(row, abs=0.5)
    dragging.release(canvas, start + by)
    assert the(holed).from_masthead_mm == 8150.0


def test_at_the_end_of_the_skin_it_is_held(canvas, holed):
    """At the middle of the track, with a sentence."""
    said = heard(holed)
    dragging.drag(canvas, foot(canvas), QPoint(4000, 0), dragging.CONTROL)
    half = holed.desk.scene.skin.full.half_girth_mm
    girth = float(holed.desk.scene.placed["box-1"].places.around[0])
    assert min(abs(girth), abs(2 * half - girth)) <= 0.5
    assert any("The skin ends at the track" in words for words in said)


def test_at_the_heel_it_is_held(canvas, holed):
    """With what is allowed."""
    said = heard(holed)
    holed.edit(change(holed.layout, "box-1", from_masthead_mm=16950.0), "Down")
    dragging.drag(canvas, foot(canvas), QPoint(0, 600), dragging.CONTROL)
    assert the(holed).from_masthead_mm == 17000.0
    assert any("held at the heel" in words for words in said)


def test_an_old_hole_slides_too(canvas, holed):
    """It is taken by its ring; the height in hand follows it."""
    made = canvas.development
    start = made.at(holed.desk.scene.skin.girth_of(the(holed, "hole-1").girth, 8930.0), 17000.0 - 8070.0)
    by = QPointF(-10 * made.scale, 20 * made.scale)
    dragging.drag(canvas, start, by, dragging.CONTROL)
    assert holed.hand == "hole-1"
    assert the(holed, "hole-1").from_masthead_mm == pytest.approx(8090.0, abs=1.0)
    assert the(holed, "hole-1").girth.offset == pytest.approx(70.0, abs=1.0)
    assert holed.z_mm == pytest.approx(17000.0 - the(holed, "hole-1").from_masthead_mm)
    QTest.keyClick(canvas, Qt.Key.Key_Up, dragging.ALT)
    assert holed.undo.undoText() == "Move Old hole"
    assert holed.undo.count() == 2


def test_a_click_takes_a_neighbour_without_moving_the_skin_under_the_pointer(canvas, holed):
    """The picture goes to its height only when the button comes up."""
    made, at = canvas.development, foot(canvas, "box-2")
    dragging.press(canvas, at)
    assert (holed.hand, canvas.development) == ("box-2", made)
    dragging.release(canvas, at)
    assert canvas.development.centre_z_mm == 17000.0 - 8150.0
    assert holed.undo.count() == 0


@pytest.mark.parametrize("how", INTERRUPTIONS)
def test_whatever_interrupts_puts_it_back(canvas, how):
    """No step, no change, nothing follows any more."""
    interrupted(canvas, canvas, foot(canvas), QPoint(30, 40), how)


def test_what_was_found_one_way_moves_only_the_other(canvas, holed):
    """Its height was found: it slides round and says why not along."""
    found = AsBuilt(by="Jo", day="2026-11-20", from_masthead_mm=8000.0)
    holed.edit(change(holed.layout, "box-1", as_built=found), "Build")
    said = heard(holed)
    scale = canvas.development.scale
    dragging.drag(canvas, foot(canvas), QPointF(25 * scale, 30 * scale), dragging.CONTROL)
    assert str(the(holed).girth) == "25 to port of ahead"
    assert the(holed).from_masthead_mm == 8000.0
    assert any("is fitted: Jo" in words for words in said)


@pytest.mark.parametrize(("held", "step"), [(dragging.NOTHING, 10), (dragging.SHIFT, 100), (dragging.ALT, 1)])
def test_keys_move_it_the_way_they_point(canvas, holed, held, step):
    """Right is to the right on the unrolled skin."""
    before = foot(canvas).x()
    QTest.keyClick(canvas, Qt.Key.Key_Right, held)
    assert str(the(holed).girth) == f"{step} to port of ahead"
    assert step == 100 or foot(canvas).x() > before
    QTest.keyClick(canvas, Qt.Key.Key_Down, held)
    assert the(holed).from_masthead_mm == 8000.0 + step


def test_enter_double_click_and_delete(canvas, holed):
    """Ask for the field, ask again, take it off."""
    asked = []
    holed.typing_wanted.connect(lambda: asked.append(holed.hand))
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    dragging.double_click(canvas, foot(canvas))
    assert asked == ["box-1", "box-1"]
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert "box-1" not in holed.desk.scene.placed
