"""Hatching: lines that fill an outline."""

import math
from collections.abc import Iterator, Sequence

from shapely.geometry import LineString, Polygon

from mastlayout.documents.page import THIN, Line, Point


def hatch(outline: Sequence[Point], step_mm: float = 1.2, width_mm: float = THIN) -> Iterator[Line]:
    """Yield lines rising at 45 degrees, ``step_mm`` apart, clipped to a simple polygon."""
    area = Polygon(outline)
    left, top, right, bottom = area.bounds
    # A rising line holds x + y; the steps start from 0, so neighbouring hatches line up.
    pitch = step_mm * math.sqrt(2.0)
    for count in range(math.floor((left + top) / pitch), math.ceil((right + bottom) / pitch) + 1):
        sum_mm = count * pitch
        rising = LineString([(sum_mm - bottom, bottom), (sum_mm - top, top)])
        cut = area.intersection(rising)
        for part in getattr(cut, "geoms", [cut]):
            if isinstance(part, LineString) and part.length > 0:
                (x1, y1), (x2, y2) = part.coords[0], part.coords[-1]
                yield Line(x1, y1, x2, y2, width_mm)
