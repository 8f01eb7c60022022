"""The chart's scale and its words, for any mast and any ends: everything has room, nothing meets."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPen

from mastlayout.ui.heights.lettering import ROW_PX, AtCurve, AtDot, Shown, names, stairs
from mastlayout.ui.heights.scale import Name, scale_for, ticks

ENDS_NM = st.lists(st.floats(1.0, 300.0), min_size=1, max_size=7)


def placed(ends_nm, wide_px):
    """Curves' ends on a plot so wide, and the words at them."""
    words = [f"Radio to an antenna at {nm:.1f} m, 4/3 earth" for nm in ends_nm]
    widths = [AtCurve(one, QPointF(), QPen()).wide_px for one in words]
    named = [Name(*pair) for pair in zip(ends_nm, widths, strict=True)]
    scale = scale_for(wide_px, 600.0, 20.0, 0.0, named, len(named) * ROW_PX)
    per_px = (scale.high_nm - scale.low_nm) / wide_px
    at = [(nm - scale.low_nm) / per_px for nm in ends_nm]
    curves = [AtCurve(one, QPointF(x, 200.0), QPen()) for one, x in zip(words, at, strict=True)]
    return Shown(QRectF(0.0, 0.0, wide_px, 600.0), curves, leftward=scale.leftward)


@pytest.mark.usefixtures("theme")
@given(ends_nm=ENDS_NM, wide_px=st.floats(560.0, 1800.0))
def test_no_word_meets_another_or_a_line_and_none_is_cut(ends_nm, wide_px):
    """At every width the window can have, wherever the curves end."""
    shown = placed(ends_nm, wide_px)
    boxes = [text.box for text, _pen in stairs(shown)]
    feet = sorted((curve.end.x() for curve in shown.curves), reverse=shown.leftward)
    assert all(shown.room.contains(box) for box in boxes)
    assert not any(one.intersects(other) for one, other in itertools.combinations(boxes, 2))
    for x, own in zip(feet, boxes, strict=True):
        lines = [box for box in boxes if box.top() > own.top() and box.left() < x < box.right()]
        assert not lines, "a hair line goes through a word below its own"


@pytest.mark.usefixtures("theme")
@given(st.lists(st.floats(0.0, 600.0), min_size=1, max_size=60), st.integers(0, 59))
def test_every_dot_is_named_or_counted_or_left_out_and_what_is_in_hand_is_named(rows, hand):
    """Names never meet; the one in hand is always there."""
    held = hand % len(rows)
    dots = [AtDot(f"Fitting {i}", QPointF(20.0, y), 300.0, i == held) for i, y in enumerate(rows)]
    texts = list(names(dots))
    assert texts[0].words.startswith(f"Fitting {held}")
    assert texts[0].bold
    assert not any(a.box.intersects(b.box) for a, b in itertools.combinations(texts, 2))


def test_a_name_without_room_before_the_curve_is_left_out(theme):
    """Unless it is in hand."""
    short = AtDot("Radome on a bracket", QPointF(20.0, 100.0), 60.0, in_hand=False)
    assert list(names([short])) == []
    assert len(list(names([AtDot(short.name, short.at, 60.0, in_hand=True)]))) == 1


def test_ticks_are_round_and_the_last_has_the_unit():
    """By hand: 20 m over 600 px leave 42 px for each 2 m; feet are 0.3048 of them."""
    assert [text for _at, text in ticks(0.0, 9.5, 20.0 / 600.0, "m")] == ["0", "2", "4", "6", "8 m"]
    feet = ticks(0.0, 9.5, 20.0 / 600.0, "ft", 0.3048)
    assert [text for _at, text in feet] == ["0", "5", "10", "15", "20", "25", "30 ft"]
    assert feet[-1][0] == pytest.approx(9.144)
