"""The unrolled skin against the scene: holes, edges and bands to half a pixel, words apart."""

import itertools
import math
from pathlib import Path

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.model.fitting import HoleBuilt
from mastlayout.ui.session import Session
from mastlayout.ui.skin.panel import SkinPanel
from mastlayout.ui.skin.patch import tangent_girths

DEMO = Path(__file__).parents[3] / "demo_masts" / "whimbrel.toml"
HALF_TRACK = 2.5


def shown(session, theme, qtbot, *, hand="", size=(400, 360)):
    """A skin panel on screen with a thing in hand."""
    made = SkinPanel(session, theme)
    qtbot.addWidget(made)
    made.resize(*size)
    made.show()
    qtbot.waitExposed(made)
    session.pick(hand)
    return made


@pytest.fixture
def panel(session, theme, qtbot):
    """The skin with the first box in hand: ahead, 9000 above the heel."""
    return shown(session, theme, qtbot, hand="box-1")


def centroid(image, box, colour):
    """Return the middle of the pixels of a colour in a box of pixels, in pixel edges' count."""
    found = [
        (x + 0.5, y + 0.5)
        for x in range(box[0], box[2])
        for y in range(box[1], box[3])
        if all(
            abs(a - b) < 60
            for a, b in zip(image.pixelColor(QPoint(x, y)).getRgb()[:3], colour.getRgb()[:3], strict=True)
        )
    ]
    assert found
    return np.mean(found, axis=0)


def test_holes_are_painted_where_they_go(panel, theme):
    """30 and 15 off the foot's middle: hole 1 up and to starboard, left as seen from outside."""
    canvas = panel.canvas
    made, image = canvas.development, canvas.grab().toImage()
    middle = made.area.center().x()
    own = {mark.opening.number: mark for mark in canvas.holes if mark.placed.id == "box-1"}
    for number, across, along in ((1, -30, 15), (2, 30, 15), (3, -30, -15), (4, 30, -15)):
        x, y = middle + across * made.scale, made.area.center().y() - along * made.scale
        assert own[number].centre.x() == pytest.approx(x, abs=0.5)
        assert own[number].centre.y() == pytest.approx(y, abs=0.5)
        box = (round(x) - 11, round(y) - 11, round(x) + 11, round(y) + 11)
        painted = centroid(image, box, theme.colours["accent"])
        assert painted == pytest.approx((x, y), abs=0.75), number


def test_a_tap_drill_is_a_true_circle(panel):
    """M6 is tapped from 5.0; at no scale under 5 px across."""
    canvas = panel.canvas
    scale = canvas.development.scale
    assert all(mark.radius == pytest.approx(max(5.0 * scale, 5.0) / 2, abs=0.01) for mark in canvas.holes)


def test_the_tracks_edges_are_painted_where_they_are(session, theme, qtbot):
    """On a wide panel the whole girth shows: each edge half the slot, 2.5, from the end."""
    made = shown(session, theme, qtbot, hand="box-1", size=(820, 420))
    development, image = made.canvas.development, made.canvas.grab().toImage()
    half = session.desk.scene.skin.full.half_girth_mm
    row = round(development.area.bottom()) - 12
    for sign in (-1, 1):
        x = development.area.center().x() + sign * (half - HALF_TRACK) * development.scale
        assert development.x_px(sign * (half - HALF_TRACK)) == pytest.approx(x, abs=0.5)
        box = (round(x) - 3, row, round(x) + 4, row + 1)
        assert centroid(image, box, theme.colours["ink"])[0] == pytest.approx(x, abs=1.0)


@pytest.mark.parametrize(("width", "whole"), [(400, False), (694, False), (760, True)])
def test_the_whole_girth_shows_from_700_px(session, theme, qtbot, width, whole):
    """Below, both track edges stand at the sides and what is between is cut out by break lines."""
    panel = shown(session, theme, qtbot, hand="box-1", size=(width, 500))
    made = panel.canvas.development
    half = session.desk.scene.skin.full.half_girth_mm
    assert made.whole is whole
    assert len(made.breaks) == (0 if whole else 2)
    assert made.x_px(half - HALF_TRACK) is not None
    assert made.x_px(-half + HALF_TRACK) is not None
    if width == 400:
        assert made.x_px(half - 60) is None
        assert made.x_px(128.0) is not None
        assert made.x_px(-128.0) is not None


