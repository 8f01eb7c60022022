"""The tables that are typed in: heads, words and choices are read whole at every size of the window."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QStyle, QStyleOptionComboBox, QStyleOptionFrame

from mastlayout.resources import demo_masts

# Between the edge of a line's inside and its first letter, on either side; Qt has it so.
_INSIDE_PX = 2


def room_px(cell):
    """The width in which a cell writes."""
    if isinstance(cell, QComboBox):
        option = QStyleOptionComboBox()
        cell.initStyleOption(option)
        field = QStyle.SubControl.SC_ComboBoxEditField
        control = QStyle.ComplexControl.CC_ComboBox
        return cell.style().subControlRect(control, option, field, cell).width()
    option = QStyleOptionFrame()
    cell.initStyleOption(option)
    inside = cell.style().subElementRect(QStyle.SubElement.SE_LineEditContents, option, cell)
    return inside.width() - 2 * _INSIDE_PX


def words(cell):
    """What a cell may have to show."""
    return (
        [cell.itemText(at) for at in range(cell.count())]
        if isinstance(cell, QComboBox)
        else [cell.text() or cell.placeholderText()]
    )


def cut(dialog):
    """What of a table is cut."""
    table, found = dialog.table, []
    for at, asked in enumerate(dialog.columns):
        if table.horizontalHeader().sectionSizeHint(at) > table.columnWidth(at):
            found.append(asked.label)
        for row in range(table.rowCount()):
            cell = dialog.cell(row, at)
            metrics = QFontMetricsF(cell.font())
            found += [text for text in words(cell) if metrics.horizontalAdvance(text) > room_px(cell)]
    return found


def opened(window, key, name="mast"):
    """A table of what is in hand, opened there."""
    window.session.pick(name)
    QApplication.processEvents()
    grid = window.arrangement.panels.hand.grid
    grid.open_form(key)
    QApplication.processEvents()
    return grid.dialog


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
@pytest.mark.parametrize("units", ["metric", "inches"])
def test_readings_of_the_wall_are_read_whole(dressed, size, units):
    """Place and remark too; the table stays within the window."""
    window = dressed(size=size, units=units)
    for demo in ("sanderling", "whimbrel", "turnstone"):
        window.files.open(demo_masts() / f"{demo}.toml")
        for key in ("walls", "stretches table"):
            dialog = opened(window, key)
            assert cut(dialog) == []
            assert dialog.width() <= window.width()
            dialog.close()


def test_a_column_grows_with_what_is_typed(dressed):
    """A long place is read whole when its cell is left; a remark without end stops, whole in its tooltip."""
    window = dressed(size=(1280, 800))
    window.files.open(demo_masts() / "sanderling.toml")
    dialog = opened(window, "walls")
    keys = [asked.key for asked in dialog.columns]
    place, note = (dialog.cell(0, keys.index(key)) for key in ("girth", "note"))
    for cell, text in ((place, "1234.56 to starboard of the aft centreline"), (note, "ultrasonic " * 40)):
        QTest.mouseClick(cell, Qt.MouseButton.LeftButton)
        cell.selectAll()
        QTest.keyClicks(cell, text)
        QTest.keyClick(cell, Qt.Key.Key_Tab)
    QApplication.processEvents()
    assert cut(dialog) == [note.text()]
    assert dialog.table.columnWidth(keys.index("note")) < window.width() / 2
    dialog.close()


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_the_way_of_a_halyard_is_known_by_its_fittings(dressed, size):
    """Where a fitting is named its place stands in the empty columns; without one nobody knows it."""
    window = dressed(size=size)
    window.files.open(demo_masts() / "whimbrel.toml")
    dialog = opened(window, "points", "halyard-main")
    keys = [asked.key for asked in dialog.columns]
    fittings = {one.id: one for one in window.session.layout.fittings}
    exits = [dialog.cell(1, at) for at in range(len(keys))]
    assert exits[keys.index("fitting")].currentData() == "exit-main"
    said = {key: cell.placeholderText() for key, cell in zip(keys[2:], exits[2:], strict=True)}
    height = fittings["exit-main"].from_masthead_mm
    assert said["from_masthead_mm"].replace("\u2009", "") == f"{height:.0f}"
    assert said["girth"] == str(fittings["exit-main"].girth)
    assert {said["ahead_mm"], said["port_mm"]} == {"as its fitting"}
    assert not cut(dialog)
    exits[keys.index("fitting")].setCurrentIndex(0)
    assert {cell.placeholderText() for cell in exits[2:]} == {"not known"}
    assert exits[keys.index("fitting")].currentText() == "none"
    dialog.close()
