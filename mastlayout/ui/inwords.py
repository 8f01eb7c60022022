"""A name where its room is short: whole words go, from the middle, so that thing and side stay."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF

from mastlayout.ui.look import font

_CUT = "…"
# How many letters stay of a first word where even it is too long beside what tells two names apart.
_FEW, _ONE = 3, 1


def whole_tip(words: str, tip: str, metrics: QFontMetricsF, room_px: float) -> str:
    """Return a tooltip that begins with the words where they are wider than their room."""
    return "\n".join(filter(None, (words if metrics.horizontalAdvance(words) > room_px else "", tip)))


@lru_cache(maxsize=2048)
def name_among(name: str, size: int, room_px: float, others: tuple[str, ...], *, bold: bool) -> str:
    """Return a name as a row shows it, at a size in pixels, among the names of other rows."""
    return in_words(name, QFontMetricsF(font(size, bold=bold)), room_px, others)


def in_words(name: str, metrics: QFontMetricsF, room_px: float, others: tuple[str, ...] = ()) -> str:
    """Return a name shortened to fit: "Tang, lower, with turnbuckle, P" to "Tang, lower …, P".

    Among others nothing is left that could be one of them: beside "Tang, lower, P" it becomes
    "Tang … turnbuckle, P". Where that finds no room, others are not asked; where not even the first
    word and the side find room, the end is cut.
    """
    if metrics.horizontalAdvance(name) <= room_px:
        return name
    unlike = [other for other in others if other != name]
    for tried in _shorter(name, middle=bool(unlike)):
        if metrics.horizontalAdvance(tried) <= room_px and not any(map(_reading(tried).fullmatch, unlike)):
            return tried
    if unlike:
        return in_words(name, metrics, room_px)
    return metrics.elidedText(name, Qt.TextElideMode.ElideRight, room_px)


def _shorter(name: str, *, middle: bool) -> Iterator[str]:
    """Yield ways to write a name, longest first; with ``middle`` those too that leave out what is before."""
    body, comma, side = name.rpartition(", ")
    end = comma + side if comma and len(side) == 1 else ""
    words = (body if end else name).split(" ")
    for kept in range(len(words) - 1, 0, -1):
        for last in range(kept if middle else 1):
            head, tail = " ".join(words[: kept - last]).rstrip(","), words[len(words) - last :]
            yield " ".join((head, _CUT, *tail)) + end
    heads = (f"{words[0]} {_CUT}", *(f"{words[0][:few]}{_CUT}" for few in (_FEW, _ONE))) if middle else ()
    for head in heads:
        for at, word in enumerate(words[1:], 2):
            after = "" if at == len(words) else f" {_CUT}"
            yield f"{head} {word.rstrip(',')}{after}{end}"


def _reading(tried: str) -> re.Pattern[str]:
    """Return what finds the names that a shortened one may stand for: all its words, in their order."""
    parts = [
        ("(?<!\\w)" if part.startswith(" ") else "")
        + re.escape(part.strip())
        + ("(?!\\w)" if part.endswith(" ") else "")
        for part in tried.split(_CUT)
    ]
    return re.compile(".*".join(parts))


def fitting_words(words: Sequence[str], metrics: QFontMetricsF, room_px: float) -> str:
    """Return the longest of some words that finds room; the shortest without its end where none does."""
    fits = (one for one in words if metrics.horizontalAdvance(one) <= room_px)
    return next(fits, "") or metrics.elidedText(words[-1], Qt.TextElideMode.ElideRight, room_px)
