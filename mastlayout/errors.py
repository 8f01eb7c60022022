"""Everything the program can refuse, each building its own sentence."""

from collections.abc import Iterable

from mastlayout.frozen import dataclass
from mastlayout.words import _


class MastLayoutError(Exception):
    """Base of all errors that are meant for the user: ``str()`` is a whole sentence."""


class UnitError(MastLayoutError, ValueError):
    """A length, angle or mass that cannot be read.

    It is a ``ValueError`` too, so that a model field reports it as its own mistake.
    """


class EditError(MastLayoutError, ValueError):
    """An edit that would leave the layout wrong; the layout stays as it was."""


class UnknownNameError(MastLayoutError, KeyError):
    """A name that nothing answers to, with the nearest names that exist."""

    def __init__(self, what: str, name: str, known: Iterable[str]) -> None:
        # The nearest are looked for when the sentence is read: some only ask whether a name is there.
        self.what, self.name, self._known = what, name, tuple(known)
        super().__init__(name)

    def __str__(self) -> str:
        return _("There is no {what} named “{name}”{hint}.").format(
            what=self.what, name=self.name, hint=did_you_mean(nearest(self.name, self._known))
        )


class NotAllowedError(MastLayoutError, ValueError):
    """A number that is read but lies outside what can be asked."""


class NotKnownError(MastLayoutError, ValueError):
    """Something asked of the geometry needs a measure that nobody took."""


class FileError(MastLayoutError):
    """A file that cannot be read or written; nothing was changed on disk."""


class CommentsLostError(FileError):
    """A file that could be written anew only, without its comments; nothing was changed on disk."""

    def __init__(self, name: str) -> None:
        super().__init__(
            _(
                "The changes do not fit into the text of {name} as it is laid out: it can only be written "
                "anew, and its comments are lost then."
            ).format(name=name)
        )


@dataclass(frozen=True)
class Mistake:
    """One mistake of a layout file: where it stands and what would be right.

    ``line`` counts from 1, 0 where no line can be named; ``field`` is the path as the file
    spells it, such as ``fittings[3].girth``.
    """

    line: int
    field: str
    sentence: str

    def __str__(self) -> str:
        at = _("line {line}, ").format(line=self.line) if self.line else ""
        field = f"{self.field}: " if self.field else ""
        return f"{at}{field}{self.sentence}"


class LayoutFileError(FileError):
    """A layout file with mistakes; all that could be found are in ``mistakes``."""

    def __init__(self, path: str, mistakes: Iterable[Mistake]) -> None:
        self.path = path
        self.mistakes = tuple(mistakes)
        super().__init__(path)

    def __str__(self) -> str:
        return "\n".join(f"{self.path}: {mistake}" for mistake in self.mistakes)


def nearest(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """Return up to two of ``known`` that ``name`` may have been meant for."""
    import difflib  # noqa: PLC0415 - most names are right, and a start waits for no other

    return tuple(difflib.get_close_matches(name, sorted(known), n=2, cutoff=0.6))


def did_you_mean(near: Iterable[str]) -> str:
    """Return ", did you mean …?" without its full stop, or nothing."""
    names = _(" or ").join(f"“{name}”" for name in near)
    return _(" (did you mean {names}?)").format(names=names) if names else ""
