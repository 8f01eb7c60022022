"""The measure list: what the plan does not know, where to hold the tape, and a box for each answer."""

import math
from collections.abc import Sequence

from mastlayout.documents.lettering import leading_mm, one_line, paragraph, width_mm, wrapped
from mastlayout.documents.page import A3_ZOOM, MEDIUM, Line, Marks, Page, PaperName, Rect, Text, moved
from mastlayout.documents.pictures import picture
from mastlayout.documents.rows import Group, MeasureRow, SheetHead
from mastlayout.documents.sheet import (
    FOOT_MM,
    SheetName,
    column_heads,
    fill_in,
    frame,
    named_box,
    title,
    written_lines,
)
from mastlayout.frozen import dataclass
from mastlayout.units import Units
from mastlayout.words import _, ngettext

_WIDTH_MM, _HEIGHT_MM = 190.0, 259.0
_HEAD_MM, _ROWS_TOP_MM, _GROUP_MM, _ROW_MM = 29.1, 33.9, 5.3, 20.4
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM - 1.0
_PICTURE, _WHAT, _BLOCKS, _WITH, _WRITE = 9.0, 41.0, 105.0, 138.5, 163.0
_WHAT_MM, _BLOCKS_MM, _WITH_MM = _BLOCKS - _WHAT - 2.0, _WITH - _BLOCKS - 2.0, _WRITE - _WITH - 1.0
_BOX_WIDTH_MM, _BOX_MM = _WIDTH_MM - _WRITE, 6.0
_TITLE_PT, _HOW_PT, _BLOCKS_PT = 10.5, 8.2, 8.2
_MOST_BLOCK_LINES = 8


@dataclass(frozen=True)
class _Numbered:
    row: MeasureRow
    number: int


def measure_pages(head: SheetHead, rows: Sequence[MeasureRow], paper: PaperName = "A4") -> list[Page]:
    """Return the measure list; one sheet that says so where nothing is missing."""
    sheets = _sheets(rows)
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("MEASURE FIRST"), number, len(sheets))
        marks = (*frame(head, name, "measure", (_WIDTH_MM, _HEIGHT_MM)), *_sheet(head, sheet, len(rows)))
        pages.append(Page(paper, landscape=False, marks=marks, zoom=zoom))
    return pages


def _sheets(rows: Sequence[MeasureRow]) -> list[list[_Numbered]]:
    sheets: list[list[_Numbered]] = [[]]
    for number, row in enumerate(rows, 1):
        if sheets[-1] and _ROWS_TOP_MM + _height_mm([*sheets[-1], _Numbered(row, number)]) > _BOTTOM_MM:
            sheets.append([])
        sheets[-1].append(_Numbered(row, number))
    return sheets


def _height_mm(rows: Sequence[_Numbered]) -> float:
    groups = {item.row.group for item in rows}
    return len(groups) * _GROUP_MM + sum(_row_mm(item.row) for item in rows)


def _row_mm(row: MeasureRow) -> float:
    words = 6.0 + 4.6 * (len(wrapped(row.title, _TITLE_PT, _WHAT_MM, bold=True)) - 1)
    words += leading_mm(_HOW_PT) * len(wrapped(row.how, _HOW_PT, _WHAT_MM)) + 1.5
    blocks = 3.0 + leading_mm(_BLOCKS_PT) * len(_blocks(row))
    tools = 9.0 + leading_mm(_HOW_PT) * len(wrapped(row.tool, _HOW_PT, _WITH_MM))
    boxes = 2.4 + _BOX_MM * _box_rows(row)
    return max(_ROW_MM, words, blocks, tools, boxes)


def _blocks(row: MeasureRow) -> list[Text]:
    return list(paragraph(0, 0, row.blocks, _BLOCKS_MM, _BLOCKS_PT, bold=True, lines=_MOST_BLOCK_LINES))


def _box_rows(row: MeasureRow) -> int:
    return math.ceil(max(len(row.boxes), 1) / _columns(row))


def _columns(row: MeasureRow) -> int:
    """Return 2 where more than three boxes have names short enough to stand side by side."""
    wide = max((width_mm(name, 7.2) for name in row.boxes), default=0.0)
    return 2 if len(row.boxes) > 3 and wide <= _BOX_WIDTH_MM / 2 - 2.0 else 1


