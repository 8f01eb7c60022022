"""A stay's lower end of either sort, a section that was traced, a receptacle: taken, undone, refused."""

import ezdxf
import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from test_everything_in_hand import hand, type_into, value  # noqa: F401 - hand is a fixture

from mastlayout.model.edits import BOAT
from mastlayout.model.fitting import MAST

# A box 180 by 110 with its corners cut off, in order round it, from an origin of its own.
CORNERS = [(10, 0), (170, 0), (180, 20), (180, 90), (170, 110), (10, 110), (0, 90), (0, 20)]


def press(dialog):
    """Press the deed of a dialog."""
    QTest.mouseClick(dialog.button, Qt.MouseButton.LeftButton)


def opened(hand, session, name, key):  # noqa: F811 - a fixture
    """Take a thing in hand and open one of its forms."""
    session.pick(name)
    hand.grid.open_form(key)
    return hand.grid.dialog


def test_a_deck_end_becomes_a_pin_on_the_mast_and_back(hand, session):  # noqa: F811 - a fixture
    """The form replaces an end of the other sort; one step, undone it is as before."""
    before = session.layout
    dialog = opened(hand, session, "forestay", "lower end")
    assert dialog.variant.key == "deck"
    assert dialog.entries["ahead_mm"].text() == "4\u2009600"
    dialog.list.setCurrentRow(1)
    for key, text in (("from_masthead_mm", "14 m"), ("girth", "30 to port of ahead"), ("stand_off_mm", "25")):
        QTest.keyClicks(dialog.entries[key], text)
    press(dialog)
    lower = value(session, "forestay", "lower")
    assert (lower.from_masthead_mm, lower.girth.offset, lower.stand_off_mm) == (14000.0, -30.0, 25.0)
    assert value(session, "forestay", "deck") is None
    assert hand.grid.text_of("lower end") == "on the mast …"
    session.undo.undo()
    assert session.layout == before


def test_an_end_that_nobody_measured_is_not_known(hand, session):  # noqa: F811 - a fixture
    """Neither deck nor mast."""
    dialog = opened(hand, session, "forestay", "lower end")
    dialog.list.setCurrentRow(2)
    press(dialog)
    assert (value(session, "forestay", "deck"), value(session, "forestay", "lower")) == (None, None)
    assert hand.grid.text_of("lower end") == "not known …"


def test_a_lower_pin_without_its_height_is_refused(hand, session):  # noqa: F811 - a fixture
    """What must be known is said, and the layout stays."""
    before = session.layout
    dialog = opened(hand, session, "forestay", "lower end")
    dialog.list.setCurrentRow(1)
    press(dialog)
    assert "Pin, from the masthead is missing" in dialog.said.text()
    assert session.layout is before


def fill(dialog, corners):
    """Type points into the rows of a table."""
    for row, (ahead, port) in enumerate(corners):
        QTest.mouseClick(dialog.add, Qt.MouseButton.LeftButton)
        QTest.keyClicks(dialog.cell(row, 0), str(ahead))
        QTest.keyClicks(dialog.cell(row, 1), str(port))


def test_traced_points_become_the_section(hand, session):  # noqa: F811 - a fixture
    """Eight points of a box of 180 by 110: that is how long and wide the skin is then."""
    dialog = opened(hand, session, MAST, "outline")
    fill(dialog, CORNERS)
    press(dialog)
    section = session.layout.mast.section
    assert (section.shape, list(section.points)) == ("points", CORNERS)
    size = np.ptp(session.desk.scene.skin.ring(8000.0).polygon(), axis=0)
    assert size == pytest.approx([180.0, 110.0], abs=0.01)
    assert hand.grid.text_of("outline") == "8 points …"
    assert session.undo.count() == 1


@pytest.mark.parametrize(
    ("corners", "sentence"),
    [
        (CORNERS[:7], "An outline of 7 points cannot be: 8 to 5000"),
        ([*CORNERS[:7], (0, 40)], "not the same on both sides"),
        ([CORNERS[1], CORNERS[0], *CORNERS[2:]], "crosses itself"),
    ],
)
def test_points_that_are_no_section_are_refused(hand, session, corners, sentence):  # noqa: F811 - a fixture
    """Too few, unlike sides, a crossing: the sentence says which."""
    before = session.layout
    dialog = opened(hand, session, MAST, "outline")
    fill(dialog, corners)
    press(dialog)
    assert sentence in dialog.said.text()
    assert session.layout is before


def draw(path, corners, *, close=True):
    """Write a drawing of one line, in millimetres."""
    drawing = ezdxf.new(units=4)
    drawing.modelspace().add_lwpolyline(corners, close=close)
    drawing.saveas(path)


def test_a_drawing_gives_the_section(hand, session, tmp_path):  # noqa: F811 - a fixture
    """Its points are kept; the drawing may lie anywhere, and go."""
    draw(tmp_path / "tube.dxf", CORNERS)
    dialog = opened(hand, session, MAST, "drawing")
    QTest.keyClicks(dialog.path, str(tmp_path / "tube.dxf"))
    press(dialog)
    section = session.layout.mast.section
    assert (list(section.points), section.dxf) == (CORNERS, None)
    session.undo.undo()
    assert session.layout.mast.section.shape != "points"


@pytest.mark.parametrize(
    ("name", "sentence"),
    [("open.dxf", "no closed polyline"), ("none.dxf", "none.dxf is not"), ("", "plain file name")],
)
def test_a_drawing_without_an_outline_is_refused(hand, session, tmp_path, name, sentence):  # noqa: F811
    """Said in the form, which stays open; the layout stays as it was."""
    before = session.layout
    draw(tmp_path / "open.dxf", CORNERS, close=False)
    dialog = opened(hand, session, MAST, "drawing")
    QTest.keyClicks(dialog.path, str(tmp_path / name) if name else "")
    press(dialog)
    assert sentence in dialog.said.text()
    assert dialog.isVisible()
    assert session.layout is before


def test_a_receptacle_is_two_lengths(hand, session):  # noqa: F811 - a fixture
    """Typed, emptied, and refused where there is one alone."""
    session.pick("main-1")
    type_into(hand.grid.fields["receptacle"], "60; 45 mm")
    assert value(session, "main-1", "receptacle") == (60.0, 45.0)
    type_into(hand.grid.fields["receptacle"], "60")
    assert "two lengths" in hand.grid.fields["receptacle"].accessibleDescription()
    type_into(hand.grid.fields["receptacle"], "60; 0")
    assert "more than 0" in hand.grid.fields["receptacle"].accessibleDescription()
    assert value(session, "main-1", "receptacle") == (60.0, 45.0)
    type_into(hand.grid.fields["receptacle"], "")
    assert value(session, "main-1", "receptacle") is None


def test_the_plan_has_a_note(hand, session):  # noqa: F811 - a fixture
    """Among what is known of the yacht."""
    session.pick(BOAT)
    type_into(hand.grid.fields["plan note"], "Refit of the winter")
    assert session.layout.note == "Refit of the winter"
