"""The strip and the hairlines against the scene to half a pixel, and the frame under mouse and keys."""

import numpy as np
import pytest
from builders import LENGTH_MM, a_layout, a_mast, a_stay
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from mastlayout.geometry.scene import build
from mastlayout.model.edits import change
from mastlayout.model.sails import Sail
from mastlayout.ui.strip.panel import StripPanel
from mastlayout.ui.strip.sails import sail_outlines
from mastlayout.ui.strip.scale import Scale, level


@pytest.fixture
def panel(session, theme, qtbot):
    """A panel on screen at its full width, the elevation showing 8000 to 10000."""
    made = StripPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(500, 900)
    made.show()
    qtbot.waitActive(made)
    made.rig.span_wanted.connect(lambda z: made.rig.set_span(z - 1000.0, z + 1000.0))
    made.rig.set_span(8000.0, 10000.0)
    made.rig.setFocus()
    return made


def test_the_scale_is_true_both_ways():
    """17000 mm over 850 - 38 pixels of room: 1000 mm is as long up as it is to the right."""
    scale = Scale(178.0, 888.0, 0.0, 17000.0)
    assert scale.y_px(0.0) - scale.y_px(17000.0) == pytest.approx(850.0)
    up, right = scale.y_px(0.0) - scale.y_px(1000.0), scale.x_px(1000.0) - scale.x_px(0.0)
    assert up == right == pytest.approx(50.0)
    assert scale.z_mm(scale.y_px(1234.0)) == pytest.approx(1234.0)


def test_the_whole_rig_shows(panel, session):
    """Masthead, heel and every fitting lie within the widget."""
    scale = panel.rig.scale
    heights = [0.0, LENGTH_MM, *(placed.z_mm for placed in session.desk.scene.placed.values())]
    assert all(0 <= scale.y_px(z) <= panel.rig.height() for z in heights)


@pytest.mark.parametrize("hand", ["box-1", "box-2"])
def test_what_is_painted_after_a_move_is_what_is_painted_anew(panel, session, hand):
    """Pixel for pixel, whether what moved is in hand or another is."""
    session.pick(hand)
    before = panel.rig.grab().toImage()
    session.edit(change(session.layout, "box-1", from_masthead_mm=9500.0), "Move box-1")
    session.go_to(3000.0)
    after = panel.rig.grab().toImage()
    assert after != before
    panel.rig.show_all()
    assert panel.rig.grab().toImage() == after


def test_the_strip_follows_the_boat(panel, session):
    """A heel found to stand 2450 above the water brings the water into the strip."""
    boat = session.layout.boat.model_copy(update={"heel_above_water_mm": 2450.0})
    session.edit(session.layout.model_copy(update={"boat": boat}), "Measure the heel")
    assert panel.rig.scale.low_z_mm == pytest.approx(-2450.0)
    assert panel.rig.scale.y_px(-2450.0) < panel.rig.height()


def test_hairlines_join_row_middles_to_heights(panel, session):
    """Both ends to half a pixel, in the window's own pixels."""
    lines = {line.thing.id: line for line in panel.hairlines.lines()}
    assert lines.keys() == {"box-1", "box-2", "box-3", "spreader-p"}
    reads = {"box-1": 8000.0, "box-3": 8084.0, "box-2": 8300.0, "spreader-p": 9000.0}
    top = panel.hairlines.mapToGlobal(QPoint(0, 0)).y()
    for row, (name, read) in enumerate(reads.items()):
        strip_y = panel.rig.mapToGlobal(QPoint(0, 0)).y() + panel.rig.scale.y_px(LENGTH_MM - read)
        assert top + lines[name].strip_y == pytest.approx(strip_y, abs=0.5)
        row_y = panel.list.view.viewport().mapToGlobal(QPoint(0, 0)).y() + 24 * row + 12
        assert top + lines[name].row_y == pytest.approx(row_y, abs=0.5)


