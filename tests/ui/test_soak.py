"""Long use: layouts opened again and again, edits without end. What is over must be let go of."""

import gc
import tracemalloc

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication
from window_builder import a_window

from mastlayout.desk import Desk
from mastlayout.geometry.scene import Scene
from mastlayout.model.edits import change
from mastlayout.resources import demo_masts

pytestmark = pytest.mark.full
# Caches of fonts, words and outlines fill up in the first rounds; after that no round may leave this much.
LEAST_LEAK_KB = 4.0


def settled():
    """Let Qt do what it put off, and Python collect."""
    QApplication.processEvents()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    gc.collect()


def alive(kind):
    """How many objects of a class are alive."""
    return sum(isinstance(one, kind) for one in gc.get_objects())


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on the largest demo, with memory traced."""
    made = a_window(qtbot, tmp_path)
    made.files.open(demo_masts() / "whimbrel.toml")
    tracemalloc.start()
    yield made
    tracemalloc.stop()
    made.session.undo.setClean()


def grown_kb(work, rounds):
    """Do a piece of work many times; return how much a round leaves behind, after a fifth of them."""
    work(rounds // 5)
    settled()
    before = tracemalloc.get_traced_memory()[0]
    work(rounds - rounds // 5)
    settled()
    return (tracemalloc.get_traced_memory()[0] - before) / 1024 / (rounds - rounds // 5)


def test_opening_layouts_fifty_times_keeps_one(window):
    """One desk, one scene and as many Qt objects as after the first."""
    demos = sorted(demo_masts().glob("*.toml"))

    def open_some(times):
        for turn in range(times):
            assert window.files.open(demos[turn % len(demos)])
            placed = window.session.desk.scene.placed
            window.session.pick(next(iter(placed)))
            QApplication.processEvents()

    open_some(len(demos))
    window.files.open(demos[-1])
    window.session.pick("")
    settled()
    objects = len(window.findChildren(QObject))
    grown = grown_kb(open_some, 50)
    window.files.open(demos[-1])
    window.session.pick("")
    settled()
    print(f"\n{objects} Qt objects, grown by {grown:.1f} kB an opening")
    assert len(window.findChildren(QObject)) <= objects
    assert alive(Desk) == 1
    assert alive(Scene) == 1
    assert grown < LEAST_LEAK_KB * 10  # a file of 60 kB is read with every one


def test_two_thousand_edits_and_undos_keep_nothing(window):
    """Every edit is taken back, so the undo stack holds one step at most."""
    session = window.session
    movable = [f for f in session.layout.fittings if f.from_masthead_mm is not None and not f.as_built]

    def edit_some(times):
        for turn in range(times):
            one = movable[turn % len(movable)]
            session.pick(one.id)
            to = one.from_masthead_mm + 1.0 + turn % 7
            session.edit(change(session.layout, one.id, from_masthead_mm=to), "Move it")
            session.undo.undo()
            if turn % 50 == 0:
                QApplication.processEvents()

    objects = None
    edit_some(len(movable))
    settled()
    objects = len(window.findChildren(QObject))
    grown = grown_kb(edit_some, 2000)
    print(f"\n{objects} Qt objects, grown by {grown:.2f} kB an edit")
    assert session.undo.count() == 1
    assert alive(Scene) == 1
    assert len(window.findChildren(QObject)) <= objects
    assert grown < LEAST_LEAK_KB
