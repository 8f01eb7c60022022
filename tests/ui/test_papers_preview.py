"""Papers in the window: each sheet as it will be printed, saved, printed."""

import errno
import os
import threading
from pathlib import Path

import numpy as np
import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtPrintSupport import QPrinter
from window_builder import Answered

from mastlayout.documents.page import Circle, Line, Page, Rect, Text
from mastlayout.storage import writing
from mastlayout.ui.look import load_fonts
from mastlayout.ui.papers.drawing import Drawing
from mastlayout.ui.papers.painter import paint_page
from mastlayout.ui.papers.preview import PapersDialog
from mastlayout.ui.papers.printing import print_pages

PX_PER_MM = 10


@pytest.fixture
def dialog(session, theme, qtbot, tmp_path):
    """The papers of the small layout, drawn."""
    made = PapersDialog(session.desk, "metric", theme, Answered(folder=tmp_path / "papers"))
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: bool(made.sheets))
    return made


def painted(*marks, zoom=1.0):
    """The ink of a page of A4, 0 white to 1 black, ten pixels to a millimetre, and its block's corner."""
    page = Page("A4", landscape=False, marks=marks, zoom=zoom)
    width, height = page.size_mm
    image = QImage(round(width * PX_PER_MM), round(height * PX_PER_MM), QImage.Format.Format_Grayscale8)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.scale(PX_PER_MM, PX_PER_MM)
    paint_page(painter, page)
    painter.end()
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine())
    return 1.0 - rows[:, : image.width()] / 255.0, page.corner_mm


def edges(ink):
    """Left, top, right, bottom of the ink, mm."""
    down, across = np.nonzero(ink > 0.5)
    return [value / PX_PER_MM for value in (across.min(), down.min(), across.max() + 1, down.max() + 1)]


@pytest.mark.parametrize("zoom", [1.0, 0.5])
def test_a_mark_lies_where_the_page_has_it(zoom):
    """A box of 30 by 20 from (10, 40), by hand from the block's corner, to a tenth of a millimetre."""
    ink, (left, top) = painted(Rect(10, 40, 30, 20, width_mm=0.0, fill=1.0), zoom=zoom)
    expected = [left + 10 * zoom, top + 40 * zoom, left + 40 * zoom, top + 60 * zoom]
    assert edges(ink) == pytest.approx(expected, abs=0.11)


def test_dash_fill_and_circle_are_as_on_paper():
    """A dash of 2 on and 3 off inks two fifths of its line; a share of 0.25 is a quarter grey."""
    ink, (left, top) = painted(Line(10, 20, 60, 20, width_mm=1.0, dash_mm=(2.0, 3.0)))
    row = ink[round((top + 20) * PX_PER_MM)]
    assert row.sum() / PX_PER_MM == pytest.approx(20.0, abs=0.5)
    ink, (left, top) = painted(Circle(50, 50, 10, width_mm=0.0, fill=0.25))
    assert ink[round((top + 50) * PX_PER_MM), round((left + 50) * PX_PER_MM)] == pytest.approx(0.25, abs=0.01)
    assert edges(ink * 4) == pytest.approx([left + 40, top + 40, left + 60, top + 60], abs=0.11)


@pytest.mark.parametrize(("anchor", "side"), [("start", 0), ("end", 2)])
def test_words_begin_or_end_where_the_page_has_them(qapp, anchor, side):
    """The ink of an H keeps to its anchor within its own side bearing."""
    load_fonts()
    ink, (left, _top) = painted(Text(90, 50, "HH", size_pt=20.0, anchor=anchor))
    assert edges(ink)[side] == pytest.approx(left + 90, abs=0.9)


def test_every_page_of_every_sheet_can_be_seen(dialog, qtbot):
    """The list names them all, and each one that is gone to puts ink on the paper."""
    kinds = [sheet.kind for sheet in dialog.sheets]
    assert {
        "drill",
        "templates",
        "mount",
        "order",
        "labels",
        "chair",
        "elevation",
        "heights",
        "measure",
        "findings",
    } == set(kinds)
    assert dialog.list.count() == sum(len(sheet.pages) for sheet in dialog.sheets)
    seen = set()
    dialog.list.setFocus()
    for row in range(dialog.list.count()):
        page = dialog.view.sheet.page
        assert page is not None
        seen.add(id(page))
        image = dialog.view.sheet.grab().toImage()
        box, _scale = dialog.view.sheet.paper_box()
        dark = sum(
            image.pixelColor(x, y).lightness() < 128
            for x in range(int(box.left()), int(box.right()), 7)
            for y in range(int(box.top()), int(box.bottom()), 7)
        )
        assert dark > 20, dialog.list.item(row).text()
        qtbot.keyClick(dialog.list, Qt.Key.Key_Down)
    assert len(seen) == dialog.list.count()


