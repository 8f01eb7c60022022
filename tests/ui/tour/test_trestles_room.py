"""On trestles: a reason is read whole in a narrow window, and a vast one is used."""

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication

from mastlayout.resources import demo_masts
from mastlayout.ui.look import ROW

# What the style sheet keeps beside the words of a cell, and Qt within it.
_BESIDE_PX = 2 * 6 + 2


def lying(dressed, demo, size, units="metric"):
    """The window on trestles."""
    window = dressed(size=size, units=units)
    window.files.open(demo_masts() / f"{demo}.toml")
    window.lay_on_trestles()
    QApplication.processEvents()
    return window


def cut(table):
    """The words of a list that its cells are too small for, broken between words as they are drawn."""
    found = []
    for row in range(table.rowCount()):
        for column in range(1, table.columnCount()):
            item = table.item(row, column)
            metrics = QFontMetricsF(item.font())
            room = QRectF(0, 0, table.columnWidth(column) - _BESIDE_PX, 1000)
            words = metrics.boundingRect(room, 0x1000, item.text())  # TextWordWrap
            if words.width() > room.width() + 1 or words.height() > table.rowHeight(row):
                found.append(item.text())
    return found


@pytest.mark.parametrize("demo", ["whimbrel", "sanderling", "turnstone"])
@pytest.mark.parametrize("units", ["metric", "inches"])
def test_why_a_hole_is_held_back_is_read_whole(dressed, demo, units):
    """In the smallest window on every face, whichever line is in hand; whole rows only are shown."""
    window = lying(dressed, demo, (1280, 800), units)
    view = window.trestles
    for face in ("forward", "aft", "port", "starboard"):
        window.lying.turn_up(face)
        for hole in (*view.walk.holes[:2], *view.walk.holes[-2:]) or (None,):
            if hole is not None:
                view.pick(hole.key)
            QApplication.processEvents()
            table = view.list.list
            assert cut(table) == []
            assert (
                max(map(table.rowHeight, range(table.rowCount())), default=0) < 3 * ROW / 2 + 4
            )  # two lines
            rows = [table.visualRect(table.model().index(row, 1)) for row in range(table.rowCount())]
            shown = [box for box in rows if box.bottom() > 0 and box.top() < table.viewport().height()]
            assert all(box.top() >= 0 and box.bottom() <= table.viewport().height() for box in shown)


def test_what_to_bring_stands_below_a_narrow_list_and_beside_a_wide_one(dressed):
    """The same words at either place."""
    window = lying(dressed, "whimbrel", (1280, 800))
    panel = window.trestles.list
    assert not panel.bring.isVisible()
    for words in panel.bring.text().split("\n"):
        assert words in panel.roll.text()
    window.resize(1920, 1080)
    QApplication.processEvents()
    assert panel.bring.isVisible()
    assert panel.bring.text().split("\n")[0] not in panel.roll.text()


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080), (3840, 2160)])
@pytest.mark.parametrize("units", ["metric", "inches"])
def test_the_card_has_no_large_gap(dressed, size, units):
    """Between two groups of words, and below the last, at most a sixth of the card's reading is empty."""
    window = lying(dressed, "whimbrel", size, units)
    reading = window.trestles.card.reading
    filled = sorted((piece.box.top(), piece.box.bottom()) for piece in reading.pieces)
    bottom, gaps = 0.0, []
    for top, end in filled:
        gaps.append(top - bottom)
        bottom = max(bottom, end)
    gaps.append(reading.height() - bottom)
    assert bottom <= reading.height()
    assert max(gaps) <= reading.height() / 6
