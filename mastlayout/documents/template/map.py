"""What lies on the skin, drawn 1:1 by layer: what it is laid to, the foot, its holes, their words."""

import math
from collections.abc import Iterator, Mapping, Sequence

from shapely.geometry import LineString

from mastlayout.documents.faces import face_words, neighbours
from mastlayout.documents.page import BOX, MEDIUM, THICK, THIN, Circle, Point, Polyline, Rect, Text
from mastlayout.documents.rows import Rung, Template, TemplateHole
from mastlayout.documents.template.labels import Room, free_size, label
from mastlayout.documents.template.reference import (
    RULER_MM,
    Layered,
    ladder,
    level_lines,
    middle_line,
    track_edges,
)
from mastlayout.documents.template.view import View
from mastlayout.documents.walk import hold_of
from mastlayout.words import _

HAIR_MM, STOP_MM = 7.0, 5.0
_RING_BEYOND_MM = 4.0


def template_map(
    template: Template, view: View, why: Mapping[str, str], taken: Sequence[Text] = ()
) -> Layered:
    """Yield everything of a template that shows in a window, 1:1.

    ``why`` names for each hole that may not be drilled, by its tag, what holds it: “note a”.
    ``taken`` are words that stand there already.
    """
    room = Room((view.x, view.y, view.x2, view.y2 - RULER_MM))
    room.take(taken)
    yield from middle_line(template, view, room)
    yield from track_edges(template, view, room)
    yield from _foot(template, view, room)
    holes = [hole for hole in template.holes if view.holds_hole(hole.at)]
    for hole in holes:
        room.taken.append(_hole_box(hole, view, held=hole.row.tag in why))
        yield from _hole(hole, view, held=hole.row.tag in why)
    yield from level_lines(template, rings(template), view, room)
    yield from ladder(template, rings(template), view, room)
    for hole in holes:
        reach = STOP_MM if hole.row.tag in why else max(HAIR_MM, _radius(hole) + 2.0)
        for mark in label(view.at(hole.at), reach, hole.row.tag, _lines(template, hole, why), room):
            yield "words", mark


def held_tags(template: Template) -> dict[str, str]:
    """Return the holes that may not be drilled, by tag, each with two words why where no note says so.

    One that falls into the track, where paper cannot lie, is marked by the schedule alone.
    """
    holds = ((hole.row.tag, hold_of(hole.row, template.block)) for hole in template.holes)
    held = {tag: hold.words for tag, hold in holds if hold is not None}
    if template.middle == "aft" and template.edge_mm is not None:
        found = [hole for hole in template.holes if abs(hole.at[0]) < template.edge_mm]
        held = {hole.row.tag: _("on the track") for hole in found} | held
    return held


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
    above = [rung for rung in template.rungs if rung.up_mm >= high + _RING_BEYOND_MM]
    below = [rung for rung in template.rungs if rung.up_mm <= low - _RING_BEYOND_MM]
    return tuple(above[-1:] + below[:1])


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
        yield "held", Rect(x - STOP_MM, y - STOP_MM, 2 * STOP_MM, 2 * STOP_MM, BOX, 0.0)
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
