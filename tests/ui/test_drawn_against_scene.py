"""What the window draws over each demo mast, held against its scene to half a pixel.

The places expected are worked out here, from the scene's own solids and readings and from what the
view says of itself (its middle and its scale), never by asking the view where it put a thing.
"""

import itertools

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, QRectF
from window_builder import a_window

from mastlayout.model.adding import add_old_hole
from mastlayout.model.around import Around
from mastlayout.resources import demo_masts
from mastlayout.ui.strip.rows import THING

HALF_PX = 0.5
# To the right and up, as each view has them, in the mast frame: x forward, y to port, z up.
RIGHT = {"starboard": (1.0, 0.0), "port": (-1.0, 0.0), "ahead": (0.0, 1.0)}
BEARINGS = (0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0)
DEMOS = ("sanderling", "turnstone", "whimbrel")


@pytest.fixture(params=DEMOS)
def window(request, qtbot, tmp_path):
    """A window of 1920 by 1080 on a demo mast."""
    made = a_window(qtbot, tmp_path)
    path = tmp_path / f"{request.param}.toml"
    path.write_bytes((demo_masts() / path.name).read_bytes())
    made.files.open(path)
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    return made


def reach(solids, direction):
    """How far solids reach in a direction and against it, mm."""
    way = np.array(direction)
    return -float(solids.support(-way).max()), float(solids.support(way).max())


def row_of(span, z_mm):
    """The pixel row of a height: the span's middle is its own, and up is less."""
    return span.height_px / 2 - (z_mm - span.centre_z_mm) * span.scale


def shown_spans(canvas):
    """The span as it is, and at three other scales and heights."""
    yield canvas.span
    length = canvas.session.desk.scene.skin.length_mm
    for factor, part in ((3.0, 0.9), (0.5, 0.4), (0.2, 0.5)):
        span = canvas.span.zoomed(factor, 300.0)
        canvas.show_span(type(span)(**(vars(span) | {"centre_z_mm": part * length})))
        yield canvas.span


@pytest.mark.parametrize("view", RIGHT)
def test_fittings_are_drawn_where_their_solids_are(window, view):
    """The painted paths, as Qt maps them to the viewport, end where the solids do, at four scales."""
    window.session.look_from(view)
    canvas, scene = window.arrangement.panels.elevation.canvas, window.session.desk.scene
    for span in shown_spans(canvas):
        axis_px = span.room_px * span.axis_at
        for name, placed in scene.placed.items():
            if not len(placed.solids):
                continue
            item, drawn = canvas._fittings[name], QRectF()
            for path, _part in item.outline.parts:
                seen = item.deviceTransform(canvas.viewportTransform()).map(path)
                drawn = drawn.united(seen.boundingRect())
            left, right = reach(placed.solids, (*RIGHT[view], 0.0))
            low, high = reach(placed.solids, (0.0, 0.0, 1.0))
            found = drawn.left(), drawn.right(), drawn.top(), drawn.bottom()
            wanted = (
                axis_px + left * span.scale, axis_px + right * span.scale,
                row_of(span, high), row_of(span, low),
            )  # fmt: skip
            assert found == pytest.approx(wanted, abs=HALF_PX), (name, span.scale)


