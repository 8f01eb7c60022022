"""The heading of the drilling schedule: the stop in words, the lying mast, the advice, the whole mast."""

from collections.abc import Sequence

from mastlayout.documents.faces import end_view, face_words
from mastlayout.documents.lettering import grouped, one_line, paragraph, width_mm
from mastlayout.documents.page import BOX, MEDIUM, THIN, Line, Marks, Polyline, Rect, Text
from mastlayout.documents.rows import DrillBlock, SheetHead
from mastlayout.documents.sheet import banner, fill_in, tag_badge, title
from mastlayout.documents.spread import spread
from mastlayout.frozen import dataclass
from mastlayout.words import _

HEAD_BOTTOM_MM = 53.2
_STRIP_LEFT, _STRIP_RIGHT = 32.0, 232.0
_FLAG_WIDTH = 7.6
_ADVICE_X, _ADVICE_WIDTH = 166.0, 93.0
_VALUE_X = 21.0
_VIEW_X = 133.0


@dataclass(frozen=True)
class Stop:
    """One stop of the mast's rolling: the blocks of one sheet, and which sheet of its face it is."""

    blocks: tuple[DrillBlock, ...]
    number: int


def banner_words() -> str:
    """Return the words that stand on every sheet whose hole rules have not run."""
    return _("HOLE RULES NOT CHECKED: DO NOT DRILL")


def drill_head(head: SheetHead, stop: Stop, others: Sequence[DrillBlock], width: float) -> Marks:
    """Yield everything between the black bar and the column heads."""
    first = stop.blocks[0]
    words = _stop_words(stop)
    if head.holes_checked:
        yield from title(words, 14.8, 100)
        yield from _made(head, first)
        yield from end_view(first.section, first.face, _VIEW_X, 11.1, 20.5)
        yield from _advice(first, 9.3, 28.6, with_title=True)
    else:
        yield from banner(width)
        yield from title(words, 24.0, 92, 15.5)
        yield from _made_short(head, first)
        yield from end_view(first.section, first.face, _VIEW_X, 21.9, 11.2)
        yield from _advice(first, 19.9, 18.4, with_title=False)
    yield from _strip(head, stop.blocks, others)


def _stop_words(stop: Stop) -> str:
    ordinals = [_("first"), _("second"), _("third"), _("fourth"), _("fifth"), _("sixth"), _("seventh")]
    face = face_words(stop.blocks[0].face).title
    if stop.number <= len(ordinals):
        return _("{face}, {ordinal} stop").format(face=face, ordinal=ordinals[stop.number - 1])
    return _("{face}, stop {number}").format(face=face, number=stop.number)


def _length(head: SheetHead) -> str:
    total = grouped(head.total.text(head.total.total))
    return _("{length} from heel to masthead").format(length=total)


def _track_words(block: DrillBlock, together: str) -> str:
    if block.half_track is None:
        return _("track not measured")
    return together.format(edge=block.half_track)


def _made(head: SheetHead, block: DrillBlock) -> Marks:
    made = _("{day} · plan mark {mark}").format(day=head.day, mark=head.plan_mark)
    line = _("{half} from the line to the middle of the track,").format(half=block.half_girth)
    edge = _track_words(block, _("whose edge is {edge} nearer"))
    for y, label, value in (
        (19.3, _("Made"), made), (23.0, _("Mast"), _length(head)), (26.6, _("Skin"), line), (30.0, "", edge)
    ):  # fmt: skip
        yield Text(0, y, label, 7.8)
        yield Text(_VALUE_X, y, one_line(value, 8.2, 76, bold=True), 8.2, bold=True)
    for y, label in ((34.0, _("Marked by")), (38.0, _("Read again by"))):
        yield Text(0, y, label, 7.8)
        yield Line(_VALUE_X, y + 0.5, 58.0, y + 0.5, THIN)
    yield from fill_in(60.0, 34.0, _("shed"), 77.0, 7.8)
    yield Text(77.6, 34.0, "°F" if head.units == "inches" else "°C", 7.8)
    yield Text(60.0, 38.0, _("another person"), 7.8)


def _made_short(head: SheetHead, block: DrillBlock) -> Marks:
    edge = _track_words(block, _("edge {edge} nearer"))
    skin = _("{half} line to middle of track, {edge}").format(half=block.half_girth, edge=edge)
    for y, label, value in ((28.3, _("Mast"), _length(head)), (31.8, _("Skin"), skin)):
        yield Text(0, y, label, 7.8)
        yield Text(_VALUE_X, y, one_line(value, 8.2, 78, bold=True), 8.2, bold=True)
    yield Text(0, 36.6, _("Marked by"), 7.8)
    yield Line(_VALUE_X, 37.1, 50.0, 37.1, THIN)
    yield from fill_in(52.0, 36.6, _("read again by"), 93.0, 7.8)


