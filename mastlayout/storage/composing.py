"""Parts of a layout as new text, laid out as a person would."""

from collections.abc import Iterator, Mapping
from typing import Any

import tomli_w

from mastlayout.model.value import Value, file_key

_WIDE = 100


def block(name: str, value: Value, *, listed: bool) -> str:
    """Return a value as the text of a ``[name]`` table, or ``[[name]]`` for one item of a list."""
    return "".join(_block(name, plain(value), listed=listed))


def pair(key: str, value: Any) -> str:
    """Return a key with its value as text, a list of tables over several lines; no line end behind it."""
    return f"{_key(key)} = {spread(plain(value))}"


def field_of(value: Value, name: str) -> Any:
    """Return one field that was given as tables, lists and scalars."""
    dumped = value.model_dump(by_alias=True, exclude_none=True, exclude_unset=True, include={name})
    return plain(dumped[file_key(name)])


def inline(value: Any) -> str:
    """Return a value as text on one line."""
    if isinstance(value, Mapping):
        inner = ", ".join(f"{_key(key)} = {inline(one)}" for key, one in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(inline, value))}]"
    return tomli_w.dumps({"k": value}).removeprefix("k = ").removesuffix("\n")


def plain(value: Any) -> Any:
    """Return a value as tables, lists and scalars: what was given and is known, whole numbers as such."""
    if isinstance(value, Value):
        return plain(value.model_dump(by_alias=True, exclude_none=True, exclude_unset=True))
    if isinstance(value, Mapping):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [plain(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _key(key: str) -> str:
    return tomli_w.dumps({key: 0}).removesuffix(" = 0\n")


def spread(value: Any) -> str:
    """Return tables, lists and scalars as text, a list of tables or a long one with a line for each."""
    if _is_tables(value) or (isinstance(value, list) and len(inline(value)) > _WIDE):
        return "[\n" + "".join(f"  {inline(one)},\n" for one in value) + "]"
    return inline(value)


def _is_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)


def _block(name: str, table: Mapping[str, Any], *, listed: bool) -> Iterator[str]:
    yield f"[[{name}]]\n" if listed else f"[{name}]\n"
    yield from _body(f"{name}.", table)


def _body(above: str, table: Mapping[str, Any]) -> Iterator[str]:
    """Yield a table's own keys, then what stands under headers: wide tables, and at the top every list."""
    headed = {key: value for key, value in table.items() if is_wide(value, top=not above)}
    for key, value in table.items():
        if key not in headed:
            yield f"{_key(key)} = {spread(value)}\n"
    for key, value in headed.items():
        for one in value if isinstance(value, list) else [value]:
            yield "\n"
            yield from _block(f"{above}{_key(key)}", one, listed=isinstance(value, list))


def is_wide(value: Any, *, top: bool) -> bool:
    """Tell whether a value stands under a header: a table too wide for a line; at the top every table."""
    if isinstance(value, Mapping):
        return top or len(inline(value)) > _WIDE
    return top and _is_tables(value)