def test_paper_and_units_are_chosen(dialog, qtbot):
    """Letter in inches: the pages are drawn anew on that paper."""
    with qtbot.waitSignal(dialog.list.currentItemChanged):
        dialog.paper.setCurrentText("Letter")
    assert dialog.view.sheet.page.paper == "Letter"
    before = dialog.view.sheet.page
    dialog.units.setCurrentIndex(1)
    qtbot.waitUntil(lambda: dialog.view.sheet.page not in (None, before))
    words = [mark.text for mark in dialog.view.sheet.page.marks if isinstance(mark, Text)]
    assert any("-" in word and "/" in word for word in words)


def test_all_papers_are_saved_into_a_folder(dialog, qtbot, tmp_path):
    """Sheets and tables, and a sentence that says how many."""
    dialog.save_button.click()
    qtbot.waitUntil(lambda: "files are in" in dialog.said.text())
    names = {path.name for path in (tmp_path / "papers").iterdir()}
    assert {"test-drill.pdf", "test-measure.pdf", "test-schedule.xlsx", "test-holes.csv"} <= names


def test_a_folder_that_cannot_be_written_is_a_sentence(dialog, qtbot, tmp_path):
    """Nothing else happens."""
    (tmp_path / "papers").write_text("a file in the folder's place", encoding="utf-8")
    dialog.save_button.click()
    qtbot.waitUntil(lambda: "say" in dialog._asks.names())
    assert "papers" in dialog._asks.asked[-1][1]


def test_one_paper_that_cannot_be_written_leaves_the_others(dialog, qtbot, tmp_path, monkeypatch):
    """The disk is full for one of them."""
    true_replace = os.replace

    def replace(source, target):
        if Path(target).name == "test-mount.pdf":
            raise OSError(errno.ENOSPC, "full")
        true_replace(source, target)

    monkeypatch.setattr(writing.os, "replace", replace)
    dialog.save_button.click()
    qtbot.waitUntil(lambda: "say" in dialog._asks.names())
    assert "test-mount.pdf was not saved: the disk is full" in dialog._asks.asked[-1][1]
    names = {path.name for path in (tmp_path / "papers").iterdir()}
    assert "test-drill.pdf" in names
    assert not [name for name in names if "mount" in name or name.endswith(".part")]


def test_slow_work_shows_progress_and_can_be_cancelled(dialog, qtbot):
    """What was shown before stays; the result that comes later is dropped."""
    hold, before = threading.Event(), list(dialog.sheets)

    def slow():
        hold.wait(10)
        yield "late"

    late = []
    dialog._begin(Drawing(slow, dialog), late.extend)
    qtbot.waitUntil(dialog.stop.isVisible, timeout=3000)
    assert dialog.progress.isVisible()
    assert not dialog.save_button.isEnabled()
    drawing = dialog._drawing
    dialog.stop.click()
    hold.set()
    drawing.wait()
    qtbot.wait(0)
    assert late == []
    assert dialog.sheets == before
    assert not dialog.progress.isVisible()
    assert dialog.save_button.isEnabled()


def test_printing_keeps_the_true_size(tmp_path, dialog):
    """A line of 100 mm on a printed page is 100 mm long, and the page is A4."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    page = Page("A4", landscape=True, marks=(Line(10, 30, 110, 30, width_mm=1.0),))
    print_pages(printer, [page, page])
    with pdfplumber.open(tmp_path / "out.pdf") as paper:
        assert len(paper.pages) == 2
        sheet = paper.pages[0]
        mm = 25.4 / 72
        assert (sheet.width * mm, sheet.height * mm) == pytest.approx((297.0, 210.0), abs=0.4)
        (drawn,) = [*sheet.lines, *sheet.curves, *sheet.rects]
        assert (drawn["x1"] - drawn["x0"]) * mm == pytest.approx(100.0, abs=0.2)