def _advice(block: DrillBlock, y: float, height: float, *, with_title: bool) -> Marks:
    yield Rect(_ADVICE_X, y, _ADVICE_WIDTH, height, MEDIUM)
    line = y + 3.4
    if with_title:
        yield Text(_ADVICE_X + 2.0, y + 4.0, _("Before the first hole"), 9.5, bold=True)
        line = y + 7.8
    for sentence in _advice_sentences(block, short=not with_title):
        for text in paragraph(_ADVICE_X + 2.0, line, sentence, _ADVICE_WIDTH - 4.0, 7.6):
            yield text
            line = text.y + 3.45


def _advice_sentences(block: DrillBlock, *, short: bool) -> list[str]:
    start = {
        "forward": _("Strike the forward centreline first: half the girth from the middle of the track."),
        "aft": _("Measure round from the track's edge, on the hole's own side."),
        "port": _("Strike the forward centreline first: it lies on your left, seen from the heel."),
        "starboard": _("Strike the forward centreline first: it lies on your right, seen from the heel."),
    }[block.face]
    sheet = _(
        "Sheet flat in your hand, black bar towards the masthead: left on the sheet is left on the mast."
    )
    if short:
        work = _("Mark all, measure all again, offer up the part. No box to tick means no hole.")
        return [sheet, f"{start} {work}"]
    work = _("Mark all, measure all again, drill one, offer up the part, drill the rest through the part.")
    return [sheet, f"{start} {work}", _("No box to tick means no hole: ask, measure, print anew.")]


def _strip(head: SheetHead, blocks: Sequence[DrillBlock], others: Sequence[DrillBlock]) -> Marks:
    """Yield the whole mast lying, masthead left: flags for this sheet's tags, ticks for the other ones."""
    top, bottom = 44.6, 46.8
    yield Text(0, 44.9, _("MASTHEAD"), 8, bold=True)
    yield Text(0, 48.4, _("hook the tape here"), 7.6)
    yield Text(_STRIP_RIGHT + 4.0, 44.9, _("HEEL"), 8, bold=True)
    yield Text(_STRIP_RIGHT + 4.0, 48.4, _("stand here"), 7.6)
    yield Polyline(
        ((_STRIP_LEFT - 5.0, 45.7), (_STRIP_LEFT - 0.8, 43.6), (_STRIP_LEFT - 0.8, 47.8)),
        0,
        closed=True,
        fill=1.0,
    )
    yield Rect(_STRIP_LEFT, top, _STRIP_RIGHT - _STRIP_LEFT, bottom - top, MEDIUM)
    yield from _scale(head, bottom)
    here = {block.tag for block in blocks}
    for block in others:
        if block.tag not in here:
            x = _on_strip(block, head)
            yield Line(x, top - 0.9, x, top, BOX)
    yield from _flags(
        sorted({block.tag: block for block in blocks}.values(), key=_masthead), head, top, bottom
    )


def _masthead(block: DrillBlock) -> int:
    return block.centre.height.masthead


def _on_strip(block: DrillBlock, head: SheetHead) -> float:
    share = _masthead(block) / max(head.total.total, 1)
    return _STRIP_LEFT + (_STRIP_RIGHT - _STRIP_LEFT) * min(max(share, 0.0), 1.0)


def _flags(blocks: Sequence[DrillBlock], head: SheetHead, top: float, bottom: float) -> Marks:
    wide = max([_FLAG_WIDTH, *(width_mm(block.tag, 9.5, bold=True) + 2.0 for block in blocks)])
    places = [_on_strip(block, head) for block in blocks]
    centres = spread(places, wide + 0.6, _STRIP_LEFT + wide / 2, _STRIP_RIGHT - wide / 2)
    for block, place, centre in zip(blocks, places, centres, strict=True):
        yield from tag_badge(centre - wide / 2, 38.9, wide, 4.2, block.tag, 9.5)
        yield Line(centre, 43.1, place, top, MEDIUM)
        yield Line(place, top, place, bottom, 0.7)


def _scale(head: SheetHead, y: float) -> Marks:
    """Yield whole metres, or every fifth foot, from the masthead."""
    metric = head.units == "metric"
    step, part = (1, 1000.0) if metric else (5, 12 * 16.0)
    length = head.total.total / part
    step_mm = (_STRIP_RIGHT - _STRIP_LEFT) * step / max(length, 0.001)
    while step_mm < 5.0:
        step, step_mm = step * 2, step_mm * 2
    yield Text(_STRIP_LEFT - 1.6, y + 4.4, _("m") if metric else _("ft"), 7.6, anchor="end")
    for count in range(int(length / step) + 1):
        x = _STRIP_LEFT + count * step_mm
        yield Line(x, y, x, y + 1.3, BOX)
        yield Text(x, y + 4.4, str(count * step), 7.6, anchor="middle")
