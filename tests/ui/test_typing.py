"""What is typed in feet and inches means inches, and what nobody touched stays what it was."""

import pytest
from builders import a_fitting, a_foot, a_layout, a_mast, a_stay
from PySide6.QtCore import Qt

from mastlayout.desk import Desk
from mastlayout.errors import EditError, UnitError
from mastlayout.model.around import Around, read_around
from mastlayout.model.fitting import MAST
from mastlayout.ui.hand.foot import FootDialog
from mastlayout.ui.hand.panel import HandPanel
from mastlayout.ui.session import Session
from mastlayout.ui.typed import (
    around_phrase,
    around_words,
    retyped_size,
    typed_around,
    typed_girth,
    written_size,
)


@pytest.mark.parametrize(
    ("text", "units", "origin", "offset"),
    [
        ("2 to starboard of ahead", "inches", "ahead", 50.8),
        ("8 9/16 to port of aft", "inches", "aft", -217.4875),
        ("1-2 1/2 to port of ahead", "inches", "ahead", -368.3),
        ("44 mm to port of ahead", "inches", "ahead", -44.0),
        ("2 in to starboard of ahead", "metric", "ahead", 50.8),
        ("44 to port of ahead", "metric", "ahead", -44.0),
        ("3", "inches", "aft", 76.2),
        ("bearing 285", "inches", "bearing", 285.0),
        ("ahead", "inches", "ahead", 0.0),
    ],
)
def test_a_bare_number_is_in_the_units_shown(text, units, origin, offset):
    """An inch is 25.4 mm, in a phrase as anywhere else."""
    around = typed_around(text, units)
    assert (around.origin, around.offset) == (origin, pytest.approx(offset, abs=0.01))


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("place", ["44 to port of ahead", "1203.2 to starboard of aft", "bearing 285", "aft"])
def test_what_is_written_reads_back(place, units):
    """To the sixteenth of an inch that inches are written in, exactly in millimetres."""
    around = read_around(place)
    back = typed_around(around_words(around, units), units)
    assert back.origin == around.origin
    assert back.offset == pytest.approx(around.offset, abs=25.4 / 32 if units == "inches" else 0.005)


def test_the_phrase_of_a_girth_reads_back_in_inches():
    """300 from the track on a skin of half a girth of 326 is 26 to starboard of ahead, an inch."""
    phrase = around_phrase(None, 300.0, 326.0, "inches")
    assert phrase == "1 to starboard of ahead"
    assert typed_girth(phrase, "inches", 326.0) == Around(origin="ahead", offset=25.4)


@pytest.mark.parametrize("typed", ["14 to port of ahead", "90 m"])
def test_too_far_round_says_what_is_allowed(typed):
    """Half a girth of 326 is 12 13/16 inches."""
    with pytest.raises(EditError, match=r"at most 1-0 13/16 to either side"):
        typed_girth(typed, "inches", 326.0)
    with pytest.raises(UnitError, match="no place round the skin"):
        typed_girth("there", "inches", 326.0)


@pytest.fixture
def known(qapp):
    """A box with odd holes, in feet and inches."""
    foot = a_foot(across_mm=110, holes=[{"across_mm": 30.0, "along_mm": -14.3, "fastener": "M6 tapped"}])
    session = Session(Desk(a_layout(fittings=(a_fitting(tag=7, in_hand=foot, girth="20 to port of ahead"),))))
    session.write_in("inches")
    session.pick("box-1")
    return session


def test_confirming_a_foot_leaves_what_nobody_typed(qtbot, known):
    """A hole's place is a size: in sixteenths 30.0 would be 30.2. Only the along that was typed changes."""
    placed = known.desk.scene.placed["box-1"]
    dialog = FootDialog(known, placed.fitting, placed.foot)
    qtbot.addWidget(dialog)
    assert dialog.holes.item(0, 0).text() == "1.181 in (30 mm)"
    dialog.holes.item(0, 1).setText("-1/2")
    dialog.confirm()
    foot = known.layout.fittings[0].in_hand
    (hole,) = foot.holes
    assert (foot.across_mm, hole.across_mm, hole.along_mm) == (110.0, 30.0, -12.7)


