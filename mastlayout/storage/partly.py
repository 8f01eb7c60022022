"""A file with mistakes: what of it can be read, and every mistake with its line."""

from collections.abc import Container
from typing import Any

from mastlayout.errors import Mistake
from mastlayout.model.crosscheck import PathMistake, crosscheck
from mastlayout.model.layout import FORMAT, Layout
from mastlayout.storage.borrowed import borrowed
from mastlayout.storage.lines import line_of, places
from mastlayout.storage.mistakes import shown
from mastlayout.storage.salvage import Salvage, salvage
from mastlayout.words import _

MOST_TOLD = 500


def another_format(text: str, number: object) -> tuple[Mistake, ...]:
    """Return what is said of a file whose format is not ours, or that names none."""
    if number is None:
        sentence = _("format is missing: “format = {ours}” is needed at the top of a layout")
    elif type(number) is int and number > FORMAT:
        sentence = _(
            "format {given} is not known: it is newer than this program, which reads format {ours}; "
            "open it with a newer one"
        )
    else:
        sentence = _("format {given} is not known: {ours} is wanted")
    return _lined(text, [PathMistake(("format",), sentence.format(given=shown(number), ours=FORMAT))])


def what_can_be_read(
    text: str, tables: dict[str, Any], wrong: list[PathMistake]
) -> tuple[Layout | None, tuple[Mistake, ...]]:
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
            return found.layout(), _lined(text, told)
        wrong = wrong + more


def _by_reference(found: Salvage, unread: Container[str]) -> tuple[Salvage, list[PathMistake]]:
    """Return what was read with the kinds it takes from the catalogue, and its mistakes by reference."""
    fittings, kinds = found.items.get("fittings", ()), found.items.get("kinds", ())
    taken, names = borrowed(fittings, kinds, found.unread)
    found = found.with_kinds(taken)
    return found, [
        PathMistake(found.path_in_file(mistake.path), mistake.sentence)
        for mistake in crosscheck(found.parts(), names, unread)
    ]


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
