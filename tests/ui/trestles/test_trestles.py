"""The mast on trestles: hands, holes where the scene has them, boxes kept in the layout."""

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast
from PySide6.QtCore import QPoint, QSettings, Qt
from window_builder import a_window, whimbrel

from mastlayout.checks import report
from mastlayout.desk import Desk
from mastlayout.geometry.frames import hand_of
from mastlayout.model.fitting import steps_done
from mastlayout.storage.reading import load
from mastlayout.ui.hand.built import BuiltDialog
from mastlayout.ui.look import load_fonts
from mastlayout.ui.session import Session
from mastlayout.ui.trestles.lie import Lying
from mastlayout.ui.trestles.view import TrestlesView
from mastlayout.ui.trestles.walk import BOXES

# practice of the trade: face up, where one stands, what is on the left hand and on the right.
HANDS = [
    ("forward", "heel", "STARBOARD", "PORT"),
    ("forward", "masthead", "PORT", "STARBOARD"),
    ("aft", "heel", "PORT", "STARBOARD"),
    ("aft", "masthead", "STARBOARD", "PORT"),
    ("port", "heel", "FORWARD", "TRACK"),
    ("port", "masthead", "TRACK", "FORWARD"),
    ("starboard", "heel", "TRACK", "FORWARD"),
    ("starboard", "masthead", "FORWARD", "TRACK"),
]


def a_desk(**parts):
    """A hailer ahead with holes, one to port, one aft, one whose foot nobody has in hand."""
    # Far apart and with a conduit nowhere near: by itself no hole is held back.
    small = {
        "seat": "shaped", "across_mm": 110, "along_mm": 60,
        "holes": [{"across_mm": float(a), "along_mm": 0.0, "fastener": "M6 tapped"} for a in (-40, 40)],
    }  # fmt: skip
    fittings = (
        a_fitting(tag=12, name="Hailer", in_hand=small),
        a_fitting("port-1", tag=13, name="Eye", girth="bearing 270", from_masthead_mm=5000.0, in_hand=small),
        a_fitting(
            "aft-1", tag=14, name="Camera", girth="40 to port of aft", from_masthead_mm=6000.0, in_hand=small
        ),
        a_fitting("typical-1", tag=15, name="Radar", from_masthead_mm=9200.0, in_hand=None),
    )  # fmt: skip
    return Desk(
        a_layout(**({"mast": a_mast(), "kinds": (a_kind(foot=a_foot()),), "fittings": fittings} | parts))
    )


@pytest.fixture
def checked(monkeypatch):
    """A version whose hole rules have all run."""
    monkeypatch.setattr(report, "NOT_RUN", ("sails",))


@pytest.fixture
def view(qtbot, theme, tmp_path):
    """The view on the small mast, 1400 x 900."""
    return make(qtbot, theme, tmp_path, a_desk())


def make(qtbot, theme, folder, desk):
    """Show the view on a desk."""
    load_fonts()
    settings = QSettings(str(folder / "s.ini"), QSettings.Format.IniFormat)
    made = TrestlesView(Session(desk), theme, Lying(settings))
    qtbot.addWidget(made)
    made.resize(1400, 900)
    with qtbot.waitActive(made):
        made.show()
    made.setFocus()
    return made


def done(view, name="box-1", number=1):
    """What the layout says is done with a hole."""
    fitting = next(own for own in view.session.layout.fittings if own.id == name)
    return steps_done(fitting, number)


@pytest.mark.parametrize(("face", "end", "left", "right"), HANDS)
def test_the_hands_are_those_of_the_trade(view, face, end, left, right):
    """Words, drawing and description turn together."""
    view.lying.turn_up(face)
    view.lying.stand_at(end)
    assert view.face.hand_edge(left=True).startswith(left)
    assert view.face.hand_edge(left=False).startswith(right)
    for canvas in (view.whole, view.face):
        assert f"LEFT HAND:  {left}. RIGHT HAND:  {right}" in canvas.accessibleDescription()
    # The left hand is up on the screen, the person at its left.
    points = {"STARBOARD": (0, -1, 0), "PORT": (0, 1, 0), "FORWARD": (1, 0, 0), "TRACK": (-1, 0, 0)}
    rows = [view.face.plan.at(np.array(points[side], dtype=float) * 50).y() for side in (left, right)]
    assert rows[0] < rows[1]
    near, far = (0.0, 17000.0) if end == "heel" else (17000.0, 0.0)
    assert view.whole.x_px(near) < view.whole.x_px(far)
    assert view.face.plan.x_px(near) < view.face.plan.x_px(far)


