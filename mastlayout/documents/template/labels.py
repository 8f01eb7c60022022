"""What is written beside a hole: tag, drill and both readings, where there is room for them."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field

from shapely.geometry import LineString, box
from shapely.geometry.base import BaseGeometry

from mastlayout.documents.lettering import Box, box_mm, grouped, width_mm
from mastlayout.documents.page import THIN, Anchor, Line, Marks, Point, Text
from mastlayout.frozen import dataclass

TAG_PT, SMALL_PT, LEAST_PT = 14.0, 7.6, 9.0
_TAG_MM, _STEP_MM, _CLEAR_MM = 3.7, 3.2, 0.5
_REACHES_MM = (1.2, 9.0, 18.0, 28.0)


@dataclass
class Room:
    """What is taken on a sheet: boxes no word may overlap, lines none may cross, and the window's own box.

    ``words`` are those boxes that are words: lines open for them.
    """

    window: Box
    taken: list[Box] = field(default_factory=list)
    words: list[Box] = field(default_factory=list)
    lines: list[LineString] = field(default_factory=list)

    def is_free(self, one: Box) -> bool:
        """Tell whether a box is in the window, over no other box and across no line."""
        left, top, right, bottom = self.window
        if one[0] < left + _CLEAR_MM or one[1] < top or one[2] > right - _CLEAR_MM or one[3] > bottom:
            return False
        if any(meet(one, other) for other in self.taken):
            return False
        area = box(one[0] - _CLEAR_MM, one[1] - _CLEAR_MM, one[2] + _CLEAR_MM, one[3] + _CLEAR_MM)
        return not any(area.intersects(line) for line in self.lines)

    def take(self, texts: Sequence[Text]) -> None:
        """Take the room of words."""
        boxes = [box_mm(text) for text in texts]
        self.taken += boxes
        self.words += boxes


def opened(line: Sequence[Point], words: Iterable[Box]) -> Iterator[tuple[Point, ...]]:
    """Yield the pieces of a line that opens where words stand on it."""
    rest: BaseGeometry = LineString(line)
    for left, top, right, bottom in words:
        rest = rest.difference(box(left - _CLEAR_MM, top - _CLEAR_MM, right + _CLEAR_MM, bottom + _CLEAR_MM))
    for part in getattr(rest, "geoms", [rest]):
        if isinstance(part, LineString) and part.length > 0:
            yield tuple((x, y) for x, y in part.coords)


def meet(one: Box, other: Box) -> bool:
    """Tell whether two boxes overlap."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def label(at: Point, reach_mm: float, tag: str, lines: Sequence[str], room: Room) -> Marks:
    """Yield the words of a hole at the nearest free place, with a leader where that is not beside it.

    Where there is no room for all of them the tag alone is written; the drilling schedule has the rest.
    """
    for size, under in ((TAG_PT, tuple(lines)), (LEAST_PT, tuple(lines)), (LEAST_PT, ())):
        places = (
            texts
            for further in _REACHES_MM
            for texts in _round_about(at, reach_mm + further, tag, size, under)
            if room.is_free(_around(texts))
        )
        texts = _clearest(at, reach_mm, places, room)
        if texts:
            area = _around(texts)
            room.taken.append(area)
            yield from texts
            yield from _leader(at, reach_mm, area)
            return


def _clearest(at: Point, reach_mm: float, places: Iterator[list[Text]], room: Room) -> list[Text]:
    """Return the first words whose leader crosses no others, else the first; none where there is no place."""
    first: list[Text] = []
    for texts in places:
        leader = [LineString([(m.x1, m.y1), (m.x2, m.y2)]) for m in _leader(at, reach_mm, _around(texts))]
        if not any(line.intersects(box(*one)) for line in leader for one in room.taken):
            return texts
        first = first or texts
    return first


def _round_about(
    at: Point, reach: float, tag: str, size: float, lines: Sequence[str]
) -> Iterator[list[Text]]:
    """Yield the words right, left, above and below of a hole, and askew."""
    x, y = at
    tag_mm = size / TAG_PT * _TAG_MM
    tall = tag_mm + _STEP_MM * len(lines)
    askew = reach * 0.4 + 0.6
    places: tuple[tuple[float, float, Anchor], ...] = (
        (x + reach, y - tall / 2, "start"), (x - reach, y - tall / 2, "end"),
        (x + askew, y - askew - tall, "start"), (x - askew, y - askew - tall, "end"),
        (x + askew, y + askew, "start"), (x - askew, y + askew, "end"),
        (x, y - reach - tall, "middle"), (x, y + reach, "middle"),
    )  # fmt: skip
    for left, top, anchor in places:
        words = [Text(left, top + tag_mm, tag, size, bold=True, anchor=anchor)]
        words += [
            Text(left, top + tag_mm + _STEP_MM * (count + 1), grouped(line), SMALL_PT, anchor=anchor)
            for count, line in enumerate(lines)
        ]
        yield words


def _around(texts: Sequence[Text]) -> Box:
    boxes = [box_mm(text) for text in texts]
    return (
        min(one[0] for one in boxes), min(one[1] for one in boxes),
        max(one[2] for one in boxes), max(one[3] for one in boxes),
    )  # fmt: skip


def _leader(at: Point, reach_mm: float, area: Box) -> Iterator[Line]:
    """Yield a line from words that stand apart to the edge of their hole."""
    x = min(max(at[0], area[0]), area[2])
    y = min(max(at[1], area[1]), area[3])
    away = ((x - at[0]) ** 2 + (y - at[1]) ** 2) ** 0.5
    if away > reach_mm + 4.0:
        part = (reach_mm + 0.4) / away
        yield Line(at[0] + part * (x - at[0]), at[1] + part * (y - at[1]), x, y, THIN)


def free_size(words: str, sizes_pt: Sequence[float], width: float) -> float | None:
    """Return the largest size in which bold words fit into ``width`` mm; None where none does."""
    return next((size for size in sizes_pt if width_mm(words, size, bold=True) <= width), None)
