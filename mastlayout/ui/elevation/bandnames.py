"""Where a band's name stands along its bar: where no gear is drawn over it."""

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import QLineF, QPointF, QRectF

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.silhouette import silhouettes
from mastlayout.ui.elevation.shapes import AXES, outline
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.look import UNIT
from mastlayout.ui.session import View

_LEAST_PX = 1e-6


@dataclass(frozen=True, eq=False)
class Gear:
    """What may be drawn over a name, in pixels: spreaders and fittings, and the lines of stays."""

    boxes: tuple[QRectF, ...]
    lines: tuple[QLineF, ...]


def gear_of(scene: Scene, span: Span, view: View) -> Gear:
    """Return the gear of a layout as a span shows it."""
    return Gear(tuple(_boxes(scene, span, view)), tuple(_lines(scene, span, view)))


def _lines(scene: Scene, span: Span, view: View) -> Iterator[QLineF]:
    for stay in scene.stays.values():
        if stay.points is not None:
            seen = stay.points @ AXES[view].T
            ends = [QPointF(span.x_px(right), span.y_px(up)) for right, up in seen.tolist()]
            yield from (QLineF(one, other) for one, other in pairwise(ends))


def _boxes(scene: Scene, span: Span, view: View) -> Iterator[QRectF]:
    for bar in scene.spreaders.values():
        for shape in silhouettes(bar.solids, AXES[view]):
            yield _box(span, shape.min(axis=0), shape.max(axis=0))
    for placed in scene.placed.values():
        seen = outline(placed, view)
        yield _box(span, seen.low, seen.high)


def _box(span: Span, low: Array, high: Array) -> QRectF:
    left, top = span.x_px(float(low[0])), span.y_px(float(high[1]))
    return QRectF(left, top, span.x_px(float(high[0])) - left, span.y_px(float(low[1])) - top)


def _within(line: QLineF, strip: QRectF) -> Iterator[QRectF]:
    """Yield the part of a line that lies between the sides of a strip, as its rectangle."""
    first, last = sorted((line.p1(), line.p2()), key=QPointF.x)
    if first.x() < strip.right() and last.x() > strip.left():
        wide = max(last.x() - first.x(), _LEAST_PX)
        cuts = [min(max((x - first.x()) / wide, 0.0), 1.0) for x in (strip.left(), strip.right())]
        top, foot = sorted(first.y() + cut * (last.y() - first.y()) for cut in cuts)
        yield QRectF(strip.left(), top, strip.width(), foot - top)


def name_middle_px(strip: QRectF, long_px: float, gear: Gear) -> float | None:
    """Return the row on which a name so long is centred within a strip; None where no gap holds it."""
    boxes = [*gear.boxes, *(box for line in gear.lines for box in _within(line, strip))]
    in_the_way = sorted((box.top(), box.bottom()) for box in boxes if box.intersects(strip))
    half, middle = long_px / 2 + UNIT, strip.center().y()
    ends = [strip.top(), *(end for _first, end in in_the_way)]
    begins = [*(first for first, _end in in_the_way), strip.bottom()]
    gaps = [(max(ends[: i + 1]), begin) for i, begin in enumerate(begins)]
    places = [min(max(middle, top + half), foot - half) for top, foot in gaps if foot - top >= 2 * half]
    return min(places, key=lambda place: abs(place - middle), default=None)
