"""The theme: as chosen, or as the system has it, also when that changes in the evening."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QStyleHints

from mastlayout.ui.look import DARK, LIGHT
from mastlayout.ui.theme import Theme


@pytest.fixture
def system(monkeypatch, qapp):
    """Put another scheme in the system's place; the offscreen platform has none of its own."""

    def turn(scheme):
        monkeypatch.setattr(QStyleHints, "colorScheme", lambda _hints: scheme)
        QGuiApplication.styleHints().colorSchemeChanged.emit(scheme)

    turn(Qt.ColorScheme.Light)
    return turn


def test_it_follows_the_system(qtbot, system):
    """Light by day, dark when the system turns; a system that says nothing is light."""
    theme = Theme("system")
    assert theme.colours is LIGHT
    with qtbot.waitSignal(theme.changed):
        system(Qt.ColorScheme.Dark)
    assert theme.colours is DARK
    system(Qt.ColorScheme.Unknown)
    assert theme.colours is LIGHT


@pytest.mark.parametrize(("choice", "colours"), [("light", LIGHT), ("dark", DARK)])
def test_a_choice_stays_whatever_the_system_does(qtbot, system, choice, colours):
    """No view paints itself anew for a change that does not touch it."""
    theme = Theme(choice)
    with qtbot.assertNotEmitted(theme.changed):
        system(Qt.ColorScheme.Dark)
    assert theme.colours is colours


def test_the_choice_goes_from_system_to_dark_and_back(qtbot, system):
    """Each change asks the views once."""
    theme = Theme("system")
    for choice, colours in (("dark", DARK), ("system", LIGHT)):
        with qtbot.waitSignal(theme.changed):
            theme.choose(choice)
        assert theme.colours is colours
    with qtbot.assertNotEmitted(theme.changed):
        theme.choose("system")
