"""Values: frozen, strict, units named once; what is measured has its instruction."""

import typing

import pytest
from builders import a_fitting, a_foot, a_layout, a_mast
from pydantic import BaseModel, ValidationError

from mastlayout.model import boat, fitting, kind, mast, rig, sails
from mastlayout.model.around import AHEAD, Around, read_around
from mastlayout.model.layout import Layout
from mastlayout.model.measure import WHEN, Measure, instructions
from mastlayout.model.value import Value, file_key

MODELS = [
    model
    for module in (boat, fitting, kind, mast, rig, sails)
    for model in vars(module).values()
    if isinstance(model, type) and issubclass(model, Value) and model is not Value
]


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_the_keys_of_a_value_are_each_one_field(model):
    """Two fields may not meet in one key once their units are off."""
    keys = [file_key(name) for name in model.model_fields]
    assert len(keys) == len(set(keys))


def test_every_measure_has_an_instruction_and_every_instruction_is_asked_for():
    """No field names a measure that is not there, and none lies there unused."""
    named = {
        item.key
        for model in (*MODELS, Layout)
        for field in model.model_fields.values()
        for item in field.metadata
        if isinstance(item, Measure)
    }
    assert named == set(instructions())


def test_every_instruction_is_whole():
    """A sentence, what it serves, a tool, and when."""
    for one in instructions().values():
        assert one.when in WHEN
        assert one.how.endswith((".", "?"))
        assert all((one.title, one.serves, one.tool, one.picture))


@pytest.mark.parametrize(
    "wrong", [{"length_mm": -1}, {"length_mm": "1,5 m"}, {"colour": "red"}, {"length_mm": float("nan")}]
)
def test_a_wrong_field_is_refused(wrong):
    """Out of range, unreadable, unknown, not a number."""
    with pytest.raises(ValidationError):
        a_mast(**wrong)


def test_an_edit_builds_anew_and_keeps_what_it_leaves_alone():
    """The other parts are the very same objects."""
    layout = a_layout(fittings=(a_fitting(), a_fitting("box-2")))
    changed = layout.but(note="new")
    assert changed.mast is layout.mast
    assert all(a is b for a, b in zip(changed.fittings, layout.fittings, strict=True))
    with pytest.raises(ValidationError):
        layout.note = "other"


def test_equal_values_are_equal_and_can_be_counted():
    """Feet by their measures, not by who made them."""
    assert a_foot() == a_foot()
    assert len({a_foot(), a_foot(), a_foot(across_mm=90)}) == 2


@pytest.mark.parametrize(
    ("typed", "origin", "offset"),
    [
        ("ahead", "ahead", 0),
        ("aft", "aft", 0),
        ("bearing 285", "bearing", 285),
        ("44 to port of ahead", "ahead", -44),
        ("1 1/2 in to starboard of aft", "aft", 38.1),
        ("30 to starboard", "ahead", 30),
        (-120, "aft", -120),
    ],
)
def test_a_place_round_the_skin_as_a_person_says_it(typed, origin, offset):
    """Said, read, and said back."""
    around = read_around(typed)
    assert (around.origin, around.offset) == (origin, pytest.approx(offset))
    assert read_around(str(around)) == around
    assert read_around("ahead") == AHEAD


def test_a_place_that_is_none_is_refused():
    """The sentence shows what can be said."""
    with pytest.raises(ValidationError, match="bearing 285"):
        a_fitting(girth="left of the mast")
    with pytest.raises(ValidationError):
        Around(origin="middle")


def test_the_layout_has_only_values():
    """Nothing that could run hides in a file's types."""

    def leaves(annotation):
        arguments = typing.get_args(annotation)
        return [leaf for a in arguments for leaf in leaves(a)] if arguments else [annotation]

    seen, todo = set(), [Layout]
    while todo:
        model = todo.pop()
        if model in seen:
            continue
        seen.add(model)
        for field in model.model_fields.values():
            for leaf in leaves(field.annotation):
                if isinstance(leaf, type) and issubclass(leaf, BaseModel):
                    todo.append(leaf)
                elif isinstance(leaf, type):
                    assert leaf in (str, int, float, bool, type(None), type(Ellipsis)), leaf
