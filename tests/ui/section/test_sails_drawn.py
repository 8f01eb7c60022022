"""Sails in the section: what they sweep and where they bear, to half a pixel; the slider, by keys too."""

import itertools

import numpy as np
import pytest
import shapely
from builders import a_layout
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from window_builder import a_window

from mastlayout.desk import Desk
from mastlayout.resources import demo_masts
from mastlayout.ui.section.panel import SectionPanel
from mastlayout.ui.section.sails import arrow_px, hatching, luff_px, pixels, stand_line
from mastlayout.ui.section.tacking import STEPS
from mastlayout.ui.session import Session

HALF_PX = 0.5
WORST = [("sanderling", "hailer-1"), ("turnstone", "steaming-light"), ("whimbrel", "fog-horn-1")]


def shown(session, theme, qtbot, hand="", size=(420, 400)):
    """A section panel on screen, a thing in hand."""
    made = SectionPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(*size)
    made.show()
    qtbot.waitExposed(made)
    session.pick(hand)
    return made


@pytest.fixture
def sanderling(theme, qtbot):
    """Sanderling's section, her hailer in hand."""
    return shown(Session(Desk.open(demo_masts() / "sanderling.toml")), theme, qtbot, "hailer-1")


def luff_of(scene, stay, z_mm):
    """Where a straight stay is at a height, ahead of a mast that stands its prebend forward of its ends."""
    upper, lower = np.asarray(scene.stays[stay].points)[[0, -1]]
    length, middle = scene.skin.length_mm, scene.layout.mast.prebend_mm

    def bend(z):
        return 4 * middle * z / length * (1 - z / length)

    part = (z_mm - lower[2]) / (upper[2] - lower[2])
    return lower[0] + part * (upper[0] - lower[0]) + part * bend(upper[2]) - bend(z_mm)


def shade_of(ring, luff):
    """All that the section hides from a point ahead of it, to port and ahead."""
    outline = ring.polygon()
    far = luff + 20.0 * (outline - luff)
    return shapely.convex_hull(shapely.multipoints(np.concatenate([outline, far])))


@pytest.mark.parametrize(("demo", "hand"), WORST)
def test_the_edge_is_drawn_on_the_mast_and_along_the_lines_that_touch_it(qtbot, theme, demo, hand):
    """Where nothing but the mast holds the genoa: every point of its edge, in pixels; the luff's too."""
    session = Session(Desk.open(demo_masts() / f"{demo}.toml"))
    made = shown(session, theme, qtbot, hand)
    canvas, scene = made.canvas, session.desk.scene
    sailed, plan = canvas.sailed, canvas.plan
    assert sailed.cloth.sail.id == "genoa"
    luff = np.array([luff_of(scene, sailed.cloth.sail.stay, session.z_mm), 0.0])
    at = luff_px(sailed, plan)
    assert at.x() == pytest.approx(plan.axis_x, abs=HALF_PX)
    assert at.y() == pytest.approx(plan.axis_y - luff[0] * plan.scale, abs=HALF_PX)
    assert canvas.area().contains(arrow_px(sailed, plan, canvas.area()))
    shade = shade_of(scene.skin.ring(session.z_mm), luff)
    middle = min(sailed.swept.edges, key=lambda line: np.abs(line[:, 1]).min())
    drawn = pixels(plan, middle)
    mm = np.stack(
        [(plan.axis_y - drawn[:, 1]) / plan.scale, (plan.axis_x - drawn[:, 0]) / plan.scale], axis=1
    )
    off = shapely.distance(shade.exterior, shapely.points(mm))
    seen = np.abs(mm).max(axis=1) < 400  # what the picture holds
    assert seen.sum() > 20
    assert off[seen].max() * plan.scale < HALF_PX


