"""The ring picture: what each light and antenna sees round the compass, ahead up, in black and white."""

import math
from collections.abc import Sequence

from mastlayout.documents.hatching import hatch
from mastlayout.documents.page import MEDIUM, THIN, Circle, Line, Marks, Point, Polyline, Text
from mastlayout.ranges.ring_words import Lettered, Numbered
from mastlayout.ranges.rings import Arc, Bearings
from mastlayout.words import _

# The innermost ring leaves so much of the radius to the yacht.
_HULL = 0.3
_STEP_DEG = 2.0
_NUMBER_DEG = 292.5
_TICKS = ((30, 2.4, MEDIUM), (10, 1.2, THIN))
_WORD_PT, _BEARING_PT = 7.6, 7.4
_LEAST_DEG = 1.2
# How far off its wedge a letter stands, and how much room it wants to each side.
_BESIDE_MM, _CLEAR_MM = 1.7, 1.2


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
            yield from _named(arc, at(centre, (inner + outer) / 2, colour_deg(arc)))
    for item in one.things:
        yield from _thing(item, centre, inner, outer)
    middle = (inner + outer) / 2
    for item, bearing in zip(
        one.things, letters_deg(one, middle, _BESIDE_MM, _CLEAR_MM, _NUMBER_DEG), strict=True
    ):
        yield from _letter(item, at(centre, middle, bearing))
    x, y = at(centre, (inner + outer) / 2, _NUMBER_DEG)
    yield Circle(x, y, 2.1, THIN, 1.0)
    yield Text(x, y + 1.0, str(one.number), _WORD_PT, bold=True, anchor="middle", white=True)


def colour_deg(arc: Arc) -> float:
    """Return the bearing at which the name of an arc's colour stands."""
    first, last = unwound(arc.first_deg, arc.last_deg)
    return (first + last) / 2 if last - first < 180.0 else 45.0


def _named(arc: Arc, place: Point) -> Marks:
    """Yield the letter of a light's colour, on paper that has none."""
    words = {"red": _("R"), "green": _("G"), "white": _("W")}[arc.colour]
    yield Text(place[0], place[1] + 1.0, words, _WORD_PT, anchor="middle")


def _thing(item: Lettered, centre: Point, inner: float, outer: float) -> Marks:
    corners = wedge(centre, inner, outer, item.thing.seen)
    yield Polyline(corners, 0, closed=True, fill=0.0)
    yield from hatch(corners, 0.9, THIN)
    yield Polyline(corners, MEDIUM, closed=True)
    if item.dark is not None:
        yield Polyline(wedge(centre, inner, outer, item.dark), 0, closed=True, fill=1.0)


def letters_deg(one: Numbered, radius: float, off: float, room: float, number_deg: float) -> list[float]:
    """Return the bearing of each thing's letter: after its wedge, before it, or on it: the freest.

    ``off`` is how far off its wedge a letter stands and ``room`` what it wants to each side, as
    ``radius`` is; the ring's number stands at ``number_deg``.
    """
    beside, clear = (math.degrees(far / radius) for far in (off, room))
    taken = [number_deg, *(colour_deg(arc) for arc in one.ring.arcs if arc.colour)]
    found: list[float] = []
    for item in one.things:
        first, last = unwound(*item.thing.seen)
        others = [unwound(*other.thing.seen) for other in one.things if other is not item]

        def crowded(
            bearing: float, others: Sequence[Bearings] = others, of: Bearings = (first, last)
        ) -> tuple[int, int, bool]:
            """Tell how many signs it would lie on, how many others' wedges: then rather its own."""
            on = sum(_apart_deg(bearing, sign) < 2 * clear for sign in (*taken, *found))
            across = sum(_within(bearing, wedge_, clear) for wedge_ in others)
            return on, across, _within(bearing, of, 0.0) is not bool(across)

        found.append(min((last + beside, first - beside, (first + last) / 2), key=crowded))
    return found


def _apart_deg(one: float, other: float) -> float:
    return abs((one - other + 180.0) % 360.0 - 180.0)


def _within(bearing: float, bearings: Bearings, clear: float) -> bool:
    """Tell whether a bearing lies between two others, or as near to them as ``clear``."""
    half = (bearings[1] - bearings[0]) / 2
    return _apart_deg(bearing, bearings[0] + half) < half + clear


def _letter(item: Lettered, place: Point) -> Marks:
    """Yield a thing's letter on its own ground: another may lie there."""
    x, y = place
    yield Circle(x, y, 1.3, 0, 0.0)
    yield Text(x, y + 1.0, item.letter, _WORD_PT, bold=True, anchor="middle")
