"""Pictures of the views: what is exported is what is seen, with its caption, text as text."""

import datetime as dt
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from PySide6.QtCore import QByteArray, Qt
from PySide6.QtGui import QGuiApplication, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from window_builder import a_window, whimbrel

from mastlayout.errors import FileError
from mastlayout.ui.pictures.picture import image, picture
from mastlayout.ui.pictures.titles import VIEWS
from mastlayout.ui.pictures.views import shown

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def window(qtbot, tmp_path):
    """A window on the example Whimbrel, its radome in hand."""
    made = a_window(qtbot, tmp_path)
    made.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: made.arrangement is not None and made.arrangement.isVisible())
    made.session.pick(made.session.layout.fittings[0].id)
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    QApplication.processEvents()
    return made


def parsed(svg):
    """The SVG as a tree."""
    return ET.fromstring(svg)  # noqa: S314 - our own


def taken(window, view, ending):
    """A picture's bytes and what was shown."""
    one = shown(window.session, window.arrangement.panels, view)
    return picture(one.widget, one.caption, window.theme.colours, ending), one


def greys(made):
    """An image as grey levels, averaged over squares of 5 so that edges may differ by a hair."""
    grey = made.convertToFormat(QImage.Format.Format_Grayscale8)
    levels = np.frombuffer(grey.constBits(), np.uint8).reshape(grey.height(), grey.bytesPerLine())
    high, wide = grey.height() // 5 * 5, grey.width() // 5 * 5
    return levels[:high, :wide].reshape(high // 5, 5, wide // 5, 5).mean(axis=(1, 3))


@pytest.mark.parametrize("view", VIEWS)
def test_png_is_the_widget_at_twice_its_size(window, view):
    """Averaged back to the screen's size it is what the screen shows; below stands the caption."""
    png, one = taken(window, view, ".png")
    made = QImage.fromData(png)
    assert made.width() == 2 * one.widget.width()
    assert made.height() > 2 * one.widget.height()
    seen = one.widget.grab().toImage()
    half = made.copy(0, 0, made.width(), 2 * seen.height()).scaled(
        seen.size(), Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
    )
    apart = np.abs(greys(half) - greys(seen))
    # A line that keeps one pixel at any size is fainter at twice the size: no more may differ.
    assert apart.mean() < 4.0
    band = made.copy(0, 2 * seen.height(), made.width(), made.height() - 2 * seen.height())
    assert greys(band).min() < 230.0


@pytest.mark.parametrize("view", ["section", "rig"])
def test_svg_drawn_again_is_what_is_seen(window, view):
    """Drawn by Qt's own reader, which knows no clip path: two views where nothing runs far over an edge."""
    svg, one = taken(window, view, ".svg")
    reader = QSvgRenderer(QByteArray(svg))
    assert reader.isValid()
    seen = image(one.widget, one.caption, window.theme.colours)
    again = QImage(seen.size() / 2, QImage.Format.Format_RGB32)
    again.fill(window.theme.colours["ground"])
    painter = QPainter(again)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    reader.render(painter)
    painter.end()
    half = seen.scaled(
        again.size(), Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
    )
    half.setDevicePixelRatio(1.0)
    apart = np.abs(greys(half) - greys(again))
    assert apart.mean() < 4.0
    assert (apart > 80).mean() < 0.005


@pytest.mark.parametrize("view", VIEWS)
def test_svg_keeps_its_words_and_no_dots(window, view):
    """Every word of the caption is text; nothing is an image; every clip is defined; no mark is left."""
    svg, one = taken(window, view, ".svg")
    root = parsed(svg)
    words = " ".join("".join(text.itertext()) for text in root.iter(f"{SVG}text"))
    assert set(one.caption.split()) <= set(words.split())
    assert not list(root.iter(f"{SVG}image"))
    assert "\ue0c1" not in svg.decode()
    assert "non-scaling-stroke" not in svg.decode()
    defined = {clip.get("id") for clip in root.iter(f"{SVG}clipPath")}
    used = {g.get("clip-path")[5:-1] for g in root.iter(f"{SVG}g") if g.get("clip-path")}
    assert used <= defined
    assert used
    assert root.get("width") == str(one.widget.width())


def test_the_skin_is_cut_where_its_pieces_end(window):
    """Each piece of the broken skin has its clip path, in the picture's own pixels."""
    svg, one = taken(window, "skin", ".svg")
    canvas = window.arrangement.panels.skin.canvas
    at = canvas.mapTo(one.widget, canvas.rect().topLeft())
    clips = [
        tuple(float(rect.get(side)) for side in ("x", "y", "width", "height"))
        for rect in parsed(svg).iter(f"{SVG}rect")
        if rect.get("fill") is None and rect.get("stroke") is None
    ]
    for piece in canvas.development.pieces:
        box = piece.clip.translated(at.x(), at.y())
        assert any(
            found == pytest.approx((box.x(), box.y(), box.width(), box.height()), abs=0.01)
            for found in clips
        )  # fmt: skip


def test_the_caption_says_what_where_and_when(window):
    """Yacht, view, side, height in hand, units and the day."""
    window.session.go_to(17300.0 - 9000.0)
    window.look_from("ahead")
    caption = shown(window.session, window.arrangement.panels, "elevation").caption
    day = dt.date.today().isoformat()  # noqa: DTZ011 - as the program has it
    assert caption == f"Whimbrel · Elevation from ahead · 9\u2009000 from the masthead · mm · {day}"


@pytest.mark.parametrize("ending", [".png", ".svg"])
@pytest.mark.parametrize("view", VIEWS)
def test_each_view_is_saved_from_its_menu(window, tmp_path, view, ending):
    """The file is there and whole, and the status line says where."""
    path = tmp_path / f"out{ending}"
    window.asks.answers["file_to_save"] = path
    window.acts[f"picture {view}"].trigger()
    assert str(path) in window.statusBar().currentMessage()
    made = path.read_bytes()
    assert made.startswith(b"\x89PNG" if ending == ".png" else b"<?xml")


def test_the_key_of_the_elevation(window, tmp_path):
    """Ctrl+E asks for a name that says which view it is."""
    window.asks.answers["file_to_save"] = tmp_path / "a.png"
    QTest.keyClick(window, Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    assert (tmp_path / "a.png").exists()
    (asked,) = [asked for asked in window.asks.asked if asked[0] == "file_to_save"]
    assert asked[1].name == "elevation from starboard.png"


def test_a_view_goes_to_the_clipboard(window):
    """As an image at twice the size, its caption below."""
    window.acts["copy skin"].trigger()
    image, panel = QGuiApplication.clipboard().image(), window.arrangement.panels.skin
    assert image.width() == 2 * panel.width()
    assert image.height() > 2 * panel.height()
    assert "clipboard" in window.statusBar().currentMessage()


def test_a_disk_that_refuses_is_answered(window, tmp_path):
    """A sentence, and no traceback; nothing is left behind."""
    window.asks.answers["file_to_save"] = tmp_path / "no such folder" / "a.png"
    window.acts["picture rig"].trigger()
    assert window.asks.names()[-1] == "say"
    assert "a.png" in window.asks.asked[-1][1]


def test_another_ending_is_answered(window):
    """PNG and SVG only, and the sentence says so."""
    with pytest.raises(FileError, match=r"\.png or \.svg"):
        taken(window, "section", ".gif")


def test_the_tape_is_on_the_picture(window):
    """What is seen is exported: its value stands in the SVG as text."""
    first, second = [p.id for p in window.session.desk.scene.placed.values() if p.skin is not None][:2]
    for name in (first, second):
        window.session.pick(name)
        window.tape.toggle() if not window.tape.in_hand else None
        window.tape.hold_thing(name)
    QApplication.processEvents()
    svg, _one = taken(window, "elevation", ".svg")
    words = {"".join(text.itertext()) for text in parsed(svg).iter(f"{SVG}text")}
    figure = next(f for f in window.measuring.card.figures if f.key == "straight")
    assert figure.value in words