@pytest.mark.parametrize(("face", "end", "left", "right"), HANDS[:4])
def test_the_card_names_the_hand_of_the_hole(view, face, end, left, right):
    """A hole to port of its line lies on the hand that port is on."""
    view.lying.turn_up(face)
    view.lying.stand_at(end)
    view.pick(("box-1", 1) if face == "forward" else ("aft-1", 1))
    side = view.hole.row.round.side
    hand = hand_of(side, face, end).upper()
    text = [piece.text for piece in view.card.reading.pieces]
    assert f"to {'STARBOARD' if side == 'starboard' else 'PORT'}: your {hand} hand" in text
    assert {"STARBOARD": "starboard", "PORT": "port"}[left if hand == "LEFT" else right] == side


@pytest.mark.parametrize(("face", "end"), [(face, end) for face, end, _left, _right in HANDS])
def test_holes_are_drawn_where_the_scene_has_them(view, face, end):
    """To half a pixel: distance from the person along the mast, from the axis across it."""
    view.lying.turn_up(face)
    view.lying.stand_at(end)
    face_view, scene = view.face, view.session.desk.scene
    names = {"forward": "box-1", "aft": "aft-1", "port": "port-1", "starboard": None}
    if names[face] is None:
        assert not [spot for spot in face_view.spots if spot.key[0] != "box-1"]
        return
    spots = {spot.key: spot for spot in face_view.spots}
    placed, scale = scene.placed[names[face]], face_view.plan.scale
    middle = face_view.plan.area.center()
    # By hand, from the watcher's right: port and starboard, forward and aft.
    right = {"STARBOARD": (0, -1), "PORT": (0, 1), "FORWARD": (1, 0), "TRACK": (-1, 0)}[
        next(own[3] for own in HANDS if own[:2] == (face, end))
    ]
    look = 1 if end == "heel" else -1
    for number, point in enumerate(placed.holes.point[0], 1):
        spot = spots[placed.id, number]
        x = middle.x() + look * (point[2] - face_view.centre_z_mm) * scale
        y = middle.y() + (point[0] * right[0] + point[1] * right[1]) * scale
        assert spot.centre.x() == pytest.approx(x, abs=0.5)
        assert spot.centre.y() == pytest.approx(y, abs=0.5)


def test_space_ticks_and_undo_takes_back(qtbot, view, checked):
    """Each box is one step of undo under a spoken name."""
    view._refresh()
    for step in BOXES:
        qtbot.keyClick(view, Qt.Key.Key_Space)
        assert step in done(view)
    assert done(view) == set(BOXES)
    assert view.hole.state == "done"
    assert view.card.next.text() == "Done, go to 12.2"
    assert view.session.undo.undoText() == "Tick isolated of 12.1"
    for _step in BOXES:
        view.session.undo.undo()
    assert done(view) == set()
    assert not view.card.boxes.boxes["marked"].isChecked()


