"""The window around the panels: arrangement, acts, state."""

import os
import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel
from window_builder import a_window, edited, whimbrel

from mastlayout.checks.finding import STANDINGS
from mastlayout.ui.app import begin, dress, failed
from mastlayout.ui.arrangement import NARROW_RIGHT_PX
from mastlayout.ui.findings.table import ROW
from mastlayout.ui.keys import keys_dialog


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on the example Whimbrel."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    with qtbot.waitActive(made):
        made.activateWindow()
    return made


def left_of(widget, window):
    """Where a widget begins in the window, px."""
    return widget.mapTo(window, widget.rect().topLeft()).x()


def test_wide_panels_stand_side_by_side(window):
    """Strip, elevation, hand from left to right; section and skin share a row; the grammar's widths."""
    shown = window.arrangement.panels
    lefts = [left_of(panel, window) for panel in (shown.strip, shown.elevation, shown.hand)]
    assert lefts == sorted(lefts)
    assert shown.strip.width() == pytest.approx(500, abs=8)
    assert shown.hand.width() == pytest.approx(694, abs=8)
    assert left_of(shown.section, window) < left_of(shown.skin, window)
    assert shown.section.width() == pytest.approx(312, abs=8)
    assert window.arrangement.tabs is None


def test_narrow_panels_move_into_tabs_and_back(qtbot, window):
    """Nothing is made anew: the same panels stand elsewhere."""
    shown = window.arrangement.panels
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: window.arrangement.tabs is not None)
    tabs = window.arrangement.tabs
    assert [tabs.tabText(i) for i in range(2)] == ["Section", "Skin"]
    assert tabs.widget(0) is shown.section
    assert shown.strip.compact
    qtbot.waitUntil(lambda: abs(shown.hand.width() - NARROW_RIGHT_PX) < 8)
    window.resize(1920, 1080)
    qtbot.waitUntil(lambda: window.arrangement.tabs is None)
    qtbot.waitUntil(shown.section.isVisible)
    assert left_of(shown.section, window) < left_of(shown.skin, window)
    assert window.arrangement.panels is shown


def test_splitters_keep_their_places(qtbot, tmp_path, window):
    """A window opened later stands as this one was left."""
    columns = window.arrangement._splitters["columns"]
    columns.setSizes([560, 600, 744])
    left = columns.sizes()
    assert window.close()
    again = a_window(qtbot, tmp_path)
    again.files.open(tmp_path / "whimbrel.toml")
    assert again.arrangement._splitters["columns"].sizes() == left


