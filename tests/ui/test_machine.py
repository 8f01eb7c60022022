"""A state machine over the whole window: edits, drags, undo and redo in any order, files in between.

Whatever was done, what the desk kept of scene and report is what a fresh one works out, every panel
shows the layout as it stands, and undoing all writes the very bytes that were opened.
"""

import numpy as np
import pytest
from agreement import alike, assert_same_report, assert_same_scene
from builders import a_fitting, a_foot, a_layout, a_mast, a_spreader, a_stay
from dragging import rest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.exceptions import capture_exceptions
from random_edits import EDITS, HEIGHTS, WHICH, edited
from window_builder import a_window

from mastlayout.checks.report import check, state_of
from mastlayout.documents.schedule.made import made_words
from mastlayout.errors import MastLayoutError
from mastlayout.geometry.scene import build
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document
from mastlayout.storage.saving import as_new_file, save
from mastlayout.ui.elevation.shapes import outline
from mastlayout.ui.findings.rows import rows_of
from mastlayout.ui.hand.things import item_in_hand
from mastlayout.ui.strip.rows import READING, STATE, THING
from mastlayout.ui.strip.things import things
from mastlayout.ui.tapewords import figure

# Shrinking is for whoever looks for a fault that was found: a run of it takes minutes.
PHASES = (Phase.explicit, Phase.generate)
MASTS = ("small", "sanderling", "turnstone", "whimbrel")
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
# The Edit menu's acts on what is in hand, by their keys.
ON_HAND = {
    "turn": (Qt.Key.Key_R, CONTROL),
    "copy": (Qt.Key.Key_C, CONTROL | SHIFT),
    "mirror": (Qt.Key.Key_M, CONTROL | SHIFT),
    "remove": (Qt.Key.Key_Delete, CONTROL),
    "let go": (Qt.Key.Key_A, CONTROL | SHIFT),
}


def opened_bytes(mast):
    """The bytes of a mast's file: a demo as it is, or a small layout written anew."""
    if mast != "small":
        return (demo_masts() / f"{mast}.toml").read_bytes()
    fittings = (
        a_fitting(tag=1),
        a_fitting("box-2", tag=2, name="Hailer", from_masthead_mm=8300.0, girth="bearing 90"),
        a_fitting("box-3", tag=3, name="Horn", from_masthead_mm=8084.0, in_hand=a_foot(across_mm=90)),
    )
    pipe = {
        "id": "pipe", "name": "Conduit A", "bore_mm": 25.0, "outside_mm": 30.0,
        "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 315.0}],
    }  # fmt: skip
    return as_new_file(
        a_layout(
            mast=a_mast(conduits=[pipe]), fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),)
        )
    )


