"""Reading a layout file: every mistake in it is found at once and named by its line."""

from collections.abc import Container, Iterable
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from mastlayout.errors import FileError, LayoutFileError, Mistake
from mastlayout.frozen import dataclass
from mastlayout.model.crosscheck import PathMistake, crosscheck
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Kind
from mastlayout.model.layout import FORMAT, Layout
from mastlayout.storage.guard import read_bytes, tables_of, text_of
from mastlayout.storage.lines import line_of, places
from mastlayout.storage.mistakes import mistakes_of, shown
from mastlayout.storage.salvage import Salvage, salvage
from mastlayout.words import _

MOST_TOLD = 500


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
    wrong = _format(tables)
    if wrong:
        return Reading(None, _lined(text, wrong), text)
    layout, wrong = _validated(tables, path)
    if layout is not None:
        taken, names = _from_catalogue(layout.fittings, layout.kinds)
        if taken:
            layout = layout.but(kinds=(*layout.kinds, *taken))
        if not crosscheck(layout, names):
            return Reading(Document(path, data, layout, stamp, tuple(kind.id for kind in taken)), (), text)
    left, wrong = _what_can_be_read(tables, wrong)
    return Reading(Document(path, data, left, stamp) if left else None, _lined(text, wrong), text)


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
        return None, [*wrong, *mistakes_of(Layout, error)]


def _format(tables: dict[str, Any]) -> list[PathMistake]:
    number = tables.get("format")
    if type(number) is int and number == FORMAT:
        return []
    if number is None:
        sentence = _("format is missing: “format = {ours}” is needed at the top of a layout")
    elif type(number) is int and number > FORMAT:
        sentence = _(
            "format {given} is not known: it is newer than this program, which reads format {ours}; "
            "open it with a newer one"
        )
    else:
        sentence = _("format {given} is not known: {ours} is wanted")
    return [PathMistake(("format",), sentence.format(given=shown(number), ours=FORMAT))]


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


def _what_can_be_read(
    tables: dict[str, Any], wrong: list[PathMistake]
) -> tuple[Layout | None, list[PathMistake]]:
    """Crosscheck the items that are right by themselves, beside the mistakes of the others.

    Returns the layout of what hangs together, and all mistakes.
    """
    if ("mast", "section", "dxf") in {mistake.path for mistake in wrong}:
        wrong = [mistake for mistake in wrong if mistake.path != ("mast", "section", "points")]
    found = salvage(tables, wrong)
    _found, more = _by_reference(found, found.unread)
    wrong = told = wrong + more
    # What refers to an item with a mistake cannot stay without it, nor what refers to that.
    while True:
        found, more = _by_reference(salvage(tables, wrong), frozenset())
        if not more:
            return found.layout(), told
        wrong = wrong + more


def _by_reference(found: Salvage, unread: Container[str]) -> tuple[Salvage, list[PathMistake]]:
    """Return what was read with the kinds it takes from the catalogue, and its mistakes by reference."""
    fittings, kinds = found.items.get("fittings", ()), found.items.get("kinds", ())
    taken, names = _from_catalogue(fittings, kinds, found.unread)
    found = found.with_kinds(taken)
    return found, [
        PathMistake(found.path_in_file(mistake.path), mistake.sentence)
        for mistake in crosscheck(found.parts(), names, unread)
    ]


def _from_catalogue(
    fittings: Iterable[Fitting], kinds: Iterable[Kind], unread: Container[str] = frozenset()
) -> tuple[list[Kind], Iterable[str]]:
    """Return the kinds used and not carried, and every name of the catalogue where it was asked."""
    carried = {kind.id for kind in kinds}
    absent = dict.fromkeys(
        fitting.kind for fitting in fittings if fitting.kind not in carried and fitting.kind not in unread
    )
    if not absent:
        return [], ()
    from mastlayout.storage.catalogue import catalogue  # noqa: PLC0415 - most layouts carry all their kinds

    known = catalogue()
    return [known[name] for name in absent if name in known], known


def _lined(text: str, wrong: list[PathMistake]) -> tuple[Mistake, ...]:
    """Return the mistakes with their lines, in the order of the file; beyond many only how many more."""
    if not wrong:
        return ()
    root = places(text)
    told = sorted(
        (Mistake(line_of(text, root, path), _spelt(path), sentence) for path, sentence in wrong),
        key=lambda mistake: mistake.line,
    )
    more = len(told) - MOST_TOLD
    if more > 0:
        told[MOST_TOLD:] = [Mistake(0, "", _("{more} more mistakes follow").format(more=more))]
    return tuple(told)


def _spelt(path: tuple[str | int, ...]) -> str:
    """Return a path as text: ``fittings[4].girth`` for the fourth, as a person counts."""
    steps = (f"[{step + 1}]" if isinstance(step, int) else f".{step}" for step in path)
    return "".join(steps).removeprefix(".")
