"""Words broken into lines, by words and never within one; what is too long loses words from its middle."""

from collections.abc import Callable
from functools import lru_cache

from PySide6.QtGui import QFontMetricsF

from mastlayout.ui.look import font


@lru_cache(maxsize=4096)
def width_px(words: str, size: int, *, bold: bool = False) -> float:
    """Return how wide words are."""
    return QFontMetricsF(font(size, bold=bold)).horizontalAdvance(words)


def broken(words: str, most_px: float, most_lines: int, width_of: Callable[[str], float]) -> tuple[str, ...]:
    """Return words in lines of at most ``most_px``, or as wide as their longest word.

    Where they would need more than ``most_lines``, words go from the middle: the first says what it
    is, the last its side or its figure.
    """
    parts = words.split(" ")
    most_px = max(most_px, *(width_of(part) for part in parts))
    lines = _filled(parts, most_px, width_of)
    while len(lines) > most_lines and len(parts) > 2:
        middle = len(parts) // 2
        left = parts[:middle] if parts[middle] != "…" else parts[: middle - 1]
        parts = [*left, "…", *parts[middle + 1 :]]
        lines = _filled(parts, most_px, width_of)
    return tuple(lines)


def _filled(parts: list[str], most_px: float, width_of: Callable[[str], float]) -> list[str]:
    lines = [parts[0]]
    for part in parts[1:]:
        longer = f"{lines[-1]} {part}"
        if width_of(longer) <= most_px:
            lines[-1] = longer
        else:
            lines.append(part)
    return lines
