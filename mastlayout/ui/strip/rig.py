"""The strip: the whole rig over the whole height, the frame of what the elevation shows, the thread."""

from collections.abc import Mapping

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QKeyEvent,
    QMouseEvent,
    QPaintEngine,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from mastlayout.desk import Change
from mastlayout.ui.clipping import clipped
from mastlayout.ui.look import CORNER, FIGURE, THIN, THREAD, TYPICAL, font
from mastlayout.ui.session import Session
from mastlayout.ui.strip.drag import DragFrame
from mastlayout.ui.strip.picture import Picture
from mastlayout.ui.strip.scale import Scale
from mastlayout.ui.strip.things import from_masthead
from mastlayout.ui.theme import Theme
from mastlayout.words import _

RIG_PX, COMPACT_PX = 178, 92
_FRAME_PART, _FRAME_MOST_PX, _FRAME_LEAST_PX = 0.36, 72.0, 8.0
_STEP_PART = 0.1


class RigStrip(QWidget):
    """The whole rig. ``span_wanted`` asks the elevation for another centre, z in mm."""

    span_wanted = Signal(float)

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self._span: tuple[float, float] | None = None
        self._gesture: DragFrame | None = None
        self._joined: Mapping[str, float] = {}
        self._still: QPixmap | None = None
        self._changed: frozenset[str] = frozenset()
        self.scale: Scale
        self.setMinimumWidth(COMPACT_PX)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("Whole rig"))
        session.opened.connect(self.show_all)
        session.view_changed.connect(self.show_all)
        session.shown.connect(self._note)
        session.turns.strip.connect(self._take_changed)
        session.turns.strip.connect(self._say)
        session.hand_changed.connect(self._hand_changed)
        session.units_changed.connect(self._say)
        theme.changed.connect(self.show_all)
        self.show_all()

    def sizeHint(self) -> QSize:
        return QSize(RIG_PX, 600)

    # -- what is shown

    def show_all(self) -> None:
        """Take every shape of the scene anew."""
        scene = self.session.desk.scene
        self.picture = Picture(scene, self.session.view, self.theme.colours)
        self._fit()
        self._say()

    def _note(self, change: Change) -> None:
        self._changed |= change.shapes

    def _take_changed(self) -> None:
        scene, changed = self.session.desk.scene, self._changed
        self._changed = frozenset()
        if not changed and self.picture.holds(scene):
            return
        beyond_gear = changed - scene.placed.keys() - self.picture.fittings.keys()
        if beyond_gear or not self.picture.holds(scene):
            self.show_all()
            return
        for name in changed:
            self.picture.take(scene, name)
        self._fit(keep=changed <= {self.session.hand})

    def _hand_changed(self, _name: str) -> None:
        self._fit()

    def _fit(self, *, keep: bool = False) -> None:
        """Fit the rig into the widget; ``keep`` what was painted of it where the scale is the same."""
        scale = Scale(self.width(), self.height(), *self.picture.heights())
        if not keep or scale != self.scale:
            self._still = None
        self.scale = scale
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def set_span(self, low_z_mm: float, high_z_mm: float) -> None:
        """Frame the heights, z in mm, that the elevation shows."""
        self._span = low_z_mm, high_z_mm
        self._say()

    def join(self, joined: Mapping[str, float]) -> None:
        """Draw a hair from each of these things, by id with its z in mm, to the right edge."""
        if joined != self._joined:
            self._joined = joined
            self.update()

    def frame(self) -> QRectF:
        """Return the frame in pixels; an empty rectangle before there is a span."""
        if self._span is None:
            return QRectF()
        top, bottom = self.scale.y_px(self._span[1]), self.scale.y_px(self._span[0])
        lacking = max(0.0, _FRAME_LEAST_PX - (bottom - top)) / 2
        half = min(self.width() * _FRAME_PART, _FRAME_MOST_PX) / 2
        middle = self.scale.x_px(0.0)
        return QRectF(middle - half, top - lacking, 2 * half, bottom - top + 2 * lacking)

    def _say(self) -> None:
        """Say in words what is painted."""
        sentences = [_("Height in hand: {height}.").format(height=self._words(self.session.z_mm))]
        if self._span is not None:
            low, high = (self._words(z) for z in self._span)
            sentences.append(_("The elevation shows {high} to {low}.").format(high=high, low=low))
        self.setAccessibleDescription(" ".join(sentences))
        self.update()

    def _words(self, z_mm: float) -> str:
        return from_masthead(self.session, z_mm)

    # -- painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if painter.paintEngine().type() == QPaintEngine.Type.SVG:
            with clipped(painter, QRectF(self.rect())):
                self.picture.paint(painter, self.scale, self.session.hand)  # lines and words, not dots
        else:
            painter.drawPixmap(0, 0, self._rig())
        self.picture.paint_hand(painter, self.scale, self.session.hand)
        self._hairs(painter)
        self._forward(painter)
        self._frame(painter)
        painter.end()

    def _rig(self) -> QPixmap:
        """Return the rig as painted once, so that a frame, a thread or a thing in hand moves alone."""
        ratio = self.devicePixelRatioF()
        if self._still is None or self._still.devicePixelRatio() != ratio:
            self._still = QPixmap(self.size() * ratio)
            self._still.setDevicePixelRatio(ratio)
            painter = QPainter(self._still)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self.picture.paint(painter, self.scale, self.session.hand)
            painter.end()
        return self._still

    def _hairs(self, painter: QPainter) -> None:
        painter.setPen(QPen(self.theme.colours["hair"], THIN))
        for name, z_mm in self._joined.items():
            y = self.scale.y_px(z_mm)
            left = self.scale.x_px(self.picture.right_mm(name)) + 3
            painter.drawLine(QPointF(left, y), QPointF(self.width(), y))

    def _forward(self, painter: QPainter) -> None:
        words, side = {
            "starboard": (_("forward →"), Qt.AlignmentFlag.AlignRight),
            "port": (_("← forward"), Qt.AlignmentFlag.AlignLeft),
            "ahead": (_("PORT →"), Qt.AlignmentFlag.AlignRight),
        }[self.session.view]
        painter.setFont(font(FIGURE))
        painter.setPen(self.theme.colours["second"])
        box = QRectF(6, self.height() - 20, self.width() - 12, 16)
        painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, words)

    def _frame(self, painter: QPainter) -> None:
        colours, frame = self.theme.colours, self.frame()
        tint = colours["accent"]
        if not frame.isEmpty():
            painter.setPen(QPen(tint, 2 * TYPICAL if self.hasFocus() else TYPICAL))
            painter.drawRoundedRect(frame, CORNER, CORNER)
            tint.setAlpha(28)
            painter.fillRect(frame.toRect(), tint)  # whole pixels: ten times as fast
        y = self.scale.y_px(self.session.z_mm)
        left = frame.left() - 6 if not frame.isEmpty() else self.scale.x_px(0.0) - 24
        painter.setPen(QPen(colours["accent"], THREAD))
        painter.drawLine(QPointF(left, y), QPointF(self.width(), y))

    # -- pointer and keys

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            self._cancel()
            return
        if self._span is None:
            return
        at, start = event.position(), sum(self._span) / 2
        if self.frame().contains(at):
            self._gesture = DragFrame(self.scale, at, start, start)
            return
        # A press beside the frame brings it under the hand, and a drag goes on from there.
        self._gesture = DragFrame(self.scale, at, start, self.scale.z_mm(at.y()))
        self._want(self.scale.z_mm(at.y()))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._gesture is not None:
            self._want(self._gesture.centre_at(event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._gesture = None

    def wheelEvent(self, event: QWheelEvent) -> None:
        self._step(event.angleDelta().y() / 120.0 * _STEP_PART)
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        length_mm = self.session.desk.scene.skin.length_mm
        match event.key():
            case Qt.Key.Key_Escape if self._gesture is not None:
                self._cancel()
            case Qt.Key.Key_Up:
                self._step(_STEP_PART)
            case Qt.Key.Key_Down:
                self._step(-_STEP_PART)
            case Qt.Key.Key_PageUp:
                self._step(1.0)
            case Qt.Key.Key_PageDown:
                self._step(-1.0)
            case Qt.Key.Key_Home:
                self._want(length_mm)
            case Qt.Key.Key_End:
                self._want(0.0)
            case _:
                super().keyPressEvent(event)

    def _step(self, spans: float) -> None:
        """Ask for the frame to move up by a part of its own height."""
        if self._span is not None:
            low, high = self._span
            self._want((low + high) / 2 + spans * (high - low))

    def _want(self, centre_z_mm: float) -> None:
        length_mm = self.session.desk.scene.skin.length_mm
        self.span_wanted.emit(min(max(centre_z_mm, 0.0), length_mm))

    def _cancel(self) -> None:
        if self._gesture is not None:
            gesture, self._gesture = self._gesture, None
            self.span_wanted.emit(gesture.start_z_mm)
