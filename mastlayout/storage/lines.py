"""Where in a layout's text a field stands; asked only when there is a mistake to show."""

import re

Path = tuple[str | int, ...]
_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(
    r"^\s*((?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*'))*)\s*="
)
_INLINE_KEY = re.compile(r"[{,]\s*([A-Za-z0-9_-]+)\s*=")
_QUOTED = re.compile(r'"""|\'\'\'|"(?:\\.|[^"\\])*"|\'[^\']*\'|#.*$')


def line_of(text: str, path: Path) -> int:
    """Return the line, from 1, of the field at a path, or of the nearest thing round it; 0 where nothing is.

    Steps of the path that the text does not have, such as the name of a shape, are passed over.
    """
    places = _places(text)
    here: Path = ()
    for step in path:
        if (*here, step) in places:
            here = (*here, step)
    return places.get(here, 0)


def _places(text: str) -> dict[Path, int]:
    """Return the line of every table, key and array element."""
    scan = _Scan()
    for number, line in enumerate(text.splitlines(), start=1):
        scan.read(line, number)
    return scan.places


class _Scan:
    """A walk over the lines, keeping the table it is in and the array it is inside."""

    def __init__(self) -> None:
        self.places: dict[Path, int] = {}
        self._counts: dict[Path, int] = {}
        self._table: Path = ()
        self._key: Path = ()
        self._depth = 0
        self._element = -1
        self._quote = ""

    def read(self, line: str, number: int) -> None:
        """Take one line."""
        if self._quote:
            if self._quote in line:
                self._quote = ""
            return
        header, key = _HEADER.match(line), _KEY.match(line)
        if self._depth == 0 and header:
            self._open(header[1] == "[[", _steps(header[2]), number)
        elif self._depth == 0 and key:
            self._key = (*self._table, *_steps(key[1]))
            self._place(self._key, number)
            self._element = -1
            self._follow(line[key.end() :], number)
        elif self._depth:
            self._follow(line, number)

    def _open(self, is_list: bool, steps: Path, number: int) -> None:  # noqa: FBT001 - one call, named there
        here: Path = ()
        for i, step in enumerate(steps):
            here = (*here, step)
            if is_list and i == len(steps) - 1:
                self._counts[here] = self._counts.get(here, -1) + 1
            if here in self._counts:
                here = (*here, self._counts[here])
        self._table = here
        self._place(here, number)

    def _place(self, path: Path, number: int) -> None:
        for end in range(1, len(path) + 1):
            self.places.setdefault(path[:end], number)
        self.places[path] = number

    def _follow(self, rest: str, number: int) -> None:
        """Count brackets outside quotes; note where each element of an array begins, and the keys in it."""
        bare = _QUOTED.sub(lambda found: self._passed(found[0]), rest)
        for at, sign in enumerate(bare):
            if sign in "[{":
                self._depth += 1
                if sign == "{" and self._depth <= 2:
                    self._element += self._depth == 2
                    where = (*self._key, self._element) if self._depth == 2 else self._key
                    self._place(where, number)
                    for key in _INLINE_KEY.finditer(bare, at):
                        self.places.setdefault((*where, key[1]), number)
            elif sign in "]}":
                self._depth = max(0, self._depth - 1)

    def _passed(self, quoted: str) -> str:
        if quoted in ('"""', "'''"):
            self._quote = quoted
        return "" if quoted.startswith("#") else "~" * len(quoted)


def _steps(dotted: str) -> Path:
    return tuple(part.strip().strip("\"'") for part in dotted.split("."))
