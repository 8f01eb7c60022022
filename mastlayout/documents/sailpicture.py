"""The small picture of a sail laid flat: its outline, luff to the right, and its patches to one scale."""

from collections.abc import Sequence

from mastlayout.documents.page import DASHED, MEDIUM, THIN, Line, Marks, Point, Polyline, Text
from mastlayout.documents.rows import ChafeSail
from mastlayout.documents.spread import spread
from mastlayout.words import _

# The picture's own column, its luff and its numbers; how high it may be, mm.
PICTURE_MM = 58.0
_LUFF, _NUMBERS = 48.5, 56.5
_WIDE_MM, _LEAST_MM, _EDGE_MM, _CAPTION_MM = 46.5, 70.0, 2.5, 5.0
_SCALES = (10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 1000)
_PITCH_MM = 3.1


def picture_mm(sail: ChafeSail, beside_mm: float) -> float:
    """Return how high a sail's picture is, its scale below it, beside a table so high."""
    low, high = _span(sail, 1)
    return (high - low) / _scale(sail, beside_mm) + 2 * _EDGE_MM + _CAPTION_MM


def sail_picture(sail: ChafeSail, numbers: Sequence[int], top: float, beside_mm: float) -> Marks:
    """Yield a sail with all its patches, those of some ``numbers`` named; its edge is at ``top``."""
    scale, (_low, high) = _scale(sail, beside_mm), _span(sail, 1)
    bottom = top + picture_mm(sail, beside_mm)

    def place(point: Point) -> Point:
        """Return where a place on the sail, mm from its luff and up, is on the page."""
        return _LUFF - point[0] / scale, top + _EDGE_MM + (high - point[1]) / scale

    shapes = [tuple(place(point) for point in row.outline) for row in sail.rows]
    for shape in sorted(shapes, key=_area, reverse=True):
        yield Polyline(shape, THIN, closed=True, fill=0.2)
    yield Polyline(tuple(place(point) for point in sail.outline), MEDIUM, closed=True)
    if sail.reefed_mm:
        (x1, y1), (x2, y2) = (place((out, sail.reefed_mm)) for out in _span(sail, 0))
        yield Line(x1, y1, x2, y2, MEDIUM, DASHED)
    yield from _named({number: shapes[number - 1] for number in numbers}, top, bottom)
    words = _("1:{scale}, luff to the right").format(scale=scale)
    yield Text(1.0, bottom - 1.6, words, 7.2)


def _named(shapes: dict[int, tuple[Point, ...]], top: float, bottom: float) -> Marks:
    """Yield the patches' numbers beside the luff, each with a line to the middle of its own."""
    middles = sorted(
        ((number, _middle(shape)) for number, shape in shapes.items()), key=lambda one: one[1][1]
    )
    places = spread([y for _number, (_x, y) in middles], _PITCH_MM, top + 2.5, bottom - _CAPTION_MM - 1.0)
    for (number, (x, y)), level in zip(middles, places, strict=True):
        yield Line(x, y, _NUMBERS - 4.5, level - 0.9, THIN)
        yield Polyline(((x - 0.5, y), (x, y - 0.5), (x + 0.5, y), (x, y + 0.5)), 0, closed=True, fill=1.0)
        yield Text(_NUMBERS, level, str(number), 7.6, bold=True, anchor="end")


def _scale(sail: ChafeSail, beside_mm: float) -> int:
    room = max(_LEAST_MM, beside_mm) - 2 * _EDGE_MM - _CAPTION_MM
    (left, right), (low, high) = _span(sail, 0), _span(sail, 1)
    fits = (s for s in _SCALES if (right - left) / s <= _WIDE_MM and (high - low) / s <= room)
    return next(fits, _SCALES[-1])


def _span(sail: ChafeSail, axis: int) -> tuple[float, float]:
    values = [point[axis] for point in sail.outline]
    return min(values), max(values)


def _middle(shape: Sequence[Point]) -> Point:
    """Return the middle of a patch; of a strip, a place on it, halfway up."""
    import shapely  # noqa: PLC0415 - 0.1 s, and no other sheet needs it

    place = shapely.Polygon(shape).representative_point()
    return place.x, place.y


def _area(shape: Sequence[Point]) -> float:
    """Return twice the area of a polygon."""
    pairs = zip(shape, [*shape[1:], *shape[:1]], strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in pairs))
