"""Edits: pure functions from layout to layout. An edit that would leave the layout wrong raises EditError.

Heights and girths are kept to 0.01 mm, angles to 0.01 degree.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

from pydantic import ValidationError

from mastlayout.errors import EditError, UnknownNameError
from mastlayout.model.around import Around
from mastlayout.model.crosscheck import crosscheck
from mastlayout.model.fitting import (
    MAST,
    STEPS,
    AsBuilt,
    Cable,
    Fitting,
    HoleBuilt,
    Step,
    done_words,
    steps_done,
)
from mastlayout.model.heights import height_mistakes
from mastlayout.model.kind import Foot
from mastlayout.model.layout import NAMED, Accepted, Layout, LimitOverride
from mastlayout.model.parts import PathMistake
from mastlayout.model.rig import Stay
from mastlayout.model.sails import Halyard, Sail
from mastlayout.model.value import Value
from mastlayout.words import _

# What the yacht herself is called where an id is asked for; no id holds a space.
BOAT = "the yacht"
_WHOLE = ("mast", "boat")
_OF_MAST = ("conduits", "stretches")
_DIGITS = 2
V = TypeVar("V", bound=Value)
Asking = Callable[[Layout], Iterable[PathMistake]]


def item_of(layout: Layout, name: str) -> tuple[str, Any]:
    """Return the list an id is in, and its item; UnknownNameError where nothing has it.

    A conduit's list is "conduits"; MAST and BOAT are parts of their own: "mast" and "boat".
    """
    if name in (MAST, BOAT):
        part = "mast" if name == MAST else "boat"
        return part, getattr(layout, part)
    for part in (*NAMED, "conduits"):
        for item in _items(layout, part):
            if item.id == name:
                return part, item
    raise UnknownNameError(_("thing on the mast"), name, ids(layout))


def fitting_called(layout: Layout, called: str) -> Fitting:
    """Return the fitting of an id, or of the number pencilled beside it; UnknownNameError otherwise."""
    for fitting in layout.fittings:
        if called in (fitting.id, str(fitting.tag)):
            return fitting
    raise UnknownNameError(_("fitting"), called, {fitting.id for fitting in layout.fittings})


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
    if part in _WHOLE:
        return _whole(layout, {part: changed})
    items = tuple(changed if other is item else other for other in _items(layout, part))
    return _with(layout, part, items, height_mistakes if _only_height(item, changed, fields) else crosscheck)


def _only_height(before: Value, changed: Value, fields: Mapping[str, Any]) -> bool:
    """Tell whether only a fitting's height differs: then there is only to ask whether it is on the mast."""
    if not (isinstance(before, Fitting) and isinstance(changed, Fitting)):
        return False
    heights = before.from_masthead_mm, changed.from_masthead_mm
    return fields.keys() == {"from_masthead_mm"} and None not in heights


def move(layout: Layout, name: str, from_masthead_mm: float, girth: Around) -> Layout:
    """Move a fitting on the mast."""
    rounded = girth.but(offset=round(girth.offset, _DIGITS))
    return change(layout, name, from_masthead_mm=from_masthead_mm, girth=rounded)


def add(layout: Layout, part: str, item: Value) -> Layout:
    """Add an item to a list of the layout; its id must be new and never used before."""
    name = getattr(item, "id", "")
    if name in ids(layout) or name in layout.retired:
        raise EditError(_("the id “{id}” was given before: an id is never used again").format(id=name))
    return _with(layout, part, (*_items(layout, part), item))


def remove(layout: Layout, name: str) -> Layout:
    """Take an item off; its id, and a fitting's tag, are never given again."""
    part, item = item_of(layout, name)
    if part in _WHOLE:
        raise EditError(_("The mast and the yacht stay: everything else stands on them."))
    needs = needed_by(layout, name)
    if needs:
        raise EditError(
            _("{name} stays: {others} needs it. Remove or change that first.").format(
                name=item.name, others=_(" and ").join(f"“{other.name}”" for other in needs)
            )
        )
    left = tuple(other for other in _items(layout, part) if other is not item)
    tag = (f"tag {item.tag}",) if isinstance(item, Fitting) and item.tag else ()
    return _with(_whole(layout, {"retired": (*layout.retired, name, *tag)}, _more_follows), part, left)


def needed_by(layout: Layout, name: str) -> tuple[Any, ...]:
    """Return the items that name another: its guests, the lines, cables, stays and sails that use it."""
    return tuple(item for part in NAMED for item in getattr(layout, part) if name in _names_in(item))


def _names_in(item: Any) -> set[str | None]:
    match item:
        case Fitting():
            return {item.on}
        case Cable():
            return {item.fitting, item.exit, item.conduit}
        case Stay():
            return set(item.via)
        case Sail():
            return {item.stay, item.halyard}
        case Halyard():
            return {point.fitting for point in item.points}
    return set()


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


