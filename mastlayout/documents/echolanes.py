"""The echo of a reflector over distance, a lane a ship, in black and white: bars where it fades."""

import math

from mastlayout.documents.hatching import hatch
from mastlayout.documents.lettering import grouped, one_line, width_mm
from mastlayout.documents.page import DASHED, MEDIUM, THIN, Line, Marks, Polyline, Rect, Text
from mastlayout.documents.rows import EchoLane, PlaceRow
from mastlayout.documents.sheet import BADGE_MM, letter_badge
from mastlayout.ranges.two_ray import DECIBELS, FADED, FARTHEST_NM, NEAREST_NM
from mastlayout.words import _

LANE_MM = 18.6
_TITLE_MM, _WORDS_MM, _LEFT_MM, _BAR_MM = 5.4, 6.8, 9.0, 1.5
_PT, _BOLD_PT = 7.2, 9.0
_TICKS_NM = range(2, int(FARTHEST_NM) + 1, 2)
_NAMED_NM = _TICKS_NM[1::2]


def place_letter(x: float, y: float, row: PlaceRow) -> Marks:
    """Yield a place's letter, its baseline at ``y``: white on black where it is free of faults."""
    if row.free:
        yield from letter_badge(x, y, row.letter)
        return
    yield Rect(x, y - 2.4, BADGE_MM, 3.1, THIN)
    yield Text(x + BADGE_MM / 2, y, row.letter, 7.4, bold=True, anchor="middle")


def lanes_height_mm(row: PlaceRow) -> float:
    """Return how high the lanes of a place are, title and miles and all."""
    return _TITLE_MM + LANE_MM * len(row.lanes) + 4.0


def echo_lanes(row: PlaceRow, x: float, y: float, width: float) -> Marks:
    """Yield the lanes of one place in a box whose top left corner is (x, y)."""
    yield from place_letter(x, y + 3.4, row)
    words = f"{row.place}, {grouped(row.height)}"
    yield Text(x + 6.0, y + 3.4, one_line(words, _BOLD_PT, width - 6.0, bold=True), _BOLD_PT, bold=True)
    for count, lane in enumerate(row.lanes):
        yield from _lane(lane, x, y + _TITLE_MM + count * LANE_MM, width)
    bottom = y + _TITLE_MM + len(row.lanes) * LANE_MM
    for nm in _NAMED_NM:
        last = nm == _NAMED_NM[-1]
        words = _("{nm} NM").format(nm=nm) if last else str(nm)
        yield Text(_at(nm, x, width), bottom + 2.6, words, _PT, anchor="end" if last else "middle")


def _at(nm: float, x: float, width: float) -> float:
    return x + _LEFT_MM + (width - _LEFT_MM) * (nm - NEAREST_NM) / (FARTHEST_NM - NEAREST_NM)


def _lane(lane: EchoLane, x: float, y: float, width: float) -> Marks:
    told, *rest = lane.told
    off = width_mm(lane.title, _PT, bold=True) + 2.0
    yield Text(x, y + 2.6, lane.title, _PT, bold=True)
    yield Text(x + off, y + 2.6, one_line(told, _PT, width - off), _PT)
    yield Text(x, y + 5.8, one_line(" · ".join(rest), _PT, width), _PT)
    top, bottom = y + _WORDS_MM, y + LANE_MM - 1.0
    yield from _grid(x, top, bottom, width)
    if len(lane.curve) > 1:
        points = tuple((_at(nm, x, width), _up(decibels, top, bottom)) for nm, decibels in lane.curve)
        yield Polyline(points, 0.22)
    for first, last in lane.fades:
        left, right = _at(first, x, width), _at(last, x, width)
        yield Rect(left, bottom - _BAR_MM, max(right - left, 0.2), _BAR_MM, 0, 1.0)
    if lane.horizon_nm < FARTHEST_NM:
        left, right = _at(lane.horizon_nm, x, width), x + width
        yield from hatch(((left, top), (right, top), (right, bottom), (left, bottom)), 1.6)
    if lane.first_nm:
        at = _at(lane.first_nm, x, width)
        yield Line(at, top, at, bottom, MEDIUM)
        yield Polyline(((at - 1.2, top), (at + 1.2, top), (at, top + 2.0)), 0, closed=True, fill=1.0)


def _grid(x: float, top: float, bottom: float, width: float) -> Marks:
    for decibels, words, dash in ((0.0, _("0 dB"), ()), (10 * math.log10(FADED), _("−10"), DASHED)):
        y = _up(decibels, top, bottom)
        yield Line(x + _LEFT_MM, y, x + width, y, THIN, dash)
        yield Text(x + _LEFT_MM - 1.0, y + 0.9, words, _PT, anchor="end")
    for nm in _TICKS_NM:
        yield Line(_at(nm, x, width), bottom, _at(nm, x, width), bottom + 0.8, THIN)
    yield Line(x + _LEFT_MM, bottom, x + width, bottom, THIN)


def _up(decibels: float, top: float, bottom: float) -> float:
    low, high = DECIBELS
    return bottom - (bottom - top) * (min(max(decibels, low), high) - low) / (high - low)
