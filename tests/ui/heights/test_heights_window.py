"""What each height gives, worked by hand: real keys, the real pointer, and the pixels against the core."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from window_builder import a_window, edited, whimbrel

from mastlayout.ranges.asked import Asked
from mastlayout.ranges.reach import REACHES
from mastlayout.resources import demo_masts
from mastlayout.ui.heights.table import AT_HEIGHT, IN_HAND
from mastlayout.ui.look import THEMES

Key, Mods = Qt.Key, Qt.KeyboardModifier
HALF_PX = 0.5
HAILER = "hailer-1"


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on the example Whimbrel, its heights opened with the key."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    opened(qtbot, made)
    yield made
    made.session.undo.setClean()


def opened(qtbot, window):
    """Open the heights by their key, and wait until they have the keys."""
    qtbot.waitUntil(lambda: window.arrangement is not None and window.arrangement.isVisible())
    with qtbot.waitActive(window):
        window.activateWindow()
    QTest.keyClick(window, Key.Key_F5)
    with qtbot.waitActive(window.heights):
        window.heights.activateWindow()
    settle()


def settle():
    """Let the plot take its size."""
    for _turn in range(3):
        QApplication.processEvents()


def chart_of(window):
    """The chart and its viewport."""
    chart = window.heights.chart
    return chart, chart.plot.widget.viewport()


def water_of_whimbrel(z_mm):
    """By hand: rake 1.5 degrees, the heel 250 under the water."""
    return (z_mm * np.cos(np.radians(1.5)) - 250.0) / 1000.0


def cell(window, row, column):
    """The text of a cell."""
    table = window.heights.table
    return table.index(row, column).data()


# -- opening


def test_the_key_opens_it_beside_the_window_and_closes_it(qtbot, window):
    """It blocks nothing; its act is ticked while it shows; Escape closes it too."""
    assert window.heights.isVisible()
    assert not window.heights.isModal()
    assert window.acts["heights"].isChecked()
    QTest.keyClick(window.heights, Key.Key_F5)
    assert not window.heights.isVisible()
    assert not window.acts["heights"].isChecked()
    opened(qtbot, window)
    QTest.keyClick(window.heights, Key.Key_Escape)
    assert not window.acts["heights"].isChecked()


# -- drawn against the core


def test_curves_are_painted_where_the_core_says(window):
    """In the picture itself, row by row, against the axes' own ticks: to half a pixel."""
    plot = chart_of(window)[0].plot
    for drawn in (plot.grid, plot.dots, plot.held, plot.line, plot.crossings, plot.mast):
        drawn.hide()
    top = plot.pixel(0.0, chart_of(window)[0].mast.top_m).y()
    nm_px, m_px, zero = per_unit(plot, "bottom"), per_unit(plot, "left"), plot.pixel(0.0, 0.0)
    for reach in REACHES:
        for key, curve in plot.curves.items():
            curve.setVisible(key == reach.key)
            curve.setPen("k", width=1)
        settle()
        picture = plot.widget.grab().toImage()
        for row in range(round(top) + 8, round(zero.y()) - 60, 19):
            height = np.array((zero.y() - row - 0.5) / m_px)
            expected = zero.x() + float(reach.distance_nm(height, Asked())) * nm_px
            assert inked(picture, row) == pytest.approx(expected, abs=HALF_PX), reach.key


def inked(picture, row):
    """The middle of what is painted in one row within the axes, in pixels."""
    across = range(60, picture.width() - 4)
    ink = 255 - np.array([QColor(picture.pixel(x, row)).lightness() for x in across])
    ink[ink < 40] = 0
    return (ink * (np.array(across) + 0.5)).sum() / ink.sum()


def per_unit(plot, side):
    """Pixels for each unit of an axis, from its first and its last written tick."""
    axis = plot.item.getAxis(side)
    marks = [at for at, _text in axis._tickLevels[0]]
    ends = [plot.pixel(at, 0.0).x() if side == "bottom" else -plot.pixel(0.0, at).y() for at in marks]
    return (ends[-1] - ends[0]) / (marks[-1] - marks[0])


