"""Saving: an opened file keeps its comments, its order and its units, and one edit is one changed line."""

import re
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from mastlayout.errors import FileError
from mastlayout.model.layout import LISTS, Layout
from mastlayout.model.value import UNIT_ENDINGS, Value, file_key
from mastlayout.storage.reading import Document, stamp_of, text_of
from mastlayout.storage.writing import write_whole
from mastlayout.units import feet_inches, read_length, sixteenths
from mastlayout.words import _

_HEAD = _(
    "# A mast layout. Bare numbers are millimetres, degrees or kilograms; heights on the mast count\n"
    "# from the masthead. A key left out is not known; an empty list says that somebody looked and\n"
    "# found nothing.\n\n"
)
_METRIC = re.compile(r"^-?\d+(?:\.\d+)?\s*(mm|cm|m)$")
_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0}


def save(layout: Layout, path: Path, document: Document | None = None) -> Document:
    """Write a layout, whole or not at all, and return its document as it is on disk now.

    Raises FileError with the reason; the file and the layout are then as they were.
    """
    if document is None:
        data = as_new_file(layout)
    elif layout is document.layout or layout == document.layout:
        data, layout = document.data, document.layout
    else:
        data = _edited(document, layout)
    write_whole(path, data)
    return Document(path, data, layout, stamp_of(path))


def changed_on_disk(document: Document) -> bool:
    """Tell whether somebody else wrote the file since it was read or saved here."""
    return stamp_of(document.path) != document.stamp


def as_new_file(layout: Layout) -> bytes:
    """Return a layout as the bytes of a new file."""
    import tomli_w  # noqa: PLC0415 - only saving needs it

    return (_HEAD + tomli_w.dumps(plain(layout))).encode("utf-8")


def plain(value: Value) -> dict[str, Any]:
    """Return a value as the tables of a file: only what was given, nothing that is not known."""
    dumped: dict[str, Any] = value.model_dump(
        mode="json", by_alias=True, exclude_unset=True, exclude_none=True
    )
    return dumped


def _edited(document: Document, layout: Layout) -> bytes:
    import tomlkit  # noqa: PLC0415 - only saving needs it

    text = text_of(document.data, document.path)
    tables = tomlkit.parse(text)
    old = document.layout
    for name in type(layout).model_fields:
        before, after = getattr(old, name), getattr(layout, name)
        if name in LISTS:
            _edit_list(tables, name, before, after, document.taken if name == "kinds" else ())
        elif before != after:
            _edit_field(tables, name, before, after, plain(layout).get(name))
    written = tomlkit.dumps(tables)
    _prove(written, layout)
    if b"\r\n" in document.data:
        written = written.replace("\n", "\r\n")
    mark = b"\xef\xbb\xbf" if document.data.startswith(b"\xef\xbb\xbf") else b""
    return mark + written.encode("utf-8")


def _prove(text: str, layout: Layout) -> None:
    """Read the text back: what is saved must be the layout, or nothing is."""
    if plain(Layout.model_validate(tomllib.loads(text), by_alias=True, by_name=False)) != plain(layout):
        raise FileError(_("the edit could not be put into this file's own text: save it under a new name"))


def _edit_list(tables: Any, name: str, old: Sequence[Any], new: Sequence[Any], absent: Sequence[str]) -> None:
    """Change, add and remove the items of a list; ``absent`` names old ones that are not in the file."""
    same = len(old) == len(new) and all(a is b for a, b in zip(old, new, strict=True))
    if same and not absent:
        return
    if not hasattr(new[0] if new else old[0], "id"):
        _edit_plain_list(tables, name, old, new)
        return
    written = {item["id"]: item for item in tables.get(name, ())}
    before = {item.id: item for item in old}
    kept = {item.id for item in new}
    for gone in [i for i, item in enumerate(tables.get(name, ())) if item["id"] not in kept][::-1]:
        del tables[name][gone]
    for item in new:
        if item.id not in written:
            _append(tables, name, item)
        elif before.get(item.id) is not item:
            _edit_value(written[item.id], before[item.id], item)


def _edit_plain_list(tables: Any, name: str, old: Sequence[Any], new: Sequence[Any]) -> None:
    gone = [i for i, item in enumerate(old) if item not in new]
    for i in gone[::-1]:
        del tables[name][i]
    for item in new:
        if item not in old:
            _append(tables, name, item)


def _append(tables: Any, name: str, item: Value) -> None:
    import tomlkit  # noqa: PLC0415 - loaded already by the caller

    if name not in tables:
        tables[name] = tomlkit.aot()
    tables[name].append(tomlkit.item(plain(item)))


def _edit_value(table: Any, old: Value, new: Value) -> None:
    before, written = plain(old), plain(new)
    for name in type(new).model_fields:
        key = file_key(name)
        if before.get(key) != written.get(key):
            _edit_field(table, name, getattr(old, name), getattr(new, name), written.get(key))


def _edit_field(table: Any, name: str, old: Any, new: Any, written: Any) -> None:
    """Change one key as little as can be; ``written`` is what a new file would hold, None for nothing."""
    key = file_key(name)
    if written is None:
        if key in table:
            del table[key]
    elif isinstance(new, Value) and isinstance(old, type(new)) and isinstance(table.get(key), Mapping):
        _edit_value(table[key], old, new)
    elif _alike(old, new) and key in table and len(table[key]) == len(new):
        for i, (before, after) in enumerate(zip(old, new, strict=True)):
            if before != after:
                _edit_value(table[key][i], before, after)
    else:
        table[key] = _in_unit(table.get(key), name, written)


def _alike(old: Any, new: Any) -> bool:
    """Tell whether both are tuples of the same number of values that can be edited one by one."""
    return (
        isinstance(old, tuple)
        and isinstance(new, tuple)
        and len(old) == len(new) > 0
        and all(isinstance(a, Value) and type(a) is type(b) for a, b in zip(old, new, strict=True))
    )


def _in_unit(old: Any, name: str, value: Any) -> Any:
    """Write a length in the unit its text had: metres stay metres, feet stay feet where they are exact."""
    if isinstance(value, float) and value.is_integer():
        value = int(value)
    if not isinstance(old, str) or not isinstance(value, (int, float)) or not name.endswith(UNIT_ENDINGS[0]):
        return value
    found = _METRIC.match(old)
    if found:
        return f"{round(value / _PER_UNIT[found[1]], 6):g} {found[1]}"
    text = feet_inches(sixteenths(value)).replace("-", " ft ", 1) if value >= 0 else ""
    text = f"{text} in" if text else ""
    return text if text and abs(read_length(text) - value) < 0.005 else value
