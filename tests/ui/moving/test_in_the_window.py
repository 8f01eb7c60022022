"""Moving in the whole window: list and keys alone, acts of the Edit menu, the height field."""

import dragging
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.exceptions import capture_exceptions
from window_builder import a_window, whimbrel

from mastlayout.desk import Desk
from mastlayout.model.edits import item_of
from mastlayout.ui.keys import keys_dialog
from mastlayout.ui.strip.rows import THING


@pytest.fixture
def window(qtbot, tmp_path):
    """A window with an example open and its camera or first fitting on the mast in hand."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    made.session.pick(on_mast(made.session).id)
    yield made
    made.files.copies.drop()


def on_mast(session):
    """The first fitting with a foot on the mast itself that nothing else needs, and not found as built."""
    layout = session.layout
    needed = (
        {f.on for f in layout.fittings} | {c.exit for c in layout.cables} | {c.fitting for c in layout.cables}
    )
    needed |= {point.fitting for halyard in layout.halyards for point in halyard.points}
    return next(
        placed.fitting
        for placed in session.desk.scene.placed.values()
        if placed.skin
        and placed.outline is not None
        and placed.id not in needed
        and not placed.fitting.as_built
    )


def the(session, name=""):
    """The item of an id, of what is in hand without one."""
    return item_of(session.layout, name or session.hand)[1]


def awake(window, qtbot):
    """Make the window the one that has the keys: the progress of opening a file took them."""
    with qtbot.waitActive(window):
        window.activateWindow()


def listed(window):
    """The rows' view of the list, focused, at the row of what is in hand."""
    view = window.arrangement.panels.strip.list.view
    view.setFocus()
    return view


def test_the_list_alone_moves_what_is_in_hand(window):
    """Up and down alone walk the rows; with a modifier they move, and left and right go round."""
    session = window.session
    view, before = listed(window), the(session)
    at = before.from_masthead_mm
    for held, by in ((dragging.CONTROL, 10), (dragging.SHIFT, 100), (dragging.ALT, 1)):
        QTest.keyClick(view, Qt.Key.Key_Down, held)
        at += by
        assert the(session).from_masthead_mm == at
        assert the(session).id == before.id
    QTest.keyClick(view, Qt.Key.Key_Right)
    assert the(session).girth != before.girth
    assert session.undo.count() == 4
    for _step in range(4):
        session.undo.undo()
    assert the(session) == before
    row = view.currentIndex().row()
    QTest.keyClick(view, Qt.Key.Key_Down)
    assert view.currentIndex().row() == row + 1
    assert view.currentIndex().data(THING).id == session.hand != before.id


def test_enter_in_the_list_goes_to_the_height_field(window, qtbot):
    """What stands there is selected; typed over, it is one step."""
    awake(window, qtbot)
    session, view = window.session, listed(window)
    field = window.arrangement.panels.hand.readings.fields["masthead"]
    QTest.keyClick(view, Qt.Key.Key_Return)
    assert field.hasFocus()
    assert field.selectedText() == field.text()
    qtbot.keyClicks(field, "5000")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert the(session).from_masthead_mm == 5000.0
    assert session.undo.count() == 1


def test_a_double_click_on_the_elevation_goes_to_the_height_field(window, qtbot):
    """On the label of what is in hand."""
    awake(window, qtbot)
    canvas = window.arrangement.panels.elevation.canvas
    label = next(placed for placed in canvas.labels if placed.label.in_hand)
    dragging.double_click(canvas.viewport(), canvas.label_box(label).center())
    assert window.arrangement.panels.hand.readings.fields["masthead"].hasFocus()


def test_delete_in_the_list_takes_it_off(window):
    """One step; undone it is there again."""
    session, view = window.session, listed(window)
    name, words = session.hand, the(session).name
    QTest.keyClick(view, Qt.Key.Key_Delete)
    assert name not in session.desk.scene.placed
    assert session.undo.undoText() == f"Remove {words}"
    session.undo.undo()
    assert name in session.desk.scene.placed


@pytest.mark.parametrize(
    ("act", "keys", "step"),
    [
        ("turn", (Qt.Key.Key_R, dragging.CONTROL), "Turn"),
        ("copy", (Qt.Key.Key_C, dragging.CONTROL | dragging.SHIFT), "Copy"),
        ("mirror", (Qt.Key.Key_M, dragging.CONTROL | dragging.SHIFT), "Mirror"),
    ],
)
def test_acts_of_the_edit_menu_by_their_keys(window, qtbot, act, keys, step):
    """Each one undo step with a spoken name."""
    awake(window, qtbot)
    session = window.session
    session.pick(next(f.id for f in session.layout.fittings if f.on == "mast" and f.name.endswith(", P")
                      and f.as_built is None))  # fmt: skip
    before, item = session.layout, the(session)
    listed(window)
    QTest.keyClick(window.focusWidget(), *keys)
    assert session.undo.count() == 1
    assert session.undo.undoText() == f"{step} {item.name}"
    now = the(session)
    if act == "turn":
        assert now.turn_deg == 90.0
    elif act == "copy":
        assert (now.id == item.id, now.name, now.done) == (False, item.name, ())
        assert now.tag == max(f.tag or 0 for f in before.fittings) + 1
    else:
        assert now.name == item.name.replace(", P", ", S")
    session.undo.undo()
    assert session.layout == before


