"""What can be said of a traced outline by plain arithmetic: that it is symmetric and crosses nowhere.

An outline is worked through once and remembered, since every edit asks again.
"""

import itertools
import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from mastlayout.model.parts import PathMistake
from mastlayout.words import _

SYMMETRY_MM = 0.5

Point = tuple[float, float]
_Box = tuple[float, float, float, float]


@lru_cache(maxsize=8)
def outline_mistakes(points: tuple[Point, ...]) -> tuple[PathMistake, ...]:
    """Return what is wrong with an outline's points (ahead, to port), in mm."""
    ring = [(at, point) for at, point in enumerate(points) if point != points[at - 1]]
    edges = list(zip(ring, [*ring[1:], *ring[:1]], strict=True))
    return tuple(_crossings(edges)) or tuple(_unlike_sides(ring, edges))


_Edge = tuple[tuple[int, Point], tuple[int, Point]]


def _crossings(edges: Sequence[_Edge]) -> Iterator[PathMistake]:
    """Tell the first place where the outline meets itself."""
    for one, other in _overlapping([_box(a, b) for (_i, a), (_j, b) in edges]):
        near = abs(one - other)
        if near not in (1, len(edges) - 1) and _meet(edges[one], edges[other]):
            first, second = sorted((edges[one][0][0], edges[other][0][0]))
            yield PathMistake(
                ("mast", "section", "points", second),
                _(
                    "the outline crosses itself: the line from point {second} meets the line from point "
                    "{first}; give the points in order round the mast"
                ).format(first=first + 1, second=second + 1),
            )
            return


def _unlike_sides(ring: Sequence[tuple[int, Point]], edges: Sequence[_Edge]) -> Iterator[PathMistake]:
    """Tell the first point that has no like on the other side of the centreline."""
    across = [y for _i, (_x, y) in ring]
    twice_centre = min(across) + max(across)
    mirrored = [(x, twice_centre - y) for _i, (x, y) in ring]
    boxes = [_box(a, b, SYMMETRY_MM) for (_i, a), (_j, b) in edges] + [_box(p, p) for p in mirrored]
    alike = set()
    for pair in _overlapping(boxes):
        edge, at = min(pair), max(pair) - len(edges)
        if edge < len(edges) and at >= 0 and _distance(mirrored[at], edges[edge]) <= SYMMETRY_MM:
            alike.add(at)
    for number, point in enumerate(mirrored):
        if number not in alike:
            off_mm = min(_distance(point, edge) for edge in edges)
            yield PathMistake(
                ("mast", "section", "points", ring[number][0]),
                _(
                    "the outline is not the same on both sides: mirrored, this point is {off:.1f} mm off; "
                    "{allowed:g} mm is allowed"
                ).format(off=off_mm, allowed=SYMMETRY_MM),
            )
            return


def _box(a: Point, b: Point, grown: float = 0.0) -> _Box:
    return (
        min(a[0], b[0]) - grown,
        max(a[0], b[0]) + grown,
        min(a[1], b[1]) - grown,
        max(a[1], b[1]) + grown,
    )


def _overlapping(boxes: Sequence[_Box]) -> Iterator[tuple[int, int]]:
    """Yield each pair of boxes that overlap, by sweeping along the axis on which they are shorter."""
    open_ones: list[int] = []
    if sum(box[1] - box[0] for box in boxes) > sum(box[3] - box[2] for box in boxes):
        boxes = [(low, high, left, right) for left, right, low, high in boxes]
    for at in sorted(range(len(boxes)), key=boxes.__getitem__):
        left, _right, low, high = boxes[at]
        open_ones = [other for other in open_ones if boxes[other][1] >= left]
        for other in open_ones:
            if boxes[other][2] <= high and boxes[other][3] >= low:
                yield other, at
        open_ones.append(at)


def _meet(one: _Edge, other: _Edge) -> bool:
    """Tell whether two edges whose boxes overlap share a point."""
    (_i, a), (_j, b) = one
    (_k, c), (_l, d) = other
    return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _distance(point: Point, edge: _Edge) -> float:
    """Return the distance in mm from a point to an edge."""
    (_i, a), (_j, b) = edge
    along = (b[0] - a[0], b[1] - a[1])
    to_point = (point[0] - a[0], point[1] - a[1])
    share = sum(itertools.starmap(float.__mul__, zip(along, to_point, strict=True))) / math.hypot(*along) ** 2
    share = min(1.0, max(0.0, share))
    return math.dist(point, (a[0] + share * along[0], a[1] + share * along[1]))
