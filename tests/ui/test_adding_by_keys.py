"""Adding with keys alone, from an empty window to a rig; and saved files keep their comments."""

import tomllib

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from window_builder import a_window

from mastlayout.model import adding
from mastlayout.model.around import AHEAD
from mastlayout.model.edits import BOAT, change, remove
from mastlayout.model.fitting import MAST
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document
from mastlayout.storage.saving import save

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def window(qtbot, tmp_path):
    """A window without a layout."""
    made = a_window(qtbot, tmp_path)
    assert QTest.qWaitForWindowActive(made)
    return made


def press(window, *keys):
    """Press keys one after the other, each where the focus is."""
    for key in keys:
        QTest.keyClick(window.focusWidget(), key)


def a_new_mast(window):
    """The start page answered by keys: 17.3 m, 206 by 139, the rest not known yet."""
    QTest.keyClicks(window.focusWidget(), "17.3 m")
    press(window, Qt.Key.Key_Return, Qt.Key.Key_Tab)
    QTest.keyClicks(window.focusWidget(), "206")
    press(window, Qt.Key.Key_Tab)
    QTest.keyClicks(window.focusWidget(), "139")
    press(window, Qt.Key.Key_Return)
    for _question in range(4):
        window.start.unknown.setFocus()
        press(window, Qt.Key.Key_Return)


def add(window, qtbot, words, *typed):
    """Open the form by its key, find a thing by its first letters, type what it lacks, Return."""
    before = window.form
    QTest.keyClick(window.focusWidget() or window, Qt.Key.Key_I, CTRL)
    form = window.form
    assert form is not before
    assert QTest.qWaitForWindowActive(form)
    form.list.setFocus()
    QTest.keyClicks(form.list, words)
    for text in typed:
        QTest.keyClick(form.focusWidget(), Qt.Key.Key_Return)
        QTest.keyClicks(form.focusWidget(), text)
    QTest.keyClick(form.focusWidget(), Qt.Key.Key_Return)
    assert not form.isVisible(), form.said.text()
    assert QTest.qWaitForWindowActive(window)


def test_a_rig_is_entered_from_an_empty_window_with_keys_alone(qtbot, window):
    """Spreaders, shrouds, forestay, sail, halyard, conduit, cable, hole: each in hand when added."""
    a_new_mast(window)
    session = window.session
    add(window, qtbot, "spreaders")
    assert session.layout.spreaders[0].id == session.hand
    add(window, qtbot, "cap")
    add(window, qtbot, "forestay")
    add(window, qtbot, "headsail")
    qtbot.waitUntil(lambda: window.focusWidget() is window.arrangement.panels.hand.grid.stops[0])
    add(window, qtbot, "halyard", "10")
    add(window, qtbot, "conduit")
    add(window, qtbot, "cable")
    add(window, qtbot, "pole", "4.5 m", "12 m", "15 m")
    add(window, qtbot, "wall", "3.2")
    layout = session.layout
    counts = {
        part: len(getattr(layout, part)) for part in ("spreaders", "stays", "sails", "halyards", "poles")
    }
    assert counts == {"spreaders": 2, "stays": 3, "sails": 1, "halyards": 1, "poles": 1}
    assert layout.mast.walls[0].thickness_mm == 3.2
    assert (layout.halyards[0].rope_mm, layout.sails[0].lp_mm) == (10.0, None)
    assert session.undo.count() == 9
    while session.undo.canUndo():
        session.undo.undo()
    assert layout.mast.length_mm == session.layout.mast.length_mm
    assert session.layout.spreaders == ()


def test_an_old_hole_is_added_at_the_height_in_hand(qtbot, window):
    """Where round the mast must be said; its diameter need not."""
    a_new_mast(window)
    window.session.go_to(17300.0 - 8210.0)
    add(window, qtbot, "old", "40 to port of ahead")
    (hole,) = window.session.layout.holes
    assert (hole.from_masthead_mm, str(hole.girth), hole.diameter_mm) == (8210.0, "40 to port of ahead", None)
    assert window.session.z_mm == 17300.0 - 8210.0


def test_the_form_leads_to_catalogue_mast_and_yacht(qtbot, window):
    """Whoever looks for an exit, the section or the waterline in it finds the way."""
    a_new_mast(window)
    hand = window.arrangement.panels.hand
    add(window, qtbot, "sheave")
    assert window.catalogue.isVisible()
    add(window, qtbot, "the mast")
    assert window.session.hand == MAST
    qtbot.waitUntil(lambda: window.focusWidget() is hand.grid.stops[0])
    add(window, qtbot, "the yacht")
    assert window.session.hand == BOAT


@pytest.mark.parametrize("typed", ["nonsense", "-5", "17301"])
def test_a_height_that_cannot_be_is_refused_in_the_form(qtbot, window, typed):
    """The sentence stands in the form, the layout as it was."""
    a_new_mast(window)
    before = window.session.layout
    window.acts["add"].trigger()
    form = window.form
    form.entries["from_masthead_mm"].setText(typed)
    form.button.click()
    assert form.isVisible()
    assert form.said.text()
    assert window.session.layout is before
    form.reject()


def test_what_is_added_is_removed_by_its_key(qtbot, window):
    """A sail; but the mast stays, with the reason said."""
    a_new_mast(window)
    add(window, qtbot, "headsail")
    QTest.keyClick(window, Qt.Key.Key_Delete, CTRL)
    assert window.session.layout.sails == ()
    window.session.pick(MAST)
    QTest.keyClick(window, Qt.Key.Key_Delete, CTRL)
    assert "stay" in window.statusBar().currentMessage()


@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_a_demo_keeps_every_comment_when_things_are_added(demo, tmp_path):
    """Every line of it is still there; what is new reads back; removed again it is byte-identical."""
    path = tmp_path / f"{demo}.toml"
    path.write_bytes((demo_masts() / path.name).read_bytes())
    document = open_document(path)
    layout = document.layout
    for make in (
        lambda b: adding.add_spreaders(b, 9000.0),
        lambda b: adding.add_stays(b, "runner", 3000.0, AHEAD),
        lambda b: adding.add_sail(b, "staysail"),
        lambda b: adding.add_halyard(b, "Topping lift", 10.0),
        adding.add_cable,
        lambda b: adding.add_old_hole(b, 8000.0, AHEAD, 6.5),
        adding.add_conduit,
        lambda b: adding.add_wall(b, 8010.0, 3.4),
    ):
        layout, _name = make(layout)
    layout = change(layout, BOAT, note="Entered in the window")
    save(layout, path, document)
    text, old = path.read_text(encoding="utf-8"), document.data.decode()
    lost = [line for line in old.splitlines() if line not in text.splitlines() and "#" in line]
    assert lost == []
    assert open_document(path).layout == layout
    assert tomllib.loads(text)["boat"]["note"] == "Entered in the window"


def test_removing_leaves_the_comments_of_what_stays(tmp_path):
    """A conduit and an old hole of Sanderling go; no other comment does."""
    path = tmp_path / "sanderling.toml"
    path.write_bytes((demo_masts() / path.name).read_bytes())
    document = open_document(path)
    hole = document.layout.holes[0]
    save(remove(document.layout, hole.id), path, document)
    old, new = document.data.decode().splitlines(), path.read_text(encoding="utf-8").splitlines()
    comments = [line for line in old if line.startswith("#")]
    kept = [line for line in new if line.startswith("#")]
    assert len(comments) - len(kept) <= 1  # its own, over it
    assert open_document(path).layout.holes == document.layout.holes[1:]
