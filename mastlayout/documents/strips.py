"""Strips 1:1 that lie along the tape: its own numbers, and a line at the reading of each hole."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.lettering import LEAST_PT, fitting_pt, grouped, one_line, width_mm
from mastlayout.documents.page import (
    BOX,
    DASHED,
    MEDIUM,
    THIN,
    Line,
    Marks,
    Page,
    PaperName,
    Rect,
    Text,
    block_mm,
    moved,
)
from mastlayout.documents.rows import DrillBlock, HoleRow, SheetHead
from mastlayout.documents.sheet import FOOT_MM, SheetName, frame, tag_badge, title
from mastlayout.documents.spread import spread
from mastlayout.documents.walk import hold_of
from mastlayout.frozen import dataclass
from mastlayout.units import MM_PER_INCH, Units
from mastlayout.words import _

_TOP_MM, _HEAD_MM, _TAIL_MM = 30.0, 11.0, 3.0
_STRIP_MM, _STEP_MM, _SIDE_MM = 50.0, 53.0, 12.0
_LADDER_MM, _TAGS, _TAGS_MM, _MARK = 4.0, 14.6, 26.0, 44.0
_BAR_MM, _LABEL_STEP_MM = 100.0, 4.2


@dataclass(frozen=True)
class _Rule:
    """The tape's parts: mm of the smallest, how many a named line is apart, and a line between."""

    part_mm: float
    named: int
    between: int


_RULES: dict[Units, _Rule] = {"metric": _Rule(1.0, 10, 5), "inches": _Rule(MM_PER_INCH / 16, 16, 4)}


@dataclass(frozen=True)
class _Strip:
    """One strip: its readings at both ends, in parts of the tape, and the holes between."""

    block: DrillBlock
    low: int
    high: int
    rows: tuple[HoleRow, ...]


def strip_pages(head: SheetHead, blocks: Sequence[DrillBlock], paper: PaperName = "A4") -> list[Page]:
    """Return the strips in the order of the walk, 1:1 on every paper; none where no hole may be marked."""
    block, rule = block_mm(paper, landscape=True), _RULES[head.units]
    room = block[1] - FOOT_MM - _TOP_MM - _HEAD_MM - _TAIL_MM
    strips = [
        strip
        for own in blocks
        if own.rows and not own.fault
        for strip in _cut(own, rule, int(room / rule.part_mm))
    ]
    each = int((block[0] - _SIDE_MM + _STEP_MM - _STRIP_MM) / _STEP_MM)
    sheets = [strips[start : start + each] for start in range(0, len(strips), each)]
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("STRIPS"), number, len(sheets), is_map=True)
        marks = [*frame(head, name, "strips", block), *_head(head, block[0])]
        for count, strip in enumerate(sheet):
            marks += moved(_strip(strip, rule), count * _STEP_MM, _TOP_MM)
        pages.append(Page(paper, landscape=True, marks=tuple(marks)))
    return pages


