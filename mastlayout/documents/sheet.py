"""What all sheets share: bar and foot, boxes, tags, note letters, stop signs, lines to write on."""

import string
from collections.abc import Iterable, Sequence
from functools import cache

import tomli

from mastlayout.documents.hatching import hatch
from mastlayout.documents.lettering import (
    Box,
    fitted_lines,
    fitting_pt,
    grouped,
    leading_mm,
    one_line,
    paragraph,
    width_mm,
)
from mastlayout.documents.page import BOX, DOTTED, MEDIUM, THIN, Anchor, Line, Marks, Polyline, Rect, Text
from mastlayout.documents.rows import Note, SheetHead
from mastlayout.frozen import dataclass
from mastlayout.resources import resources
from mastlayout.words import _

BAR_MM = 7.5
BANNER_MM = 10.5
FOOT_MM = 7.4
BOX_MM = 7.5
DOTTED_STEP_MM = 7.0
NOTE_PT = 7.6
_FINE_PT = 7.2
_TICK_MM = 0.9
# Half the height of a capital, mm for each point of its size.
_HALF_CAPITAL_MM, _BOX_HEAD_PT = 0.125, 7.0
_NAME_MM = 62.0
_NOTE_MM = 3.5
BADGE_MM = 4.3


@dataclass(frozen=True)
class SheetName:
    """The kind of a sheet and its number among its kind, and whether it is a map of the mast."""

    kind: str
    number: int
    count: int
    is_map: bool = False

    def __str__(self) -> str:
        return _("{kind} {number} of {count}").format(kind=self.kind, number=self.number, count=self.count)


def frame(
    head: SheetHead,
    name: SheetName,
    kind: str,
    block: tuple[float, float],
    bar: tuple[float, float] | None = None,
) -> Marks:
    """Yield the black bar on top, from edge to edge unless told, and the foot with its lines of cautions."""
    left, right = bar or (0.0, block[0])
    yield Rect(left, 0, right - left, BAR_MM, 0, 1.0)
    room = right - left - (80.0 if name.is_map else 0.0) - 8.0
    side = room / 2 if bar is None else room - width_mm(str(name), 12, bold=True)
    yacht = one_line(head.yacht.upper(), 12, side, bold=True)
    yield Text(left + 2.5, 5.15, yacht, 12, bold=True, white=True)
    yield Text(right - 2.5, 5.15, str(name), 12, bold=True, anchor="end", white=True)
    if name.is_map:
        end = right - 2.5 - width_mm(str(name), 12, bold=True)
        middle = (
            (left + right) / 2 if bar is None else (left + 2.5 + width_mm(yacht, 12, bold=True) + end) / 2
        )
        yield from _masthead_end(middle)
    yield from _foot(head, name, kind, block)


def _masthead_end(x: float) -> Marks:
    words = _("MASTHEAD END OF THE SHEET")
    yield Text(x, 5.0, words, 10.5, bold=True, anchor="middle", white=True)
    half = width_mm(words, 10.5, bold=True) / 2 + 4.0
    for centre in (x - half, x + half):
        peak = ((centre - 2.1, 5.4), (centre, 1.9), (centre + 2.1, 5.4))
        yield Polyline(peak, 0, closed=True, fill=0.0)


def _foot(head: SheetHead, name: SheetName, kind: str, block: tuple[float, float]) -> Marks:
    width, height = block
    yield Line(0, height - FOOT_MM, width, height - FOOT_MM, MEDIUM)
    yacht = one_line(head.yacht, 9, _NAME_MM - 2 - width_mm(f" · {name}", 9, bold=True), bold=True)
    yield Text(width, height - 4.0, f"{yacht} · {name}", 9, bold=True, anchor="end")
    day = _("{day} · plan mark {mark}").format(day=head.day, mark=head.plan_mark)
    yield Text(width, height - 0.7, day, _FINE_PT, anchor="end")
    for count, line in enumerate(cautions(kind)):
        yield Text(0, height - 4.1 + 3.4 * count, one_line(line, _FINE_PT, width - _NAME_MM), _FINE_PT)


