"""The catalogue by keys alone: search, walk, host, place; each kind drawn as its solids say."""

import pytest
from builders import a_fitting, a_kind
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from mastlayout.desk import Desk
from mastlayout.model.hosting import Place, placed_new
from mastlayout.storage.catalogue import catalogue, kind
from mastlayout.ui.catalogue.drawn import drawn
from mastlayout.ui.catalogue.kinds import ENTRY
from mastlayout.ui.catalogue.room import CatalogueRoom
from mastlayout.ui.catalogue.words import GROUPS, group_words, typical_words

UP = {"name": "top", "at": (0, 25, 130), "facing": "up"}


@pytest.fixture
def room(session, theme, qtbot):
    """The room on screen, the search focused, the height in hand 9000 from the masthead."""
    made = CatalogueRoom(session, theme)
    qtbot.addWidget(made)
    made.resize(500, 700)
    made.show()
    assert QTest.qWaitForWindowActive(made)
    session.go_to(17000.0 - 9000.0)
    made.begin()
    return made


def shown(room):
    """The ids of the kinds in the list, from the top."""
    model = room.view.model()
    entries = [model.index(row, 0).data(ENTRY) for row in range(model.rowCount())]
    return [entry.kind.id for entry in entries if entry.kind]


def choices(combo):
    """What a list offers."""
    return [combo.itemText(i) for i in range(combo.count())]


def newest(session):
    """The fitting placed last."""
    return session.layout.fittings[-1]


def test_every_kind_is_in_the_list_under_its_group(room):
    """None is left out, and each group has its words."""
    assert sorted(shown(room)) == sorted(catalogue())
    assert {one.group for one in catalogue().values()} <= set(GROUPS)
    assert all(group_words(group) for group in GROUPS)


def test_search_arrows_and_return_place_at_the_height_in_hand(room, session, qtbot):
    """Without leaving the search field; new, in hand, one step."""
    QTest.keyClicks(room.search, "horn cleat")
    assert shown(room) == ["horn-cleat", "horn-cleat-small"]
    QTest.keyClick(room.search, Qt.Key.Key_Down)
    assert room.view.kind.id == "horn-cleat-small"
    with qtbot.waitSignals([room.placed, room.left]):
        QTest.keyClick(room.search, Qt.Key.Key_Return)
    new = newest(session)
    assert (new.kind, new.from_masthead_mm, str(new.girth), new.new) == (
        "horn-cleat-small",
        9000.0,
        "ahead",
        True,
    )
    assert session.hand == new.id
    assert (session.undo.count(), session.undo.undoText()) == (1, "Place Horn cleat 110")


def test_the_arrows_never_stop_on_a_groups_head(room):
    """Down through all of two groups only kinds are chosen."""
    QTest.keyClicks(room.search, "guard")
    met = [room.view.kind.id]
    for _step in range(len(shown(room)) - 1):
        QTest.keyClick(room.search, Qt.Key.Key_Down)
        met.append(room.view.kind.id)
    assert met == shown(room)


def test_what_nobody_finds_says_so_and_places_nothing(room, session):
    """The button is off; Return does nothing."""
    QTest.keyClicks(room.search, "zeppelin")
    assert shown(room) == []
    assert not room.button.isEnabled()
    QTest.keyClick(room.search, Qt.Key.Key_Return)
    assert session.undo.count() == 0


def test_escape_leaves(room, qtbot):
    """From the search and from the list."""
    for widget in (room.search, room.view):
        with qtbot.waitSignal(room.left):
            QTest.keyClick(widget, Qt.Key.Key_Escape)


def test_the_face_is_chosen_with_keys(room, session):
    """To port is bearing 270."""
    QTest.keyClicks(room.search, "hailer, mouth")
    room.face.setFocus()
    QTest.keyClick(room.face, Qt.Key.Key_Down)
    QTest.keyClick(room.face, Qt.Key.Key_Down)
    QTest.keyClick(room.button, Qt.Key.Key_Space)
    assert (newest(session).girth.origin, newest(session).girth.offset) == ("bearing", 270.0)


def test_a_gooseneck_begins_aft(room):
    """Where the luff is."""
    QTest.keyClicks(room.search, "gooseneck, pin 60")
    assert room.face.currentText() == "aft"


def test_a_whip_without_a_mount_says_what_to_place_first(room, session):
    """It is not put on the bare mast."""
    QTest.keyClicks(room.search, "vhf whip 950")
    assert not room.button.isEnabled()
    assert "mount that faces up" in room.said.text()
    QTest.keyClick(room.search, Qt.Key.Key_Return)
    assert session.undo.count() == 0


