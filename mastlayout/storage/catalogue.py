"""The catalogue of generic kinds: every ``[[kinds]]`` table of resources/catalogue, read once.

A kind from here is a starting point: the layout takes a copy, and its foot is typical until the
part is in hand.
"""

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import tomli
from pydantic import ValidationError

from mastlayout.errors import FileError, UnknownNameError
from mastlayout.model.kind import Kind
from mastlayout.resources import resources
from mastlayout.storage.mistakes import mistakes_of
from mastlayout.words import _


@cache
def catalogue() -> dict[str, Kind]:
    """Return every kind by its id, in the order of the files' names and of the tables in them.

    Raises FileError with the file, the kind and the field where one cannot be read. The
    dictionary is shared: it is not to be changed.
    """
    return read_catalogue(resources() / "catalogue")


def kind(id: str) -> Kind:  # noqa: A002 - the model's own word
    """Return the kind of the catalogue with this id; UnknownNameError with the nearest ids otherwise."""
    known = catalogue()
    if id not in known:
        raise UnknownNameError(_("kind"), id, known)
    return known[id]


def read_catalogue(folder: Path) -> dict[str, Kind]:
    """Return the kinds of every .toml file in ``folder`` by their id; FileError as ``catalogue``."""
    found: dict[str, Kind] = {}
    for path in sorted(folder.glob("*.toml")):
        for read in _kinds_of(path):
            if read.id in found:
                raise FileError(
                    _("{file}: the kind “{id}” is there twice; give one of them another id").format(
                        file=path.name, id=read.id
                    )
                )
            found[read.id] = read
    return found


def _kinds_of(path: Path) -> Iterator[Kind]:
    try:
        tables = tomli.loads(path.read_text(encoding="utf-8")).get("kinds", [])
    except (OSError, ValueError) as error:
        raise FileError(_("{file} cannot be read: {why}").format(file=path.name, why=error)) from error
    for table in tables:
        yield _kind_of(path, table)


def _kind_of(path: Path, table: dict[str, Any]) -> Kind:
    try:
        return Kind.model_validate(table, by_alias=True, by_name=False)
    except ValidationError as error:
        field, sentence = next(mistakes_of(Kind, error))
        raise FileError(
            _("{file}, kind “{id}”, {field}: {sentence}").format(
                file=path.name,
                id=table.get("id", "?"),
                field=".".join(str(part) for part in field),
                sentence=sentence,
            )
        ) from error
