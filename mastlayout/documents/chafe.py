"""The chafe sheet: each sail laid flat with its patches to scale, and where to measure each from."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.lettering import (
    fitting_pt,
    grouped,
    leading_mm,
    one_line,
    paragraph,
    reading,
    wrapped,
)
from mastlayout.documents.page import A3_ZOOM, THIN, Line, Marks, Page, PaperName, Rect, Text
from mastlayout.documents.rows import Chafe, ChafeRow, ChafeSail, SheetHead
from mastlayout.documents.sailpicture import PICTURE_MM, picture_mm, sail_picture
from mastlayout.documents.sheet import FOOT_MM, SheetName, column_heads, frame, title, written_lines
from mastlayout.frozen import dataclass
from mastlayout.words import _

_WIDTH_MM, _HEIGHT_MM = 190.0, 259.0
_HEAD_MM, _TOP_MM, _GROUP_MM, _GAP_MM = 24.6, 29.4, 5.3, 2.5
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM - 1.0
_NUMBER, _WHAT = PICTURE_MM + 4.5, PICTURE_MM + 7.0
_UP, _OUT, _LEECH, _PATCH = 134.5, 152.5, 170.5, 189.5
_WHAT_MM = _UP - 18.0 - _WHAT
_NAME_PT, _FIGURE_PT, _FINE_PT = 8.4, 9.5, 7.4
_LINE_MM = 4.1
_SIZE_MM = 18.2
_MOST_LINES = 4


@dataclass(frozen=True)
class _Block:
    """A sail, or so many of its patches as fit on a sheet; the first of them is ``first``."""

    sail: ChafeSail
    rows: tuple[ChafeRow, ...]
    first: int
    last: bool


def chafe_pages(head: SheetHead, chafe: Chafe, paper: PaperName = "A4") -> list[Page]:
    """Return the chafe sheet; nothing where there is no sail to speak of."""
    if not chafe.sails and not chafe.left_out:
        return []
    sheets = _sheets(chafe)
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("CHAFE"), number, len(sheets))
        marks = (
            *frame(head, name, "chafe", (_WIDTH_MM, _HEIGHT_MM)),
            *_sheet(head, chafe, sheet, last=number == len(sheets)),
        )
        pages.append(Page(paper, landscape=False, marks=marks, zoom=A3_ZOOM if paper == "A3" else 1.0))
    return pages


def _sheets(chafe: Chafe) -> list[list[_Block]]:
    sheets: list[list[_Block]] = [[]]
    room = _BOTTOM_MM - _TOP_MM
    left = room
    for sail in chafe.sails:
        for block in _blocks(sail, room):
            height = _block_mm(block)
            if sheets[-1] and height > left:
                sheets.append([])
                left = room
            sheets[-1].append(block)
            left -= height
    notes = sum(leading_mm(_NAME_PT) * len(_left_out(one)) for one in chafe.left_out)
    if sheets[-1] and notes > left:
        sheets.append([])
    return sheets


def _blocks(sail: ChafeSail, room: float) -> Iterator[_Block]:
    """Yield a sail in as few pieces as fit on a sheet each."""
    rows: list[ChafeRow] = []
    first = 0
    for number, row in enumerate(sail.rows):
        if rows and _block_mm(_Block(sail, (*rows, row), first, last=True)) > room:
            yield _Block(sail, tuple(rows), first, last=False)
            rows, first = [], number
        rows.append(row)
    yield _Block(sail, tuple(rows), first, last=True)


def _block_mm(block: _Block) -> float:
    table = _table_mm(block)
    return _GROUP_MM + max(table, picture_mm(block.sail, table)) + _GAP_MM


def _table_mm(block: _Block) -> float:
    notes = leading_mm(_FINE_PT) * len(_notes(block))
    return sum(_row_mm(row) for row in block.rows) + notes + 2.0


def _row_mm(row: ChafeRow) -> float:
    words = leading_mm(_NAME_PT) * len(_names(row)) + leading_mm(_FINE_PT)
    return max(words, _LINE_MM * max(len(row.up), len(row.out), len(row.size))) + 2.2


def _names(row: ChafeRow) -> list[Text]:
    return list(paragraph(0, 0, row.what, _WHAT_MM, _NAME_PT, bold=True, lines=_MOST_LINES))


def _notes(block: _Block) -> list[str]:
    """Return the lines below a sail's patches: what no patch helps against, and what it only rubs on."""
    if not block.last:
        return []
    words = []
    if block.sail.moved:
        words.append(
            _("No patch: move or guard it first, see FINDINGS: {what}.").format(
                what=_("; ").join(block.sail.moved)
            )
        )
    if block.sail.rubs:
        words.append(_("Only rubs, tape is enough: {what}.").format(what=_("; ").join(block.sail.rubs)))
    if not block.sail.rows:
        words.insert(0, _("Nothing to patch."))
    wide = _WIDTH_MM - PICTURE_MM - 3.0
    return [text.text for one in words for text in paragraph(0, 0, one, wide, _FINE_PT, lines=8)]


