"""The mounting schedule: one row a fitting in the order of work, with boxes for what is done."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from mastlayout.documents.lettering import fitted_lines, grouped, one_line, reading, width_mm, wrapped
from mastlayout.documents.page import A3_ZOOM, Line, Marks, Page, PaperName, Text
from mastlayout.documents.rows import MountRow, Note, SheetHead
from mastlayout.documents.sheet import (
    BANNER_MM,
    FOOT_MM,
    Letters,
    SheetName,
    banner,
    column_heads,
    frame,
    letter_badge,
    sign,
    tag_badge,
    tick_box,
    title,
    written_lines,
)
from mastlayout.frozen import dataclass
from mastlayout.words import _, ngettext

_WIDTH_MM, _HEIGHT_MM = 259.0, 190.0
_HEAD_MM, _ROWS_TOP_MM, _ROW_MM = 23.2, 27.7, 13.2
_BOTTOM_MM = _HEIGHT_MM - FOOT_MM
_NUMBER, _TAG, _NAME, _MASTHEAD, _FACE, _MASS, _HOLES, _ISOLATE, _BOXES = (
    1.0, 12.4, 27.0, 98.0, 101.0, 141.0, 145.0, 183.0, 213.2
)  # fmt: skip
_BOX_STEP_MM = 9.2
_NOTE_PT, _NOTE_LINE_MM = 8.4, 4.5
_BADGE_STEP = 5.0
_MOST_BADGES = 4
# Each column of words: its left edge, its width, and the size and weight of its two lines.
_NAME_MM, _WORDS_MM, _ISOLATE_MM = 54.0, 36.5, 29.0
_CABLE_LINES, _SMALL_PT = 2, 7.0


@dataclass(frozen=True)
class _Sheet:
    rows: tuple[MountRow, ...]
    first: int


def mount_pages(head: SheetHead, rows: Sequence[MountRow], paper: PaperName = "A4") -> list[Page]:
    """Return the mounting schedule; none where nothing is mounted."""
    down = 0.0 if head.holes_checked else BANNER_MM
    sheets = _sheets([_noted(row) for row in rows], _BOTTOM_MM - down)
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("MOUNT"), number, len(sheets))
        marks = (*frame(head, name, "mount", (_WIDTH_MM, _HEIGHT_MM)), *_sheet(head, sheet, rows, down))
        pages.append(Page(paper, landscape=True, marks=marks, zoom=zoom))
    return pages


def _sheets(rows: Sequence[MountRow], bottom: float) -> list[_Sheet]:
    sheets: list[list[MountRow]] = []
    for row in rows:
        if not sheets or not _fits([*sheets[-1], row], bottom):
            sheets.append([])
        sheets[-1].append(row)
    starts = [sum(len(sheet) for sheet in sheets[:count]) for count in range(len(sheets))]
    return [_Sheet(tuple(sheet), start + 1) for sheet, start in zip(sheets, starts, strict=True)]


def _fits(rows: Sequence[MountRow], bottom: float) -> bool:
    end = _ROWS_TOP_MM + len(rows) * _ROW_MM + 1.0
    return end + _NOTE_LINE_MM * _note_lines(_notes(rows)) <= bottom


def _notes(rows: Iterable[MountRow]) -> list[Note]:
    return list(dict.fromkeys(note for row in rows for note in row.notes))


def _words_of(row: MountRow) -> tuple[tuple[str, float, bool, float], ...]:
    """Return the words of a row with size, weight and the width they are given."""
    return (
        (row.name, 11, True, _NAME_MM),
        (row.face, 9.5, True, _WORDS_MM),
        (row.place, _SMALL_PT, False, _WORDS_MM),
        (row.holes, 9.5, True, _WORDS_MM),
        (row.foot, _SMALL_PT, False, _WORDS_MM),
        (row.isolation, 8.6, False, _ISOLATE_MM),
        *(() if len(_cable(row)) <= _CABLE_LINES else ((row.cable, 8.2, False, _ISOLATE_MM),)),
    )


def _cable(row: MountRow) -> list[str]:
    """Return the lines of a row's cable: one as large as the others, else small ones."""
    if width_mm(row.cable, 8.2) <= _ISOLATE_MM:
        return [row.cable]
    return wrapped(row.cable, _SMALL_PT, _ISOLATE_MM)