def test_undo_names_the_step(qtbot, window):
    """Menu and keys take back the step that they name."""
    assert not window.acts["undo"].isEnabled()
    edited(window.session)
    assert window.acts["undo"].text().replace("&", "") == "Undo name the yacht"
    qtbot.keyClick(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.session.layout.boat.name == "Whimbrel"
    assert window.acts["redo"].text().replace("&", "") == "Redo name the yacht"


def test_a_layout_written_over_another_begins_its_own_undo(window, tmp_path):
    """Nothing of the first can be undone in the second."""
    edited(window.session)
    window.files.open(tmp_path / "whimbrel.toml")
    assert not window.acts["undo"].isEnabled()
    assert not window.files.unsaved


def test_views_and_units_are_chosen_by_key_and_menu(qtbot, window):
    """The toolbar's button follows the key; the status line names the units."""
    qtbot.keyClick(window, Qt.Key.Key_F8)
    assert window.session.view == "ahead"
    assert window.acts["seen ahead"].isChecked()
    assert not window.acts["seen starboard"].isChecked()
    window.acts["units inches"].trigger()
    assert window.session.units == "inches"
    assert "Feet and inches" in window._saved.text()


def test_the_state_says_whether_all_is_saved(window):
    """Saved, then not, then saved by undo."""
    assert window._saved.text().endswith("   Saved.")
    edited(window.session)
    assert window._saved.text().endswith("Not saved.")
    window.session.undo.undo()
    assert window._saved.text().endswith("   Saved.")


def test_next_finding_goes_from_loud_to_quiet(window):
    """Every one is met once; then it begins again, and one step back is the one before."""
    session = window.session
    standings = [STANDINGS.index(finding.standing) for finding in session.desk.report.open]
    sentences = [(session.desk.sentence(finding), finding) for finding in session.desk.report.open]
    met = []
    for _finding in standings:
        window.go_to_finding(1)
        said = window.statusBar().currentMessage()
        found = [finding for sentence, finding in sentences if sentence == said]
        assert session.hand in {finding.things[0] for finding in found}
        met.append(STANDINGS.index(found[0].standing))
    assert met == sorted(standings)
    window.go_to_finding(1)
    first = window.statusBar().currentMessage()
    window.go_to_finding(1)
    window.go_to_finding(-1)
    assert window.statusBar().currentMessage() == first


def test_a_fitting_is_placed_at_the_height_in_hand(qtbot, window):
    """By keys alone: search, Return; it is new, in hand, and one step of undo."""
    session = window.session
    session.go_to(9000.0)
    before = {fitting.id for fitting in session.layout.fittings}
    qtbot.keyClick(window, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(window.catalogue.search, "camera")
    qtbot.keyClick(window.catalogue.search, Qt.Key.Key_Return)
    (new,) = [fitting for fitting in session.layout.fittings if fitting.id not in before]
    assert (new.from_masthead_mm, new.new, new.id) == (17300.0 - 9000.0, True, session.hand)
    assert session.undo.count() == 1
    assert window.focusWidget() is window.arrangement.panels.hand.readings.fields["masthead"]
    assert window.arrangement.panels.strip.isVisible()


def test_what_something_needs_is_not_removed(window):
    """The reason is said and the thing stays."""
    session = window.session
    fitting = next(f for f in session.layout.fittings if f.mount or f.on not in ("mast",))
    host = next(f for f in session.layout.fittings if f.id == fitting.on) if fitting.mount else None
    session.pick(host.id if host else fitting.on)
    before = session.layout
    window.acts["remove"].trigger()
    assert session.layout is before
    assert window.statusBar().currentMessage()


def test_every_control_of_the_toolbar_has_a_name_and_the_tab_key(window):
    """Each button can be reached and read out."""
    buttons = [w for w in window.toolbar.children() if hasattr(w, "accessibleName") and hasattr(w, "click")]
    assert len(buttons) >= 9
    for button in buttons:
        assert button.accessibleName()
        assert button.focusPolicy() & Qt.FocusPolicy.TabFocus


def test_no_two_acts_share_a_key(window):
    """An act whose key another has would do nothing."""
    keys = [key.toString() for act in window.actions() for key in act.shortcuts()]
    assert len(keys) == len(set(keys))
    assert keys_dialog(window).windowTitle() == "Keys"


def test_the_theme_changes_every_ground(qapp, qtbot, tmp_path):
    """Dark is chosen in the menu; the palette of Qt's own controls follows."""
    window = a_window(qtbot, tmp_path)
    dress(qapp, window.theme)
    window.acts["theme dark"].trigger()
    assert QApplication.palette().window().color() == window.theme.colours["window"]
    assert window.theme.dark
    window.acts["theme light"].trigger()


def test_a_named_layout_opens_at_once(qtbot, tmp_path):
    """What the command line does after the window stands."""
    window = a_window(qtbot, tmp_path)
    begin(window, whimbrel(tmp_path))
    assert window.windowTitle().startswith("Whimbrel")
    assert window.toolbar.isVisible()


def test_the_command_opens_the_window_and_returns_when_it_is_closed(tmp_path):
    """`mastlayout LAYOUT` in a process of its own: the layout opens, closing ends with 0."""
    code = (
        "import sys; from mastlayout.ui import app; from mastlayout.__main__ import main; begin = app.begin\n"
        "def and_close(window, path):\n"
        "    begin(window, path); print(window.windowTitle()); window.close()\n"
        "app.begin = and_close; sys.exit(main(sys.argv[1:]))"
    )
    homes = {"XDG_CONFIG_HOME": str(tmp_path / "config"), "XDG_DATA_HOME": str(tmp_path / "data")}
    done = subprocess.run(
        [sys.executable, "-c", code, str(whimbrel(tmp_path))],
        env=os.environ | homes | {"QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert (done.returncode, done.stdout) == (0, "Whimbrel[*] – mastlayout\n"), done.stderr


def test_a_step_that_fails_keeps_a_copy_and_says_so(tmp_path, window):
    """The window goes on; what is on the desk is in the recovery folder."""
    edited(window.session)
    failed(window, ValueError, ValueError("a slot broke"), None)
    assert "a slot broke" in window.statusBar().currentMessage()
    assert list((tmp_path / "recovery").glob("*.toml"))


def test_the_strip_frames_what_the_elevation_shows_and_moves_it(tmp_path, qtbot):
    """A wish of the strip puts the elevation's middle there, and the frame follows."""
    window = a_window(qtbot, tmp_path)
    begin(window, whimbrel(tmp_path))
    panels = window.arrangement.panels
    panels.strip.rig.span_wanted.emit(4000.0)
    span = panels.elevation.canvas.span
    assert span.centre_z_mm == 4000.0
    assert panels.strip.rig._span == (span.low_z_mm, span.high_z_mm)


def test_a_finding_of_a_hole_takes_its_fitting_in_hand(tmp_path, qtbot):
    """A hole is no thing to hold; the fitting that it belongs to is, and the finding stays chosen."""
    window = a_window(qtbot, tmp_path)
    begin(window, whimbrel(tmp_path))
    window.first_check.end()
    panel = window.arrangement.panels.findings
    rows = [at for at in range(panel.shown.rowCount()) if _about_a_hole(panel.shown.index(at, 0).data(ROW))]
    assert rows
    for at in rows:
        panel.view.selectRow(at)
        panel.view.clicked.emit(panel.shown.index(at, 0))
        assert window.session.hand == panel.chosen.findings[0].subjects[0].split("/h")[0]
        assert panel.view.currentIndex().row() == at


def _about_a_hole(row):
    return any("/h" in found.subjects[0] for found in row.findings if found.measure is None)


def test_a_mark_in_a_yachts_name_stays_in_the_title(window):
    """Qt reads [*] as the place of its own mark: doubled it is the name's, as Qt's documentation says."""
    session = window.session
    session.edit(session.layout.but(boat=session.layout.boat.but(name="Star [*]")), "Name her")
    assert window.windowTitle() == "Star [*][*][*] – mastlayout"
    assert window.isWindowModified()


def test_a_long_name_leaves_room_beside_a_long_step(window, qapp):
    """At 1280 the row of the toolbar is no wider than the window."""
    window.resize(1280, 800)
    session = window.session
    boat = session.layout.boat.but(name="Wilhelmine von Schleswig-Holstein")
    session.edit(session.layout.but(boat=boat), "Rename the yacht to something nobody can read whole")
    qapp.processEvents()
    assert window.toolbar._row.minimumSize().width() <= window.width()


def test_the_list_of_keys_names_those_of_the_chart(window, qtbot):
    """And of the slider below the section; it fits a window of 1280 by 800."""
    dialog = keys_dialog(window)
    qtbot.addWidget(dialog)
    words = " ".join(label.text() for label in dialog.findChildren(QLabel))
    for said in (
        "In the chart of heights: the next fitting",
        "to the masthead, to the heel",
        "ease the main",
    ):
        assert said in words
    assert dialog.sizeHint().width() <= 1280
    assert dialog.sizeHint().height() <= 800
