"""Labels to stick beside each mark: which way round the mast lies, each fitting, each of its holes."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from mastlayout.documents.lettering import fitted_lines, fitting_pt, leading_mm, one_line, reading, width_mm
from mastlayout.documents.page import (
    A3_ZOOM,
    DASHED,
    THIN,
    Line,
    Marks,
    Page,
    PaperName,
    Polyline,
    Rect,
    Text,
)
from mastlayout.documents.rows import DrillBlock, HoleRow, SheetHead
from mastlayout.documents.sheet import SheetName, frame, tag_badge, title
from mastlayout.documents.walk import hold_of
from mastlayout.units import decimal_inches
from mastlayout.words import _, ngettext

_WIDTH_MM, _HEIGHT_MM = 259.0, 190.0
_LABEL_MM, _TALL_MM = 63.5, 25.5
_ACROSS, _DOWN = 4, 6
_STEP_X, _STEP_Y, _TOP_MM = (_WIDTH_MM - _LABEL_MM) / (_ACROSS - 1), 26.75, 21.6
_EDGE_MM, _INSET_MM = 3.5, 2.0
_LEFT_MM = 31.0
Label = Callable[[float, float], Marks]


def label_pages(head: SheetHead, blocks: Sequence[DrillBlock], paper: PaperName = "A4") -> list[Page]:
    """Return the labels in the order of the walk, 24 a sheet; none where nothing is drilled."""
    labels = list(_labels(head, blocks)) if blocks else []
    each = _ACROSS * _DOWN
    sheets = [labels[start : start + each] for start in range(0, len(labels), each)]
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("LABELS"), number, len(sheets), is_map=True)
        whole = [*sheet, *[_blank] * (each - len(sheet))]
        marks = (*frame(head, name, "labels", (_WIDTH_MM, _HEIGHT_MM)), *_sheet(head, whole))
        pages.append(Page(paper, landscape=True, marks=marks, zoom=zoom))
    return pages


def _labels(head: SheetHead, blocks: Sequence[DrillBlock]) -> Iterator[Label]:
    for words, where in (
        (_("STARBOARD"), _("stick on the starboard side, both ends")),
        (_("PORT"), _("stick on the port side, both ends")),
        (_("FORWARD"), _("stick on the forward centreline")),
        (_("HEEL"), _("stick at the heel end")),
    ):
        yield partial(_side, words, where)
    for block in blocks:
        yield partial(_fitting, block)
        for row in block.rows:
            yield partial(_hole, head, block, row)


def _sheet(head: SheetHead, labels: Sequence[Label]) -> Marks:
    yield from title(_("Cut out, stick beside each mark, black edge to the masthead"), 14.4, _WIDTH_MM, 15)
    words = _(
        "Print on label stock or under clear tape. Stick no label on a mark that was not measured again."
    )
    yield Text(0, 19.3, words, 8.2)
    day = _("{day} · plan mark {mark}").format(day=head.day, mark=head.plan_mark)
    yield Text(_WIDTH_MM, 19.3, day, 8.2, anchor="end")
    for count, label in enumerate(labels):
        down, across = divmod(count, _ACROSS)
        x, y = across * _STEP_X, _TOP_MM + down * _STEP_Y
        yield Rect(x, y, _LABEL_MM, _TALL_MM, THIN, dash_mm=DASHED)
        yield from _edge(x, y)
        yield from label(x, y)


def _edge(x: float, y: float) -> Marks:
    """Yield the black edge that belongs to the masthead."""
    yield Rect(x, y, _LABEL_MM, _EDGE_MM, 0, 1.0)
    words, middle = _("MASTHEAD"), x + _LABEL_MM / 2
    yield Text(middle, y + 2.65, words, 7.2, bold=True, anchor="middle", white=True)
    reach = width_mm(words, 7.2, bold=True) / 2 + 3.5
    for centre in (middle - reach, middle + reach):
        peak = ((centre - 1.2, y + 2.8), (centre, y + 0.8), (centre + 1.2, y + 2.8))
        yield Polyline(peak, 0, closed=True, fill=0.0)


def _side(words: str, where: str, x: float, y: float) -> Marks:
    middle, size = x + _LABEL_MM / 2, fitting_pt(words, (26, 20, 14), _LABEL_MM - 4.0)
    yield Text(middle, y + 15.2, words, size, bold=True, anchor="middle")
    yield Text(middle, y + 21.4, one_line(where, 8.2, _LABEL_MM - 4.0), 8.2, anchor="middle")


def _fitting(block: DrillBlock, x: float, y: float) -> Marks:
    yield from tag_badge(x + _INSET_MM, y + 6.2, 18.0, 14.0, block.tag, 27)
    left, room = x + 22.5, _LABEL_MM - 24.0
    height = block.centre.height
    size, lines = _name_lines(block.name, room)
    for count, line in enumerate(reversed(lines)):
        yield Text(left, y + 9.6 - count * leading_mm(size) * 0.9, line, size, bold=True)
    yield from reading(left, y + 16.4, height.text(height.masthead), 16, bold=True)
    yield Text(left, y + 21.6, one_line(_fitting_words(block), 8.2, room), 8.2)


def _name_lines(name: str, room: float) -> tuple[float, list[str]]:
    """Return a name in one line where it is short enough, else in two: it is not cut."""
    size, lines = fitted_lines(name, (10.5, 9.0), room, 1, bold=True)
    return (size, lines) if lines[0] == name else fitted_lines(name, (8.2, 7.2), room, 2, bold=True)


def _fitting_words(block: DrillBlock) -> str:
    if block.fault:
        return _("HOLD: open fault")
    if not block.rows:
        return _("centre only: offer up the part")
    return ngettext("centre, {n} hole", "centre, {n} holes", len(block.rows)).format(n=len(block.rows))


def _hole(head: SheetHead, block: DrillBlock, row: HoleRow, x: float, y: float) -> Marks:
    left, right = x + _INSET_MM, x + _LABEL_MM - _INSET_MM
    size = fitting_pt(row.tag, (27, 21, 15, 11), _LEFT_MM - 3.0)
    yield Text(left, y + 14.6, row.tag, size, bold=True)
    place = _place(block, row)
    yield Text(left, y + 21.9, place, fitting_pt(place, (11.5, 9, 7), _LEFT_MM - 1.0), bold=True)
    height = row.height.text(row.height.masthead)
    yield from reading(right, y + 10.6, height, 17 if head.units == "metric" else 14, bold=True, anchor="end")
    words = _held_words(head, block, row)
    if words:
        box = right - _LEFT_MM + 4.0
        yield Rect(box, y + 13.0, right - box, 9.6, 0, 1.0)
        fitted = fitting_pt(words, (15, 11, 9, 7), right - box - 1.4)
        baseline = y + 17.8 + fitted * 0.127
        yield Text((box + right) / 2, baseline, words, fitted, bold=True, anchor="middle", white=True)
        return
    yield from _drill(head, row, right, y)


def _held_words(head: SheetHead, block: DrillBlock, row: HoleRow) -> str:
    """Return the sign that stands where the drill would: no drill on a label, no hole."""
    if block.fault:
        return _("STOP")
    if row.wall_missing:
        return _("WALL?")
    if hold_of(row, block):
        return _("STOP")
    return "" if head.holes_checked else _("DO NOT DRILL")


def _drill(head: SheetHead, row: HoleRow, right: float, y: float) -> Marks:
    drill = row.drill_mm or 0.0
    words = f"⌀ {drill:.1f}"
    if "drilled" in row.done:
        words = _("DRILLED")
    elif head.units == "inches":
        words = _("{mm} mm, {inches}").format(mm=words, inches=decimal_inches(drill))
    size = fitting_pt(words, (15, 11, 9, 7), _LABEL_MM - _LEFT_MM - 3.0)
    yield Text(right, y + 17.0, words, size, bold=True, anchor="end")
    yield Text(right, y + 21.9, one_line(row.fastener, 8.6, _LABEL_MM - _LEFT_MM - 3.0), 8.6, anchor="end")


def _place(block: DrillBlock, row: HoleRow) -> str:
    """Return how far round a hole is, from the line or edge its drill sheet marks it by."""
    around = row.round
    if around.side is None:
        return _("ON LINE")
    side = _("PORT") if around.side == "port" else _("STBD")
    if block.face == "aft" and block.half_track is not None:
        return _("{round} edge {side}").format(round=around.text(around.track_edge), side=side)
    return f"{around.text(around.forward)} {side}"


def _blank(x: float, y: float) -> Marks:
    middle = x + _LABEL_MM / 2
    for row, words in enumerate(((_("tag"), _("from masthead")), (_("side, round"), _("drill")))):
        for left, label in zip((x + _INSET_MM, middle + 1.0), words, strict=True):
            top = y + 6.6 + row * 9.6
            yield Text(left, top, label, 7.6)
            yield Line(left, top + 6.6, left + _LABEL_MM / 2 - 3.5, top + 6.6, THIN)
