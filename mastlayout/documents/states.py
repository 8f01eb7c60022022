"""The five states of a finding as small signs: shape first, so that a one-bit copy still tells them."""

import math

from mastlayout.documents.page import BOX, MEDIUM, Circle, Line, Marks, Polyline, Rect, Text
from mastlayout.documents.rows import Standing

_HALF_MM = 1.75


def state_sign(standing: Standing, x: float, y: float) -> Marks:
    """Yield the sign of a state about (x, y), 3.5 mm across."""
    if standing == "fault":
        yield from _octagon(x, y)
    elif standing == "caution":
        yield from _triangle(x, y)
    elif standing == "not checked":
        yield from _dashed_ring(x, y)
    elif standing == "note":
        yield Rect(x - 1.55, y - 1.55, 3.1, 3.1, MEDIUM)
        yield Text(x, y + 0.95, "i", 7.2, bold=True, anchor="middle")
    else:
        yield Circle(x, y, _HALF_MM, MEDIUM)
        yield Polyline(((x - 0.9, y), (x - 0.2, y + 0.8), (x + 0.95, y - 0.85)), BOX)


def _octagon(x: float, y: float) -> Marks:
    corners = [math.radians(22.5 + 45.0 * count) for count in range(8)]
    outline = tuple((x + 1.9 * math.cos(a), y + 1.9 * math.sin(a)) for a in corners)
    yield Polyline(outline, MEDIUM, closed=True, fill=1.0)
    for hand in (-1, 1):
        cross = (x - 0.85 * hand, y - 0.85), (x - 0.55 * hand, y - 1.15)
        far = (x + 0.85 * hand, y + 0.85), (x + 0.55 * hand, y + 1.15)
        yield Polyline((*cross, *far), 0, closed=True, fill=0.0)


def _triangle(x: float, y: float) -> Marks:
    yield Polyline(((x - 1.9, y + 1.5), (x, y - 1.8), (x + 1.9, y + 1.5)), 0.45, closed=True)
    yield Line(x, y - 0.7, x, y + 0.45, 0.4)
    yield Line(x, y + 0.75, x, y + 1.1, 0.4)


def _dashed_ring(x: float, y: float) -> Marks:
    for count in range(6):
        arc = [math.radians(60.0 * count + step) for step in (0.0, 12.0, 24.0, 36.0)]
        yield Polyline(tuple((x + _HALF_MM * math.cos(a), y + _HALF_MM * math.sin(a)) for a in arc), MEDIUM)
    yield Text(x, y + 0.95, "?", 7.2, bold=True, anchor="middle")
