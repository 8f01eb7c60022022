"""What has no place on the mast in hand: fields, choices, tables and forms, with real keys."""

import pytest
from builders import a_fitting, a_kind, a_layout, a_spreader, a_stay
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from mastlayout.desk import Desk
from mastlayout.model import adding
from mastlayout.model.around import AHEAD
from mastlayout.model.edits import BOAT, item_of
from mastlayout.model.fitting import MAST
from mastlayout.model.rig import DeckEnd
from mastlayout.ui.hand.field import Field
from mastlayout.ui.hand.panel import HandPanel

UP = {"name": "top", "at": (0, 25, 130), "facing": "up"}


def kind_that(what):
    """A kind that shows a light, sends an echo back or is a radar."""
    sector = {"what": what, "from_deg": 0.0, "to_deg": 360.0, "name": "all round", "colour": None}
    return a_kind(what, sectors=[sector])


def everything():
    """A layout with one of each sort, as they are when just added."""
    asked = ("light", "echo", "radar")
    layout = a_layout(
        spreaders=(a_spreader(),),
        stays=(a_stay(),),
        kinds=(a_kind(mounts=[UP]), *map(kind_that, asked)),
        fittings=(a_fitting(), *(a_fitting(f"{kind}-1", kind=kind, in_hand=None) for kind in asked)),
    )
    for add in (
        lambda b: adding.add_stays(b, "diamond", 4000.0, AHEAD),
        lambda b: adding.add_sail(b, "main"),
        lambda b: adding.add_sail(b, "headsail"),
        lambda b: adding.add_pole(b, 4500.0, 12000.0, 15000.0),
        lambda b: adding.add_halyard(b, "Main halyard", 10.0),
        adding.add_conduit,
        adding.add_cable,
        lambda b: adding.add_old_hole(b, 8000.0, AHEAD, None),
    ):
        layout, _name = add(layout)
    return layout


@pytest.fixture
def hand(session, theme, qtbot):
    """The panel on screen, high enough for every property."""
    session.open(Desk(everything()))
    panel = HandPanel(session, theme)
    qtbot.addWidget(panel)
    panel.resize(694, 900)
    with qtbot.waitActive(panel):
        panel.show()
    return panel


def type_into(field, text):
    """Focus, replace all, Return."""
    field.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def value(session, name, key):
    """A field of an item as the layout has it."""
    return getattr(item_of(session.layout, name)[1], key)


@pytest.mark.parametrize(
    ("name", "key", "typed", "known"),
    [
        (MAST, "length_mm", "17.3 m", 17300.0),
        (MAST, "rake_deg", "1.5", 1.5),
        (MAST, "gooseneck_mm", "15680", 15680.0),
        (BOAT, "heel_above_water_mm", "-250", -250.0),
        (BOAT, "foretriangle_height_mm", "16.2 m", 16200.0),
        (BOAT, "name", "Curlew", "Curlew"),
        ("headsail-1", "lp_mm", "4.2 m", 4200.0),
        ("headsail-1", "head_mm", "-20", -20.0),
        ("headsail-1", "sheet_lead", "-1.2 m; 900; 300", DeckEnd(ahead_mm=-1200, off_mm=900, above_mm=300)),
        ("main-1", "p_mm", "14.9 m", 14900.0),
        ("main-1", "battens_full", "2", 2),
        ("pole-1", "length_mm", "5100", 5100.0),
        ("pole-1", "diameter_mm", "70", 70.0),
        ("pole-1", "ring_ahead_mm", "56", 56.0),
        ("pole-1", "tilt_deg", "25", 25.0),
        ("halyard-1", "rope_mm", "12", 12.0),
        ("cable-1", "plug_mm", "0", 0.0),
        ("conduit-1", "bore_mm", "1 in", 25.4),
        ("spreader-p", "chord_root_mm", "90", 90.0),
        ("old-hole-1", "diameter_mm", "6.5", 6.5),
    ],
)
def test_a_value_is_typed_into_the_layout(hand, session, name, key, typed, known):
    """One step with a name; undone it is as before."""
    before = session.layout
    session.pick(name)
    type_into(hand.grid.fields[key], typed)
    assert value(session, name, key) == known
    assert session.undo.count() == 1
    assert session.undo.undoText().split()[0] in ("Change", "Rename")
    session.undo.undo()
    assert session.layout == before