def spots(plot):
    """Every dot: those of what is not in hand, then that of what is."""
    return [*plot.dots.points(), *plot.held.points()]


def test_dots_line_and_crossings_stand_where_the_core_says(window):
    """Each fitting's dot at its height by hand; the line at the height in hand, and where it meets curves."""
    chart, _viewport = chart_of(window)
    window.session.pick(HAILER)
    window.session.go_to(12000.0)
    placed = window.session.desk.scene.placed
    drawn = sorted(spot.pos().y() for spot in spots(chart.plot))
    for own, height in zip(
        sorted(water_of_whimbrel(one.z_mm) for one in placed.values()), drawn, strict=True
    ):
        off = chart.plot.pixel(0.0, own).y() - chart.plot.pixel(0.0, height).y()
        assert abs(off) <= HALF_PX
    line = chart.plot.line.value()
    assert (
        abs(chart.plot.pixel(0.0, line).y() - chart.plot.pixel(0.0, water_of_whimbrel(12000.0)).y())
        <= HALF_PX
    )
    met, heights = chart.plot.crossings.getData()
    assert heights == pytest.approx(line)
    assert met == pytest.approx([float(r.distance_nm(np.array(line), Asked())) for r in REACHES])


def test_the_fitting_in_hand_is_marked(window):
    """One dot is larger and has the accent; it follows the hand."""
    chart, _viewport = chart_of(window)
    for hand in (HAILER, next(one for one in window.session.desk.scene.placed if one != HAILER)):
        window.session.pick(hand)
        points = spots(chart.plot)
        marked = [p for p in points if p.size() == max(q.size() for q in points)]
        assert len(marked) == 1
        assert marked[0].brush().color() == THEMES["light"]["accent"]
        z = window.session.desk.scene.placed[hand].z_mm
        assert marked[0].pos().y() == pytest.approx(water_of_whimbrel(z))


# -- pointer and keys


def test_the_pointer_moves_the_height_in_hand(window):
    """A press takes the height under it; a drag follows; off the mast it stays on it."""
    chart, viewport = chart_of(window)
    at = chart.plot.pixel(14.0, 9.0).toPoint()
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, pos=at)
    m_per_px = 1.0 / per_unit(chart.plot, "left")
    assert water_of_whimbrel(window.session.z_mm) == pytest.approx(9.0, abs=m_per_px)
    drag(viewport, at - QPoint(0, 100))
    assert water_of_whimbrel(window.session.z_mm) == pytest.approx(9.0 + 100 * m_per_px, abs=m_per_px)
    drag(viewport, QPoint(at.x(), 1))
    assert window.session.z_mm == window.session.desk.scene.skin.length_mm
    QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, pos=at)
    assert chart.plot.line.value() == pytest.approx(water_of_whimbrel(window.session.z_mm))
    assert not window.session.undo.canUndo()


def drag(viewport, at):
    """One move with the button held, as the window system sends it."""
    left = Qt.MouseButton.LeftButton
    event = QMouseEvent(
        QMouseEvent.Type.MouseMove, QPointF(at), viewport.mapToGlobal(QPointF(at)),
        Qt.MouseButton.NoButton, left, Mods.NoModifier,
    )  # fmt: skip
    QApplication.sendEvent(viewport, event)


def test_a_click_on_a_dot_takes_the_fitting_in_hand(window):
    """And its height with it; the whole window follows."""
    chart, viewport = chart_of(window)
    z = window.session.desk.scene.placed[HAILER].z_mm
    QTest.mouseClick(
        viewport, Qt.MouseButton.LeftButton, pos=chart.plot.pixel(0.0, water_of_whimbrel(z)).toPoint()
    )
    assert window.session.hand == HAILER
    assert window.session.z_mm == z
    assert window.heights.table.heads()[2] == "Hailer"


