"""What lies on the skin, drawn 1:1: the line, level lines, track, foot, holes, and their words, by layer."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from shapely.geometry import LineString

from mastlayout.documents.faces import face_words, neighbours
from mastlayout.documents.hatching import hatch
from mastlayout.documents.lettering import box_mm, grouped
from mastlayout.documents.page import (
    BOX,
    CENTRE,
    DASHED,
    MEDIUM,
    THICK,
    THIN,
    Circle,
    Line,
    Mark,
    Point,
    Polyline,
    Rect,
    Text,
)
from mastlayout.documents.rows import Rung, Template, TemplateHole
from mastlayout.documents.template.labels import Room, free_size, label
from mastlayout.documents.template.view import View
from mastlayout.documents.walk import hold_of
from mastlayout.words import _

Layer = Literal["line", "track", "rings", "foot", "holes", "held", "words"]
Layered = Iterator[tuple[Layer, Mark]]
HAIR_MM, STOP_MM = 7.0, 5.0
_RING_BEYOND_MM, _RING_SHORT_MM = 4.0, 6.0
# A rung this near to the foot's own height is named beyond its stroke.
_NEAR_MM = 3.0
_ARROW_MM, _BAND_MM = 6.0, 3.0


def template_map(
    template: Template, view: View, why: Mapping[str, str], taken: Sequence[Text] = ()
) -> Layered:
    """Yield everything of a template that shows in a window, 1:1.

    ``why`` names for each hole that may not be drilled, by its tag, what holds it: “note a”.
    ``taken`` are words that stand there already.
    """
    room = Room((view.x, view.y, view.x2, view.y2))
    room.take(taken)
    yield from _line(template, view, room)
    yield from _track(template, view, room)
    yield from _foot(template, view, room)
    holes = [hole for hole in template.holes if view.holds(hole.at)]
    for hole in holes:
        room.taken.append(_hole_box(hole, view, held=hole.row.tag in why))
        yield from _hole(hole, view, held=hole.row.tag in why)
    yield from _rings(template, view, room)
    yield from _ladder(template, view, room)
    for hole in holes:
        reach = STOP_MM if hole.row.tag in why else max(HAIR_MM, _radius(hole) + 2.0)
        for mark in label(view.at(hole.at), reach, hole.row.tag, _lines(template, hole, why), room):
            yield "words", mark


def held_tags(template: Template) -> dict[str, str]:
    """Return the holes that may not be drilled, by tag, each with two words why where no note says so."""
    holds = ((hole.row.tag, hold_of(hole.row, template.block)) for hole in template.holes)
    return {tag: hold.words for tag, hold in holds if hold is not None}


def content(template: Template) -> tuple[float, float, float, float]:
    """Return left, right, low and high of what must show: the foot, its holes, and the line."""
    points = [*template.outline, *(point for hole in template.holes for point in hole.cut)]
    for hole in template.holes:
        reach = max(_radius(hole), HAIR_MM) + 1.0
        points += [(hole.at[0] - reach, hole.at[1] - reach), (hole.at[0] + reach, hole.at[1] + reach)]
    rights, ups = [right for right, _up in points] + [0.0], [up for _right, up in points]
    return min(rights), max(rights), min(ups), max(ups)


def rings(template: Template) -> tuple[Rung, ...]:
    """Return the level lines a tape is laid to: one above and one below all there is."""
    _left, _right, low, high = content(template)
    level = [rung for rung in template.rungs if rung.whole]
    above = [rung for rung in level if rung.up_mm >= high + _RING_BEYOND_MM]
    below = [rung for rung in level if rung.up_mm <= low - _RING_BEYOND_MM]
    return tuple(above[-1:] + below[:1])


def _line(template: Template, view: View, room: Room) -> Layered:
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
    tries = (
        [Text(x - 4.4, y, first, 8.6, bold=True, anchor="end"), Text(x + 4.4, y, second, 8.6, bold=True)],
        [Text(x + 4.4, y, both, 8.6, bold=True)],
        [Text(x - 4.4, y, both, 8.6, bold=True, anchor="end")],
    )
    for texts in tries:
        if all(view.x < box_mm(text)[0] and box_mm(text)[2] < view.x2 for text in texts):
            return texts
    return []


def side_words(
    template: Template, view: View, baseline: float, sizes_pt: Sequence[float] = (24.0, 18.0, 13.0, 9.0)
) -> Iterator[Text]:
    """Yield PORT and STARBOARD, each on its side of the line, as large as there is room."""
    line = min(max(view.at((0.0, 0.0))[0], view.x), view.x2)
    left, right = neighbours(template.middle)
    clear = 28.0 if view.x < line < view.x2 else 3.0
    for face, width in ((left, line - view.x - clear), (right, view.x2 - line - clear)):
        words = face_words(face).side
        size = free_size(words, sizes_pt, width)
        if size is not None:
            x = view.x + 2.0 if face == left else view.x2 - 2.0
            yield Text(x, baseline, words, size, bold=True, anchor="start" if face == left else "end")


def _track(template: Template, view: View, room: Room) -> Layered:
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
    yield "words", text


def _foot(template: Template, view: View, room: Room) -> Layered:
    closed = (*template.outline, template.outline[0])
    for piece in view.cut(closed):
        yield "foot", Polyline(piece, THICK)
        room.lines.append(LineString(piece))


def _radius(hole: TemplateHole) -> float:
    return (hole.row.diameter_mm or 0.0) / 2


def _hole_box(hole: TemplateHole, view: View, *, held: bool) -> tuple[float, float, float, float]:
    (x, y), reach = view.at(hole.at), STOP_MM + 0.6 if held else max(_radius(hole), 3.0) + 0.4
    return x - reach, y - reach, x + reach, y + reach


def _hole(hole: TemplateHole, view: View, *, held: bool) -> Layered:
    x, y = view.at(hole.at)
    if hole.cut:
        for piece in view.cut((*hole.cut, hole.cut[0])):
            yield "held" if held else "holes", Polyline(piece, MEDIUM)
    if held:
        # No centre mark: nobody can punch what is not there.
        yield "held", Rect(x - STOP_MM, y - STOP_MM, 2 * STOP_MM, 2 * STOP_MM, BOX)
        yield "held", Text(x, y + 1.15, _("STOP"), 8.6, bold=True, anchor="middle")
        return
    radius = _radius(hole)
    if radius and not hole.cut:
        if view.holds(hole.at, radius):
            yield "holes", Circle(x, y, radius, MEDIUM)
        else:
            for piece in view.cut(_round(hole.at, radius)):
                yield "holes", Polyline(piece, MEDIUM)
    reach = max(HAIR_MM, radius + 2.0)
    for piece in view.cut(((hole.at[0] - reach, hole.at[1]), (hole.at[0] + reach, hole.at[1]))):
        yield "holes", Polyline(piece, THIN)
    for piece in view.cut(((hole.at[0], hole.at[1] - reach), (hole.at[0], hole.at[1] + reach))):
        yield "holes", Polyline(piece, THIN)


def _round(at: Point, radius: float) -> list[Point]:
    """Return a circle as a line, for one that an edge cuts."""
    angles = (math.tau * count / 72 for count in range(73))
    return [(at[0] + radius * math.cos(angle), at[1] + radius * math.sin(angle)) for angle in angles]


def _lines(template: Template, hole: TemplateHole, why: Mapping[str, str]) -> Sequence[str]:
    row = hole.row
    if row.tag in why:
        return (_("{why}: no mark here").format(why=why[row.tag]),)
    height = row.height.text(row.height.masthead)
    drill = f"⌀{row.drill_mm:.1f} · {height}" if row.drill_mm is not None else height
    around = row.round
    if around.side is None:
        return (drill, _("on the line") if around.forward == 0 else _("on the track"))
    side = _("PORT") if around.side == "port" else _("STBD")
    if template.middle == "aft" and template.edge_mm is not None:
        words = _("{round} off the track, {side}")
        return (drill, words.format(round=around.text(around.track_edge), side=side))
    return (drill, f"{around.text(around.forward)} {side}")


def _rings(template: Template, view: View, room: Room) -> Layered:
    inner = view.inset(_RING_SHORT_MM)
    for rung in rings(template):
        pieces = list(inner.cut(rung.ring))
        for piece in pieces:
            yield "rings", Polyline(piece, MEDIUM, dash_mm=CENTRE)
        room.lines += [LineString(piece) for piece in pieces]
        words = _("RING {height} from the masthead").format(height=grouped(rung.text))
        for text in _ring_words(words, pieces):
            if room.is_free(box_mm(text)):
                room.take([text])
                yield "words", text
                break


def _ring_words(words: str, pieces: Sequence[Sequence[Point]]) -> Iterator[Text]:
    """Yield the places where the name of a level line may stand: below it or above, at either end."""
    for piece in pieces:
        (left, right), (y1, y2) = sorted((piece[0][0], piece[-1][0])), (piece[0][1], piece[-1][1])
        for below in (3.4, -1.2):
            yield Text(left + 1.0, y1 + below, words, 8.0, bold=True)
            yield Text(right - 1.0, y2 + below, words, 8.0, bold=True, anchor="end")


def _ladder(template: Template, view: View, room: Room) -> Layered:
    """Yield short level strokes on the line at round readings, and at the foot's own height."""
    if not view.holds((0.0, (view.low + view.high) / 2), 4.0):
        return
    level = {rung.up_mm for rung in rings(template)}
    x, middle = view.at((0.0, 0.0))
    for rung in template.rungs:
        if rung.up_mm in level or not view.low + 7.0 <= rung.up_mm <= view.high - 7.0:
            continue
        y = view.at((0.0, rung.up_mm))[1]
        beside = 7.0 if abs(rung.up_mm) < _NEAR_MM else 4.6
        text = Text(x + beside, y + 0.95, grouped(rung.text), 7.6)
        named = rung.named and room.is_free(box_mm(text))
        half = 4.0 if rung.named else 2.2
        yield "line", Line(x - half, y, x + half, y, THIN)
        room.lines.append(LineString([(x - half, y), (x + half, y)]))
        if named:
            room.take([text])
            yield "words", text
    if view.holds((0.0, 0.0)):
        room.lines.append(LineString([(x - 6.0, middle), (x + 6.0, middle)]))
        yield "line", Line(x - 6.0, middle, x + 6.0, middle, THICK)
