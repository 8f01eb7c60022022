"""Limits: each with its source, the owner's own over them."""

import pytest
from builders import a_layout

from mastlayout.errors import EditError, UnknownNameError
from mastlayout.limits import built_in, limits_of
from mastlayout.model.layout import LimitOverride

OWN = LimitOverride(key="clearance.stay", value=35.0, unit="mm", why="her shrouds are slack")


def test_every_limit_says_whose_it_is():
    """A value, a unit, a title, a source, and one of four standings."""
    for limit in built_in().values():
        assert limit.source
        assert limit.title
        assert limit.unit in ("mm", "diameters", "%", "degrees", "threads", "V", "W/m²", "dB", "µT")
        assert limit.standing in ("standard", "handbook", "common practice", "from memory")


def test_the_owners_limit_holds_and_says_so():
    """The reason goes with it; the others stay."""
    limits = limits_of(a_layout(limits=(OWN,)))
    assert limits["clearance.stay"].value == 35.0
    assert limits["clearance.stay"].why == "her shrouds are slack"
    assert limits["clearance.stay"].source == "limit set by the owner"
    assert not limits["clearance.fitting"].by_owner


def test_a_limit_that_is_not_there_is_refused():
    """With the nearest name."""
    wrong = LimitOverride(key="clearance.stray", value=1.0, unit="mm", why="a slip")
    with pytest.raises(UnknownNameError, match=r"did you mean “clearance\.stay”"):
        limits_of(a_layout(limits=(wrong,)))


@pytest.mark.parametrize("value", [-0.1, 1000.1])
def test_a_limit_beyond_what_is_allowed_is_refused(value):
    """A file may hold it; 0 to 1000 mm is allowed."""
    wrong = LimitOverride(key="clearance.stay", value=value, unit="mm", why="a slip")
    with pytest.raises(EditError, match="0 to 1000 mm is allowed"):
        limits_of(a_layout(limits=(wrong,)))
