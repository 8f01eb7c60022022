"""Whether what the desk kept is what it would work out anew: scenes, reports and layouts held together."""

import dataclasses

import numpy as np
import pytest

from mastlayout.model.value import Value

# Rounding of sums whose arrays are cut otherwise; a millionth of the one tolerance of the rules.
NOTHING_MM = 1e-8
# Text in feet and inches may be off by as much as edits are rounded to.
TYPED_MM = 0.0101


def assert_same_scene(kept, fresh):
    """Every shape of both is there in the same order, at the same place, with the same holes."""
    for part in ("placed", "stays", "spreaders", "unplaced"):
        assert list(getattr(kept, part)) == list(getattr(fresh, part)), part
        for name, shape in getattr(kept, part).items():
            _assert_same(shape, getattr(fresh, part)[name], f"{part} {name}")
    for part in ("conduits", "halyards", "wires", "bars", "gear", "guests"):
        _assert_same(getattr(kept, part), getattr(fresh, part), part)


def _assert_same(one, other, where):
    if isinstance(one, np.ndarray):
        assert one.shape == other.shape, where
        same = np.array_equal(one, other) if one.dtype.kind in "USO" else None
        assert (
            same if same is not None else np.allclose(one, other, rtol=0, atol=NOTHING_MM, equal_nan=True)
        ), where
    elif isinstance(one, Value):
        assert one == other, where
    elif dataclasses.is_dataclass(one):
        assert type(one) is type(other), where
        for field in dataclasses.fields(one):
            if field.name not in ("host", "skin"):
                _assert_same(getattr(one, field.name), getattr(other, field.name), f"{where}.{field.name}")
    elif isinstance(one, tuple | list):
        assert len(one) == len(other), where
        for n, (a, b) in enumerate(zip(one, other, strict=True)):
            _assert_same(a, b, f"{where}[{n}]")
    else:
        assert one == other, where


def assert_same_report(kept, fresh):
    """The same findings in the same order, open and accepted, each with its figures."""
    assert [_spoken(f) for f in kept.open] == [_spoken(f) for f in fresh.open]
    assert [(_spoken(f), own) for f, own in kept.accepted] == [(_spoken(f), own) for f, own in fresh.accepted]
    for one, other in zip(kept.open, fresh.open, strict=True):
        a, b = ([f.measured, f.required, f.z_mm] for f in (one, other))
        assert [n is None for n in a] == [n is None for n in b]
        known = [[n for n in numbers if n is not None] for numbers in (a, b)]
        assert known[0] == pytest.approx(known[1], rel=0, abs=NOTHING_MM), (one, other)
    assert kept.broken == () == fresh.broken


def _spoken(found):
    return found.code, found.standing, found.subjects, found.unit, found.limit, found.measure, found.typical


def alike(one, other):
    """Tell whether two layouts are the same but for lengths that were typed in feet and inches."""
    if one == other:
        return True
    if isinstance(one, Value) and type(one) is type(other):
        return all(alike(getattr(one, name), getattr(other, name)) for name in type(one).model_fields)
    if isinstance(one, tuple) and isinstance(other, tuple) and len(one) == len(other):
        return all(map(alike, one, other))
    return isinstance(one, float) and isinstance(other, float) and abs(one - other) <= TYPED_MM