def _sheet(head: SheetHead, sheet: Sequence[_Numbered], count: int) -> Marks:
    yield from title(_title(count), 15.7, _WIDTH_MM)
    yield Text(
        0,
        20.3,
        _(
            "Until its box holds a number the plan draws nothing there and frees no hole. "
            "Look and find nothing? Write “none”."
        ),
        8.2,
    )
    yield from _fill_ins(head)
    yield from _column_heads()
    y, group = _ROWS_TOP_MM, None
    for item in sheet:
        if item.row.group != group:
            group = item.row.group
            yield Rect(0, y, _WIDTH_MM, _GROUP_MM, 0, 0.1)
            yield Text(1.0, y + 3.7, _group_words(group), 9, bold=True)
            y += _GROUP_MM
        yield from _row(item, y, head.units)
        y += _row_mm(item.row)
        yield Line(0, y, _WIDTH_MM, y, 0.7 if item is sheet[-1] else MEDIUM)
    yield from written_lines(y + 1.0, _BOTTOM_MM, _("Also seen:"), _WIDTH_MM)


def _title(count: int) -> str:
    words = [
        _("No"), _("One"), _("Two"), _("Three"), _("Four"), _("Five"), _("Six"), _("Seven"), _("Eight"),
        _("Nine"), _("Ten"), _("Eleven"), _("Twelve"),
    ]  # fmt: skip
    number = words[count] if count < len(words) else str(count)
    return ngettext(
        "{number} thing the plan does not know", "{number} things the plan does not know", count
    ).format(number=number)


def _group_words(group: Group) -> str:
    return {
        "standing": _("WHILE THE MAST STANDS"),
        "trestles": _("ON TRESTLES"),
        "chair": _("FROM THE CHAIR, before the crane or after it"),
    }[group]


def _fill_ins(head: SheetHead) -> Marks:
    yield from fill_in(0, 25.7, _("Measured by"), 60.0)
    yield from fill_in(64.0, 25.7, _("day"), 95.0)
    yield from fill_in(99.0, 25.7, _("shed"), 118.0)
    yield Text(118.8, 25.7, "°F" if head.units == "inches" else "°C", 7.6)
    unit = _("feet and inches") if head.units == "inches" else _("mm")
    words = _("{unit}, from the masthead unless said").format(unit=unit)
    yield Text(_WIDTH_MM, 25.7, words, 7.6, anchor="end")
    if head.units == "inches":
        thin = _("walls, wires as 0.165 in")
        yield Text(_WIDTH_MM, 22.3, thin, 7.6, anchor="end")


def _column_heads() -> Marks:
    return column_heads(
        (0, _HEAD_MM, _WIDTH_MM, _ROWS_TOP_MM),
        starts=(
            (_PICTURE + 1.0, _("WHERE")),
            (_WHAT, _("MEASURE")),
            (_BLOCKS, _("IT BLOCKS")),
            (_WITH, _("WITH")),
            (_WRITE + 0.5, _("WRITE")),
        ),
    )


def _row(item: _Numbered, y: float, units: Units) -> Marks:
    row, height = item.row, _row_mm(item.row)
    yield Text(4.2, y + 7.4, str(item.number), 15, bold=True, anchor="middle")
    yield from moved(picture(row.picture), _PICTURE, y + 1.2)
    below = y + 4.3
    for text in paragraph(_WHAT, below, row.title, _WHAT_MM, _TITLE_PT, bold=True):
        yield text
        below = text.y + 4.5
    yield from paragraph(_WHAT, below, row.how, _WHAT_MM, _HOW_PT)
    yield from moved(_blocks(row), _BLOCKS, y + 4.3)
    yield from paragraph(_WITH, y + 4.3, row.tool, _WITH_MM, _HOW_PT)
    tolerance = one_line(_tolerance(row.tolerance, units), 11, _WITH_MM, bold=True)
    yield Text(_WITH, y + height - 2.4, tolerance, 11, bold=True)
    yield from _boxes(row, y, height)


def _tolerance(tolerance: str, units: Units) -> str:
    """Return a tolerance; its millimetres are named where the boxes are filled in feet and inches."""
    if units == "metric" or not tolerance[-1:].isdigit():
        return tolerance
    return _("{tolerance} mm").format(tolerance=tolerance)


def _boxes(row: MeasureRow, y: float, height: float) -> Marks:
    """Yield the boxes to write in, one beside the other where there are more than three."""
    names = row.boxes or ("",)
    columns = _columns(row)
    rows = math.ceil(len(names) / columns)
    wide, tall = _BOX_WIDTH_MM / columns, (height - 2.4) / rows
    for count in range(columns * rows):
        down, across = divmod(count, columns)
        name = names[count] if count < len(names) else ""
        yield from named_box(_WRITE + across * wide, y + 1.2 + down * tall, wide, tall, name)
