"""The keys of menus and acts: no two the same where both would answer."""

from collections import Counter

import pytest
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QMenu, QMenuBar
from window_builder import a_window, whimbrel


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on the example Whimbrel."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    return made


def mnemonics(actions):
    """The Alt keys of acts, in their order; "" where one has none."""
    return [QKeySequence.mnemonic(act.text()).toString() for act in actions if not act.isSeparator()]


def doubled(keys):
    """Which keys stand there more than once."""
    return [key for key, count in Counter(keys).items() if key and count > 1]


def test_no_menu_has_a_mnemonic_twice(window):
    """A doubled one would only walk between its acts; every act of a menu on the bar has one."""
    menus = [menu for menu in window.findChildren(QMenu) if menu.title()]
    assert len(menus) >= 8
    for menu in menus:
        menu.aboutToShow.emit()
        assert doubled(mnemonics(menu.actions())) == [], menu.title()
    for bar in window.findChildren(QMenuBar):
        for act in bar.actions():
            assert "" not in mnemonics(act.menu().actions()), act.text()


def test_no_key_of_an_act_is_another_shortcut_or_a_menu(window):
    """Acts, shortcuts of panels and the Alt keys of the menu bar, all in one window."""
    acts = [key.toString() for act in window.actions() for key in act.shortcuts()]
    own = [short for short in window.findChildren(QShortcut) if short.parent().window() is window]
    bare = [short.key().toString() for short in own if _wide(short)]
    alt = [key for bar in window.findChildren(QMenuBar) for key in mnemonics(bar.actions())]
    assert len(alt) >= 7
    assert "" not in alt
    assert doubled([*acts, *bare, *alt]) == []


def _wide(short):
    """Tell whether a shortcut answers in the whole window, not only with the keys in its own panel."""
    return short.context().name in ("WindowShortcut", "ApplicationShortcut")