def test_a_refused_act_says_why_in_the_status_line(window):
    """The forestay has no other side; nothing changes."""
    session = window.session
    session.pick(next(stay.id for stay in session.layout.stays if stay.side == "centre"))
    before = session.layout
    window.acts["mirror"].trigger()
    assert session.layout is before
    assert "no other side" in window.statusBar().currentMessage()
    window.acts["turn"].trigger()
    assert "no fitting" in window.statusBar().currentMessage()


@pytest.mark.parametrize("act", ["turn", "copy", "mirror", "remove"])
@pytest.mark.parametrize("part", ["mast", "boat", "sails", "halyards", "cables", "conduits"])
def test_every_act_is_done_or_refused_in_words_whatever_is_in_hand(window, part, act):
    """With what stands nowhere on the mast, the mast itself among it, in hand."""
    session = window.session
    layout = session.layout
    name = part if part in ("mast", "boat") else (layout.mast.conduits if part == "conduits" else
                                                  getattr(layout, part))[0].id  # fmt: skip
    session.pick(name)
    with capture_exceptions() as caught:
        window.acts[act].trigger()
    assert not caught
    if session.layout is layout:
        assert window.statusBar().currentMessage().endswith(".")
        assert session.hand == name
    else:
        assert act == "remove"


def test_without_anything_in_hand_the_acts_rest(window):
    """They are greyed."""
    window.session.pick("")
    assert not any(window.acts[name].isEnabled() for name in ("turn", "copy", "mirror", "remove"))
    window.session.pick(on_mast(window.session).id)
    assert all(window.acts[name].isEnabled() for name in ("turn", "copy", "mirror", "remove"))


def test_everything_follows_a_drag_and_another_layout_ends_it(window, tmp_path):
    """List, section, skin and hand show the preview; then the other mast, without a step."""
    session, panels = window.session, window.arrangement.panels
    session.pick("")
    session.pick(on_mast(session).id)
    canvas, name = panels.elevation.canvas, session.hand
    outline = canvas._fittings[name].outline
    right, z = (outline.low + outline.high) / 2
    start = QPoint(round(canvas.span.x_px(float(right))), round(canvas.span.y_px(float(z))))
    dragging.drag(canvas.viewport(), start, QPoint(0, 50), dragging.CONTROL, let_go=False)
    dragging.rest()
    placed = session.desk.scene.placed[session.hand]
    assert session.z_mm == placed.z_mm == panels.skin.canvas.patch.z_mm == panels.section.canvas.cut.z_mm
    row = panels.strip.list.rows.row_of(session.hand)
    assert panels.strip.list.rows.index(row).data(THING).z_mm == placed.z_mm
    assert window.statusBar().currentMessage()
    session.open(Desk.open(whimbrel(tmp_path)))
    dragging.move(canvas.viewport(), start + QPoint(0, 90))
    dragging.release(canvas.viewport(), start + QPoint(0, 90))
    assert session.undo.count() == 0
    assert session.layout == session.desk.document.layout


def test_the_window_made_narrow_in_the_middle_of_a_drag_puts_it_back(window, qtbot):
    """The panels are laid anew, and nothing hangs on the pointer."""
    session, canvas = window.session, window.arrangement.panels.skin.canvas
    before, placed = session.layout, session.desk.scene.placed[session.hand]
    start = canvas.development.at(float(placed.places.around[0]), placed.z_mm)
    dragging.drag(canvas, start, QPoint(0, 40), let_go=False)
    assert session.layout is not before
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: window.arrangement.width_kind == "narrow")
    assert session.layout == before
    assert session.undo.count() == 0


def test_the_list_of_keys_names_every_key_of_the_views(window, qtbot):
    """With the steps as they are, and the acts of the menus."""
    dialog = keys_dialog(window)
    qtbot.addWidget(dialog)
    words = " ".join(label.text() for label in dialog.findChildren(QLabel))
    for said in ("by 10, with Shift by 100, with Alt by 1", "Left, Right", "Page Up", "Delete", "Wheel",
                 "Enter, double click", "Ctrl+Shift+M", "To the other side", "Ctrl+R"):  # fmt: skip
        assert said in words