def tick(layout: Layout, name: str, hole: int, step: Step, *, ticked: bool) -> Layout:
    """Record that a step is done with a hole of a fitting, by its number, or that it is not."""
    _part, fitting = item_of(layout, name)
    kept = steps_done(fitting, hole) - {step}
    wanted = kept | {step} if ticked else kept
    own = {done_words(hole, each) for each in STEPS}
    before = tuple(words for words in fitting.done if words not in own)
    # The hole's own words stand together, in the order of work; those of other holes stay as they are.
    own_now = tuple(done_words(hole, each) for each in STEPS if each in wanted)
    at = next((n for n, words in enumerate(fitting.done) if words in own), len(before))
    return change(layout, name, done=(*before[:at], *own_now, *before[at:]))


def found_at(layout: Layout, name: str, built: AsBuilt) -> Layout:
    """Record where a fitting was found to be: that is what is checked, drawn and printed from now on."""
    return change(layout, name, as_built=built)


def hole_built(layout: Layout, name: str, built: HoleBuilt) -> Layout:
    """Record where a hole of a fitting was drilled, in the place of an earlier word on the same hole."""
    _part, fitting = item_of(layout, name)
    others = [own for own in fitting.holes_built if own.number != built.number]
    return change(layout, name, holes_built=tuple(sorted((*others, built), key=lambda own: own.number)))


def forget_hole(layout: Layout, name: str, hole: int) -> Layout:
    """Take back where a hole was drilled: it stands where it is planned again."""
    _part, fitting = item_of(layout, name)
    return change(layout, name, holes_built=tuple(own for own in fitting.holes_built if own.number != hole))


def accept(layout: Layout, accepted: Accepted) -> Layout:
    """Record that the owner accepts a finding, in the place of an earlier word on the same."""
    key = (accepted.code, frozenset(accepted.subjects))
    others = tuple(own for own in layout.accepted if (own.code, frozenset(own.subjects)) != key)
    return _whole(layout, {"accepted": (*others, accepted)})


def open_again(layout: Layout, accepted: Accepted) -> Layout:
    """Take back the owner's word on a finding; the very same layout where it never had it."""
    others = tuple(own for own in layout.accepted if own is not accepted)
    return layout if len(others) == len(layout.accepted) else _whole(layout, {"accepted": others})


def own_limits(layout: Layout, limits: tuple[LimitOverride, ...]) -> Layout:
    """Set the owner's own limits; the very same layout where none differs."""
    return layout if limits == layout.limits else _whole(layout, {"limits": limits})


def plan_note(layout: Layout, note: str) -> Layout:
    """Note something of the whole plan; the very same layout where nothing differs."""
    return layout if note == layout.note else _whole(layout, {"note": note})


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


def looked(layout: Layout, part: str, *, found_none: bool) -> Layout:
    """Say of an empty list whether somebody looked and found nothing, or whether nobody looked yet.

    ``part`` is a list of the layout, or "conduits" or "stretches" of the mast; one that holds
    something stays as it is.
    """
    if _items(layout, part):
        return layout
    if part in _OF_MAST:
        mast = _valid(layout.mast, {part: () if found_none else None})
        return layout if mast == layout.mast else _whole(layout, {"mast": mast})
    if found_none == (part in layout.model_fields_set):
        return layout
    kept = {name: getattr(layout, name) for name in layout.model_fields_set if name != part}
    return Layout.model_validate(kept | ({part: ()} if found_none else {}))


def _items(layout: Layout, part: str) -> tuple[Any, ...]:
    holder = layout.mast if part in _OF_MAST else layout
    return tuple(getattr(holder, part) or ())


def _with(layout: Layout, part: str, items: tuple[Any, ...], mistakes: Asking = crosscheck) -> Layout:
    """Return the layout with another list of a part; conduits and stretches are lists of the mast."""
    if part in _OF_MAST:
        return _whole(layout, {"mast": _valid(layout.mast, {part: items})})
    return _whole(layout, {part: items}, mistakes)


def _whole(layout: Layout, fields: dict[str, Any], mistakes: Asking = crosscheck) -> Layout:
    """Return the layout with fields changed, and asked for ``mistakes`` by reference."""
    changed = _valid(layout, fields)
    for path, sentence in mistakes(changed):
        raise EditError(f"{path[0]}: {sentence}")
    return changed


def _more_follows(_layout: Layout) -> tuple[PathMistake, ...]:
    """Ask nothing yet: the edit goes on."""
    return ()


def _rounded(value: Any) -> Any:
    return round(value, _DIGITS) if isinstance(value, float) else value


def _valid(item: V, fields: dict[str, Any]) -> V:
    try:
        return item.but(**fields)
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(str(part) for part in first["loc"])
        raise EditError(f"{field}: {first['msg']}") from None
