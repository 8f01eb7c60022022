"""Frozen dataclasses that cost a start next to nothing.

The standard library writes the source of each class's methods and compiles it: a quarter of a
millisecond a class, and the window reads two hundred of them before its first picture. Here the methods
are closures over the names. All else is the library's own: ``field``, ``fields`` and ``replace`` serve
as ever, and a type checker sees nothing but its ``dataclass``.
"""

import dataclasses
from collections.abc import Callable
from functools import partial
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NoReturn

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass

    Fields = tuple[dataclasses.Field[Any], ...]
else:

    def dataclass(made: type | None = None, /, *, frozen: bool = False, eq: bool = True) -> Any:
        """Make a dataclass; a frozen one without ``eq`` is equal to itself alone."""
        if made is None:
            return partial(dataclass, frozen=frozen, eq=eq)
        if not frozen or hasattr(made, "__post_init__"):
            return dataclasses.dataclass(frozen=frozen, eq=eq)(made)
        # Of a class that says nothing of itself the library would write down how it is called.
        made.__doc__ = made.__doc__ or made.__qualname__
        dataclasses.dataclass(init=False, repr=False, eq=False)(made)
        fields = dataclasses.fields(made)
        made.__init__ = _init(made.__qualname__, fields)
        made.__setattr__, made.__delattr__ = _refuse_to_set, _refuse_to_delete
        if eq:
            # What is equal to itself alone holds arrays, a scene a million figures: nobody reads those.
            made.__eq__, made.__hash__ = _eq_and_hash(fields)
            made.__repr__ = _repr
        return made


def _init(called: str, fields: "Fields") -> Callable[..., None]:
    """Return what takes the values by place and by name, and fills in what is left out."""
    names = tuple(field.name for field in fields)
    count = len(names)

    def __init__(self: Any, *given: Any, **named: Any) -> None:  # noqa: N807 - it becomes the class's own
        values = self.__dict__
        for name, value in zip(names, given, strict=False):
            values[name] = value
        if named or len(given) != count:
            if len(given) > count or named.keys() & values.keys() or not named.keys() <= set(names):
                raise TypeError(f"{called} takes each of these once: {', '.join(names)}")
            values.update(named)
            if len(values) < count:
                _make_the_rest(called, fields, values)

    return __init__


def _make_the_rest(called: str, fields: "Fields", values: dict[str, Any]) -> None:
    for field in fields:
        if field.name not in values:
            if field.default is not dataclasses.MISSING:
                values[field.name] = field.default
            elif field.default_factory is not dataclasses.MISSING:
                values[field.name] = field.default_factory()
            else:
                raise TypeError(f"{called} lacks {field.name}")


def _eq_and_hash(fields: "Fields") -> tuple[Callable[[Any, Any], bool], Callable[[Any], int]]:
    key = attrgetter("__class__", *(field.name for field in fields if field.compare))

    def __eq__(self: Any, other: Any) -> bool:  # noqa: N807
        return key(self) == key(other) if other.__class__ is self.__class__ else NotImplemented

    return __eq__, lambda self: hash(key(self))


def _repr(self: Any) -> str:
    shown = (f"{f.name}={getattr(self, f.name)!r}" for f in dataclasses.fields(self) if f.repr)
    return f"{self.__class__.__qualname__}({', '.join(shown)})"


def _refuse_to_set(_self: Any, name: str, _value: Any) -> NoReturn:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(_self: Any, name: str) -> NoReturn:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")