@pytest.mark.parametrize(("demo", "hand"), WORST)
def test_the_worst_point_is_drawn_on_the_fitting_as_far_out_as_the_finding_says(qtbot, theme, demo, hand):
    """Both with the finding looked at and without: its two ends, in pixels, and their distance."""
    session = Session(Desk.open(demo_masts() / f"{demo}.toml"))
    made = shown(session, theme, qtbot, hand)
    finding = next(f for f in session.desk.report.open if f.code == "tack/bears" and f.subjects[0] == hand)
    session.choose(frozenset({finding.key}))
    plan, worst = made.canvas.plan, made.canvas.cut.worst
    ends = [plan.at(*place[:2]) for place in (worst.at, worst.other)]
    apart = np.hypot((ends[0] - ends[1]).x(), (ends[0] - ends[1]).y())
    # The report measures at heights 20 mm apart, carried beyond the ends of the fitting.
    assert apart == pytest.approx(-finding.measured * plan.scale, abs=2 * HALF_PX)
    solids = session.desk.scene.placed[hand].solids
    for axis, value in ((0, worst.at[0]), (1, worst.at[1]), (2, worst.at[2])):
        way = np.eye(3)[axis]
        assert -solids.support(-way).max() - 0.5 <= value <= solids.support(way).max() + 0.5
    assert stand_line(made.canvas.drawing) is None
    session.choose(frozenset())
    line = stand_line(made.canvas.drawing)
    if line is not None:
        found = made.canvas.sailed.stand
        apart = np.hypot((line[0] - line[1]).x(), (line[0] - line[1]).y())
        assert apart == pytest.approx(abs(found.clear_mm) * made.canvas.plan.scale, abs=HALF_PX)


def test_the_slider_carries_the_sail_across_with_keys(sanderling):
    """From port abeam to starboard abeam; in between the cloth lies on the hailer, and the words say so."""
    slider, canvas = sanderling.tacking.slider, sanderling.canvas
    assert slider.accessibleName() == "Tack the sail, from port to starboard"
    slider.setFocus()
    QTest.keyClick(slider, Qt.Key.Key_Home)
    far = float(sanderling.tacking.words.text().split()[0])
    assert far > 1000
    for _step in range(20):
        QTest.keyClick(slider, Qt.Key.Key_PageUp)
    assert slider.value() == STEPS
    QTest.keyClick(slider, Qt.Key.Key_Left)
    assert slider.value() == STEPS - 5
    slider.setValue(0)
    assert sanderling.tacking.words.text() == "touches it"
    assert slider.accessibleDescription() == "touches it"
    assert canvas.carried == 0.0


def test_the_slider_moves_under_the_mouse(sanderling, qtbot):
    """The cloth in the picture is painted anew, elsewhere."""
    before = sanderling.canvas.grab().toImage()
    slider = sanderling.tacking.slider
    QTest.mouseClick(slider, Qt.MouseButton.LeftButton, pos=slider.rect().center())
    for _step in range(4):
        QTest.keyClick(slider, Qt.Key.Key_PageUp)
    assert sanderling.canvas.carried > -1.0
    assert sanderling.canvas.grab().toImage() != before


def test_the_live_distance_is_that_from_the_cloth_to_the_horn(sanderling):
    """Straight cloth to port of it, against the horn's own corner: the rim is 200 wide at its front."""
    canvas, scene = sanderling.canvas, sanderling.canvas.session.desk.scene
    swept = canvas.sailed.swept
    part = next(p for p in np.linspace(-0.9, -0.1, 400) if swept.angle(p) < 0.06)
    canvas.carry_cloth(part)
    line = swept.cloth(swept.angle(part))
    assert len(line) == 2 or np.ptp(np.arctan2(line[1:, 1], swept.luff[0] - line[1:, 0])) < 1e-3
    end = shapely.LineString([swept.luff, line[-1]])
    placed = scene.placed["hailer-1"]
    shapes = []
    for i in range(len(placed.solids)):
        angle = np.radians(np.arange(0, 360, 0.5))
        ways = np.stack([np.cos(angle), np.sin(angle), 0 * angle], axis=1)
        one = placed.solids[np.array([i])]
        low, high = one.span_z()
        if low[0] <= canvas.session.z_mm <= high[0]:
            touched = np.array([one.core(way[None])[0] + one.round_mm[0] * way for way in ways])
            shapes.append(shapely.convex_hull(shapely.multipoints(touched[:, :2])))
    sanderling.tacking.show_state()
    said = float(sanderling.tacking.words.text().split()[0])
    assert said == pytest.approx(min(shape.distance(end) for shape in shapes), abs=1.0)


