"""The sheet of lights and antennas: what each sees round the compass, what the rules ask of lights."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.compass import compass
from mastlayout.documents.lettering import one_line
from mastlayout.documents.page import A3_ZOOM, MEDIUM, THIN, Line, Mark, Page, PaperName, Text
from mastlayout.documents.rows import Lights, SheetHead
from mastlayout.documents.sheet import BAR_MM, FOOT_MM, SheetName, frame, title
from mastlayout.ranges.ring_words import nothing
from mastlayout.words import _

_WIDTH_MM, _HEIGHT_MM = 190.0, 259.0
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM - 2.0
_TITLE_MM, _TOP_MM = BAR_MM + 9.0, BAR_MM + 14.0
_RADIUS_MM = 48.0
_CENTRE_MM = (_WIDTH_MM / 2, _TOP_MM + _RADIUS_MM + 8.0)
_LINES_MM = _CENTRE_MM[1] + _RADIUS_MM + 12.0
_PITCH_MM, _PT = 4.2, 8.0
# Where each column of the table ends; the first two begin at 0 and 47.
_ENDS_MM = (0.0, 47.0, 88.0, 108.0, 127.0, 149.0, 170.0, 190.0)
_WRITTEN = 2
# Where number and title begin, and letter and line under them.
_NUMBERED_MM = ((0.0, 5.0), (5.0, 9.0))


def lights_pages(head: SheetHead, lights: Lights | None, paper: PaperName = "A4") -> list[Page]:
    """Return the sheet, as many pages as its lines need; none where there is no light and no antenna."""
    if lights is None:
        return []
    sheets = _sheets([*_lines(lights), *_table(lights)])
    pages = []
    for number, lines in enumerate(sheets, 1):
        name = SheetName(_("LIGHTS"), number, len(sheets))
        marks = [*frame(head, name, "lights", (_WIDTH_MM, _HEIGHT_MM))]
        marks += title(_("What lights and antennas see"), _TITLE_MM, _WIDTH_MM)
        if number == 1:
            marks += compass(lights.rings, _CENTRE_MM, _RADIUS_MM)
        y = _LINES_MM if number == 1 else _TOP_MM
        for line in lines:
            marks += _set(line, y)
            y += _PITCH_MM
        zoom = A3_ZOOM if paper == "A3" else 1.0
        pages.append(Page(paper, landscape=False, marks=tuple(marks), zoom=zoom))
    return pages


# A line is what is set in each of the table's columns, or a number or letter and its words.
_Line = tuple[tuple[str, ...], bool]


def _sheets(lines: Sequence[_Line]) -> list[list[_Line]]:
    first = int((_BOTTOM_MM - _LINES_MM) / _PITCH_MM)
    further = int((_BOTTOM_MM - _TOP_MM) / _PITCH_MM)
    sheets, rest = [list(lines[:first])], list(lines[first:])
    while rest:
        sheets.append(rest[:further])
        rest = rest[further:]
    return sheets


def _lines(lights: Lights) -> Iterator[_Line]:
    yield (
        ("", _("Ahead is up. Hatched: something stands before it. Black: dark. R red, G green, W white.")),
        False,
    )
    for one in lights.rings:
        yield (f"{one.number}", one.title), True
        for item in one.things:
            yield (f"{item.letter}", item.line), False
        if not one.things:
            yield ("", nothing()), False


def _table(lights: Lights) -> Iterator[_Line]:
    yield ("", ""), False
    yield (
        _("Light"), _("shows"), _("needed NM"), _("plate NM"), _("gunwale {unit}").format(unit=lights.unit),
        _("leans aft"), _("band left"),
    ), True  # fmt: skip
    for row in lights.rows:
        yield row, False


def _set(line: _Line, y: float) -> list[Mark]:
    cells, bold = line
    if len(cells) == len(_NUMBERED_MM):
        x, words = _NUMBERED_MM[0 if bold else 1]
        return [
            Text(x, y, cells[0], _PT, bold=True),
            Text(words, y, one_line(cells[1], _PT, _WIDTH_MM - words, bold=bold), _PT, bold=bold),
        ]
    marks: list[Mark] = [Line(0, y + 1.2, _WIDTH_MM, y + 1.2, MEDIUM if bold else THIN)]
    for i, cell in enumerate(cells):
        if i < _WRITTEN:
            wide = _ENDS_MM[i + 1] - _ENDS_MM[i] - 2.0 if i == 0 else 40.0
            marks.append(Text(_ENDS_MM[i], y, one_line(cell, _PT, wide, bold=bold), _PT, bold=bold))
        else:
            marks.append(Text(_ENDS_MM[i + 1], y, cell, _PT, bold=bold, anchor="end"))
    return marks
