"""The tour: every view, panel, menu and dialog is opened, pictured, measured, walked and listened to."""

import importlib
import pkgutil

import pytest
from flaws import against_the_grammar, cut, faint, overlapping
from painted import written
from PySide6.QtWidgets import QDialog, QMenu
from spoken import nameless
from stops import Tour, sanderling
from tabwalk import unreached, unseen_focus

import mastlayout.ui

# The offscreen platform says so of every menu and dialog; no real screen does.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
SMALL, MIDDLE, LARGE = (1280, 800), (1920, 1080), (3840, 2160)
# Theme, size, units, and whether menus, acts and dialogs are met too: they are the same at each size.
QUICK = (
    ("light", SMALL, "metric", True),
    ("dark", MIDDLE, "metric", True),
    ("light", MIDDLE, "inches", False),
    ("light", LARGE, "metric", False),
    ("dark", SMALL, "metric", False),
)
EVERY = tuple((t, s, u, True) for t in ("light", "dark") for s in (SMALL, MIDDLE, LARGE) for u in ("metric", "inches"))


class Flaws(dict):
    """Each flaw once, with the stop where it was met first."""

    def add(self, stop, flaws):
        """Keep what a stop shows."""
        for flaw in flaws:
            self.setdefault(flaw, stop)

    def __str__(self):
        return "\n".join(f"{flaw} (first at: {stop})" for flaw, stop in self.items())


class Looker:
    """Looks at every stop: keeps its picture, and what is wrong with it."""

    def __init__(self, folder, visit):
        self.folder, self.visit = folder, visit
        self.flaws, self.stops = Flaws(), 0

    def __call__(self, name, widget):
        self.stops += 1
        picture = widget.grab().toImage()
        picture.save(str(self.folder / f"{self.visit} {name}.png"), quality=80)
        pieces = written(widget)
        found = (*cut(pieces), *overlapping(pieces), *faint(pieces, picture))
        self.flaws.add(name, (*found, *against_the_grammar(widget, pieces)))


@pytest.fixture
def tour(dressed, qtbot, monkeypatch):
    """Make a tour of a window; ``look`` is called at every stop."""

    def make(look, theme="light", size=MIDDLE, units="metric"):
        return Tour(dressed(theme, size, units), look, qtbot, monkeypatch)

    return make


def go(tour, *, whole=True):
    """Go round."""
    tour.start_page()
    tour.open(sanderling())
    tour.in_hand()
    if whole:
        tour.menus()
        tour.acts()
        tour.buttons()
        tour.questions()


def look_at(tour, pictures, theme, size, units, whole):
    """Go round with a Looker, and say what it found."""
    looker = Looker(pictures, f"{size[0]} {theme} {units}")
    go(tour(looker, theme, size, units), whole=whole)
    assert looker.stops > 10
    assert not looker.flaws, str(looker.flaws)


@pytest.mark.parametrize(("theme", "size", "units", "whole"), QUICK)
def test_nothing_is_cut_written_over_or_faint(tour, pictures, theme, size, units, whole):
    """At every stop, every piece of painted text lies in its room, clear of others, in ink that is seen."""
    look_at(tour, pictures, theme, size, units, whole)


@pytest.mark.full
@pytest.mark.parametrize(("theme", "size", "units", "whole"), EVERY)
def test_nothing_is_cut_in_any_theme_size_or_units(tour, pictures, theme, size, units, whole):
    """The same in every theme, size and units."""
    look_at(tour, pictures, theme, size, units, whole)


@pytest.mark.parametrize("size", [SMALL, MIDDLE])
def test_tab_comes_to_every_control_and_is_seen_there(tour, size):
    """With real Tab keys, both ways round, at every stop; what has the keys looks it."""
    flaws = Flaws()

    def look(name, widget):
        if not isinstance(widget, QMenu):
            flaws.add(name, (*unreached(widget), *unseen_focus(widget)))

    go(tour(look, size=size))
    assert not flaws, str(flaws)


@pytest.mark.parametrize("size", [SMALL, MIDDLE])
def test_a_screen_reader_is_told_a_name_for_everything(tour, size):
    """The accessible tree at every stop; painted views are described too."""
    flaws = Flaws()
    go(tour(lambda name, widget: flaws.add(name, nameless(widget)), size=size))
    assert not flaws, str(flaws)


def test_every_dialog_is_met_and_every_act_that_asks_says_so(tour):
    """No dialog of the program is left out; … stands at the end of acts that ask, and of no others."""
    made = tour(lambda *_stop: None)
    go(made)
    assert _dialogs() - set(made.met) == set()
    asking = {name for name in made.asked if not name.startswith("question")}
    assert asking >= {"Place fitting …"}
    assert [name for name in sorted(asking) if not name.endswith("…")] == []
    promised = {name for name in made.done if name.endswith("…")}
    assert [name for name in sorted(promised) if name not in asking] == []


def _dialogs():
    """Every dialog class under mastlayout.ui."""
    for module in pkgutil.walk_packages(mastlayout.ui.__path__, "mastlayout.ui."):
        importlib.import_module(module.name)
    found, fresh = set(), [QDialog]
    while fresh:
        fresh = [sub for kind in fresh for sub in kind.__subclasses__() if sub not in found]
        found |= set(fresh)
    return {kind for kind in found if kind.__module__.startswith("mastlayout.")}
