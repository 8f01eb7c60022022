"""What a template is laid to: the centreline with its readings, level lines, and the track."""

from collections.abc import Iterator, Sequence
from typing import Literal

from shapely.geometry import LineString

from mastlayout.documents.hatching import hatch
from mastlayout.documents.lettering import Box, box_mm, grouped
from mastlayout.documents.page import (
    BOX,
    CENTRE,
    DASHED,
    MEDIUM,
    THICK,
    THIN,
    Line,
    Mark,
    Marks,
    Point,
    Polyline,
    Text,
)
from mastlayout.documents.rows import Rung, Template
from mastlayout.documents.template.labels import Room, opened
from mastlayout.documents.template.view import View
from mastlayout.words import _

Layer = Literal["line", "track", "rings", "foot", "holes", "held", "words"]
Layered = Iterator[tuple[Layer, Mark]]
_RING_SHORT_MM = 6.0
# The strokes of the girth ruler reach this far into the map.
RULER_MM = 2.2
# A rung this near to the foot's own height is named beyond its stroke.
_NEAR_MM = 3.0
# So near to a sheet's lower edge a level line has no room for its reading.
_FOOT_MM = 4.5
_ARROW_MM, _BAND_MM = 6.0, 2.4


def middle_line(template: Template, view: View, room: Room) -> Layered:
    """Yield the centreline in the middle with its arrow to the masthead; none where the track stands."""
    if not view.holds((0.0, (view.low + view.high) / 2), 1.0):
        return
    x, _y = view.at((0.0, 0.0))
    gone = template.middle == "aft" and template.raised
    yield "line", Line(x, view.y, x, view.y2, MEDIUM if gone else THICK, CENTRE if gone else ())
    peak = ((x - 3.4, view.y + _ARROW_MM), (x, view.y), (x + 3.4, view.y + _ARROW_MM))
    yield "line", Polyline(peak, 0, closed=True, fill=1.0)
    room.lines.append(LineString([(x, view.y), (x, view.y2)]))
    room.taken.append((x - 3.6, view.y, x + 3.6, view.y + _ARROW_MM))
    texts = _line_words(template, view, x)
    room.take(texts)
    for text in texts:
        yield "words", text


def _line_words(template: Template, view: View, x: float) -> list[Text]:
    """Return the line's name, on both its sides, or on the one where there is room."""
    forward = template.middle == "forward"
    first, second = (_("FORWARD"), _("CENTRELINE")) if forward else (_("TRACK"), _("MIDDLE"))
    y, both = view.y + 3.2, f"{first} {second}"
    tries = [
        *([Text(x - 4.4, y, first, size, bold=True, anchor="end"), Text(x + 4.4, y, second, size, bold=True)]
          for size in (8.6, 7.6)),
        [Text(x + 4.4, y, both, 8.6, bold=True)],
        [Text(x - 4.4, y, both, 8.6, bold=True, anchor="end")],
    ]  # fmt: skip
    edges = [] if forward or template.edge_mm is None else [x - template.edge_mm, x + template.edge_mm]
    for texts in tries:
        if all(_stands(box_mm(text), view, edges) for text in texts):
            return texts
    return []


def _stands(one: Box, view: View, edges: Sequence[float]) -> bool:
    """Tell whether words stand within a sheet and across no upright line."""
    left, _top, right, _bottom = one
    inside = view.x < left and right < view.x2
    return inside and not any(left - 0.4 < edge < right + 0.4 for edge in edges)


def track_edges(template: Template, view: View, room: Room) -> Layered:
    """Yield the edges of the track; what a raised track takes is hatched, to be cut out."""
    if template.edge_mm is None:
        return
    edges = [side * template.edge_mm for side in (-1, 1)]
    middle = (view.low + view.high) / 2
    for edge in edges:
        if view.holds((edge, middle)):
            x, _y = view.at((edge, 0.0))
            yield "track", Line(x, view.y, x, view.y2, BOX, DASHED)
            room.lines.append(LineString([(x, view.y), (x, view.y2)]))
            if template.middle == "aft" and template.raised:
                yield from _cut_out(x, 1 if edge < 0 else -1, view, room)


def _cut_out(x: float, inward: int, view: View, room: Room) -> Layered:
    """Yield a hatched band along an edge of a track that paper cannot lie over, and what to do there."""
    left, right = sorted((x, x + inward * _BAND_MM))
    top = view.y + _ARROW_MM + 1.0
    for line in hatch(((left, top), (right, top), (right, view.y2), (left, view.y2)), 1.6):
        yield "track", line
    at = x - 1.4 if inward > 0 else x + 3.4
    text = Text(at, view.y2 - 3.0, _("cut here: the track stands"), 7.6, bold=True, turn_deg=90)
    room.take([text])
    room.taken.append((left, top, right, view.y2))
    yield "words", text


