"""What a desk keeps from edit to edit, some rules left for later, is what a fresh one works out."""

import known
import pytest
from agreement import assert_same_report, assert_same_scene
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from random_edits import EDITS, edited

from mastlayout.checks.rules import AT_ONCE, FITTING_RULES, WHOLE_RULES
from mastlayout.desk import Desk
from mastlayout.errors import MastLayoutError

CODES = sorted({rule.code for rule in (*FITTING_RULES, *WHOLE_RULES)} - AT_ONCE)
MASTS = ("sanderling", "turnstone", "whimbrel")
# What is left for later when an edit is shown: nothing, all that may be, or some.
LEFT = st.sampled_from([frozenset(), frozenset(CODES)]) | st.frozensets(st.sampled_from(CODES), min_size=1)
STEPS = st.lists(st.tuples(EDITS, LEFT), min_size=1, max_size=8)


def assert_kept(mast, steps):
    """Show edit after edit; caught up, scene and report are those of a desk made anew."""
    desk = known.a_desk(mast)
    for edit, left in steps:
        try:
            layout = edited(desk, edit)
            if layout is not None:
                desk.show(layout, left.__contains__)
        except MastLayoutError:
            continue
    desk.catch_up()
    fresh = Desk(desk.layout)
    assert_same_scene(desk.scene, fresh.scene)
    assert_same_report(desk.report, fresh.report)


def chains(count, form):
    """A test of so many chains of edits of one mast."""
    return settings(
        settings.get_profile(form), max_examples=count, suppress_health_check=list(HealthCheck),
        phases=(Phase.explicit, Phase.generate), report_multiple_bugs=False,
    )(given(steps=STEPS)(assert_kept))  # fmt: skip


@pytest.mark.parametrize("mast", MASTS)
def test_what_edits_keep_is_what_a_fresh_desk_finds(mast):
    """Two chains of edits of each mast."""
    chains(2, "short")(mast=mast)


@pytest.mark.full
@pytest.mark.parametrize("mast", MASTS)
def test_what_many_edits_keep_is_what_a_fresh_desk_finds(mast):
    """A hundred and fifty chains of each."""
    chains(150, "long")(mast=mast)
