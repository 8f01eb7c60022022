"""Call-outs left and right of a drawing: sorted, least moved, never one over another or over the drawing."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement, pairwise

from PySide6.QtCore import QPointF, QRectF

from mastlayout.documents.spread import spread

PITCH_PX, _ROW_PX, _GUTTER_PX, _GAP_PX = 20.0, 18.0, 16.0, 4.0


@dataclass(frozen=True)
class CallOut:
    """Words for a place in the drawing; the lowest ``rank`` stays where room is short.

    ``id`` is that of the thing they speak of, "" where it is a part of the mast.
    """

    id: str
    words: str
    anchor: QPointF
    rank: int
    role: str = "second"


@dataclass(frozen=True)
class Row:
    """A call-out with the rectangle of its words and the corners of its leader."""

    callout: CallOut
    box: QRectF
    leader: tuple[QPointF, ...]
    left: bool


def stand(
    callouts: Sequence[CallOut], width_of: Callable[[str], float], area: QRectF, bodies: Sequence[QRectF]
) -> tuple[list[Row], int]:
    """Return the call-outs in their rows, and how many found no room beside ``bodies``."""
    rows: list[Row] = []
    for left, own in zip((True, False), _sides(callouts, area.center().x()), strict=True):
        rows += _side(own, width_of, area, bodies, left=left)
    return rows, len(callouts) - len(rows)


def _sides(callouts: Sequence[CallOut], middle: float) -> tuple[list[CallOut], list[CallOut]]:
    """Give each call-out its side; what lies on the centreline goes to the emptier one."""
    left = [c for c in callouts if c.anchor.x() < middle - 1.0]
    right = [c for c in callouts if c.anchor.x() > middle + 1.0]
    for callout in callouts:
        if callout not in left and callout not in right:
            (right if len(right) <= len(left) else left).append(callout)
    return left, right


def _side(
    own: Sequence[CallOut],
    width_of: Callable[[str], float],
    area: QRectF,
    bodies: Sequence[QRectF],
    *,
    left: bool,
) -> list[Row]:
    kept = sorted(own, key=lambda callout: callout.rank)
    while kept:
        wide = max(width_of(callout.words) for callout in kept)
        rising = sorted(kept, key=lambda callout: callout.anchor.y())
        places = _places([c.anchor.y() for c in rising], _free(area, bodies, wide, left=left))
        if places:
            return [
                _row(callout, y, width_of(callout.words), wide, area, left=left)
                for callout, y in zip(rising, places, strict=True)
            ]
        kept.pop()
    return []


def _free(area: QRectF, bodies: Sequence[QRectF], wide: float, *, left: bool) -> list[tuple[float, float]]:
    """Return the stretches of a column, from the top, that no body reaches into and a row fits."""
    column = QRectF(area.left() if left else area.right() - wide, area.top(), wide, area.height())
    blocked = sorted((b.top(), b.bottom()) for b in bodies if b.intersects(column))
    free, at = [], area.top()
    for top, bottom in [*blocked, (area.bottom(), area.bottom())]:
        if top - at >= _ROW_PX:
            free.append((at, top))
        at = max(at, bottom)
    return free


def _places(wanted: Sequence[float], free: Sequence[tuple[float, float]]) -> list[float]:
    """Return rows for anchors (rising) in free stretches, order kept, least moved; nothing where none fit."""
    best: list[float] = []
    for cuts in combinations_with_replacement(range(len(wanted) + 1), max(len(free) - 1, 0)):
        bounds = [0, *cuts, len(wanted)]
        groups = [wanted[a:b] for a, b in pairwise(bounds)]
        if not free or any(len(g) > _room(*f) for g, f in zip(groups, free, strict=True)):
            continue
        half = _ROW_PX / 2
        rows = [
            y
            for group, (low, high) in zip(groups, free, strict=True)
            for y in spread(group, PITCH_PX, low + half, high - half)
        ]
        if not best or _moved(rows, wanted) < _moved(best, wanted):
            best = rows
    return best


def _room(low: float, high: float) -> int:
    return int((high - low - _ROW_PX) / PITCH_PX) + 1


def _moved(rows: Sequence[float], wanted: Sequence[float]) -> float:
    return sum((row - place) ** 2 for row, place in zip(rows, wanted, strict=True))


def _row(callout: CallOut, y: float, own: float, wide: float, area: QRectF, *, left: bool) -> Row:
    toward = 1.0 if left else -1.0
    side = area.left() if left else area.right()
    box = QRectF(side if left else side - own, y - _ROW_PX / 2, own, _ROW_PX)
    edge, column = side + toward * (own + _GAP_PX), side + toward * (wide + _GAP_PX)
    elbow = column + toward * _GUTTER_PX
    # Near the column there is no room for the whole gutter.
    elbow = min(elbow, callout.anchor.x()) if left else max(elbow, callout.anchor.x())
    turns = (QPointF(edge, y), QPointF(column, y), QPointF(elbow, callout.anchor.y()), callout.anchor)
    return Row(callout, box, turns, left)