def test_a_whip_goes_on_a_bracket_and_the_bracket_is_then_taken(room, session):
    """The mount is offered by the bracket's name; the second time it says taken."""
    layout, bracket = placed_new(session.layout, kind("antenna-bracket"), _ahead())
    session.open(Desk(layout))
    room.begin()
    QTest.keyClicks(room.search, "vhf whip 950")
    assert choices(room.hosts) == ["Antenna bracket on the side of the mast: top"]
    QTest.keyClick(room.search, Qt.Key.Key_Return)
    assert (newest(session).on, newest(session).mount) == (bracket, "top")
    room.begin()
    assert choices(room.hosts) == ["Antenna bracket on the side of the mast: top (taken)"]


def test_a_flood_light_hangs_under_the_middle_of_a_spreader(room, session):
    """The spreader is 1000 long; below is 180 round it."""
    QTest.keyClicks(room.search, "flood light under")
    assert choices(room.hosts) == ["spreader-p"]
    QTest.keyClick(room.search, Qt.Key.Key_Return)
    new = newest(session)
    assert (new.on, new.along_mm, new.round_deg) == ("spreader-p", 500.0, 180.0)


def test_a_reflector_on_the_forestay_is_at_the_height_in_hand(room, session):
    """Nearest on the wire, to the 5 mm it is sought in."""
    QTest.keyClicks(room.search, "tube 590 x 50 on two")
    room.hosts.setCurrentText("forestay")
    QTest.keyClick(room.search, Qt.Key.Key_Return)
    assert newest(session).on == "forestay"
    assert session.desk.scene.placed[session.hand].seats.origin[0, 2] == pytest.approx(8000.0, abs=5.0)


def test_what_is_in_hand_is_the_first_host(room, session):
    """A spreader in hand comes before the mast for what sits on both."""
    session.pick("spreader-p")
    room.begin()
    QTest.keyClicks(room.search, "deck flood")
    assert room.hosts.currentText() == "spreader-p"


def test_three_on_one_another_are_the_most(room, session):
    """The model's sentence; the layout stays."""
    layout = session.layout
    stacked = a_kind("stack", name="Stack", mounts=[UP])
    layout = layout.but(kinds=(*layout.kinds, stacked))
    fittings = [a_fitting("s-1", name="s-1", kind="stack", in_hand=None)]
    fittings += [
        a_fitting(f"s-{n}", name=f"s-{n}", kind="stack", on=f"s-{n - 1}", mount="top", from_masthead_mm=None,
                  girth=None, in_hand=None)
        for n in (2, 3)
    ]  # fmt: skip
    session.open(Desk(layout.but(fittings=(*layout.fittings, *fittings))))
    room.begin()
    QTest.keyClicks(room.search, "vhf whip 950")
    room.hosts.setCurrentText("s-3: top")
    before = session.layout
    QTest.keyClick(room.search, Qt.Key.Key_Return)
    assert "at most 3 fittings" in room.said.text()
    assert session.layout is before
    assert session.undo.count() == 0


@pytest.mark.parametrize(
    ("name", "side", "front"),
    [
        # The hailer's mouth is 200 x 150 and 190 off the skin: side 190 x 150, front 200 x 150.
        ("hailer", (190, 150), (200, 150)),
        # The whip stands up: 950 high, its base 28 across, whichever way it is seen.
        ("vhf-whip", (28, 950), (28, 950)),
        # The wind sensor's arm reaches 453 ahead of its foot; seen from the side it is at the right.
        ("wind-sensor", (483, 525), (136, 525)),
    ],
)
def test_a_kind_is_drawn_as_large_as_its_solids(name, side, front):
    """In millimetres, in both views."""
    views = drawn(kind(name))
    assert tuple(views.side.size) == pytest.approx(side, abs=1.0)
    assert tuple(views.front.size) == pytest.approx(front, abs=1.0)


def test_starboard_of_an_upright_kind_is_at_the_left_from_ahead():
    """A crane's arm would be; the wind sensor's arm points ahead, to the right in the side view."""
    assert drawn(kind("wind-sensor")).side.high[0] == pytest.approx(453.0, abs=1.0)
    assert drawn(kind("hailer")).side.high[0] == pytest.approx(190.0, abs=1.0)


def test_what_is_typical_is_said(room):
    """Foot, holes and cable of the hailer, from the catalogue's own table."""
    words = typical_words(kind("hailer"), "metric")
    assert words == "Typical: foot 110 × 60, 4 holes, cable ⌀ 7"


def test_every_control_has_a_name_and_is_reached_by_tab(room):
    """Search, list, host, face, and both buttons."""
    controls = [room.search, room.view, room.hosts, room.face, room.button, room.close_button]
    assert all(one.accessibleName() or one.text() for one in controls)
    room.search.setFocus()
    met = set()
    for _stop in range(len(controls) + 2):
        met.add(room.focusWidget())
        QTest.keyClick(room.focusWidget(), Qt.Key.Key_Tab)
    assert set(controls) <= met


def _ahead():
    return Place(from_masthead_mm=7000.0, girth=a_fitting().girth)