@pytest.mark.parametrize(
    ("name", "key", "typed", "said"),
    [
        (MAST, "length_mm", "0", "more than 0"),
        (MAST, "length_mm", "", "must be known"),
        (MAST, "rake_deg", "80", "to 45"),
        (MAST, "length_mm", "100", "allowed"),  # shorter than what stands on it
        (BOAT, "name", "  ", "letters"),
        (BOAT, "length_overall_mm", "0", "2\u2009000 to 150\u2009000 is allowed"),
        (BOAT, "length_overall_mm", "-12 m", "2\u2009000 to 150\u2009000 is allowed"),
        (BOAT, "length_overall_mm", "151 m", "2\u2009000 to 150\u2009000 is allowed"),
        (BOAT, "sailing_heel_deg", "95", "0 to 60 is allowed"),
        ("main-1", "battens_full", "two", "whole number"),
        ("main-1", "battens_full", "40", "0 to 20"),
        ("pole-1", "length_mm", "900 m", "200\u2009000"),
        ("pole-1", "tilt_deg", "95", "to 80"),
        ("headsail-1", "lp_mm", "wide", "is not a length"),
        ("headsail-1", "sheet_lead", "-1200; 900", "three lengths"),
        ("old-hole-1", "girth", "upstairs", "no place round the skin"),
        ("diamond-1", "lower", "4000", "with “;” between"),
    ],
)
def test_a_wrong_value_is_refused_and_says_what_is_allowed(hand, session, name, key, typed, said):
    """The layout is the very same."""
    before = session.layout
    session.pick(name)
    field = hand.grid.fields[key]
    type_into(field, typed)
    assert said in field.accessibleDescription()
    assert session.layout is before
    assert session.undo.count() == 0


def test_an_emptied_value_is_not_known_again(hand, session):
    """And the field says so."""
    session.pick("headsail-1")
    type_into(hand.grid.fields["luff_mm"], "15 m")
    type_into(hand.grid.fields["luff_mm"], "")
    assert value(session, "headsail-1", "luff_mm") is None
    assert hand.grid.fields["luff_mm"].placeholderText() == "not known"


def test_a_choice_is_made_by_keys(hand, session):
    """Down from "not known" to the first that is offered; the wheel changes nothing."""
    session.pick("headsail-1")
    choice = hand.grid.control("stay")
    choice.setFocus()
    QTest.keyClick(choice, Qt.Key.Key_Down)
    assert value(session, "headsail-1", "stay") == "forestay"
    QTest.keyClick(hand.grid.control("stay"), Qt.Key.Key_Up)
    assert value(session, "headsail-1", "stay") is None


def test_a_diamonds_lower_pin_is_typed_and_the_stay_stands(hand, session):
    """Height; place round the mast."""
    session.pick("diamond-1")
    type_into(hand.grid.fields["lower"], "14 m; 30 to port of ahead")
    type_into(hand.grid.fields["wire_mm"], "6")
    lower = value(session, "diamond-1", "lower")
    assert (lower.from_masthead_mm, str(lower.girth)) == (14000.0, "30 to port of ahead")
    assert session.desk.scene.stays["diamond-1"].unknown == ()


def test_the_tips_a_stay_passes_are_chosen_in_a_table(hand, session):
    """One row, one spreader."""
    session.pick("diamond-1")
    hand.grid.control("via").click()
    table = hand.grid.dialog
    table.add.click()
    table.button.click()
    assert value(session, "diamond-1", "via") == ("spreader-p",)


def test_readings_of_the_wall_are_rows(hand, session):
    """Added by keys behind those that are there; a wrong one names its row and column."""
    session.pick(MAST)
    many = len(session.layout.mast.walls)
    hand.grid.control("walls").click()
    table = hand.grid.dialog
    table.add.click()
    QTest.keyClicks(table.cell(many, 0), "8140")
    QTest.keyClicks(table.cell(many, 1), "-3")
    table.button.click()
    assert f"Row {many + 1}, Thickness" in table.said.text()
    assert session.undo.count() == 0
    table.cell(many, 1).setText("3.4")
    table.button.click()
    new = session.layout.mast.walls[-1]
    assert (new.from_masthead_mm, new.thickness_mm, new.state) == (8140.0, 3.4, "sound")