class Machine(RuleBasedStateMachine):
    """One window; ``whole`` tells how often the deep comparisons are made."""

    window = folder = mast = caught = None
    whole = 5

    @initialize()
    def open(self):
        """Open the mast's file anew."""
        self.path, self.steps = self.folder / "layout.toml", 0
        self.first = opened_bytes(self.mast)
        self.path.write_bytes(self.first)
        assert self.window.files.open(self.path)
        self.session = self.window.session
        self.session.look_from("starboard")
        self.session.write_in("metric")
        self.shown = self.window.arrangement.panels
        self.dragging = None

    # -- what a user does

    def press(self, key, act, held=CONTROL):
        """Press a key, with Control where nothing else is said; its act must have been done."""
        if (
            QApplication.activeWindow() is not self.window
        ):  # a window of the test before may have taken this with it
            self.window.activateWindow()
            QTest.qWaitForWindowActive(self.window)
        done = []
        told = self.window.acts[act].triggered.connect(lambda *_: done.append(act))
        QTest.keyClick(self.window, key, held)
        self.window.acts[act].triggered.disconnect(told)
        assert done, (act, QApplication.activeWindow(), QApplication.focusWidget())

    def edit(self, drawn):
        """Make one edit; what is refused leaves the layout as it was."""
        before = self.session.layout
        try:
            layout = edited(self.session.desk, drawn)
        except MastLayoutError:
            layout = None
        if layout is not None:
            try:
                self.session.edit(layout, f"{drawn[0]} it")
            except MastLayoutError:
                assert self.session.layout is before

    @precondition(lambda self: self.dragging is None)
    @rule(drawn=EDITS)
    def edit_one(self, drawn):
        """One step."""
        self.edit(drawn)

    @rule(drawn=st.lists(EDITS, min_size=1, max_size=3))
    def preview(self, drawn):
        """A gesture is under way."""
        if self.dragging is None:
            self.dragging = self.session.layout
        for one in drawn:
            try:
                layout = edited(self.session.desk, one)
                if layout is not None:
                    self.session.preview(layout)
            except MastLayoutError:
                continue

    @precondition(lambda self: self.dragging is not None)
    @rule(keep=st.booleans())
    def let_go(self, keep):
        """The gesture ends: one step, or what was before it."""
        before, self.dragging = self.dragging, None
        count = self.session.undo.index()
        if keep:
            self.session.edit(self.session.layout, "Drag it")
            assert self.session.undo.index() <= count + 1
        else:
            self.session.cancel()
            assert self.session.layout is before
            assert self.session.undo.index() == count

    @precondition(lambda self: self.dragging is None)
    @rule(times=st.integers(1, 4))
    def undo(self, times):
        """By its key."""
        for _time in range(times):
            if self.session.undo.canUndo():
                self.press(Qt.Key.Key_Z, "undo")

    @precondition(lambda self: self.dragging is None)
    @rule(times=st.integers(1, 4))
    def redo(self, times):
        """By its key."""
        for _time in range(times):
            if self.session.undo.canRedo():
                self.press(Qt.Key.Key_Z, "redo", CONTROL | SHIFT)

    @rule()
    def save(self):
        """By its key; a gesture under way is not in the file."""
        asked = len(self.window.asks.asked)
        self.press(Qt.Key.Key_S, "save")
        kept = self.dragging or self.session.layout
        assert self.window.asks.asked[asked:] == []
        assert alike(open_document(self.path).layout, kept)
        self.dragging = None

    @precondition(lambda self: self.dragging is None)
    @rule()
    def close_and_open(self):
        """What was saved is what is read; undo begins anew."""
        layout = self.session.layout
        assert self.window.files.save()
        self.first = self.path.read_bytes()
        assert self.window.files.open(self.path)
        assert alike(self.session.layout, layout)
        assert not self.session.undo.canUndo()

    @rule(which=WHICH)
    def pick(self, which):
        """From the list, by a click on its row."""
        rows = self.shown.strip.list.view
        if rows.model().rowCount():
            index = rows.model().index(which % rows.model().rowCount(), 0)
            if not index.data(THING).id:
                return
            rows.scrollTo(index)
            at = rows.visualRect(index).center()
            QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=at)
            assert self.session.hand == index.data(THING).id

    @rule(z=HEIGHTS)
    def go_to(self, z):
        """Another height in hand."""
        self.session.go_to(z)

    @rule(view=st.sampled_from(["starboard", "port", "ahead"]))
    def look_from(self, view):
        """The elevation turns."""
        self.window.acts[f"seen {view}"].trigger()

    @rule(units=st.sampled_from(["metric", "inches"]))
    def write_in(self, units):
        """Other units."""
        self.window.acts[f"units {units}"].trigger()

    @precondition(lambda self: self.dragging is None)
    @rule(key=st.sampled_from([Qt.Key.Key_Up, Qt.Key.Key_Down]), held=st.sampled_from(
        [Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.AltModifier]
    ))  # fmt: skip
    def arrow(self, key, held):
        """An arrow key on the elevation."""
        self.shown.elevation.canvas.setFocus()
        QTest.keyClick(self.shown.elevation.canvas, key, held)

    @precondition(lambda self: self.dragging is None)
    @rule(act=st.sampled_from(sorted(ON_HAND)))
    def act_on_hand(self, act):
        """An act of the Edit menu by its key, where it can be done: one step at most."""
        if self.window.acts[act].isEnabled():
            index = self.session.undo.index()
            key, held = ON_HAND[act]
            self.press(key, act, held)
            assert self.session.undo.index() - index in (0, 1)

    @precondition(lambda self: self.dragging is None)
    @rule(act=st.sampled_from(["next", "previous"]))
    def go_to_finding(self, act):
        """Another finding is opened."""
        self.window.acts[act].trigger()

    @precondition(lambda self: self.dragging is None)
    @rule(which=WHICH, down=st.integers(-150, 150), how=st.sampled_from(["release", "escape", "right click"]))
    def drag(self, which, down, how):
        """With the mouse on the elevation; the thing is taken by its label, which nothing covers."""
        canvas = self.shown.elevation.canvas
        if not canvas.labels:
            return
        label = canvas.labels[which % len(canvas.labels)]
        start = canvas.label_box(label).center().toPoint()
        target, left = canvas.viewport(), Qt.MouseButton.LeftButton
        QTest.mousePress(target, left, pos=start)
        before, count = self.session.layout, self.session.undo.index()
        for part in (0.5, 1.0):
            QTest.mouseMove(target, start + QPoint(0, round(down * part)))
        if how == "escape":
            QTest.keyClick(canvas, Qt.Key.Key_Escape)
        elif how == "right click":
            QTest.mousePress(target, Qt.MouseButton.RightButton, pos=start)
            QTest.mouseRelease(target, Qt.MouseButton.RightButton, pos=start)
        QTest.mouseRelease(target, left, pos=start + QPoint(0, down))
        if how != "release":
            assert self.session.layout is before
            assert self.session.undo.index() == count

    # -- what must hold

    @invariant()
    def agrees(self):
        """The desk with a fresh one, every few steps and at the end; panels with the desk at every step."""
        if self.dragging is not None:
            rest()
        QApplication.processEvents()
        assert not self.caught
        self.steps += 1
        if self.steps % self.whole == 0:
            self.whole_agrees()
        self.list_agrees()
        self.elevation_agrees()

    def whole_agrees(self):
        """Scene, report, file and the costlier panels."""
        desk = self.session.desk
        fresh = check(build(desk.layout))
        assert_same_scene(desk.scene, fresh.scene)
        assert_same_report(desk.report, fresh)
        other = self.folder / "other.toml"
        save(desk.layout, other, desk.document)
        assert alike(open_document(other).layout, desk.layout)
        self.findings_agree()
        self.rest_agrees()

    def list_agrees(self):
        """A row for each thing, with its state and reading."""
        rows, session = self.shown.strip.list.rows, self.session
        said = [
            (i.data(THING), i.data(STATE), i.data(READING))
            for n in range(rows.rowCount())
            if (i := rows.index(n))
        ]
        wanted = things(session.desk.scene)
        assert [one[0] for one in said] == wanted
        states = session.desk.report.states
        for (thing, state, reading), one in zip(said, wanted, strict=True):
            # A sail or a line has its sort in the place of a reading; no rule is about it alone.
            stands = bool(one.id) and not one.sort
            assert state == states.get(one.id, "clear" if stands else ""), thing
            assert reading == (figure(session, one.z_mm) if stands else one.sort), thing

    def elevation_agrees(self):
        """An outline for each placed fitting; every label says its name, state and reading."""
        canvas, desk = self.shown.elevation.canvas, self.session.desk
        assert canvas._fittings.keys() == desk.scene.placed.keys()
        for placed in canvas.labels:
            label, thing = placed.label, desk.scene.placed[placed.label.id]
            assert label.words == thing.fitting.name
            assert label.state == state_of(desk.report, label.id)
            assert label.reading == figure(self.session, thing.z_mm)
            assert label.made == made_words(thing)
            assert label.in_hand == (label.id == self.session.hand)
        if self.steps % self.whole == 0:
            for name, item in canvas._fittings.items():
                fresh = outline(desk.scene.placed[name], self.session.view)
                assert np.array_equal(item.outline.low, fresh.low)
                assert np.array_equal(item.outline.high, fresh.high)
                assert item.in_hand == (name == self.session.hand)

    def findings_agree(self):
        """The table says what the report says."""
        panel = self.shown.findings
        assert panel.table.rows == rows_of(self.session.desk, self.session.units)

    def rest_agrees(self):
        """Strip, section and skin hold what they would gather anew."""
        scene, strip = self.session.desk.scene, self.shown.strip.rig
        assert strip.picture.fittings.keys() == scene.placed.keys()
        for view in (self.shown.section.canvas, self.shown.skin.canvas):
            assert view.content == view.gather()
        assert self.shown.hand.full.isVisibleTo(self.shown.hand) == (item_in_hand(self.session) is not None)

    def teardown(self):
        """Undo all: the file's first bytes; redo all: the layout that was there."""
        if not hasattr(self, "session"):
            return
        if self.dragging is not None:
            self.session.cancel()
        self.whole_agrees()
        last, index = self.session.layout, self.session.undo.index()
        self.session.undo.setIndex(0)
        self.whole_agrees()
        assert self.window.files.save()
        assert self.path.read_bytes() == self.first
        self.session.undo.setIndex(index)
        assert self.session.layout == last
        self.whole_agrees()
        self.window.files.save()


