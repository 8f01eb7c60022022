"""Rules in turns while a gesture is under way: every one has its turn, whatever the clock says."""

import pytest

from mastlayout.checks.rules import AT_ONCE, FITTING_RULES, WHOLE_RULES
from mastlayout.ui.later import TURN_S, Later, waits

CODES = [*(rule.code for rule in FITTING_RULES), *(rule.code for rule in WHOLE_RULES)]


def asked_in(turn):
    """The codes that a turn asks, in the order in which a check comes to them."""
    return [code for code in CODES if waits(code) and not turn(code)]


def test_what_is_near_the_hand_waits_for_nothing():
    """Clearances are asked with every move."""
    assert {code for code in CODES if not waits(code)} == AT_ONCE


@pytest.mark.parametrize("takes_s", [0.0, TURN_S / 4, TURN_S, 10.0])
def test_every_rule_has_its_turn(takes_s):
    """Each turn goes on where the last one stopped and asks one rule at least."""
    now = [0.0]

    def clock():
        now[0] += takes_s
        return now[0]

    later, seen = Later(clock), []
    for _turn in range(len(CODES)):
        own = asked_in(later.turn())
        assert own
        seen += own
        if len(seen) >= len(CODES) - len(AT_ONCE):
            break
    assert seen == [code for code in CODES if waits(code)]


def test_after_the_last_rule_it_begins_anew():
    """With no time at all: one rule a turn, and the first again after the last."""
    later = Later(iter(range(10_000)).__next__)
    many = [asked_in(later.turn()) for _turn in range(len(CODES) - len(AT_ONCE) + 1)]
    assert all(len(own) == 1 for own in many)
    assert many[0] == many[-1]


def test_a_rule_that_has_its_turn_keeps_it_however_often_it_is_asked():
    """A check asks again once it has found what a rule is to be asked of, which may have taken long."""
    later = Later(iter(range(10_000)).__next__)
    turn, (first, second, *_rest) = later.turn(), [code for code in CODES if waits(code)]
    assert [turn(first), turn(first), turn(second), turn(first)] == [False, False, True, False]