def _noted(row: MountRow) -> MountRow:
    """Give a row a note with all its words that do not fit into their columns."""
    cut = [
        words
        for words, size, bold, width in _words_of(row)
        if one_line(words, size, width, bold=bold) != words
    ]
    notes = (*row.notes, Note(row.tag, " · ".join(cut))) if cut else row.notes
    if len(notes) > _MOST_BADGES:
        joined = " · ".join(note.text for note in notes[_MOST_BADGES - 1 :])
        notes = (*notes[: _MOST_BADGES - 1], Note(row.tag, joined))
    return replace(row, notes=notes)


def _sheet(head: SheetHead, sheet: _Sheet, rows: Sequence[MountRow], down: float) -> Marks:
    """Yield one sheet; ``down`` is how far the banner of unchecked holes pushes it."""
    letters = Letters(_notes(sheet.rows))
    if down:
        yield from banner(_WIDTH_MM)
    yield from title(_("What is mounted, in the order of work"), 14.8 + down, _WIDTH_MM)
    yield Text(0, 20.0 + down, _summary(head, rows), 8.2)
    yield from _column_heads(_HEAD_MM + down)
    y = _ROWS_TOP_MM + down
    for number, row in enumerate(sheet.rows, sheet.first):
        yield from _row(row, number, y, letters, holes=head.holes_checked)
        y += _ROW_MM
        last = number == sheet.first + len(sheet.rows) - 1
        yield Line(0, y, _WIDTH_MM, y, 0.7 if last else 0.35)
    y += 1.0
    yield from _note_flow(_notes(sheet.rows), letters, y)
    y += _NOTE_LINE_MM * _note_lines(_notes(sheet.rows))
    yield from written_lines(y + 1.0, _BOTTOM_MM, _("As built, or changed:"), _WIDTH_MM)


def _summary(head: SheetHead, rows: Sequence[MountRow]) -> str:
    known = [row.mass_kg for row in rows if row.mass_kg is not None]
    mass = _("{mass} kg together").format(mass=f"{sum(known):.1f}")
    if len(known) < len(rows):
        mass = _("{mass} kg known, {lost} not weighed").format(
            mass=f"{sum(known):.1f}", lost=len(rows) - len(known)
        )
    count = ngettext("{n} new fitting", "{n} new fittings", len(rows)).format(n=len(rows))
    return _(
        "{day} · plan mark {mark} · mast {length} from heel to masthead, every pair of readings sums to it · "
        "{count}, {mass}"
    ).format(
        day=head.day,
        mark=head.plan_mark,
        length=grouped(head.total.text(head.total.total)),
        count=count,
        mass=mass,
    )


def _column_heads(top: float) -> Marks:
    boxes = (_("dry run"), _("holes"), _("bed"), _("cable"), _("photo"))
    return column_heads(
        (0, top, _WIDTH_MM, top + _ROWS_TOP_MM - _HEAD_MM),
        starts=(
            (_NUMBER, _("NO.")),
            (_TAG + 0.6, _("TAG")),
            (_NAME, _("FITTING")),
            (_FACE, _("FACE, SIDE")),
            (_HOLES, _("HOLES, FOOT")),
            (_ISOLATE, _("ISOLATE, CABLE")),
        ),
        ends=((_MASTHEAD, _("MASTHEAD")), (_MASS, _("KG"))),
        boxes=[(_BOXES + count * _BOX_STEP_MM + 3.75, words) for count, words in enumerate(boxes)],
    )


def _row(row: MountRow, number: int, y: float, letters: Letters, *, holes: bool) -> Marks:
    yield Text(_NUMBER + 3.0, y + 7.2, str(number), 13, bold=True, anchor="middle")
    yield from tag_badge(_TAG, y + 2.4, 12.0, 8.4, row.tag, 15)
    yield Text(_NAME, y + 5.9, one_line(row.name, 11, _NAME_MM, bold=True), 11, bold=True)
    yield from _remark(row, y + 10.9, letters)
    yield from _heights(row, y)
    for x, upper, lower, width in (
        (_FACE, row.face, row.place, _WORDS_MM),
        (_HOLES, row.holes, row.foot, _WORDS_MM),
    ):
        yield Text(x, y + 5.9, one_line(upper, 9.5, width, bold=True), 9.5, bold=True)
        size, (words,) = fitted_lines(lower, (8.2, _SMALL_PT), width, 1)
        yield Text(x, y + 10.9, words, size)
    mass = "?" if row.mass_kg is None else _mass(row.mass_kg)
    yield Text(_MASS, y + 5.9, mass, 10, anchor="end")
    yield Text(_ISOLATE, y + 5.9, one_line(row.isolation, 8.6, _ISOLATE_MM), 8.6)
    yield from _cable_cell(row, y)
    yield from _boxes(row, y + 2.4, holes=holes)


