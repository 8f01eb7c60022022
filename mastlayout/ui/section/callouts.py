"""Call-outs left and right of a drawing: sorted, least moved, never one over another or over the drawing."""

from collections.abc import Sequence
from functools import cache, lru_cache
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF

from mastlayout.documents.spread import spread
from mastlayout.frozen import dataclass
from mastlayout.ui.lines import broken, width_px
from mastlayout.ui.look import LABEL, VALUE

LINE_PX, VALUE_PX = 15.0, 19.0
# What rounding may take of the room.
_HAIR_PX = 1e-6
_BETWEEN_PX, _GUTTER_PX, _GAP_PX, _MOST_LINES = 5.0, 14.0, 4.0, 6


@dataclass(frozen=True)
class CallOut:
    """Words for a place in the drawing; the lowest ``rank`` stays where room is short.

    ``id`` is that of the thing they speak of, "" where it is a part of the mast. ``value`` is a
    figure that stands large over the words.
    """

    id: str
    words: str
    anchor: QPointF
    rank: int
    role: str = "second"
    value: str = ""

    @property
    def bold(self) -> bool:
        """Tell whether its words are bold: those of what is in hand."""
        return self.role == "accent"


@dataclass(frozen=True)
class Row:
    """A call-out in lines, with the rectangle of its words and the corners of its leader."""

    callout: CallOut
    lines: tuple[str, ...]
    box: QRectF
    leader: tuple[QPointF, ...]
    left: bool


@dataclass(frozen=True)
class _Set:
    """A call-out broken into lines, and the size that takes."""

    callout: CallOut
    lines: tuple[str, ...]
    wide: float
    tall: float

    @property
    def y(self) -> float:
        return self.callout.anchor.y()


def stand(
    callouts: Sequence[CallOut], most_px: float, area: QRectF, bodies: Sequence[QRectF], less: QRectF
) -> tuple[list[Row], int]:
    """Return the call-outs in their rows, and how many found no room beside ``bodies``.

    Where they do not all have room in ``area`` they stand in ``less``, which leaves some for saying so.
    """
    sides = [[_set(callout, most_px) for callout in own] for own in _sides(callouts, area.center().x())]
    rows = [
        _side(own, area, bodies, left=left, all_or_none=True)
        for left, own in zip((True, False), sides, strict=True)
    ]
    if sum(map(len, rows)) < len(callouts):
        rows = [_side(own, less, bodies, left=left) for left, own in zip((True, False), sides, strict=True)]
    return [row for side in rows for row in side], len(callouts) - sum(map(len, rows))


def _set(callout: CallOut, most_px: float) -> _Set:
    return _Set(callout, *_sized(callout.words, callout.value, most_px, bold=callout.bold))


@lru_cache(maxsize=4096)
def _sized(words: str, value: str, most_px: float, *, bold: bool) -> tuple[tuple[str, ...], float, float]:
    """Return words in lines, how wide and how tall they are: the same words come with every move."""

    def width_of(part: str) -> float:
        return width_px(part, LABEL, bold=bold)

    lines = broken(words, most_px, _MOST_LINES, width_of)
    wide = max(width_of(line) for line in lines)
    tall = LINE_PX * len(lines)
    if value:
        wide = max(wide, width_px(value, VALUE, bold=True))
        tall += VALUE_PX
    return lines, wide + 2.0, tall


def _sides(callouts: Sequence[CallOut], middle: float) -> tuple[list[CallOut], list[CallOut]]:
    """Give each call-out its side; what lies on the centreline goes to the emptier one."""
    left = [c for c in callouts if c.anchor.x() < middle - 1.0]
    right = [c for c in callouts if c.anchor.x() > middle + 1.0]
    for callout in callouts:
        if abs(callout.anchor.x() - middle) <= 1.0:
            (right if len(right) <= len(left) else left).append(callout)
    return left, right


