"""The drilling schedule: a map of each face that lies up, hole by hole, from the masthead down."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from mastlayout.documents.drillcells import (
    DEBURR,
    DRILL,
    DRILLED,
    EDGE,
    END,
    FASTEN,
    HEEL,
    MAP,
    MARK,
    MASTHEAD,
    TAG,
    Setting,
    from_track_edge,
    line_x,
)
from mastlayout.documents.drillhead import HEAD_BOTTOM_MM, Stop, banner_words, drill_head
from mastlayout.documents.drillrows import HEADING_MM, block_notes, draw_block, rows_height_mm
from mastlayout.documents.faces import face_words, neighbours
from mastlayout.documents.lettering import fitting_pt, grouped, one_line, width_mm
from mastlayout.documents.page import A3_ZOOM, BOX, Line, Marks, Page, PaperName, Rect, Text
from mastlayout.documents.rows import DrillBlock, Note, SheetHead
from mastlayout.documents.sheet import FOOT_MM, Letters, SheetName, frame, notes_height_mm, written_lines
from mastlayout.documents.walk import walk_order
from mastlayout.words import _

_WIDTH_MM, _HEIGHT_MM = 259.0, 190.0
_ROWS_TOP_MM = 65.3
_ROOM_MM = _HEIGHT_MM - FOOT_MM - _ROWS_TOP_MM + 0.01
_MOST_NOTES = 8


def drill_pages(head: SheetHead, blocks: Sequence[DrillBlock], paper: PaperName = "A4") -> list[Page]:
    """Return the drilling schedule: face by face, from the masthead down; none where nothing is drilled."""
    stops = drill_stops(blocks)
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, stop in enumerate(stops, 1):
        name = SheetName(_("DRILL"), number, len(stops), is_map=True)
        marks = (*frame(head, name, "drill", (_WIDTH_MM, _HEIGHT_MM)), *_sheet(head, stop, blocks))
        pages.append(Page(paper, landscape=True, marks=marks, zoom=zoom))
    return pages


def drill_stops(blocks: Sequence[DrillBlock]) -> list[Stop]:
    """Return the blocks sheet by sheet: a new face is a new sheet, a fitting stays on one if it can."""
    stops: list[Stop] = []
    for _face, group in groupby(walk_order(blocks), key=lambda block: block.face):
        sheets: list[list[DrillBlock]] = [[]]
        for block in group:
            for piece in _pieces(_few_notes(block)):
                if sheets[-1] and _height_mm([*sheets[-1], piece]) > _ROOM_MM:
                    sheets.append([])
                sheets[-1].append(piece)
        stops += [Stop(tuple(sheet), number) for number, sheet in enumerate(sheets, 1)]
    return stops


def _height_mm(blocks: Sequence[DrillBlock]) -> float:
    notes = [note for block in blocks for note in block_notes(block)]
    rows = sum(HEADING_MM + rows_height_mm(block) for block in blocks)
    return rows + notes_height_mm(notes, _WIDTH_MM) + (0.5 if notes else 0.0)


def _pieces(block: DrillBlock) -> list[DrillBlock]:
    """Split a block that no sheet can hold; each later piece repeats the heading, "continued"."""
    rows = list(block.rows)
    pieces: list[DrillBlock] = []
    while rows:
        count = len(rows)
        while count > 1 and _height_mm([replace(block, rows=tuple(rows[:count]))]) > _ROOM_MM:
            count -= 1
        pieces.append(replace(block, rows=tuple(rows[:count]), continued=bool(pieces)))
        rows = rows[count:]
    return pieces or [block]


def _few_notes(block: DrillBlock) -> DrillBlock:
    """Keep the notes of a heading few enough for one sheet; the findings sheet holds them all."""
    if len(block.notes) <= _MOST_NOTES:
        return block
    rest = _("{count} more notes stand on the findings sheet").format(count=len(block.notes) - _MOST_NOTES)
    return replace(block, notes=(*block.notes[:_MOST_NOTES], Note(block.tag, rest)))


def _sheet(head: SheetHead, stop: Stop, blocks: Sequence[DrillBlock]) -> Marks:
    letters = Letters(note for block in stop.blocks for note in block_notes(block))
    sums = {
        row.round.text(row.round.total)
        for block in stop.blocks
        for row in block.rows or (block.centre,)
        if block.half_track is not None
    }
    yield from drill_head(head, stop, blocks, _WIDTH_MM)
    yield from _column_heads(head, stop.blocks[0], _sum_words(sums))
    y = _ROWS_TOP_MM
    for block in stop.blocks:
        yield from draw_block(block, y, Setting(head, letters, one_sum=len(sums) <= 1))
        y += HEADING_MM + rows_height_mm(block)
    if not head.holes_checked:
        yield from _standing_banner(_ROWS_TOP_MM, y)
    yield from letters.list(y + 0.5, _WIDTH_MM)
    y += 0.5 + letters.height_mm(_WIDTH_MM)
    yield from written_lines(y + 1.0, _HEIGHT_MM - FOOT_MM, _("Written on the mast:"), _WIDTH_MM)


def _sum_words(sums: set[str]) -> str:
    """Return what the head of the second reading says: the sum, that rows differ, or that none is known."""
    if len(sums) == 1:
        return _("sum {total}").format(total=next(iter(sums)))
    return _("sum in each row") if sums else _("not measured")


def _standing_banner(top: float, bottom: float) -> Marks:
    """Yield the banner's words standing where the drill and deburr boxes would be."""
    left, width = DRILLED + 0.7, FASTEN - DRILLED - 1.4
    yield Rect(left, top + 0.6, width, bottom - top - 1.2, 0.9, 0.0)
    words = next(
        words
        for words in (banner_words(), _("DO NOT DRILL"), "")
        if width_mm(words, 15, bold=True) < bottom - top - 2.6
    )
    yield Text(
        left + width / 2 + 1.95, (top + bottom) / 2, words, 15, bold=True, anchor="middle", turn_deg=90
    )


