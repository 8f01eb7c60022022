"""The hand panel by keys alone: every datum and unit moves the thing, a wrong entry moves nothing."""

import math

import pytest
from builders import a_kind
from dragging import rest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.model.fitting import AsBuilt
from mastlayout.ui.hand.panel import HandPanel
from mastlayout.ui.look import VALUE, font
from mastlayout.ui.said import Said


@pytest.fixture
def known(session):
    """The session with deck, water, gooseneck and rake known."""
    layout = session.layout
    boat = layout.boat.but(deck_above_heel_mm=1950.0, heel_above_water_mm=-250.0)
    mast = layout.mast.but(gooseneck_mm=14000.0, rake_deg=1.5)
    session.open(Desk(layout.but(boat=boat, mast=mast)))
    return session


@pytest.fixture
def hand(known, theme, qtbot):
    """The panel on screen, the hailer in hand."""
    panel = HandPanel(known, theme)
    qtbot.addWidget(panel)
    panel.resize(694, 300)
    with qtbot.waitActive(panel):
        panel.show()
    known.pick("box-2")
    return panel


def heights(panel):
    """Every height field by its key."""
    return panel.readings.fields | panel.further.fields


def type_into(field, text, *, end=Qt.Key.Key_Return):
    """Focus, replace all, end with a key."""
    field.activateWindow()
    QTest.qWaitForWindowActive(field.window())
    field.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(field, text)
    if end is not None:
        QTest.keyClick(field, end)


def fitting(session, name="box-2"):
    """A fitting of the layout as it stands."""
    return next(one for one in session.layout.fittings if one.id == name)


def number(text):
    """A figure of the screen as a whole number."""
    return int(text.replace("\u2009", "").replace("\u2212", "-").removeprefix("= "))


# The mast is 17000 long: deck 1950 above the heel, heel 250 below the water, gooseneck 3000 above the
# heel, rake 1.5 degrees.
@pytest.mark.parametrize(
    ("datum", "typed", "from_masthead_mm"),
    [
        ("masthead", "8140", 8140.0),
        ("masthead", "8.14 m", 8140.0),
        ("masthead", "8 140", 8140.0),
        ("masthead", "26 ft 8 1/2 in", 26 * 304.8 + 8.5 * 25.4),
        ("heel", "9000", 8000.0),
        ("heel", "900 cm", 8000.0),
        ("deck", "7050", 8000.0),
        ("gooseneck", "6000", 8000.0),
        ("gooseneck", "-1 m", 15000.0),
        ("water", "8747", 17000.0 - 8997.0 / math.cos(math.radians(1.5))),
    ],
)
def test_a_height_typed_in_any_datum_and_unit_moves_the_fitting(hand, known, datum, typed, from_masthead_mm):
    """One undo step under its spoken name, the height by hand arithmetic."""
    type_into(heights(hand)[datum], typed)
    assert fitting(known).from_masthead_mm == pytest.approx(from_masthead_mm, abs=0.006)
    assert known.undo.count() == 1
    assert known.undo.undoText() == "Move Hailer"


@pytest.mark.parametrize(
    ("datum", "typed", "said"),
    [
        ("masthead", "18000", "18\u2009000 is below the heel: 0 to 17\u2009000 is allowed"),
        ("masthead", "-5", "\u22125 is above the masthead: 0 to 17\u2009000 is allowed"),
        ("heel", "-1", "\u22121 is below the heel: 0 to 17\u2009000 is allowed"),
        ("deck", "16000", "16\u2009000 is above the masthead: \u22121\u2009950 to 15\u2009050 is allowed"),
        ("masthead", "8,1", "has a comma"),
        ("heel", "soon", "is not a length"),
        ("water", "3 kg", "is not a length"),
    ],
)
def test_a_wrong_entry_leaves_layout_and_steps_alone(hand, known, datum, typed, said):
    """The sentence below says what is allowed; Escape puts back what was there."""
    before, field = known.layout, heights(hand)[datum]
    shown = field.text()
    type_into(field, typed)
    assert known.layout is before
    assert known.undo.count() == 0
    assert said in hand.said.text()
    assert hand.said.isVisible()
    assert said in field.accessibleDescription()
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == shown
    assert not hand.said.isVisible()


@pytest.mark.parametrize(("held", "by"), [("No", 10.0), ("Shift", 100.0), ("Alt", 1.0)])
@pytest.mark.parametrize("datum", ["masthead", "heel", "water"])
def test_up_and_down_in_a_height_move_what_is_in_hand(hand, known, datum, held, by):
    """By as much as anywhere else, each press a step; what stands there is ready to be typed over."""
    field, held = heights(hand)[datum], getattr(Qt.KeyboardModifier, f"{held}Modifier")
    field.activateWindow()
    field.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(field, Qt.Key.Key_Down, held)
    QTest.keyClick(field, Qt.Key.Key_Down, held)
    QTest.keyClick(field, Qt.Key.Key_Up, held)
    assert fitting(known).from_masthead_mm == 8300.0 + by
    assert known.undo.count() == 3
    assert field.selectedText() == field.text()


