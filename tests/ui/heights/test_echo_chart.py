"""The echo over distance, as it is painted: bars where the core says it fades, words that say the same."""

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from test_heights_window import settle, window  # noqa: F401 - a fixture

from mastlayout.ranges.echo import X_BAND
from mastlayout.ranges.echo_words import lane_of
from mastlayout.ranges.two_ray import SHIPS_M, faded, fades, lobes
from mastlayout.ui.look import THEMES


def black(picture, row):
    """The stretches of a row, px, that are painted in ink."""
    ink = QColor(THEMES["light"]["ink"]).lightness()
    dark = [abs(picture.pixelColor(x, row).lightness() - ink) < 12 for x in range(picture.width())]
    edges = np.flatnonzero(np.diff(np.concatenate([[0], dark, [0]]).astype(int)))
    return edges.reshape(-1, 2)


def test_black_bars_stand_where_the_echo_fades(window):  # noqa: F811 - a fixture
    """In each lane, beyond a mile: each bar from and to the pixel of the core's stretch."""
    chart = window.heights.echo
    settle()
    picture = chart.grab().toImage()
    assert [lane.ship_m for lane in chart.lanes] == list(SHIPS_M)
    for count, lane in enumerate(chart.lanes):
        row = round(chart.lane_box(count).bottom()) - 3
        bars = black(picture, row)
        found = faded(*lobes(chart.height_m, lane.ship_m, X_BAND.wave_m))
        for fade in (one for one in found if one.from_nm > 2.0):
            first, last = chart.x_of(np.array([fade.from_nm, fade.to_nm]))
            off = np.abs(bars - [first, last]).max(axis=1).min()
            assert off <= 1.5, (lane.ship_m, fade)


def test_it_follows_the_height_in_hand_and_tells_it_in_words(window):  # noqa: F811 - a fixture
    """Up climbs in this chart too; what is painted is in its description, lane by lane."""
    chart, session = window.heights.echo, window.session
    session.go_to(6000.0)
    before = chart.height_m
    chart.setFocus()
    QTest.keyClick(chart, Qt.Key.Key_Up)
    assert chart.height_m > before
    for lane in chart.lanes:
        assert lane.title in chart.accessibleDescription()
        assert lane.told in chart.accessibleDescription()
    assert window.heights.chart.height_m == chart.height_m


def test_low_and_high_are_told_apart_in_words():
    """5 m: one fade or none far out; 15 m: many. Common practice: "at about 5 m no self-cancelling zones"."""
    low, high = (lane_of(height, 15.0, 7.5, "metric").told for height in (5.0, 15.0))
    count = [len([fade for fade in fades(h, 15.0, X_BAND.wave_m) if not fade.horizon]) for h in (5.0, 15.0)]
    assert low.split(" · ")[1].startswith(f"{count[0]} fades, the last")
    assert high.split(" · ")[1].startswith(f"{count[1]} fades, the last")
    assert low.split(" · ")[2].startswith("weak from")
    assert count[1] > 2 * count[0]
    assert lane_of(2.0, 15.0, None, "inches").title == "Ship's antenna 49 ft"
    assert "first seen" not in lane_of(2.0, 15.0, None, "inches").told


def test_without_the_waterline_it_says_what_to_measure(window):  # noqa: F811 - a fixture
    """No lane is drawn, and the words say why."""
    session = window.session
    boat = session.layout.boat.but(heel_above_water_mm=None)
    session.edit(session.layout.but(boat=boat), "Forget the water")
    settle()
    window.heights.follow()
    chart = window.heights.echo
    assert chart.lanes == ()
    assert "measure from the waterline to the heel" in chart.accessibleDescription()


@pytest.mark.parametrize("height", [-1.0, 0.0])
def test_under_the_water_nothing_is_drawn(window, height):  # noqa: F811 - a fixture
    """Negative heights: a sentence, no curve."""
    chart = window.heights.echo
    chart.show_height(height, 7.5)
    assert chart.lanes == ()
    assert chart.accessibleDescription() == "Under the water nothing sends an echo back."
    assert not chart.grab().isNull()
