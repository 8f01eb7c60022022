"""Pairs: which spreader goes along with which, and what the two are called."""

import pytest
from builders import a_layout, a_spreader, a_stay

from mastlayout.model.pairs import level_mate, mate_of, together


def rig(*heights, names=("Lower spreader, P", "Lower spreader, S", "Upper spreader, P", "Upper spreader, S")):
    """Spreaders at heights from the masthead, port and starboard by turns."""
    bars = tuple(
        a_spreader(f"bar-{i}", name=name, side=("port", "starboard")[i % 2], from_masthead_mm=float(height))
        for i, (name, height) in enumerate(zip(names, heights, strict=False))
    )
    return a_layout(spreaders=bars)


@pytest.mark.parametrize(
    ("heights", "mates"),
    [
        ((10300, 10300, 5350, 5350), ["bar-1", "bar-0", "bar-3", "bar-2"]),
        ((10300, 10310, 5350, 5350), [None, None, "bar-3", "bar-2"]),
        ((10300, 10300.005), ["bar-1", "bar-0"]),
        ((10300,), [None]),
    ],
)
def test_level_spreaders_of_two_sides_are_a_pair(heights, mates):
    """Each is the other's mate; one that stands elsewhere, or alone, has none."""
    layout = rig(*heights)
    found = [level_mate(layout, bar) for bar in layout.spreaders]
    assert [mate.id if mate else None for mate in found] == mates


def test_of_two_at_one_height_the_name_tells():
    """A strut is no spreader's mate, nor is one on the centreline anybody's."""
    layout = rig(9000, 9000, 9000, 9000)
    lower, upper = layout.spreaders[0], layout.spreaders[2]
    assert level_mate(layout, lower).id == "bar-1"
    assert level_mate(layout, upper).id == "bar-3"
    strut = a_spreader("bar-1", name="Lower spreader, S", side="starboard", role="strut")
    assert level_mate(a_layout(spreaders=(a_spreader("bar-0"), strut)), strut) is None
    ahead = (a_spreader("a", side="centre"), a_spreader("b", side="centre"))
    assert level_mate(a_layout(spreaders=ahead), ahead[0]) is None


def test_a_stay_has_a_mate_by_name():
    """At whatever height its pin is."""
    stays = tuple(a_stay(f"cap-{s.lower()}", role="cap", side=side, name=f"Cap shroud, {s}")
                  for s, side in (("P", "port"), ("S", "starboard")))  # fmt: skip
    assert mate_of(a_layout(stays=stays), stays[0]).id == "cap-s"


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (("Lower spreader, P", "Lower spreader, S"), "Lower spreaders"),
        (("Port diamond strut", "Starboard diamond strut"), "Diamond struts"),
        (("Spreader P", "Spreader S"), "Spreaders"),
        (("Old one", "New one"), "Old one and New one"),
        (("Crosstree, P", "Crosstree, S"), "Crosstree, P and Crosstree, S"),
    ],
)
def test_what_a_pair_is_called(names, said):
    """One word for both where their names are one but for the side."""
    layout = rig(9000, 9000, names=names)
    assert together(*layout.spreaders) == said