def test_a_half_typed_height_is_not_moved(hand, known):
    """Up and down leave it as it stands until it is taken."""
    field = hand.readings.fields["masthead"]
    type_into(field, "81", end=Qt.Key.Key_Up)
    assert field.text() == "81"
    assert fitting(known).from_masthead_mm == 8300.0


def test_the_keyboard_is_given_on_when_its_thing_goes(hand, known, qtbot):
    """Asked for once, and only where the keyboard is in the panel."""
    field, told = hand.readings.fields["masthead"], []
    hand.left.connect(lambda: told.append(known.hand))
    hand.activateWindow()
    known.pick("")
    known.pick("box-2")
    assert told == []
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    known.pick("")
    assert told == [""]


def test_leaving_a_field_takes_what_is_typed(hand, known):
    """Tab is as good as Return."""
    type_into(hand.readings.fields["masthead"], "8200", end=Qt.Key.Key_Tab)
    assert fitting(known).from_masthead_mm == 8200.0
    assert hand.readings.fields["heel"].hasFocus()


def test_leaving_a_wrong_entry_shows_the_truth_again(hand, known):
    """The reading stands as it was, the sentence stays to be read."""
    type_into(hand.readings.fields["masthead"], "99 m", end=Qt.Key.Key_Tab)
    assert hand.readings.fields["masthead"].text() == "8\u2009300"
    assert hand.said.isVisible()


def test_escape_before_return_takes_nothing(hand, known):
    """What is half typed is dropped."""
    type_into(hand.readings.fields["heel"], "12", end=Qt.Key.Key_Escape)
    assert hand.readings.fields["heel"].text() == "8\u2009700"
    assert known.undo.count() == 0


@pytest.mark.parametrize("from_masthead_mm", [0.0, 0.4, 8300.5, 8299.49, 17000.0])
def test_the_readings_always_add_up(hand, known, from_masthead_mm):
    """Masthead + heel = length, whatever is rounded."""
    known.preview(change(known.layout, "box-2", from_masthead_mm=from_masthead_mm))
    rest()
    shown = [number(field.text()) for field in hand.readings.fields.values()]
    assert sum(shown) == 17000


def test_a_drag_elsewhere_is_followed_live(hand, known):
    """A preview is shown in every datum, and put back with it."""
    known.preview(change(known.layout, "box-2", from_masthead_mm=8000.0))
    rest()
    shown = [number(field.text()) for field in heights(hand).values()]
    # 9000 above the heel: 9000 - 1950; 9000 cos 1.5 - 250; 9000 - 3000
    assert shown == [8000, 9000, 7050, 8747, 6000]
    known.cancel()
    assert number(hand.readings.fields["masthead"].text()) == 8300


def test_what_is_half_typed_survives_a_change_elsewhere(hand, known):
    """Another fitting's move does not wipe the field."""
    type_into(hand.readings.fields["masthead"], "81", end=None)
    known.edit(change(known.layout, "box-1", from_masthead_mm=100.0), "Move box-1")
    assert hand.readings.fields["masthead"].text() == "81"


def test_undo_in_an_untouched_field_is_the_windows_own(hand, known, qtbot):
    """The field does not claim the key, so the step is taken back."""
    from PySide6.QtGui import QAction  # noqa: PLC0415 - only this case needs an action

    act = QAction(hand)
    act.setShortcut("Ctrl+Z")
    act.triggered.connect(known.undo.undo)
    hand.addAction(act)
    field = hand.readings.fields["masthead"]
    type_into(field, "8200")
    QTest.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert fitting(known).from_masthead_mm == 8300.0


def test_a_datum_nobody_measured_says_what_to_measure(session, theme, qtbot):
    """No deck height: not known, read only, the instruction as the tooltip."""
    panel = HandPanel(session, theme)
    qtbot.addWidget(panel)
    session.pick("box-2")
    field = panel.further.fields["deck"]
    assert (field.text(), field.placeholderText(), field.isReadOnly()) == ("", "not known", True)
    assert "From the lower edge of the tube" in field.toolTip()