def _left_out(words: str) -> list[str]:
    return wrapped(words, _NAME_PT, _WIDTH_MM, bold=True)


def _sheet(head: SheetHead, chafe: Chafe, sheet: Sequence[_Block], *, last: bool) -> Marks:
    yield from title(_("Where sails chafe, and their patches"), 14.8, _WIDTH_MM)
    above, below, beside = chafe.margin
    unit = _("Feet and inches") if head.units == "inches" else _("Millimetres")
    words = _(
        "Patches reach {above} above, {below} below and {beside} beside where cloth lies on gear. {unit}; up "
        "the luff from the tack, up the leech from the clew; two figures are the two ends of where it lies."
    ).format(above=above, below=below, beside=beside, unit=unit)
    yield from paragraph(0, 19.4, words, _WIDTH_MM, 7.6, lines=2)
    yield from _column_heads()
    y = _TOP_MM
    for block in sheet:
        yield from _drawn(block, y)
        y += _block_mm(block)
    if last:
        for one in chafe.left_out:
            for line in _left_out(one):
                yield Text(0, y + 3.0, line, _NAME_PT, bold=True)
                y += leading_mm(_NAME_PT)
    yield from written_lines(y + 1.0, _BOTTOM_MM, _("Seen on the water:"), _WIDTH_MM)


def _column_heads() -> Marks:
    return column_heads(
        (0, _HEAD_MM, _WIDTH_MM, _HEAD_MM + 4.2),
        7.4,
        starts=((1.0, _("SAIL, FLAT, TO SCALE")), (_WHAT, _("PATCH FOR"))),
        ends=((_UP, _("UP LUFF")), (_OUT, _("OFF LUFF")), (_LEECH, _("UP LEECH")), (_PATCH, _("PATCH"))),
    )


def _drawn(block: _Block, top: float) -> Marks:
    sail = block.sail
    yield Rect(0, top, _WIDTH_MM, _GROUP_MM, 0, 0.1)
    name = _("{sail}, continued").format(sail=sail.name) if block.first else sail.name
    yield Text(1.0, top + 3.8, one_line(name, 10, 110.0, bold=True), 10, bold=True)
    yield Text(_WIDTH_MM - 1.0, top + 3.7, one_line(grouped(sail.facts), 8.2, 74.0), 8.2, anchor="end")
    numbers = range(block.first + 1, block.first + len(block.rows) + 1)
    yield from sail_picture(sail, numbers, top + _GROUP_MM, _table_mm(block))
    y = top + _GROUP_MM
    for number, row in zip(numbers, block.rows, strict=True):
        yield from _row(number, row, y)
        y += _row_mm(row)
        yield Line(PICTURE_MM, y, _WIDTH_MM, y, THIN)
    for line in _notes(block):
        y += leading_mm(_FINE_PT)
        yield Text(PICTURE_MM + 2.0, y, line, _FINE_PT)
    bottom = top + _block_mm(block) - _GAP_MM / 2
    yield Line(0, bottom, _WIDTH_MM, bottom, 0.7)


def _row(number: int, row: ChafeRow, y: float) -> Marks:
    yield Text(_NUMBER, y + 3.9, str(number), 10, bold=True, anchor="end")
    below = y + 3.8
    for text in _names(row):
        yield Text(_WHAT, below, text.text, _NAME_PT, bold=True)
        below += leading_mm(_NAME_PT)
    yield Text(_WHAT, below, one_line(row.when, _FINE_PT, _WHAT_MM), _FINE_PT)
    for x, figures, bold in ((_UP, row.up, True), (_OUT, row.out, True), (_LEECH, row.leech, False)):
        for count, figure in enumerate(figures):
            yield from reading(x, y + 3.9 + count * _LINE_MM, figure, _FIGURE_PT, bold=bold, anchor="end")
    for count, line in enumerate(grouped(line) for line in row.size):
        # A figure is never cut: it is written smaller.
        size = fitting_pt(line, (8.2, 7.6, 7.0), _SIZE_MM)
        yield Text(_PATCH, y + 3.9 + count * _LINE_MM, line, size, anchor="end")
