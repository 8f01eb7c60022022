"""The model's own complaints as sentences: what stands there and what is wanted, in the file's keys."""

import datetime as dt
from collections.abc import Iterator
from types import NoneType
from typing import Any, Literal, NamedTuple, get_args, get_origin

from pydantic import BaseModel, ValidationError

from mastlayout.errors import did_you_mean, nearest
from mastlayout.model.parts import Path, PathMistake
from mastlayout.model.value import file_key
from mastlayout.storage.bounds import bounds_of, range_words
from mastlayout.words import _

_UNITS = {
    "_mm": _('a length such as 8140, "8.14 m" or "26 ft 8 1/2 in"'),
    "_deg": _('an angle in degrees such as 1.5 or "1.5 deg"'),
    "_kg": _('a mass such as 1.9 or "4 lb 3 oz"'),
}
_BASICS: dict[Any, str] = {
    str: _("a text in quotes"),
    bool: _("true or false"),
    int: _("a whole number"),
    float: _("a number"),
}
# What is said of each sort of complaint; of any other, the last.
_SENTENCES = {
    "missing": _("{key} is missing: {wanted} is needed"),
    "union_tag_not_found": _("shape is missing: {wanted} is needed"),
    "union_tag_invalid": _("{given} is not known here{hint}: {wanted} is wanted"),
    "literal_error": _("{given} is not known here{hint}: {wanted} is wanted"),
    "string_pattern_mismatch": _("{given} cannot be used: {pattern} are wanted"),
    "greater_than": _("{key} is {given}: more than {bound:g} is needed"),
    "greater_than_equal": _("{key} is {given}: {bound:g} or more is allowed"),
    "less_than": _("{key} is {given}: less than {bound:g} is allowed"),
    "less_than_equal": _("{key} is {given}: {bound:g} or less is allowed"),
    "string_too_short": _("{key} is too short: {bound} letters or more are needed"),
    "string_too_long": _("{key} is too long: {bound} letters or fewer are allowed"),
    "too_short": _("{key} is too short: {bound} entries or more are needed"),
    "too_long": _("{key} is too long: {bound} entries or fewer are allowed"),
    "": _("{given} stands here: {wanted} is wanted"),
}
_ABOVE = _("from_masthead {given} is above the masthead: 0 or more is allowed")
_OUT_OF_BOUNDS = ("greater_than", "greater_than_equal", "less_than", "less_than_equal")
_BOUNDS = ("gt", "ge", "lt", "le", "min_length", "max_length")
_LONGEST_SHOWN = 40


class _Spot(NamedTuple):
    """What the model has at a path: the last field met, what it may hold, the models that may stand there."""

    path: Path
    name: str
    annotation: Any
    models: list[type[BaseModel]]
    marks: tuple[Any, ...] = ()


def mistakes_of(model: type[BaseModel], error: ValidationError) -> Iterator[PathMistake]:
    """Yield one mistake for each path that a validation complains of."""
    said: set[Path] = set()
    # Of a union's several complaints the one that lists its words says most; so it comes first.
    for complaint in sorted(error.errors(include_url=False), key=lambda one: one["type"] != "literal_error"):
        step = complaint["loc"][-1] if complaint["loc"] else ""
        if isinstance(complaint["input"], dict) and str(step).startswith("literal["):
            continue
        spot = _spot(model, complaint["loc"])
        path = (*spot.path, "shape") if complaint["type"].startswith("union_tag") else spot.path
        if path not in said:
            said.add(path)
            yield PathMistake(path, _sentence(complaint, spot))


def _spot(model: type[BaseModel], loc: Path) -> _Spot:
    """Walk down the model; steps that only say which member of a union was tried are left out."""
    path, name, annotation, models = (), "", Any, [model]  # type: tuple[Path, str, Any, list[type[BaseModel]]]
    marks: tuple[Any, ...] = ()
    for step in loc:
        found = [
            (field, info.annotation, tuple(info.metadata))
            for one in models
            for field, info in one.model_fields.items()
            if file_key(field) == step
        ]
        tried = [one for one in models if step in (one.__name__, _shape_of(one))]
        if (tried and (len(models) > 1 or not found)) or str(step).startswith("literal["):
            models = tried
            continue
        if found:
            name, annotation, marks = found[0]
            models = models_in(annotation)
        elif isinstance(step, int):
            annotation, marks = _element(annotation, step), ()
        path = (*path, step)
    return _Spot(path, name, annotation, models, marks)


