"""The frozen dataclasses against the standard library's own: same values, same refusals."""

import dataclasses

import pytest

from mastlayout.frozen import dataclass


def twins(**options):
    """The same class twice: by the standard library, and by ours."""
    return [_made(library, options) for library in (dataclasses.dataclass, dataclass)]


def _made(library, options):
    @library(frozen=True, **options)
    class Mark:
        """A mark at a height."""

        name: str
        z_mm: float
        side: str = "port"
        tags: list = dataclasses.field(default_factory=list, compare=False)

    return Mark


CALLS = [
    (("a", 1.0), {}),
    (("a", 1.0, "starboard", ["x"]), {}),
    (("a",), {"z_mm": 2.0, "tags": ["y"]}),
    ((), {"z_mm": 2.0, "name": "b"}),
]
WRONG = [
    ((), {}),
    (("a",), {}),
    (("a", 1.0, "port", [], 5), {}),
    (("a", 1.0), {"name": "b"}),
    (("a", 1.0), {"x": 1}),
]


@pytest.mark.parametrize(("given", "named"), CALLS)
def test_values_are_those_of_the_standard_library(given, named):
    """By place, by name, left out; shown alike."""
    theirs, ours = (made(*given, **named) for made in twins())
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert repr(ours) == repr(theirs)


@pytest.mark.parametrize(("given", "named"), WRONG)
def test_both_refuse_the_same(given, named):
    """Too few, too many, twice, unknown."""
    for made in twins():
        with pytest.raises(TypeError, match="Mark"):
            made(*given, **named)


def test_each_has_a_list_of_its_own():
    """A factory makes one for each."""
    _theirs, ours = twins()
    assert ours("a", 1.0).tags is not ours("a", 1.0).tags


def test_equal_by_what_is_compared():
    """A field that is not compared makes no difference; another class always does."""
    theirs, ours = twins()
    one = ours("a", 1.0, tags=["x"])
    assert one == ours("a", 1.0)
    assert hash(one) == hash(ours("a", 1.0))
    assert one != ours("a", 2.0)
    assert one != theirs("a", 1.0, tags=["x"])


def test_without_eq_each_is_equal_to_itself_alone():
    """As values that are told apart by identity want it."""
    _theirs, ours = twins(eq=False)
    one = ours("a", 1.0)
    assert one != ours("a", 1.0)
    assert len({one, ours("a", 1.0), one}) == 2


def test_nothing_is_set_or_deleted():
    """Frozen is frozen; a changed one is made anew."""
    for made in twins():
        one = made("a", 1.0)
        with pytest.raises(dataclasses.FrozenInstanceError, match="z_mm"):
            one.z_mm = 2.0
        with pytest.raises(dataclasses.FrozenInstanceError, match="z_mm"):
            del one.z_mm
        assert dataclasses.replace(one, z_mm=2.0).z_mm == 2.0
        assert one.z_mm == 1.0


def test_a_subclass_takes_what_its_base_takes_first():
    """Fields go from base to subclass, and both are matched by place."""

    @dataclass(frozen=True)
    class Base:
        name: str

    @dataclass(frozen=True)
    class Above(Base):
        z_mm: float = 3.0

    match Above("a"):
        case Above(name, z_mm):
            assert (name, z_mm) == ("a", 3.0)
    assert Above("a") != Base("a")


def test_what_is_not_frozen_or_finishes_itself_is_the_standard_librarys():
    """Its methods are written out, as they always were."""

    @dataclass
    class Loose:
        name: str

    @dataclass(frozen=True)
    class Finished:
        name: str

        def __post_init__(self):
            if not self.name:
                raise ValueError("no name")

    loose = Loose("a")
    loose.name = "b"
    assert loose == Loose("b")
    with pytest.raises(ValueError, match="no name"):
        Finished("")
