"""Reading a layout file: guarded, item by item, with every mistake named by its line."""

import re
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from mastlayout.errors import FileError, LayoutFileError, Mistake
from mastlayout.model.boat import Boat
from mastlayout.model.crosscheck import Parts, crosscheck, parts_of
from mastlayout.model.layout import FORMAT, LISTS, MOST_ITEMS, Layout
from mastlayout.model.mast import Mast
from mastlayout.storage import catalogue
from mastlayout.storage.lines import line_of
from mastlayout.storage.mistakes import list_model, mistakes_of
from mastlayout.words import _

MOST_BYTES = 4_000_000
MOST_DOTS = 8
MOST_DEEP = 16
_BARE = re.compile(
    r'"""(?:\\.|[^\\])*?"""|\'\'\'.*?\'\'\'|"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'|#[^\n]*', re.DOTALL
)
_DOTTED = re.compile(rf"(?:[^\s.=\[\]]+\s*\.\s*){{{MOST_DOTS + 1}}}")


@dataclass(frozen=True)
class Stamp:
    """What tells that a file on disk is still the one that was read."""

    modified_ns: int
    size: int


@dataclass(frozen=True, eq=False)
class Document:
    """A layout and the file it came from. ``taken`` names kinds that were taken from the catalogue."""

    path: Path
    data: bytes
    layout: Layout
    stamp: Stamp | None = None
    taken: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Reading:
    """What could be read: the document, None where no layout could be made, and every mistake."""

    document: Document | None
    mistakes: tuple[Mistake, ...] = field(default=())


def open_document(path: Path) -> Document:
    """Return the document of a layout file without a mistake.

    Raises LayoutFileError with every mistake, FileError where the file cannot be read at all.
    """
    found = read_layout(path)
    if found.mistakes or found.document is None:
        raise LayoutFileError(str(path), found.mistakes)
    return found.document


def read_layout(path: Path) -> Reading:
    """Read what can be read of a layout file; FileError where there is no text to read."""
    data = read_bytes(path)
    text = text_of(data, path)
    try:
        guard(text)
        tables = tomllib.loads(text)
    except RecursionError:
        return Reading(None, (Mistake(0, "", _("brackets stand too deep in each other")),))
    except ValueError as error:
        return Reading(None, (_syntax(str(error)),))
    return _read_tables(Path(path), data, text, tables)


