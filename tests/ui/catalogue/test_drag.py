"""Dragging a kind out of the catalogue with real press, moves and release, onto every view."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from window_builder import a_window, whimbrel

from mastlayout.geometry.frames import bearing_of
from mastlayout.model.around import AHEAD
from mastlayout.model.hosting import Place, placed_new


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on Whimbrel, 8 300 from the masthead in hand, the catalogue open at the hailer."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    made.session.go_to(17300.0 - 8300.0)
    made.acts["place"].trigger()
    qtbot.waitUntil(made.catalogue.isVisible)
    QTest.keyClicks(made.catalogue.search, "hailer, mouth")
    assert QTest.qWaitForWindowActive(made)
    return made


class Drag:
    """A drag of the chosen kind: pressed on its row, moved about the screen."""

    def __init__(self, window):
        self.view = window.catalogue.view
        self.port = self.view.viewport()
        at = self.view.visualRect(self.view.currentIndex()).center()
        QTest.mousePress(self.port, Qt.MouseButton.LeftButton, pos=at)

    def to(self, widget, at, held=Qt.KeyboardModifier.NoModifier):
        """Move over a pixel of a widget, in two steps as a hand does."""
        for step in (QPoint(2, 2), QPoint(0, 0)):
            self._send(QEvent.Type.MouseMove, widget.mapToGlobal(at + step), held)

    def _send(self, sort, place, held):
        moves = sort == QEvent.Type.MouseMove
        button = Qt.MouseButton.NoButton if moves else Qt.MouseButton.LeftButton
        buttons = Qt.MouseButton.LeftButton if moves else Qt.MouseButton.NoButton
        local = QPointF(self.port.mapFromGlobal(place))
        QApplication.sendEvent(self.port, QMouseEvent(sort, local, QPointF(place), button, buttons, held))
        self.place = place

    def drop(self):
        """Let go."""
        self._send(QEvent.Type.MouseButtonRelease, self.place, Qt.KeyboardModifier.NoModifier)


def new_of(window, before):
    """The one fitting that was not there before."""
    (new,) = [one for one in window.session.layout.fittings if one not in before.fittings]
    return new


def test_on_the_elevation_it_goes_to_the_height_under_the_pointer(window):
    """Ahead of the mast: ahead; shown on the way, in hand when dropped, one step, the height typed next."""
    session, canvas = window.session, window.arrangement.panels.elevation.canvas
    before, span = session.layout, canvas.span
    at = QPoint(round(span.x_px(150.0)), round(span.y_px(9200.0)))
    drag = Drag(window)
    drag.to(canvas.viewport(), at)
    wanted = round(17300.0 - span.z_mm(at.y()))
    assert new_of(window, before).from_masthead_mm == wanted
    assert session.undo.count() == 0
    assert str(wanted)[:1] in drag.view.gesture.chip.text()
    drag.drop()
    new = new_of(window, before)
    assert (new.from_masthead_mm, str(new.girth), session.hand) == (wanted, "ahead", new.id)
    assert (session.undo.count(), session.undo.undoText()) == (1, "Place Hailer, mouth 200 x 150")
    assert window.focusWidget() is window.arrangement.panels.hand.readings.fields["masthead"]
    session.undo.undo()
    assert session.layout == before


@pytest.mark.parametrize(
    ("view", "right_mm", "girth"),
    [
        ("starboard", -200.0, "aft"), ("starboard", 0.0, "bearing 90"), ("port", 0.0, "bearing 270"),
        ("port", 200.0, "aft"), ("ahead", 0.0, "ahead"), ("ahead", 200.0, "bearing 270"),
        ("ahead", -200.0, "bearing 90"),
    ],
)  # fmt: skip
def test_on_the_elevation_it_sits_where_it_is_seen_to(window, view, right_mm, girth):
    """Abaft, on the side that is looked at, or beside it; port is at the right from ahead."""
    session, canvas = window.session, window.arrangement.panels.elevation.canvas
    session.look_from(view)
    before, span = session.layout, canvas.span
    Drag(window).to(canvas.viewport(), QPoint(round(span.x_px(right_mm)), round(span.y_px(9000.0))))
    assert str(new_of(window, before).girth) == girth


def neighbours(window):
    """What stands on the mast, spreaders, pins and old holes: names by their reading from the masthead."""
    session, found = window.session, {}
    length = session.desk.scene.skin.length_mm
    for one in session.desk.scene.placed.values():
        if one.skin is not None:
            found.setdefault(round(length - one.z_mm, 2), set()).add(one.fitting.name)
    layout = session.layout
    for item in (*layout.spreaders, *layout.holes):
        found.setdefault(item.from_masthead_mm, set()).add(item.name)
    for stay in layout.stays:
        found.setdefault(stay.upper.from_masthead_mm, set()).add(stay.name)
    return found


def alone(window, canvas, px):
    """A neighbour's reading with no other within some pixels, and the reading of the one below it."""
    heights = sorted(neighbours(window))
    far = px / canvas.span.scale
    return next(
        (own, below)
        for above, own, below in zip(heights, heights[1:], heights[2:], strict=False)
        if own - above > far and below - own > far and 0 < canvas.span.y_px(17300.0 - own) < canvas.height()
        and 0 < canvas.span.y_px(17300.0 - below) < canvas.height()
    )  # fmt: skip


