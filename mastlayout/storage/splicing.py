"""One edit, one changed line: the differences of two layouts put into the text that one was read from.

The text is cut and joined where something differs; all else stays as it was typed. A parser that
keeps comments was tried first: it moves lists that stand between one another (a fitting and its
cable side by side), and takes the comment over the next item away with an item.
"""

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import Any

from mastlayout.model.value import Value, file_key
from mastlayout.storage.composing import block, field_of, inline, is_wide, pair, plain, spread
from mastlayout.storage.cutting import Cutting
from mastlayout.storage.lines import Place, headed, places
from mastlayout.storage.typed import retyped

_HEADED = ("table", "list", "implied")


def spliced(text: str, old: Value, new: Value) -> str:
    """Return the text of ``old`` changed to say ``new``; the caller has to prove that it does."""
    splice = _Splice(text)
    splice.change(places(text), "", old, new)
    return splice.cutting.joined()


class _Splice:
    """The changes of one text. ``header`` is always the name of a table as its header has it."""

    def __init__(self, text: str) -> None:
        self.cutting = Cutting(text)

    def change(self, place: Place, header: str, old: Value, new: Value) -> None:
        """Change the table at ``place`` from one value to another of the same model."""
        gone, absent = [], []
        for name in type(new).model_fields:
            before, after = getattr(old, name), getattr(new, name)
            if (before is after or before == after) and _is_given(old, name) == _is_given(new, name):
                continue
            here = place.inner.get(file_key(name))
            if here is not None and _is_given(new, name) and not _is_replaced(here, before, after, header):
                self._change_field(here, f"{header}.{file_key(name)}".lstrip("."), before, new, name)
                continue
            if here is not None:
                gone.append(here)
            if _is_given(new, name):
                absent.append(name)
        self._remove(place, gone)
        self._add(place, header, new, absent)

    def _change_field(self, here: Place, header: str, before: Any, new: Value, name: str) -> None:
        after = getattr(new, name)
        if isinstance(after, Value) and type(before) is type(after) and here.form != "value":
            self.change(here, header, before, after)
        elif isinstance(after, tuple) and isinstance(before, tuple) and here.form in ("array", "list"):
            items = self._items_under_headers if here.form == "list" else self._items_in_array
            items(here, header, before, after)
        else:
            self._set(here, field_of(new, name), name)

    def _set(self, here: Place, value: Any, name: str = "") -> None:
        old = self.cutting.text[here.value : here.end]
        text = retyped(old, value, name) if here.form == "value" else spread(value)
        self.cutting.replace(here.value, here.end, text)

    def _remove(self, parent: Place, gone: Sequence[Place]) -> None:
        if parent.form == "inline":
            self.cutting.cut_members(list(parent.inner.values()), gone)
            return
        for here in gone:
            if here.form in _HEADED:
                self.cutting.cut_blocks(here)
            elif here.form == "dotted":
                self._remove(here, list(here.inner.values()))
            else:
                self.cutting.cut_lines(here.start, here.end)

    def _add(self, place: Place, header: str, new: Value, names: Sequence[str]) -> None:
        """Add fields to a table: plain keys behind its own, wide tables and lists under their own headers."""
        fields = [(name, field_of(new, name)) for name in names]
        if place.form == "inline":
            last = next(reversed(place.inner.values()), None)
            self.cutting.add_members(place, last, [f"{file_key(n)} = {inline(v)}" for n, v in fields])
            return
        wide = [name for name, value in fields if is_wide(value, top=not header)]
        for name, value in fields:
            if name not in wide:
                self._add_line(place, pair(file_key(name), value))
        for name in wide:
            self._add_blocks(place, f"{header}.{file_key(name)}".lstrip("."), getattr(new, name))

    def _add_line(self, place: Place, line: str) -> None:
        dotted = place.form == "dotted"
        at = self.cutting.line_end(place.end) if dotted else place.end
        prefix = next(inner.prefix for inner in place.inner.values()) if dotted else ""
        self.cutting.insert_lines(at, f"{prefix}{line}\n")

    def _add_blocks(self, place: Place, header: str, value: Any) -> None:
        listed = isinstance(value, tuple)
        at = place.end if "." in header else len(self.cutting.text)
        for item in value if listed else [value]:
            self.cutting.insert_lines(at, f"\n{block(header, item, listed=listed)}")

    def _items_under_headers(
        self, here: Place, header: str, before: Sequence[Any], after: Sequence[Any]
    ) -> None:
        first = here.inner[0]
        last: Place | None = None
        for i, j in _pairs(before, after):
            if i is None:
                text = block(header, after[j or 0], listed=True)
                if last is None:
                    self.cutting.insert_lines(self.cutting.lead(first), f"{text}\n")
                else:
                    self.cutting.insert_lines(max(table.end for table in headed(last)), f"\n{text}")
            elif j is None:
                self.cutting.cut_blocks(here.inner[i])
            else:
                last = here.inner[i]
                self.change(last, header, before[i], after[j])

    def _items_in_array(self, here: Place, header: str, before: Sequence[Any], after: Sequence[Any]) -> None:
        gone: list[Place] = []
        new: dict[int, tuple[Place | None, list[str]]] = {}
        last: Place | None = None
        for i, j in _pairs(before, after):
            if i is None:
                new.setdefault(id(last), (last, []))[1].append(inline(plain(after[j or 0])))
            elif j is None:
                gone.append(here.inner[i])
            else:
                last = here.inner[i]
                self._change_element(last, header, before[i], after[j])
        self.cutting.cut_members(list(here.inner.values()), gone)
        for behind, texts in new.values():
            self.cutting.add_members(here, behind, texts)

    def _change_element(self, here: Place, header: str, before: Any, after: Any) -> None:
        if before == after:
            return
        if isinstance(after, Value) and type(before) is type(after) and here.form == "inline":
            self.change(here, header, before, after)
        else:
            self._set(here, plain(after))


def _is_given(value: Value, name: str) -> bool:
    """Tell whether a field is known and was given: an empty list that was is not one left out."""
    return name in value.model_fields_set and getattr(value, name) is not None


def _is_replaced(here: Place, before: Any, after: Any, header: str) -> bool:
    """Tell whether what stands there is cut and added anew: it is, or becomes, of another sort."""
    if here.form == "array" and not here.inner:
        return not header and bool(after)  # the first of a list that was empty stands under a header
    alike = type(before) is type(after) and after != ()
    return here.form in (*_HEADED, "dotted") and not (alike and isinstance(after, Value | tuple))


def _pairs(before: Sequence[Any], after: Sequence[Any]) -> Iterator[tuple[int | None, int | None]]:
    """Yield which old item is which new one, in the new order; None for one that came or went."""
    named = bool(before and after) and hasattr(before[0], "id")
    old, new = ([item.id for item in items] if named else list(items) for items in (before, after))
    for sort, i, i_end, j, j_end in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        together = 0 if named and sort != "equal" else min(i_end - i, j_end - j)
        yield from zip(range(i, i + together), range(j, j + together), strict=True)
        yield from ((gone, None) for gone in range(i + together, i_end))
        yield from ((None, come) for come in range(j + together, j_end))
