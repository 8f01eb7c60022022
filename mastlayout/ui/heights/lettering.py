"""The words on the chart: each at its curve or its dot, none over another."""

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import FIGURE, GAP, LABEL, THIN, UNIT, Colours, font
from mastlayout.ui.theme import Theme
from mastlayout.words import _

ROW_PX = 17.0
_NEAR_PX, _OFF_DOT_PX, _OFF_LINE_PX = 7.0, 12.0, 7.0


@dataclass(frozen=True)
class AtCurve:
    """The words of a curve, its upper end, and the pen it is drawn with."""

    words: str
    end: QPointF
    line: QPen

    @property
    def wide_px(self) -> float:
        """How far the words reach from the curve's end."""
        return width_px(self.words, LABEL) + 2 * GAP + UNIT


@dataclass(frozen=True)
class AtDot:
    """A fitting's dot: its name, where it is, how far right its name may reach, and whether it is in hand."""

    name: str
    at: QPointF
    most_px: float
    in_hand: bool


@dataclass(frozen=True)
class Text:
    """Words at a place: ``box`` is where they stand; what they lie on is wiped first."""

    words: str
    box: QRectF
    role: str = "ink"
    bold: bool = False
    size: int = LABEL
    wrapped: bool = False


@dataclass(frozen=True)
class Shown:
    """All that is written on one chart; ``room`` is the plot within its axes."""

    room: QRectF
    curves: Sequence[AtCurve] = ()
    dots: Sequence[AtDot] = ()
    height: tuple[str, float] | None = None
    missing: str = ""
    leftward: bool = True


class Lettering(QWidget):
    """Lies over the plot and lets the pointer through."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self.theme = theme
        self.shown = Shown(QRectF())
        self._names: tuple[Text, ...] = ()
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAccessibleName(_("Words on the chart"))

    def show_words(self, shown: Shown) -> None:
        """Write something else."""
        if shown.dots != self.shown.dots:
            self._names = tuple(names(shown.dots))
        self.shown = shown
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), self.theme.colours
        for text, line in stairs(self.shown):
            foot = next(one for one in self.shown.curves if one.words == text.words).end
            painter.setPen(QPen(colours["edge"], THIN))
            painter.drawLine(foot, QPointF(foot.x(), text.box.center().y()))
            painter.setPen(line)
            middle = text.box.center().y()
            side = text.box.right() if self.shown.leftward else text.box.left()
            painter.drawLine(QPointF(foot.x(), middle), QPointF(side, middle))
            _write(painter, text, colours)
        for text in (*self._names, *self._rest()):
            _write(painter, text, colours)
        painter.end()

    def _rest(self) -> Iterator[Text]:
        shown, room = self.shown, self.shown.room
        words = _("nautical miles over the water")
        wide = width_px(words, LABEL) + 1
        yield Text(words, QRectF(room.right() - wide - UNIT, self.height() - ROW_PX, wide, ROW_PX), "second")
        if shown.height is not None:
            yield _height(shown.height, room)
        if shown.missing:
            top = room.top() + (len(shown.curves) + 1) * ROW_PX
            box = QRectF(room.left() + 3 * GAP, top, room.width() / 3, room.height())
            yield Text(shown.missing, box, "unknown", wrapped=True)


def stairs(shown: Shown) -> Iterator[tuple[Text, QPen]]:
    """Yield each curve's words in a row of its own, so that no hair line meets a word.

    Words to the left of their lines: the farthest in the highest row. To the right: in the lowest.
    """
    order = sorted(shown.curves, key=lambda one: one.end.x(), reverse=shown.leftward)
    for row, one in enumerate(order):
        wide = width_px(one.words, LABEL) + 1
        off = GAP + UNIT
        left = one.end.x() - off - wide if shown.leftward else one.end.x() + off
        box = QRectF(left, shown.room.top() + row * ROW_PX + 1, wide, ROW_PX - 1)
        yield Text(one.words, box), one.line


def names(dots: Sequence[AtDot]) -> Iterator[Text]:
    """Yield the fittings' names beside their dots, what is in hand first; what stands with one is counted.

    A name for which there is no room before the first curve is left out: the dot's tip says it.
    """
    placed: list[AtDot] = []
    rows: list[float] = []
    counts: list[int] = []
    for dot in sorted(dots, key=lambda one: (not one.in_hand, one.at.y())):
        # They come in order, but for the one in hand: only that one and the last can be near.
        away = {i: abs(dot.at.y() - rows[i]) for i in (0, len(rows) - 1) if rows}
        near = next((i for i, off in away.items() if off < _NEAR_PX), None)
        if near is not None:
            counts[near] += 1
        elif all(off >= ROW_PX - 1 for off in away.values()) and _fits(dot):
            placed.append(dot)
            rows.append(dot.at.y())
            counts.append(0)
    for dot, more in zip(placed, counts, strict=True):
        words = dot.name if not more else _("{name}  + {count}").format(name=dot.name, count=more)
        box = QRectF(dot.at.x() + _OFF_DOT_PX, dot.at.y() - ROW_PX / 2, _wide(dot, words), ROW_PX - 1)
        yield Text(words, box, "accent" if dot.in_hand else "ink", dot.in_hand, _size(dot))


def _fits(dot: AtDot) -> bool:
    """Tell whether a name, and the count of what stands there too, ends before the first curve."""
    wide = _wide(dot, _("{name}  + {count}").format(name=dot.name, count=9))
    return dot.in_hand or dot.at.x() + _OFF_DOT_PX + wide <= dot.most_px


def _size(dot: AtDot) -> int:
    return LABEL if dot.in_hand else FIGURE


def _wide(dot: AtDot, words: str) -> float:
    return width_px(words, _size(dot), bold=dot.in_hand) + 1


def _height(height: tuple[str, float], room: QRectF) -> Text:
    """Return the words of the height in hand, under its line at the right, above it at the water."""
    words, y = height
    wide = width_px(words, LABEL, bold=True) + 1
    below = y + _OFF_LINE_PX
    top = below if below + ROW_PX < room.bottom() else y - _OFF_LINE_PX - ROW_PX
    return Text(words, QRectF(room.right() - wide - GAP, top, wide, ROW_PX), "accent", bold=True)


def _write(painter: QPainter, text: Text, colours: Colours) -> None:
    painter.setFont(font(text.size, bold=text.bold))
    box, sides = text.box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
    if text.wrapped:
        sides = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
        box = painter.boundingRect(box, sides, text.words)
    painter.fillRect(box.adjusted(-2, 0, 2, 0), colours["ground"])
    painter.setPen(colours[text.role])
    painter.drawText(box, sides, text.words)
