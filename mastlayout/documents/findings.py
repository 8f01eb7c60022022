"""The findings sheet: what is open, not checked or accepted, with numbers, limits and their sources."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.lettering import fitting_pt, grouped, leading_mm, one_line, paragraph, wrapped
from mastlayout.documents.page import A3_ZOOM, THIN, Line, Marks, Page, PaperName, Rect, Text
from mastlayout.documents.rows import FindingRow, LimitRow, SheetHead, Standing
from mastlayout.documents.sheet import FOOT_MM, SheetName, column_heads, frame, title, written_lines
from mastlayout.documents.states import state_sign
from mastlayout.frozen import dataclass
from mastlayout.words import _, ngettext

_WIDTH_MM, _HEIGHT_MM = 190.0, 259.0
_HEAD_MM, _ROWS_TOP_MM, _GROUP_MM = 23.4, 28.2, 5.3
# The one line on each sheet that says which families of rules did not run.
# The sizes a figure may have, the largest that finds room.
_MEASURED_PT, _NEEDED_PT = (11, 9.5, 8.5, 7.5), (9.5, 8.5, 7.5)
_NOT_RUN_MM = 5.5
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM - 1.0
_SUBJECTS, _SENTENCE, _MEASURED, _NEEDED = 6.5, 46.0, 169.0, 189.0
_SUBJECTS_MM, _SENTENCE_MM, _NUMBER_MM = 37.0, 101.0, 21.0
_WORDS_PT, _FINE_PT = 8.4, 7.2
_MOST_LINES = 12
ORDER: tuple[Standing, ...] = ("fault", "caution", "not checked", "note", "accepted")


@dataclass(frozen=True)
class _Piece:
    """A piece of the list that stays in one: how high it is and its marks from y = 0."""

    height: float
    row: FindingRow | LimitRow | None = None
    heading: str = ""


def findings_pages(
    head: SheetHead,
    rows: Sequence[FindingRow],
    limits: Sequence[LimitRow],
    paper: PaperName = "A4",
    not_run: Sequence[str] = (),
) -> list[Page]:
    """Return the findings, loudest first, then the owner's own limits.

    ``not_run`` names the families of rules that this version does not ask.
    """
    sheets = _sheets(list(_pieces(rows, limits)), _BOTTOM_MM - (_NOT_RUN_MM if not_run else 0.0))
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("FINDINGS"), number, len(sheets))
        marks = (*frame(head, name, "findings", (_WIDTH_MM, _HEIGHT_MM)), *_sheet(head, sheet, rows, not_run))
        pages.append(Page(paper, landscape=False, marks=marks, zoom=zoom))
    return pages


def _standing_words(standing: Standing, count: int) -> str:
    return {
        "fault": ngettext("{n} fault", "{n} faults", count),
        "caution": ngettext("{n} caution", "{n} cautions", count),
        "not checked": _("{n} not checked"),
        "note": ngettext("{n} note", "{n} notes", count),
        "accepted": _("{n} accepted"),
    }[standing].format(n=count)


def _pieces(rows: Sequence[FindingRow], limits: Sequence[LimitRow]) -> Iterator[_Piece]:
    for standing in ORDER:
        group = [row for row in rows if row.standing == standing]
        if group:
            yield _Piece(_GROUP_MM, heading=_standing_words(standing, len(group)).upper())
            for row in group:
                yield _Piece(_finding_mm(row), row)
    if limits:
        yield _Piece(_GROUP_MM, heading=_("LIMITS SET BY THE OWNER"))
        for limit in limits:
            yield _Piece(_limit_mm(limit), limit)


def _sheets(pieces: Sequence[_Piece], bottom_mm: float) -> list[list[_Piece]]:
    """Fill sheets down to ``bottom_mm``; a heading goes over with the first row it stands for."""
    sheets: list[list[_Piece]] = [[]]
    y, heading = _ROWS_TOP_MM, ""
    for count, piece in enumerate(pieces):
        follows = pieces[count + 1].height if piece.heading and count + 1 < len(pieces) else 0.0
        if sheets[-1] and y + piece.height + follows > bottom_mm:
            sheets.append([])
            y = _ROWS_TOP_MM
            if not piece.heading:
                sheets[-1].append(_Piece(_GROUP_MM, heading=_("{group}, continued").format(group=heading)))
                y += _GROUP_MM
        heading = piece.heading or heading
        sheets[-1].append(piece)
        y += piece.height
    return sheets


def _finding_mm(row: FindingRow) -> float:
    left = leading_mm(9.0) * len(_subjects(row)) + leading_mm(_FINE_PT)
    words = leading_mm(_WORDS_PT) * len(_sentence(row)) + leading_mm(_FINE_PT) * len(_fine(row))
    return max(left, words) + 2.6


def _subjects(row: FindingRow) -> list[Text]:
    return list(paragraph(0, 0, row.subjects, _SUBJECTS_MM, 9.0, bold=True, lines=_MOST_LINES))


def _sentence(row: FindingRow) -> list[Text]:
    return list(paragraph(0, 0, grouped(row.sentence), _SENTENCE_MM, _WORDS_PT, lines=_MOST_LINES))


def _fine(row: FindingRow) -> list[str]:
    parts = [
        _("Limit: {limit} ({source})").format(limit=row.limit, source=row.source) if row.limit else "",
        row.remark,
    ]
    return [
        text.text
        for part in parts
        if part
        for text in paragraph(0, 0, part, _SENTENCE_MM, _FINE_PT, lines=_MOST_LINES)
    ]


def _limit_mm(limit: LimitRow) -> float:
    return leading_mm(_WORDS_PT) * max(len(_limit_lines(limit)), len(_limit_title(limit))) + 2.6


def _limit_title(limit: LimitRow) -> list[str]:
    return wrapped(limit.title, _WORDS_PT, _SUBJECTS_MM, bold=True)


def _limit_lines(limit: LimitRow) -> list[str]:
    words = _("{own} instead of {value}. Why: {why}").format(own=limit.own, value=limit.value, why=limit.why)
    return wrapped(words, _WORDS_PT, _WIDTH_MM - _SENTENCE)


def _sheet(
    head: SheetHead, sheet: Sequence[_Piece], rows: Sequence[FindingRow], not_run: Sequence[str]
) -> Marks:
    yield from title(_("What the rules found"), 14.8, _WIDTH_MM)
    counts = ", ".join(
        _standing_words(standing, sum(row.standing == standing for row in rows)) for standing in ORDER
    )
    day = _("{day} · plan mark {mark}").format(day=head.day, mark=head.plan_mark)
    yield Text(0, 20.2, f"{day} · {counts}", 8.2)
    yield from _column_heads()
    y = _ROWS_TOP_MM
    for piece in sheet:
        yield from _piece(piece, y)
        y += piece.height
        yield Line(0, y, _WIDTH_MM, y, 0.7 if piece is sheet[-1] else THIN)
    if not_run:
        words = _("Not worked out by this version: {families}.").format(families=", ".join(not_run))
        yield Text(0, y + 4.2, one_line(words, _WORDS_PT, _WIDTH_MM, bold=True), _WORDS_PT, bold=True)
        y += _NOT_RUN_MM
    yield from written_lines(y + 1.0, _BOTTOM_MM, _("Settled, by whom:"), _WIDTH_MM)


def _column_heads() -> Marks:
    return column_heads(
        (0, _HEAD_MM, _WIDTH_MM, _ROWS_TOP_MM),
        starts=((_SUBJECTS, _("WHAT")), (_SENTENCE, _("WHERE, HOW MUCH, WHAT HELPS"))),
        ends=((_MEASURED, _("MEASURED")), (_NEEDED, _("NEEDED"))),
    )


def _piece(piece: _Piece, y: float) -> Marks:
    if isinstance(piece.row, FindingRow):
        yield from _finding(piece.row, y)
    elif isinstance(piece.row, LimitRow):
        yield from _limit(piece.row, y)
    else:
        yield Rect(0, y, _WIDTH_MM, _GROUP_MM, 0, 0.1)
        yield Text(1.0, y + 3.7, piece.heading, 9, bold=True)


def _finding(row: FindingRow, y: float) -> Marks:
    yield from state_sign(row.standing, 2.6, y + 3.1)
    below = y + 4.2
    for text in _subjects(row):
        yield Text(_SUBJECTS, below, text.text, 9.0, bold=True)
        below += leading_mm(9.0)
    yield Text(_SUBJECTS, below, one_line(row.code, _FINE_PT, _SUBJECTS_MM), _FINE_PT)
    below = y + 4.2
    for text in _sentence(row):
        yield Text(_SENTENCE, below, text.text, _WORDS_PT)
        below += leading_mm(_WORDS_PT)
    for line in _fine(row):
        yield Text(_SENTENCE, below, line, _FINE_PT)
        below += leading_mm(_FINE_PT)
    for x, figure, sizes, bold in (
        (_MEASURED, row.measured, _MEASURED_PT, True),
        (_NEEDED, row.needed, _NEEDED_PT, False),
    ):
        number = grouped(figure)  # a figure is never cut: it is written smaller
        yield Text(x, y + 4.4, number, fitting_pt(number, sizes, _NUMBER_MM), bold=bold, anchor="end")


def _limit(limit: LimitRow, y: float) -> Marks:
    for count, line in enumerate(_limit_title(limit)):
        yield Text(_SUBJECTS, y + 4.2 + count * leading_mm(_WORDS_PT), line, _WORDS_PT, bold=True)
    for count, line in enumerate(_limit_lines(limit)):
        yield Text(_SENTENCE, y + 4.2 + count * leading_mm(_WORDS_PT), line, _WORDS_PT)
