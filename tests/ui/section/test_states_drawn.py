"""The state that is drawn: the worst by itself and named, any other by the picker; the main eased by keys."""

import numpy as np
import pytest
import shapely
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from scipy.spatial import ConvexHull

from mastlayout.checks.clewed import swept_clew
from mastlayout.checks.sailed import Called, states_of
from mastlayout.checks.worst import worst_of
from mastlayout.desk import Desk
from mastlayout.geometry.clew.swept import Swept
from mastlayout.resources import demo_masts
from mastlayout.ui.section.clew import outline_at
from mastlayout.ui.section.panel import SectionPanel
from mastlayout.ui.session import Session

DEMOS = ("sanderling", "turnstone", "whimbrel")


@pytest.fixture(scope="module")
def desks():
    """The three demo masts, each opened once."""
    return {name: Desk.open(demo_masts() / f"{name}.toml") for name in DEMOS}


@pytest.fixture
def shown(desks, theme, qtbot):
    """Show a demo's section with a thing in hand."""

    def show(demo, hand):
        session = Session(desks[demo])
        made = SectionPanel(session, theme)
        qtbot.addWidget(made)
        made.resize(520, 420)
        made.show()
        qtbot.waitExposed(made)
        session.pick(hand)
        return made

    return show


def finding_of(desk, code, hand):
    """The finding of a code about a fitting."""
    return next(f for f in desk.report.open if f.code == code and f.subjects[0] == hand)


def test_the_worst_is_chosen_by_itself_and_named(shown):
    """The camera abaft the mast: the main's fault goes before the genoa's, which is less deep."""
    made = shown("sanderling", "camera-1")
    assert made.tacking.picker.currentText() == "Worst: Mainsail: full"
    assert made.canvas.sailed.called == Called("main", "full")
    made.canvas.session.pick("hailer-1")
    assert made.tacking.picker.currentText() == "Worst: Genoa, 108 %: full"


def test_every_state_the_rules_run_over_can_be_picked_by_keys(shown):
    """Down and down again: each entry once, and back to the worst with Home."""
    made = shown("whimbrel", "camera-1")
    picker, session = made.tacking.picker, made.canvas.session
    wanted = [called for called, _state in states_of(session.desk.scene)]
    assert len(set(wanted)) == len(wanted) == 26
    picker.setFocus()
    seen = []
    for _entry in wanted:
        QTest.keyClick(picker, Qt.Key.Key_Down)
        seen.append(session.cloth)
        drawn = made.canvas.sailed
        assert drawn is None or drawn.called == session.cloth
    assert seen == wanted
    QTest.keyClick(picker, Qt.Key.Key_Home)
    assert session.cloth is None
    assert picker.accessibleName() == "Sail and state that is drawn"


def test_a_finding_looked_at_goes_before_a_louder_one(shown, desks):
    """The flood light's fault is the genoa's; looked at is what the main does to it."""
    made = shown("whimbrel", "flood-p")
    assert not made.canvas.sailed.is_main
    made.canvas.session.choose(frozenset({finding_of(desks["whimbrel"], "main/presses", "flood-p").key}))
    assert made.canvas.sailed.is_main


def test_a_reef_that_is_gone_leaves_the_worst_drawn(shown):
    """Picked, then taken out of the layout; by name, as the picker is told."""
    made = shown("turnstone", "reflector-1")
    session = made.canvas.session
    session.draw_cloth(Called("main", "second reef"))
    assert made.tacking.picker.currentText() == "Mainsail: second reef"
    session.draw_cloth(Called("main", "third reef"))  # Turnstone's main has two
    made.tacking.show_state()
    assert session.cloth is None
    assert made.tacking.picker.currentIndex() == 0


