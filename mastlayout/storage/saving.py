"""Saving: an opened file keeps its comments, order and units, and one edit is one changed line."""

import dataclasses
from pathlib import Path
from typing import Any

from mastlayout.errors import CommentsLostError
from mastlayout.model.layout import Layout, begun_lists, same_layout
from mastlayout.model.mast import FreeOutline
from mastlayout.model.value import Value
from mastlayout.storage.guard import comments
from mastlayout.storage.reading import Document, layout_in, stamp_of
from mastlayout.storage.splicing import spliced
from mastlayout.storage.writing import write_whole
from mastlayout.words import _

_HEAD = _(
    "# A mast layout. Bare numbers are millimetres, degrees or kilograms; heights on the mast count\n"
    "# from the masthead. A key left out is not known; an empty list says that somebody looked and\n"
    "# found nothing.\n\n"
)
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
# Text in feet and inches may be off by as much as edits are rounded to.
_ALIKE_MM = 0.0101


def save(layout: Layout, path: Path, document: Document | None = None, *, anew: bool = False) -> Document:
    """Write a layout, whole or not at all, and return its document as it is on disk now.

    Unchanged, a document's very bytes are written; changed, only what differs in its text. Without
    a document the file is a new one. A text that cannot be cut and joined is written anew, but where
    that loses comments only with ``anew``: else CommentsLostError is raised. Raises FileError; the file
    and the document are then as before.
    """
    if document and same_layout(layout, document.layout) and not _leaves_drawing(document, path):
        write_whole(path, document.data)
        return dataclasses.replace(document, path=path, stamp=stamp_of(path))
    data = _edited(layout, path, document, anew=anew) if document else as_new_file(layout)
    write_whole(path, data)
    return Document(path, data, layout, stamp_of(path))


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


def _leaves_drawing(document: Document, path: Path) -> bool:
    """Tell whether the outline's drawing will not lie beside the file: its points must then be in it."""
    section = document.layout.mast.section
    drawing = section.dxf if isinstance(section, FreeOutline) else None
    return drawing is not None and path.absolute().parent != document.path.absolute().parent


def _edited(layout: Layout, path: Path, document: Document, *, anew: bool) -> bytes:
    mark = _BYTE_ORDER_MARK if document.data.startswith(_BYTE_ORDER_MARK) else b""
    text = document.data.removeprefix(mark).decode()
    old = _as_in_file(document, with_outline=not _leaves_drawing(document, path))
    edited = spliced(text, old, layout)
    if _says(edited, path, layout):
        return mark + edited.encode()
    # Laid out in a way that cannot be cut and joined: comments may be lost, but never the layout.
    if not anew and set(comments(text)) - set(_HEAD.splitlines()):
        raise CommentsLostError(document.path.name)
    return as_new_file(layout)


def _as_in_file(document: Document, *, with_outline: bool) -> Layout:
    """Return the document's layout without what its file does not carry."""
    layout = document.layout
    if document.taken:
        layout = layout.but(kinds=tuple(kind for kind in layout.kinds if kind.id not in document.taken))
    mast, section = layout.mast, layout.mast.section
    if isinstance(section, FreeOutline) and not with_outline:
        # Any other points make those of the layout count as new.
        return layout.but(mast=mast.but(section=section.but(points=section.points[::-1])))
    return layout


def _says(text: str, path: Path, layout: Layout) -> bool:
    """Tell whether a text holds the layout, mistakes by reference and all."""
    read = layout_in(text, path)
    return read is not None and _alike(read, layout) and begun_lists(read) == begun_lists(layout)


def _alike(one: Any, other: Any) -> bool:
    if one == other:
        return True
    if isinstance(one, Value) and type(one) is type(other):
        return all(_alike(getattr(one, name), getattr(other, name)) for name in type(one).model_fields)
    if isinstance(one, tuple) and isinstance(other, tuple) and len(one) == len(other):
        return all(map(_alike, one, other))
    return isinstance(one, float) and isinstance(other, float) and abs(one - other) <= _ALIKE_MM