def test_a_click_ticks_a_box_and_leaves_the_keys(qtbot, view):
    """Space after a click ticks the next box, and does not take the first back."""
    box = view.card.boxes.boxes["marked"]
    qtbot.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(10, box.height() // 2))
    assert done(view) == {"marked"}
    qtbot.keyClick(view.focusWidget() or view, Qt.Key.Key_Space)
    assert done(view) == {"marked", "measured again"}


@pytest.fixture
def unchecked(monkeypatch):
    """A version whose hole rules have not all run."""
    monkeypatch.setattr(report, "NOT_RUN", ("hole rules",))


def test_what_is_held_back_is_never_offered_for_drilling(qtbot, unchecked, view):
    """As on paper: while hole rules have not run there are boxes to mark, and none to drill."""
    assert view.card.banner.text == "HOLE RULES NOT CHECKED: DO NOT DRILL"
    assert view.card.banner.isVisible()
    shown = [step for step, box in view.card.boxes.boxes.items() if box.isVisible()]
    assert shown == ["marked", "measured again"]
    for _press in range(6):
        qtbot.keyClick(view, Qt.Key.Key_Space)
    assert done(view) == {"marked", "measured again"}
    view.tick("drilled", True)
    assert "drilled" not in done(view)
    assert view.walk.count("to drill") == 0


def test_the_walk_passes_over_a_hole_that_is_held_back(qtbot, theme, tmp_path, checked):
    """A hole whose drill meets a conduit is shown, but the next hole is another one."""
    pipe = {
        "id": "pipe", "name": "Conduit A", "bore_mm": 25.0, "outside_mm": 30.0,
        "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 320.0}],
    }  # fmt: skip
    view = make(qtbot, theme, tmp_path, a_desk(mast=a_mast(conduits=[pipe])))
    held = [hole for hole in view.walk.holes if hole.why]
    free = [hole for hole in view.walk.holes if not hole.why]
    assert held
    assert free
    assert all("conduit" in hole.why.words.lower() for hole in held)
    seen = set()
    for _press in range(6):
        seen.add(view.hole.key)
        qtbot.keyClick(view, Qt.Key.Key_Return)
    assert seen.isdisjoint(hole.key for hole in held)
    assert seen >= {hole.key for hole in free}
    view.lying.turn_up("forward")
    view.pick(held[0].key)
    assert "Conduit A" in view.card.warning.text
    assert not view.card.boxes.boxes["drilled"].isVisible()


def test_a_typical_foot_is_hatched_and_has_no_hole(view):
    """It stands in the list as held back; no hole of it is drawn."""
    view.face.show_height(17000.0 - 9200.0)
    assert [placed.id for placed in view.face.typical()] == ["typical-1"]
    assert not [spot for spot in view.face.spots if spot.key[0] == "typical-1"]
    rows = [view.list.list.item(row, 1).text() for row in range(view.list.list.rowCount())]
    assert "15" in rows


def test_enter_walks_and_r_rolls(qtbot, view):
    """Hole by hole on this face, then the mast is rolled to the next face that has holes."""
    assert view.hole.row.tag == "12.1"
    qtbot.keyClick(view, Qt.Key.Key_Return)
    assert view.hole.row.tag == "12.2"
    qtbot.keyClick(view, Qt.Key.Key_R)
    assert view.lying.lie.face == "port"
    assert view.hole.row.tag == "13.1"
    assert view.session.hand == "box-1"  # rolling takes nothing in hand
    qtbot.keyClick(view, Qt.Key.Key_R)
    assert view.lying.lie.face == "aft"


def test_a_face_without_holes_says_what_to_do(view):
    """Where there is work, and how to get there."""
    view.lying.turn_up("starboard")
    assert view.hole is None
    assert view.card.empty.text() == (
        "No hole on this face. There is work on: forward face up, port side up, track up. R rolls the mast."
    )
    assert not view.card.boxes.isVisible()


def test_a_hole_is_picked_by_click_and_by_line(qtbot, view):
    """On the face with the mouse, in the list with the keys."""
    spot = next(spot for spot in view.face.spots if spot.key == ("box-1", 2))
    qtbot.mouseClick(view.face, Qt.MouseButton.LeftButton, pos=spot.centre.toPoint())
    assert view.hole.row.tag == "12.2"
    assert view.session.hand == "box-1"


def test_a_click_on_the_whole_mast_goes_there(qtbot, view):
    """The face shows the height that was clicked, to a pixel of the small drawing."""
    x = round(view.whole.x_px(3000.0))
    qtbot.mouseClick(view.whole, Qt.MouseButton.LeftButton, pos=QPoint(x, round(view.whole.axis_y)))
    assert view.face.centre_z_mm == pytest.approx(3000.0, abs=1.0 / view.whole.scale)


def test_face_and_end_are_remembered(tmp_path, qapp):
    """From one day to the next; nonsense in the settings is the forward face, seen from the heel."""
    settings = QSettings(str(tmp_path / "s.ini"), QSettings.Format.IniFormat)
    lying = Lying(settings)
    lying.turn_up("port")
    lying.stand_at("masthead")
    assert (Lying(settings).lie.face, Lying(settings).lie.end) == ("port", "masthead")
    settings.setValue("trestles/face", "sideways")
    assert Lying(settings).lie.face == "forward"


def test_where_it_was_found_is_recorded(qtbot, view):
    """As one undo step; the card then reads what was found."""
    dialog = BuiltDialog(view.session, view.session.desk.scene.placed["box-1"], view)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.reading.setText("8 012")
    dialog.by.setText("Ann")
    dialog.day.setText("2026-11-25")
    qtbot.mouseClick(dialog.button, Qt.MouseButton.LeftButton)
    built = view.session.layout.fittings[0].as_built
    assert (built.from_masthead_mm, str(built.girth), built.by, built.day) == (
        8012.0,
        "ahead",
        "Ann",
        "2026-11-25",
    )
    assert view.hole.row.height.masthead == 8012
    view.session.undo.undo()
    assert view.hole.row.height.masthead == 8000


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("reading", "17001", "0 to 17\u2009000 from the masthead is allowed"),
        ("reading", "high up", "“high up” is not a length"),
        ("girth", "900 to port of ahead", "more than half way round"),
        ("girth", "there", "is no place round the skin"),
        ("by", "", "a name is needed"),
        ("day", "yesterday", "such as 2026-03-31"),
        ("day", "2026-02-30", "such as 2026-03-31"),
    ],
)
def test_a_wrong_entry_says_what_is_allowed(qtbot, view, field, typed, said):
    """And the layout stays as it was."""
    before = view.session.layout
    dialog = BuiltDialog(view.session, view.session.desk.scene.placed["box-1"], view)
    qtbot.addWidget(dialog)
    dialog.by.setText("Ann")
    getattr(dialog, field).setText(typed)
    dialog.record()
    assert said in dialog.said.text()
    assert view.session.layout is before