def _cable_cell(row: MountRow, y: float) -> Marks:
    lines = _cable(row)
    if len(lines) == 1:
        yield Text(_ISOLATE, y + 10.9, lines[0], 8.2)
        return
    lines = [
        *lines[: _CABLE_LINES - 1],
        one_line(" ".join(lines[_CABLE_LINES - 1 :]), _SMALL_PT, _ISOLATE_MM),
    ]
    for count, words in enumerate(lines):
        yield Text(_ISOLATE, y + 8.9 + count * 2.9, words, _SMALL_PT)


def _mass(mass_kg: float) -> str:
    """Write a mass to 0.05 kg, its second decimal only where it is 5."""
    text = f"{round(mass_kg * 20) / 20:.2f}"
    return text.removesuffix("0") if text.endswith("0") else text


def _heights(row: MountRow, y: float) -> Marks:
    height = row.height
    if row.top:
        yield Text(_MASTHEAD, y + 5.9, _("TOP"), 14, bold=True, anchor="end")
    else:
        yield from reading(_MASTHEAD, y + 5.9, height.text(height.masthead), 14, bold=True, anchor="end")
    heel = _("heel {height}").format(height=grouped(height.text(height.heel)))
    yield Text(_MASTHEAD, y + 10.9, heel, 8.2, anchor="end")


def _remark(row: MountRow, y: float, letters: Letters) -> Marks:
    x = _NAME
    for note in dict.fromkeys(row.notes):
        yield from letters.badge(x, y, note)
        x += _BADGE_STEP
    room = _NAME + _NAME_MM - x - 1.0
    yield Text(x + (0.6 if row.notes else 0.0), y, one_line(row.remark, 8.2, room, bold=True), 8.2, bold=True)


def _boxes(row: MountRow, y: float, *, holes: bool) -> Marks:
    """Yield the boxes to tick; no box for holes while their rules have not run."""
    yield from tick_box(_BOXES, y, 7.8)
    if row.hold:
        left = _BOXES + _BOX_STEP_MM
        yield from sign(left, y - 0.1, _WIDTH_MM - left - 0.8, 8.0, _("HOLD"), _("dry run only"), 14)
        return
    for count in range(1 if holes else 2, 5):
        yield from tick_box(_BOXES + count * _BOX_STEP_MM, y, 7.8)


def _flow(notes: Iterable[Note]) -> list[tuple[int, float, Note, str, bool]]:
    """Lay notes one after the other: line, x, note, words, and whether its letter stands before them."""
    laid, line, x = [], 0, 0.0
    for note in notes:
        words = f"{note.tags}: {grouped(note.text)}" if note.tags else grouped(note.text)
        size = width_mm(words, _NOTE_PT)
        if x and x + 6.0 + size > _WIDTH_MM:
            line, x = line + 1, 0.0
        for count, text in enumerate(wrapped(words, _NOTE_PT, _WIDTH_MM - 6.5)):
            line += 1 if count else 0
            laid.append((line, x, note, text, not count))
        x += 6.0 + (size if size < _WIDTH_MM - 6.5 else _WIDTH_MM) + 4.0
    return laid


def _note_lines(notes: Sequence[Note]) -> int:
    laid = _flow(notes)
    return laid[-1][0] + 1 if laid else 0


def _note_flow(notes: Sequence[Note], letters: Letters, y: float) -> Marks:
    for line, x, note, words, first in _flow(notes):
        baseline = y + 2.9 + line * _NOTE_LINE_MM
        if first:
            yield from letter_badge(x, baseline, letters[note])
        yield Text(x + 5.6, baseline, words, _NOTE_PT)
