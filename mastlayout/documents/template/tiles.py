"""How a template is cut into sheets: windows with an overlap, and what lies at each of their edges."""

from collections.abc import Iterator
from math import ceil

from mastlayout.documents.rows import Template
from mastlayout.documents.template.map import content, rings
from mastlayout.documents.template.view import View
from mastlayout.frozen import dataclass

OVERLAP_MM, HOLE_MM = 26.0, 12.0
# A drawing shows this much beyond the edge of the track.
_MARGIN_MM = 8.0
_ABOVE_MM, _BESIDE_MM, _BELOW_MM = 7.0, 5.0, 6.5
_SPARE_MM = 5.0
# A raised track keeps paper off by this much.
GAP_MM = 1.0


@dataclass(frozen=True)
class Tile:
    """One sheet of a template: its window, and which of how many columns and rows it is, from 0.

    ``next_left`` and ``next_high`` are where the sheets on its right and below begin, None for none.
    """

    view: View
    column: int
    row: int
    columns: int
    rows: int
    next_left: float | None
    next_high: float | None


def ends_at_raised_track(template: Template) -> bool:
    """Tell whether paper ends beside a track that stands up, and not at a groove or a line."""
    return template.raised and template.middle == "forward" and template.edge_mm is not None


def reach_mm(template: Template) -> float:
    """Return how far to either side paper can lie: to the track's edge, or to the centreline opposite."""
    if template.middle == "aft" or template.edge_mm is None:
        return template.half_mm
    return template.edge_mm - (GAP_MM if ends_at_raised_track(template) else 0.0)


def whole(template: Template) -> View:
    """Return the window of a template in one piece, its line at 0, from track edge to track edge."""
    _left, _right, low, high = _wanted(template)
    half = template.half_mm if template.middle == "aft" else template.edge_mm or template.half_mm
    side = half + _MARGIN_MM
    return View(-side, side, low, high, -side, -high)


def tiles(template: Template, x: float, y: float, width: float, height: float) -> list[Tile]:
    """Return the sheets of a template in rows from the masthead down, each within width by height mm."""
    left, right, low, high = _wanted(template)
    limit = reach_mm(template)
    excess = high - low - height
    if 0.0 < excess <= _SPARE_MM:
        low += excess  # less white below the last level line rather than another sheet
    across = list(_spans(left, right, width, (-limit, limit), 0.0))
    along = list(_rows(low, high, height))
    return [
        Tile(
            View(a, b, c, d, x + (width - (b - a)) / 2, y, _clear(column, len(across), row, len(along))),
            column,
            row,
            len(across),
            len(along),
            across[column + 1][0] if column + 1 < len(across) else None,
            along[row + 1][1] if row + 1 < len(along) else None,
        )
        for row, (c, d) in enumerate(along)
        for column, (a, b) in enumerate(across)
    ]


def _clear(column: int, columns: int, row: int, rows: int) -> tuple[float, float, float, float]:
    """Return how far from each edge a hole must lie: from those between sheets half their overlap at most."""
    between = (column > 0, column < columns - 1, row < rows - 1, row > 0)
    left, right, low, high = (HOLE_MM if inner else 0.0 for inner in between)
    return left, right, low, high


def _wanted(template: Template) -> tuple[float, float, float, float]:
    """Return the window that holds everything, with the level lines above and below it."""
    left, right, low, high = content(template)
    levels = [rung.up_mm for rung in rings(template)] or [low]
    limit = reach_mm(template)
    return (
        max(left - _BESIDE_MM, -limit),
        min(right + _BESIDE_MM, limit),
        min(low, *levels) - _BELOW_MM,
        max(high, *levels) + _ABOVE_MM,
    )


def _rows(low: float, high: float, size: float) -> Iterator[tuple[float, float]]:
    """Yield the spans that cover high to low from the masthead down: one about the middle, else more.

    Each begins as far down as its overlap lets it: no sheet shows most of the one above again, and the
    marks they are joined by stand at its foot, clear of its heading.
    """
    if high - low <= size:
        middle = (low + high) / 2
        yield middle - size / 2, middle + size / 2
        return
    for number in range(max(ceil((high - low - OVERLAP_MM) / (size - OVERLAP_MM)), 1)):
        top = high - number * (size - OVERLAP_MM)
        yield top - size, top


def _spans(
    low: float, high: float, size: float, limit: tuple[float, float], middle: float
) -> Iterator[tuple[float, float]]:
    """Yield the spans that cover low to high within a limit: one about ``middle`` if that does, else more."""
    least, most = limit
    if middle - size / 2 <= low and high <= middle + size / 2:
        yield max(middle - size / 2, least), min(middle + size / 2, most)
        return
    count = max(ceil((high - low - OVERLAP_MM) / (size - OVERLAP_MM)), 1)
    if count == 1:
        start = min(max((low + high - size) / 2, least), max(most - size, least))
        yield start, min(start + size, most)
        return
    step = (high - low - size) / (count - 1)
    for number in range(count):
        yield low + number * step, low + number * step + size