@pytest.mark.parametrize("view", RIGHT)
def test_old_holes_are_drawn_where_the_skin_has_them(window, view):
    """One at each of eight bearings, as Qt maps it to the viewport; those on the far side are behind."""
    session = window.session
    for bearing in BEARINGS:
        around = Around(origin="bearing", offset=bearing)
        session.edit(add_old_hole(session.layout, 2000.0 + bearing, around, 8.0)[0], "Add an old hole")
    session.look_from(view)
    canvas, skin = window.arrangement.panels.elevation.canvas, session.desk.scene.skin
    away = {"starboard": 270.0, "port": 90.0, "ahead": 180.0}[view]
    seen = {one.id: one for one in canvas._old_holes.seen}
    assert len(seen) == len(session.layout.holes) >= len(BEARINGS)
    for span in shown_spans(canvas):
        to_px = canvas._old_holes.deviceTransform(canvas.viewportTransform())
        for hole in session.layout.holes:
            z = skin.length_mm - hole.from_masthead_mm
            point = skin.at(np.array([z]), np.array([skin.girth_of(hole.girth, z)]))[0][0]
            at = to_px.map(QPointF(*seen[hole.id].at))
            right = float(point[:2] @ np.array(RIGHT[view]))
            assert at.x() == pytest.approx(span.room_px * span.axis_at + right * span.scale, abs=HALF_PX)
            assert at.y() == pytest.approx(row_of(span, z), abs=HALF_PX)
            # Which side the skin turns to near its edge depends on the section; further off it does not.
            off = abs((hole.girth.offset - away + 180.0) % 360.0 - 180.0)
            if hole.girth.origin == "bearing" and abs(off - 90.0) >= 45.0:
                assert seen[hole.id].behind == (off < 90.0), hole


@pytest.mark.parametrize("view", RIGHT)
def test_leaders_begin_at_the_right_hand_edge_of_their_fitting(window, view):
    """Its column is the edge's; its row lies within the body; that in hand is the thread's."""
    window.session.look_from(view)
    canvas, scene = window.arrangement.panels.elevation.canvas, window.session.desk.scene
    hand = next(p.id for p in scene.placed.values() if p.skin is not None and len(p.solids))
    window.session.pick(hand)
    labelled = 0
    for span in shown_spans(canvas):
        axis_px = span.room_px * span.axis_at
        for label in (placed.label for placed in canvas.labels):
            placed = scene.placed[label.id]
            if label.in_hand:
                assert label.anchor_y == pytest.approx(row_of(span, placed.z_mm), abs=HALF_PX)
            elif len(placed.solids):
                foot = float(placed.seats.origin[0] @ (*RIGHT[view], 0.0))
                right = max(reach(placed.solids, (*RIGHT[view], 0.0))[1], foot)
                low, high = reach(placed.solids, (0.0, 0.0, 1.0))
                assert label.anchor_x == pytest.approx(axis_px + right * span.scale, abs=HALF_PX)
                low, high = min(low, placed.z_mm), max(high, placed.z_mm)
                assert row_of(span, high) - HALF_PX <= label.anchor_y <= row_of(span, low) + HALF_PX
            labelled += 1
    assert labelled > 10


@pytest.mark.parametrize("units", ["metric", "inches"])
def test_marks_of_the_tape_stand_at_their_heights(window, units):
    """Both edges, at four scales, in the rows of the canvas beside it; a whole step apart."""
    window.session.write_in(units)
    panel = window.arrangement.panels.elevation
    length = window.session.desk.scene.skin.length_mm
    lower = panel.tape.mapTo(window, QPoint()).y() - panel.canvas.viewport().mapTo(window, QPoint()).y()
    mm = {"metric": 1.0, "inches": 25.4}[units]
    part = {"metric": 1.0, "inches": panel.tape.ladder.mm / 25.4}[units]
    for span in shown_spans(panel.canvas):
        for from_heel in (False, True):
            marks = list(panel.tape.marks(from_heel=from_heel))
            assert marks
            for y, read in marks:
                mark_mm = read * mm * part
                z = mark_mm if from_heel else length - mark_mm
                assert y + lower == pytest.approx(row_of(span, z), abs=HALF_PX)


