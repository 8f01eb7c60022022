"""The tape measure with real mouse and keys, on every view and from the list, against hand figures."""

import itertools
import math

import pytest
from builders import a_fitting, a_foot, a_layout, a_mast, a_spreader, a_stay
from dragging import rest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from scipy.special import ellipe
from window_builder import a_window

from mastlayout.desk import Desk
from mastlayout.geometry.spot import InSpace, OnSkin, OnThing
from mastlayout.model.edits import change

HALF_GIRTH = 200.0 * ellipe(1 - (65 / 100) ** 2)
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on three boxes ahead, to starboard and ahead again, a spreader and a forestay."""
    made = a_window(qtbot, tmp_path)
    fittings = (
        a_fitting(tag=1),
        a_fitting("box-2", tag=2, name="Hailer", from_masthead_mm=8300.0, girth="bearing 90"),
        a_fitting("box-3", tag=3, name="Horn", from_masthead_mm=9000.0, in_hand=a_foot(across_mm=90)),
    )
    made.show_desk(
        Desk(a_layout(mast=a_mast(), fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),)))
    )
    made.activateWindow()
    qtbot.waitUntil(lambda: made.isActiveWindow() and made.arrangement.isVisible())
    made.session.go_to(9000.0)
    QTest.keyClick(made, Qt.Key.Key_T, CONTROL)
    assert made.tape.in_hand
    QApplication.processEvents()
    return made


def panels(window):
    """The window's panels."""
    return window.arrangement.panels


def drawn(window, right_mm, z_mm):
    """The pixel of a place in the elevation."""
    span = panels(window).elevation.canvas.span
    return QPointF(span.x_px(right_mm), span.y_px(z_mm)).toPoint()


def click_elevation(window, right_mm, z_mm):
    """A click in the elevation."""
    click(panels(window).elevation.canvas.viewport(), drawn(window, right_mm, z_mm))


def click(widget, at):
    """A click with the left button."""
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at)
    QApplication.processEvents()


def values(window):
    """The card's figures by their keys."""
    return {figure.key: (figure.value, figure.more or figure.why) for figure in window.measuring.card.figures}


def test_two_clicks_in_the_elevation_measure_between_seats(window):
    """On the seats of the first and the third: 1000 down, in line, straight 1000, bodies 80 less."""
    click_elevation(window, 100.0, 9000.0)
    assert window.tape.ends == (OnThing("box-1", "seat"),)
    click_elevation(window, 100.0, 8000.0)
    assert window.tape.ends[1] == OnThing("box-3", "seat")
    assert values(window) == {
        "along": ("1\u2009000", "down"),
        "round": ("0", "in line"),
        "straight": ("1\u2009000", ""),
        "bodies": ("920.0", "at the least"),
    }
    assert "straight 1\u2009000" in window._said.text()
    assert window.session.undo.count() == 0


def test_a_click_on_a_body_holds_the_nearest_of_it(window):
    """Away from its seat a click takes the body: from the top of one to the foot of the other."""
    click_elevation(window, 190.0, 9000.0)
    click_elevation(window, 190.0, 8000.0)
    assert [end.part for end in window.tape.ends] == ["body", "body"]
    assert values(window)["straight"][0] == "920"
    assert values(window)["round"][0] == ""
    assert "not on the skin" in values(window)["round"][1]


def test_labels_stays_and_spreaders_take_the_tape(window):
    """A label stands for its seat, a wire and a spreader for themselves."""
    canvas = panels(window).elevation.canvas
    label = next(p for p in canvas.labels if p.label.id == "box-2")
    click(canvas.viewport(), canvas.label_box(label).center().toPoint())
    assert window.tape.ends == (OnThing("box-2", "seat"),)
    stay = window.session.desk.scene.stays["forestay"]
    z = 16500.0
    part = (stay.points[0][2] - z) / (stay.points[0][2] - stay.points[1][2])
    x = float(stay.points[0][0] + part * (stay.points[1][0] - stay.points[0][0]))
    window.session.go_to(z)
    click_elevation(window, x, z)
    assert window.tape.ends[1] == OnThing("forestay", "body")
    window.tape.put_away()
    window.tape.toggle()
    window.session.go_to(8000.0)
    window.look_from("ahead")
    QApplication.processEvents()
    click_elevation(window, 65.0, 8000.0)
    assert window.tape.ends == (OnThing("spreader-p", "seat"),)


