"""The whole mast lying along the window: its ends, the eye, both hands, a scale, and what is done."""

from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from mastlayout.checks.finding import STANDINGS
from mastlayout.documents.spread import spread
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.ui.look import BODY, CORNER, GAP, IN_HAND, MARGIN, THICK, THIN, UNIT, VALUE, Colours, font
from mastlayout.ui.marks import paint_mark
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.ticks import scale_ticks
from mastlayout.ui.trestles.walk import Walk, WalkHole
from mastlayout.ui.trestles.words import end_words, hand_head, stand_words
from mastlayout.units import Units
from mastlayout.words import _

_LEFT_PX, _RIGHT_PX = 188.0, 122.0
# Above the mast stand hand word, mark, flag and leader; below it scale, its figures and hand word.
_ABOVE_PX, _BELOW_PX = 84.0, 84.0
_FLAG_PX, _MARK_PX, _FIGURE_PX = 20.0, 14.0, 58.0
_STEP_MM, _LARGE_STEP_MM = 10.0, 100.0


# What of a fitting with holes in several states is shown first.
_SEEN = ("to drill", "held", "done")


@dataclass(frozen=True)
class Flag:
    """A fitting's tag over the mast, where it stands, and its state; ``current`` holds the next hole.

    ``mark`` is the loudest of the marks that its holes of that state carry.
    """

    tag: str
    z_mm: float
    state: str
    mark: str
    current: bool
    box: QRectF
    x: float