def _side(
    own: Sequence[_Set], area: QRectF, bodies: Sequence[QRectF], *, left: bool, all_or_none: bool = False
) -> list[Row]:
    # What its longest word makes wider than a side would lie over what stands at the other.
    most = area.width() / 2 - _GAP_PX
    kept = sorted((one for one in own if one.wide <= most), key=lambda one: one.callout.rank)
    if all_or_none and len(kept) < len(own):
        return []
    while kept:
        wide = max(one.wide for one in kept)
        rising = sorted(kept, key=lambda one: one.y)
        free = _free(area, bodies, wide, left=left)
        places = _places(rising, free) if _have_room(rising, free) else ()
        if places:
            return [_row(one, y, wide, area, left=left) for one, y in zip(rising, places, strict=True)]
        if all_or_none:
            break
        kept.pop()
    return []


def _have_room(rising: Sequence[_Set], free: Sequence[tuple[float, float]]) -> bool:
    """Tell whether rows find room in their order: each stretch takes as many as it can."""
    taken = 0
    for low, high in free:
        room = high - low + _HAIR_PX
        while taken < len(rising) and rising[taken].tall <= room:
            room -= rising[taken].tall + _BETWEEN_PX
            taken += 1
    return taken == len(rising)


def _free(area: QRectF, bodies: Sequence[QRectF], wide: float, *, left: bool) -> list[tuple[float, float]]:
    """Return the stretches of a column, from the top, that no body reaches into and a line fits."""
    column = QRectF(area.left() if left else area.right() - wide, area.top(), wide, area.height())
    blocked = sorted((b.top(), b.bottom()) for b in bodies if b.intersects(column))
    free, at = [], area.top()
    for top, bottom in [*blocked, (area.bottom(), area.bottom())]:
        if top - at >= LINE_PX:
            free.append((at, top))
        at = max(at, bottom)
    return free


def _places(rising: Sequence[_Set], free: Sequence[tuple[float, float]]) -> tuple[float, ...]:
    """Return the middles of rows in free stretches, order kept, least moved; nothing without room."""

    @cache
    def best(first: int, stretch: int) -> tuple[float, tuple[float, ...]] | None:
        """Return how far rows from ``first`` on move in the stretches from ``stretch`` on, and where to."""
        if first == len(rising):
            return 0.0, ()
        if stretch == len(free):
            return None
        found = None
        for last in range(first, len(rising) + 1):
            here = _in_stretch(rising[first:last], *free[stretch])
            rest = best(last, stretch + 1) if here is not None else None
            if here is None:
                break
            if rest is not None and (found is None or here[0] + rest[0] < found[0]):
                found = here[0] + rest[0], here[1] + rest[1]
        return found

    whole = best(0, 0)
    return whole[1] if whole else ()


def _in_stretch(group: Sequence[_Set], low: float, high: float) -> tuple[float, tuple[float, ...]] | None:
    """Return how far a group moves in one stretch and the middles of its rows; None where it is too tall."""
    steps = [0.0]
    for before, after in pairwise(group):
        steps.append(steps[-1] + (before.tall + after.tall) / 2 + _BETWEEN_PX)
    if not group:
        return 0.0, ()
    first, last = low + group[0].tall / 2, high - group[-1].tall / 2 - steps[len(group) - 1]
    if last < first:
        return None
    # Less its own share of the steps, a row may stand level with the one before it.
    level = spread([one.y - step for one, step in zip(group, steps, strict=True)], 0.0, first, last)
    places = tuple(place + step for place, step in zip(level, steps, strict=True))
    return sum((place - one.y) ** 2 for place, one in zip(places, group, strict=True)), places


def _row(one: _Set, y: float, wide: float, area: QRectF, *, left: bool) -> Row:
    toward, anchor = 1.0 if left else -1.0, one.callout.anchor
    side = area.left() if left else area.right()
    box = QRectF(side if left else side - one.wide, y - one.tall / 2, one.wide, one.tall)
    edge, column = side + toward * (one.wide + _GAP_PX), side + toward * (wide + _GAP_PX)
    elbow = column + toward * _GUTTER_PX
    # Near the column there is no room for the whole gutter.
    elbow = min(elbow, anchor.x()) if left else max(elbow, anchor.x())
    turns = (QPointF(edge, y), QPointF(column, y), QPointF(elbow, anchor.y()), anchor)
    return Row(one.callout, one.lines, box, turns, left)