def cautions(kind: str, part: str = "foot") -> tuple[str, ...]:
    """Return the cautions of a kind of sheet: those of its foot, or another part of it."""
    return tuple(_(line) for line in _cautions()[kind][part])


@cache
def _cautions() -> dict[str, dict[str, list[str]]]:
    return tomli.loads((resources() / "cautions.toml").read_text(encoding="utf-8"))


def title(words: str, y: float, width: float, size_pt: float = 18.0) -> Marks:
    """Yield a sheet's title on its baseline."""
    yield Text(0, y, one_line(words, size_pt, width, bold=True), size_pt, bold=True)


Heads = Iterable[tuple[float, str]]


def column_heads(
    box: Box, size_pt: float = 8.0, *, starts: Heads = (), ends: Heads = (), boxes: Heads = ()
) -> Marks:
    """Yield the heads of a sheet's columns, white on a black band from (left, top) to (right, bottom).

    Words begin at their x, end there, or stand in its middle over the boxes to tick, set smaller.
    """
    left, top, right, bottom = box
    yield Rect(left, top, right - left, bottom - top, 0, 1.0)
    base = (top + bottom) / 2 + _HALF_CAPITAL_MM * size_pt
    kinds: tuple[tuple[Heads, Anchor, float], ...] = (
        (starts, "start", size_pt), (ends, "end", size_pt), (boxes, "middle", _BOX_HEAD_PT)
    )  # fmt: skip
    for heads, anchor, size in kinds:
        for x, words in heads:
            yield Text(x, base, words, size, bold=True, anchor=anchor, white=True)


def tag_badge(x: float, y: float, width: float, height: float, tag: str, size_pt: float) -> Marks:
    """Yield a tag, white on black; a long one is set smaller, never cut."""
    yield Rect(x, y, width, height, 0, 1.0)
    size = fitting_pt(tag, (size_pt, size_pt * 0.8, 7.0), width - 0.8)
    baseline = y + height / 2 + size * 0.127
    yield Text(x + width / 2, baseline, tag, size, bold=True, anchor="middle", white=True)


def tick_box(x: float, y: float, side: float = BOX_MM, *, done: bool = False) -> Marks:
    """Yield a box to tick, ticked where it is done; where there is none, there is no hole."""
    yield Rect(x, y, side, side, BOX)
    if done:
        tick = ((0.18, 0.52), (0.42, 0.76), (0.84, 0.22))
        yield Polyline(tuple((x + side * right, y + side * down) for right, down in tick), _TICK_MM)


def sign(  # noqa: PLR0913, PLR0917 - a place and two lines with their sizes
    x: float,
    y: float,
    width: float,
    height: float,
    words: str,
    under: str,
    size_pt: float,
    under_pt: float = 7.4,
) -> Marks:
    """Yield a black sign such as STOP or HOLD with a second line below its word."""
    yield Rect(x, y, width, height, 0, 1.0)
    big_mm, small_mm = size_pt * 0.257, under_pt * 0.257
    gap = (height - big_mm - small_mm) / 3
    for line, size, baseline in ((words, size_pt, y + gap + big_mm), (under, under_pt, y + height - gap)):
        fitted = one_line(line, size, width - 1.0, bold=True)
        yield Text(x + width / 2, baseline, fitted, size, bold=True, anchor="middle", white=True)


def named_box(x: float, y: float, width: float, height: float, name: str) -> Marks:
    """Yield a box to write in with its own name in its lower left corner."""
    yield Rect(x, y, width, height, BOX)
    size, lines = fitted_lines(name, (7.2, 7.0), width - 2.0, 2)
    for count, line in enumerate(reversed(lines)):
        yield Text(x + 1.0, y + height - 1.3 - count * leading_mm(size), line, size)