def test_keys_move_the_height_and_the_hand(window):
    """Up and Down by the steps of every view, Page by a metre, Home and End; with Control the fittings."""
    chart, _viewport = chart_of(window)
    session = window.session
    session.go_to(5000.0)
    chart.setFocus()
    for key, held, z in (
        (Key.Key_Up, Mods.NoModifier, 5010.0), (Key.Key_Up, Mods.ShiftModifier, 5110.0),
        (Key.Key_Down, Mods.AltModifier, 5109.0), (Key.Key_PageUp, Mods.NoModifier, 6109.0),
        (Key.Key_PageDown, Mods.NoModifier, 5109.0), (Key.Key_End, Mods.NoModifier, 0.0),
        (Key.Key_Home, Mods.NoModifier, 17300.0),
    ):  # fmt: skip
        QTest.keyClick(chart, key, held)
        assert session.z_mm == pytest.approx(z)
        assert chart.plot.line.value() == pytest.approx(water_of_whimbrel(z))
    order = sorted(session.desk.scene.placed.values(), key=lambda one: -one.z_mm)
    QTest.keyClick(chart, Key.Key_Down, Mods.ControlModifier)
    assert session.hand == order[0].id
    QTest.keyClick(chart, Key.Key_Down, Mods.ControlModifier)
    QTest.keyClick(chart, Key.Key_Down, Mods.ControlModifier)
    assert session.hand == order[2].id
    QTest.keyClick(chart, Key.Key_Up, Mods.ControlModifier)
    assert session.hand == order[1].id


def test_the_wheel_moves_the_height(window):
    """One notch up is ten, as in the section."""
    _chart, viewport = chart_of(window)
    window.session.go_to(5000.0)
    at = QPointF(300.0, 300.0)
    event = QWheelEvent(
        at, viewport.mapToGlobal(at), QPoint(), QPoint(0, 120), Qt.MouseButton.NoButton,
        Mods.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(viewport, event)
    assert window.session.z_mm == 5010.0


# -- following the session


def test_a_fitting_that_is_moved_takes_dot_and_figures_along(window):
    """During the preview, after the edit, and back with undo."""
    session, chart = window.session, window.heights.chart
    session.pick(HAILER)
    before = cell(window, 1, IN_HAND)
    layout = session.layout
    moved = layout.but(
        fittings=tuple(
            one.but(from_masthead_mm=one.from_masthead_mm - 4000.0) if one.id == HAILER else one
            for one in layout.fittings
        )
    )
    session.edit(moved, "Move Hailer")
    z = session.desk.scene.placed[HAILER].z_mm
    assert max(p.size() for p in spots(chart.plot)) in {
        p.size() for p in spots(chart.plot) if abs(p.pos().y() - water_of_whimbrel(z)) < 1e-6
    }
    assert cell(window, 1, IN_HAND) == f"{2.08 * water_of_whimbrel(z) ** 0.5:.1f} NM" != before
    session.undo.undo()
    assert cell(window, 1, IN_HAND) == before


def test_closed_it_follows_nothing_and_opened_again_it_is_right(qtbot, window):
    """What happened while it was away shows when it is back."""
    window.heights.close()
    window.session.pick(HAILER)
    edited(window.session)
    opened(qtbot, window)
    assert window.heights.table.heads()[2] == "Hailer"
    assert window.heights.chart.plot.line.value() == pytest.approx(water_of_whimbrel(window.session.z_mm))


def test_another_layout_takes_its_place(window):
    """The mast, its heights and nothing in hand."""
    window.session.pick(HAILER)
    window.session.undo.setClean()
    window.files.open(demo_masts() / "turnstone.toml")
    assert cell(window, 1, IN_HAND) == "–"
    # By hand: 11 400 at 1 degree of rake, 1 620 above the water.
    assert window.heights.chart.mast.masthead_m == pytest.approx(11.4 * np.cos(np.radians(1.0)) + 1.62)


def test_units_and_theme_are_followed(window):
    """Feet at the axis, in fields and table; the dark ground behind all of it."""
    window.session.go_to(10000.0)
    window.session.write_in("inches")
    plot = window.heights.chart.plot
    assert [text for _at, text in plot.item.getAxis("left")._tickLevels[0]][-1].endswith(" ft")
    assert cell(window, 0, AT_HEIGHT) == f"{water_of_whimbrel(10000.0) / 0.3048:.1f} ft"
    assert window.heights.ends.fields["eye_height_m"].text() == "8.2 ft"
    window.theme.choose("dark")
    settle()
    corner = plot.widget.grab().toImage().pixelColor(2, 2)
    assert corner == THEMES["dark"]["ground"]


# -- what is asked


def enter(window, key, text):
    """Type into a field over what is there, and press Return."""
    field = window.heights.ends.fields[key]
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Key.Key_Return)


