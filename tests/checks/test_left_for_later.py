"""Rules left for later while a gesture is under way: what is caught up is what asking at once finds."""

import known
import pytest

from mastlayout.checks import FITTING_RULES, PARTS, WHOLE_RULES
from mastlayout.desk import Desk
from mastlayout.model.edits import change

LEFT = frozenset().union(*PARTS)


@pytest.fixture(scope="module")
def layout():
    """The largest example."""
    return known.report("whimbrel").scene.layout


def moved(layout, name, by_mm):
    """A fitting farther down."""
    old = next(one for one in layout.fittings if one.id == name)
    return change(layout, name, from_masthead_mm=old.from_masthead_mm + by_mm)


@pytest.mark.parametrize("name", ["hailer-1", "camera-1", "radome-bracket-1"])
def test_caught_up_it_says_what_asking_at_once_says(layout, name):
    """Two moves with the slow rules left out, then a part at a time, against a desk that asks all."""
    desk, whole = Desk(layout), Desk(layout)
    for by_mm in (400.0, 900.0):
        desk.show(moved(layout, name, by_mm), LEFT)
    assert desk.report.behind.keys() <= LEFT
    assert name in desk.report.behind["tack/bears"]
    for part in PARTS:
        desk.catch_up(frozenset(desk.report.behind) - part)
        assert not desk.report.behind.keys() & part
    whole.show(moved(layout, name, 900.0))
    assert not desk.report.behind
    assert set(desk.report.open) == set(whole.report.open)
    assert desk.report.states == whole.report.states


def test_an_edit_of_something_else_leaves_nothing(layout):
    """The mast, or a list that grows: every rule it touches is asked at once."""
    desk = Desk(layout)
    desk.show(layout.but(mast=layout.mast.but(rake_deg=2.0)), LEFT)
    assert not desk.report.behind.keys() & {rule.code for rule in FITTING_RULES}
    desk = Desk(layout)
    last = layout.fittings[-1]
    desk.show(layout.but(fittings=(*layout.fittings, last.but(id="another", tag=99))), LEFT)
    assert not desk.report.behind


def test_every_rule_left_is_a_rule_and_none_is_of_pairs():
    """A rule of pairs has to be asked where the fitting was as well as where it is."""
    rules = {rule.code: rule for rule in FITTING_RULES}
    assert rules.keys() | {rule.code for rule in WHOLE_RULES} >= LEFT
    assert not [code for code in LEFT & rules.keys() if rules[code].pairs]
    assert sum(len(part) for part in PARTS) == len(LEFT)


def test_no_rule_is_asked_twice():
    """Each stands once in its tuple, though a code may have several rules."""
    assert len({id(rule) for rule in FITTING_RULES}) == len(FITTING_RULES)
    assert len({id(rule) for rule in WHOLE_RULES}) == len(WHOLE_RULES)
