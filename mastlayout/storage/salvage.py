"""What can be read of a layout with mistakes: the items that are right by themselves."""

import dataclasses
from collections.abc import Container, Iterable, Mapping, Sequence
from typing import Any

from mastlayout.frozen import dataclass
from mastlayout.model.crosscheck import Parts, PathMistake
from mastlayout.model.kind import Kind
from mastlayout.model.layout import LISTS, NAMED, Layout
from mastlayout.model.mast import Mast
from mastlayout.model.parts import Path
from mastlayout.storage.mistakes import models_in

_PARTS = {field.name for field in dataclasses.fields(Parts)}


@dataclass(frozen=True)
class Salvage:
    """The readable items by list, of each its place in the file's list, and the names of the others."""

    tables: Mapping[str, Any]
    wrong: frozenset[str]
    at: Mapping[str, Sequence[int]]
    items: dict[str, tuple[Any, ...]]
    unread: Container[str]

    def with_kinds(self, kinds: Iterable[Kind]) -> "Salvage":
        """Return this with further kinds behind its own."""
        more = tuple(kinds)
        items = self.items | ({"kinds": (*self.items.get("kinds", ()), *more)} if more else {})
        return dataclasses.replace(self, items=items)

    def parts(self) -> Parts:
        """Return what a crosscheck looks at."""
        lists = {key: items for key, items in self.items.items() if key in _PARTS}
        mast = None if "mast" in self.wrong else _read(Mast, self.tables["mast"])
        retired = () if "retired" in self.wrong else tuple(self.tables.get("retired", ()))
        return Parts(mast, retired, **lists)

    def layout(self) -> Layout | None:
        """Return a layout of all this, None where yacht or mast cannot be read."""
        if self.wrong & {"boat", "mast"}:
            return None
        given = {key: table for key, table in self.tables.items() if key not in self.wrong}
        layout: Layout = _read(Layout, given | self.items)
        return layout

    def path_in_file(self, path: Path) -> Path:
        """Return a path into the readable items as a path into the file."""
        numbers = self.at.get(str(path[0]))
        return path if numbers is None else (path[0], numbers[int(path[1])], *path[2:])


def salvage(tables: Mapping[str, Any], mistakes: Iterable[PathMistake]) -> Salvage:
    """Return what can be read beside the mistakes that the model found."""
    broken = {mistake.path[:2] for mistake in mistakes}
    wrong = frozenset(str(path[0]) for path in broken if len(path) == 1 or path[0] not in LISTS)
    at = {
        key: [i for i in range(len(tables[key])) if (key, i) not in broken]
        for key in LISTS
        if key in tables and key not in wrong  # a list that is not there was never begun: it stays so
    }
    items = {
        key: tuple(_read(_model_of(key), tables[key][i]) for i in numbers) for key, numbers in at.items()
    }
    return Salvage(tables, wrong, at, items, _unread(tables, wrong, broken))


def _read(model: type[Any], table: Any) -> Any:
    return model.model_validate(table, by_alias=True, by_name=False)


def _model_of(key: str) -> type[Any]:
    return models_in(Layout.model_fields[key].annotation)[0]


class _AnyName:
    """Holds every name: where an item's own id cannot be read, any name may be its."""

    def __contains__(self, name: object) -> bool:
        return True


def _unread(tables: Mapping[str, Any], wrong: Container[str], broken: Container[Path]) -> Container[str]:
    names = set()
    for key in (*NAMED, "kinds"):
        if key in wrong:
            return _AnyName()
        for i, table in enumerate(tables.get(key, ())):
            if (key, i) in broken:
                name = table.get("id") if isinstance(table, dict) else None
                if not isinstance(name, str):
                    return _AnyName()
                names.add(name)
    return names
