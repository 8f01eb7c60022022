"""What is carried aloft, in the window: rows, working by keys, units, edits, a drag."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from test_heights_window import settle, window  # noqa: F401 - a fixture

from mastlayout.model.edits import BOAT, change, remove
from mastlayout.ui.heights.loads import AFTER, BEFORE, CHANGE, WHAT


def shown(window):  # noqa: F811
    """The view, opened by the keys from the bar above it."""
    heights = window.heights
    heights.tabs.setFocus()
    for _press in range(3):
        QTest.keyClick(heights.tabs, Qt.Key.Key_Right)
    settle()
    return heights.loads


def text(loads, what, column):
    """What a row says in a column."""
    table = loads.table
    row = [one.what for one in table.rows].index(what)
    return table.data(table.index(row, column))


def test_it_shows_what_the_command_line_prints(window):  # noqa: F811
    """Whimbrel: 14.5 kg of new gear, her two whips 220 apart against each rule, none deciding."""
    loads = shown(window)
    assert [text(loads, "Mass", column) for column in (BEFORE, AFTER, CHANGE)] == [
        "40.0 kg",
        "54.5 kg",
        "14.5 kg",
    ]
    assert text(loads, "Laden, with whips", CHANGE) == "VHF whip"
    assert text(loads, "VHF whip and AIS whip: whip to whip, yachts", AFTER) == "220 mm"
    assert text(loads, "VHF whip and AIS whip: whip to whip, yachts", CHANGE).startswith("not met")
    assert text(loads, "Hailer: level at 1 m", AFTER) == "not known"
    assert text(loads, "Fog horn: covered of the 90° before its mouth", AFTER) == "0.0°"
    assert text(loads, "Fog horn: covered of the 90° before its mouth", CHANGE) == "nothing there"
    assert text(loads, "Fog horn: covered by cloth on the lee side", AFTER) == "45.0°"
    assert text(loads, "Fog horn: covered by cloth on the lee side", CHANGE) == "Genoa, 140 %, full"


def test_own_radar_has_its_rows(window):  # noqa: F811
    """What it sees, how far off it is harmless, and which sails its beam meets."""
    loads = shown(window)
    assert text(loads, "Under the public limit beyond", AFTER) == "2.10 m"
    assert text(loads, "Mainsail, full: in its beam", CHANGE) == "106° to 254°"
    assert text(loads, "Nearest sea seen to windward", AFTER) == "none"


def test_what_stands_before_a_horn_has_rows_of_its_own(window):  # noqa: F811
    """The radome let down in front of the fog horn: no curve tells what it takes, and the row says why."""
    loads, session = shown(window), window.session
    session.edit(change(session.layout, "radome-bracket-1", from_masthead_mm=9940.0), "Radome down")
    assert text(loads, "Radome: covered of the 90° before its mouth", AFTER) == "90.0°"
    assert text(loads, "Radome: taken right behind it, as by a wide screen", AFTER) == "none"
    assert text(loads, "Radome: taken right behind it, as by a wide screen", CHANGE) == "right over the mouth"


def test_keys_open_the_working_of_every_cell(window):  # noqa: F811
    """Down through all of it: each cell has its formula, what went in and whose it is, or what to measure."""
    loads = shown(window)
    loads.setFocus()
    for row, one in enumerate(loads.table.rows):
        for column in (WHAT, BEFORE, AFTER, CHANGE):
            worked = loads.table.worked(row, column)
            assert worked is not None
            assert one.heads or (worked.formula and worked.source and one.what in worked.result)
    loads.setCurrentIndex(loads.table.index(1, AFTER))
    QTest.keyClick(loads, Qt.Key.Key_Down)
    assert window.heights.worked.result.text().startswith(loads.table.rows[2].what)


def test_it_follows_units_and_edits(window):  # noqa: F811
    """Feet for metres; the whip taken off, the top is another; the water unknown, what to measure is said."""
    loads, session = shown(window), window.session
    session.write_in("inches")
    assert text(loads, "Laden, with whips", AFTER).endswith(" ft")
    session.write_in("metric")
    session.edit(remove(remove(session.layout, "cable-vhf"), "vhf-whip-1"), "Remove")
    loads.show_layout()
    assert text(loads, "Laden, with whips", CHANGE) == "AIS whip"
    assert not any("VHF whip" in one.what for one in loads.table.rows)
    session.edit(change(session.layout, BOAT, heel_above_water_mm=None), "Water")
    loads.show_layout()
    assert text(loads, "Laden, with whips", AFTER) == "not known"
    row = [one.what for one in loads.table.rows].index("Laden, with whips")
    assert "Water to the heel" in loads.table.worked(row, AFTER).inputs


def test_what_is_asked_of_reflectors_and_radars_stands_there_with_its_working(window):  # noqa: F811
    """MSC.164(78) row by row as yes, no or unknown; the sea to leeward by hand; what is missing is said."""
    loads = shown(window)
    assert text(loads, "Echoing area, X band", CHANGE) == "no: at least 7.5 m²"
    assert text(loads, "Height above the water, upright", CHANGE) == "yes: at least 4 m"
    assert text(loads, "Widest null", CHANGE) == "unknown: at most 10°"
    row = [one.what for one in loads.table.rows].index("Widest null")
    assert "What the reflector's papers say" in loads.table.worked(row, AFTER).inputs
    # 7.89 m / tan(25 / 2 + 20 degrees) is 12.4 m; heeled more than half its beam it sees none to windward.
    assert text(loads, "Nearest sea seen to leeward", AFTER) == "12.38 m"
    assert text(loads, "Nearest sea seen to windward", AFTER) == "none"
    assert text(loads, "Under the public limit beyond", AFTER) == "2.10 m"
    assert text(loads, "Shadow of Mast", CHANGE) == "171° to 189°, part of it"


def test_in_a_drag_the_sections_take_turns_and_its_end_catches_up(window):  # noqa: F811
    """The radome moved up by 500: after the drag it is told half a metre higher."""
    loads, session = shown(window), window.session
    before = text(loads, "Above the water", AFTER)
    root = session.desk.scene.placed["radome-1"].fitting.on
    at = session.desk.scene.placed[root].fitting.from_masthead_mm
    for step in range(1, 4):
        session.preview(change(session.layout, root, from_masthead_mm=at - 100.0 * step))
        settle()
    session.edit(change(session.layout, root, from_masthead_mm=at - 500.0), "Move")
    settle()
    assert before == "7.89 m"
    assert text(loads, "Above the water", AFTER) == "8.39 m"