def test_hairlines_follow_a_move(panel, session):
    """A fitting moved down by 1000 has its line's end 1000 lower on the strip."""
    before = next(line for line in panel.hairlines.lines() if line.thing.id == "box-1")
    session.edit(change(session.layout, "box-1", from_masthead_mm=9000.0), "Move box-1")
    after = next(line for line in panel.hairlines.lines() if line.thing.id == "box-1")
    assert after.strip_y - before.strip_y == pytest.approx(1000.0 * panel.rig.scale.px_per_mm, abs=0.5)
    assert panel.rig._joined["box-1"] == LENGTH_MM - 9000.0


def test_hairlines_end_at_rows_that_show(panel):
    """At a height for two rows, only those and what of a third shows its middle."""
    panel.list.view.setFixedHeight(50)
    assert len(list(panel.hairlines.lines())) == 2


def least_off(image, x, y, colour):
    """How far the nearest of the three pixels about a row is from a colour, summed over its channels."""
    found = [image.pixelColor(x, row) for row in (y - 1, y, y + 1)]
    wanted = colour.getRgb()[:3]
    return min(sum(abs(a - b) for a, b in zip(c.getRgb()[:3], wanted, strict=True)) for c in found)


def test_the_thread_and_the_line_in_hand_are_the_accent(panel, session, theme):
    """The strip at the height in hand and the gap at its row, and no longer when another is in hand.

    A line of 1.4 that two rows of pixels share covers each to 0.7, which leaves up to 165 of the
    550 between accent and ground; the line in the gap is thick enough to cover one whole.
    """
    accent = theme.colours["accent"]
    session.pick("box-2")
    y = round(panel.rig.scale.y_px(LENGTH_MM - 8300.0))
    line = next(line for line in panel.hairlines.lines() if line.thing.id == "box-2")
    row = round(line.row_y)
    assert least_off(panel.rig.grab().toImage(), 140, y, accent) < 170
    assert least_off(panel.hairlines.grab().toImage(), 28, row, accent) < 60
    session.pick("spreader-p")
    assert least_off(panel.rig.grab().toImage(), 140, y, accent) > 300
    assert least_off(panel.hairlines.grab().toImage(), 28, row, accent) > 120


def test_the_frame_is_the_elevations_span(panel):
    """Its edges stand at the heights given."""
    frame, scale = panel.rig.frame(), panel.rig.scale
    assert frame.top() == pytest.approx(scale.y_px(10000.0), abs=0.5)
    assert frame.bottom() == pytest.approx(scale.y_px(8000.0), abs=0.5)


def test_a_drag_moves_the_frame_with_the_hand(panel, qtbot):
    """By 100 pixels up; where it was taken does not matter."""
    start = panel.rig.frame().center().toPoint() + QPoint(0, 10)
    QTest.mousePress(panel.rig, Qt.MouseButton.LeftButton, pos=start)
    with qtbot.waitSignal(panel.rig.span_wanted) as wanted:
        QTest.mouseMove(panel.rig, start - QPoint(0, 100))
    QTest.mouseRelease(panel.rig, Qt.MouseButton.LeftButton, pos=start - QPoint(0, 100))
    half_px = 0.5 / panel.rig.scale.px_per_mm
    assert wanted.args[0] == pytest.approx(9000.0 + 100 / panel.rig.scale.px_per_mm, abs=half_px)


