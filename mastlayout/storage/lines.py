"""Where each key, table and element of a list stands in a layout's text; the parser tells none of it."""

import re
from collections.abc import Iterator
from dataclasses import field
from typing import Literal

import tomli

from mastlayout.frozen import dataclass
from mastlayout.storage.guard import STRING

Path = tuple[str | int, ...]

_SPACE = re.compile(r"[ \t]*")
_GAP = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_KEY = re.compile(r'[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\[^\n])*"|' + r"'[^'\n]*'")
_BARE = re.compile(r"[^,\]}#\r\n]*[^,\]}#\s]")
_REST_OF_LINE = re.compile(r"[^\n]*\n?")


@dataclass
class Place:
    """Where one thing stands, as offsets into the text.

    ``start`` is where its key, element or header begins. ``value`` to ``end`` is its value; for a
    table under a header it is from behind the header's line to behind the line of its last own key.
    ``prefix`` is what the file writes before the last part of a dotted key.
    """

    form: Literal["value", "inline", "array", "dotted", "table", "list", "implied"]
    start: int
    value: int
    end: int
    prefix: str = ""
    inner: dict[str | int, "Place"] = field(default_factory=dict)


def places(text: str) -> Place:
    """Return the place of everything in a text that the parser has accepted; the root is a table."""
    return _Scan(text).root


def line_of(text: str, root: Place, path: Path) -> int:
    """Return the line, from 1, of a path or of the nearest thing round it; 0 where there is none."""
    here = root
    for step in path:
        if step not in here.inner:
            break
        here = here.inner[step]
    return 0 if here is root else text.count("\n", 0, here.start) + 1


def headed(place: Place) -> Iterator[Place]:
    """Yield a place and everything below it that stands under a header of its own."""
    if place.form in ("table", "list", "implied"):
        if place.form == "table":
            yield place
        for inner in place.inner.values():
            yield from headed(inner)


class _Scan:
    """One walk over a text, building the tree of places."""

    def __init__(self, text: str) -> None:
        self._text, self._at = text, 0
        self.root = Place("table", 0, 0, 0)
        table = self.root
        while not self._past_gap():
            if text[self._at] == "[":
                table = self._header()
            else:
                self._pair(table)
                table.end = self._to_next_line()

    def _past_gap(self) -> bool:
        """Step over blank space and comments; tell whether the text is at its end."""
        self._at = _GAP.match(self._text, self._at).end()  # type: ignore[union-attr] # it matches nothing too
        return self._at >= len(self._text)

    def _past(self, sign: str) -> None:
        self._at = self._text.index(sign, self._at) + len(sign)

    def _to_next_line(self) -> int:
        self._at = _REST_OF_LINE.match(self._text, self._at).end()  # type: ignore[union-attr] # as above
        return self._at

    def _header(self) -> Place:
        start, double = self._at, self._text.startswith("[[", self._at)
        self._at += 2 if double else 1
        *above, last = self._key()
        behind = self._to_next_line()
        parent = _below(self.root, above, Place("implied", start, behind, behind))
        if double:
            listed = parent.inner.setdefault(last, Place("list", start, start, start))
            table = listed.inner[len(listed.inner)] = Place("table", start, behind, behind)
            return table
        table = parent.inner.setdefault(last, Place("table", start, behind, behind))
        table.form, table.start, table.value, table.end = "table", start, behind, behind
        return table

    def _pair(self, table: Place) -> None:
        start = self._at
        *above, last = self._key()
        name = self._text[start : self._at].rstrip()
        self._past("=")
        prefix = name[: max(found.start() for found in _KEY.finditer(name))] if above else ""
        table = _below(table, above, Place("dotted", start, start, start))
        table.inner[last] = self._value(start, prefix)
        if above:
            table.end = table.inner[last].end

    def _key(self) -> list[str]:
        parts: list[str] = []
        while True:
            self._past_space()
            found = _KEY.match(self._text, self._at)
            if found is None:
                return parts
            self._at = found.end()
            quoted = found[0][0] in "\"'"
            parts.append(tomli.loads(f"key = {found[0]}")["key"] if quoted else found[0])
            self._past_space()
            if self._text[self._at] != ".":
                return parts
            self._at += 1

    def _past_space(self) -> None:
        self._at = _SPACE.match(self._text, self._at).end()  # type: ignore[union-attr] # as above

    def _value(self, start: int | None = None, prefix: str = "") -> Place:
        self._past_space()
        at = self._at
        place = Place("value", at if start is None else start, at, at, prefix)
        sign = self._text[at]
        if sign == "[":
            self._array(place)
        elif sign == "{":
            self._inline(place)
        else:
            found = (STRING if sign in "\"'" else _BARE).match(self._text, at)
            self._at = found.end() if found else at + 1
        place.end = self._at
        return place

    def _array(self, place: Place) -> None:
        place.form = "array"
        self._at += 1
        while not self._past_gap() and self._text[self._at] != "]":
            if self._text[self._at] == ",":
                self._at += 1
            else:
                place.inner[len(place.inner)] = self._value()
        self._at += 1

    def _inline(self, place: Place) -> None:
        place.form = "inline"
        self._at += 1
        while not self._past_gap() and self._text[self._at] != "}":
            if self._text[self._at] == ",":
                self._at += 1
            else:
                self._pair(place)
        self._at += 1


def _below(place: Place, steps: list[str], fresh: Place) -> Place:
    """Step down from a place, into the last element of a list; what is not there is made like ``fresh``."""
    for step in steps:
        made = Place(fresh.form, fresh.start, fresh.value, fresh.end)
        place = place.inner.setdefault(step, made)
        if place.form == "list":
            place = place.inner[len(place.inner) - 1]
    return place
