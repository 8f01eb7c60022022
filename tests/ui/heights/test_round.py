"""What lights and antennas see round the compass, in the window: list, pixels, real keys."""

from dragging import rest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from test_heights_window import settle, window  # noqa: F401 - a fixture

from mastlayout.checks.sentence import names_of
from mastlayout.documents.compass import at
from mastlayout.model.edits import change, remove
from mastlayout.ranges.ring_words import numbered
from mastlayout.ranges.rings import every_ring


def shown(window):  # noqa: F811
    """The view round the compass, opened by the keys from the bar above it."""
    heights = window.heights
    heights.tabs.setFocus()
    for _press in range(2):
        QTest.keyClick(heights.tabs, Qt.Key.Key_Right)
    settle()
    return heights.compass


def lines(compass):
    """The list's lines."""
    return [compass.list.item(i).text() for i in range(compass.list.count())]


def test_list_says_what_the_core_found(window):  # noqa: F811
    """Every light and antenna by its number, everything in its way by its letter."""
    compass, scene = shown(window), window.session.desk.scene
    said = lines(compass)
    for one in numbered(tuple(every_ring(scene)), names_of(scene.layout)):
        assert any(one.title in line for line in said)
        assert all(any(item.line in line for line in said) for item in one.things)
    assert any("VHF whip, 207° to 213°: dimmed, 42 %" in line for line in said)
    assert said[-2:] == ["9  Fog horn: before its mouth", "      nothing in its way"]


def test_picture_is_red_to_port_and_green_to_starboard(window):  # noqa: F811
    """The sidelights' arcs in the colours a sailor expects, ahead up; the line in hand is outlined."""
    compass = shown(window)
    picture = compass.picture
    image = picture.grab().toImage()
    scale = image.devicePixelRatio()
    inner, outer = picture.band_px(1)
    colour = {}
    for name, bearing in (("port", 330.0), ("starboard", 70.0)):
        x, y = at(picture.centre(), (inner + outer) / 2, bearing)
        colour[name] = image.pixelColor(round(x * scale), round(y * scale))
    assert colour["port"].red() > colour["port"].green()
    assert colour["starboard"].green() > colour["starboard"].red()
    compass.list.setCurrentRow(0)
    compass.list.setFocus()
    QTest.keyClick(compass.list, Qt.Key.Key_Down)
    assert picture.chosen == (1, "a")


def test_it_follows_an_edit(window):  # noqa: F811
    """The whip taken off, its lines go."""
    compass, session = shown(window), window.session
    layout = remove(session.layout, "cable-vhf")
    session.edit(remove(layout, "vhf-whip-1"), "Remove")
    compass.show_layout()
    assert not any("VHF whip" in line for line in lines(compass))


def test_it_follows_a_gesture_a_few_rings_at_a_time(window):  # noqa: F811
    """One turn ends before the last ring; at rest all of the newest are there, and back again."""
    compass, session = shown(window), window.session
    before = lines(compass)
    compass.turn_s = 0.0
    for height in (3000.0, 9000.0):
        session.preview(change(session.layout, "reflector-1", from_masthead_mm=height))
        compass.show_layout()
        assert lines(compass) == before
    rest()
    newest = numbered(tuple(every_ring(session.desk.scene)), names_of(session.layout))
    assert [one.title for one in newest] == [one.title for one in compass.picture.shown]
    assert lines(compass) != before
    session.cancel()
    assert lines(compass) == before