def level_lines(template: Template, levels: Sequence[Rung], view: View, room: Room) -> Layered:
    """Yield the level lines that a tape is laid to, each named by its reading, rather beside the foot."""
    across = [view.at(point)[0] for point in template.outline]

    def in_its_way(text: Text) -> bool:
        """Tell whether words stand over or under the foot, where leaders want to go."""
        left, _top, right, _bottom = box_mm(text)
        return left < max(across) and right > min(across)

    inner = view.inset(_RING_SHORT_MM)
    for rung in levels:
        pieces = list(inner.cut(rung.ring))
        words = _("RING {height} from the masthead").format(height=grouped(rung.text))
        lines = room.lines
        room.lines = [*lines, *(LineString(piece) for piece in pieces)]
        places = sorted(_ring_words(words, pieces), key=in_its_way)
        named = next((text for text in places if room.is_free(box_mm(text))), None)
        if named is None and pieces and max(y for piece in pieces for _x, y in piece) > view.y2 - _FOOT_MM:
            room.lines = lines
            continue  # at the very foot of a sheet, without its reading: the next one has it
        for piece in pieces:
            for part in opened(piece, room.words):
                yield "rings", Polyline(part, MEDIUM, dash_mm=CENTRE)
        if named:
            room.take([named])
            yield "words", named


def _ring_words(words: str, pieces: Sequence[Sequence[Point]]) -> Iterator[Text]:
    """Yield the places where the name of a level line may stand: below it or above, at either end."""
    for piece in pieces:
        (left, right), (y1, y2) = sorted((piece[0][0], piece[-1][0])), (piece[0][1], piece[-1][1])
        for below in (3.4, -1.2):
            for inward in (1.0, 16.0):
                yield Text(left + inward, y1 + below, words, 8.0, bold=True)
                yield Text(right - inward, y2 + below, words, 8.0, bold=True, anchor="end")


def ladder(template: Template, levels: Sequence[Rung], view: View, room: Room) -> Layered:
    """Yield short level strokes on the line at round readings, and at the foot's own height."""
    if not view.holds((0.0, (view.low + view.high) / 2), 4.0):
        return
    level = {rung.up_mm for rung in levels}
    x, middle = view.at((0.0, 0.0))
    for rung in template.rungs:
        if rung.up_mm in level or not view.low + 7.0 <= rung.up_mm <= view.high - 7.0:
            continue
        y = view.at((0.0, rung.up_mm))[1]
        free = (text for text in _rung_words(rung, x, y) if room.is_free(box_mm(text)))
        named = next(free, None) if rung.named else None
        if any(left < x < right and top < y < bottom for left, top, right, bottom in room.taken):
            continue  # a hole stands on the line here
        half = 4.0 if rung.named else 2.2
        yield "line", Line(x - half, y, x + half, y, THIN)
        room.lines.append(LineString([(x - half, y), (x + half, y)]))
        if named:
            room.take([named])
            yield "words", named
    if view.holds((0.0, 0.0)):
        room.lines.append(LineString([(x - 6.0, middle), (x + 6.0, middle)]))
        yield "line", Line(x - 6.0, middle, x + 6.0, middle, THICK)


def _rung_words(rung: Rung, x: float, y: float) -> Iterator[Text]:
    """Yield the places where a rung's reading may stand: beyond its stroke, or where that is taken on it."""
    words, near = grouped(rung.text), abs(rung.up_mm) < _NEAR_MM
    yield Text(x + (7.0 if near else 4.6), y + 0.95, words, 7.6)
    yield Text(x + 1.2, y - 1.0, words, 7.6)


def girth_ruler(template: Template, view: View) -> Marks:
    """Yield the girth ruler along the foot of the map: round girths to either side of the line."""
    y = view.y2
    yield Line(view.x, y, view.x2, y, MEDIUM)
    for count, (away, words) in enumerate(template.ruler):
        for hand in (-1, 1) if away else (1,):
            if not view.holds((hand * away, view.low)):
                continue
            x = view.at((hand * away, view.low))[0]
            yield Line(x, y - (RULER_MM if count % 5 == 0 else 1.4), x, y, THIN)
            if count % 2 == 0 and away and view.x + 5.0 < x < view.x2 - 5.0:
                yield Text(x, y + 2.9, words, 7.2, anchor="middle")
