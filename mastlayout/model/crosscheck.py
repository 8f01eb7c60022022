"""Mistakes by reference: what no single item shows, only the items side by side.

Cheap enough to run at every edit, so each rule is one pass over plain lists.
"""

from collections.abc import Container, Iterable, Iterator

from mastlayout.model.built import built_mistakes
from mastlayout.model.fitting import MAST
from mastlayout.model.heights import height_mistakes
from mastlayout.model.hosts import host_mistakes
from mastlayout.model.layout import NAMED, Layout
from mastlayout.model.mast import FreeOutline
from mastlayout.model.outlines import outline_mistakes
from mastlayout.model.parts import Parts, Path, PathMistake
from mastlayout.model.references import LOOSE, reference_mistakes
from mastlayout.words import _

__all__ = ["Parts", "PathMistake", "crosscheck"]


def crosscheck(
    layout: Layout | Parts, kind_names: Iterable[str] = (), unread: Container[str] = frozenset()
) -> list[PathMistake]:
    """Return every mistake by reference, in no special order; an empty list where all hangs together.

    Args:
        layout: a whole layout, or the parts of one that could be read.
        kind_names: further kinds to offer as a spelling for one that is not there.
        unread: ids of items that are there but could not be read; nothing is said of names among them.
    """
    section = layout.mast.section if layout.mast else None
    return [
        *_ids(layout),
        *_tags(layout),
        *_kind_ids(layout),
        *reference_mistakes(layout, kind_names, unread),
        *host_mistakes(layout, unread),
        *height_mistakes(layout),
        *built_mistakes(layout),
        *(outline_mistakes(section.points) if isinstance(section, FreeOutline) else ()),
        *_limits(layout),
    ]


def _ids(layout: Layout | Parts) -> Iterator[PathMistake]:
    """Ids given twice, given again after they were retired, or kept for something else."""
    retired, first = set(layout.retired), dict[str, Path]()
    for path, name in _named(layout):
        if name in first:
            sentence = _("the id “{id}” is given already, in {other}: an id is given once")
        elif name in retired:
            sentence = _("the id “{id}” is retired: an id is never given again, take a new one")
        elif name in (MAST, LOOSE):
            sentence = _("the id “{id}” has a meaning of its own: take another")
        else:
            first[name] = path
            continue
        other = ".".join(str(part) for part in first.get(name, ())[:-2])
        yield PathMistake(path, sentence.format(id=name, other=other))


def _named(layout: Layout | Parts) -> Iterator[tuple[Path, str]]:
    for key in NAMED:
        for at, item in enumerate(getattr(layout, key)):
            yield (key, at, "id"), item.id
    for at, conduit in enumerate((layout.mast and layout.mast.conduits) or ()):
        yield ("mast", "conduits", at, "id"), conduit.id


def _tags(layout: Layout | Parts) -> Iterator[PathMistake]:
    retired, first = set(layout.retired), dict[int, str]()
    for at, fitting in enumerate(layout.fittings):
        if fitting.tag is None:
            continue
        if fitting.tag in first:
            sentence = _("the tag {tag} is on “{other}” already: a tag is given once")
        elif retired and f"tag {fitting.tag}" in retired:
            sentence = _("the tag {tag} is retired: a tag is never given again, take a new one")
        else:
            first[fitting.tag] = fitting.id
            continue
        yield PathMistake(
            ("fittings", at, "tag"), sentence.format(tag=fitting.tag, other=first.get(fitting.tag))
        )


def _kind_ids(layout: Layout | Parts) -> Iterator[PathMistake]:
    seen: set[str] = set()
    for at, kind in enumerate(layout.kinds):
        if kind.id in seen:
            yield PathMistake(
                ("kinds", at, "id"),
                _("the kind “{id}” is there twice: one of them is wanted").format(id=kind.id),
            )
        seen.add(kind.id)


def _limits(layout: Layout | Parts) -> Iterator[PathMistake]:
    for at, limit in enumerate(layout.limits):
        if not limit.why.strip():
            yield PathMistake(
                ("limits", at, "why"),
                _("the limit “{key}” has no reason: say why it is set, the papers print it").format(
                    key=limit.key
                ),
            )
