"""Carrying things round the mast in the section: positions against the scene, keys, clicks."""

import dragging
import pytest
from gestures import INTERRUPTIONS, focused, heard, interrupted, the
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from mastlayout.geometry.frames import bearing_of
from mastlayout.model.edits import change
from mastlayout.model.fitting import AsBuilt
from mastlayout.ui.section.panel import SectionPanel


@pytest.fixture
def panel(session, theme, qtbot):
    """A section at the first box, which stands ahead, focused."""
    made = focused(qtbot, SectionPanel(session, theme), 420, 380)
    session.pick("box-1")
    return made


@pytest.fixture
def canvas(panel):
    """Its canvas; the panel lives as long as the test."""
    return panel.canvas


def body(canvas, out_mm=160.0):
    """A pixel on the box ahead, so far from the axis."""
    return canvas.plan.at(out_mm, 0.0)


def bearing(session, name="box-1"):
    """The bearing at which a fitting's foot stands."""
    x, y, _z = session.desk.scene.placed[name].seats.origin[0]
    return bearing_of(float(x), float(y))


def test_it_goes_round_with_the_pointer(canvas, session):
    """The pointer taken to a bearing of 40 takes the box there, within half a millimetre of girth."""
    start, plan = body(canvas), canvas.plan
    to = plan.at(160.0, -160.0 * 0.8390996)  # tan 40
    dragging.drag(canvas, start, to - start, dragging.CONTROL)
    scene = session.desk.scene
    ring = scene.skin.ring(9000.0)
    girth = float(scene.placed["box-1"].places.around[0])
    assert girth == pytest.approx(ring.girth_at_bearing(40.0), abs=0.6)
    assert the(session).from_masthead_mm == 8000.0
    assert session.undo.count() == 1
    assert session.undo.undoText() == "Move box-1"
    session.undo.undo()
    assert str(the(session).girth) == "ahead"


@pytest.mark.parametrize(
    ("wanted", "kept", "words"),
    [
        (88.5, "bearing 90", "at the widest, starboard"),
        (271.5, "bearing 270", "at the widest, port"),
        (178.0, "aft", "on the middle of the track"),
    ],
)
def test_it_snaps_to_centrelines_and_the_widest(canvas, session, wanted, kept, words):
    """And the ray it snapped to runs through that place of the skin."""
    start = body(canvas)
    ahead, port = {88.5: (4.2, -160.0), 271.5: (4.2, 160.0), 178.0: (-160.0, -5.6)}[wanted]
    at = canvas.plan.at(ahead, port)
    dragging.drag(canvas, start, at - start, let_go=False)
    assert str(the(session).girth) == kept
    (guide,) = canvas.guides()
    assert guide.words == words
    place = session.desk.scene.placed["box-1"].seats.origin[0]
    foot, ray = canvas.plan.at(float(place[0]), float(place[1])), guide.line
    across = (ray.p2() - ray.p1()).x() * (foot - ray.p1()).y() - (ray.p2() - ray.p1()).y() * (
        foot - ray.p1()
    ).x()
    assert abs(across) / ray.length() < 0.5
    dragging.release(canvas, at)
    assert not list(canvas.guides())


def test_the_drawing_stands_still_under_the_pointer(canvas, session):
    """Its scale is fitted anew only when the button comes up."""
    plan, start = canvas.plan, body(canvas)
    by = canvas.plan.at(0.0, -170.0) - start
    dragging.drag(canvas, start, by, dragging.CONTROL, let_go=False)
    assert bearing(session) == pytest.approx(90.0, abs=1.0)
    assert canvas.plan == plan
    dragging.release(canvas, start + by)
    assert canvas.plan != plan


