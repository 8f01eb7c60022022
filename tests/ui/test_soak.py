"""Long use: layouts opened again and again, edits without end. What is over must be let go of."""

import gc
import tracemalloc
import weakref

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication
from window_builder import a_window

from mastlayout.desk import Desk
from mastlayout.geometry.scene import Scene
from mastlayout.model.edits import change
from mastlayout.resources import demo_masts

pytestmark = [pytest.mark.full, pytest.mark.anew]
# Caches of fonts, words and outlines fill up in the first rounds; after that no round may leave this much.
MOST_LEFT_KB = 40.0  # of an opening, which reads a file of 60 kB
# Of 2,000 edits: less than one object for every ten.
MOST_LEFT = 200


def settled_of_qt():
    """Let Qt paint and delete what it put off: outside its own loop it deletes only when told."""
    QApplication.processEvents()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def settled():
    """The same, and let Python collect."""
    settled_of_qt()
    gc.collect()


def alive(kind, before=()):
    """The objects of a class that are alive, without those of weak references from before."""
    known = [reference() for reference in before]
    return [
        one for one in gc.get_objects() if isinstance(one, kind) and not any(one is other for other in known)
    ]


@pytest.fixture
def before():
    """What earlier tests of the same run still hold, as weak references: it is not the window's."""
    settled()
    return [weakref.ref(one) for kind in (Desk, Scene) for one in alive(kind)]


@pytest.fixture
def window(before, qtbot, tmp_path):
    """A window on the largest demo."""
    made = a_window(qtbot, tmp_path)
    made.files.open(demo_masts() / "whimbrel.toml")
    yield made
    made.session.undo.setClean()


def grown_kb(work, rounds):
    """Do a piece of work many times; return how much a round leaves behind, after a fifth of them."""
    work(rounds // 5)
    settled()
    before = tracemalloc.get_traced_memory()[0]
    work(rounds - rounds // 5)
    settled()
    return (tracemalloc.get_traced_memory()[0] - before) / 1024 / (rounds - rounds // 5)


def test_opening_layouts_fifty_times_keeps_one(window, before):
    """One desk, one scene and as many Qt objects as after the first."""
    demos = sorted(demo_masts().glob("*.toml"))

    def open_some(times):
        for turn in range(times):
            assert window.files.open(demos[turn % len(demos)])
            placed = window.session.desk.scene.placed
            window.session.pick(next(iter(placed)))
            settled_of_qt()

    open_some(len(demos))
    window.files.open(demos[-1])
    window.session.pick("")
    settled()
    objects = len(window.findChildren(QObject))
    tracemalloc.start()
    grown = grown_kb(open_some, 50)
    tracemalloc.stop()
    window.files.open(demos[-1])
    window.session.pick("")
    settled()
    print(f"\n{objects} Qt objects, grown by {grown:.1f} kB an opening")
    assert len(window.findChildren(QObject)) <= objects
    assert len(alive(Desk, before)) == 1
    assert len(alive(Scene, before)) == 1
    assert grown < MOST_LEFT_KB


def test_two_thousand_edits_and_undos_keep_nothing(window, before):
    """Every edit is taken back, so the undo stack holds one step at most; no object is left of any."""
    session = window.session
    movable = [f for f in session.layout.fittings if f.from_masthead_mm is not None and not f.as_built]

    def edit_some(times):
        for turn in range(times):
            one = movable[turn % len(movable)]
            to = one.from_masthead_mm + 1.0 + turn % 7
            session.edit(change(session.layout, one.id, from_masthead_mm=to), "Move it")
            session.undo.undo()
            if turn % 20 == 0:
                session.pick(one.id)
                settled_of_qt()

    for one in movable:
        session.pick(one.id)  # a label that was never filled has not made all of its parts yet
    # Each thing to each of its seven places: what is kept by place is kept from then on.
    edit_some(7 * len(movable))
    session.pick(movable[0].id)
    settled()
    widgets, objects = len(window.findChildren(QObject)), len(gc.get_objects())
    for _round in range(6):  # more than 2,000 edits, each round as the first was
        edit_some(7 * len(movable))
    session.pick(movable[0].id)
    settled()
    grown = len(gc.get_objects()) - objects
    print(f"\n{widgets} Qt objects, {objects} Python objects, {grown} more after 2,000 edits")
    assert session.undo.count() == 1
    assert len(alive(Scene, before)) == 1
    assert len(window.findChildren(QObject)) <= widgets
    assert grown < MOST_LEFT
