"""What a file must pass before the parser sees it: a text of bounded size, depth and length of keys."""

import itertools
import re
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import tomli

from mastlayout.errors import FileError, LayoutFileError, Mistake
from mastlayout.words import _

MOST_BYTES = 4_000_000
MOST_DOTS = 8
MOST_DEEP = 16

# Strings and comments of TOML, each in one step and one left open up to where the parser gives up,
# so that no text makes the search run over it twice.
STRING = re.compile(
    r'"""(?:[^"\\]++|\\.|"(?!""))*+(?:"{3,5}|\\?\Z)'
    r"|'''(?:[^']++|'(?!''))*+(?:'{3,5}|\Z)"
    r'|"(?:[^"\\\n]++|\\[^\n])*+"?'
    r"|'[^'\n]*+'?",
    re.DOTALL,
)
_QUOTED = re.compile(rf"(?:{STRING.pattern})|#[^\n]*+", re.DOTALL)
_ENDLESS_KEY = re.compile(rf'(?:\.[ \t]*+[\w"-]++[ \t]*+){{{MOST_DOTS}}}\.')
_NO_BRACKETS = re.compile(r"[^\[\]{}]++")
_STEP = {"[": 1, "{": 1, "]": -1, "}": -1}
_TOO_DEEP = _("brackets stand more than {most} deep in one another: at most that many are allowed")
_WORDS = {
    "Expected '=' after a key": _("a key has no “=” behind it: “key = value” is wanted"),
    "Invalid value": _("this is no value: a number, a text in quotes, a [list] or a {table} is wanted"),
    "Invalid statement": _("a line is “key = value”, “[table]”, “[[list]]” or a # comment: this is none"),
    "Invalid initial character for a key": _("a key is made of letters, digits, - and _: this is none"),
    "Expected newline": _("something follows the value: one “key = value” on a line is wanted"),
    "Cannot overwrite a value": _("this key is there already: a key stands once in its table"),
    "Cannot declare": _("this table is there already: a [table] stands once, only [[lists]] repeat"),
    "Unclosed array": _("a list is not closed: “]” is wanted"),
    "Unclosed inline table": _("a table is not closed: “}” is wanted"),
    "Unterminated string": _("a text is not closed: its second quote is wanted"),
}
_AT_LINE = re.compile(r" \(at line (\d+), column (\d+)\)$| \(at end of document\)$")


def read_bytes(path: Path) -> bytes:
    """Return a file's bytes; FileError says why they cannot be had."""
    try:
        if path.is_dir():
            raise FileError(_("{path} is a folder: a layout file is wanted").format(path=path))
        if not stat.S_ISREG(path.stat().st_mode):
            raise FileError(_("{path} is no file on a disk: a layout file is wanted").format(path=path))
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise FileError(_("{path} is not there: name a layout file that is").format(path=path)) from None
    except (OSError, ValueError) as error:
        raise FileError(
            _("{path} cannot be read: {why}").format(path=path, why=getattr(error, "strerror", None) or error)
        ) from None
    if len(data) > MOST_BYTES:
        raise FileError(
            _("{path} is larger than {most} MB: at most that is read").format(
                path=path, most=MOST_BYTES // 1_000_000
            )
        )
    return data


def text_of(data: bytes, path: Path) -> str:
    """Return a file's text without a byte order mark; LayoutFileError where it is no text."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        sentence = _("this is no text in UTF-8: save the file as plain text in UTF-8")
        raise _refused(path, line, sentence) from None
    if "\0" in text:
        raise _refused(
            path, _line(text, text.index("\0")), _("a zero byte: this is not the text of a layout")
        )
    return text


def tables_of(text: str, path: Path) -> dict[str, Any]:
    """Return a text's tables; LayoutFileError where it is not TOML or would keep the parser busy."""
    _guard(text, path)
    try:
        return tomli.loads(text)
    except RecursionError:
        raise _refused(path, 0, _TOO_DEEP.format(most=MOST_DEEP)) from None
    except ValueError as error:
        raise _refused(path, *_syntax(text, str(error))) from None


def _guard(text: str, path: Path) -> None:
    """Refuse deep brackets and endless keys, which cost the parser seconds or its stack."""
    bare = _QUOTED.sub('"', text)
    brackets = _NO_BRACKETS.sub("", bare)
    if max(itertools.accumulate(map(_STEP.__getitem__, brackets)), default=0) > MOST_DEEP:
        raise _refused(path, 0, _TOO_DEEP.format(most=MOST_DEEP))
    if _ENDLESS_KEY.search(bare):
        lined = _QUOTED.sub(lambda found: '"' + "\n" * found[0].count("\n"), text)
        endless = _ENDLESS_KEY.search(lined)
        sentence = _("a key has more than {most} dots: at most that many are allowed")
        raise _refused(path, _line(lined, endless.start()) if endless else 0, sentence.format(most=MOST_DOTS))


def comments(text: str) -> Iterator[str]:
    """Yield the comments of a text, each from its # to the end of its line."""
    yield from (found[0].rstrip() for found in _QUOTED.finditer(text) if found[0].startswith("#"))


def _syntax(text: str, message: str) -> tuple[int, str]:
    """Return the line and the sentence of what the parser says, in our own words where we have some."""
    at = _AT_LINE.search(message)
    plain = message[: at.start()] if at else message
    why = next((ours for theirs, ours in _WORDS.items() if plain.startswith(theirs)), plain)
    if at and at[1]:
        return int(at[1]), _("column {column}: {why}").format(column=at[2], why=why)
    return _line(text, len(text.rstrip())), why


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _refused(path: Path, line: int, sentence: str) -> LayoutFileError:
    return LayoutFileError(str(path), [Mistake(line, "", sentence)])
