"""Rules left for later while a gesture is under way: what is caught up is what asking at once finds."""

from copy import copy

import known
import pytest

from mastlayout.checks.rules import AT_ONCE, FITTING_RULES, WHOLE_RULES
from mastlayout.model.edits import change

CODES = [*(rule.code for rule in FITTING_RULES), *(rule.code for rule in WHOLE_RULES)]


def later(code):
    """What a gesture leaves for later."""
    return code not in AT_ONCE


@pytest.fixture(scope="module")
def opened():
    """The largest example, asked once."""
    return known.a_desk("whimbrel")


@pytest.fixture
def layout(opened):
    """Its layout."""
    return opened.layout


def moved(layout, name, by_mm):
    """A fitting farther down."""
    old = next(one for one in layout.fittings if one.id == name)
    return change(layout, name, from_masthead_mm=old.from_masthead_mm + by_mm)


@pytest.mark.parametrize("size", [1, 7, 200])
@pytest.mark.parametrize("name", ["hailer-1", "camera-1", "radome-bracket-1", "reflector-1"])
def test_caught_up_it_says_what_asking_at_once_says(opened, layout, name, size):
    """Two moves with most rules left out, then so many at a time, against a desk that asks all."""
    desk, whole = copy(opened), copy(opened)
    for by_mm in (400.0, 900.0):
        desk.show(moved(layout, name, by_mm), later)
    assert "tack/bears" in desk.report.behind
    assert not desk.report.behind.keys() & AT_ONCE
    for start in range(0, len(CODES), size):
        part = CODES[start : start + size]
        desk.catch_up(lambda code, part=part: code not in part)
        assert not desk.report.behind.keys() & set(part)
    assert not desk.report.behind
    whole.show(moved(layout, name, 900.0))
    assert set(desk.report.open) == set(whole.report.open)
    assert desk.report.states == whole.report.states


def test_moved_there_and_back_while_it_waited_it_says_what_it_said(opened, layout):
    """The rule was asked of neither move: what it said of the first place still holds."""
    desk = copy(opened)
    before = set(desk.report.open)
    for by_mm in (1500.0, 0.0):
        desk.show(moved(layout, "hailer-1", by_mm), later)
    desk.catch_up()
    assert set(desk.report.open) == before


def test_a_rig_that_moves_is_left_for_later_too(opened, layout):
    """A stay that is dragged, and a fitting with it: caught up as asked at once."""
    stay = next(one for one in layout.stays if one.id == "cap-s")
    higher = stay.but(upper=stay.upper.but(from_masthead_mm=stay.upper.from_masthead_mm + 300.0))
    stays = tuple(higher if one is stay else one for one in layout.stays)
    other = moved(layout, "hailer-1", 250.0).but(stays=stays)
    desk, whole = copy(opened), copy(opened)
    desk.show(layout.but(stays=stays), later)
    desk.show(other, later)
    assert "tack/bears" in desk.report.behind
    desk.catch_up()
    whole.show(other)
    assert set(desk.report.open) == set(whole.report.open)


def test_where_things_come_or_go_nothing_is_left(opened, layout):
    """What was said of a thing that is gone must not stand."""
    desk, last = copy(opened), layout.fittings[-1]
    desk.show(layout.but(fittings=(*layout.fittings, last.but(id="another", tag=99))), later)
    assert not desk.report.behind
    desk.show(layout, later)
    assert not desk.report.behind


def test_no_rule_is_asked_twice():
    """Each stands once in its tuple, and what it said is kept by its code."""
    assert len(set(CODES)) == len(CODES)
