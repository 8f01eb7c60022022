"""The dimension lines of the holes in hand: girth from the forward line and from the track's edge."""

from collections.abc import Callable, Iterator, Sequence

from PySide6.QtCore import QPointF, QRectF

from mastlayout.documents.schedule.places import girth_reading
from mastlayout.frozen import dataclass
from mastlayout.geometry.skin import Skin
from mastlayout.ui.skin.development import Development
from mastlayout.ui.skin.holes import HoleMark, Room
from mastlayout.units import Units

_OFF_PX, TEXT_PX, _TICKS_PX = 15.0, 18.0, 5.0
# Holes within this height of one another are one row of a pattern.
_ROW_MM = 1.0


@dataclass(frozen=True)
class Dimension:
    """A dimension line between two pixels, its value, and where the value stands."""

    start: QPointF
    end: QPointF
    words: str
    box: QRectF


@dataclass(frozen=True)
class Measured:
    """A hole in hand, or the centre of a foot: its pixel, its girth and its height; a hole has a tag."""

    at: QPointF
    girth_mm: float
    z_mm: float
    tag: str = ""


def measured(marks: Sequence[HoleMark]) -> list[Measured]:
    """Return the round holes of marks with where they are on the skin."""
    found = []
    for mark in marks:
        holes = mark.placed.holes
        i = holes.index_of(mark.opening.number) if holes is not None else None
        if holes is not None and i is not None and mark.opening.use == "hole":
            found.append(
                Measured(mark.centre, float(holes.girth_mm[0, i]), float(holes.z_mm[0, i]), mark.words)
            )
    return found


def dimensions(
    holes: Sequence[Measured],
    foot: QRectF,
    development: Development,
    skin: Skin,
    units: Units,
    width_of: Callable[[str], float],
    room: Room,
) -> Iterator[Dimension]:
    """Yield the lines of the top row of holes above the foot, and of the bottom row below it."""
    if not holes:
        return
    rows = [max(hole.z_mm for hole in holes), min(hole.z_mm for hole in holes)]
    lines = [foot.top() - _OFF_PX, foot.bottom() + _OFF_PX]
    for z, y in zip(rows if rows[0] - rows[1] > _ROW_MM else rows[:1], lines, strict=False):
        if development.area.top() + TEXT_PX / 2 <= y <= development.area.bottom() - TEXT_PX / 2:
            row = [hole for hole in holes if abs(hole.z_mm - z) <= _ROW_MM]
            for hole in _outermost(row, development):
                for start, end, words in _of_hole(hole, y, development, skin, units):
                    box = _value_box(start, end, width_of(words), room, development)
                    if box is not None:
                        yield Dimension(start, end, words, box)


def _outermost(row: Sequence[Measured], development: Development) -> list[Measured]:
    """Return the hole farthest from the middle line on each side; one on the line stands for both."""
    offsets = [(development.offset_mm(hole.girth_mm), hole) for hole in row]
    left = [pair for pair in offsets if pair[0] < 0]
    right = [pair for pair in offsets if pair[0] >= 0]
    found = []
    if left:
        found.append(min(left, key=lambda pair: pair[0])[1])
    if right:
        found.append(max(right, key=lambda pair: pair[0])[1])
    return found


def _of_hole(
    hole: Measured, y: float, development: Development, skin: Skin, units: Units
) -> Iterator[tuple[QPointF, QPointF, str]]:
    """Yield the two lines of a hole with what they read, so far as both their ends show."""
    read = girth_reading(skin, hole.girth_mm, hole.z_mm, units)
    offset = development.offset_mm(hole.girth_mm)
    sign = 1.0 if offset >= 0 else -1.0
    half, track = development.half_girth_mm, development.half_track_mm
    if development.middle == "forward":
        line, edge = 0.0, sign * (half - track)
    else:
        line, edge = sign * half, sign * track
    for other, number in ((line, read.forward), (edge, read.track_edge)):
        x = development.x_px(other)
        if x is not None and number:
            yield QPointF(hole.at.x(), y), QPointF(x, y), read.text(number).removesuffix(".0")


def _value_box(
    start: QPointF, end: QPointF, wide: float, room: Room, development: Development
) -> QRectF | None:
    """Return where the value stands: on the line where it is long enough, else over it; None without room."""
    long = abs(end.x() - start.x())
    parts = (0.5, 0.35, 0.65, 0.2, 0.8) if long > wide + _TICKS_PX else ()
    on_line = [_centred(start + (end - start) * part, wide) for part in parts]
    # A value on a break hides it: better elsewhere on the line, but sooner there than off it.
    clear = [box for box in on_line if not any(box.intersects(gap) for gap in development.breaks)]
    over = _centred((start + end) / 2 - QPointF(0, TEXT_PX * 0.7), wide)
    beside = [over, over.translated(0, -TEXT_PX), over.translated(0, 1.4 * TEXT_PX)]
    return room.first_free([*clear, *on_line, *beside])


def _centred(at: QPointF, wide: float) -> QRectF:
    return QRectF(at.x() - wide / 2, at.y() - TEXT_PX / 2, wide, TEXT_PX)