def test_free_points_lie_on_the_near_side_or_beside_the_mast(window):
    """From starboard 60 ahead of the axis is on the starboard skin; 300 ahead of it is off the mast."""
    click_elevation(window, 60.0, 9200.0)
    (on,) = window.tape.ends
    assert isinstance(on, OnSkin)
    assert on.girth_mm > 0
    point, _normal = window.session.desk.scene.skin.full.at([on.girth_mm])
    # A pixel is 3 mm here, and the ellipse gives y.
    assert point[0][0] == pytest.approx(60.0, abs=3.0)
    assert point[0][1] == pytest.approx(-65 * math.sqrt(1 - (point[0][0] / 100) ** 2), abs=0.1)
    click_elevation(window, 300.0, 9200.0)
    off = window.tape.ends[1]
    assert isinstance(off, InSpace)
    assert (off.ahead_mm, off.port_mm) == (pytest.approx(300.0, abs=3.0), 0.0)
    assert values(window)["along"] == ("0", "level")


def test_the_second_end_follows_the_pointer(window):
    """What it would read stands on the card before the click; the fitting under the hand stays put."""
    before = window.session.layout
    click_elevation(window, 100.0, 9000.0)
    viewport = panels(window).elevation.canvas.viewport()
    QTest.mouseMove(viewport, drawn(window, 100.0, 8000.0))
    assert values(window)["along"] == ("1\u2009000", "down")
    assert len(window.tape.ends) == 1
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, pos=drawn(window, 100.0, 8000.0))
    QTest.mouseMove(viewport, drawn(window, 100.0, 8300.0))
    QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, pos=drawn(window, 100.0, 8300.0))
    assert window.session.layout is before
    assert window.tape.ends[1] == OnThing("box-3", "seat")


def test_in_the_section_round_and_across(window):
    """Ahead to the port beam is a quarter of the girth; two points of the ellipse are Pythagoras apart."""
    canvas = panels(window).section.canvas
    window.session.go_to(10000.0)
    QApplication.processEvents()
    click(canvas, canvas.plan.at(100.0, 0.0).toPoint())
    click(canvas, canvas.plan.at(0.0, 65.0).toPoint())
    assert all(isinstance(end, OnSkin) for end in window.tape.ends)
    read = window.tape.read.taped
    pixel = 1.0 / canvas.plan.scale
    assert read.around.length_mm == pytest.approx(HALF_GIRTH / 2, abs=2 * pixel)
    assert read.straight_mm == pytest.approx(math.hypot(100, 65), abs=2 * pixel)
    assert values(window)["round"][1] == "on the port side"


def test_in_the_section_a_body_and_a_point(window):
    """The box ahead at its height; a point 50 off its port side."""
    canvas = panels(window).section.canvas
    click(canvas, canvas.plan.at(180.0, 0.0).toPoint())
    assert window.tape.ends == (OnThing("box-1", "body"),)
    click(canvas, canvas.plan.at(180.0, 56.0).toPoint())
    assert isinstance(window.tape.ends[1], InSpace)
    off = window.tape.ends[1].port_mm - 50.0
    assert window.tape.read.taped.straight_mm == pytest.approx(off, abs=0.01)


def test_in_the_skin_from_hole_to_hole(window):
    """The pattern's own 60 across and 30 along; the tape crosses the forward line."""
    window.session.pick("box-1")
    QApplication.processEvents()
    canvas = panels(window).skin.canvas
    marks = {mark.opening.number: mark.centre.toPoint() for mark in canvas.holes}
    click(canvas, marks[1])
    click(canvas, marks[4])
    assert window.tape.ends == (OnThing("box-1", "hole", 1), OnThing("box-1", "hole", 4))
    assert values(window)["along"] == ("30", "down")
    assert values(window)["round"] == ("60", "starboard to port, over the forward line")


def test_in_the_skin_any_place(window):
    """What is clicked is what is held, to half a millimetre of girth and a whole one of height."""
    canvas = panels(window).skin.canvas
    window.session.go_to(10000.0)
    QApplication.processEvents()
    at = canvas.development.at(HALF_GIRTH - 40.0, 10020.0).toPoint()
    click(canvas, at)
    (spot,) = window.tape.ends
    pixel = 1.0 / canvas.development.scale
    assert spot.girth_mm == pytest.approx(HALF_GIRTH - 40.0, abs=pixel)
    assert spot.z_mm == pytest.approx(10020.0, abs=pixel + 0.5)


def test_rows_of_the_list_take_the_tape(window):
    """A click on one row and Enter on another; a double click sets one end, not two."""
    rows = panels(window).strip.list
    view = rows.view

    def box(name):
        return view.visualRect(rows._index(name)).center()

    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=box("box-1"))
    QTest.mouseDClick(view.viewport(), Qt.MouseButton.LeftButton, pos=box("box-1"))
    assert window.tape.ends == (OnThing("box-1", "seat"),)
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=box("box-2"))
    assert window.tape.ends[1] == OnThing("box-2", "seat")
    assert values(window)["along"] == ("300", "down")
    assert values(window)["round"][1] == "on the starboard side"