def run(qtbot, folder, mast, runs, steps, whole, form="short"):
    """Run a machine on one mast, in one window."""
    window = a_window(qtbot, folder, leave="discard", overwrite="overwrite")
    with capture_exceptions() as caught:
        made = type("Machine", (Machine,), {
            "window": window, "folder": folder, "mast": mast, "caught": caught, "whole": whole
        })  # fmt: skip
        # A window is the same for every run of the machine; only what is open in it is new.
        run_state_machine_as_test(made, settings=settings(
            settings.get_profile(form), max_examples=runs, stateful_step_count=steps,
            suppress_health_check=list(HealthCheck), print_blob=False, report_multiple_bugs=False,
            phases=PHASES,
        ))  # fmt: skip
    window.session.undo.setClean()


@pytest.mark.parametrize("mast", MASTS)
def test_whatever_is_done_the_window_agrees(qtbot, tmp_path, mast):
    """Three hundred steps over the four masts."""
    run(qtbot, tmp_path, mast, runs=3, steps=25, whole=5)


@pytest.mark.full
@pytest.mark.parametrize("mast", MASTS)
def test_whatever_is_done_for_long_the_window_agrees(qtbot, tmp_path, mast):
    """Ten thousand steps over the four masts; every fifth is compared whole, and each run's ends."""
    run(qtbot, tmp_path, mast, runs=50, steps=50, whole=5, form="long")