def test_inches_are_written_and_read_as_paper_has_them(hand, known):
    """What is shown reads back; 26-8 1/2 is 26 feet 8 1/2 inches."""
    known.write_in("inches")
    field = hand.readings.fields["masthead"]
    type_into(field, "26-8 1/2")
    assert fitting(known).from_masthead_mm == pytest.approx(8140.7, abs=0.006)
    assert field.text() == "26-8 1/2"
    type_into(field, "8 9/16")
    assert fitting(known).from_masthead_mm == pytest.approx(8.5625 * 25.4, abs=0.006)


# -- the other properties


@pytest.mark.parametrize(
    ("key", "typed", "stored"),
    [
        ("bearing", "270", "bearing 270"),
        ("bearing", "285 deg", "bearing 285"),
        ("girth", "ahead", "ahead"),
        ("girth", "44 to port of ahead", "44 to port of ahead"),
        ("girth", "3 cm to starboard of aft", "30 to starboard of aft"),
        ("girth", "120", "120 to starboard of aft"),
    ],
)
def test_a_place_round_the_mast_is_typed(hand, known, key, typed, stored):
    """As a bearing, a phrase, or a girth from the middle of the track."""
    type_into(hand.grid.fields[key], typed)
    assert str(fitting(known).girth) == stored
    assert known.undo.undoText() == "Move Hailer"


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [
        ("bearing", "400", "0 to 360 is allowed"),
        ("girth", "somewhere", "is no place round the skin"),
        ("girth", "900 to port of ahead", "at most"),
        ("girth", "90 m", "at most"),
        ("stand_off_mm", "-3", "0 or more is allowed"),
        ("turn_deg", "500", "\u2212360 to 360"),
        ("mass_kg", "heavy", "is not a mass"),
    ],
)
def test_a_wrong_property_says_what_is_allowed(hand, known, key, typed, said):
    """And nothing else happens."""
    before, field = known.layout, hand.grid.fields[key]
    type_into(field, typed)
    assert known.layout is before
    assert said in field.accessibleDescription()


@pytest.mark.parametrize(
    ("key", "typed", "field", "value"),
    [
        ("stand_off_mm", "12.5", "stand_off_mm", 12.5),
        ("turn_deg", "90", "turn_deg", 90.0),
        ("mass_kg", "1 lb", "mass_kg", 0.45),
        ("note", "on a pad", "note", "on a pad"),
    ],
)
def test_a_property_is_typed(hand, known, key, typed, field, value):
    """One undo step called by the thing."""
    type_into(hand.grid.fields[key], typed)
    assert getattr(fitting(known), field) == value
    assert known.undo.undoText() == "Change Hailer"


def test_what_is_known_of_foot_holes_wall_and_host_shows(hand):
    """110 x 60 in hand, four M6 (tap drill 5.0), a wall of 5 measured, on the mast.

    Foot 3, liner 0.5 and wall 5 with a pitch of 1 want a screw of 10; it has 5 threads, and 1.5 stand inside.
    """
    shown = {key: hand.grid.text_of(key) for key in ("foot", "holes", "fasteners", "wall", "on", "cable")}
    assert shown == {
        "foot": "110 × 60, confirmed",
        "holes": "4 × M6, tap drill 5.0",
        "fasteners": "4 × M6 × 10, 5.0 threads, 1.5 inside, aluminium",
        "wall": "5, measured",
        "on": "Mast",
        "cable": "none",
    }


def test_what_stands_on_another_goes_where_that_goes(known, theme, qtbot):
    """A guest's height is refused with its host's name."""
    kinds = (a_kind(mounts=[{"name": "top", "at": (0, 40, 60), "facing": "up"}]),)
    guest = fitting(known).but(id="guest", tag=9, name="Whip", on="box-1", mount="top", from_masthead_mm=None)
    fittings = (*known.layout.fittings, guest.but(girth=None))
    known.open(Desk(known.layout.but(kinds=kinds, fittings=fittings)))
    panel = HandPanel(known, theme)
    qtbot.addWidget(panel)
    with qtbot.waitActive(panel):
        panel.show()
    known.pick("guest")
    type_into(panel.readings.fields["masthead"], "100")
    assert panel.said.text() == "Whip stands on box-1: it goes where that goes."
    assert known.undo.count() == 0


def test_a_spreader_has_its_own_fields(hand, known, qtbot):
    """Height, length, sweep and rise; emptied, a length is not known."""
    known.pick("spreader-p")
    type_into(hand.readings.fields["heel"], "7500")
    type_into(hand.grid.fields["sweep_deg"], "12")
    type_into(hand.grid.fields["rise_deg"], "-2.5")
    spreader = known.layout.spreaders[0]
    assert (spreader.from_masthead_mm, spreader.sweep_deg, spreader.rise_deg) == (9500.0, 12.0, -2.5)
    length = hand.grid.fields["length_mm"]
    qtbot.waitUntil(length.isVisible)
    length.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(length, Qt.Key.Key_Delete)
    QTest.keyClick(length, Qt.Key.Key_Return)
    assert known.layout.spreaders[0].length_mm is None
    assert length.placeholderText() == "not known"