def _cut(block: DrillBlock, rule: _Rule, room: int) -> Iterator[_Strip]:
    """Yield one strip for all holes of a fitting, or more: each lies at the tape's numbers by itself."""
    rows = sorted(block.rows, key=lambda row: row.height.masthead)
    while rows:
        low = (rows[0].height.masthead // rule.named - 1) * rule.named
        here = [row for row in rows if row.height.masthead + rule.between <= low + room]
        high = -(-here[-1].height.masthead // rule.named) * rule.named + rule.named
        yield _Strip(block, low, min(high, low + room), tuple(here))
        rows = rows[len(here) :]


def _head(head: SheetHead, width: float) -> Marks:
    yield from title(
        _("Tape strips 1:1, numbers on the tape's numbers, black edge to the masthead"), 14.4, width, 15
    )
    words = _("Lay each beside the tape, slide it until the numbers meet, strike a level line at each mark.")
    yield Text(0, 19.3, words, 8.2)
    day = _("{day} · plan mark {mark}").format(day=head.day, mark=head.plan_mark)
    yield Text(0, 24.5, day, 8.2)
    left, y = width - _BAR_MM - 8.0, 24.0
    yield Line(left, y, left + _BAR_MM, y, BOX)
    for x in (left, left + _BAR_MM):
        yield Line(x, y - 1.8, x, y + 1.8, MEDIUM)
    yield Text(left - 2.0, y + 1.0, _("100 mm"), 8.2, bold=True, anchor="end")
    right = width - 2.0
    yield Line(right, _TOP_MM, right, _TOP_MM + _BAR_MM, BOX)
    for y in (_TOP_MM, _TOP_MM + _BAR_MM):
        yield Line(right - 1.8, y, right + 1.8, y, MEDIUM)
    yield Text(right - 1.0, _TOP_MM + _BAR_MM + 5.0, _("100 mm"), 8.2, bold=True, anchor="end")


def _strip(strip: _Strip, rule: _Rule) -> Marks:
    block = strip.block
    tall = (strip.high - strip.low) * rule.part_mm
    yield Rect(0, 0, _STRIP_MM, _HEAD_MM + tall + _TAIL_MM, THIN, dash_mm=DASHED)
    yield Rect(0, 0, _STRIP_MM, 2.0, 0, 1.0)
    yield from tag_badge(0.8, 2.8, 11.0, 6.4, block.tag, 14)
    yield Text(13.0, 7.2, one_line(block.name, 8.6, _STRIP_MM - 14.0, bold=True), 8.6, bold=True)
    yield from moved(_ladder(strip, rule), 0.0, _HEAD_MM)
    yield from moved(_holes(strip, rule), 0.0, _HEAD_MM)


def _ladder(strip: _Strip, rule: _Rule) -> Marks:
    text = strip.rows[0].height.text
    for reading in range(strip.low, strip.high + 1, rule.between):
        y, named = (reading - strip.low) * rule.part_mm, reading % rule.named == 0
        yield Line(0, y, _LADDER_MM if named else _LADDER_MM / 2, y, MEDIUM if named else THIN)
        if named and reading >= 0:
            yield Text(_LADDER_MM + 0.8, y + 0.95, grouped(text(reading)), 7.6)


def _holes(strip: _Strip, rule: _Rule) -> Marks:
    """Yield a line at each reading that holes have, with their tags at its end."""
    heights: dict[int, list[HoleRow]] = {}
    for row in strip.rows:
        heights.setdefault(row.height.masthead, []).append(row)
    places = [(reading - strip.low) * rule.part_mm for reading in heights]
    tall = (strip.high - strip.low) * rule.part_mm
    for y, at, rows in zip(places, spread(places, _LABEL_STEP_MM, 2.0, tall), heights.values(), strict=True):
        words = _tags(rows, strip.block)
        size = fitting_pt(words, (9.5, 8.2, LEAST_PT), _TAGS_MM)
        yield Text(_TAGS, at + size * 0.127, words, size, bold=True)
        yield Line(_TAGS + _TAGS_MM + 0.8, at, _MARK, y, THIN)
        yield Line(_MARK, y, _STRIP_MM, y, BOX)


def _tags(rows: Sequence[HoleRow], block: DrillBlock) -> str:
    """Return the tags of one height, those that may not be drilled behind the others.

    Where they are too many for the strip the first stands and how many more.
    """
    free = [row.tag for row in rows if not hold_of(row, block)]
    held = [row.tag for row in rows if hold_of(row, block)]
    parts = [", ".join(free), _("{tags} STOP").format(tags=", ".join(held)) if held else ""]
    words = ", ".join(part for part in parts if part)
    if len(rows) == 1 or width_mm(words, LEAST_PT, bold=True) <= _TAGS_MM:
        return words
    few = _("{tag} and {n} more").format(tag=rows[0].tag, n=len(rows) - 1)
    return _("{tags} STOP").format(tags=few) if held else few