def test_starboard_stands_left_of_the_forward_line(panel, session):
    """Seen from ahead, starboard is on the watcher's left; abaft the beam port is."""
    made = panel.canvas.development
    half = session.desk.scene.skin.full.half_girth_mm
    assert made.middle == "forward"
    assert made.x_px(made.offset_mm(half - 50)) < made.area.center().x()  # a girth to starboard
    session.edit(change(session.layout, "box-1", girth="aft"), "Turn box-1")
    made = panel.canvas.development
    assert made.middle == "aft"
    assert made.x_px(made.offset_mm(50)) > made.area.center().x()


def test_dimension_lines_read_as_two_tapes_do(theme, qtbot, qapp):
    """30 from the forward line, the rest from the track's edge, both sides alike, both rows."""
    session = Session(Desk(a_layout()))
    panel = shown(session, theme, qtbot, hand="box-1")
    half = session.desk.scene.skin.full.half_girth_mm
    rest = (round(half * 2) - round(HALF_TRACK * 2)) / 2 - 30
    read = [line.words for line in panel.canvas.dimensions]
    assert sorted(read) == sorted(["30", f"{rest:g}"] * 4)
    xs = {mark.centre.x() for mark in panel.canvas.holes if mark.placed.id == "box-1"}
    assert {line.start.x() for line in panel.canvas.dimensions} == xs


def test_a_band_spans_the_rays_that_touch_the_conduit(session):
    """The two girths are the least and the most of the rays through points all round the circle."""
    ring = session.desk.scene.skin.full
    centre, radius = (40.0, 25.0), 15.0
    turn = np.radians(np.arange(0, 360, 0.25))
    seen = [
        ring.girth_at_bearing(math.degrees(math.atan2(-(centre[1] + radius * s), centre[0] + radius * c)))
        for c, s in zip(np.cos(turn), np.sin(turn), strict=True)
    ]
    assert tangent_girths(ring, centre, radius) == pytest.approx((min(seen), max(seen)), abs=0.1)


def test_a_band_over_the_forward_line_is_one_piece(session):
    """Right ahead the second girth runs on past half the girth."""
    ring = session.desk.scene.skin.full
    first, second = tangent_girths(ring, (50.0, 0.0), 15.0)
    assert (first + second) / 2 == pytest.approx(ring.half_girth_mm)
    assert 0 < second - first < ring.half_girth_mm


def test_an_unconfirmed_foot_asks_for_the_part(theme, qtbot, qapp):
    """New and typical: the words stand at the foot."""
    session = Session(Desk(a_layout(fittings=(a_fitting(tag=7, name="Horn", in_hand=None),))))
    made = shown(session, theme, qtbot, hand="box-1")
    canvas = made.canvas
    assert "7 Horn, typical: offer up the part" in [tag.words for tag in canvas.tags]


def test_a_cable_entry_has_its_own_words(theme, qtbot, qapp):
    """It is numbered after the holes."""
    foot = a_foot(entry={"across_mm": 0.0, "along_mm": -50.0, "diameter_mm": 10.0})
    session = Session(Desk(a_layout(fittings=(a_fitting(tag=7, in_hand=foot),))))
    made = shown(session, theme, qtbot, hand="box-1")
    canvas = made.canvas
    assert "7.5 cable" in [tag.words for tag in canvas.tags]


def test_what_is_drilled_is_filled_and_its_plan_stands_beside_it(theme, qtbot, qapp):
    """Hole 1 measured 6 below its plan, hole 2 ticked as drilled, 3 and 4 to be made."""
    built = HoleBuilt(number=1, from_masthead_mm=7991.0, girth="30 to starboard of ahead", by="Jo",
                      day="2026-11-26")  # fmt: skip
    fitting = a_fitting(tag=7, holes_built=(built,), done=("h2 drilled",))
    session = Session(Desk(a_layout(fittings=(fitting,))))
    panel = shown(session, theme, qtbot, hand="box-1", size=(700, 500))
    canvas = panel.canvas
    own = {mark.opening.number: mark for mark in canvas.holes}
    assert [own[n].made for n in (1, 2, 3, 4)] == [True, True, False, False]
    assert own[2].planned is None
    assert own[1].planned.y() == pytest.approx(own[1].centre.y() - 6.0 * canvas.development.scale, abs=0.5)
    image = canvas.grab().toImage()
    hole, ground = (theme.colours[role].getRgb()[:3] for role in ("hole", "ground"))
    for number, colour in ((1, hole), (3, ground)):
        at = own[number].centre + QPointF(1.5, 1.5)  # beside the cross hairs
        assert image.pixelColor(at.toPoint()).getRgb()[:3] == pytest.approx(colour, abs=60)
    assert {"7.1 drilled", "7.2 drilled", "7.3", "7.4"} <= {tag.words for tag in canvas.tags}