def test_hairlines_join_every_row_to_its_height(window, qtbot):
    """Row middles on one side; on the other heights on a straight scale between masthead and heel."""
    strip, scene = window.arrangement.panels.strip, window.session.desk.scene
    view = strip.list.view
    # At the very end stand the rig and the sails, which have no height.
    for scrolled in (0, view.verticalScrollBar().maximum() // 3):
        view.verticalScrollBar().setValue(scrolled)
        lines = {line.thing.id: line for line in strip.hairlines.lines()}
        assert len(lines) > 5
        tops = [w.mapTo(window, QPoint()).y() for w in (strip.hairlines, strip.rig, view.viewport())]
        top, foot = strip.rig.scale.y_px(scene.skin.length_mm), strip.rig.scale.y_px(0.0)
        for row in range(view.model().rowCount()):
            index = view.model().index(row, 0)
            thing, box = index.data(THING), view.visualRect(index)
            if thing.id not in lines:
                continue
            part = thing.z_mm / scene.skin.length_mm
            assert lines[thing.id].row_y + tops[0] == pytest.approx(
                tops[2] + box.top() + box.height() / 2, abs=HALF_PX
            )
            assert lines[thing.id].strip_y + tops[0] == pytest.approx(
                tops[1] + foot + part * (top - foot), abs=HALF_PX
            )


@pytest.mark.parametrize("view", RIGHT)
def test_the_strip_draws_fittings_where_their_solids_are(window, view):
    """Whole outlines on the strip's scale, which is as long up as to the right."""
    window.session.look_from(view)
    rig, scene = window.arrangement.panels.strip.rig, window.session.desk.scene
    to_px = rig.scale.transform
    px = rig.scale.px_per_mm
    for name, placed in scene.placed.items():
        if not len(placed.solids):
            continue
        drawn = QRectF()
        for path, _part in rig.picture.fittings[name].parts:
            drawn = drawn.united(to_px.map(path).boundingRect())
        left, right = reach(placed.solids, (*RIGHT[view], 0.0))
        low, high = reach(placed.solids, (0.0, 0.0, 1.0))
        masthead = rig.scale.y_px(scene.skin.length_mm)
        rows = [masthead + (scene.skin.length_mm - z) * px for z in (high, low)]
        columns = [rig.width() / 2 + side * px for side in (left, right)]
        found = [drawn.top(), drawn.bottom(), drawn.left(), drawn.right()]
        assert found == pytest.approx([*rows, *columns], abs=HALF_PX), name


def test_holes_lie_on_the_skin_as_they_are_developed(window):
    """Of every fitting in turn: heights from the middle row, girths from one another, centres inside."""
    canvas, scene = window.arrangement.panels.skin.canvas, window.session.desk.scene
    seen = 0
    for name, placed in scene.placed.items():
        if placed.holes is None or placed.skin is None:
            continue
        window.session.pick(name)
        made = canvas.development
        own = {m.opening.number: m for m in canvas.holes if m.placed.id == name}
        places = {
            opening.number: (float(placed.holes.girth_mm[0, i]), float(placed.holes.z_mm[0, i]))
            for i, opening in enumerate(placed.holes.openings)
        }
        for number, mark in own.items():
            row = made.area.center().y() - (places[number][1] - made.centre_z_mm) * made.scale
            assert mark.centre.y() == pytest.approx(row, abs=HALF_PX)
            seen += 1
        for a, b in itertools.combinations(own, 2):
            apart_mm = abs(places[a][0] - places[b][0])
            apart_px = abs(own[a].centre.x() - own[b].centre.x())
            # Two holes either side of a break in the drawing stand nearer than their girths.
            if not made.breaks:
                assert apart_px == pytest.approx(apart_mm * made.scale, abs=HALF_PX)
    assert seen >= 8


def test_drills_stand_in_the_section_where_the_scene_has_them(window):
    """Every hole of every new fitting: its place on the skin, from above, bow up and port left."""
    canvas, scene = window.arrangement.panels.section.canvas, window.session.desk.scene
    seen = 0
    for name, placed in scene.placed.items():
        if placed.holes is None or not placed.fitting.new or placed.skin is None:
            continue
        window.session.pick(name)
        plan = canvas.plan
        points = {
            f"{name}/h{o.number}": placed.holes.point[0, i] for i, o in enumerate(placed.holes.openings)
        }
        for drill in canvas.cut.drills:
            if drill.owner != name:
                continue
            ahead, port = points[drill.id][:2]
            at = plan.at(*drill.skin)
            assert at.x() == pytest.approx(plan.axis_x - port * plan.scale, abs=HALF_PX)
            assert at.y() == pytest.approx(plan.axis_y - ahead * plan.scale, abs=HALF_PX)
            seen += 1
    assert seen >= 4
