"""Reading a layout file: every mistake in it is found at once and named by its line."""

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from mastlayout.errors import FileError, LayoutFileError, Mistake
from mastlayout.frozen import dataclass
from mastlayout.model.crosscheck import PathMistake, crosscheck
from mastlayout.model.layout import FORMAT, Layout
from mastlayout.storage.borrowed import borrowed
from mastlayout.storage.guard import read_bytes, tables_of, text_of


@dataclass(frozen=True)
class Stamp:
    """What tells that a file on disk is still the one that was read."""

    modified_ns: int
    size: int


@dataclass(frozen=True, eq=False)
class Document:
    """A layout, the file it came from or went to, and that file's very bytes.

    ``taken`` names kinds of the layout that the file does not carry: they are from the catalogue.
    """

    path: Path
    data: bytes
    layout: Layout
    stamp: Stamp | None = None
    taken: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Reading:
    """What a file gave: its text, every mistake, and a document of all that hangs together.

    ``document`` is None where yacht or mast cannot be read; where there are mistakes it lacks the
    items that have them.
    """

    document: Document | None
    mistakes: tuple[Mistake, ...] = ()
    text: str = ""


def load(path: Path) -> Layout:
    """Return the layout of a file; LayoutFileError names all its mistakes, FileError what cannot be read."""
    return open_document(path).layout


def open_document(path: Path) -> Document:
    """Return the document of a layout file without a mistake; raises as ``load`` does."""
    found = read_layout(path)
    if found.mistakes or found.document is None:
        raise LayoutFileError(str(path), found.mistakes)
    return found.document


def read_layout(path: Path) -> Reading:
    """Read what can be read of a layout file; FileError where there is nothing to read."""
    stamp = stamp_of(path)
    return read_data(read_bytes(path), path, stamp)


def stamp_of(path: Path) -> Stamp | None:
    """Return the stamp of a file as it is on disk now, None where it is not there."""
    try:
        status = path.stat()
    except OSError:
        return None
    return Stamp(status.st_mtime_ns, status.st_size)


def changed_on_disk(document: Document) -> bool:
    """Tell whether somebody else wrote the file since it was read or saved here."""
    return stamp_of(document.path) != document.stamp


def read_data(data: bytes, path: Path, stamp: Stamp | None = None) -> Reading:
    """Read a layout from the bytes of the file at ``path``; a drawing it names lies beside that."""
    text = ""
    try:
        text = text_of(data, path)
        tables = tables_of(text, path)
    except LayoutFileError as refused:
        return Reading(None, refused.mistakes, text)
    if type(tables.get("format")) is not int or tables["format"] != FORMAT:
        from mastlayout.storage.partly import another_format  # noqa: PLC0415 - most files have no mistake

        return Reading(None, another_format(text, tables.get("format")), text)
    layout, wrong = _validated(tables, path)
    if layout is not None:
        taken, names = borrowed(layout.fittings, layout.kinds)
        if taken:
            layout = layout.but(kinds=(*layout.kinds, *taken))
        if not crosscheck(layout, names):
            return Reading(Document(path, data, layout, stamp, tuple(kind.id for kind in taken)), (), text)
    from mastlayout.storage.partly import what_can_be_read  # noqa: PLC0415 - as above

    left, mistakes = what_can_be_read(text, tables, wrong)
    return Reading(Document(path, data, left, stamp) if left else None, mistakes, text)


def layout_in(text: str, path: Path) -> Layout | None:
    """Return the layout in a text as it stands there, its references not asked; None where it has none."""
    try:
        return _validated(tables_of(text, path), path)[0]
    except LayoutFileError:
        return None


def _validated(tables: dict[str, Any], path: Path) -> tuple[Layout | None, list[PathMistake]]:
    wrong = _outline(tables, path)
    try:
        return Layout.model_validate(tables, by_alias=True, by_name=False), wrong
    except ValidationError as error:
        from mastlayout.storage.mistakes import mistakes_of  # noqa: PLC0415 - as above

        return None, [*wrong, *mistakes_of(Layout, error)]


def _outline(tables: dict[str, Any], path: Path) -> list[PathMistake]:
    """Put the points of the drawing that the section names into its table; tell why that cannot be."""
    mast = tables.get("mast")
    section = mast.get("section") if isinstance(mast, dict) else None
    if not isinstance(section, dict) or section.get("shape") != "points" or "points" in section:
        return []
    name = section.get("dxf")
    if not isinstance(name, str):
        return []
    from mastlayout.storage.dxf_outline import points_of  # noqa: PLC0415 - ezdxf is heavy and seldom wanted

    try:
        section["points"] = points_of(path.parent, name)
    except FileError as error:
        return [PathMistake(("mast", "section", "dxf"), str(error))]
    return []
