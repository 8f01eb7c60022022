"""The section from above against the scene: places to half a pixel, call-outs apart, wheel and keys."""

import itertools
from pathlib import Path

import numpy as np
import pytest
from builders import a_layout, a_mast
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QFontMetricsF, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.ui.look import LABEL, font
from mastlayout.ui.section.panel import SectionPanel
from mastlayout.ui.section.within import drill_line
from mastlayout.ui.session import Session

DEMOS = Path(__file__).parents[3] / "demo_masts"
DEMO = DEMOS / "whimbrel.toml"
HELD = Qt.KeyboardModifier


@pytest.fixture
def panel(session, theme, qtbot):
    """A section at 9000 above the heel, the first box in hand."""
    return shown(session, theme, qtbot, z_mm=9000.0, hand="box-1")


def shown(session, theme, qtbot, *, z_mm, hand="", size=(420, 380)):
    """A section panel on screen."""
    made = SectionPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(*size)
    made.show()
    qtbot.waitExposed(made)
    session.pick(hand)
    session.go_to(z_mm)
    return made


def wheel(widget, notches, held=HELD.NoModifier):
    """Turn the wheel over the middle of a widget."""
    at = QPointF(widget.rect().center())
    event = QWheelEvent(
        at, widget.mapToGlobal(at), QPoint(), QPoint(0, 120 * notches), Qt.MouseButton.NoButton, held,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(widget, event)


def dark_run(image, ratio, start, step, count):
    """Return the middle of the first run of dark pixels, in widget pixels, and how many there are."""
    found = []
    for n in range(count):
        at = start + QPoint(step.x() * n, step.y() * n)
        if image.pixelColor(at).lightness() < 110:
            found.append(n)
        elif found:
            break
    return (sum(found) / len(found) + 0.5) / ratio, len(found)


def test_the_outline_is_painted_where_the_section_is(session, theme, qtbot):
    """200 long and 5 thick: at the aft face, clear of what stands ahead, the wall runs from -100 to -95."""
    made = shown(session, theme, qtbot, z_mm=4000.0)
    canvas = made.canvas
    image, plan = canvas.grab().toImage(), canvas.plan
    # 20 beside the axis, clear of the groove: the ellipse is at -100 sqrt(1 - (20/65)^2) there.
    x, outer = plan.axis_x - 20 * plan.scale, 100 * (1 - (20 / 65) ** 2) ** 0.5
    column = round(x - 0.5)
    start = QPoint(column, round(plan.axis_y + 70 * plan.scale))
    middle, thick = dark_run(image, 1.0, start, QPoint(0, 1), 150)
    assert start.y() + middle == pytest.approx(plan.axis_y + (outer - 2.5) * plan.scale, abs=1.0)
    assert thick == pytest.approx(5 * plan.scale, abs=2.5)


def test_conduits_stand_on_the_ray_of_their_bearing(panel, session):
    """315 is ahead and to port: up and left at 45 degrees, as far off as the scene has it."""
    plan, (crossing,) = panel.canvas.plan, panel.canvas.cut.crossings
    at = plan.at(crossing.ahead_mm, crossing.port_mm)
    leg = session.desk.scene.conduits[0]
    assert plan.axis_x - at.x() == pytest.approx(float(leg.start[0, 1]) * plan.scale, abs=0.5)
    assert plan.axis_y - at.y() == pytest.approx(float(leg.start[0, 0]) * plan.scale, abs=0.5)
    assert plan.axis_x - at.x() == pytest.approx(plan.axis_y - at.y(), abs=0.5)


def test_a_halyard_is_where_its_leg_crosses(qtbot, theme):
    """Half way from sheave to exit it is half way between their places."""
    session = Session(Desk.open(DEMO))
    leg = next(thing for thing in session.desk.scene.halyards if thing.id == "halyard-main")
    half = (leg.start[0] + leg.end[0]) / 2
    made = shown(session, theme, qtbot, z_mm=float(half[2]))
    crossing = next(c for c in made.canvas.cut.crossings if c.id == "halyard-main")
    assert (crossing.ahead_mm, crossing.port_mm) == pytest.approx((half[0], half[1]))
    assert crossing.radius_mm == 6.0


def test_what_stands_there_is_what_reaches_that_height(panel, session):
    """The boxes are 80 high, 84 apart: at 8000 from the masthead the one stands, 50 lower the other."""
    names = {placed.id for placed in panel.canvas.cut.standing}
    assert names == {"box-1"}
    session.go_to(9000.0 - 50.0)
    assert {placed.id for placed in panel.canvas.cut.standing} == {"box-3"}


def test_drills_go_in_at_the_holes_square_to_the_skin(panel, session):
    """Four lines, 50 mm deep from the skin at the scene's points."""
    canvas = panel.canvas
    points = session.desk.scene.placed["box-1"].holes.point[0]
    lines = [drill_line(drill, canvas.plan) for drill in canvas.cut.drills]
    assert len(lines) == 4
    for (_out, skin, deep), (x, y, _z) in zip(lines, points, strict=True):
        assert skin.x() == pytest.approx(canvas.plan.axis_x - y * canvas.plan.scale, abs=0.5)
        assert skin.y() == pytest.approx(canvas.plan.axis_y - x * canvas.plan.scale, abs=0.5)
        into = deep - skin
        assert (into.x() ** 2 + into.y() ** 2) ** 0.5 == pytest.approx(50 * canvas.plan.scale, abs=0.5)
        assert into.y() > 0


def test_true_aspect_and_all_of_it_fits(panel):
    """A box 100 wide and 120 off the skin of a section 200 by 130: 130 across and 320 along, all inside."""
    canvas = panel.canvas
    front, aft = canvas.plan.at(220.0, 0.0), canvas.plan.at(-100.0, 0.0)
    side = canvas.plan.at(0.0, -65.0)
    assert aft.y() - front.y() == pytest.approx(320 * canvas.plan.scale)
    assert side.x() - front.x() == pytest.approx(65 * canvas.plan.scale)
    assert canvas.rect().contains(front.toPoint())
    assert canvas.rect().contains(aft.toPoint())


def test_an_unknown_wall_is_said(qtbot, theme, session):
    """No reading within 500: the word stands at the section, and no thickness."""
    far = Session(Desk(a_layout(mast=a_mast(walls=()))))
    made = shown(far, theme, qtbot, z_mm=9000.0)
    words = {row.callout.words for row in made.canvas.rows}
    assert "wall not known" in words
    assert "groove\u00a05.0" in words


def test_a_run_without_bearing_is_said_in_words(qtbot, theme):
    """Nobody knows where conduit B lies between the spreaders; below it lies at 45 degrees."""
    session = Session(Desk.open(DEMO))
    made = shown(session, theme, qtbot, z_mm=17300.0 - 9685.0)
    assert "Conduit B" in made.canvas.cut.lost
    assert "Conduit B" in made.canvas.accessibleDescription().partition("place not known")[2]
    session.go_to(17300.0 - 14450.0)
    assert "Conduit B" not in made.canvas.cut.lost
    assert "Conduit B" in {crossing.name for crossing in made.canvas.cut.crossings}


def stand_apart(canvas):
    """Say whether words are apart, off the drawing, whole inside, and no leader of a side crosses another."""
    boxes = [row.box for row in canvas.rows]
    blocks = canvas._blocks(canvas.drawing, canvas.area())
    assert not any(a.intersects(b) for a, b in itertools.combinations(boxes, 2))
    hair = 0.001  # a row may stand right at a body: sums of floats differ by less
    inside = [box.adjusted(hair, hair, -hair, -hair) for box in boxes]
    assert not any(a.intersects(b) for a in inside for b in blocks)
    assert all(canvas.area().adjusted(-0.5, -0.5, 0.5, 0.5).contains(box) for box in boxes)
    for row in canvas.rows:
        wide = QFontMetricsF(font(LABEL, bold=row.callout.bold)).horizontalAdvance
        assert all(wide(line) <= row.box.width() for line in row.lines)
        assert "".join(row.lines).replace(" ", "") == row.callout.words.replace(" ", "") or "…" in row.lines
    for side in (True, False):
        rows = sorted((row for row in canvas.rows if row.left is side), key=lambda row: row.box.top())
        anchors = [row.callout.anchor.y() for row in rows]
        assert anchors == sorted(anchors)


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_call_outs_never_overlap(qtbot, theme, demo, units):
    """At every fitting of every demo mast, narrow and wide, with a finding of it looked at."""
    session = Session(Desk.open(DEMOS / f"{demo}.toml"))
    session.write_in(units)
    made = shown(session, theme, qtbot, z_mm=8000.0)
    for size in ((290, 300), (312, 330), (512, 300), (700, 560)):
        made.resize(*size)
        for name in session.desk.scene.placed:
            session.pick(name)
            about = [f.key for f in session.desk.report.open if name in f.things]
            session.choose(frozenset(about[:1]))
            stand_apart(made.canvas)


@pytest.mark.parametrize(
    ("held", "step"), [(HELD.NoModifier, 10.0), (HELD.ShiftModifier, 100.0), (HELD.AltModifier, 1.0)]
)
def test_wheel_and_keys_move_the_height(panel, session, held, step):
    """By ten, with Shift a hundred, with Alt one; up is towards the masthead. Nothing is in hand."""
    session.pick("")
    wheel(panel.canvas, 1, held)
    assert session.z_mm == 9000.0 + step
    panel.canvas.setFocus()
    QTest.keyClick(panel.canvas, Qt.Key.Key_Down, held)
    assert session.z_mm == 9000.0
    assert session.undo.count() == 0


def test_the_height_stays_on_the_mast(panel, session):
    """Below the heel there is nothing to cut."""
    session.go_to(30.0)
    wheel(panel.canvas, -1, HELD.ShiftModifier)
    assert session.z_mm == 0.0


def test_it_is_taken_anew_only_where_something_there_changed(panel, session):
    """A far fitting that moves leaves it as it was; one at that height does not."""
    before = panel.canvas.content
    session.edit(change(session.layout, "box-2", from_masthead_mm=12000.0), "Move Hailer")
    assert panel.canvas.content is before
    session.edit(change(session.layout, "box-1", girth="bearing 90"), "Turn box-1")
    assert panel.canvas.content is not before


def test_the_height_stands_in_the_head(panel, session):
    """In thin-spaced millimetres, or feet and inches: 8000 mm are 26 ft 2 15/16 in."""
    assert panel.aside.text() == "at 8\u2009000"
    session.write_in("inches")
    assert panel.aside.text() == "at 26-2 15/16"


def test_it_is_described_in_words(panel):
    """Height, wall, what runs inside, and what is in hand."""
    said = panel.canvas.accessibleDescription()
    for words in (
        "8\u2009000 from the masthead",
        "Wall\u00a05.0",
        "Conduit A, 30 across, bearing 315",
        "box-1, in hand",
    ):
        assert words in said


def test_a_pixel_knows_what_it_shows(panel, session):
    """The box in hand 120 off the skin, the conduit where its leg is, words, and nothing beside them."""
    canvas = panel.canvas
    assert canvas.thing_at(canvas.plan.at(160.0, 0.0)) == "box-1"
    leg = session.desk.scene.conduits[0]
    assert canvas.thing_at(canvas.plan.at(float(leg.start[0, 0]), float(leg.start[0, 1]))) == "pipe"
    words = next(row for row in canvas.rows if row.callout.id == "pipe")
    assert canvas.thing_at(words.box.center()) == "pipe"
    assert canvas.thing_at(canvas.plan.at(-10.0, 0.0)) == ""


def test_a_drill_that_passes_too_near_says_by_how_much(qtbot, theme):
    """Sanderling's hailer: 2.5 to conduit A, as worked out by hand; both sides say so."""
    session = Session(Desk.open(DEMOS / "sanderling.toml"))
    made = shown(session, theme, qtbot, z_mm=4315.0, hand="hailer-1", size=(500, 400))
    assert [drill.worst.standing for drill in made.canvas.cut.drills if drill.use == "hole"] == [
        "caution"
    ] * 4
    words = sorted(row.callout.words for row in made.canvas.rows if row.callout.role == "caution")
    assert words == ["12.1, 12.3: drill 2.5 from Conduit A", "12.2, 12.4: drill 2.5 from Conduit A"]


def test_the_worst_place_of_what_is_looked_at_is_painted(qtbot, theme):
    """The ring stands on the drill's edge, its line ends on the conduit: 2.5 at the picture's scale."""
    session = Session(Desk.open(DEMOS / "sanderling.toml"))
    made = shown(session, theme, qtbot, z_mm=4315.0, hand="hailer-1", size=(500, 400))
    finding = next(f for f in session.desk.report.open if f.subjects == ("hailer-1/h2", "conduit-a"))
    session.choose(frozenset({finding.key}))
    canvas = made.canvas
    at, other = (canvas.plan.at(*place[:2]) for place in (canvas.cut.worst.at, canvas.cut.worst.other))
    leg = session.desk.scene.conduits[0]
    middle = canvas.plan.at(float(leg.start[0, 0]), float(leg.start[0, 1]))
    apart = other - middle
    assert (apart.x() ** 2 + apart.y() ** 2) ** 0.5 == pytest.approx(22 * canvas.plan.scale, abs=0.5)
    gap = other - at
    assert (gap.x() ** 2 + gap.y() ** 2) ** 0.5 == pytest.approx(2.5 * canvas.plan.scale, abs=0.5)
    assert canvas.grab().toImage().pixelColor(at.toPoint()) == theme.colours["caution"]
    assert "2.5" in {row.callout.value for row in canvas.rows}


def test_a_stay_passes_where_its_wire_is(panel, session):
    """Between its pins the forestay is on the straight line: at 16000, right ahead and near the skin."""
    session.go_to(16000.0)
    (stay,) = panel.canvas.cut.stays
    top, low = session.desk.scene.stays["forestay"].points
    part = (top[2] - 16000.0) / (top[2] - low[2])
    assert stay.ahead_mm == pytest.approx(top[0] + part * (low[0] - top[0]))
    assert stay.port_mm == pytest.approx(0.0, abs=1e-6)
    assert stay.radius_mm == 5.0


@pytest.mark.parametrize(
    ("hand", "said"), [("", "Nothing in hand"), ("flood-p", "is on Lower spreader, P, not on the mast")]
)
def test_what_cannot_be_shown_is_said(qtbot, theme, hand, said):
    """With nothing in hand what to do, with a thing on a spreader where it is."""
    session = Session(Desk.open(DEMO))
    made = shown(session, theme, qtbot, z_mm=9000.0, hand=hand)
    assert said in made.canvas.accessibleDescription()
    assert said.split()[0] in " ".join(words for words, _role in made.canvas._notes)


@pytest.mark.parametrize("section", ["rounded box", "d", "points", "taper"])
def test_every_shape_of_section_is_painted_as_wide_as_it_is(qtbot, theme, section):
    """From side to side through the axis: the outer edges of the wall are as far apart as the scene says."""
    box = {"length_mm": 200.0, "width_mm": 130.0}
    corners = [(100, 0), (80, 50), (0, 65), (-80, 50), (-100, 0), (-80, -50), (0, -65), (80, -50)]
    shape = {
        "rounded box": {"section": {"shape": "rounded box", "corner_radius_mm": 40.0, **box}},
        "d": {"section": {"shape": "d", "side_mm": 120.0, **box}},
        "points": {"section": {"shape": "points", "points": corners}},
        "taper": {"taper": {"from_masthead_mm": 17000.0, "length_mm": 100.0, "width_mm": 65.0}},
    }[section]
    made = shown(Session(Desk(a_layout(mast=a_mast(**shape)))), theme, qtbot, z_mm=4000.0)
    canvas = made.canvas
    plan, image = canvas.plan, canvas.grab().toImage()
    ring = canvas.cut.ring
    # Below the axis, clear of the leader of the wall's words.
    row = round(plan.axis_y) + 9
    width = float(np.interp((plan.axis_y - row - 0.5) / plan.scale, ring.x, ring.y))
    reach = round((width + 12) * plan.scale)
    for way in (1, -1):
        start = QPoint(round(plan.axis_x) + way * reach, row)
        dark = [n for n in range(reach) if image.pixelColor(start.x() - way * n, row).lightness() < 128]
        edge = start.x() - way * dark[0] + (1 if way > 0 else 0)
        assert abs(edge - plan.axis_x) == pytest.approx(width * plan.scale, abs=1.0)
