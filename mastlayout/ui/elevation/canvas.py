"""The canvas: the mast in true aspect, its fittings, the thread at the height in hand, and the labels."""

from collections.abc import Iterator

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QResizeEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from mastlayout.checks.report import state_of
from mastlayout.desk import Change
from mastlayout.ui.elevation.gestures import Pan, gesture_for
from mastlayout.ui.elevation.guides import snap_guides
from mastlayout.ui.elevation.items import FittingItem, MastItem, RigItem
from mastlayout.ui.elevation.labels import Label, Placed, placed_labels
from mastlayout.ui.elevation.shapes import outline
from mastlayout.ui.elevation.span import LABELS_PX, Span
from mastlayout.ui.elevation.under import rig_part_at
from mastlayout.ui.look import GAP, LABEL, MARGIN, THREAD, font
from mastlayout.ui.marks import paint_mark
from mastlayout.ui.moving.guide import Guide, paint_guides
from mastlayout.ui.moving.keys import moving_key
from mastlayout.ui.moving.pointer import Pointer
from mastlayout.ui.session import Session
from mastlayout.ui.strip.things import figure
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_GUTTER_PX = 24.0
_FIRST_SCALE = 0.32


class ElevationCanvas(pg.GraphicsView):  # type: ignore[misc]  # pyqtgraph ships no types
    """The elevation. ``span_changed`` tells the tape and the strip which part of the mast shows."""

    span_changed = Signal(Span)

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent, background=None)
        self.session, self.theme = session, theme
        self.span = Span(800.0, 600.0, session.z_mm, _FIRST_SCALE)
        self.setAntialiasing(True)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("Elevation"))
        self._root = pg.ItemGroup()
        self.scene().addItem(self._root)
        self._mast, self._rig = MastItem(), RigItem()
        for item in (self._rig, self._mast):
            item.setParentItem(self._root)
        self._fittings: dict[str, FittingItem] = {}
        self.pointer = Pointer(self, session)
        self.labels: list[Placed] = []
        self.left_out = 0
        session.opened.connect(self.show_all)
        session.shown.connect(self._shown)
        session.hand_changed.connect(self._hand_changed)
        session.height_changed.connect(self._follow)
        session.view_changed.connect(self.show_all)
        session.units_changed.connect(self._relabel)
        theme.changed.connect(self.show_all)
        self.show_all()

    # -- what is shown

    def show_all(self) -> None:
        """Take every shape of the scene anew."""
        scene, view, colours = self.session.desk.scene, self.session.view, self.theme.colours
        self.setBackground(colours["ground"])
        self._mast.show_scene(scene, view, colours)
        self._rig.show_scene(scene, view, colours)
        for name in list(self._fittings):
            self._drop(name)
        for name in scene.placed:
            self._take(name)
        self.show_span(self.span)

    def _shown(self, changed: Change) -> None:
        scene = self.session.desk.scene
        if changed.shapes - scene.placed.keys() - self._fittings.keys():
            self.show_all()
            return
        for name in changed.shapes:
            if name in scene.placed:
                self._take(name)
            else:
                self._drop(name)
        self._relabel()

    def _take(self, name: str) -> None:
        placed = self.session.desk.scene.placed[name]
        item = self._fittings.get(name)
        if item is None:
            item = self._fittings[name] = FittingItem(name)
            item.setParentItem(self._root)
        item.in_hand = name == self.session.hand
        typical = placed.fitting.new and placed.foot is not None and not placed.foot_known
        item.show_outline(outline(placed, self.session.view), self.theme.colours, typical=typical)

    def _drop(self, name: str) -> None:
        item = self._fittings.pop(name, None)
        if item is not None:
            self.scene().removeItem(item)

    def _hand_changed(self, _name: str) -> None:
        for name, item in self._fittings.items():
            item.in_hand = name == self.session.hand
            item.update()
        self._relabel()

    def _follow(self, z_mm: float) -> None:
        """Keep the height in hand in sight; the picture does not move while it is."""
        margin = self.span.height_px / 8 / self.span.scale
        if not self.span.low_z_mm + margin <= z_mm <= self.span.high_z_mm - margin and not self.pointer.busy:
            self.show_span(Span(self.span.width_px, self.span.height_px, z_mm, self.span.scale))
        self.viewport().update()

    def show_span(self, span: Span) -> None:
        """Show another part of the mast, or at another scale."""
        self.span = span
        transform = QTransform(span.scale, 0, 0, -span.scale, span.x_px(0.0), span.y_px(0.0))
        self._root.setTransform(transform)
        self._relabel()
        self.span_changed.emit(span)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not hasattr(self, "_root"):
            return
        size = self.viewport().size()
        self.show_span(Span(size.width(), size.height(), self.span.centre_z_mm, self.span.scale))

    # -- labels

    def _relabel(self, *_: object) -> None:
        top, bottom = MARGIN * 1.5, self.span.height_px - MARGIN * 1.5
        self.labels, self.left_out = placed_labels(list(self._wanted()), top, bottom)
        self.viewport().update()

    def _wanted(self) -> Iterator[Label]:
        scene = self.session.desk.scene
        for name, item in self._fittings.items():
            right, z = item.outline.anchor
            if self.span.low_z_mm <= z <= self.span.high_z_mm:
                placed = scene.placed[name]
                x = self.span.x_px(max(float(item.outline.high[0]), float(right)))
                yield Label(
                    name,
                    state_of(self.session.desk.report, name),
                    placed.fitting.name,
                    figure(self.session, placed.z_mm),
                    x,
                    self.span.y_px(float(z)),
                    name == self.session.hand,
                )

    def label_box(self, placed: Placed) -> QRectF:
        """Return the rectangle, in pixels, that a label is painted in."""
        left = self.span.width_px - LABELS_PX
        return QRectF(left, placed.y - 10.0, LABELS_PX - GAP, 20.0)

    def drawForeground(self, painter: QPainter, _rect: QRectF) -> None:
        painter.save()
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._thread(painter)
        for placed in self.labels:
            self._paint_label(painter, placed)
        paint_guides(painter, self.guides(), self._drawing(), self.theme.colours)
        if self.left_out:
            painter.setFont(font(LABEL))
            painter.setPen(self.theme.colours["second"])
            box = QRectF(self.span.width_px - LABELS_PX, self.span.height_px - 20, LABELS_PX - GAP, 18)
            painter.drawText(box, Qt.AlignmentFlag.AlignRight, _("+{n} more").format(n=self.left_out))
        painter.restore()

    def _drawing(self) -> QRectF:
        return QRectF(0.0, 0.0, self.span.width_px - LABELS_PX, self.span.height_px)

    def guides(self) -> Iterator[Guide]:
        """Yield the line that what is dragged snapped to."""
        yield from snap_guides(self.session, self.pointer.snaps, self.span, self._drawing())

    def _thread(self, painter: QPainter) -> None:
        y = self.span.y_px(self.session.z_mm)
        painter.setPen(QPen(self.theme.colours["accent"], THREAD))
        hand = next((p for p in self.labels if p.label.in_hand), None)
        end = hand.label.anchor_x if hand else self.span.width_px - LABELS_PX
        painter.drawLine(QPointF(0, y), QPointF(end, y))

    def _paint_label(self, painter: QPainter, placed: Placed) -> None:
        colours, label, box = self.theme.colours, placed.label, self.label_box(placed)
        elbow = box.left() - _GUTTER_PX
        painter.setPen(QPen(colours["accent" if label.in_hand else "edge"], THREAD if label.in_hand else 1.0))
        start = QPointF(min(label.anchor_x, elbow), label.anchor_y)
        painter.drawPolyline([start, QPointF(elbow, label.anchor_y), QPointF(box.left() - 4, placed.y)])
        if label.in_hand:
            painter.fillRect(box, colours["chosen"])
            painter.fillRect(QRectF(box.left(), box.top(), 3, box.height()), colours["accent"])
        paint_mark(painter, label.state, QPointF(box.left() + 14, placed.y), 14, colours)
        face = font(LABEL, bold=label.in_hand)
        painter.setFont(face)
        painter.setPen(colours["ink"])
        metrics = QFontMetricsF(face)
        number = metrics.horizontalAdvance(label.reading) + 6
        words = box.adjusted(28, 0, -number - 4, 0)
        text = metrics.elidedText(label.words, Qt.TextElideMode.ElideRight, words.width())
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)
        right = box.adjusted(0, 0, -4, 0)
        painter.drawText(right, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, label.reading)

    # -- pointer and keys

    def thing_at(self, at: QPointF) -> str:
        """Return the id of the thing under a pixel, its label's too; "" where there is none."""
        for placed in self.labels:
            if self.label_box(placed).contains(at):
                return placed.label.id
        point = np.array([self.span.right_mm(at.x()), self.span.z_mm(at.y())])
        reach = 4.0 / self.span.scale
        under = [
            item
            for item in self._fittings.values()
            if (point >= item.outline.low - reach).all() and (point <= item.outline.high + reach).all()
        ]
        # The smallest lies within larger ones: a cleat before a track.
        best = min(under, key=lambda item: float(np.prod(item.outline.high - item.outline.low)), default=None)
        return best.name if best else rig_part_at(self.session.desk.scene, self.session.view, self.span, at)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            self.pointer.cancel()
            return
        at = event.position()
        name = self.thing_at(at)
        self.pointer.begin(gesture_for(self, name, at) if name else Pan(self, at), at)
        if name:
            self.session.pick(name)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.pointer.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.pointer.release(event)
        self.viewport().update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self.thing_at(event.position()):
            self.session.typing_wanted.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        turns = event.angleDelta().y() / 120.0
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.show_span(self.span.zoomed(1.2**turns, event.position().y()))
        else:
            self.show_span(self.span.moved(60.0 * turns))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if moving_key(self.session, event):
            return
        if key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus):
            factor = 1 / 1.2 if key == Qt.Key.Key_Minus else 1.2
            self.show_span(self.span.zoomed(factor, self.span.y_px(self.session.z_mm)))
        else:
            super().keyPressEvent(event)
