"""The words of the next-hole card: the hole's tag, its two readings, its girth, its drill, painted large."""

from collections.abc import Iterator
from dataclasses import replace

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.ui.look import GAP, HEIGHT, NAME, THIN, TRESTLE_READING, TRESTLE_TAG, VALUE, font
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.walk import WalkHole
from mastlayout.ui.trestles.words import (
    drill_head,
    girth_from,
    girth_number,
    girth_side,
    number,
    place_words,
    together_words,
)
from mastlayout.units import Units
from mastlayout.words import _

_GIRTH = 48
# The card as it is drawn in the picture: all sizes go with its width and height. On a card that is
# taller than it was drawn, what is not as wide as the card gets larger still.
_FULL_WIDE_PX, _FULL_HIGH_PX = 580.0, 410.0
_MOST_SCALE, _LEAST_SCALE, _TALLER, _MOST_GAP = 3.2, 0.3, 1.4, 4.0
_LEAST_PX = 13


@dataclass(frozen=True)
class Words:
    """One piece of text in its rectangle, at its size in pixels."""

    text: str
    box: QRectF
    size: int
    bold: bool = False
    role: str = "ink"


class Reading(QWidget):
    """What is read of one hole. ``pieces`` are its words as painted; none overlaps another."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = theme
        self.pieces: list[Words] = []
        self.rules: list[float] = []
        self._hole: WalkHole | None = None
        self._lie = Lie()
        self._units: Units = "metric"
        self.setAccessibleName(_("Next hole"))
        self.setMinimumSize(300, 224)  # in inches its smallest words are as high as this
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(int(_FULL_WIDE_PX), int(_FULL_HIGH_PX))

    def show_hole(self, hole: WalkHole | None, lie: Lie, units: Units) -> None:
        """Show a hole as it is seen from where one stands."""
        self._hole, self._lie, self._units = hole, lie, units
        self._arrange()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        hole = self._hole
        self.pieces, self.rules = [], []
        if hole is not None:
            self.pieces = list(self._all(hole))
        self.setAccessibleDescription(". ".join(piece.text for piece in self.pieces))
        self.update()

    # -- where the words stand

    def _all(self, hole: WalkHole) -> Iterator[Words]:
        wide, high = self.width() / _FULL_WIDE_PX, self.height() / _FULL_HIGH_PX
        k = min(_TALLER * wide, high, _MOST_SCALE)
        groups, ends = self._groups(hole, k)
        # Lines that broke make it higher; what is large gives way.
        while sum(ends) + 2 * len(groups) * GAP * k > self.height() and k > _LEAST_SCALE:
            k *= 0.95
            groups, ends = self._groups(hole, k)
        # What the words leave is shared out between them, so that none of it is one hole at the end.
        spare = (self.height() - sum(ends)) / (2 * len(groups))
        gap = min(max(spare, GAP * k), _MOST_GAP * GAP * k)
        y = 0.0
        for group, end in zip(groups, ends, strict=True):
            if y:
                self.rules.append(y + gap)
                y += 2 * gap
            yield from (replace(piece, box=piece.box.translated(0, y)) for piece in group)
            y += end

    def _groups(self, hole: WalkHole, k: float) -> tuple[list[list[Words]], list[float]]:
        """Return the words in their groups, each from its own top, and how high each group is."""
        groups = [list(rows(hole, k)) for rows in (self._tag, self._heights, self._girth, self._drill)]
        return groups, [max(piece.box.bottom() for piece in group) for group in groups]

    def _tag(self, hole: WalkHole, k: float) -> Iterator[Words]:
        tag = self._fitting(hole.row.tag, TRESTLE_TAG * k, self.width() * 0.45, bold=True)
        tag = replace(tag, role="accent", box=tag.box.translated(0, -tag.box.height() * 0.06))
        yield tag
        left = tag.box.right() + 3 * GAP * k
        name = self._fitting(hole.block.name, NAME * k * 1.1, self.width() - left, bold=True)
        where = self._fitting(place_words(hole), (VALUE + 3) * k, self.width() - left)
        middle = tag.box.center().y() + 2
        yield replace(name, box=name.box.translated(left, middle - name.box.height()))
        yield replace(where, box=where.box.translated(left, middle), role="second")

    def _heights(self, hole: WalkHole, k: float) -> Iterator[Words]:
        read = hole.row.height
        half = self.width() * 0.56
        one = self._fitting(number(read, read.masthead), TRESTLE_READING * k, half - 4 * GAP * k, bold=True)
        other = self._fitting(number(read, read.heel), TRESTLE_READING * k, self.width() - half)
        heads = (VALUE + 3) * k
        first = self._fitting(_("From masthead"), heads, half)
        second = self._fitting(_("From heel"), heads, self.width() - half)
        yield replace(first, role="second")
        yield replace(second, role="second", box=second.box.translated(half, 0))
        y = first.box.bottom()
        high = max(one.box.height(), other.box.height())
        yield replace(one, box=one.box.translated(0, y + high - one.box.height()))
        yield replace(other, box=other.box.translated(half, y + high - other.box.height()))
        total = self._fitting(together_words(read), heads, self.width())
        yield replace(total, role="second", box=total.box.translated(0, y + high))

    def _girth(self, hole: WalkHole, k: float) -> Iterator[Words]:
        left = 0.0
        value = girth_number(hole.block, hole.row)
        size = (VALUE + 3) * k
        made, y = [], 0.0
        if value:
            big = self._fitting(value, _GIRTH * k, self.width() * 0.4, bold=True)
            left = big.box.right() + 2 * GAP * k
        lines = [(girth_side(self._lie, hole.block, hole.row), True, "ink")]
        said = zip(girth_from(hole.block, hole.row), ("ink", "second"), strict=True)
        lines += [
            (line, False, role) for words, role in said for line in _lines(words, self.width() - left, ", ")
        ]
        for text, bold, role in lines:
            line = self._fitting(text, size * (1.15 if bold else 1.0), self.width() - left, bold=bold)
            made.append(replace(line, role=role, box=line.box.translated(left, y)))
            y = made[-1].box.bottom()
        if value:
            yield replace(big, box=big.box.translated(0, max((y - big.box.height()) / 2, 0)))
        yield from made

    def _drill(self, hole: WalkHole, k: float) -> Iterator[Words]:
        row = hole.row
        drill = self._fitting(drill_head(row, self._units), HEIGHT * 0.9 * k, self.width() * 0.62, bold=True)
        yield drill
        left = drill.box.right() + 2 * GAP * k
        room = self.width() - left
        lines = [line for words in (row.fastener, row.how) for line in _lines(words, room, " · ")]
        size = (VALUE + 2) * k
        made = [self._fitting(text, size, room) for text in lines]
        y = max((drill.box.height() - sum(line.box.height() for line in made)) / 2, 0.0)
        for line in made:
            yield replace(line, box=line.box.translated(left, y))
            y += line.box.height()

    def _fitting(self, text: str, size: float, room: float, *, bold: bool = False) -> Words:
        """Return a text at the largest size, up to the one wanted, at which it fits into its room."""
        px = max(int(size), _LEAST_PX)
        own = QFontMetricsF(font(px, bold=bold))
        while px > _LEAST_PX and own.horizontalAdvance(text) > room:
            px -= 1
            own = QFontMetricsF(font(px, bold=bold))
        wide, high = min(own.horizontalAdvance(text) + 2, max(room, 1.0)), own.height()
        return Words(text, QRectF(0, 0, wide, high * (0.86 if px > 40 else 1.0)), px, bold)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = self.theme.colours
        painter.setPen(QPen(colours["hair"], THIN))
        for y in self.rules:
            painter.drawLine(0, int(y), self.width(), int(y))
        for piece in self.pieces:
            painter.setFont(font(piece.size, bold=piece.bold))
            painter.setPen(colours[piece.role])
            flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextDontClip
            painter.drawText(piece.box, flags, piece.text)
        painter.end()


def _lines(words: str, room: float, mark: str) -> list[str]:
    """Return words in as few lines as find room at the least size; they break at a mark between parts."""
    first, found, rest = words.rpartition(mark)
    if found and QFontMetricsF(font(_LEAST_PX)).horizontalAdvance(words) > room:
        return [*_lines(first + mark.rstrip(" ·"), room, mark), rest]
    return [words] if words else []
