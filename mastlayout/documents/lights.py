"""The sheet of lights and antennas: what each sees round the compass, what the rules ask of lights."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.compass import compass
from mastlayout.documents.lettering import one_line, wrapped
from mastlayout.documents.page import A3_ZOOM, MEDIUM, THIN, Line, Marks, Page, PaperName, Text
from mastlayout.documents.rows import Lights, SheetHead
from mastlayout.documents.sheet import BAR_MM, FOOT_MM, SheetName, frame, title, written_lines
from mastlayout.frozen import dataclass
from mastlayout.ranges.ring_words import Numbered, nothing
from mastlayout.words import _

_WIDTH_MM, _HEIGHT_MM = 190.0, 259.0
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM - 1.0
_TITLE_MM, _TOP_MM = BAR_MM + 9.0, BAR_MM + 14.0
_RADIUS_MM = 56.0
_CENTRE_MM = (_WIDTH_MM / 2, _TOP_MM + _RADIUS_MM + 6.0)
_LEGEND_MM = _CENTRE_MM[1] + _RADIUS_MM + 11.0
_PITCH_MM, _PT = 4.0, 8.0
# The list stands in two columns: where number and title begin in each, and letter and line under them.
_COLUMN_MM, _BETWEEN_MM = 93.0, 4.0
_NUMBERED_MM = ((0.0, 5.0), (5.0, 9.0))
# Where each column of the table ends; the first two begin at 0 and 47.
_ENDS_MM = (0.0, 47.0, 88.0, 108.0, 127.0, 149.0, 170.0, 190.0)
_WRITTEN = 2
_ROW_MM, _HEADS_MM = 4.2, 6.2


@dataclass(frozen=True)
class _Line:
    """A line of the list: a number or letter, or none where words go on, and its words."""

    sign: str
    words: str
    bold: bool


@dataclass(frozen=True)
class _Sheet:
    """What stands on one page: two columns of lines, and rows of the table."""

    columns: tuple[list[_Line], list[_Line]]
    rows: tuple[tuple[str, ...], ...]


def lights_pages(head: SheetHead, lights: Lights | None, paper: PaperName = "A4") -> list[Page]:
    """Return the sheet, as many pages as its lines need; none where there is no light and no antenna."""
    if lights is None:
        return []
    sheets = _sheets(lights)
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("LIGHTS"), number, len(sheets))
        words = _("What lights and antennas see")
        marks = [*frame(head, name, "lights", (_WIDTH_MM, _HEIGHT_MM))]
        marks += title(
            words if number == 1 else _("{title}, continued").format(title=words), _TITLE_MM, _WIDTH_MM
        )
        if number == 1:
            legend = _(
                "Ahead is up. Hatched: something stands before it. Black: dark. R red, G green, W white."
            )
            marks += compass(lights.rings, _CENTRE_MM, _RADIUS_MM)
            marks.append(Text(_WIDTH_MM / 2, _LEGEND_MM, legend, _PT, anchor="middle"))
        marks += _drawn(sheet, lights, _first_mm(number))
        zoom = A3_ZOOM if paper == "A3" else 1.0
        pages.append(Page(paper, landscape=False, marks=tuple(marks), zoom=zoom))
    return pages


def _first_mm(number: int) -> float:
    """Return where a page's list begins."""
    return _LEGEND_MM + 6.4 if number == 1 else _TOP_MM + 1.0


# -- what stands on which page


def _sheets(lights: Lights) -> list[_Sheet]:
    """Fill pages: two columns each, of even length on the last, and the table under them with its heads."""
    sheets: list[_Sheet] = []
    rest = [_block(one) for one in lights.rings]
    rows = lights.rows
    while rest or rows:
        room = _BOTTOM_MM - _first_mm(len(sheets) + 1)
        most = int(room / _PITCH_MM)
        even = next((n for n in range(1, most + 1) if not _split(rest, n)[2]), most) if rest else 0
        left, right, rest = _split(rest, even)
        fit = 0 if rest else int((room - even * _PITCH_MM - _HEADS_MM) / _ROW_MM)
        # A table goes on over the page only where no page holds it.
        told = rows[: max(fit, 0)] if fit >= len(rows) or not even else ()
        sheets.append(_Sheet((left, right), told))
        rows = rows[len(told) :]
    return sheets


_Block = list[_Line]


def _split(blocks: Sequence[_Block], most: int) -> tuple[_Block, _Block, list[_Block]]:
    """Return two columns of at most so many lines, and what is left; only what fills a column is parted."""
    columns: tuple[_Block, _Block] = ([], [])
    rest = [part for block in blocks for part in _parts(block, most)]
    for column in columns:
        while rest and len(column) + len(rest[0]) <= most:
            column.extend(rest.pop(0))
    return *columns, rest


def _parts(block: _Block, most: int) -> Iterator[_Block]:
    longest = int((_BOTTOM_MM - _first_mm(2)) / _PITCH_MM)
    step = most if len(block) > longest else len(block)
    yield from (block[start : start + step] for start in range(0, len(block), step))


def _block(one: Numbered) -> _Block:
    """Return a ring's title and what stands in its way, wrapped."""
    lines = list(_wrapped(str(one.number), one.title, bold=True))
    for item in one.things:
        lines += _wrapped(item.letter, item.line, bold=False)
    return lines if one.things else [*lines, _Line("", nothing(), bold=False)]


def _wrapped(sign: str, words: str, *, bold: bool) -> Iterator[_Line]:
    start = _NUMBERED_MM[0 if bold else 1][1]
    for count, line in enumerate(wrapped(words, _PT, _COLUMN_MM - start, bold=bold)):
        yield _Line("" if count else sign, line, bold)


# -- drawn


def _drawn(sheet: _Sheet, lights: Lights, top: float) -> Marks:
    for count, column in enumerate(sheet.columns):
        left = count * (_COLUMN_MM + _BETWEEN_MM)
        for row, line in enumerate(column):
            x, words = _NUMBERED_MM[0 if line.bold else 1]
            y = top + row * _PITCH_MM
            if line.sign:
                yield Text(left + x, y, line.sign, _PT, bold=True)
            yield Text(left + words, y, line.words, _PT, bold=line.bold)
    y = top + max(map(len, sheet.columns)) * _PITCH_MM
    if sheet.rows:
        yield from _table(sheet.rows, lights.unit, y + 2.0)
        y += _HEADS_MM + len(sheet.rows) * _ROW_MM
    yield from written_lines(y, _BOTTOM_MM, _("Seen by night:"), _WIDTH_MM)


def _table(rows: Sequence[tuple[str, ...]], unit: str, y: float) -> Marks:
    heads = (
        _("Light"), _("shows"), _("needed NM"), _("plate NM"), _("gunwale {unit}").format(unit=unit),
        _("leans aft"), _("band left"),
    )  # fmt: skip
    for count, cells in enumerate((heads, *rows)):
        yield from _cells(cells, y + count * _ROW_MM, bold=not count)


def _cells(cells: Sequence[str], y: float, *, bold: bool) -> Marks:
    yield Line(0, y + 1.2, _WIDTH_MM, y + 1.2, MEDIUM if bold else THIN)
    for i, cell in enumerate(cells):
        if i < _WRITTEN:
            wide = _ENDS_MM[i + 1] - _ENDS_MM[i] - 2.0 if i == 0 else 40.0
            yield Text(_ENDS_MM[i], y, one_line(cell, _PT, wide, bold=bold), _PT, bold=bold)
        else:
            yield Text(_ENDS_MM[i + 1], y, cell, _PT, bold=bold, anchor="end")