def pixel(canvas, from_masthead, down_px=0.0):
    """Ahead of the mast at a reading, and some pixels below it."""
    y = canvas.span.y_px(17300.0 - from_masthead) + down_px
    return QPoint(round(canvas.span.x_px(150.0)), round(y))


def test_on_the_elevation_a_neighbour_draws_it_in_and_control_does_not(window):
    """Three pixels off it stands level, with a line that says so; Control lets it go, the mouse at rest."""
    canvas = window.arrangement.panels.elevation.canvas
    before = window.session.layout
    own, _below = alone(window, canvas, 30)
    drag = Drag(window)
    drag.to(canvas.viewport(), pixel(canvas, own, 3.0))
    assert new_of(window, before).from_masthead_mm == own
    (guide,) = canvas.guides()
    assert guide.words.removeprefix("level with ") in neighbours(window)[own]
    assert guide.line.y1() == pytest.approx(canvas.span.y_px(17300.0 - own))
    assert guide.words[1:] in drag.view.gesture.chip.text()
    QTest.keyPress(drag.view, Qt.Key.Key_Control)
    free = new_of(window, before).from_masthead_mm
    assert free == pytest.approx(own + 3.0 / canvas.span.scale, abs=1.0 + 1.0 / canvas.span.scale)
    assert free != own
    assert not list(canvas.guides())
    QTest.keyRelease(drag.view, Qt.Key.Key_Control, Qt.KeyboardModifier.ControlModifier)
    assert new_of(window, before).from_masthead_mm == own
    drag.drop()
    assert new_of(window, before).from_masthead_mm == own
    assert not list(canvas.guides())


def test_on_the_elevation_it_snaps_midway(window):
    """Between two neighbours, as a fitting that is moved does."""
    canvas = window.arrangement.panels.elevation.canvas
    before = window.session.layout
    own, below = alone(window, canvas, 30)
    drag = Drag(window)
    drag.to(canvas.viewport(), pixel(canvas, (own + below) / 2, 2.0))
    assert new_of(window, before).from_masthead_mm == pytest.approx((own + below) / 2, abs=0.01)
    assert "Midway between" in drag.view.gesture.chip.text()


def test_on_the_elevation_the_spacing_of_its_kind_goes_on(window):
    """Two of a kind 120 apart: the third snaps 120 below, though nothing stands there."""
    session, canvas = window.session, window.arrangement.panels.elevation.canvas
    own, _below = alone(window, canvas, 30)
    for high in (own + 130.0, own + 250.0):
        layout, _name = placed_new(
            session.layout, window.catalogue.view.kind, Place(from_masthead_mm=high, girth=AHEAD)
        )
        session.edit(layout, "Place")
    before = session.layout
    drag = Drag(window)
    drag.to(canvas.viewport(), pixel(canvas, own + 370.0, 1.0))
    assert new_of(window, before).from_masthead_mm == own + 370.0
    assert "120 from " in drag.view.gesture.chip.text()


def test_on_the_skin_a_neighbour_draws_it_in(window):
    """The height of the skin snaps as the elevation's does, and its line is drawn there."""
    session, canvas = window.session, window.arrangement.panels.skin.canvas
    own, _below = alone(window, window.arrangement.panels.elevation.canvas, 30)
    session.go_to(17300.0 - own)
    before, made = session.layout, canvas.development
    drag = Drag(window)
    drag.to(canvas, (made.area.center() + QPointF(-25.0, 3.0)).toPoint())
    assert new_of(window, before).from_masthead_mm == own
    assert [guide.words.split(" ")[0] for guide in canvas.guides()] == ["level"]


def test_the_elevation_does_not_run_away_under_the_pointer(window):
    """Near its upper edge the picture stays, whatever the height in hand does."""
    canvas = window.arrangement.panels.elevation.canvas
    span = canvas.span
    drag = Drag(window)
    drag.to(canvas.viewport(), QPoint(200, 12))
    assert canvas.span == span
    drag.drop()
    assert not canvas.held


def test_on_the_section_it_goes_to_the_bearing_under_the_pointer(window):
    """At the height in hand; near athwart it snaps to it, with Control it does not."""
    session, canvas = window.session, window.arrangement.panels.section.canvas
    before, plan = session.layout, canvas.plan
    axis = QPointF(plan.axis_x, plan.axis_y)
    at = (axis + QPointF(60.0, -45.0)).toPoint()  # ahead and to starboard: bow up, port left
    drag = Drag(window)
    drag.to(canvas, at)
    new = new_of(window, before)
    wanted = bearing_of(axis.y() - at.y(), axis.x() - at.x())
    assert new.from_masthead_mm == 8300.0
    assert 0.0 < wanted < 90.0
    assert new.girth.offset == pytest.approx(wanted, abs=0.06)
    assert canvas.plan == plan
    drag.to(canvas, (axis + QPointF(70.0, 2.0)).toPoint())
    assert new_of(window, before).girth.offset == 90.0
    drag.to(canvas, (axis + QPointF(70.0, 3.0)).toPoint(), Qt.KeyboardModifier.ControlModifier)
    assert new_of(window, before).girth.offset > 90.0