def fill_in(x: float, y: float, label: str, to_x: float, size_pt: float = 7.6) -> Marks:
    """Yield a label and the line behind it to write on."""
    yield Text(x, y, label, size_pt)
    yield Line(x + width_mm(label, size_pt) + 1.2, y + 0.4, to_x, y + 0.4, THIN)


def written_lines(y: float, bottom: float, label: str, width: float, left: float = 0.0) -> Marks:
    """Yield dotted lines 7 mm apart over leftover space up to ``width``, any label before the first."""
    if bottom - y < DOTTED_STEP_MM:
        return
    start = left + (width_mm(label, 8, bold=True) + 2.0 if label else 0.0)
    if label:
        yield Text(left, y + 4.6, label, 8, bold=True)
    step = y + 5.2
    while step < bottom - 1.0:
        yield Line(start, step, width, step, THIN, DOTTED)
        step += DOTTED_STEP_MM


_MOST_NOTE_LINES = 6


class Letters:
    """The notes of one sheet, each under its letter in the order in which they are met."""

    def __init__(self, notes: Iterable[Note]) -> None:
        self._letters = {note: _letter(count) for count, note in enumerate(dict.fromkeys(notes))}

    def __getitem__(self, note: Note) -> str:
        return self._letters[note]

    def __contains__(self, note: Note) -> bool:
        return note in self._letters

    def badge(self, x: float, y: float, note: Note) -> Marks:
        """Yield a note's letter, white on black, its baseline at ``y``."""
        yield from letter_badge(x, y, self._letters[note])

    def list(self, y: float, width: float) -> Marks:
        """Yield the notes one below the other from ``y`` down."""
        for note, letter in self._letters.items():
            yield from letter_badge(0, y + 2.5, letter)
            for line in note_lines(note, width):
                yield Text(6.0, y + 2.5, line, NOTE_PT)
                y += _NOTE_MM

    def height_mm(self, width: float) -> float:
        """Return how high the list is."""
        return notes_height_mm(self._letters, width)


def note_lines(note: Note, width: float) -> Sequence[str]:
    """Return a note's lines beside its letter; an owner's remark of hundreds of words is cut."""
    words = f"{note.tags}: {grouped(note.text)}" if note.tags else grouped(note.text)
    return [text.text for text in paragraph(0, 0, words, width - 6.5, NOTE_PT, lines=_MOST_NOTE_LINES)]


def notes_height_mm(notes: Iterable[Note], width: float) -> float:
    """Return how high a list of notes is, without repeated ones."""
    return _NOTE_MM * sum(len(note_lines(note, width)) for note in dict.fromkeys(notes))


def letter_badge(x: float, y: float, letter: str) -> Marks:
    """Yield a letter, white on black, its baseline at ``y``."""
    yield Rect(x, y - 2.4, BADGE_MM, 3.1, 0, 1.0)
    yield Text(x + BADGE_MM / 2, y, letter, 7.4, bold=True, anchor="middle", white=True)


def _letter(count: int) -> str:
    rounds, at = divmod(count, 26)
    return string.ascii_lowercase[at] * (rounds + 1)


def banner(width: float) -> Marks:
    """Yield the band of every schedule whose hole rules have not run, ``BANNER_MM`` high below the bar."""
    top, height = BAR_MM + 0.9, BANNER_MM - 0.9
    words = _("HOLE RULES NOT CHECKED: DO NOT DRILL FROM THIS PAGE")
    half = width_mm(words, 18, bold=True) / 2 + 3.0
    middle = width / 2
    for left, right in ((0.0, middle - half), (middle + half, width)):
        corners = ((left, top), (right, top), (right, top + height), (left, top + height))
        yield from hatch(corners, 1.3, MEDIUM)
    yield Rect(0.35, top, width - 0.7, height, 0.7)
    yield Text(middle, top + 6.95, words, 18, bold=True, anchor="middle")