def _sentence(complaint: Any, spot: _Spot) -> str:
    sort, context = complaint["type"], complaint.get("ctx", {})
    keys = [step for step in spot.path if isinstance(step, str)]
    if sort == "value_error":
        return _own_words(context["error"])
    if sort == "extra_forbidden":
        return _unknown_key(keys[-1], spot.models)
    if sort == "missing" and isinstance(spot.path[-1], int):
        return _("{key} is too short: its entry {entry} is missing").format(
            key=keys[-1], entry=spot.path[-1] + 1
        )
    if sort in _OUT_OF_BOUNDS and keys[-1:] != ["from_masthead"]:
        within = range_words(bounds_of(spot.annotation, spot.marks))
        if within:
            return _("{key} is {given}: {within}").format(
                key=keys[-1], given=shown(complaint["input"]), within=within
            )
    given = context.get("tag", complaint["input"])
    tagged = sort.startswith("union_tag")
    words = _shapes(spot.models) if tagged else _words(spot.annotation)
    sentence = (
        _ABOVE if (keys[-1:], sort) == (["from_masthead"], "greater_than_equal") else _SENTENCES.get(sort)
    )
    return (sentence or _SENTENCES[""]).format(
        key=keys[-1] if keys else "",
        given=shown(given),
        bound=next((context[name] for name in _BOUNDS if name in context), 0),
        wanted=_either([f"“{word}”" for word in words]) if tagged else _wanted(spot),
        pattern=_pattern(spot.name),
        hint=did_you_mean(nearest(given, words)) if isinstance(given, str) else "",
    )


def _unknown_key(key: str, models: list[type[BaseModel]]) -> str:
    known = [file_key(name) for model in models for name in model.model_fields]
    near = nearest(key, known)
    if near:
        return _("there is no key “{key}” here{hint}").format(key=key, hint=did_you_mean(near))
    return _("there is no key “{key}” here: {known} are allowed").format(key=key, known=", ".join(known))


def _own_words(error: Exception) -> str:
    """Return a validator's own sentence; of a validation inside it, such as a phrase's number, the first."""
    if isinstance(error, ValidationError):
        return str(error.errors(include_url=False)[0]["msg"])
    return str(error)


def _pattern(name: str) -> str:
    if name == "day":
        return _("figures such as 2026-03-31 for the day")
    if name == "done":
        return _("a hole's number and a step, such as “h2 measured again” or “h2 drilled”,")
    return _("small letters, digits and hyphens, at most 60, a letter or digit first,")


def _wanted(spot: _Spot) -> str:
    """Return what may stand at a spot: a measure, one of its words, or a thing of some sort."""
    for ending, what in _UNITS.items():
        if spot.name.endswith(ending):
            return what
    others = [_noun(leaf) for leaf in _leaves(spot.annotation) if get_origin(leaf) is not Literal]
    return _either([*(f"“{word}”" for word in _words(spot.annotation)), *dict.fromkeys(others)])


def _either(things: list[str]) -> str:
    return _(" or ").join([", ".join(things[:-1]), things[-1]] if len(things) > 1 else things)


def _noun(leaf: Any) -> str:
    if get_origin(leaf) is tuple:
        return _("a list in square brackets")
    return _BASICS.get(leaf) or _("a table")


def _words(annotation: Any) -> list[str]:
    """Return the words of a field that takes one of a few."""
    literals = (leaf for leaf in _leaves(annotation) if get_origin(leaf) is Literal)
    return [str(word) for leaf in literals for word in get_args(leaf)]


def _shapes(models: list[type[BaseModel]]) -> list[str]:
    return [shape for model in models if (shape := _shape_of(model))]


def _leaves(annotation: Any) -> Iterator[Any]:
    """Yield what may stand at a field: the members of a union, without their marks and without None."""
    if get_origin(annotation) in (Literal, tuple) or isinstance(annotation, type):
        if annotation is not NoneType:
            yield annotation
    else:
        inner = get_args(annotation)
        marked = hasattr(annotation, "__metadata__")
        for one in inner[:1] if marked else inner:
            yield from _leaves(one)


def _element(annotation: Any, at: int) -> Any:
    """Return what may stand at one place of a list."""
    for leaf in _leaves(annotation):
        if get_origin(leaf) is tuple:
            inner = get_args(leaf)
            return inner[0] if Ellipsis in inner else inner[min(at, len(inner) - 1)]
    return annotation


def models_in(annotation: Any) -> list[type[BaseModel]]:
    """Return the models that a field's annotation names."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for inner in get_args(annotation) for model in models_in(inner)]


def _shape_of(model: type[BaseModel]) -> str:
    shape = model.model_fields.get("shape")
    return str(get_args(shape.annotation)[0]) if shape else ""


def shown(given: object) -> str:
    """Return what was given in a few letters, however large it is."""
    if isinstance(given, str):
        return f"“{given}”" if len(given) <= _LONGEST_SHOWN else f"“{given[:_LONGEST_SHOWN]}…”"
    if isinstance(given, bool):
        return str(given).lower()
    if isinstance(given, dict | list):
        return _("a table") if isinstance(given, dict) else _("a list")
    if isinstance(given, dt.date | dt.time):
        return given.isoformat()
    if isinstance(given, int) and abs(given) >= 10**15:
        return _("a very large number")
    return f"{given:.12g}" if isinstance(given, float) else str(given)