def read_bytes(path: Path) -> bytes:
    """Return a file's bytes; FileError says why not."""
    try:
        if path.is_dir():
            raise FileError(_("{path} is a folder: a layout file is wanted").format(path=path))
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise FileError(_("{path} is not there: name a layout file").format(path=path)) from None
    except (OSError, ValueError) as error:
        raise FileError(_("{path} cannot be read: {why}").format(path=path, why=error)) from None
    if len(data) > MOST_BYTES:
        raise FileError(
            _("{path} is larger than {most} MB: no layout is").format(path=path, most=MOST_BYTES // 1_000_000)
        )
    return data


def text_of(data: bytes, path: Path) -> str:
    """Return a file's text; a mark of byte order at its start is passed over."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise FileError(
            _("{path}, line {line}: this is no text in UTF-8, so no layout file").format(path=path, line=line)
        ) from None
    if "\0" in text:
        raise FileError(_("{path} holds zero bytes: it is no layout file").format(path=path))
    return text.replace("\r\n", "\n")


def guard(text: str) -> None:
    """Refuse with ValueError what would keep the parser busy: deep brackets and endless dotted keys."""
    bare = _BARE.sub("", text)
    deep = most = 0
    for sign in re.findall(r"[\[\]{}\n]", bare):
        deep = max(0, deep + (1 if sign in "[{" else -1 if sign in "]}" else 0))
        most = max(most, deep)
    if most > MOST_DEEP:
        raise ValueError(
            _("brackets stand {deep} deep in each other: at most {most} are allowed").format(
                deep=most, most=MOST_DEEP
            )
        )
    found = _DOTTED.search(bare)
    if found:
        line = bare.count("\n", 0, found.start()) + 1
        raise ValueError(
            _("a key has more than {most} dots (at line {line}, column 1)").format(most=MOST_DOTS, line=line)
        )


def _syntax(message: str) -> Mistake:
    found = re.search(r"\(at line (\d+), column (\d+)\)", message)
    line = int(found[1]) if found else 0
    plain = re.sub(r"\s*\(at .*\)$", "", message)
    return Mistake(line, "", _("this is not TOML: {why}").format(why=plain[:1].lower() + plain[1:]))


def _read_tables(path: Path, data: bytes, text: str, tables: dict[str, Any]) -> Reading:
    stamp = stamp_of(path)
    wrong = _format_mistake(tables)
    if wrong:
        return Reading(None, (Mistake(line_of(text, ("format",)), "format", wrong),))
    try:
        tables = _with_outline(path, tables)
        layout = Layout.model_validate(tables, by_alias=True, by_name=False)
    except FileError as error:
        return Reading(
            None, (Mistake(line_of(text, ("mast", "section", "dxf")), "mast.section.dxf", str(error)),)
        )
    except ValidationError:
        return _read_items(path, data, text, tables, stamp)
    layout, taken = with_kinds(layout)
    found = crosscheck(parts_of(layout))
    if not found:
        return Reading(Document(path, data, layout, stamp, taken))
    return _read_items(path, data, text, tables, stamp)


def _format_mistake(tables: dict[str, Any]) -> str:
    number = tables.get("format")
    if number is None:
        return _("there is no format number: a layout begins with “format = {format}”").format(format=FORMAT)
    if number != FORMAT:
        return _("format {number} is not known: this version reads format {format}").format(
            number=str(number)[:20], format=FORMAT
        )
    return ""


def _read_items(path: Path, data: bytes, text: str, tables: dict[str, Any], stamp: Stamp | None) -> Reading:
    """Validate item by item, then ask the references of all that could be read."""
    mistakes: list[Mistake] = []
    broken: set[str] = set()
    boat = _one(Boat, tables.get("boat"), ("boat",), text, mistakes)
    mast = _one(Mast, tables.get("mast"), ("mast",), text, mistakes)
    lists: dict[str, list[tuple[int, Any]]] = {}
    for name in LISTS:
        # A list that is not in the file was never begun: it stays left out.
        if name in tables:
            lists[name] = _items(name, tables[name], text, mistakes, broken)
    rest = {key: value for key, value in tables.items() if key not in (*LISTS, "boat", "mast")}
    _rest(rest, text, mistakes)
    parts = Parts(mast, lists, frozenset(), frozenset(broken))
    found = crosscheck(parts, catalogue.catalogue() if lists.get("fittings") else ())
    mistakes += [Mistake(line_of(text, at), _spelt(at), sentence) for at, sentence in found]
    layout = _left(boat, mast, lists, {at[:2] for at, _sentence in found})
    document = Document(path, data, layout, stamp) if layout else None
    return Reading(document, tuple(sorted(mistakes, key=lambda mistake: mistake.line)))


def _one(model: type[Any], table: Any, at: tuple[str | int, ...], text: str, mistakes: list[Mistake]) -> Any:
    if table is None:
        mistakes.append(Mistake(0, str(at[0]), _("[{name}] is missing").format(name=at[0])))
        return None
    try:
        return model.model_validate(table, by_alias=True, by_name=False)
    except ValidationError as error:
        mistakes.extend(
            Mistake(line_of(text, (*at, *path)), _spelt((*at, *path)), sentence)
            for path, sentence in mistakes_of(model, error)
        )
        return None


def _items(
    name: str, tables: Any, text: str, mistakes: list[Mistake], broken: set[str]
) -> list[tuple[int, Any]]:
    if not isinstance(tables, list) or len(tables) > MOST_ITEMS:
        sentence = _("a list of [[{name}]] is wanted, at most {most}").format(name=name, most=MOST_ITEMS)
        mistakes.append(Mistake(line_of(text, (name,)), name, sentence))
        return []
    items = []
    for i, table in enumerate(tables):
        item = _one(list_model(name), table, (name, i), text, mistakes)
        if item is not None:
            items.append((i, item))
        elif isinstance(table, dict) and isinstance(table.get("id"), str):
            broken.add(table["id"])
    return items


def _rest(rest: dict[str, Any], text: str, mistakes: list[Mistake]) -> None:
    """Name keys at the top of the file that a layout does not have."""
    try:
        Layout.model_validate(rest, by_alias=True, by_name=False)
    except ValidationError as error:
        mistakes.extend(
            Mistake(line_of(text, path), _spelt(path), sentence)
            for path, sentence in mistakes_of(Layout, error)
            if path[0] not in ("boat", "mast")
        )


def _left(boat: Any, mast: Any, lists: dict[str, list[tuple[int, Any]]], wrong: set[Any]) -> Layout | None:
    """Return a layout of what has no mistake; None where boat or mast cannot be read."""
    if boat is None or mast is None or any(at[0] == "mast" for at in wrong):
        return None
    kept: dict[str, Any] = {
        name: tuple(item for i, item in items if (name, i) not in wrong) for name, items in lists.items()
    }
    layout, _taken = with_kinds(Layout(format=1, boat=boat, mast=mast, **kept))
    again = {at[:2] for at, _sentence in crosscheck(parts_of(layout))}
    if not again:
        return layout
    return _left(boat, mast, {name: list(enumerate(items)) for name, items in kept.items()}, again)


def _spelt(path: tuple[str | int, ...]) -> str:
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if text else step
    return text


def with_kinds(layout: Layout) -> tuple[Layout, tuple[str, ...]]:
    """Return the layout with a copy of each kind it uses and does not carry, and their names."""
    carried = {kind.id for kind in layout.kinds}
    wanted = dict.fromkeys(fitting.kind for fitting in layout.fittings if fitting.kind not in carried)
    taken = tuple(name for name in wanted if name in catalogue.catalogue())
    if not taken:
        return layout, ()
    kinds = (*layout.kinds, *(catalogue.kind(name) for name in taken))
    return layout.but(kinds=kinds), taken


def stamp_of(path: Path) -> Stamp | None:
    """Return the stamp of a file as it is on disk now, None where it is not there."""
    try:
        status = path.stat()
    except OSError:
        return None
    return Stamp(status.st_mtime_ns, status.st_size)


def _with_outline(path: Path, tables: dict[str, Any]) -> dict[str, Any]:
    """Return the tables with the points of an outline that a drawing beside the layout holds."""
    section = tables.get("mast", {}).get("section", {}) if isinstance(tables.get("mast"), dict) else {}
    if not isinstance(section, dict) or "dxf" not in section or "points" in section:
        return tables
    from mastlayout.storage.dxf_outline import points_of  # noqa: PLC0415 - ezdxf is heavy and seldom wanted

    full = section | {"points": points_of(path.parent, section["dxf"])}
    return tables | {"mast": tables["mast"] | {"section": full}}
