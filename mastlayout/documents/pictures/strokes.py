"""Strokes that small pictures share: arrows, a tube on end, a word."""

import math

from mastlayout.documents.page import MEDIUM, THIN, Anchor, Line, Marks, Point, Polyline, Text

WORD_PT = 7.2
GREY = 0.2


def word(x: float, y: float, text: str, anchor: Anchor = "start") -> Text:
    """Return a word of a picture on its baseline."""
    return Text(x, y, text, WORD_PT, anchor=anchor)


def arrow(tail: Point, head: Point, width_mm: float = THIN) -> Marks:
    """Yield a line with a small filled head."""
    yield Line(*tail, *head, width_mm)
    angle = math.atan2(head[1] - tail[1], head[0] - tail[0])
    wings = tuple(
        (head[0] - 1.6 * math.cos(angle + turn), head[1] - 1.6 * math.sin(angle + turn))
        for turn in (0.4, -0.4)
    )
    yield Polyline((head, *wings), 0, closed=True, fill=1.0)


def both_ways(start: Point, end: Point) -> Marks:
    """Yield a dimension: a line with a head at both ends."""
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    yield from arrow(middle, start)
    yield from arrow(middle, end)


def arc(centre: Point, radius: float, start_deg: float, end_deg: float, width_mm: float = MEDIUM) -> Polyline:
    """Return an arc, degrees clockwise from the right as the page is seen."""
    steps = [start_deg + (end_deg - start_deg) * count / 12 for count in range(13)]
    return Polyline(
        tuple(
            (centre[0] + radius * math.cos(math.radians(a)), centre[1] + radius * math.sin(math.radians(a)))
            for a in steps
        ),
        width_mm,
    )


def ellipse(centre: Point, half_width: float, half_height: float, width_mm: float = 0.7) -> Polyline:
    """Return an ellipse such as a mast cut across."""
    steps = [math.tau * count / 36 for count in range(36)]
    return Polyline(
        tuple((centre[0] + half_width * math.cos(a), centre[1] + half_height * math.sin(a)) for a in steps),
        width_mm,
        closed=True,
    )