@pytest.mark.parametrize("how", ["escape", "right click"])
def test_a_drag_can_be_put_back(panel, how):
    """The frame is where it was, and the hand moves it no more."""
    start = panel.rig.frame().center().toPoint()
    QTest.mousePress(panel.rig, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(panel.rig, start - QPoint(0, 100))
    assert panel.rig._span != (8000.0, 10000.0)
    if how == "escape":
        QTest.keyClick(panel.rig, Qt.Key.Key_Escape)
    else:
        QTest.mousePress(panel.rig, Qt.MouseButton.RightButton, pos=start)
    QTest.mouseMove(panel.rig, start + QPoint(0, 50))
    assert panel.rig._span == (8000.0, 10000.0)


def test_a_click_beside_the_frame_brings_it_there(panel, qtbot):
    """Its centre is at the height clicked."""
    at = QPoint(20, 60)
    with qtbot.waitSignal(panel.rig.span_wanted) as wanted:
        QTest.mouseClick(panel.rig, Qt.MouseButton.LeftButton, pos=at)
    assert panel.rig.scale.y_px(wanted.args[0]) == pytest.approx(60.0, abs=0.5)


@pytest.mark.parametrize(
    ("key", "centre"),
    [
        (Qt.Key.Key_Up, 9200.0),
        (Qt.Key.Key_Down, 8800.0),
        (Qt.Key.Key_PageDown, 7000.0),
        (Qt.Key.Key_Home, LENGTH_MM),
        (Qt.Key.Key_End, 0.0),
    ],
)
def test_keys_move_the_frame(panel, qtbot, key, centre):
    """Arrows by a tenth of its 2000, page keys by all of it, Home and End to the mast's ends."""
    with qtbot.waitSignal(panel.rig.span_wanted) as wanted:
        QTest.keyClick(panel.rig, key)
    assert wanted.args[0] == pytest.approx(centre)


def test_the_strip_says_what_it_shows(panel, session):
    """Height in hand and the frame's ends, read from the masthead, in the units chosen."""
    session.go_to(9000.0)
    said = panel.rig.accessibleDescription()
    assert "8\u2009000 from the masthead" in said
    assert "7\u2009000 from the masthead to 9\u2009000 from the masthead" in said
    session.write_in("inches")
    assert "26-2 15/16 from the masthead" in panel.rig.accessibleDescription()


def test_too_narrow_for_the_list_the_strip_stands_alone(panel):
    """At 94 the strip has 92 and no hairs; wide again, the list is back."""
    panel.resize(94, 706)
    assert panel.compact
    assert not panel.list.isVisible()
    assert not panel.hairlines.isVisible()
    assert panel.rig.width() == 92
    assert not panel.rig._joined
    panel.resize(500, 706)
    assert panel.list.isVisible()
    assert panel.rig._joined


def test_tab_goes_through_field_rows_and_strip(panel):
    """In that order."""
    panel.list.search.setFocus()
    for part in (panel.list.view, panel.rig):
        QTest.keyClick(panel.window().focusWidget(), Qt.Key.Key_Tab)
        assert part.hasFocus()


def test_a_level_line_of_the_boat_leans_by_the_rake():
    """A mast raked 3 degrees aft sees the water rise aft of it: slope tan 3 over the heel's plumb height."""
    scene = build(a_layout(mast=a_mast(rake_deg=3.0)))
    (aft_x, _, aft_z), (ahead_x, _, ahead_z) = level(scene, -1000.0)
    assert (aft_z - ahead_z) / (ahead_x - aft_x) == pytest.approx(np.tan(np.radians(3.0)))
    assert level(scene, None) is None
    assert level(build(a_layout(mast=a_mast(rake_deg=None))), 0.0) is None


def test_a_headsails_clew_stands_lp_abaft_its_luff():
    """At its own height, and square to the stay; a sail with a corner unknown has no outline."""
    known = {"id": "jib", "name": "Jib", "role": "headsail", "stay": "forestay", "lp_mm": 4000.0}
    known |= {"tack_mm": 16000.0, "clew_mm": 15000.0, "head_mm": 1000.0}
    sails = (Sail(**known), Sail(**(known | {"id": "two", "clew_mm": None})))
    outlines = list(sail_outlines(build(a_layout(stays=(a_stay(),), sails=sails))))
    assert len(outlines) == 1
    tack, head, clew = outlines[0]
    assert [tack[2], head[2], clew[2]] == pytest.approx([1000.0, 16000.0, 2000.0])
    luff, out = head - tack, clew - tack
    assert abs(luff[0] * out[2] - luff[2] * out[0]) / np.linalg.norm(luff) == pytest.approx(4000.0)
    assert clew[0] < tack[0]