def test_a_row_is_taken_away(hand, session):
    """The one with the focus."""
    session.pick(MAST)
    first, second = session.layout.mast.walls[:2]
    hand.grid.control("walls").click()
    table = hand.grid.dialog
    table.cell(0, 1).setFocus()
    table.remove.click()
    table.button.click()
    assert first not in session.layout.mast.walls
    assert session.layout.mast.walls[0] == second


def test_a_conduit_that_is_found_gets_its_bearing(hand, session):
    """Then it lies somewhere."""
    session.pick("conduit-1")
    type_into(hand.grid.fields["outside_mm"], "30")
    assert "bearing not known" in hand.grid.text_of("runs")
    hand.grid.control("runs").click()
    QTest.keyClicks(hand.grid.dialog.cell(0, 2), "315")
    hand.grid.dialog.button.click()
    assert session.desk.scene.conduits[0].unknown is None


def test_a_section_of_another_shape_asks_for_its_own_sizes(hand, session):
    """The corner's radius is not made up; what is the same is kept."""
    session.pick(MAST)
    hand.grid.control("section").click()
    form = hand.grid.dialog
    QTest.keyClick(form.list, Qt.Key.Key_Down)
    assert list(form.entries) == ["length_mm", "width_mm", "corner_radius_mm"]
    QTest.keyClick(form.list, Qt.Key.Key_Return)
    assert form.isVisible()  # the radius is still wanted, and has the keys
    assert form.focusWidget() is form.entries["corner_radius_mm"]
    QTest.keyClicks(form.focusWidget(), "20")
    QTest.keyClick(form.focusWidget(), Qt.Key.Key_Return)
    section = session.layout.mast.section
    assert (section.shape, section.length_mm, section.corner_radius_mm) == ("rounded box", 200.0, 20.0)


def test_a_section_that_cannot_be_is_refused(hand, session):
    """A corner larger than the box."""
    before = session.layout
    session.pick(MAST)
    hand.grid.control("section").click()
    form = hand.grid.dialog
    form.list.setCurrentRow(1)
    form.entries["corner_radius_mm"].setText("500")
    form.button.click()
    assert "0 to 65 is allowed" in form.said.text()
    assert session.layout is before


def test_looked_and_found_none_is_chosen(hand, session):
    """Of what the layout holds the number is said."""
    session.open(Desk(session.layout.but(holes=())))
    session.pick(MAST)
    assert hand.grid.text_of("looked stays") == "3 entered"
    hand.grid.control("looked holes").choose("")
    assert "holes" not in session.layout.model_fields_set
    hand.grid.control("looked holes").choose("none")
    assert "holes" in session.layout.model_fields_set
    wanted = {finding.measure for finding in session.desk.report.open}
    assert "layout.holes" not in wanted
    session.undo.undo()
    assert "layout.holes" in {finding.measure for finding in session.desk.report.open}


def test_a_fitting_is_hung_on_another_host(hand, session):
    """On the spreader it has a place along it; back on the mast it is at the height it had."""
    session.pick("box-1")
    hand.grid.control("on").choose("spreader-p")
    fitting = session.layout.fittings[0]
    assert (fitting.on, fitting.along_mm, fitting.from_masthead_mm) == ("spreader-p", 500.0, None)
    hand.grid.control("on").choose(MAST)
    fitting = session.layout.fittings[0]
    assert (fitting.on, fitting.along_mm) == (MAST, None)
    # Its foot was below the bar, which is 30 to 25 thick.
    assert fitting.from_masthead_mm == pytest.approx(9000.0, abs=15.0)
    assert session.undo.count() == 2


def test_a_fitting_hung_on_what_stands_on_it_gets_the_models_sentence(hand, session):
    """The guest is offered, and refused with the chain of names."""
    guest = a_fitting("box-2", name="Guest", on="box-1", mount="top", from_masthead_mm=None, girth=None)
    session.open(Desk(session.layout.but(fittings=(*session.layout.fittings, guest))))
    before = session.layout
    session.pick("box-1")
    choice = hand.grid.control("on")
    choice.choose("box-2/top")
    assert "cannot stand on itself" in choice.accessibleDescription()
    assert choice.currentData() == MAST
    assert session.layout is before


