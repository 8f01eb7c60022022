"""Edits: from layout to layout, or not at all."""

import pytest
from builders import a_fitting, a_foot, a_layout

from mastlayout.errors import EditError, UnknownNameError
from mastlayout.model.around import Around
from mastlayout.model.edits import (
    accept,
    add,
    change,
    confirm_foot,
    cut_heel,
    found_at,
    move,
    next_id,
    next_tag,
    open_again,
    remove,
    tick,
)
from mastlayout.model.fitting import AsBuilt, steps_done
from mastlayout.model.layout import Accepted


def test_a_move_is_kept_to_a_hundredth():
    """Of a millimetre, along and round."""
    layout = move(a_layout(), "box-1", 8123.45678, Around(origin="ahead", offset=12.3456))
    assert layout.fittings[0].from_masthead_mm == 8123.46
    assert layout.fittings[0].girth.offset == 12.35


def test_an_edit_that_changes_nothing_is_the_very_same_layout():
    """So that no undo step is made of it."""
    layout = a_layout()
    assert change(layout, "box-1", from_masthead_mm=8000.001) is layout


@pytest.mark.parametrize(
    "wrong",
    [
        {"from_masthead_mm": 17001.0},
        {"from_masthead_mm": -1.0},
        {"kind": "none"},
        {"on": "box-1"},
        {"on": "moon"},
    ],
)
def test_a_wrong_edit_is_refused_and_leaves_the_layout(wrong):
    """Below the heel, above the masthead, no such kind, hung on itself, no such host."""
    layout = a_layout()
    with pytest.raises(EditError):
        change(layout, "box-1", **wrong)
    assert layout == a_layout()


def test_an_id_and_a_tag_are_given_once():
    """Neither comes back after its fitting is gone."""
    layout = remove(a_layout(fittings=(a_fitting(tag=7),)), "box-1")
    assert next_id(layout, "box") == "box-2"
    assert next_tag(layout) == 8
    with pytest.raises(EditError, match="never used again"):
        add(layout, "fittings", a_fitting())


def test_what_is_not_there_cannot_be_edited():
    """With the nearest names."""
    with pytest.raises(UnknownNameError, match="did you mean “box-1”"):
        change(a_layout(), "bix-1", name="x")


def test_cutting_the_heel_changes_the_length_and_nothing_else():
    """Readings from the masthead stay; one below the new heel is refused."""
    layout = cut_heel(a_layout(), 60.0)
    assert layout.mast.length_mm == 16940.0
    assert layout.fittings == a_layout().fittings
    with pytest.raises(EditError, match="below the heel"):
        cut_heel(a_layout(), 9500.0)


def test_confirming_a_foot_puts_it_in_hand():
    """From then on its holes are printed."""
    layout = a_layout(fittings=(a_fitting(in_hand=None),))
    assert confirm_foot(layout, "box-1", a_foot()).fittings[0].in_hand == a_foot()


def test_accepting_twice_keeps_the_last_word():
    """One word for one finding, whichever way round its subjects are named."""
    words = [
        Accepted(code="c", subjects=s, remark=r, day="2026-11-25")
        for s, r in ((("a", "b"), "1"), (("b", "a"), "2"))
    ]
    layout = accept(accept(a_layout(), words[0]), words[1])
    assert [own.remark for own in layout.accepted] == ["2"]


def test_a_word_on_a_finding_is_taken_back():
    """The other words stay; a word that was never given changes nothing."""
    words = [Accepted(code="x", subjects=(name,), remark="fine", day="2026-01-01") for name in "ab"]
    layout = accept(accept(a_layout(), words[0]), words[1])
    left = open_again(layout, layout.accepted[0])
    assert left.accepted == (words[1],)
    assert open_again(left, words[0]) is left


def test_a_step_is_ticked_in_the_order_of_work():
    """However it was ticked, a hole's steps stand together in their order; other holes keep theirs."""
    layout = a_layout(fittings=(a_fitting(done=("h2 drilled", "h1 drilled", "h3 marked")),))
    layout = tick(layout, "box-1", 1, "marked", ticked=True)
    assert layout.fittings[0].done == ("h2 drilled", "h1 marked", "h1 drilled", "h3 marked")
    assert steps_done(layout.fittings[0], 1) == {"marked", "drilled"}
    layout = tick(layout, "box-1", 1, "drilled", ticked=False)
    assert layout.fittings[0].done == ("h2 drilled", "h1 marked", "h3 marked")


def test_a_step_ticked_twice_is_the_very_same_layout():
    """And so is one taken back that was never there."""
    layout = a_layout(fittings=(a_fitting(done=("h12 marked",)),))
    assert tick(layout, "box-1", 12, "marked", ticked=True) is layout
    assert tick(layout, "box-1", 1, "marked", ticked=False) is layout


@pytest.mark.parametrize("words", ["drilled", "h0 drilled", "h1 painted", "box-1/h1 drilled", "h1  drilled"])
def test_what_is_done_names_a_hole_and_a_step(words):
    """Anything else is refused."""
    with pytest.raises(EditError):
        change(a_layout(), "box-1", done=(words,))


def test_where_a_fitting_was_found_takes_the_place_of_the_plan():
    """The plan stays beside it."""
    built = AsBuilt(from_masthead_mm=8012.0, by="Ann", day="2026-11-25")
    fitting = found_at(a_layout(), "box-1", built).fittings[0]
    assert fitting.as_built == built
    assert fitting.from_masthead_mm == 8000.0
