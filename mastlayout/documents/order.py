"""The order sheet: what to buy, by size and with spares, and two boxes for each: ordered, in hand."""

from collections.abc import Sequence

from mastlayout.documents.lettering import grouped, one_line, wrapped
from mastlayout.documents.page import A3_ZOOM, THIN, Line, Marks, Page, PaperName, Rect, Text
from mastlayout.documents.rows import OrderRow, SheetHead
from mastlayout.documents.sheet import FOOT_MM, SheetName, column_heads, frame, tick_box, title, written_lines
from mastlayout.documents.tables import GROUPS
from mastlayout.frozen import dataclass
from mastlayout.words import _, ngettext

_WIDTH_MM, _HEIGHT_MM = 190.0, 259.0
_HEAD_MM, _ROWS_TOP_MM, _GROUP_MM, _ROW_MM, _BOX_MM = 22.6, 27.4, 5.6, 8.0, 5.6
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM - 1.0
# The columns' left edges, mm; numbers stand at the right end of theirs.
_BUY_END, _UNIT, _WHAT, _SIZE, _NEED_END, _TAGS, _STATE, _ORDERED, _HAND = (
    12.0, 12.8, 20.0, 72.0, 120.0, 123.0, 141.0, 169.6, 181.4
)  # fmt: skip
_WHAT_PT, _WORDS_PT, _LEAST_PT, _LINE_MM = 9.5, 8.2, 7.2, 3.3


@dataclass(frozen=True)
class _Piece:
    """A heading, or a row with its words already wrapped."""

    height: float
    heading: str = ""
    row: OrderRow | None = None


def order_pages(head: SheetHead, rows: Sequence[OrderRow], paper: PaperName = "A4") -> list[Page]:
    """Return the order sheet; none where nothing is bought."""
    sheets = _sheets(_pieces(rows))
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("ORDER"), number, len(sheets))
        marks = (*frame(head, name, "order", (_WIDTH_MM, _HEIGHT_MM)), *_sheet(head, sheet, rows))
        pages.append(Page(paper, landscape=False, marks=marks, zoom=zoom))
    return pages


def _pieces(rows: Sequence[OrderRow]) -> list[_Piece]:
    pieces: list[_Piece] = []
    for group, words in GROUPS.items():
        own = [row for row in rows if row.group == group]
        if own:
            pieces.append(_Piece(_GROUP_MM, words.upper()))
            pieces += [_Piece(_row_mm(row), row=row) for row in own]
    return pieces


def _cells(row: OrderRow) -> tuple[tuple[float, list[str], float, bool], ...]:
    """Return the columns of words of a row: left edge, lines, size and weight."""
    return (
        (_WHAT, wrapped(row.what, _WHAT_PT, _SIZE - _WHAT - 2.0, bold=True), _WHAT_PT, True),
        (_SIZE, wrapped(row.size, _WORDS_PT, _NEED_END - _SIZE - 9.0), _WORDS_PT, False),
        (_TAGS, wrapped(row.for_, _WORDS_PT, _STATE - _TAGS - 1.5), _WORDS_PT, False),
        (_STATE, wrapped(row.state, _WORDS_PT, _ORDERED - _STATE - 2.0), _WORDS_PT, False),
    )


def _row_mm(row: OrderRow) -> float:
    lines = max(len(lines) for _x, lines, _size, _bold in _cells(row))
    return max(_ROW_MM, 3.0 + _LINE_MM * lines)


def _sheets(pieces: Sequence[_Piece]) -> list[list[_Piece]]:
    """Fill sheets down to the foot; a heading goes over with the first row it stands for."""
    sheets: list[list[_Piece]] = [[]] if pieces else []
    y, heading = _ROWS_TOP_MM, ""
    for count, piece in enumerate(pieces):
        follows = pieces[count + 1].height if piece.heading and count + 1 < len(pieces) else 0.0
        if sheets[-1] and y + piece.height + follows > _BOTTOM_MM:
            sheets.append([])
            y = _ROWS_TOP_MM
            if not piece.heading:
                sheets[-1].append(_Piece(_GROUP_MM, _("{group}, CONTINUED").format(group=heading)))
                y += _GROUP_MM
        heading = piece.heading or heading
        sheets[-1].append(piece)
        y += piece.height
    return sheets


def _sheet(head: SheetHead, sheet: Sequence[_Piece], rows: Sequence[OrderRow]) -> Marks:
    yield from title(_("What to buy, with spares"), 14.8, _WIDTH_MM)
    yield Text(0, 19.8, _summary(head, rows), _WORDS_PT)
    yield from _column_heads()
    y = _ROWS_TOP_MM
    for piece in sheet:
        if piece.row is None:
            yield Rect(0, y, _WIDTH_MM, _GROUP_MM, 0, 0.1)
            yield Text(1.0, y + 3.9, piece.heading, 9, bold=True)
        else:
            yield from _row(piece.row, y)
            yield Line(0, y + piece.height, _WIDTH_MM, y + piece.height, THIN)
        y += piece.height
    yield Line(0, y, _WIDTH_MM, y, 0.7)
    yield from written_lines(y + 1.0, _BOTTOM_MM, _("Also needed:"), _WIDTH_MM)


def _summary(head: SheetHead, rows: Sequence[OrderRow]) -> str:
    waits = sum(row.buy is None for row in rows)
    known = ngettext("{n} thing to buy", "{n} things to buy", len(rows) - waits).format(n=len(rows) - waits)
    later = _("{n} not known well enough yet: no number stands before them").format(n=waits)
    words = _("{day} · plan mark {mark} · {known}").format(day=head.day, mark=head.plan_mark, known=known)
    return f"{words} · {later}" if waits else words


def _column_heads() -> Marks:
    return column_heads(
        (0, _HEAD_MM, _WIDTH_MM, _ROWS_TOP_MM),
        starts=(
            (1.0, _("BUY")),
            (_WHAT, _("WHAT")),
            (_SIZE, _("SIZE, METAL")),
            (_TAGS, _("FOR")),
            (_STATE, _("STATE")),
        ),
        ends=((_NEED_END, _("NEEDS")),),
        boxes=((_ORDERED + _BOX_MM / 2, _("ordered")), (_HAND + _BOX_MM / 2, _("in hand"))),
    )


def _row(row: OrderRow, y: float) -> Marks:
    base = y + 5.2
    if row.buy is None:
        yield Text(_BUY_END, base, "–", 12.5, bold=True, anchor="end")
    else:
        yield Text(_BUY_END, base, grouped(str(row.buy)), 12.5, bold=True, anchor="end")
        yield Text(_UNIT, base, one_line(row.unit, _LEAST_PT, _WHAT - _UNIT - 0.5), _LEAST_PT)
    if row.needed is not None and row.group != "tools":
        yield Text(_NEED_END, base, grouped(str(row.needed)), _WHAT_PT, anchor="end")
    for x, lines, size, bold in _cells(row):
        for count, words in enumerate(lines):
            yield Text(x, base - (0.7 if len(lines) > 1 else 0.0) + count * _LINE_MM, words, size, bold=bold)
    # What is not known well enough is not bought, and what is in hand is there: neither has a box.
    for x in (_ORDERED, _HAND) if row.buy else ():
        yield from tick_box(x, y + 1.2, _BOX_MM)