def test_with_shift_it_comes_off_the_skin(canvas, session):
    """By as much as the pointer goes out, and never into the mast."""
    said = heard(session)
    scale = canvas.plan.scale
    dragging.drag(canvas, body(canvas), QPointF(0, -25 * scale), dragging.SHIFT)
    assert the(session).stand_off_mm == pytest.approx(25.0, abs=1.0)
    assert str(the(session).girth) == "ahead"
    dragging.drag(canvas, body(canvas), QPointF(0, 80 * canvas.plan.scale), dragging.SHIFT)
    assert the(session).stand_off_mm == 0.0
    assert any("held on the skin" in words for words in said)


@pytest.mark.parametrize("how", INTERRUPTIONS)
def test_whatever_interrupts_puts_it_back(canvas, how):
    """No step, no change, nothing follows any more."""
    interrupted(canvas, canvas, body(canvas), QPoint(60, 60), how)


def test_what_is_fitted_stays_and_says_why(canvas, session):
    """Only its girth was found: its height may still be planned."""
    found = AsBuilt(by="Jo", day="2026-11-20", girth="ahead")
    session.edit(change(session.layout, "box-1", as_built=found), "Build")
    said, before = heard(session), session.layout
    dragging.drag(canvas, body(canvas), QPoint(60, 60))
    assert session.layout is before
    assert any("is fitted: Jo" in words for words in said)
    QTest.keyClick(canvas, Qt.Key.Key_Right)
    assert session.layout is before
    assert "is fitted: Jo" in said[-1]
    QTest.keyClick(canvas, Qt.Key.Key_Down)
    assert the(session).from_masthead_mm == 8010.0


@pytest.mark.parametrize(("held", "step"), [(dragging.NOTHING, 10), (dragging.SHIFT, 100), (dragging.ALT, 1)])
def test_keys_go_round_as_seen_from_above(canvas, session, held, step):
    """Right of ahead is starboard here; up and down move along the mast."""
    QTest.keyClick(canvas, Qt.Key.Key_Right, held)
    assert str(the(session).girth) == f"{step} to starboard of ahead"
    QTest.keyClick(canvas, Qt.Key.Key_Left, held)
    assert str(the(session).girth) == "ahead"
    QTest.keyClick(canvas, Qt.Key.Key_Up, held)
    assert the(session).from_masthead_mm == 8000.0 - step
    assert session.z_mm == 9000.0 + step


def test_once_round_by_keys_comes_back(canvas, session):
    """The girth of the ellipse over ten hundreds, forwards and back, passing the track."""
    for _step in range(5):
        QTest.keyClick(canvas, Qt.Key.Key_Right, dragging.SHIFT)
    half = session.desk.scene.skin.full.half_girth_mm
    girth = float(session.desk.scene.placed["box-1"].places.around[0])
    assert girth % (2 * half) == pytest.approx((half - 500.0) % (2 * half), abs=0.1)
    for _step in range(5):
        QTest.keyClick(canvas, Qt.Key.Key_Left, dragging.SHIFT)
    assert the(session).girth.offset == pytest.approx(0.0, abs=0.05)


def test_a_body_and_a_call_out_are_taken_in_hand(canvas, session):
    """A click on either; nothing moves."""
    session.pick("")
    session.go_to(9000.0)
    dragging.drag(canvas, body(canvas), QPoint(0, 0))
    assert session.hand == "box-1"
    session.pick("")
    session.go_to(9000.0)
    row = next(row for row in canvas.rows if row.callout.id == "box-1")
    dragging.drag(canvas, row.box.center(), QPoint(0, 0))
    assert session.hand == "box-1"
    assert session.undo.count() == 0


def test_enter_double_click_and_delete(canvas, session):
    """Ask for the field, ask again, take it off."""
    asked = []
    session.typing_wanted.connect(lambda: asked.append(session.hand))
    QTest.keyClick(canvas, Qt.Key.Key_Enter)
    dragging.double_click(canvas, body(canvas))
    assert asked == ["box-1", "box-1"]
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert "box-1" not in session.desk.scene.placed
    assert session.undo.undoText() == "Remove box-1"