def test_a_tag_never_stands_on_the_other_side_of_its_foot(theme, qtbot, qapp):
    """Where there is no room on its own side for all of it, the tag alone stands there."""
    fitting = a_fitting(tag=7, done=tuple(f"h{n} drilled" for n in (1, 2, 3, 4)))
    for size in ((290, 280), (374, 330), (900, 700)):
        session = Session(Desk(a_layout(fittings=(fitting,))))
        panel = shown(session, theme, qtbot, hand="box-1", size=size)
        canvas = panel.canvas
        for tag in canvas.tags:
            number = tag.words.split()[0]
            mark = next((m for m in canvas.holes if m.tag == number), None)
            middle = canvas.development.area.center().x()
            assert mark is None or (tag.box.center().x() > middle) == (mark.centre.x() > middle)


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
@pytest.mark.parametrize("size", [(290, 280), (374, 330), (512, 300), (900, 700)])
def test_words_never_overlap(theme, qtbot, size, demo, units, qapp):
    """At every fitting of every demo mast tags, names, values and figures stand apart and off every hole."""
    session = Session(Desk.open(DEMO.with_name(f"{demo}.toml")))
    session.write_in(units)
    made = shown(session, theme, qtbot, size=size)
    canvas = made.canvas
    for name in session.desk.scene.placed:
        session.pick(name)
        boxes = [tag.box for tag in canvas.tags] + [line.box for line in canvas.found if line.box]
        assert not any(a.intersects(b) for a, b in itertools.combinations(boxes, 2)), name
        assert not any(box.intersects(line.box) for box in boxes for line in canvas.dimensions), name
        assert not any(box.intersects(mark.reach) for box in boxes for mark in canvas.holes), name
        assert all(canvas.rect().toRectF().contains(box) for box in boxes), name


def test_it_is_taken_anew_only_where_something_there_changed(panel, session):
    """A fitting that moves out of sight leaves it as it was; one that shows does not."""
    session.edit(change(session.layout, "box-2", from_masthead_mm=12000.0), "Move Hailer")
    before = panel.canvas.content
    session.edit(change(session.layout, "box-2", from_masthead_mm=12500.0), "Move Hailer")
    assert panel.canvas.content is before
    session.edit(change(session.layout, "box-3", from_masthead_mm=8090.0), "Move Horn")
    assert panel.canvas.content is not before


def test_keys_move_the_height(panel, session):
    """Up by ten, and the thread with it."""
    panel.canvas.setFocus()
    QTest.keyClick(panel.canvas, Qt.Key.Key_Up)
    assert session.z_mm == 9010.0
    assert panel.canvas.development.centre_z_mm == 9010.0


def test_it_is_described_in_words(panel):
    """Feet, holes in hand with both readings, and what lies behind."""
    said = panel.canvas.accessibleDescription()
    for words in ("1 box-1", "Hole 1.1: 30.0 from the line", "starboard", "Conduit A behind"):
        assert words in said


def test_inches_are_written_in_inches(panel, session):
    """30 mm are 1 3/16 in to the thirty-second."""
    session.write_in("inches")
    assert "1 3/16" in [line.words for line in panel.canvas.dimensions]


def test_nothing_is_painted_above_the_masthead(panel, session, theme):
    """There the ground shows, and the mast right below."""
    session.pick("")
    session.go_to(17000.0)
    made, image = panel.canvas.development, panel.canvas.grab().toImage()
    x, y = round(made.area.center().x()) - 40, made.y_px(17000.0)
    assert image.pixelColor(x, round(y) - 8) == theme.colours["ground"]
    assert image.pixelColor(x, round(y) + 8) == theme.colours["mast"]


def test_a_pixel_knows_what_it_shows(panel, session):
    """A foot, a hole of it, the conduit behind, and nothing on bare skin."""
    canvas = panel.canvas
    made = canvas.development
    middle = made.area.center()
    assert canvas.thing_at(middle + QPointF(10 * made.scale, 5 * made.scale)) == "box-1"
    assert canvas.thing_at(middle + QPointF(-30 * made.scale, 15 * made.scale)) == "box-1"
    (band,) = canvas.patch.bands
    high, one, other = band.top
    assert canvas.thing_at(made.at((one + other) / 2, high - 2 / made.scale)) == "pipe"
    assert canvas.thing_at(middle + QPointF(-110 * made.scale, -20 * made.scale)) == ""


