"""The model's own complaints as sentences: what is allowed, in the file's words."""

from collections.abc import Iterator
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from mastlayout.errors import did_you_mean, nearest
from mastlayout.model.layout import Layout
from mastlayout.model.value import file_key
from mastlayout.words import _

Path = tuple[str | int, ...]


def mistakes_of(model: type[BaseModel], error: ValidationError) -> Iterator[tuple[Path, str]]:
    """Yield each complaint of a validation as a path in the file's keys and a sentence."""
    for complaint in error.errors(include_url=False):
        path = _file_path(model, complaint["loc"])
        yield path, _sentence(model, complaint, path)


def _sentence(  # noqa: PLR0911 - a table of complaints, one line each
    model: type[BaseModel], complaint: Any, path: Path
) -> str:
    context = complaint.get("ctx", {})
    given = _short(complaint.get("input"))
    match complaint["type"]:
        case "missing":
            return _("it is missing, and must be given")
        case "extra_forbidden":
            known = keys_at(model, path[:-1])
            return _("there is no key “{key}” here{hint}").format(
                key=path[-1], hint=did_you_mean(nearest(str(path[-1]), known))
            )
        case "value_error":
            return str(context["error"])
        case "literal_error" | "union_tag_invalid":
            allowed = context.get("expected") or context.get("expected_tags")
            return _("{given} is not known: {allowed} is allowed").format(given=given, allowed=allowed)
        case "union_tag_not_found":
            return _("it needs a shape")
        case "greater_than_equal" if path and path[-1] == "from_masthead":
            return _("{given} from the masthead is above it: 0 down to the mast's length is allowed").format(
                given=given
            )
        case "greater_than" | "greater_than_equal" | "less_than" | "less_than_equal":
            sign = {"greater_than": ">", "greater_than_equal": "≥", "less_than": "<", "less_than_equal": "≤"}
            bound = next(iter(context.values()))
            return _("{given} is out of range: {sign} {bound:g} is allowed").format(
                given=given, sign=sign[complaint["type"]], bound=bound
            )
        case "string_pattern_mismatch":
            return _("{given} cannot be used: {allowed} is allowed").format(
                given=given, allowed=_pattern(path)
            )
        case _:
            return _("{given} cannot be used here: {why}").format(given=given, why=complaint["msg"].lower())


def _pattern(path: Path) -> str:
    if path and path[-1] == "day":
        return _("a day such as 2026-11-25")
    return _("small letters, figures and hyphens, at most 60, beginning with a letter or figure,")


def _short(given: Any) -> str:
    text = f"“{given}”" if isinstance(given, str) else repr(given)
    return text if len(text) <= 40 else text[:38] + "…"


def keys_at(model: type[BaseModel], path: Path) -> list[str]:
    """Return the file keys allowed at a path below a model."""
    here: list[type[BaseModel]] = [model]
    for step in path:
        here = _deeper(here, step)
    return [file_key(name) for one in here for name in one.model_fields]


def _deeper(here: list[type[BaseModel]], step: str | int) -> list[type[BaseModel]]:
    """Return the models that a step of a path leads to; the place in a list leads no deeper."""
    return [
        inner
        for one in here
        for name, field in one.model_fields.items()
        if file_key(name) == step
        for inner in _models_in(field.annotation)
    ] or here


def _file_path(model: type[BaseModel], path: Path) -> Path:
    """Leave out of pydantic's path the names of shapes, which are no keys of the file."""
    here: list[type[BaseModel]] = [model]
    kept: list[str | int] = []
    for step in path:
        if any(_shape_of(one) == step for one in here) and len(here) > 1:
            here = [one for one in here if _shape_of(one) == step]
            continue
        kept.append(step)
        here = _deeper(here, step)
    return tuple(kept)


def _shape_of(model: type[BaseModel]) -> str | None:
    field = model.model_fields.get("shape")
    return str(get_args(field.annotation)[0]) if field else None


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for inner in get_args(annotation) for model in _models_in(inner)]


def list_model(name: str) -> type[BaseModel]:
    """Return the model of the items of one of the layout's lists."""
    return _models_in(Layout.model_fields[name].annotation)[0]
