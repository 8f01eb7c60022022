"""The sheet of heights: where each new fitting might go, what each place gives it, which and why."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.echolanes import echo_lanes, lanes_height_mm, place_letter
from mastlayout.documents.heightcurves import CURVES_MM, height_curves
from mastlayout.documents.lettering import (
    grouped,
    leading_mm,
    one_line,
    paragraph,
    reading,
    width_mm,
    wrapped,
)
from mastlayout.documents.page import (
    A3_ZOOM,
    MEDIUM,
    THIN,
    Line,
    Mark,
    Marks,
    Page,
    PaperName,
    Rect,
    Text,
    moved,
)
from mastlayout.documents.rows import Heights, PlaceRow, Placing, SheetHead
from mastlayout.documents.sheet import (
    BAR_MM,
    FOOT_MM,
    SheetName,
    cautions,
    frame,
    tag_badge,
    title,
    written_lines,
)
from mastlayout.frozen import dataclass
from mastlayout.words import _

_WIDTH_MM, _HEIGHT_MM = 259.0, 190.0
_TOP_MM, _BOTTOM_MM = BAR_MM + 12.4, _HEIGHT_MM - FOOT_MM - 1.6
_BAND_MM, _HEAD_MM, _ROW_MM, _GAP_MM = 7.2, 8.4, 7.2, 3.4
_REASON_PT, _CELL_PT, _SAID_PT, _HEAD_PT = 9.0, 9.0, 7.4, 7.4
# The left edges of the columns that all have: letter, place, from the masthead; figures follow.
_PLACE, _PLACE_MM, _MASTHEAD_END, _FIGURES = 6.0, 36.0, 58.0, 59.0
_LINE_MM, _BETWEEN_MM = 3.2, 3.6
# So many places have their echo drawn side by side.
_DRAWN = 3
# Where name, formula, inputs and source of a figure begin.
_WORKED_MM = (0.0, 52.0, 120.0, 186.0)
_ASKED_MM = (0.0, 17.0, 66.0, 96.0, 118.0)


@dataclass(frozen=True)
class _Piece:
    """What is set as one, and how high it is; ``asks`` for a choice to be written down."""

    height: float
    marks: tuple[Mark, ...]
    asks: bool = False


def heights_pages(head: SheetHead, heights: Heights | None, paper: PaperName = "A4") -> list[Page]:
    """Return the sheet, a page for each reflector; none where nothing new has a height to choose."""
    if heights is None:
        return []
    sheets = _filled(list(_pieces(heights)))
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, pieces in enumerate(sheets, 1):
        name = SheetName(_("HEIGHTS"), number, len(sheets))
        marks = [*frame(head, name, "heights", (_WIDTH_MM, _HEIGHT_MM))]
        words = _("Where it goes, and why") if number == 1 else _("Where it goes, and why, continued")
        marks += title(words, BAR_MM + 8.4, _WIDTH_MM)
        y = _TOP_MM
        for piece in pieces:
            marks += moved(piece.marks, 0.0, y)
            y += piece.height
        if any(piece.asks for piece in pieces):
            marks += written_lines(y + 2.0, _BOTTOM_MM, _("Chosen, and why:"), _WIDTH_MM)
        else:
            marks += written_lines(y + 2.0, _BOTTOM_MM, _("Notes:"), _WIDTH_MM)
        pages.append(Page(paper, landscape=True, marks=tuple(marks), zoom=zoom))
    return pages


def _filled(pieces: Sequence[_Piece]) -> list[list[_Piece]]:
    """Fill sheets from the top; a piece never splits."""
    sheets: list[list[_Piece]] = [[]]
    y = _TOP_MM
    for piece in pieces:
        if sheets[-1] and y + piece.height > _BOTTOM_MM:
            sheets.append([])
            y = _TOP_MM
        sheets[-1].append(piece)
        y += piece.height
    return sheets


def _pieces(heights: Heights) -> Iterator[_Piece]:
    for placing in heights.placings:
        yield _placing(placing)
        drawn = [row for row in placing.places if row.lanes]
        if drawn:
            yield _side_by_side(drawn)
        if placing.asked:
            yield _asked(placing, heights)
    yield from _worked(heights)


# -- one fitting


def _placing(placing: Placing) -> _Piece:
    marks: list[Mark] = [Rect(0, 0, _WIDTH_MM, _BAND_MM - 0.6, 0, 0.1)]
    x = 2.0
    if placing.tag:
        marks += tag_badge(0, 0, 13.0, _BAND_MM - 0.6, placing.tag, 13.0)
        x = 15.0
    marks.append(Text(x, 4.9, one_line(placing.name, 12.5, _WIDTH_MM - x, bold=True), 12.5, bold=True))
    y = _BAND_MM + 3.6
    for sentence in placing.reasons:
        lines = list(
            paragraph(0, y, grouped(sentence), _WIDTH_MM, _REASON_PT, bold=sentence is placing.reasons[0])
        )
        marks += lines
        y += len(lines) * leading_mm(_REASON_PT)
    y += -1.6
    marks += moved(_heads(placing), 0.0, y)
    y += _HEAD_MM
    for row in placing.places:
        height = _row_mm(row, placing)
        marks += moved(_row(row, placing, height), 0.0, y)
        y += height
    return _Piece(y + _GAP_MM, tuple(marks), asks=True)


def _columns(placing: Placing) -> list[float]:
    """Return where each column of figures ends: it is as wide as its widest cell, and a gap."""
    ends, x = [], _FIGURES
    for count, heads in enumerate(placing.heads):
        wide = [width_mm(words, _HEAD_PT, bold=True) for words in heads]
        wide += [width_mm(row.cells[count], _CELL_PT) for row in placing.places]
        x += max(wide) + _BETWEEN_MM
        ends.append(x)
    return ends


def _heads(placing: Placing) -> Marks:
    yield Rect(0, 0, _WIDTH_MM, _HEAD_MM, 0, 1.0)
    ends = _columns(placing)
    yield Text(_PLACE, 3.5, _("PLACE"), _HEAD_PT, bold=True, white=True)
    yield Text(_PLACE, 6.9, _("black letter: free of faults"), _HEAD_PT, white=True)
    yield Text(_MASTHEAD_END, 3.5, _("MASTHEAD"), _HEAD_PT, bold=True, anchor="end", white=True)
    for end, (words, under) in zip(ends, placing.heads, strict=True):
        yield Text(end, 3.5, words, _HEAD_PT, bold=True, anchor="end", white=True)
        yield Text(end, 6.9, under, _HEAD_PT, anchor="end", white=True)
    yield Text(ends[-1] + 3.0, 3.5, _("WHAT IS FOUND THERE"), _HEAD_PT, bold=True, white=True)


def _said_lines(row: PlaceRow, placing: Placing) -> list[str]:
    return wrapped(row.said, _SAID_PT, _WIDTH_MM - _columns(placing)[-1] - 3.0)


def _row_mm(row: PlaceRow, placing: Placing) -> float:
    lines = max(len(_said_lines(row, placing)), len(_place_lines(row)))
    return max(_ROW_MM, 2.6 + _LINE_MM * lines)


def _place_lines(row: PlaceRow) -> list[str]:
    # Feet, inches and a fraction reach farther to the left than millimetres.
    room = _MASTHEAD_END - width_mm(row.height, _CELL_PT + 2.0, bold=True) - 2.0 - _PLACE
    return [*wrapped(row.place, _CELL_PT, min(_PLACE_MM, room), bold=row.free), row.round]


def _row(row: PlaceRow, placing: Placing, height: float) -> Marks:
    base = 4.6
    yield from place_letter(0, base, row)
    *names, where = _place_lines(row)
    for count, words in enumerate(names):
        yield Text(_PLACE, base + count * 3.6, words, _CELL_PT, bold=row.free)
    yield Text(_PLACE, base + len(names) * 3.4, where, _SAID_PT)
    yield from reading(_MASTHEAD_END, base, row.height, _CELL_PT + 2.0, bold=True, anchor="end")
    ends = _columns(placing)
    for end, cell in zip(ends, row.cells, strict=True):
        yield Text(end, base, cell, _CELL_PT, anchor="end")
    lines = _said_lines(row, placing)
    for count, words in enumerate(lines):
        yield Text(
            ends[-1] + 3.0, base - (0.8 if len(lines) > 1 else 0.0) + count * _LINE_MM, words, _SAID_PT
        )
    yield Line(0, height, _WIDTH_MM, height, THIN)


# -- higher and fading, side by side


def _side_by_side(drawn: Sequence[PlaceRow]) -> _Piece:
    """Set the echo of some places beside each other, the higher first."""
    width = (_WIDTH_MM - 6.0 * (_DRAWN - 1)) / _DRAWN
    words = _(
        "Echo in X band over a smooth sea, higher beside lower. Black: less than a tenth comes back. "
        "Hatched: past the radar horizon. Triangle: first seen, an estimate."
    )
    marks: list[Mark] = [Text(0, 3.0, words, _SAID_PT)]
    for count, row in enumerate(drawn[:_DRAWN]):
        marks += echo_lanes(row, count * (width + 6.0), 5.0, width)
    return _Piece(5.0 + max(map(lanes_height_mm, drawn)) + 1.0, tuple(marks))


# -- what is asked, and how it is all found


def _asked(placing: Placing, heights: Heights) -> _Piece:
    """Set what a published rule asks of a reflector beside the ranges by height."""
    words = _("{name}: what MSC.164(78) and ISO 8729-1 ask, as planned").format(name=placing.name)
    marks: list[Mark] = [Text(0, 4.0, one_line(words, 10.5, 150.0, bold=True), 10.5, bold=True)]
    y, width = 8.6, 150.0
    for row in placing.asked:
        cells = [
            wrapped(cell, 8.0, wide, bold=not count)
            for count, (cell, wide) in enumerate(zip(row, _wide(width), strict=True))
        ]
        for x, lines in zip(_ASKED_MM, cells, strict=True):
            marks += [Text(x, y + count * 3.3, line, 8.0, bold=not x) for count, line in enumerate(lines)]
        high = 3.3 * max(map(len, cells)) + 1.9
        marks.append(Line(0, y + high - 3.9, width, y + high - 3.9, THIN))
        y += high
    marks += paragraph(0, y + 1.0, " ".join(cautions("heights", "echo")), width, 8.4, bold=True)
    marks += height_curves(heights, placing, 158.0, 0.0)
    return _Piece(max(y + 8.0, CURVES_MM), tuple(marks))


def _wide(width: float) -> list[float]:
    ends = [*_ASKED_MM[1:], width]
    return [end - start - 2.0 for start, end in zip(_ASKED_MM, ends, strict=True)]


def _worked(heights: Heights) -> Iterator[_Piece]:
    words = _("How each figure is found, as planned: formula and result, what went in, whose formula")
    marks: list[Mark] = [Text(0, 4.0, words, 10.5, bold=True)]
    marks.append(Line(0, 5.8, _WIDTH_MM, 5.8, MEDIUM))
    yield _Piece(7.0, tuple(marks))
    ends = [*_WORKED_MM[1:], _WIDTH_MM]
    for one in heights.worked:
        cells = [
            wrapped(grouped(cell), 7.4, end - start - 2.5, bold=not start)
            for start, end, cell in zip(_WORKED_MM, ends, one, strict=True)
        ]
        row = [
            Text(x, 3.0 + count * 3.1, words, 7.4, bold=not x)
            for x, lines in zip(_WORKED_MM, cells, strict=True)
            for count, words in enumerate(lines)
        ]
        high = 3.1 * max(map(len, cells)) + 1.7
        yield _Piece(high, (*row, Line(0, high - 0.5, _WIDTH_MM, high - 0.5, THIN)))