def test_keys_alone_measure_from_thing_to_typed_point(window, qtbot):
    """Enter in the list, Enter on the elevation, then the free point is typed; Escape puts it away."""
    rows = panels(window).strip.list
    window.session.pick("box-1")
    rows.view.setFocus()
    QTest.keyClick(rows.view, Qt.Key.Key_Return)
    assert window.tape.ends == (OnThing("box-1", "seat"),)
    window.pick("")
    canvas = panels(window).elevation.canvas
    canvas.setFocus()
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    assert isinstance(window.tape.ends[1], OnSkin)
    height, around = window.measuring.card.rows[1].fields[:2]
    for field, text in ((height, "8.3 m"), (around, "44 to port of ahead")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
    assert values(window)["along"] == ("300", "down")
    assert values(window)["round"] == ("44", "on the port side")
    QTest.keyClick(around, Qt.Key.Key_Escape)
    assert not window.tape.in_hand
    assert not window.measuring.card.isVisible()
    assert not window.acts["tape"].isChecked()


def test_the_card_takes_no_more_room_than_its_words(window):
    """The rest stays with the elevation."""
    for name in ("box-1", "box-3"):
        window.tape.hold_thing(name)
    card, canvas = window.measuring.card, panels(window).elevation.canvas
    for size in ((1280, 800), (1920, 1080)):
        window.resize(*size)
        for _step in range(6):
            QApplication.processEvents()
        assert card.height() <= card.heightForWidth(card.width())
        assert canvas.height() > 3 * card.height()


def test_what_an_end_is_held_to_is_chosen_by_keys(window):
    """The box's down key goes from seat to body, and the figures follow."""
    for name in ("box-1", "box-3"):
        window.tape.hold_thing(name)
    for row in window.measuring.card.rows:
        row.part.setFocus()
        QTest.keyClick(row.part, Qt.Key.Key_Down)
    assert [end.part for end in window.tape.ends] == ["body", "body"]
    assert values(window)["straight"][0] == "920"


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter])
def test_enter_on_section_and_skin_holds_what_is_in_hand(window, key):
    """With nothing there in hand it is the forward line at the height in hand."""
    window.session.pick("box-1")
    QApplication.processEvents()
    section, skin = panels(window).section.canvas, panels(window).skin.canvas
    QTest.keyClick(section, key)
    window.session.go_to(10000.0)
    window.pick("")
    window.session.go_to(10000.0)
    QApplication.processEvents()
    QTest.keyClick(skin, key)
    assert window.tape.ends == (
        OnThing("box-1", "seat"),
        OnSkin(10000.0, pytest.approx(HALF_GIRTH, abs=0.01)),
    )


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [(0, "17001", "not on the mast"), (0, "tall", "length"), (1, "300 to port of ahead", "half way round")],
)
def test_nonsense_in_a_field_is_answered(window, field, typed, says):
    """The sentence says what is allowed; the end stays where it was."""
    window.tape.hold_thing("box-1")
    window.tape.hold(OnSkin(9000.0, 100.0))
    before = window.tape.ends
    edit = window.measuring.card.rows[1].fields[field]
    edit.setFocus()
    edit.selectAll()
    QTest.keyClicks(edit, typed)
    QTest.keyClick(edit, Qt.Key.Key_Return)
    assert window.tape.ends == before
    assert says in window._said.text()


def test_the_tape_follows_what_moves_and_says_what_is_gone(window):
    """Moved by 100 it reads 100 more; taken off the mast the end says so; undo brings it back."""
    for name in ("box-1", "box-3"):
        window.tape.hold_thing(name)
    session = window.session
    session.preview(change(session.layout, "box-3", from_masthead_mm=9100.0))
    rest()
    assert values(window)["along"][0] == "1\u2009100"
    session.cancel()
    assert values(window)["along"][0] == "1\u2009000"
    session.pick("box-3")
    window.acts["remove"].trigger()
    assert values(window) == {}
    assert "no longer on the mast" in window.measuring.card.said.text()
    session.undo.undo()
    assert values(window)["along"][0] == "1\u2009000"


def test_inches(window):
    """1000 mm are 39 3/8 in; body to body 920 is 36.22: 36 7/32, rounded to less room."""
    for name in ("box-1", "box-3"):
        window.tape.hold_thing(name)
    window.write_in("inches")
    # 8000 reads 26-2 15/16 and 9000 reads 29-6 5/16: their difference is what the tape says.
    assert values(window)["along"][0] == "3-3 3/8"
    assert values(window)["straight"][0] == "3-3 3/8"
    assert values(window)["bodies"][0] == "3-0 7/32"


