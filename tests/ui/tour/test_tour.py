"""The tour: every view, panel, menu and dialog is opened, pictured, measured, walked and listened to."""

import importlib
import os
import pkgutil

import pytest
from flaws import against_the_grammar, cut, faint, overlapping, pixels
from painted import Reader, shown_widgets
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QDialog, QMenu, QWidget
from spoken import nameless
from stops import Tour, sanderling
from tabwalk import controls, unreached, unseen_focus

import mastlayout.ui

# The offscreen platform says so of every menu and dialog; no real screen does.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
SMALL, MIDDLE, LARGE = (1280, 800), (1920, 1080), (3840, 2160)
# Theme, size, units, and whether menus, acts and dialogs are met too; None meets the views alone.
QUICK = (
    ("light", SMALL, "metric", True),
    ("dark", MIDDLE, "metric", False),
    ("dark", SMALL, "inches", None),
    ("light", LARGE, "metric", None),
)
EVERY = tuple(
    (t, s, u, True) for t in ("light", "dark") for s in (SMALL, MIDDLE, LARGE) for u in ("metric", "inches")
)


class Flaws(dict):
    """Each flaw once, with the stop where it was met first."""

    def add(self, stop, flaws):
        """Keep what a stop shows."""
        for flaw in flaws:
            self.setdefault(flaw, stop)

    def __str__(self):
        return "\n".join(f"{flaw} (first at: {stop})" for flaw, stop in self.items())


class Looker:
    """Looks at every stop: which kinds of widget show, and what is wrong with it.

    It keeps the pictures in a folder where they are asked for, else of the stops that have a flaw.
    """

    def __init__(self, folder, visit, *, every):
        self.folder, self.visit, self.every = folder, visit, every
        self.flaws, self.stops, self.kinds = Flaws(), 0, set()
        self._reader, self._walked = Reader(), set()

    def __call__(self, name, widget):
        """Look at a window, a menu or a dialog."""
        self.stops += 1
        picture = widget.grab().toImage()
        seen = pixels(picture)
        pieces, fresh = self._reader.read(widget, seen)
        self.kinds |= {type(one) for one in shown_widgets(widget)}
        said, known = (*against_the_grammar(widget, fresh), *nameless(widget)), len(self.flaws)
        self.flaws.add(name, (*cut(fresh), *overlapping(pieces), *faint(fresh, seen), *said))
        if not isinstance(widget, QMenu):
            self._walk(name, widget)
        if self.every or len(self.flaws) > known:
            picture.save(str(self.folder / f"{self.visit} {name}.png"), quality=90)

    def _walk(self, name, widget):
        """Walk with Tab where controls show that were not met before."""
        met = {control for control in controls(widget) if control not in self._walked}
        if met:
            self._walked |= met
            self.flaws.add(name, (*unreached(widget), *unseen_focus(widget, met)))


@pytest.fixture
def tour(dressed, qtbot, monkeypatch):
    """Make a tour of a window; ``look`` is called at every stop."""

    def make(look, theme="light", size=MIDDLE, units="metric"):
        return Tour(dressed(theme, size, units), look, qtbot, monkeypatch)

    return make


def go(tour, *, whole=True):
    """Go round."""
    if whole is not None:
        tour.start_page()
    tour.open(sanderling())
    tour.in_hand(states=bool(whole), most=2 if whole is None else None)
    tour.rooms()
    tour.heights()
    tour.trestles()
    if whole:
        tour.as_built()
        tour.menus()
        tour.acts()
        tour.buttons()
        tour.questions()
        tour.widen()


def look_at(tour, pictures, theme, size, units, whole):
    """Go round with a Looker, and say what it found."""
    looker = Looker(pictures, f"{size[0]} {theme} {units}", every="MASTLAYOUT_PICTURES" in os.environ)
    gone = tour(looker, theme, size, units)
    go(gone, whole=whole)
    assert looker.stops > 10
    assert not looker.flaws, str(looker.flaws)
    if whole:
        _none_missing(gone, looker.kinds)


@pytest.mark.parametrize(("theme", "size", "units", "whole"), QUICK)
def test_every_stop_of_the_tour_is_without_flaw(tour, pictures, theme, size, units, whole):
    """Text lies in its room and is seen; Tab comes everywhere; all has a name; words keep the grammar."""
    look_at(tour, pictures, theme, size, units, whole)


@pytest.mark.full
@pytest.mark.parametrize(("theme", "size", "units", "whole"), EVERY)
def test_every_stop_in_any_theme_size_and_units(tour, pictures, theme, size, units, whole):
    """The same in every theme, size and units."""
    look_at(tour, pictures, theme, size, units, whole)


def _none_missing(tour, kinds):
    """No dialog or other widget of the program is left out; … ends the acts that ask, and no others."""
    assert _own(QDialog) - set(tour.met) == set()
    leaves = {kind for kind in _own(QWidget) if not kind.__subclasses__()}
    assert leaves - kinds == set()
    acts = {action for action in tour.window.findChildren(QAction) if action.text() and not action.menu()}
    listed = {action for action in tour.window.actions() if action.text()}
    assert [action.text() for action in acts - listed if action.shortcuts()] == []
    asking = {name for name in tour.asked if not name.startswith("question")}
    assert asking >= {"Place fitting …"}
    assert [name for name in sorted(asking) if not name.endswith("…")] == []
    promised = {name for name in tour.done if name.endswith("…")}
    assert [name for name in sorted(promised) if name not in asking] == []


def _own(root):
    """Every class of the program that is a ``root``, wherever under mastlayout.ui it stands."""
    for module in pkgutil.walk_packages(mastlayout.ui.__path__, "mastlayout.ui."):
        importlib.import_module(module.name)
    found, fresh = set(), [root]
    while fresh:
        fresh = [sub for kind in fresh for sub in kind.__subclasses__() if sub not in found]
        found |= set(fresh)
    return {kind for kind in found if kind.__module__.startswith("mastlayout.")}
