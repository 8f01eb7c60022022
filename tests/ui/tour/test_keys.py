"""One key, one act: shortcuts of the window, mnemonics of each menu and of each dialog."""

import re
from collections import Counter

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu
from stops import sanderling

_MNEMONIC = re.compile(r"&([^&\s])")


def _doubled(items):
    return [item for item, many in Counter(items).items() if many > 1]


def _mnemonic(words):
    found = _MNEMONIC.search(words.replace("&&", ""))
    return found.group(1).lower() if found else ""


def test_no_two_acts_have_one_shortcut(dressed):
    """Every key of every act, first and further ones."""
    window = dressed()
    window.files.open(sanderling())
    keys = [key.toString() for action in window.actions() for key in action.shortcuts()]
    assert len(keys) > 20
    assert _doubled(keys) == []


def test_no_act_takes_a_key_from_typing(dressed):
    """A shortcut without Ctrl or Alt is a function key: letters and digits are typed into fields."""
    window = dressed()
    bare = [key for action in window.actions() for key in action.shortcuts() if len(key.toString()) == 1]
    assert bare == []


def test_no_mnemonic_is_doubled_within_a_menu(dressed):
    """The menu bar, and each menu with its submenus."""
    window = dressed()
    window.files.open(sanderling())
    menus = {"the menu bar": window.menuBar().actions()}
    menus |= {menu.title(): menu.actions() for menu in window.findChildren(QMenu) if menu.title()}
    assert len(menus) > 8
    doubled = {}
    for title, actions in menus.items():
        letters = [_mnemonic(action.text()) for action in actions if not action.isSeparator()]
        doubled[title] = _doubled(letter for letter in letters if letter)
    assert {title: letters for title, letters in doubled.items() if letters} == {}


def test_every_entry_of_the_menus_has_a_mnemonic(dressed):
    """But for names of files and of views, which are the user's or the submenu's own."""
    window = dressed()
    window.files.open(sanderling())
    without = [
        (menu.title(), action.text())
        for menu in window.findChildren(QMenu)
        for action in menu.actions()
        if menu.title() and not action.isSeparator() and not _mnemonic(action.text())
        and menu.menuAction() in {a for bar in [window.menuBar()] for a in bar.actions()}
    ]  # fmt: skip
    assert without == []


def test_mnemonics_of_the_menu_bar_are_no_shortcuts(dressed):
    """Alt and a letter opens a menu; no act may want the same."""
    window = dressed()
    bar = {f"Alt+{_mnemonic(action.text()).upper()}" for action in window.menuBar().actions()}
    keys = {
        key.toString(QKeySequence.SequenceFormat.PortableText)
        for a in window.actions()
        for key in a.shortcuts()
    }
    assert bar & keys == set()