def test_a_height_is_read_in_any_unit(window):
    """By hand: 16 m up a light is seen from 9 m at 2.08 x (4 + 3) = 14.6 NM."""
    window.session.go_to((16000.0 + 250.0) / np.cos(np.radians(1.5)))
    for typed in ("9 m", "9", "9000 mm", "29 ft 6 11/32 in", "0.009 km"):
        enter(window, "eye_height_m", "1")
        enter(window, "eye_height_m", typed)
        assert window.heights.ends.asked.eye_height_m == pytest.approx(9.0, abs=0.001)
        assert cell(window, 3, AT_HEIGHT) == "14.6 NM"
        curve = window.heights.chart.plot.curves["geographic_range_nm"]
        assert curve.getData()[0][0] == pytest.approx(2.08 * 3.0, abs=0.001)


def test_a_bare_number_is_feet_where_feet_show(window):
    """As the field writes it; what is left as it was written stays the very value."""
    window.session.write_in("inches")
    enter(window, "target_height_m", "10")
    assert window.heights.ends.asked.target_height_m == pytest.approx(3.048)
    enter(window, "antenna_height_m", "49.2 ft")
    assert window.heights.ends.asked.antenna_height_m == 15.0


def test_a_wrong_entry_changes_nothing_and_says_what_is_allowed(window):
    """What was asked stands; the sentence goes with the next good entry."""
    ends = window.heights.ends
    for key, typed, allowed in (
        ("eye_height_m", "-2", "0 to 100 m"), ("target_height_m", "2,5 m", "point"),
        ("antenna_height_m", "high", "2.5 m"), ("heel_deg", "200", "60 °"), ("trim_deg", "steep", "angle"),
    ):  # fmt: skip
        before = ends.asked
        enter(window, key, typed)
        assert ends.asked is before
        assert allowed in ends.said.text()
        assert ends.said.isVisible()
        assert ends.fields[key].accessibleDescription() == ends.said.text()
        enter(window, key, "5")
        assert ends.said.isHidden()
        assert ends.asked.value(key) == 5.0


def test_escape_puts_a_field_back_and_leaves_the_window_open(window):
    """Only half typed: a second Escape closes."""
    field = window.heights.ends.fields["eye_height_m"]
    field.setFocus()
    QTest.keyClicks(field, "7")
    QTest.keyClick(field, Key.Key_Escape)
    assert field.text() == "2.5 m"
    assert window.heights.isVisible()


def test_an_emptied_height_is_not_known_and_its_curves_go(window):
    """No number takes its place; the others stay."""
    enter(window, "eye_height_m", "")
    plot = window.heights.chart.plot
    gone = {key for key, curve in plot.curves.items() if not curve.isVisible()}
    assert gone == {"geographic_range_nm", "geographic_range_2_12_nm"}
    assert cell(window, 3, AT_HEIGHT) == cell(window, 4, AT_HEIGHT) == "not known"
    assert cell(window, 7, AT_HEIGHT) != "not known"
    window.heights.view.setCurrentIndex(window.heights.table.index(3, AT_HEIGHT))
    assert "Eye height" in window.heights.worked.inputs.text()


