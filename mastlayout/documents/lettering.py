"""Letters and their widths: text is fitted to its place, never shrunk below its size."""

import re
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache

from mastlayout.documents.page import MM_PER_PT, Anchor, Text
from mastlayout.resources import resources

GAP = "\u202f"
# The gap before thousands, in em. Narrow enough that software reading the file sees one word.
GAP_EM = 0.16
ASCENT_EM, DESCENT_EM = 0.74, 0.2
Box = tuple[float, float, float, float]
_HANGING = re.compile(r"[gjpqyQ,;()\[\]{}/|_@§çµ]")
_LONG_NUMBER = re.compile(r"(?<![\w.\-/])\d{4,6}(?![\w\-/])")
_TIE, _TIED = "\0", re.compile(r"(?<=\d) (?=%)|(?<=\d) [x×] (?=\d)")
_FRACTION = re.compile(r"^(?P<whole>.*\d) (?P<part>\d+/\d+)$")
# A fraction of an inch is set smaller than its whole number, as on a rule.
_FRACTION_SHARE = 0.6
LEAST_PT = 7.0


@cache
def face(bold: bool) -> str:  # noqa: FBT001 - the one choice there is
    """Return the name of the regular or bold face, registered with the renderer on first use."""
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - 0.1 s, and the window writes no PDF at first
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415 - the same

    name = "DejaVuSansCondensed-Bold" if bold else "DejaVuSansCondensed"
    pdfmetrics.registerFont(TTFont(name, str(resources() / "fonts" / f"{name}.ttf")))
    return name


class _Advances(dict[str, float]):
    """How far the pen moves for each letter of a face, in thousandths of an em, looked up as it is met."""

    def __init__(self, bold: bool) -> None:  # noqa: FBT001 - as above
        from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - as above

        self._face = pdfmetrics.getFont(face(bold)).face

    def __missing__(self, letter: str) -> float:
        self[letter] = float(self._face.charWidths.get(ord(letter), self._face.defaultWidth))
        return self[letter]


_advances = cache(_Advances)
# A sheet is measured before it is drawn, and most words stand on several: so many widths are kept.
_KEPT = 16384


@lru_cache(maxsize=_KEPT)
def width_mm(text: str, size_pt: float, *, bold: bool = False) -> float:
    """Return how wide ``text`` is when set, its drawn gaps included."""
    return sum(advance for _piece, advance in pieces(text, size_pt, bold=bold))


def pieces(text: str, size_pt: float, *, bold: bool) -> list[tuple[str, float]]:
    """Return what is written between drawn gaps, each with how far the pen then moves in mm."""
    parts, advance = text.split(GAP), _advances(bold).__getitem__
    gaps = [GAP_EM] * (len(parts) - 1) + [0.0]
    return [
        (part, (0.001 * size_pt * sum(map(advance, part)) + gap * size_pt) * MM_PER_PT)
        for part, gap in zip(parts, gaps, strict=True)
    ]


def as_read(text: str) -> str:
    """Return the text as it is read back from the file, without drawn gaps."""
    return text.replace(GAP, "")


def box_mm(text: Text) -> Box:
    """Return left, top, right, bottom of the ink of a text, at most."""
    width, size = width_mm(text.text, text.size_pt, bold=text.bold), text.size_pt * MM_PER_PT
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    up, down = ASCENT_EM * size, (DESCENT_EM if _HANGING.search(text.text) else 0.02) * size
    if text.turn_deg:
        return text.x - up, text.y - start - width, text.x + down, text.y - start
    return text.x + start, text.y - up, text.x + start + width, text.y + down


def grouped(text: str) -> str:
    """Return a reading with a drawn gap before each group of three digits, from a thousand up."""
    return _LONG_NUMBER.sub(lambda found: _in_threes(found[0]), text)


def _in_threes(digits: str) -> str:
    return f"{int(digits):,}".replace(",", GAP)


def _words(text: str) -> list[str]:
    """Split at spaces and line ends only, within no "140 %" or "3 x 1.5"; a drawn gap breaks no number."""
    tied = _TIED.sub(lambda found: found[0].replace(" ", _TIE), text)
    return [word.replace(_TIE, " ") for word in re.split(r"[ \t\r\n\f\v]+", tied.strip(" \t\r\n\f\v"))]


