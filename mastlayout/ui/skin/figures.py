"""Where the figures of findings stand on the skin: beside their line, where they hide nothing."""

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QPointF, QRectF

from mastlayout.checks.sentence import measured_text
from mastlayout.frozen import dataclass
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import VALUE
from mastlayout.ui.section.within import standing_role
from mastlayout.ui.skin.development import Development
from mastlayout.ui.skin.found import Found
from mastlayout.ui.skin.holes import Room
from mastlayout.units import Units

_TALL_PX = 18.0
# How far from the middle of its line a figure may stand, nearest first.
_AWAY_PX = (14.0, 26.0, 40.0, 56.0, 74.0, 94.0, 116.0)


@dataclass(frozen=True)
class FoundLine:
    """A finding in pixels: its line, its figure and where that stands; None where there is no room."""

    start: QPointF
    end: QPointF
    words: str
    box: QRectF | None
    role: str
    chosen: bool

    @property
    def elbow(self) -> QPointF:
        """Where the leader from the middle of the line meets the figure."""
        middle = (self.start + self.end) / 2
        if self.box is None:
            return middle
        return QPointF(
            min(max(middle.x(), self.box.left()), self.box.right()),
            min(max(middle.y(), self.box.top()), self.box.bottom()),
        )


def found_lines(marks: Sequence[Found], made: Development, units: Units, room: Room) -> Iterator[FoundLine]:
    """Yield the findings both of whose places show, the one looked at first."""
    for mark in sorted(marks, key=lambda one: not one.chosen):
        start, end = made.at(*mark.start), made.at(*mark.end)
        if start is None or end is None or not made.shows(start):
            continue
        if not made.shows(end):
            end = QPointF(end.x(), min(max(end.y(), made.area.top()), made.area.bottom()))
        words = measured_text(mark.finding, units)
        box = room.first_free(list(_boxes((start + end) / 2, width_px(words, VALUE, bold=True) + 4.0)))
        yield FoundLine(start, end, words, box, standing_role(mark.finding.standing), mark.chosen)


def _boxes(middle: QPointF, wide: float) -> Iterator[QRectF]:
    for away in _AWAY_PX:
        for x, y in ((0.0, away), (0.0, -away), (away + wide / 2, 0.0), (-away - wide / 2, 0.0)):
            yield QRectF(middle.x() + x - wide / 2, middle.y() + y - _TALL_PX / 2, wide, _TALL_PX)