def test_heel_brings_every_height_down(window):
    """By hand: at 60 degrees half of what is above the water is left."""
    window.session.go_to(10000.0)
    upright = water_of_whimbrel(10000.0)
    enter(window, "heel_deg", "60")
    assert window.heights.chart.plot.line.value() == pytest.approx(upright / 2)
    assert cell(window, 0, AT_HEIGHT) == f"{upright / 2:.2f} m"
    enter(window, "trim_deg", "1")
    assert cell(window, 0, AT_HEIGHT) == "not known"
    assert "waterline" in window.heights.worked.inputs.text()


# -- the working


def test_the_arrow_keys_open_each_figures_working(window):
    """Formula, what went in, and whose it is; what goes in gives the figure again."""
    heights = window.heights
    window.session.pick(HAILER)
    heights.view.setFocus()
    QTest.keyClick(heights.view, Key.Key_Home, Mods.ControlModifier)
    seen = []
    for _row in range(heights.table.rowCount()):
        worked = heights.worked
        seen.append((worked.result.text(), worked.formula.text(), worked.inputs.text(), worked.source.text()))
        QTest.keyClick(heights.view, Key.Key_Down)
    assert len({one[0] for one in seen}) >= 7
    assert all(all(one) for one in seen)
    assert "cos(rake)" in seen[0][1]
    sources = " ".join(one[3] for one in seen)
    assert all(name in sources for name in ("lists of lights", "NGA Pub. 9", "ITU-R P.526"))
    radar = next(one for one in seen if "radar to a target" in one[0])
    factor, own, target = (float(line.split()[0]) for line in radar[2].splitlines())
    assert radar[0].endswith(f"{factor * (own**0.5 + target**0.5):.1f} NM")


def test_a_screen_reader_is_told_what_the_chart_shows(window):
    """The height in hand and every reach of it, and they follow."""
    chart, _viewport = chart_of(window)
    window.session.go_to(10000.0)
    said = chart.accessibleDescription()
    assert f"{water_of_whimbrel(10000.0):.2f} m" in said
    assert all(f"{cell(window, row, AT_HEIGHT)}" in said for row in range(1, 8))
    window.session.go_to(12000.0)
    assert chart.accessibleDescription() != said


# -- not known


def test_without_the_waterline_only_heights_above_it_are_missing(qtbot, tmp_path):
    """The chart says what to measure; nothing stands at a made-up height; the pointer breaks nothing."""
    path = whimbrel(tmp_path)
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join(line for line in lines if not line.startswith("heel_above_water")))
    window = a_window(qtbot, tmp_path)
    window.files.open(path)
    opened(qtbot, window)
    chart, viewport = chart_of(window)
    assert "Water to the heel" in chart.lettering.shown.missing
    assert "Water to the heel" in chart.accessibleDescription()
    assert not any(
        one.isVisible() for one in (chart.plot.dots, chart.plot.held, chart.plot.line, chart.plot.mast)
    )
    assert all(cell(window, row, AT_HEIGHT) == "not known" for row in range(8))
    before = window.session.z_mm
    QTest.mouseClick(viewport, Qt.MouseButton.LeftButton, pos=QPoint(300, 300))
    assert window.session.z_mm == before
    boat = window.session.layout.boat.but(heel_above_water_mm=-250.0)
    window.session.edit(window.session.layout.but(boat=boat), "Set the water")
    assert chart.plot.line.isVisible()
    assert cell(window, 0, AT_HEIGHT) == f"{water_of_whimbrel(before):.2f} m"
    window.session.undo.setClean()