def test_the_main_is_eased_by_keys_from_amidships_to_its_limit(shown):
    """Home: to port as far as boom, 75 degrees, and twist let it; the middle: along the centreline."""
    made = shown("sanderling", "camera-1")
    slider, canvas = made.tacking.slider, made.canvas
    assert slider.accessibleName() == "Ease the main, from port through amidships to starboard"
    slider.setFocus()
    swept = canvas.sailed.swept
    slider.setValue(0)
    assert np.ptp(swept.carried(canvas.carried)[:, 1]) == pytest.approx(0.0, abs=1e-6)
    QTest.keyClick(slider, Qt.Key.Key_Home)
    way = np.diff(swept.carried(canvas.carried), axis=0)[-1]
    state = swept.state
    part = (canvas.sailed.z_mm - state.low_mm) / (state.head_mm - state.low_mm)
    limit = np.degrees(state.boom) + np.degrees(state.twist) * part
    assert np.degrees(np.arctan2(way[1], -way[0])) == pytest.approx(limit, abs=0.01)
    QTest.keyClick(slider, Qt.Key.Key_End)
    assert swept.carried(canvas.carried)[-1, 1] < 0


def test_the_slider_under_the_mouse_eases_the_main_in_the_picture(shown):
    """A press in the middle of its groove paints the cloth elsewhere."""
    made = shown("sanderling", "camera-1")
    slider = made.tacking.slider
    before = made.canvas.grab().toImage()
    QTest.mouseClick(slider, Qt.MouseButton.LeftButton, pos=QPoint(slider.width() // 2, slider.height() // 2))
    assert made.canvas.carried > -1.0
    assert made.canvas.grab().toImage() != before


def test_the_live_distance_of_the_main_is_that_to_all_up_to_its_belly(shown):
    """By shapely: from the hull of the camera's slices to the cloth anywhere up to its full belly."""
    made = shown("sanderling", "camera-1")
    canvas, slider = made.canvas, made.tacking.slider
    outlines = canvas.sailed.outlines
    assert len(outlines)
    for step in (-500, -300, 0, 400):
        slider.setValue(step)
        way = canvas.sailed.at_hand
        cloth = shapely.Polygon(way.hung(step / 500)).buffer(0)
        line = shapely.LineString(way.carried(step / 500))
        angle = 2 * np.pi * np.arange(outlines.shape[1]) / outlines.shape[1]
        ways = np.stack([np.cos(angle), np.sin(angle)], axis=1)
        # Outlines are what lies within every one of their support lines.
        far = 1e5
        shapes = []
        for support in outlines:
            shape = shapely.box(-far, -far, far, far)
            for n, h in zip(ways, support, strict=True):
                t = np.array([-n[1], n[0]])
                corners = [h * n + far * t, h * n - far * t, (h - far) * n - far * t, (h - far) * n + far * t]
                shape = shape.intersection(shapely.Polygon(corners))
            shapes.append(shape)
        off = min(min(shape.distance(cloth), shape.distance(line)) for shape in shapes)
        words = made.tacking.words.text()
        if off < 0.01:
            assert words in ("touches it", "presses on it")
        else:
            assert float(words.split()[0]) == pytest.approx(off, abs=1.0)


@pytest.mark.parametrize(
    ("demo", "code", "hand"),
    [
        ("sanderling", "main/bears", "camera-1"),
        ("sanderling", "main/carried", "camera-1"),
        ("sanderling", "main/whips", "flood-p"),
        ("whimbrel", "main/presses", "flood-s"),
        ("whimbrel", "clew/hooks", "winch-p"),
        ("whimbrel", "clew/hooks", "cleat-lower-s"),
    ],
)
def test_the_worst_point_is_as_far_out_as_the_finding_says(desks, demo, code, hand):
    """Two places, one on the fitting, as far apart as the report says: it works them out otherwise."""
    desk = desks[demo]
    finding = finding_of(desk, code, hand)
    worst = worst_of(desk.scene, finding)
    apart = np.linalg.norm(np.subtract(worst.at, worst.other))
    assert apart == pytest.approx(-finding.measured, abs=1.0)
    solids = desk.scene.placed[hand].solids
    for way in np.eye(3):
        low, high = -solids.support(-way).max(), solids.support(way).max()
        assert low - 20.0 <= np.dot(way, worst.at) <= high + 20.0  # the report cuts every 20 mm


def test_what_is_on_a_spreader_says_its_figure_at_its_own_height(shown, desks):
    """The flood light on the spreader: no section shows it, so the words below do, and its height."""
    made = shown("sanderling", "flood-p")
    finding = finding_of(desks["sanderling"], "tack/bears", "flood-p")
    from_masthead = desks["sanderling"].scene.skin.length_mm - finding.z_mm
    said = made.canvas.accessibleDescription()
    wanted = f"−{-finding.measured:.0f}, at its own height, {from_masthead:.0f} from the masthead"
    assert wanted in said.replace("\u00a0", " ")
    assert made.canvas.sailed.own_z_mm == finding.z_mm


def test_a_clew_is_drawn_only_where_its_finding_is_looked_at(shown, desks):
    """The winch, in reach of the genoa's clew: dots in the picture, and words."""
    made = shown("whimbrel", "winch-p")
    plain = made.canvas.grab().toImage()
    assert made.canvas.drawing.clew is None
    made.canvas.session.choose(frozenset({finding_of(desks["whimbrel"], "clew/hooks", "winch-p").key}))
    assert made.canvas.drawing.clew is not None
    assert made.canvas.grab().toImage() != plain
    assert "Dotted: in reach of Genoa, 140 %, one reef, clew" in made.canvas.accessibleDescription()
    made.canvas.session.draw_sails(drawn=False)
    assert made.canvas.drawing.clew is None
    made.canvas.session.draw_sails(drawn=True)


def test_a_clew_alone_is_a_circle_round_its_tack(desks):
    """Pythagoras: at h above the tack a ball of radius r is as wide as the root of r² - h²."""
    desk = desks["whimbrel"]
    clew = swept_clew(desk.scene, finding_of(desk, "clew/hooks", "winch-p"))
    z_mm = 2850.0
    outline = outline_at(clew, z_mm)
    tack, reach = clew.swept.tack[0], clew.swept.reach_mm[0]
    assert np.linalg.norm(outline - tack[:2], axis=1) == pytest.approx(
        np.sqrt(reach**2 - (z_mm - tack[2]) ** 2)
    )


@pytest.mark.parametrize("z_mm", [900.0, 1400.0, 2400.0])
def test_a_sheets_slice_is_that_of_the_hull(z_mm):
    """By scipy's ConvexHull of many points of the cut ball and of the lead, cut at the height."""
    body = Swept(
        np.array([[4000.0, 0.0, 1000.0]]),
        np.array([4500.0]),
        np.array([800.0]),
        np.array([2600.0]),
        np.array([[-2500.0, 1200.0, 700.0]]),
    )
    levels, turn = np.linspace(800.0, 2600.0, 46), np.linspace(0, 2 * np.pi, 121)[:-1]
    radius = np.sqrt(4500.0**2 - (levels - 1000.0) ** 2)
    ring = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    flat = np.array([4000.0, 0.0]) + radius[:, None, None] * ring
    points = np.concatenate(
        [np.append(flat[i], np.full((len(turn), 1), z), axis=1) for i, z in enumerate(levels)]
    )
    hull = ConvexHull(np.concatenate([points, body.lead]))
    cut = []
    for face in hull.simplices:
        corners = hull.points[face]
        for a, b in ((0, 1), (1, 2), (2, 0)):
            low, high = sorted((corners[a], corners[b]), key=lambda one: one[2])
            if low[2] <= z_mm <= high[2] and high[2] > low[2]:
                cut.append((low + (z_mm - low[2]) / (high[2] - low[2]) * (high - low))[:2])
    wanted = shapely.convex_hull(shapely.multipoints(np.array(cut)))
    found = shapely.Polygon(body.slice_at(z_mm))
    assert shapely.hausdorff_distance(found.exterior, wanted.exterior) < 15.0
    assert found.area == pytest.approx(wanted.area, rel=5e-3)