def test_on_the_section_it_snaps_round_as_a_move_does(window):
    """To the foot at the track's edge: half its own width beyond the groove's; its words are in the chip."""
    canvas, before = window.arrangement.panels.section.canvas, window.session.layout
    scene, kind = window.session.desk.scene, window.catalogue.view.currentIndex()
    assert kind.isValid()
    drag = Drag(window)
    plan, z_mm = canvas.plan, window.session.z_mm
    drag.to(canvas, (QPointF(plan.axis_x, plan.axis_y) + QPointF(70.0, -45.0)).toPoint())
    foot = window.session.desk.scene.placed[new_of(window, before).id].foot
    edge = scene.skin.half_track_mm + foot.across_mm / 2
    point, _normal = scene.skin.ring(z_mm).at(np.array([edge + 1.0]))
    drag.to(canvas, plan.at(*point[0]).toPoint())
    new = new_of(window, before)
    assert scene.skin.girth_of(new.girth, z_mm) == pytest.approx(edge, abs=0.01)
    assert canvas.pointer.snaps["round"].words == "foot at the track’s edge, starboard"


def test_on_the_skin_it_goes_to_girth_and_height(window):
    """Left of the forward line is to starboard; its pixel is where the skin draws it."""
    session, canvas = window.session, window.arrangement.panels.skin.canvas
    before, made = session.layout, canvas.development
    at = (made.area.center() + QPointF(-25.0, -30.0)).toPoint()
    drag = Drag(window)
    drag.to(canvas, at)
    new = new_of(window, before)
    drawn = canvas.development.at(
        session.desk.scene.skin.girth_of(new.girth, 9000.0), 17300.0 - new.from_masthead_mm
    )
    assert (new.girth.origin, new.girth.offset > 0) == ("ahead", True)
    assert (drawn.x(), drawn.y()) == pytest.approx((at.x(), at.y()), abs=0.6)
    assert session.hand != new.id
    drag.drop()
    assert session.hand == new.id


@pytest.mark.parametrize("how", ["escape", "right", "outside"])
def test_a_drag_that_is_broken_off_leaves_nothing(window, how):
    """By Escape, by the other button, or let go over no view; hand and height are what they were."""
    session, canvas = window.session, window.arrangement.panels.elevation.canvas
    session.pick(session.layout.fittings[3].id)
    before, hand, z = session.layout, session.hand, session.z_mm
    drag = Drag(window)
    drag.to(canvas.viewport(), QPoint(200, 300))
    assert session.layout != before
    if how == "escape":
        assert window.focusWidget() is window.catalogue.view
        QTest.keyClick(window.windowHandle(), Qt.Key.Key_Escape)
    elif how == "right":
        QTest.mousePress(drag.port, Qt.MouseButton.RightButton, pos=QPoint(20, 20))
    else:
        drag.to(window.toolbar, QPoint(900, 5))
        drag.drop()
    assert session.layout is before
    assert (session.hand, session.z_mm, session.undo.count()) == (hand, z, 0)
    assert drag.view.gesture is None
    assert not canvas.held


def test_a_kind_for_a_mount_goes_to_the_free_one_nearest(window):
    """The whip hangs on the masthead's mount that nothing stands on, or says that none is free."""
    session, canvas = window.session, window.arrangement.panels.elevation.canvas
    window.catalogue.search.setText("vhf whip 950")
    before = session.layout
    drag = Drag(window)
    drag.to(canvas.viewport(), QPoint(200, 100))
    new = [one for one in session.layout.fittings if one not in before.fittings]
    if new:
        assert new[0].mount is not None
    else:
        assert "none here is free" in drag.view.gesture.chip.text()


def test_a_press_without_a_move_places_nothing(window):
    """A click chooses only."""
    before = window.session.layout
    drag = Drag(window)
    drag.place = drag.port.mapToGlobal(QPoint(5, 5))
    drag.drop()
    assert window.session.layout is before


def test_the_room_takes_the_place_of_the_strip_and_gives_it_back(window, qtbot):
    """Wide: for the strip; narrow: for the findings, so that every view to drop on stays."""
    shown = window.arrangement.panels
    assert not shown.strip.isVisible()
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: window.arrangement.tabs is not None)
    qtbot.waitUntil(window.catalogue.isVisible)
    assert shown.strip.isVisible()
    assert not shown.findings.isVisible()
    assert shown.section.isVisible()
    QTest.keyClick(window.catalogue.search, Qt.Key.Key_Escape)
    qtbot.waitUntil(shown.findings.isVisible)
    assert not window.catalogue.isVisible()


def test_over_a_tab_the_drag_turns_to_its_view(window, qtbot):
    """On a narrow window the skin lies behind the section."""
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: window.arrangement.tabs is not None)
    QApplication.processEvents()
    bar = window.arrangement.tabs.tabBar()
    Drag(window).to(bar, bar.tabRect(1).center())
    assert window.arrangement.panels.skin.isVisible()