def test_only_the_centre_of_a_typical_foot_is_measured(theme, qtbot, qapp):
    """Nobody has held the part: one place with its two dimensions, and no tag beside a hole."""
    session = Session(
        Desk(a_layout(fittings=(a_fitting(tag=7, name="Horn", in_hand=None, girth="bearing 20"),)))
    )
    panel = shown(session, theme, qtbot, hand="box-1")
    canvas = panel.canvas
    placed, made = session.desk.scene.placed["box-1"], canvas.development
    assert canvas.centre.x() == pytest.approx(
        made.x_px(made.offset_mm(float(placed.places.around[0]))), abs=0.5
    )
    assert {line.start.x() for line in canvas.dimensions} == {canvas.centre.x()}
    assert not any(tag.words.startswith("7.") for tag in canvas.tags)


def test_feet_are_painted_corner_to_corner(panel):
    """110 by 60 round the middle: the accent outline stands on all four sides."""
    canvas = panel.canvas
    made, image = canvas.development, canvas.grab().toImage()
    middle, accent = made.area.center(), canvas.theme.colours["accent"]
    for across, along in ((55, 8), (-55, 8), (10, 30), (10, -30)):
        x, y = middle.x() + across * made.scale, middle.y() - along * made.scale
        wide, tall = (4, 1) if abs(across) == 55 else (1, 4)
        box = (round(x) - wide, round(y) - tall, round(x) + wide, round(y) + tall)
        found = centroid(image, box, accent)
        where = found[0] - x if abs(across) == 55 else found[1] - y
        assert abs(where) <= 1.0


def test_a_halyard_behind_lies_where_its_leg_is(theme, qtbot, qapp):
    """At the height in hand the band's middle is on the ray through the leg, to half a pixel."""
    session = Session(Desk.open(DEMO))
    panel = shown(session, theme, qtbot, hand="cleat-upper-s")
    canvas = panel.canvas
    leg = next(thing for thing in session.desk.scene.halyards if thing.id == "halyard-main")
    x, y, z = leg.start[0] + 0.9 * (leg.end[0] - leg.start[0])
    session.go_to(float(z))
    band = next(band for band in canvas.patch.bands if band.id == leg.id)
    ring, made = session.desk.scene.skin.ring(session.z_mm), canvas.development
    ray = ring.girth_at_bearing(math.degrees(math.atan2(-y, x)))
    one, other = band.at(session.z_mm)
    full = 2 * ring.half_girth_mm
    low, high = one % full, one % full + (other - one)
    assert low - 0.5 / made.scale <= ray % full <= high + 0.5 / made.scale


def test_findings_of_what_is_in_hand_are_drawn(theme, qtbot, qapp):
    """Two holes 10 apart: the line runs from hole to hole, its figure is 10.0 in the finding's colour."""
    near = [{"across_mm": float(a), "along_mm": 0.0, "fastener": "M6 tapped"} for a in (-5, 5)]
    foot = a_foot(holes=near)
    session = Session(Desk(a_layout(fittings=(a_fitting(tag=7, in_hand=foot),))))
    panel = shown(session, theme, qtbot, hand="box-1")
    canvas = panel.canvas
    (line,) = canvas.found
    middle, scale = canvas.development.area.center(), canvas.development.scale
    assert sorted((line.start.x(), line.end.x())) == pytest.approx(
        [middle.x() - 5 * scale, middle.x() + 5 * scale], abs=0.5
    )
    assert line.words == "10.0"
    assert line.role == "fault"  # 3 d of an M6's tap drill is 15


def test_a_foot_alone_fills_the_picture(panel, qtbot):
    """The button shows it at a larger scale, round its own middle, and gives the girth back."""
    canvas = panel.canvas
    before = canvas.development.scale
    QTest.mouseClick(panel.close_button, Qt.MouseButton.LeftButton)
    made = canvas.development
    assert made.scale > 1.5 * before
    assert made.at(float(canvas.patch.hand.places.around[0]), 9000.0) == made.area.center()
    assert made.breaks == ()
    QTest.mouseClick(panel.close_button, Qt.MouseButton.LeftButton)
    assert canvas.development.scale == before