def test_a_fitting_whose_host_nobody_measured_can_still_be_hung_elsewhere(hand, session):
    """The light on a spreader of unknown length has no place, and its host can be chosen."""
    layout = session.layout.but(spreaders=(a_spreader(length_mm=None),))
    light = a_fitting("light", on="spreader-p", from_masthead_mm=None, girth=None, along_mm=300.0)
    session.open(Desk(layout.but(fittings=(light,))))
    session.pick("light")
    assert hand.grid.fields["along_mm"].text() == "300"
    hand.grid.control("on").choose(MAST)
    assert session.layout.fittings[0].from_masthead_mm is not None


@pytest.mark.parametrize(
    "name",
    [
        MAST,
        BOAT,
        "main-1",
        "headsail-1",
        "pole-1",
        "halyard-1",
        "cable-1",
        "conduit-1",
        "forestay",
        "old-hole-1",
    ],
)
def test_every_control_has_a_name_and_is_reached_by_tab(hand, session, name):
    """From the first on; heights show only where there is one."""
    session.pick(name)
    QApplication.processEvents()  # what was just built is laid out before the first key
    stops = hand.grid.stops
    assert stops
    assert all(stop.accessibleName() for stop in stops)
    assert hand.readings.isVisible() == (name in ("forestay", "old-hole-1"))
    hand.begin_typing()
    met: set[QWidget] = set()
    for _stop in range(len(stops) + 6):
        met.add(hand.focusWidget())
        QTest.keyClick(hand.focusWidget(), Qt.Key.Key_Tab)
    assert set(stops) <= met


def test_what_is_asked_of_a_stowed_pole_follows_where_it_is_stowed(hand, session):
    """On deck its two ends, along the mast its upper end and how far ahead it stands; each one step."""
    session.pick("pole-1")
    assert not {"chock_fore", "stowed_top_mm"} & hand.grid.fields.keys()
    hand.grid.control("stowed_on").choose("mast")
    assert {"stowed_top_mm", "stowed_ahead_mm"} <= hand.grid.fields.keys()
    hand.grid.control("stowed_on").choose("deck")
    type_into(hand.grid.fields["chock_aft"], "-1292; 1200; 1750")
    ends = DeckEnd(ahead_mm=-1292.0, off_mm=1200.0, above_mm=1750.0)
    assert value(session, "pole-1", "chock_aft") == ends
    assert session.undo.count() == 3


def test_every_field_of_a_sail_can_be_typed(hand, session):
    """Nothing of the model is out of reach."""
    keys = set()
    for name in ("main-1", "headsail-1"):
        session.pick(name)
        keys |= {key for _of, key, _read in hand.grid._rows}
    fields = set(type(session.layout.sails[0]).model_fields)
    assert fields - keys == {"id"}
    assert isinstance(hand.grid.control("name"), Field)


def test_a_spreader_takes_its_mate_along_and_can_be_told_apart(hand, session):
    """A height typed moves both as one step; the other side's own field moves only that one."""
    bars = tuple(
        a_spreader(f"spreader-{side[0]}", name=f"Lower spreader, {side[0].upper()}", side=side)
        for side in ("port", "starboard")
    )
    session.open(Desk(a_layout(spreaders=bars)))
    session.pick("spreader-p")
    type_into(hand.readings.fields["masthead"], "9100")
    assert [bar.from_masthead_mm for bar in session.layout.spreaders] == [9100.0, 9100.0]
    assert session.undo.undoText() == "Move Lower spreaders"
    mate = hand.grid.fields["mate"]
    assert mate.text() == "9\u2009100"
    type_into(mate, "9108")
    assert [bar.from_masthead_mm for bar in session.layout.spreaders] == [9100.0, 9108.0]
    assert session.undo.undoText() == "Move Lower spreader, S"
    type_into(hand.readings.fields["masthead"], "9000")
    assert [bar.from_masthead_mm for bar in session.layout.spreaders] == [9000.0, 9108.0]
    before = session.layout
    type_into(mate, "18 m")
    assert session.layout is before
    for _step in range(3):
        session.undo.undo()
    assert [bar.from_masthead_mm for bar in session.layout.spreaders] == [9000.0, 9000.0]
