"""The catalogue of generic kinds in resources/catalogue; every size in it is typical."""

import tomllib
from functools import cache

from pydantic import ValidationError

from mastlayout.errors import FileError, UnknownNameError
from mastlayout.model.kind import Kind
from mastlayout.resources import resources
from mastlayout.storage.mistakes import mistakes_of
from mastlayout.words import _


@cache
def catalogue() -> dict[str, Kind]:
    """Return every kind by its id; FileError names a kind that is not one."""
    kinds: dict[str, Kind] = {}
    for file in sorted((resources() / "catalogue").glob("*.toml")):
        for table in tomllib.loads(file.read_text(encoding="utf-8")).get("kinds", []):
            found = _kind(file.name, table)
            if found.id in kinds:
                raise FileError(
                    _("{file}: the kind “{id}” is there twice").format(file=file.name, id=found.id)
                )
            kinds[found.id] = found
    return kinds


def _kind(file: str, table: dict[str, object]) -> Kind:
    try:
        return Kind.model_validate(table, by_alias=True, by_name=False)
    except ValidationError as error:
        path, sentence = next(mistakes_of(Kind, error))
        field = ".".join(str(step) for step in path)
        raise FileError(f"{file}, {table.get('id')}, {field}: {sentence}") from None


def kind(name: str) -> Kind:
    """Return a kind by its id; UnknownNameError with the nearest names otherwise."""
    if name not in catalogue():
        raise UnknownNameError(_("kind"), name, catalogue())
    return catalogue()[name]