class WholeMast(QWidget):
    """The mast from end to end. ``height_wanted`` carries the height z that was clicked."""

    height_wanted = Signal(float)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = theme
        self.lie, self.flags = Lie(), list[Flag]()
        self._scene: Scene | None = None
        self._walk: Walk | None = None
        self._current: WalkHole | None = None
        self._span, self._units = (0.0, 0.0), "metric"
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(_("The whole mast, lying"))
        self.setMinimumSize(400, 172)
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(1000, 200)

    def show_walk(self, scene: Scene, walk: Walk, lie: Lie, current: WalkHole | None) -> None:
        """Take the mast, the walk of the face that is up, and the hole that is next."""
        self._scene, self._walk, self.lie, self._current = scene, walk, lie, current
        self._units = walk.head.units
        self._arrange()

    def show_span(self, low_z_mm: float, high_z_mm: float) -> None:
        """Frame the part of the mast that the face shows."""
        self._span = low_z_mm, high_z_mm
        self._arrange()

    # -- places

    @property
    def length_mm(self) -> float:
        """The mast's length."""
        return self._scene.skin.length_mm if self._scene else 1.0

    @property
    def scale(self) -> float:
        """Pixels a millimetre, the same both ways."""
        return max(self.width() - _LEFT_PX - _RIGHT_PX, 1.0) / self.length_mm

    @property
    def axis_y(self) -> float:
        """The row of the mast's axis."""
        spare = self.height() - _ABOVE_PX - _BELOW_PX - 2 * self._half_px
        return _ABOVE_PX + self._half_px + max(spare, 0.0) / 2

    def x_px(self, z_mm: float) -> float:
        """Return the column of a height: the far end is at the right."""
        near = z_mm if self.lie.end == "heel" else height_mm(self.length_mm, z_mm)
        return _LEFT_PX + near * self.scale

    def z_at(self, x_px: float) -> float:
        """Return the height at a column, kept on the mast."""
        near = min(max((x_px - _LEFT_PX) / self.scale, 0.0), self.length_mm)
        return near if self.lie.end == "heel" else height_mm(self.length_mm, near)

    def _arrange(self) -> None:
        self.flags = list(self._flags()) if self._walk else []
        self.setAccessibleDescription(self._description())
        self.update()

    def _flags(self) -> Iterator[Flag]:
        walk = self._walk
        if walk is None or self._scene is None:
            return
        states: dict[str, set[tuple[str, str]]] = {}
        tags: dict[str, str] = {}
        for hole in walk.holes:
            states.setdefault(hole.block.fitting, set()).add((hole.state, hole.mark))
            tags[hole.block.fitting] = hole.block.tag
        for block in walk.typical:
            states[block.fitting], tags[block.fitting] = {("held", "not checked")}, block.tag
        own = self._current.block.fitting if self._current else ""
        order = sorted(states, key=lambda name: self.x_px(self._z(name)))
        metrics = QFontMetricsF(font(VALUE, bold=True))
        wide = max([metrics.horizontalAdvance(tags[name]) + 2 * GAP for name in order], default=0.0)
        places = [self.x_px(self._z(name)) for name in order]
        middles = spread(places, wide + UNIT, _LEFT_PX, self.width() - wide / 2)
        top = self.axis_y - self._half_px - 2 * _FLAG_PX + 2
        for name, x, middle in zip(order, places, middles, strict=True):
            box = QRectF(middle - wide / 2, top, wide, _FLAG_PX)
            yield Flag(tags[name], self._z(name), *_loudest(states[name]), name == own, box, x)

    def _z(self, fitting: str) -> float:
        return self._scene.placed[fitting].z_mm if self._scene else 0.0

    @property
    def _half_px(self) -> float:
        """Half the width of the full section as it lies."""
        if self._scene is None:
            return 0.0
        return float(np.abs(self.lie.right_mm(self._scene.skin.full.polygon())).max()) * self.scale

    def _description(self) -> str:
        said = [
            stand_words(self.lie.end).replace("\n", " "),
            *(hand_head(self.lie, h) for h in ("left", "right")),
        ]
        said += [_("{tag}: {state}").format(tag=flag.tag, state=_said(flag.state)) for flag in self.flags]
        return ". ".join(said) + "."

    # -- hands and keys

    def resizeEvent(self, _event: object) -> None:
        self._arrange()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            at = event.position()
            flag = next((flag for flag in self.flags if flag.box.contains(at)), None)
            self.height_wanted.emit(flag.z_mm if flag else self.z_at(at.x()))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if event.buttons() & Qt.MouseButton.LeftButton:
            self.height_wanted.emit(self.z_at(event.position().x()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _LARGE_STEP_MM if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else _STEP_MM
        away = {Qt.Key.Key_Right: step, Qt.Key.Key_Left: -step}.get(Qt.Key(event.key()))
        if away is None:
            super().keyPressEvent(event)
            return
        middle = sum(self._span) / 2 + self.lie.along_mm(away)
        self.height_wanted.emit(min(max(middle, 0.0), self.length_mm))

    # -- painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._scene is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = self.theme.colours
        self._paint_words(painter, colours)
        self._paint_mast(painter, colours)
        self._paint_scale(painter, colours)
        self._paint_span(painter, colours)
        for flag in self.flags:
            self._paint_flag(painter, flag, colours)
        painter.end()

    def _paint_words(self, painter: QPainter, colours: Colours) -> None:
        width, height, y = float(self.width()), float(self.height()), self.axis_y
        painter.setPen(colours["ink"])
        painter.setFont(font(VALUE + 2, bold=True))
        middle = Qt.AlignmentFlag.AlignHCenter
        painter.drawText(QRectF(0, GAP, width, 22), middle, hand_head(self.lie, "left"))
        painter.drawText(QRectF(0, height - 22 - UNIT, width, 22), middle, hand_head(self.lie, "right"))
        painter.drawText(QPointF(MARGIN + UNIT, y - 32), end_words(self.lie.end))
        far = QRectF(self.width() - _RIGHT_PX + GAP, y - 12, _RIGHT_PX - GAP, 24)
        painter.drawText(far, Qt.AlignmentFlag.AlignVCenter, end_words(self.lie.far_end))
        painter.setPen(colours["second"])
        painter.setFont(font(BODY))
        painter.drawText(QRectF(MARGIN + UNIT, y + 24, _LEFT_PX - MARGIN, 40), 0, stand_words(self.lie.end))
        self._paint_eye(painter, colours)

    def _paint_eye(self, painter: QPainter, colours: Colours) -> None:
        """Paint the person from above: the eye, and the way it looks."""
        at = QPointF(_LEFT_PX - 62, self.axis_y)
        painter.setPen(QPen(colours["accent"], THICK))
        painter.setBrush(colours["chosen"])
        painter.drawEllipse(at, 14, 24)
        painter.setBrush(colours["accent"])
        painter.drawEllipse(at + QPointF(3, 0), 9, 10)
        tip = at + QPointF(38, 0)
        painter.drawPolygon(QPolygonF([tip, tip + QPointF(-14, -8), tip + QPointF(-14, 8)]))

    def _paint_mast(self, painter: QPainter, colours: Colours) -> None:
        skin = self._scene.skin if self._scene else None
        if skin is None:
            return
        heights = [0.0, skin.length_mm]
        if skin.taper:
            heights.insert(1, height_mm(skin.length_mm, skin.taper.from_masthead_mm))
        sides = [(self.x_px(z), self.lie.right_mm(skin.ring(z).polygon()) * self.scale) for z in heights]
        left = [QPointF(x, self.axis_y + float(right.min())) for x, right in sides]
        right = [QPointF(x, self.axis_y + float(own.max())) for x, own in reversed(sides)]
        painter.setPen(QPen(colours["ink"], THICK))
        painter.setBrush(colours["mast"])
        painter.drawPolygon(QPolygonF(left + right))

    def _paint_scale(self, painter: QPainter, colours: Colours) -> None:
        y = self.axis_y + self._half_px + 2 * MARGIN - UNIT
        painter.setPen(QPen(colours["edge"], THIN))
        painter.drawLine(QPointF(self.x_px(0), y), QPointF(self.x_px(self.length_mm), y))
        painter.setFont(font(BODY))
        units: Units = "inches" if self._units == "inches" else "metric"
        for tick in scale_ticks(self.length_mm, self.scale, units, _FIGURE_PX):
            x = self.x_px(tick.z_mm)
            painter.setPen(QPen(colours["edge"], THIN))
            painter.drawLine(QPointF(x, y), QPointF(x, y + (7 if tick.strong else 4)))
            if tick.words:
                painter.setPen(colours["second"])
                box = QRectF(x - _FIGURE_PX / 2, y + 8, _FIGURE_PX, 18)
                painter.drawText(box, Qt.AlignmentFlag.AlignHCenter, tick.words)

    def _paint_span(self, painter: QPainter, colours: Colours) -> None:
        one, other = sorted(self.x_px(z) for z in self._span)
        room = self._half_px + 12
        box = QRectF(one, self.axis_y - room, max(other - one, 3.0), 2 * room)
        painter.setPen(QPen(colours["accent"], THICK))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)

    def _paint_flag(self, painter: QPainter, flag: Flag, colours: Colours) -> None:
        top, box = self.axis_y - self._half_px, flag.box
        role = "accent" if flag.current else "second"
        painter.setPen(QPen(colours[role], IN_HAND if flag.current else THIN))
        end = QPointF(flag.x, self.axis_y + self._half_px if flag.current else top)
        painter.drawPolyline(
            QPolygonF([QPointF(box.center().x(), box.bottom()), QPointF(flag.x, top - 14), end])
        )
        if flag.current:
            painter.setBrush(colours["accent"])
            painter.drawRoundedRect(box, CORNER, CORNER)
        painter.setFont(font(VALUE, bold=flag.current))
        painter.setPen(colours["on_accent" if flag.current else "second"])
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, flag.tag)
        if flag.mark and not flag.current:
            at = QPointF(box.center().x(), box.top() - _MARK_PX / 2 - 1)
            paint_mark(painter, flag.mark, at, _MARK_PX, colours)


def _loudest(states: set[tuple[str, str]]) -> tuple[str, str]:
    """Return the state that wants most to be seen, and its loudest mark."""
    marks = ("", *STANDINGS, "accepted")
    return min(states, key=lambda own: (_SEEN.index(own[0]), marks.index(own[1])))


def _said(state: str) -> str:
    return {"done": _("done"), "held": _("held back"), "to drill": _("to drill")}[state]
