"""The mast as the elevation draws it: tape, outline, gear, stays, deck and water, to scale."""

from collections.abc import Iterator

from mastlayout.documents.lettering import Box, box_mm, one_line, width_mm
from mastlayout.documents.page import BOX, DASHED, MEDIUM, Line, Marks, Point, Polyline, Rect, Text
from mastlayout.documents.rows import Elevation, Outline, SheetHead, StayLine
from mastlayout.documents.sheet import FOOT_MM
from mastlayout.frozen import dataclass
from mastlayout.units import MM_PER_INCH
from mastlayout.words import _

TOP_MM, BELOW_MM, ELBOW_MM, AXIS_X = 37.0, 27.0, 46.0, 22.5
_TAPE_X, _STAY_REACH_MM = 5.6, 15.0
_STAY_DROPS_MM = (40.0, 32.0, 25.0, 48.0, 18.0)
# A name keeps this far off mast and gear, a stay off the tape's scale.
_CLEAR_MM, _OFF_TAPE_MM = 0.8, 3.0


@dataclass(frozen=True)
class MastFrame:
    """One sheet of an elevation: its block, its scale, and where the axis and the masthead lie."""

    width: float
    height: float
    scale: int

    def at(self, point: Point) -> Point:
        """Return a point (forward, from the masthead) on the block."""
        return AXIS_X + point[0] / self.scale, TOP_MM + point[1] / self.scale

    @property
    def bottom(self) -> float:
        """The lowest a label or the mast may reach."""
        return self.height - FOOT_MM - BELOW_MM


def tape(head: SheetHead, elevation: Elevation, frame_: MastFrame) -> Marks:
    """Yield the tape scale left of the mast: whole metres, or every fifth foot, from the masthead."""
    metric = head.units == "metric"
    step, part = (1, 1000.0) if metric else (5, 12 * MM_PER_INCH)
    while step * part / frame_.scale < 3.2:
        step *= 2
    top, bottom = frame_.at((0, 0))[1], frame_.at((0, elevation.length_mm))[1]
    yield Line(_TAPE_X, top, _TAPE_X, bottom, MEDIUM)
    yield Line(_TAPE_X - 1.4, bottom, _TAPE_X, bottom, MEDIUM)
    for count in range(int(elevation.length_mm / (step * part)) + 1):
        y = frame_.at((0, count * step * part))[1]
        yield Line(_TAPE_X - 1.4, y, _TAPE_X, y, MEDIUM)
        yield Text(_TAPE_X - 1.9, y + 0.9, str(count * step), 7.2, anchor="end")
    yield Text(_TAPE_X + 0.8, top - 0.6, _("m") if metric else _("ft"), 7.2)


def mast(elevation: Elevation, frame_: MastFrame) -> Marks:
    """Yield the mast's outline, new gear and spreaders."""
    profile = tuple(frame_.at(point) for point in elevation.profile)
    yield Polyline(profile, BOX, closed=True, fill=0.0)
    aft = min(x for x, _y in profile)
    # The aft face is drawn thick: that is where the luff runs and the tape is read.
    yield Line(aft, TOP_MM, aft, frame_.at((0, elevation.length_mm))[1], 0.7)
    for outline in elevation.gear:
        yield Polyline(tuple(frame_.at(point) for point in outline), MEDIUM, closed=True, fill=0.15)
    for place in elevation.spreaders_mm:
        x, y = frame_.at((0, place))
        yield Rect(x - 1.0, y - 0.4, 2.0, 0.8, 0, 1.0)


def stays(elevation: Elevation, frame_: MastFrame) -> Marks:
    """Yield each stay from the mast until it is cut, its name at the cut clear of gear and other names."""
    shapes = [
        tuple(frame_.at(point) for point in outline) for outline in (elevation.profile, *elevation.gear)
    ]
    taken = [_grown(_bounds(shape)) for shape in shapes]
    for stay in elevation.stays:
        cuts = [cut for drop in _STAY_DROPS_MM for cut in _cut(stay, frame_, drop, taken[0])]
        free = (cut for cut in cuts if not any(_meet(box_mm(cut[1]), other) for other in taken))
        line, name = next(free, cuts[0])
        yield line
        if name.text:
            left, top, right, bottom = box_mm(name)
            taken.append((left, top, right, bottom))
            yield Rect(left - 0.3, top - 0.2, right - left + 0.6, bottom - top + 0.4, 0, 0.0)
            yield name


def _bounds(outline: Outline) -> Box:
    xs, ys = [x for x, _y in outline], [y for _x, y in outline]
    return min(xs), min(ys), max(xs), max(ys)


def _grown(one: Box) -> Box:
    left, top, right, bottom = one
    return left - _CLEAR_MM, top - _CLEAR_MM, right + _CLEAR_MM, bottom + _CLEAR_MM


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _cut(stay: StayLine, frame_: MastFrame, drop_mm: float, mast_: Box) -> Iterator[tuple[Line, Text]]:
    """Yield a stay cut ``drop_mm`` below its upper end, or at the edge of the drawing, and its name.

    The name stands under the cut, or beside the mast where the stay keeps near to it.
    """
    (x1, y1), (x2, y2) = frame_.at(stay.upper), frame_.at(stay.lower)
    away, drop = x2 - x1, y2 - y1
    reach = min(_STAY_REACH_MM, x1 - _TAPE_X - _OFF_TAPE_MM) if away < 0 else _STAY_REACH_MM
    part = min(1.0, reach / max(abs(away), 0.01), drop_mm / max(abs(drop), 0.01))
    end_x, end_y = x1 + part * away, y1 + part * drop
    words = one_line(stay.name, 7.2, ELBOW_MM - _TAPE_X - 4.0)
    half = width_mm(words, 7.2) / 2
    beside = mast_[0] - half if away < 0 else mast_[2] + half
    for middle in (end_x, beside):
        x = min(max(middle, _TAPE_X + 1.5 + half), ELBOW_MM - 1.0 - half)
        yield Line(x1, y1, end_x, end_y), Text(x, end_y + 2.6, words, 7.2, anchor="middle")


def levels(elevation: Elevation, frame_: MastFrame) -> Marks:
    """Yield deck and water where they are known and on the sheet."""
    for place, words, dashes, left, right in (
        (elevation.deck_mm, _("deck"), (), -12.0, 10.0),
        (elevation.water_mm, _("water"), DASHED, -14.0, 14.0),
    ):
        if place is None:
            continue
        y = frame_.at((0, place))[1]
        if y < frame_.bottom + 4.0:
            yield Line(AXIS_X + left, y, AXIS_X + right, y, MEDIUM, dashes)
            yield Text(AXIS_X + left, y - 0.7, words, 7.2)