def _column_heads(head: SheetHead, block: DrillBlock, girth_sum: str) -> Marks:
    y = HEAD_BOTTOM_MM
    groups = (
        (0.0, MASTHEAD, _("HOLE")),
        (MASTHEAD, HEEL, _("1  MARK")),
        (HEEL, DRILL, _("2  MEASURE AGAIN, WRITE")),
        (DRILL, DEBURR, _("3  DRILL")),
        (DEBURR, FASTEN, "4"),
        (FASTEN, END, _("5  FASTEN, ISOLATE")),
    )
    for left, right, words in groups:
        inset = 0.3 if left else 0.0
        yield Rect(left + inset, y, right - left - inset - (0.3 if right < END else 0.0), 5.0, 0, 1.0)
        yield Text((left + right) / 2, y + 3.5, words, 8.8, bold=True, anchor="middle", white=True)
    yield from _under_heads(head, block, girth_sum, y + 7.7, y + 10.9)
    yield Line(0, _ROWS_TOP_MM - 0.3, END, _ROWS_TOP_MM - 0.3, 0.7)


def _under_heads(head: SheetHead, block: DrillBlock, girth_sum: str, y1: float, y2: float) -> Marks:
    yield Text(1.0, y1, _("seen from outside,"), 7.4)
    yield Text(1.0, y2, _("masthead up"), 7.4)
    yield Text((TAG + MASTHEAD) / 2, y2, _("tag"), 7.4, anchor="middle")
    yield Text((MASTHEAD + MAP) / 2, y1, _("from the"), 7.4, anchor="middle")
    yield Text((MASTHEAD + MAP) / 2, y2, _("MASTHEAD"), 8, bold=True, anchor="middle")
    yield from _map_heads(block, y1, y2)
    total = grouped(head.total.text(head.total.total))
    second = _("from FORWARD LINE") if from_track_edge(block) else _("from TRACK EDGE")
    yield Text(HEEL + 1.6, y1, _("from the HEEL"), 7.4)
    whole = _("sum {total}").format(total=total)
    yield Text(HEEL + 1.6, y2, whole, fitting_pt(whole, (7.6, 7.0), EDGE - HEEL - 1.2), bold=True)
    yield Text(EDGE + 0.8, y1, second, 7.4)
    words = girth_sum
    yield Text(EDGE + 0.8, y2, words, 7.6, bold=True)
    drill = _("drill, mm and inch") if head.units == "inches" else _("drill, mm")
    yield Text((DRILL + DRILLED) / 2, y1, drill, 7.4, anchor="middle")
    yield Text((DRILL + DRILLED) / 2, y2, _("pilot, depth stop"), 7.4, anchor="middle")
    yield Text((DEBURR + FASTEN) / 2, y1, _("de-"), 7.4, anchor="middle")
    yield Text((DEBURR + FASTEN) / 2, y2, _("burr"), 7.4, anchor="middle")
    yield Text(FASTEN + 1.0, y1, _("fastener"), 7.4)
    yield Text(FASTEN + 1.0, y2, _("foot + liner + packer + wall"), 7.4)


def _map_heads(block: DrillBlock, y1: float, y2: float) -> Marks:
    face, line = block.face, line_x(block.face)
    words = _("round from TRACK EDGE") if from_track_edge(block) else _("round from forward centreline")
    yield Text((MAP + MARK) / 2, y1, one_line(words, 7.4, 43), 7.4, anchor="middle")
    left, right = neighbours(face)
    if face in ("forward", "aft"):
        yield Text(line - 3.0, y2, face_words(left).side, 8, bold=True, anchor="end")
        yield Text(line + 12.0, y2, face_words(right).side, 8, bold=True, anchor="start")
    elif face == "port":
        yield Text(line + 3.0, y2, _("FORWARD LINE here"), 8, bold=True)
    else:
        yield Text(line - 3.0, y2, _("FORWARD LINE here"), 8, bold=True, anchor="end")
    yield Line(line, y2 - 2.4, line, _ROWS_TOP_MM - 0.6, BOX)