def one_line(text: str, size_pt: float, width: float, *, bold: bool = False) -> str:
    """Return text on one line in ``width`` mm, cut with an ellipsis where it is longer."""
    line = " ".join(_words(text))
    if width_mm(line, size_pt, bold=bold) <= width:
        return line
    low, high = 0, len(line)
    while low < high:
        middle = (low + high + 1) // 2
        cut = line[:middle].rstrip() + "…"
        low, high = (middle, high) if width_mm(cut, size_pt, bold=bold) <= width else (low, middle - 1)
    return line[:low].rstrip() + "…"


def fitting_pt(text: str, sizes_pt: Sequence[float], width: float) -> float:
    """Return the largest of some sizes in which a bold tag fits into ``width`` mm: a tag is never cut."""
    return next((size for size in sizes_pt if width_mm(text, size, bold=True) <= width), sizes_pt[-1])


def fitted_lines(
    text: str, sizes_pt: Sequence[float], width: float, most: int, *, bold: bool = False
) -> tuple[float, list[str]]:
    """Return the largest of some sizes in which text takes at most so many lines, and the lines.

    Even the smallest may be too large for a name of hundreds of letters: the last line then ends in "…".
    """
    for size in sizes_pt:
        lines = wrapped(text, size, width, bold=bold)
        if len(lines) <= most:
            return size, lines
    rest = " ".join(lines[most - 1 :])
    return size, [*lines[: most - 1], one_line(f"{rest} …", size, width, bold=bold)]


def wrapped(text: str, size_pt: float, width: float, *, bold: bool = False) -> list[str]:
    """Return the text's lines in ``width`` mm: broken between words, inside one only if it fills a line."""
    return list(_wrapped(text, size_pt, width, bold=bold))


@lru_cache(maxsize=_KEPT)
def _wrapped(text: str, size_pt: float, width: float, *, bold: bool) -> tuple[str, ...]:
    lines = [""]
    for word in _words(text):
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if width_mm(joined, size_pt, bold=bold) <= width:
            lines[-1] = joined
            continue
        first, *others = _broken(word, size_pt, width, bold=bold)
        lines[-1:] = [lines[-1], first, *others] if lines[-1] else [first, *others]
    return tuple(lines)


def _broken(word: str, size_pt: float, width: float, *, bold: bool) -> list[str]:
    """Break a word that is wider than a whole line; nearly every word comes back whole."""
    parts = [""]
    for sign in word:
        if parts[-1] and width_mm(parts[-1] + sign, size_pt, bold=bold) > width:
            parts.append("")
        parts[-1] += sign
    return parts


def paragraph(
    x: float, y: float, text: str, width: float, size_pt: float = 8.0, *, bold: bool = False, lines: int = 99
) -> Iterator[Text]:
    """Yield the text's lines from the baseline ``y`` down, cut with an ellipsis after ``lines`` of them."""
    found = wrapped(text, size_pt, width, bold=bold)
    if len(found) > lines:
        rest = " ".join(found[lines - 1 :])
        found = [*found[: lines - 1], one_line(f"{rest} …", size_pt, width, bold=bold)]
    for count, line in enumerate(found):
        yield Text(x, y + count * leading_mm(size_pt), line, size_pt, bold)


def leading_mm(size_pt: float) -> float:
    """Return the distance between the baselines of a paragraph."""
    return size_pt * MM_PER_PT * 1.3


def reading(
    x: float, y: float, number: str, size_pt: float, *, bold: bool = False, anchor: Anchor = "start"
) -> Iterator[Text]:
    """Yield a reading: thousands with a drawn gap, a fraction of an inch set smaller beside its whole."""
    found = _FRACTION.match(number)
    if not found:
        yield Text(x, y, grouped(number), size_pt, bold, anchor)
        return
    whole, part, small = f"{found['whole']} ", found["part"], max(size_pt * _FRACTION_SHARE, LEAST_PT)
    first, second = width_mm(whole, size_pt, bold=bold), width_mm(part, small, bold=bold)
    start = x - {"start": 0.0, "middle": (first + second) / 2, "end": first + second}[anchor]
    yield Text(start, y, whole, size_pt, bold)
    yield Text(start + first, y, part, small, bold)
