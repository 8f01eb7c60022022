"""Weight aloft: what was not weighed is named; what a strop at the balance point would crush."""

import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast

from mastlayout.checks.weight import RULES
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.ranges.balance import balance

HALF_MM, REACH_MM = 40.0, 150.0  # half the box along the mast; the strop's reach


def said(layout):
    """Code, standing, what was measured, and the measure that is missing."""
    scene = build(layout)
    every = [f for rule in RULES for f in rule.findings(scene, limits_of(layout))]
    return [(f.code, f.standing, f.measured, f.measure) for f in every]


def light_box(off_mm, **fields):
    """A box of no mass whose edge stands so far above the balance point, which is then the tube's middle."""
    at = LENGTH_MM / 2 - HALF_MM - off_mm
    kind = {"mass_kg": 0.0} | fields
    return a_layout(kinds=(a_kind(**kind),), fittings=(a_fitting(from_masthead_mm=at),))


@pytest.mark.parametrize(("off", "found"), [(0.0, True), (149.0, True), (REACH_MM, False), (400.0, False)])
def test_what_stands_at_the_balance_point(off, found):
    """The tube alone balances at its middle."""
    assert said(light_box(off)) == (
        [("strop/crushes", "note", pytest.approx(off, abs=1e-6), None)] if found else []
    )


def test_a_strop_bears_on_what_bears_it():
    """A winch, a tang or an exit under a strop is what riggers pad: nobody is told."""
    assert said(light_box(0.0, group="deck")) == []


def test_without_the_tubes_mass_the_strop_is_not_checked():
    """Where nothing on the mast would break nobody asks for it."""

    def bare(group):
        return a_layout(mast=a_mast(mass_per_metre_kg=None), kinds=(a_kind(group=group),))

    assert said(bare("radar")) == [("strop/crushes", "not checked", None, "mast.mass")]
    assert said(bare("deck")) == []


def test_what_was_not_weighed_is_named():
    """Only what is new: an old eye that stays changes nothing."""

    def unknown(**fields):
        return a_layout(kinds=(a_kind(mass_kg=None, group="deck"),), fittings=(a_fitting(**fields),))

    assert said(unknown()) == [("weight/aloft", "not checked", None, "kind.mass")]
    assert said(unknown(mass_kg=2.0)) == []
    assert said(unknown(new=False)) == []
    assert balance(build(unknown())).missing == "kind.mass"
