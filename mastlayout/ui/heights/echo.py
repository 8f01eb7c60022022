"""What a ship's radar sees of a reflector at the height in hand: echo over distance, a lane a ship."""

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QKeyEvent, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from mastlayout.geometry.frames import Array
from mastlayout.ranges.echo_words import Lane, lane_of, spoken
from mastlayout.ranges.two_ray import DECIBELS, FADED, FARTHEST_NM, NEAREST_NM, SHIPS_M, faded
from mastlayout.ui.heights.plot import line_of
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import FIGURE, GAP, LABEL, THICK, THIN, Colours, font
from mastlayout.ui.moving.keys import climb
from mastlayout.ui.moving.steps import step
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_LEAST = QSize(420, 200)
_LEFT_PX, _RIGHT_PX, _HEAD_PX, _FOOT_PX = 44.0, 14.0, 17.0, 20.0
_BAR_PX, _MARK_PX = 5.0, 5.0
# Beyond so many miles the lobes are wide: every fourth of the distances draws them to the pixel.
_SMOOTH_NM, _EVERY = 4.0, 4
_TICKS_NM = range(2, int(FARTHEST_NM) + 1, 2)


class EchoChart(QWidget):
    """Paints a lane for each ship; what is told of the height is told in its words, too."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.height_m: float | None = None
        self.lanes: tuple[Lane, ...] = ()
        self.setMinimumSize(_LEAST)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName(_("Chart of a reflector's echo over distance"))
        theme.changed.connect(self.update)

    def show_height(self, height_m: float | None, echo_m2: float | None) -> None:
        """Show a reflector at a height above the water, None where that is not known."""
        units = self.session.units
        self.height_m = height_m
        ships = SHIPS_M if height_m is not None and height_m > 0.0 else ()
        self.lanes = tuple(lane_of(height_m or 0.0, ship, echo_m2, units) for ship in ships)
        self.setAccessibleDescription(spoken(self.lanes, height_m, units))
        self.update()

    # -- where things are

    def x_of(self, nm: Array | float) -> Array:
        """Return where distances are across, px."""
        wide = self.width() - _LEFT_PX - _RIGHT_PX
        part = (np.asarray(nm, float) - NEAREST_NM) / (FARTHEST_NM - NEAREST_NM)
        return np.asarray(_LEFT_PX + wide * part)

    def lane_box(self, count: int) -> QRectF:
        """Return the box of a lane's curve, under its words."""
        high = (self.height() - _FOOT_PX) / max(len(self.lanes), 1)
        wide = self.width() - _LEFT_PX - _RIGHT_PX
        return QRectF(_LEFT_PX, count * high + _HEAD_PX, wide, high - _HEAD_PX - 2.0)

    def y_of(self, box: QRectF, share: Array | float) -> Array:
        """Return where shares of an echo are in a lane, px: in dB, what is off it at its edge."""
        decibels = 10 * np.log10(np.maximum(np.asarray(share, float), 1e-9))
        low, high = DECIBELS
        part = (np.clip(decibels, low, high) - low) / (high - low)
        return np.asarray(box.bottom() - box.height() * part)

    # -- painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), self.theme.colours
        painter.fillRect(self.rect(), colours["ground"])
        if not self.lanes:
            self._say_why(painter, colours)
        else:
            for count, lane in enumerate(self.lanes):
                self._paint_lane(painter, colours, self.lane_box(count), lane)
            self._paint_miles(painter, colours)
        if self.hasFocus():
            painter.setPen(pen(colours["accent"], THICK))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1.0, 1.0, -1.0, -1.0))
        painter.end()

    def _say_why(self, painter: QPainter, colours: Colours) -> None:
        painter.setPen(colours["second"])
        painter.setFont(font(LABEL))
        box = self.rect().adjusted(GAP, GAP, -GAP, -GAP)
        painter.drawText(
            box, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.accessibleDescription()
        )

    def _paint_lane(self, painter: QPainter, colours: Colours, box: QRectF, lane: Lane) -> None:
        nm, share = lane.nm, lane.share
        self._paint_grid(painter, colours, box)
        if len(nm):
            self._paint_curve(painter, colours, box, lane)
        self._paint_faded(painter, colours, box, nm, share)
        self._paint_beyond(painter, colours, box, lane)
        self._paint_first(painter, colours, box, lane)
        self._paint_words(painter, colours, box, lane)

    def _paint_curve(self, painter: QPainter, colours: Colours, box: QRectF, lane: Lane) -> None:
        drawn = (lane.nm < _SMOOTH_NM) | (np.arange(len(lane.nm)) % _EVERY == 0)
        x, y = self.x_of(lane.nm[drawn]), self.y_of(box, lane.share[drawn])
        # Smooth edges cost most of the time: the line over them has them alone.
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours["cloth"])
        foot = np.full(2, box.bottom())
        painter.drawPolygon(line_of(np.append(x, x[[-1, 0]]), np.append(y, foot)))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(pen(colours["ink"], THIN))
        painter.drawPolyline(line_of(x, y))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)

    def _paint_grid(self, painter: QPainter, colours: Colours, box: QRectF) -> None:
        painter.setPen(pen(colours["hair"], THIN))
        across = self.x_of(np.array(_TICKS_NM)).tolist()
        painter.drawLines([QLineF(x, box.top(), x, box.bottom()) for x in across])
        painter.setFont(font(FIGURE))
        for share, words, dash in ((1.0, _("0 dB"), ()), (FADED, _("−10 dB"), HIDDEN)):
            y = float(self.y_of(box, share))
            painter.setPen(pen(colours["edge"], THIN, dash))
            painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
            painter.setPen(colours["second"])
            at = QRectF(0.0, y - 8.0, _LEFT_PX - 4.0, 16.0)
            painter.drawText(at, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, words)
        painter.setPen(pen(colours["edge"], THIN))
        painter.drawLine(box.bottomLeft(), box.bottomRight())

    def _paint_faded(self, painter: QPainter, colours: Colours, box: QRectF, nm: Array, share: Array) -> None:
        """Paint a solid bar under each stretch in which the echo fades."""
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours["ink"])
        ends = np.array([(fade.from_nm, fade.to_nm) for fade in faded(nm, share)]).reshape(-1, 2)
        for first, last in self.x_of(ends).tolist():
            painter.drawRect(QRectF(first, box.bottom() - _BAR_PX, max(last - first, 1.0), _BAR_PX))

    def _paint_beyond(self, painter: QPainter, colours: Colours, box: QRectF, lane: Lane) -> None:
        """Hatch what lies past the radar horizon."""
        if lane.horizon_nm >= FARTHEST_NM:
            return
        left = float(self.x_of(lane.horizon_nm))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(colours["edge"], Qt.BrushStyle.BDiagPattern))
        painter.drawRect(QRectF(left, box.top(), box.right() - left, box.height()))

    def _paint_first(self, painter: QPainter, colours: Colours, box: QRectF, lane: Lane) -> None:
        """Mark where the reflector is first seen by the least of ships' radars: an estimate."""
        if not lane.first_nm:
            return
        x = float(self.x_of(lane.first_nm))
        painter.setPen(pen(colours["accent"], THICK))
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours["accent"])
        corners = ((-_MARK_PX, 0.0), (_MARK_PX, 0.0), (0.0, 1.6 * _MARK_PX))
        painter.drawPolygon(QPolygonF([QPointF(x + dx, box.top() + dy) for dx, dy in corners]))

    def _paint_words(self, painter: QPainter, colours: Colours, box: QRectF, lane: Lane) -> None:
        line = QRectF(box.left(), box.top() - _HEAD_PX, box.width(), _HEAD_PX)
        painter.setPen(colours["ink"])
        painter.setFont(font(LABEL, bold=True))
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(line, Qt.AlignmentFlag.AlignLeft | middle, lane.title)
        painter.setFont(font(LABEL))
        painter.setPen(colours["second"])
        off = width_px(lane.title, LABEL, bold=True) + 2 * GAP
        painter.drawText(line.adjusted(off, 0, 0, 0), Qt.AlignmentFlag.AlignLeft | middle, lane.told)

    def _paint_miles(self, painter: QPainter, colours: Colours) -> None:
        painter.setFont(font(FIGURE))
        painter.setPen(colours["second"])
        top = self.height() - _FOOT_PX
        for nm, x in zip(_TICKS_NM, self.x_of(np.array(_TICKS_NM)).tolist(), strict=True):
            words = _("{n} NM").format(n=nm) if nm == _TICKS_NM[-1] else str(nm)
            wide = width_px(words, FIGURE)
            left = min(x - wide / 2, self.width() - wide - 2.0)
            painter.drawText(QRectF(left, top, wide + 2.0, _FOOT_PX), Qt.AlignmentFlag.AlignVCenter, words)

    # -- keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        ways = {Qt.Key.Key_Up: 1.0, Qt.Key.Key_Down: -1.0}
        way = ways.get(Qt.Key(event.key()))
        if way is None or event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            super().keyPressEvent(event)
        else:
            climb(self.session, step(event.modifiers()) * way)