def test_no_words_of_the_card_overlap_or_leave_it(qtbot, view):
    """At three sizes and in both units."""
    for size in ((1200, 640), (1400, 900), (3800, 2060)):
        for units in ("metric", "inches"):
            view.session.write_in(units)
            view.resize(*size)
            qtbot.wait(1)
            pieces = view.card.reading.pieces
            for count, piece in enumerate(pieces):
                assert piece.box.right() <= view.card.reading.width() + 1
                assert piece.box.bottom() <= view.card.reading.height() + 1
                # A line's own leading is empty: letters touch only where boxes overlap by more.
                inner = piece.box.adjusted(0, 3, 0, -3)
                over = [o for o in pieces[count + 1 :] if inner.intersects(o.box.adjusted(0, 3, 0, -3))]
                assert not over, (piece, over)


def test_a_reason_is_told_once_and_named_after(qtbot, tmp_path):
    """Whimbrel's fore face: the row that repeats a reason names the row that tells it, its tip tells it."""
    window = a_window(qtbot, tmp_path)
    window.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: window.arrangement is not None and window.arrangement.isVisible())
    window.lay_on_trestles()
    rows = window.trestles.list.list
    last = rows.columnCount() - 1
    items = [rows.item(row, last) for row in range(len(rows.runs))]
    told = [item.text() for item in items if item.text().startswith("held back: ")]
    again = [item for item in items if item.text().startswith("held back, as ")]
    assert again
    assert len(set(told)) == len(told)
    tags = [run.tags for run in rows.runs]
    for item in again:
        named = tags.index(item.text().removeprefix("held back, as "))
        assert named < item.row()
        assert item.toolTip() == items[named].toolTip()


def test_the_window_keeps_ticks_in_the_file(qtbot, tmp_path):
    """By toolbar and keys, saved and read again; with its sails on, most of its holes are held back."""
    window = a_window(qtbot, tmp_path)
    window.files.open(whimbrel(tmp_path))
    window.session.edit(window.session.layout.but(sails=()), "Bend the sails off")
    qtbot.waitUntil(lambda: window.arrangement is not None and window.arrangement.isVisible())
    with qtbot.waitActive(window):
        window.activateWindow()
    qtbot.keyClick(window, Qt.Key.Key_F9)
    assert window.on_trestles
    assert window.trestles.hasFocus()
    assert not window.acts["seen port"].isEnabled()
    name, number = window.trestles.hole.key
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Space)
    qtbot.keyClick(window, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    read = next(own for own in load(tmp_path / "whimbrel.toml").fittings if own.id == name)
    assert steps_done(read, number) == {"marked"}
    qtbot.keyClick(window, Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
    assert window.lying.lie.face == "port"
    qtbot.keyClick(window, Qt.Key.Key_F9, Qt.KeyboardModifier.ShiftModifier)
    assert window.arrangement.isVisible()
    assert window.acts["seen port"].isEnabled()
