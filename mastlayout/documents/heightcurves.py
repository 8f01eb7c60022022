"""Range by height in black and white: curves told apart by dashes and named at their ends, places beside."""

import math

import numpy as np

from mastlayout.documents.lettering import paragraph
from mastlayout.documents.page import DASHED, DOTTED, MEDIUM, THIN, Circle, Line, Marks, Polyline, Text
from mastlayout.documents.rows import Heights, Placing
from mastlayout.documents.sheet import letter_badge
from mastlayout.documents.spread import spread
from mastlayout.frozen import dataclass
from mastlayout.words import _

CURVES_MM = 86.0
_WIDE_MM, _LEFT_MM, _TOP_MM, _BOTTOM_MM = 101.0, 9.0, 10.5, 70.0
_PT, _LETTER_MM = 7.4, 3.6
_LONG: tuple[float, ...] = (4.0, 1.0)
_DASHES: tuple[tuple[float, ...], ...] = (DOTTED, (), DASHED, _LONG)
_POINTS, _MOST_TICKS = 40, 8
_STEPS = (1, 2, 5, 10, 20, 50)


@dataclass(frozen=True)
class _Scale:
    """Where heights, m, and distances, NM, are in a box whose top left corner is (x, y)."""

    x: float
    y: float
    top_m: float
    most_nm: float

    def across(self, nm: float) -> float:
        """Return where a distance, NM, is from the left, mm."""
        return self.x + _LEFT_MM + (_WIDE_MM - _LEFT_MM - 4.0) * nm / self.most_nm

    def up(self, height_m: float) -> float:
        """Return where a height, m, is from the top of the page, mm."""
        return self.y + _BOTTOM_MM - (_BOTTOM_MM - _TOP_MM) * height_m / self.top_m


def height_curves(heights: Heights, placing: Placing, x: float, y: float) -> Marks:
    """Yield the chart in a box whose top left corner is (x, y); nothing where no height is known."""
    if heights.top_m is None:
        return
    yield Text(x, y + 4.0, _("Range by height above the water"), 10.5, bold=True)
    most = max(factor * (math.sqrt(heights.top_m) + math.sqrt(end)) for _n, factor, end in heights.curves)
    scale = _Scale(x, y, heights.top_m, most)
    yield from _axes(heights, scale)
    # closer together near the water, where the curves bend
    high = heights.top_m * np.linspace(0.0, 1.0, _POINTS) ** 2
    for (name, factor, end), dash in zip(heights.curves, _DASHES, strict=True):
        nm = factor * (np.sqrt(high) + math.sqrt(end))
        points = tuple(
            (scale.across(n), scale.up(h)) for n, h in zip(nm.tolist(), high.tolist(), strict=True)
        )
        yield Polyline(points, MEDIUM, dash_mm=dash)
        yield Text(points[-1][0], y + _TOP_MM - 1.4, name, _PT, bold=True, anchor="middle")
    yield from _places(placing, scale)
    ships = ", ".join(name for name, _factor, end in heights.curves if end)
    words = _("Dotted: horizon of an eye, 2.08 √h. Others: radar horizon, ship's antenna at {ships} {unit}.")
    words = words.format(ships=ships, unit=heights.unit)
    yield from paragraph(x, y + _BOTTOM_MM + 8.0, words, _WIDE_MM, _PT)


def _axes(heights: Heights, scale: _Scale) -> Marks:
    left, bottom = scale.across(0.0), scale.up(0.0)
    yield Line(left, scale.up(heights.top_m or 0.0), left, bottom, MEDIUM)
    yield Line(left, bottom, scale.across(scale.most_nm), bottom, MEDIUM)
    for height in _ticks((heights.top_m or 0.0) / heights.unit_m):
        at = scale.up(height * heights.unit_m)
        yield Line(left, at, scale.across(scale.most_nm), at, THIN, DOTTED)
        words = f"{height} {heights.unit}" if not height else str(height)
        yield Text(left - 1.0, at + 0.9, words, _PT, anchor="end")
    for nm in _ticks(scale.most_nm):
        yield Line(scale.across(nm), bottom, scale.across(nm), bottom + 1.0, THIN)
        words = _("{nm} NM").format(nm=nm) if not nm else str(nm)
        yield Text(scale.across(nm), bottom + 4.0, words, _PT, anchor="middle")


def _ticks(most: float) -> list[int]:
    step = next((step for step in _STEPS if most / step <= _MOST_TICKS), _STEPS[-1])
    return list(range(0, int(most) + 1, step))


def _places(placing: Placing, scale: _Scale) -> Marks:
    """Yield each place's letter at its height, and a line across the curves at those that are free."""
    known = [(row, scale.up(row.water_m)) for row in placing.places if row.water_m is not None]
    known.sort(key=lambda one: one[1])
    spots = spread([y for _row, y in known], _LETTER_MM, scale.y + _TOP_MM, scale.y + _BOTTOM_MM)
    left = scale.across(0.0)
    for (row, y), spot in zip(known, spots, strict=True):
        yield Line(left, y, left + 5.0, spot, THIN)
        if row.free:
            yield Line(left, y, scale.across(scale.most_nm), y, THIN)
            yield from letter_badge(left + 5.0, spot + 0.9, row.letter)
        else:
            # On its own ground: a height's dotted line may lie there.
            yield Circle(left + 7.1, spot, 1.5, 0, 0.0)
            yield Text(left + 7.1, spot + 0.9, row.letter, _PT, bold=True, anchor="middle")
