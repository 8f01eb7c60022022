"""The panels at every size, and what a window remembers."""

import os
import subprocess
import sys

import pytest
from PySide6.QtCore import QPoint, QRect, QSettings, Qt
from PySide6.QtWidgets import QApplication
from window_builder import a_window, whimbrel

from mastlayout.ui.arrangement import NARROW_BELOW_PX, VAST_LEFT_PART, VAST_RIGHT_PART
from mastlayout.ui.look import DARK, LIGHT

TWICE = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication
from mastlayout.ui.app import dress
from mastlayout.ui.theme import Theme
from mastlayout.ui.window import MainWindow
app, folder = QApplication([]), Path(sys.argv[1])
theme = Theme("light")
dress(app, theme)
window = MainWindow(theme, QSettings(str(folder / "s.ini"), QSettings.Format.IniFormat), folder)
window.resize(1920, 1080)
window.show()
window.files.open(folder / "whimbrel.toml")
app.processEvents()
shown = window.arrangement.panels
picture = window.grab()
print(picture.width(), picture.height(), shown.strip.width(), shown.hand.width())
print(window.arrangement.width_kind)
"""


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on the example Whimbrel, with the radome's bracket in hand."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    made.session.pick("radome-bracket-1")
    return made


def sized(window, qtbot, width, height, kind):
    """Give the window a size and wait until it stands."""
    window.resize(width, height)
    qtbot.waitUntil(lambda: window.arrangement.width_kind == kind)
    QApplication.processEvents()
    return window.arrangement.panels


def test_what_is_asked_for_first_shows_at_1920(window, qtbot):
    """None of these has to be scrolled to, in either units, whatever fitting of the mast is in hand."""
    hand, session = sized(window, qtbot, 1920, 1080, "wide").hand, window.session
    window.setUpdatesEnabled(False)  # laid out, and not painted
    for units in ("metric", "inches"):
        session.write_in(units)
        for name in session.desk.scene.placed:
            session.pick(name)
            QApplication.processEvents()
            assert hand.rest.isVisible()
            seen = hand.rest.viewport().rect()
            for key in ("foot", "holes", "seat", "wall", "cable", "mass_kg"):
                control = hand.grid.control(key)
                at = control.mapTo(hand.rest.viewport(), QPoint(0, 0))
                assert seen.contains(QRect(at, control.size())), (name, key, units)


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (1280, 720), (1200, 700)])
def test_narrow_the_properties_have_a_tab_and_come_back(window, qtbot, width, height):
    """Section, Skin, Properties, List; nothing is lost, and typing there moves the thing."""
    shown = sized(window, qtbot, width, height, "narrow")
    tabs = window.arrangement.tabs
    assert [tabs.tabText(i) for i in range(tabs.count())] == ["Section", "Skin", "Properties", "List"]
    tabs.setCurrentIndex(2)
    assert shown.hand.rest.isVisible()
    assert shown.hand.grid.fields["girth"].isVisible()
    assert shown.hand.further.isVisible()
    assert all(field.isVisible() for field in shown.hand.readings.fields.values())
    assert shown.findings.view.viewport().height() >= 3 * 22
    least = window.arrangement.minimumSizeHint()
    assert least.width() <= window.arrangement.width()
    assert least.height() <= window.arrangement.height()
    assert (window.width(), window.height()) == (width, height)
    sized(window, qtbot, 1920, 1080, "wide")
    assert shown.hand.full.isAncestorOf(shown.hand.rest)
    assert shown.hand.rest.isVisible()


@pytest.mark.parametrize(("width", "height"), [(2560, 1440), (3840, 2160)])
def test_a_wide_window_shows_the_mast_from_a_second_side(window, qtbot, width, height):
    """On the same tape; the first view is never over 1100, 3 m show at 0.7 at most, the skin is whole."""
    shown = sized(window, qtbot, width, height, "vast")
    elevation = shown.elevation
    qtbot.waitUntil(elevation.beside.isVisible)
    assert elevation.canvas.width() <= 1100
    assert elevation.beside.view == "ahead"
    assert elevation.canvas.span.scale <= 0.7
    z = elevation.canvas.span.z_mm(400.0)
    assert elevation.beside.span.y_px(z) == pytest.approx(400.0)
    elevation.beside.show_span(elevation.beside.span.moved(120.0))
    assert elevation.canvas.span.z_mm(520.0) == pytest.approx(z)
    window.session.look_from("ahead")
    assert elevation.beside.view == "starboard"
    if width == 3840:
        qtbot.waitUntil(lambda: shown.skin.width() >= 700)
        assert shown.strip.rig.width() >= 600


def test_columns_keep_their_part_of_a_vast_window(window, qtbot):
    """What stood well on a larger screen does not squeeze the elevation on a smaller one."""
    for width, height, kind in ((3840, 2160, "vast"), (1920, 1080, "wide"), (2560, 1440, "vast")):
        shown = sized(window, qtbot, width, height, kind)
    qtbot.waitUntil(lambda: abs(shown.strip.width() - VAST_LEFT_PART * 2560) < 16)
    qtbot.waitUntil(lambda: abs(shown.hand.width() - VAST_RIGHT_PART * 2560) < 16)
    handle = window.arrangement._splitters["columns"].handle(1)
    at = handle.rect().center()
    qtbot.mousePress(handle, Qt.MouseButton.LeftButton, pos=at)
    qtbot.mouseMove(handle, at + QPoint(-60, 0))
    qtbot.mouseRelease(handle, Qt.MouseButton.LeftButton, pos=at + QPoint(-60, 0))
    part = shown.strip.width() / 2560
    assert part < VAST_LEFT_PART - 0.01
    for width, height, kind in ((1920, 1080, "wide"), (3840, 2160, "vast")):
        sized(window, qtbot, width, height, kind)
    qtbot.waitUntil(lambda: abs(shown.strip.width() - part * 3840) < 16)


def test_view_and_tab_are_remembered(window, qtbot, tmp_path):
    """A window opened later looks from where this one did."""
    sized(window, qtbot, 1280, 800, "narrow")
    window.arrangement.tabs.setCurrentIndex(2)
    window.session.look_from("ahead")
    assert window.close()
    again = a_window(qtbot, tmp_path)
    again.files.open(tmp_path / "whimbrel.toml")
    assert again.session.view == "ahead"
    sized(again, qtbot, 1280, 800, "narrow")
    assert again.arrangement.tabs.tabText(again.arrangement.tabs.currentIndex()) == "Properties"


def test_a_setting_that_is_no_view_is_left_alone(qtbot, tmp_path):
    """The window opens from starboard, at its first tab."""
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    settings.setValue("window/view", "below")
    settings.setValue("window/tab", "last")
    settings.sync()
    window = a_window(qtbot, tmp_path)
    window.files.open(whimbrel(tmp_path))
    assert window.session.view == "starboard"
    sized(window, qtbot, NARROW_BELOW_PX - 1, 800, "narrow")
    assert window.arrangement.tabs.currentIndex() == 0


def test_the_theme_changes_while_all_stands(window):
    """Every panel's ground follows; dark and back."""
    shown = window.arrangement.panels
    for choice, colours in (("dark", DARK), ("light", LIGHT)):
        window.theme.choose(choice)
        for panel in (shown.hand, shown.findings, shown.section, shown.skin, shown.elevation):
            assert f"#{colours.ground}" in panel.styleSheet()
        assert f"#{colours.ground}" in shown.hand.rest.styleSheet()
        assert shown.elevation.canvas.backgroundBrush().color() == colours["ground"]


def test_a_long_name_is_shortened_in_the_toolbar(window):
    """By whole words, and whole in the tooltip."""
    name = "The Slow Boat to Everywhere and Back Again"
    window.toolbar.name_yacht(name)
    assert window.toolbar.yacht.text().endswith(" …")
    assert name.startswith(window.toolbar.yacht.text().removesuffix(" …"))
    assert window.toolbar.yacht.toolTip() == name


def test_at_twice_the_scale_it_is_the_same_page_sharper(tmp_path):
    """In a program of its own: 1920x1080 of layout on 3840x2160 pixels, in the 1920 arrangement."""
    whimbrel(tmp_path)
    scaled = os.environ | {"QT_SCALE_FACTOR": "2", "QT_QPA_PLATFORM": "offscreen"}
    ran = subprocess.run(
        [sys.executable, "-c", TWICE, str(tmp_path)], env=scaled, capture_output=True, text=True, check=True
    )
    width, height, strip, hand, kind = ran.stdout.split()
    assert (int(width), int(height)) == (3840, 2160)
    assert int(strip) == pytest.approx(500, abs=8)
    assert int(hand) == pytest.approx(694, abs=8)
    assert kind == "wide"