def test_the_figures_go_to_the_clipboard(window):
    """Lines that stand by themselves: whose, in what, from where to where, and each figure."""
    window.tape.hold(OnThing("box-1", "hole", 1))
    window.tape.hold(OnThing("forestay", "body"))
    QTest.keyClick(window, Qt.Key.Key_T, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0] == "Test, tape measure, millimetres"
    assert lines[1] == "1  box-1, hole 1.1"
    assert lines[2] == "2  forestay, wire"
    assert lines[4] == "Round the skin\tnot on the skin: forestay, which is a stay"
    assert lines[5].startswith("Straight\t")


def test_nothing_of_it_is_in_the_layout(window):
    """No undo step, nothing unsaved, and Ctrl+T puts it away."""
    before = window.session.layout
    click_elevation(window, 100.0, 9000.0)
    click_elevation(window, 300.0, 9300.0)
    assert window.session.layout is before
    assert window.session.undo.count() == 0
    QTest.keyClick(window, Qt.Key.Key_T, CONTROL)
    assert (window.tape.in_hand, window.tape.ends) == (False, ())


def test_a_third_click_begins_anew_and_a_right_click_puts_away(window):
    """Then the canvas is itself again: a click takes in hand."""
    for z in (9000.0, 8000.0, 9000.0):
        click_elevation(window, 100.0, z)
    assert window.tape.ends == (OnThing("box-1", "seat"),)
    viewport = panels(window).elevation.canvas.viewport()
    QTest.mouseClick(viewport, Qt.MouseButton.RightButton, pos=drawn(window, 100.0, 9000.0))
    assert not window.tape.in_hand
    click_elevation(window, 190.0, 8000.0)
    assert window.session.hand == "box-3"


def test_the_tape_is_drawn_where_its_ends_are(window):
    """To half a pixel on each view; its values stand off every label and off one another."""
    window.session.pick("box-1")
    window.tape.hold(OnThing("box-1", "hole", 1))
    window.tape.hold(OnThing("box-1", "hole", 4))
    QApplication.processEvents()
    window.grab()
    scene = window.session.desk.scene
    first = scene.placed["box-1"].holes.point[0, 0]
    elevation, _beside, section, skin = window.measuring.overlays
    span = panels(window).elevation.canvas.span
    at = elevation.view.seen(window.tape.ends[0], first)
    assert (at.x(), at.y()) == pytest.approx((span.x_px(first[0]), span.y_px(first[2])), abs=0.5)
    mark = next(m for m in panels(window).skin.canvas.holes if m.opening.number == 1)
    assert (skin.view.seen(window.tape.ends[0], first) - mark.centre).manhattanLength() < 0.5
    plan = panels(window).section.canvas.plan
    across = section.view.seen(window.tape.ends[0], first)
    assert (across.x(), across.y()) == pytest.approx(
        (plan.axis_x - first[1] * plan.scale, plan.axis_y - first[0] * plan.scale), abs=0.5
    )
    assert any(overlay.values for overlay in window.measuring.overlays)
    for overlay in window.measuring.overlays:
        assert not any(v.intersects(t) for v in overlay.values for t in overlay.view.taken())
        assert not any(a.intersects(b) for a, b in itertools.combinations(overlay.values, 2))


def test_on_trestles_the_tape_is_put_away(window):
    """The views it works on stand upright; back from the trestles it can be taken again."""
    window.tape.hold_thing("box-1")
    window.acts["mast trestles"].trigger()
    assert not window.tape.in_hand
    assert not window.acts["tape"].isEnabled()
    window.acts["mast standing"].trigger()
    assert window.acts["tape"].isEnabled()


def test_it_works_from_the_list_of_a_narrow_window(window, qtbot):
    """The list in its tab takes the tape too, and the card stays on the window."""
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: window.arrangement.list is not None)
    rows = window.arrangement.list
    rows._pick(rows._index("box-1"))
    rows._activate(rows._index("box-1"))
    window.tape.hold_thing("box-2")
    assert window.tape.ends == (OnThing("box-1", "seat"), OnThing("box-2", "seat"))
    QApplication.processEvents()
    card = window.measuring.card
    assert card.height() < 160  # the mast keeps the window's height
    corner = card.mapTo(window, QPoint(card.width(), card.height()))
    assert corner.x() <= window.width()
    assert corner.y() <= window.height()


def test_every_control_of_the_card_has_a_name_and_the_tab_key(window):
    """What shows can be reached and read out."""
    window.tape.hold_thing("box-1")
    window.tape.hold(InSpace(300.0, 20.0, 9000.0))
    card = window.measuring.card
    controls = [card.copy, card.away]
    for row in card.rows:
        controls += [row.part, *row.fields]
    shown = [control for control in controls if control.isVisible()]
    assert len(shown) == 7
    for control in shown:
        assert control.accessibleName()
        assert control.focusPolicy() & Qt.FocusPolicy.TabFocus
