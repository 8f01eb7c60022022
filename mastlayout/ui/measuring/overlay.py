"""The tape over a view: it takes the pointer and Enter while the tape is in hand, and paints how it lies."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QRegion,
)
from PySide6.QtWidgets import QWidget

from mastlayout.geometry.spot import end_of
from mastlayout.ui.look import LABEL, THICK, THIN, VALUE, Colours, font
from mastlayout.ui.measuring.tape import TapeMeasure
from mastlayout.ui.measuring.view import MeasuredView, Stretch
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_TAPE_PX, _TICK_PX, _HALO_PX, _TEXT_PX = 6.0, 5.0, 3.0, 18.0
# Where along its longest leg a value may stand, the middle first.
_PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class TapeOverlay(QWidget):
    """Lies over a view's surface. ``values`` are the rectangles its figures stand in, as painted."""

    def __init__(self, view: MeasuredView, tape: TapeMeasure, theme: Theme) -> None:
        super().__init__(view.surface)
        self.view, self.tape, self.theme = view, tape, theme
        self.values: list[QRectF] = []
        self.setAccessibleName(_("Tape measure"))
        self.setAccessibleDescription(_("The card of the tape says what it reads."))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        for watched in {view.canvas, view.surface}:
            watched.installEventFilter(self)
        view.surface.setMouseTracking(True)
        self.resize(view.surface.size())
        tape.changed.connect(self._look)
        self._look()

    def _look(self) -> None:
        self.setVisible(self.tape.in_hand)
        shape = Qt.CursorShape.CrossCursor if self.tape.in_hand else Qt.CursorShape.ArrowCursor
        self.view.surface.setCursor(shape)
        self.raise_()
        self.update()

    # -- pointer and keys

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and watched is self.view.surface:
            self.resize(self.view.surface.size())
        if not self.tape.in_hand:
            return False
        if isinstance(event, QMouseEvent) and watched is self.view.surface:
            return self._pointer(event)
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and event.key() in _ENTER:
            self.tape.hold(self.view.spot_in_hand())
            return True
        return False

    def _pointer(self, event: QMouseEvent) -> bool:
        """Take every event of the pointer, so that nothing is moved while one measures."""
        if event.type() == QEvent.Type.MouseMove:
            self.tape.hover(self.view.spot_at(event.position()))
        elif event.type() == QEvent.Type.MouseButtonPress:
            if event.button() == Qt.MouseButton.RightButton:
                self.tape.put_away()
            elif event.button() == Qt.MouseButton.LeftButton:
                spot = self.view.spot_at(event.position())
                if spot is not None:
                    self.tape.hold(spot)
        return True

    # -- painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self.tape.session is None or not self.tape.in_hand:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setClipRegion(self._clear())
        colours, read = self.theme.colours, self.tape.read.taped
        stretches = self.view.stretches(self.tape.shown, read) if read is not None else ()
        for stretch in stretches:
            _lay(painter, stretch, colours)
        painter.setClipRect(self.view.area())
        self._ends(painter, colours)
        self.values = []
        for stretch in stretches:
            self._value(painter, stretch)
        painter.end()

    def _clear(self) -> QRegion:
        """Return where the tape shows: it passes under the words of the view."""
        region = QRegion(self.view.area().toAlignedRect())
        for box in self.view.taken():
            region -= QRegion(box.toAlignedRect())
        return region

    def _ends(self, painter: QPainter, colours: Colours) -> None:
        """Number the ends as the card does."""
        read, session = self.tape.read, self.tape.session
        if session is None or read.why:
            return
        for i, spot in enumerate(self.tape.shown):
            point = read.taped.points[i] if read.taped else end_of(session.desk.scene, spot).point
            at = self.view.seen(spot, point) if point is not None else None
            if at is None:
                continue
            painter.setPen(QPen(colours["ink"], THICK))
            painter.setBrush(colours["tape"])
            painter.drawEllipse(at, _TICK_PX, _TICK_PX)
            self._words(painter, QRectF(at.x() + (8 if i else -20), at.y() - 18, 12, 14), str(i + 1), LABEL)

    def _value(self, painter: QPainter, stretch: Stretch) -> None:
        wide = QFontMetricsF(font(VALUE, bold=True)).horizontalAdvance(stretch.words) + 4.0
        taken = [*self.view.taken(), *self.values]
        for box in _boxes(stretch, wide) if stretch.words else ():
            if self.view.area().contains(box) and not any(box.intersects(other) for other in taken):
                self.values.append(box)
                self._words(painter, box, stretch.words, VALUE)
                return

    def _words(self, painter: QPainter, box: QRectF, words: str, size: int) -> None:
        """Write in bold with a halo of the ground."""
        colours, face = self.theme.colours, font(size, bold=True)
        halo = colours["ground"]
        halo.setAlpha(225)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(halo)
        painter.drawRoundedRect(box.adjusted(-1, 1, 1, -1), _HALO_PX, _HALO_PX)
        painter.setFont(face)
        painter.setPen(colours["ink"])
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)


def _lay(painter: QPainter, stretch: Stretch, colours: Colours) -> None:
    """Lay a stretch: a plain dimension as a line, a tape as a band with edges; 45-degree ticks end both."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    line = QPolygonF(list(stretch.corners))
    if not stretch.thin:
        flat, join = Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.RoundJoin
        for role, width in (("ink", _TAPE_PX), ("tape", _TAPE_PX - 2 * THIN)):
            painter.setPen(QPen(colours[role], width, Qt.PenStyle.SolidLine, flat, join))
            painter.drawPolyline(line)
    else:
        painter.setPen(QPen(colours["ink"], THIN))
        painter.drawPolyline(line)
    painter.setPen(QPen(colours["ink"], THICK))
    for end in (stretch.corners[0], stretch.corners[-1]):
        painter.drawLine(end + QPointF(-_TICK_PX, _TICK_PX), end + QPointF(_TICK_PX, -_TICK_PX))


def _boxes(stretch: Stretch, wide: float) -> Sequence[QRectF]:
    """Return where a stretch's value may stand: on it where it has the length, else beside it."""
    corners, count = stretch.corners, len(stretch.corners) - 1
    boxes = []
    for part in _PLACES:
        whole = int(part * count)
        leg = min(whole, count - 1)
        at = corners[leg] + (corners[leg + 1] - corners[leg]) * (part * count - leg)
        boxes.append(_centred(at, wide))
    middle = boxes[0]
    beside = [
        middle.translated(0, -_TEXT_PX),
        middle.translated(0, _TEXT_PX),
        middle.translated(wide / 2 + 10, 0),
        middle.translated(-wide / 2 - 10, 0),
    ]
    long = QRectF(corners[0], corners[-1]).normalized()
    roomy = count > 1 or long.width() > wide + 2 * _TICK_PX or long.height() > _TEXT_PX + 2 * _TICK_PX
    return [*boxes, *beside] if roomy else [*beside, *boxes]


def _centred(at: QPointF, wide: float) -> QRectF:
    return QRectF(at.x() - wide / 2, at.y() - _TEXT_PX / 2, wide, _TEXT_PX)