def test_a_table_leaves_the_rows_that_nobody_typed(qtbot, theme):
    """One wall reading is corrected; the others keep their hundredths."""
    walls = [{"from_masthead_mm": z, "thickness_mm": 4.2} for z in (1000.3, 2000.7)]
    session = Session(Desk(a_layout(mast=a_mast(walls=walls))))
    session.write_in("inches")
    session.pick(MAST)
    panel = HandPanel(session, theme)
    qtbot.addWidget(panel)
    panel.grid.open_form("walls")
    panel.grid.dialog.cell(1, 1).setText("4.0 mm")
    qtbot.mouseClick(panel.grid.dialog.button, Qt.MouseButton.LeftButton)
    kept = [(wall.from_masthead_mm, wall.thickness_mm) for wall in session.layout.mast.walls]
    assert kept == [(1000.3, 4.2), (2000.7, 4.0)]


def test_the_girth_in_hand_moves_by_inches(qtbot, theme, known):
    """Two inches typed are 50.8 mm round."""
    panel = HandPanel(known, theme)
    qtbot.addWidget(panel)
    panel.show()
    field = panel.grid.fields["girth"]
    field.selectAll()
    qtbot.keyClicks(field, "2 to starboard of ahead")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert known.layout.fittings[0].girth == Around(origin="ahead", offset=50.8)


@pytest.mark.parametrize(
    ("typed", "length"),
    [
        ("0.165 in (4.2 mm)", 4.2),  # as it stood
        ("0.165 in", 4.191),
        ("0.165", 4.191),
        (".17", 4.318),
        ("3/16", 4.7625),
        ("4.5 mm", 4.5),
        ("0.170 in (4.2 mm)", 4.318),  # the inches typed over
        ("0.165 in (4.5 mm)", 4.5),  # the millimetres typed over
        ("0.177 in (4.5 mm)", 4.4958),  # both, and they agree
    ],
)
def test_a_size_reads_back_as_it_stands(typed, length):
    """A wall of 4.2 mm stands as 0.165 in (4.2 mm); an inch is 25.4 mm."""
    assert written_size(4.2, "inches") == "0.165 in (4.2 mm)"
    assert retyped_size(typed, "inches", 4.2) == pytest.approx(length, abs=1e-6)


def test_a_size_below_nothing_has_a_real_minus_and_reads_back():
    """A hole to port of its foot's middle: 14 mm are 0.551 in."""
    assert written_size(-14.0, "inches") == "\u22120.551 in (\u221214 mm)"
    assert retyped_size("\u22120.551 in (\u221214 mm)", "inches", -14.0) == -14.0
    assert retyped_size("\u22120.551 in (\u221215 mm)", "inches", -14.0) == -15.0
    assert retyped_size("-0.6", "inches", -14.0) == pytest.approx(-15.24)


def test_two_sizes_that_differ_are_refused():
    """Nobody knows which of the two is meant."""
    with pytest.raises(UnitError, match="two sizes: write one of them"):
        retyped_size("0.170 in (5 mm)", "inches", 4.2)


def test_a_wire_nobody_changed_keeps_its_size(qtbot, theme):
    """6.33 is 0.249 in (6.3 mm): a letter typed and taken back changes nothing, 0.315 is 8.001."""
    session = Session(Desk(a_layout(stays=(a_stay(wire_mm=6.33),))))
    session.write_in("inches")
    session.pick(session.layout.stays[0].id)
    panel = HandPanel(session, theme)
    qtbot.addWidget(panel)
    panel.show()
    field = panel.grid.fields["wire_mm"]
    assert field.text() == "0.249 in (6.3 mm)"
    qtbot.keyClicks(field, "x")
    qtbot.keyClick(field, Qt.Key.Key_Backspace)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert session.layout.stays[0].wire_mm == 6.33
    field.selectAll()
    qtbot.keyClicks(field, "0.315")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert session.layout.stays[0].wire_mm == pytest.approx(8.001, abs=0.005)
