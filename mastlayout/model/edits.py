"""Edits: pure functions from layout to layout. An edit that would leave the layout wrong raises EditError.

Heights and girths are kept to 0.01 mm, angles to 0.01 degree.
"""

from typing import Any, TypeVar

from pydantic import ValidationError

from mastlayout.errors import EditError, UnknownNameError
from mastlayout.model.around import Around
from mastlayout.model.crosscheck import crosscheck
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Foot
from mastlayout.model.layout import NAMED, Accepted, Layout
from mastlayout.model.value import Value
from mastlayout.words import _

_DIGITS = 2
V = TypeVar("V", bound=Value)


def item_of(layout: Layout, name: str) -> tuple[str, Any]:
    """Return the list an id is in, and its item; UnknownNameError where nothing has it."""
    for part in NAMED:
        for item in getattr(layout, part):
            if item.id == name:
                return part, item
    raise UnknownNameError(_("thing on the mast"), name, ids(layout))


def ids(layout: Layout) -> set[str]:
    """Return every id of the layout's one space."""
    named = {item.id for part in NAMED for item in getattr(layout, part)}
    return named | {conduit.id for conduit in layout.mast.conduits or ()}


def change(layout: Layout, name: str, /, **fields: Any) -> Layout:
    """Return the layout with fields of one item changed; the very same layout where nothing differs."""
    part, item = item_of(layout, name)
    rounded = {field: _rounded(value) for field, value in fields.items()}
    if all(getattr(item, field) == value for field, value in rounded.items()):
        return layout
    changed = _valid(item, rounded)
    items = tuple(changed if other is item else other for other in getattr(layout, part))
    return _whole(layout, {part: items})


def move(layout: Layout, name: str, from_masthead_mm: float, girth: Around) -> Layout:
    """Move a fitting on the mast."""
    rounded = girth.but(offset=round(girth.offset, _DIGITS))
    return change(layout, name, from_masthead_mm=from_masthead_mm, girth=rounded)


def add(layout: Layout, part: str, item: Value) -> Layout:
    """Add an item to a list of the layout; its id must be new and never used before."""
    name = getattr(item, "id", "")
    if name in ids(layout) or name in layout.retired:
        raise EditError(_("the id “{id}” was given before: an id is never used again").format(id=name))
    return _whole(layout, {part: (*getattr(layout, part), item)})


def remove(layout: Layout, name: str) -> Layout:
    """Take an item off; its id, and a fitting's tag, are never given again."""
    part, item = item_of(layout, name)
    left = tuple(other for other in getattr(layout, part) if other is not item)
    tag = (f"tag {item.tag}",) if isinstance(item, Fitting) and item.tag else ()
    return _whole(layout, {part: left, "retired": (*layout.retired, name, *tag)})


def next_tag(layout: Layout) -> int:
    """Return the tag of the next new fitting: above every one ever given."""
    given = [fitting.tag or 0 for fitting in layout.fittings]
    retired = [int(name.removeprefix("tag ")) for name in layout.retired if name.startswith("tag ")]
    return max([*given, *retired, 0]) + 1


def next_id(layout: Layout, stem: str) -> str:
    """Return ``stem-1``, ``stem-2``, … whichever was never given."""
    taken = ids(layout) | set(layout.retired)
    return next(name for n in range(1, len(taken) + 2) if (name := f"{stem}-{n}") not in taken)


def confirm_foot(layout: Layout, name: str, foot: Foot) -> Layout:
    """Record the foot of the part in hand: from now on its holes are printed."""
    return change(layout, name, in_hand=foot)


def accept(layout: Layout, accepted: Accepted) -> Layout:
    """Record that the owner accepts a finding, in the place of an earlier word on the same."""
    key = (accepted.code, frozenset(accepted.subjects))
    others = tuple(own for own in layout.accepted if (own.code, frozenset(own.subjects)) != key)
    return _whole(layout, {"accepted": (*others, accepted)})


def refuse_as_built(fitting: Fitting, field: str) -> None:
    """Raise EditError where a place of a fitting was found as built: what was found is not planned anew."""
    built = fitting.as_built
    if built is not None and getattr(built, field) is not None:
        words = _("{name} is fitted: {by} found it here on {day}. What was found is not planned anew.")
        raise EditError(words.format(name=fitting.name, by=built.by, day=built.day))


def cut_heel(layout: Layout, by_mm: float) -> Layout:
    """Cut the heel: the mast gets shorter, and no reading from the masthead changes."""
    length = _rounded(layout.mast.length_mm - by_mm)
    return _whole(layout, {"mast": _valid(layout.mast, {"length_mm": length})})


def _whole(layout: Layout, fields: dict[str, Any]) -> Layout:
    """Return the layout with fields changed, its references asked again."""
    changed = _valid(layout, fields)
    for path, sentence in crosscheck(changed):
        raise EditError(f"{path[0]}: {sentence}")
    return changed


def _rounded(value: Any) -> Any:
    return round(value, _DIGITS) if isinstance(value, float) else value


def _valid(item: V, fields: dict[str, Any]) -> V:
    try:
        return item.but(**fields)
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(str(part) for part in first["loc"])
        raise EditError(f"{field}: {first['msg']}") from None