def test_a_stay_has_its_own_fields(hand, known):
    """Wire, deck end, measured length, and the height of its upper end."""
    known.pick("forestay")
    type_into(hand.readings.fields["masthead"], "250")
    type_into(hand.grid.fields["wire_mm"], "8")
    type_into(hand.grid.fields["deck"], "4.55 m; 0; 1560")
    type_into(hand.grid.fields["length_mm"], "16120")
    stay = known.layout.stays[0]
    assert (stay.upper.from_masthead_mm, stay.wire_mm, stay.length_mm) == (250.0, 8.0, 16120.0)
    assert (stay.deck.ahead_mm, stay.deck.off_mm, stay.deck.above_mm) == (4550.0, 0.0, 1560.0)


def test_a_deck_end_of_two_readings_is_refused(hand, known):
    """Three are needed, and the sentence names them."""
    known.pick("forestay")
    type_into(hand.grid.fields["deck"], "4550; 1560")
    assert known.undo.count() == 0
    assert "three lengths" in hand.grid.fields["deck"].accessibleDescription()


def test_nothing_in_hand_says_what_to_do(hand, known):
    """The fields give way to a sentence, and come back."""
    known.pick("")
    assert hand.empty.isVisible()
    assert not hand.full.isVisible()
    known.pick("box-1")
    assert hand.full.isVisible()


def test_every_field_has_a_name_and_is_reached_by_tab(hand):
    """From the first reading round all fields, none nameless."""
    wanted = {*heights(hand).values(), *hand.grid.stops}
    assert all(field.accessibleName() for field in wanted)
    hand.readings.fields["masthead"].setFocus(Qt.FocusReason.TabFocusReason)
    met = set()
    for _stop in range(len(wanted) + 2):
        met.add(hand.focusWidget())
        QTest.keyClick(hand.focusWidget(), Qt.Key.Key_Tab)
    assert wanted <= met


def test_a_narrow_panel_puts_the_further_datums_below(hand):
    """At 512 they leave the row of the readings and stay in the panel."""
    assert hand.further.parentWidget() is hand.full
    hand.resize(512, 300)
    assert hand.further.parentWidget() is not hand.full
    hand.resize(694, 300)
    assert hand.further.parentWidget() is hand.full


def test_the_head_says_tag_name_and_state(hand):
    """For the eye and for a screen reader alike."""
    assert (hand.head.tag, hand.head.name) == ("2", "Hailer")
    assert hand.head.accessibleName().startswith("Hailer, tag 2, ")


@pytest.mark.parametrize(
    ("built", "act"),
    [
        ({"from_masthead_mm": 8310.0}, lambda panel: type_into(panel.readings.fields["masthead"], "8400")),
        ({"girth": "bearing 91"}, lambda panel: type_into(panel.grid.fields["girth"], "aft")),
        ({"girth": "bearing 91"}, lambda panel: type_into(panel.grid.fields["bearing"], "45")),
    ],
)
def test_what_was_found_as_built_is_not_planned_anew(hand, known, built, act):
    """The sentence says who found it and when; nothing moves."""
    found = AsBuilt(by="Rigger", day="2026-05-01", **built)
    known.open(Desk(change(known.layout, "box-2", as_built=found)))
    known.pick("box-2")
    before = known.layout
    act(hand)
    assert known.layout is before
    said = " ".join(label.text() for label in hand.findChildren(Said))
    assert "Hailer is fitted: Rigger found it here on 2026-05-01. What was found is not planned anew." in said


def test_a_length_no_tape_reads_is_refused_with_a_sentence(hand, known):
    """Not with the model's own words."""
    before = known.layout
    type_into(hand.grid.fields["stand_off_mm"], "300 m")
    said = " ".join(label.text() for label in hand.findChildren(Said))
    assert "300 m is too long: at most 200\u2009000 is allowed" in said
    assert known.layout is before


def test_the_heads_clause_is_whole_or_not_there(hand):
    """Longest first, never cut; the last has neither figure nor the thing's own name."""
    happens = "drill passes Conduit A"
    hand.head.clauses = (f"{happens}: 2.5, needed 15", f"{happens}: 2.5", happens)
    room = QFontMetricsF(font(VALUE)).horizontalAdvance
    for clause in hand.head.clauses:
        assert hand.head.clause_in(room(clause)) == clause
    assert hand.head.clause_in(room(hand.head.clauses[-1]) - 1) == ""