def test_where_no_sail_is_the_slider_rests(qtbot, theme):
    """Above the head of every sail, and on a mast without sails."""
    bare = shown(Session(Desk(a_layout())), theme, qtbot)
    assert bare.canvas.sailed is None
    assert not bare.tacking.slider.isEnabled()
    assert bare.tacking.words.text() == "no sail here"
    session = Session(Desk.open(demo_masts() / "sanderling.toml"))
    made = shown(session, theme, qtbot)
    session.go_to(session.desk.scene.skin.length_mm - 100.0)
    assert made.canvas.sailed is None
    session.go_to(4000.0)
    assert made.canvas.sailed is not None
    assert made.tacking.slider.isEnabled()


def test_the_section_says_what_it_draws(sanderling):
    """For those who do not see it: which sail, its luff, what holds it, how the hailer stands."""
    said = sanderling.canvas.accessibleDescription()
    assert "Genoa, 108 %: full." in said
    assert "It is held off by Mast" in said
    assert "Genoa, 108 % bears on it, 207." in said


def test_hatching_fills_its_area():
    """Lines at 45 degrees, as far apart as asked, none wholly outside."""
    area = QRectF(10, 20, 200, 100)
    lines = hatching(area, 11.0)
    assert all(abs(line.dx() + line.dy()) < 1e-9 for line in lines)
    steps = {round(b.p2().x() - a.p2().x(), 6) for a, b in itertools.pairwise(lines)}
    assert steps == {round(11.0 * 2**0.5, 6)}
    first, last = lines[0], lines[-1]
    assert first.p2().x() - area.left() <= 11.0 * 2**0.5 + 1e-9
    assert area.right() + area.height() - last.p2().x() <= 11.0 * 2**0.5 + 1e-9


def test_sails_can_be_left_out_and_stay_out(qtbot, tmp_path):
    """By the key and the button; section and elevation leave them out, and so does the next window."""
    window = a_window(qtbot, tmp_path)
    window.files.open(demo_masts() / "sanderling.toml")
    qtbot.waitUntil(lambda: window.arrangement is not None and window.arrangement.isVisible())
    panels, act = window.arrangement.panels, window.acts["sails"]
    assert isinstance(act, QAction)
    assert act.isChecked()
    assert panels.elevation.canvas.bands.isVisible()
    window.activateWindow()  # opening a file took the keys away for a moment
    qtbot.waitUntil(window.isActiveWindow)
    held = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(window, Qt.Key.Key_L, held)
    assert not act.isChecked()
    assert panels.section.canvas.sailed is None
    assert not panels.section.tacking.isVisible()
    assert not panels.elevation.canvas.bands.isVisible()
    again = a_window(qtbot, tmp_path)
    again.files.open(demo_masts() / "sanderling.toml")
    qtbot.waitUntil(lambda: again.arrangement is not None and again.arrangement.isVisible())
    assert not again.session.sails
    again.acts["sails"].trigger()
    assert again.session.sails
    assert again.arrangement.panels.section.canvas.sailed is not None


def test_a_point_in_the_picture_is_where_the_plan_has_it(sanderling):
    """Ahead is up and port is left, as ``Plan.at`` says it of one place."""
    plan = sanderling.canvas.plan
    found = pixels(plan, np.array([[100.0, -40.0]]))[0]
    assert QPointF(*found) == plan.at(100.0, -40.0)
