"""The ring picture: what each light and antenna sees round the compass, ahead up, in black and white."""

import math
from collections.abc import Sequence

from mastlayout.documents.hatching import hatch
from mastlayout.documents.page import MEDIUM, THIN, Circle, Line, Marks, Point, Polyline, Text
from mastlayout.ranges.ring_words import Lettered, Numbered
from mastlayout.ranges.rings import Bearings
from mastlayout.words import _

# The innermost ring leaves so much of the radius to the yacht.
_HULL = 0.3
_STEP_DEG = 2.0
_NUMBER_DEG = 292.5
_TICKS = ((30, 2.4, MEDIUM), (10, 1.2, THIN))
_WORD_PT, _BEARING_PT = 7.6, 7.4
_LEAST_DEG = 1.2


def compass(shown: Sequence[Numbered], centre: Point, radius: float) -> Marks:
    """Yield rings about a centre, the first outermost; all of it lies within ``radius`` + 6 mm."""
    yield from _scale(centre, radius)
    yield from _yacht(centre, _HULL * radius)
    thick = (1 - _HULL) * radius / max(len(shown), 1)
    for count, one in enumerate(shown):
        outer = radius - count * thick
        yield from _ring(one, centre, outer - thick * 0.92, outer - thick * 0.08)


def at(centre: Point, radius: float, bearing_deg: float) -> Point:
    """Return the point at a bearing, ahead up on the page."""
    angle = math.radians(bearing_deg)
    return centre[0] + radius * math.sin(angle), centre[1] - radius * math.cos(angle)


def wedge(centre: Point, inner: float, outer: float, bearings: Bearings) -> tuple[Point, ...]:
    """Return the corners of a part of a ring between two bearings, no thinner than can be seen."""
    first, last = bearings
    if last - first < _LEAST_DEG:
        first, last = (first + last - _LEAST_DEG) / 2, (first + last + _LEAST_DEG) / 2
    steps = max(math.ceil((last - first) / _STEP_DEG), 1)
    turn = [first + (last - first) * i / steps for i in range(steps + 1)]
    return (*(at(centre, outer, b) for b in turn), *(at(centre, inner, b) for b in reversed(turn)))


def unwound(first_deg: float, last_deg: float) -> Bearings:
    """Return bearings whose second is not less than the first."""
    return first_deg, first_deg + ((last_deg - first_deg) % 360.0 or 360.0)


def _scale(centre: Point, radius: float) -> Marks:
    yield Circle(*centre, radius, THIN)
    for step, long, width in _TICKS:
        for bearing in range(0, 360, step):
            yield Line(*at(centre, radius, bearing), *at(centre, radius + long, bearing), width)
    for bearing in range(0, 360, 30):
        x, y = at(centre, radius + 5.4, bearing)
        yield Text(x, y + 0.95, f"{bearing:03d}°", _BEARING_PT, anchor="middle")


def _yacht(centre: Point, radius: float) -> Marks:
    """Yield the yacht from above, bow up, in the innermost disc."""
    half, long = 0.26 * radius, 0.8 * radius
    side = [
        (half * math.sin(math.pi * (0.18 + 0.82 * t)), long * (2 * t - 1))
        for t in (i / 12 for i in range(13))
    ]
    x, y = centre
    points = [(x + a, y - b) for a, b in side] + [(x - a, y - b) for a, b in reversed(side)]
    yield Polyline(tuple(points), THIN, closed=True)
    yield Circle(x, y, 0.7, 0, 1.0)


def _ring(one: Numbered, centre: Point, inner: float, outer: float) -> Marks:
    for arc in one.ring.arcs:
        corners = wedge(centre, inner, outer, unwound(arc.first_deg, arc.last_deg))
        yield Polyline(corners, MEDIUM, closed=True)
        if arc.colour:
            yield from _named(arc.colour, centre, (inner + outer) / 2, unwound(arc.first_deg, arc.last_deg))
    for item in one.things:
        yield from _thing(item, centre, inner, outer)
    for item in one.things:
        yield from _letter(item, centre, inner, outer)
    x, y = at(centre, (inner + outer) / 2, _NUMBER_DEG)
    yield Circle(x, y, 2.1, THIN, 1.0)
    yield Text(x, y + 1.0, str(one.number), _WORD_PT, bold=True, anchor="middle", white=True)


def _named(colour: str, centre: Point, radius: float, bearings: Bearings) -> Marks:
    """Yield the letter of a light's colour, on paper that has none."""
    words = {"red": _("R"), "green": _("G"), "white": _("W")}[colour]
    middle = (bearings[0] + bearings[1]) / 2
    x, y = at(centre, radius, middle if bearings[1] - bearings[0] < 180.0 else 45.0)
    yield Text(x, y + 1.0, words, _WORD_PT, anchor="middle")


def _thing(item: Lettered, centre: Point, inner: float, outer: float) -> Marks:
    corners = wedge(centre, inner, outer, item.thing.seen)
    yield Polyline(corners, 0, closed=True, fill=0.0)
    yield from hatch(corners, 0.9, THIN)
    yield Polyline(corners, MEDIUM, closed=True)
    if item.dark is not None:
        yield Polyline(wedge(centre, inner, outer, item.dark), 0, closed=True, fill=1.0)


def _letter(item: Lettered, centre: Point, inner: float, outer: float) -> Marks:
    """Yield a thing's letter beside its wedge, on its own ground: another may lie there."""
    beside = item.thing.seen[1] + math.degrees(2.0 / outer)
    x, y = at(centre, (inner + outer) / 2, beside)
    yield Circle(x, y, 1.4, 0, 0.0)
    yield Text(x, y + 1.0, item.letter, _WORD_PT, bold=True, anchor="middle")
