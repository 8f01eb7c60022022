"""The foot and its holes in true shape beside their rows: seen from outside, the masthead up."""

from collections.abc import Iterator, Sequence

from shapely.geometry import LinearRing, box

from mastlayout.documents.faces import face_words, neighbours
from mastlayout.documents.hatching import hatch
from mastlayout.documents.lettering import Box, box_mm
from mastlayout.documents.page import (
    BOX,
    CENTRE,
    DASHED,
    MEDIUM,
    THIN,
    Anchor,
    Circle,
    Line,
    Marks,
    Point,
    Polyline,
    Rect,
    Text,
)
from mastlayout.documents.rows import DrillBlock, HoleRow, Outline
from mastlayout.frozen import dataclass

WIDTH_MM = 36.0
_WORDS_MM = 4.4
_MARGIN_MM = 1.2
_LARGEST_SCALE = 0.3
_SMALLEST_HOLE_MM = 0.9
_NUMBER_PT = 7.4


@dataclass(frozen=True)
class _Frame:
    """Where the foot's centre lies on the block and how large the foot is drawn."""

    x: float
    y: float
    scale: float

    def at(self, point: Point) -> Point:
        """Return a point of the foot on the block."""
        return self.x + self.scale * point[0], self.y - self.scale * point[1]

    def outline(self, outline: Outline) -> Outline:
        """Return an outline of the foot on the block."""
        return tuple(self.at(point) for point in outline)


def foot_picture(block: DrillBlock, y: float, height: float) -> Marks:
    """Yield the picture in the sheet's first column, from ``y`` down."""
    foot = block.foot
    frame = _frame(block, y, height)
    line = None if foot is None else foot.line_across_mm
    axis = frame.x if line is None else frame.at((line, 0.0))[0]
    yield from _words(block, y, axis)
    if line is not None:
        yield Line(axis, y + 3.4, axis, y + height - 0.8, THIN, CENTRE)
    if foot is None:
        return
    outline = frame.outline(foot.outline)
    if block.rows:
        yield Polyline(outline, 0.6, closed=True)
        yield from _cut(frame, foot.cutouts)
        edges = LinearRing(outline)
        yield from _holes(block.rows, frame, axis if line is not None else None, edges)
    else:
        yield from hatch(outline)
        yield Polyline(outline, 0.4, closed=True, dash_mm=DASHED)
        yield from _target(frame.x, frame.y)


def _frame(block: DrillBlock, y: float, height: float) -> _Frame:
    points = [row.at for row in block.rows]
    if block.foot:
        points += [*block.foot.outline, *(point for cut in block.foot.cutouts for point in cut)]
        if block.foot.line_across_mm is not None:
            points.append((block.foot.line_across_mm, points[0][1]))
    across, along = [p[0] for p in points or [(0, 0)]], [p[1] for p in points or [(0, 0)]]
    wide, tall = max(across) - min(across), max(along) - min(along)
    room = WIDTH_MM - 2 * _MARGIN_MM - 2 * _SMALLEST_HOLE_MM, height - _WORDS_MM - 2 * _MARGIN_MM - 1.0
    scale = min(_LARGEST_SCALE, room[0] / max(wide, 1.0), room[1] / max(tall, 1.0))
    middle_x, middle_y = WIDTH_MM / 2, y + _WORDS_MM + (height - _WORDS_MM - 1.0) / 2
    centre = (max(across) + min(across)) / 2, (max(along) + min(along)) / 2
    return _Frame(middle_x - scale * centre[0], middle_y + scale * centre[1], scale)


def _words(block: DrillBlock, y: float, axis: float) -> Marks:
    left, right = neighbours(block.face)
    yield Text(0.8, y + 2.9, face_words(left).short, 7.2, bold=True)
    yield Text(WIDTH_MM - 1.4, y + 2.9, face_words(right).short, 7.2, bold=True, anchor="end")
    x = min(max(axis, 12.0), WIDTH_MM - 12.0)
    yield Polyline(((x - 1.3, y + 3.1), (x, y + 1.0), (x + 1.3, y + 3.1)), 0, closed=True, fill=1.0)


def _cut(frame: _Frame, cutouts: Sequence[Outline]) -> Marks:
    for cutout in cutouts:
        yield Polyline(frame.outline(cutout), MEDIUM, closed=True, fill=0.15)


def _target(x: float, y: float) -> Marks:
    yield Circle(x, y, 2.0, BOX, 0.0)
    yield Line(x - 3.0, y, x + 3.0, y, BOX)
    yield Line(x, y - 3.0, x, y + 3.0, BOX)


def _holes(rows: Sequence[HoleRow], frame: _Frame, axis: float | None, edges: LinearRing) -> Marks:
    taken = [_hole_box(row, frame) for row in rows]
    for row in rows:
        x, y = frame.at(row.at)
        radius = _radius(row, frame)
        if row.stop:
            side = radius + 0.9
            yield Rect(x - side, y - side, 2 * side, 2 * side, BOX)
        yield Circle(x, y, radius, MEDIUM)
        for text in _number(row, (x, y), radius, frame.x if axis is None else axis):
            number = box_mm(text)
            on_line = axis is not None and number[0] < axis < number[2]
            if _is_free(number, taken) and not on_line and not edges.intersects(box(*number)):
                taken.append(number)
                yield text
                break


def _radius(row: HoleRow, frame: _Frame) -> float:
    return max((row.diameter_mm or row.drill_mm or 0.0) / 2 * frame.scale, _SMALLEST_HOLE_MM)


def _hole_box(row: HoleRow, frame: _Frame) -> Box:
    (x, y), reach = frame.at(row.at), _radius(row, frame) + (1.1 if row.stop else 0.2)
    return x - reach, y - reach, x + reach, y + reach


def _number(row: HoleRow, at: Point, radius: float, axis: float) -> Iterator[Text]:
    """Yield the places a hole's number may stand: first towards the line, at last above or below."""
    x, y = at
    words, reach = row.tag.rpartition(".")[2], radius + (1.7 if row.stop else 0.8)
    inward = 1 if x <= axis + 0.1 else -1
    for hand in (inward, -inward):
        anchor: Anchor = "start" if hand > 0 else "end"
        yield Text(x + hand * reach, y + 0.95, words, _NUMBER_PT, bold=True, anchor=anchor)
    yield Text(x, y - reach, words, _NUMBER_PT, bold=True, anchor="middle")
    yield Text(x, y + reach + 1.9, words, _NUMBER_PT, bold=True, anchor="middle")


def _is_free(number: Box, taken: Sequence[Box]) -> bool:
    left, top, right, bottom = number
    if left < 0.2 or right > WIDTH_MM - 0.2:
        return False
    return not any(left < x2 and x1 < right and top < y2 and y1 < bottom for x1, y1, x2, y2 in taken)
