"""The canvas: the mast in true aspect, its fittings, the thread at the height in hand, and the labels."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QShowEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsItemGroup, QGraphicsScene, QGraphicsView, QToolTip, QWidget

from mastlayout.checks.clewed import SweptClew
from mastlayout.checks.sentence import names_of
from mastlayout.desk import Change
from mastlayout.documents.schedule.made import made_words
from mastlayout.ui.clewed import chosen_clew
from mastlayout.ui.elevation.bands import BandsItem, spoken
from mastlayout.ui.elevation.cables import CablesItem
from mastlayout.ui.elevation.column import Column
from mastlayout.ui.elevation.gestures import Pan, gesture_for
from mastlayout.ui.elevation.guides import snap_guides
from mastlayout.ui.elevation.items import FittingItem, MastItem, RigItem
from mastlayout.ui.elevation.labelling import beside_words_px, label_box, paint_labels, wanted_px
from mastlayout.ui.elevation.labels import Label, Placed, placed_labels, whole_words
from mastlayout.ui.elevation.oldholes import OldHolesItem
from mastlayout.ui.elevation.pointed import (
    Pointed,
    nearest_place,
    paint_pointed,
    paint_reach,
    paint_said,
    pointed_box,
    said,
    worst_places,
)
from mastlayout.ui.elevation.shapes import outline
from mastlayout.ui.elevation.span import AXIS_AT, LEAST_LABELS_PX, LEAST_WORDS_PX, MOST_LABELS_PART, Span
from mastlayout.ui.elevation.still import Still, paint_items
from mastlayout.ui.elevation.under import rig_part_at
from mastlayout.ui.look import LABEL_PITCH, THREAD
from mastlayout.ui.moving.guide import Guide, paint_guides
from mastlayout.ui.moving.keys import moving_key
from mastlayout.ui.moving.pointer import Pointer
from mastlayout.ui.session import Session, View
from mastlayout.ui.tapewords import figure
from mastlayout.ui.theme import Theme
from mastlayout.ui.viewport import make_viewport
from mastlayout.words import _

_FIRST_SCALE = 0.32


class ElevationCanvas(QGraphicsView):
    """The elevation. ``span_changed`` tells the tape and the strip which part of the mast shows."""

    span_changed = Signal(Span)

    def __init__(
        self, session: Session, theme: Theme, parent: QWidget | None = None, *, beside: bool = False
    ) -> None:
        super().__init__(parent)
        make_viewport(self)
        self.session, self.theme = session, theme
        # Beside another elevation it shows the mast from another side, without labels.
        self._beside = beside
        self.span = Span(800.0, 600.0, session.z_mm, _FIRST_SCALE, 0.0 if beside else LEAST_LABELS_PX)
        self.zoomed = False
        self.setScene(QGraphicsScene(self))
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setFocusPolicy(Qt.FocusPolicy.NoFocus)  # one stop of the Tab key, not two
        self.setAccessibleName(_("Elevation from another side") if beside else _("Elevation"))
        self._root = QGraphicsItemGroup()
        self.scene().addItem(self._root)
        self._mast, self._rig, self._cables = MastItem(), RigItem(), CablesItem()
        self._old_holes, self.bands = OldHolesItem(), BandsItem()
        for item in (self.bands, self._rig, self._mast, self._old_holes, self._cables):
            item.setParentItem(self._root)
        self._fittings: dict[str, FittingItem] = {}
        self._still, self._holes = Still(self.viewport()), session.layout.holes
        self._column = Column(self.viewport())
        self.pointer = Pointer(self, session)
        self.held = False  # a drag from elsewhere is over it: the picture does not run away below
        self.labels: list[Placed] = []
        self.left_out: list[Label] = []
        self.worst: list[Pointed] = []
        self._reach_of_clew: SweptClew | None = None
        self.nearest: Pointed | None = None
        self._worst_known = self._nearest_known = False
        self._changed: frozenset[str] = frozenset()
        self._report = session.desk.report
        self._connect()
        self._take_all()

    def _connect(self) -> None:
        session = self.session
        session.opened.connect(self._opened)
        session.shown.connect(self._note)
        for followed in (self._take_changed, self._follow):
            session.turns.elevation.connect(followed)
        session.turns.pointed.connect(self._find_worst)
        session.turns.nearest.connect(self._find_nearest)
        session.height_changed.connect(self._keep_up)
        session.hand_changed.connect(self._hand_changed)
        session.view_changed.connect(self._opened)
        session.units_changed.connect(self.show_all)
        session.chosen_changed.connect(self._point)
        session.sails_changed.connect(self.show_all)
        self.theme.changed.connect(self.show_all)

    @property
    def view(self) -> View:
        """The side the mast is seen from: the session's, or beside that elevation the other one."""
        if not self._beside:
            return self.session.view
        return "starboard" if self.session.view == "ahead" else "ahead"

    # -- what is shown

    def _opened(self, *_changed: object) -> None:
        self.zoomed, self._report = False, self.session.desk.report
        self.show_all()

    def show_all(self) -> None:
        """Take every shape of the scene anew."""
        if not self._asleep:
            self._take_all()
            self.fit()

    def _take_all(self) -> None:
        """Take every shape; where the picture lies is settled once the view has its size."""
        if self._asleep:
            return
        self._still.forget()
        scene, colours = self.session.desk.scene, self.theme.colours
        self.setBackgroundBrush(colours["ground"])
        for item in (self._mast, self._rig, self._old_holes, self._cables):
            item.show_scene(scene, self.view, colours)
        for name in list(self._fittings):
            self._drop(name)
        for name in scene.placed:
            self._take(name)
        self._point()

    @property
    def _asleep(self) -> bool:
        """Tell whether nobody sees it: a second view follows nothing until it shows."""
        return self._beside and not self.isVisible()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._beside:
            self.show_all()

    def _note(self, change: Change) -> None:
        self._changed |= change.shapes
        self._worst_known = self._nearest_known = False
        if self.pointer.busy or self.held:
            self._take_changed()

    def _keep_up(self, _z_mm: float) -> None:
        if self.pointer.busy or self.held:
            self._follow()

    def _take_changed(self) -> None:
        changed, self._changed = self._changed, frozenset()
        report, self._report = self._report, self.session.desk.report
        if self._asleep or report is self._report:
            return
        scene = self.session.desk.scene
        if changed - scene.placed.keys() - self._fittings.keys():
            self.show_all()
            return
        for name in changed:
            if name in scene.placed:
                self._take(name)
            else:
                self._drop(name)
        self._forget_still(changed)
        if scene.main is not self.bands.sails:
            self._show_bands()
            self._still.forget()
        self._cables.show_scene(scene, self.view, self.theme.colours)
        self._worst_known = self._nearest_known = False
        self._relabel()

    def _find_worst(self) -> None:
        """Find where the chosen findings are worst."""
        if not (self._asleep or self._worst_known):  # neither hangs on the height in hand
            self.worst, self._worst_known = worst_places(self.session), True
            self.viewport().update()

    def _find_nearest(self) -> None:
        """Find what is nearest to what is in hand."""
        if not (self._asleep or self._nearest_known):
            self.nearest, self._nearest_known = nearest_place(self.session), True
            self.viewport().update()

    def _forget_still(self, changed: frozenset[str]) -> None:
        """Paint anew what stood still where more has changed than the thing in hand."""
        scene, holes = self.session.desk.scene, self._holes
        self._holes = scene.layout.holes
        inside = self._mast.show_inside(scene, self.view)
        if holes != self._holes:
            self._old_holes.show_scene(scene, self.view, self.theme.colours)
        if inside or holes != self._holes or not changed <= {self.session.hand}:
            self._still.forget()

    def _take(self, name: str) -> None:
        placed = self.session.desk.scene.placed[name]
        item = self._fittings.get(name)
        if item is None:
            item = self._fittings[name] = FittingItem(name)
            item.setParentItem(self._root)
        item.in_hand = name == self.session.hand
        typical = placed.fitting.new and placed.foot is not None and not placed.foot_known
        item.show_outline(outline(placed, self.view), self.theme.colours, typical=typical)

    def _drop(self, name: str) -> None:
        item = self._fittings.pop(name, None)
        if item is not None:
            self.scene().removeItem(item)

    def _hand_changed(self, _name: str) -> None:
        self._take_changed()
        self._still.forget()
        for name, item in self._fittings.items():
            item.in_hand = name == self.session.hand
            item.update()
        self._point()
        self._relabel()

    def _point(self) -> None:
        """Find what is pointed at: the worst places of what is chosen, and what is nearest."""
        if self._asleep:
            return
        self._worst_known = self._nearest_known = False
        self._reach_of_clew = chosen_clew(self.session)
        self._find_worst()
        self._find_nearest()
        self.viewport().update()

    def _follow(self) -> None:
        """Keep the height in hand in sight; the picture does not move while it is."""
        z_mm = self.session.z_mm
        margin = self.span.height_px / 8 / self.span.scale
        shown = self.span.low_z_mm + margin <= z_mm <= self.span.high_z_mm - margin
        if not (shown or self.pointer.busy or self.held):
            self.show_span(replace(self.span, centre_z_mm=z_mm))
        self.viewport().update()

    def show_span(self, span: Span) -> None:
        """Show another part of the mast, or at another scale."""
        self.zoomed = self.zoomed or span.scale != self.span.scale
        self.span = span
        self._still.forget()
        transform = QTransform(span.scale, 0, 0, -span.scale, span.x_px(0.0), span.y_px(0.0))
        self._root.setTransform(transform)
        self._show_bands()
        self._relabel()
        self.span_changed.emit(span)

    def _show_bands(self) -> None:
        """Show over which heights sails sweep the mast; beside another elevation it shows there."""
        drawn = self.session.sails_drawn and not self._beside
        self.bands.setVisible(drawn)
        if drawn:
            self.bands.show_scene(self.session.desk.scene, self.span, self.view, self.theme.colours)
        swept = spoken(self.session.desk.scene, self.session.units) if drawn else ""
        words = _("The mast to scale. The list holds everything that shows here.")
        self.setAccessibleDescription(f"{words} {swept}".strip())

    def fit(self) -> None:
        """Give labels and gear their room; the scale is left alone once somebody has zoomed."""
        self._take_changed()  # a view that waits for its turn may be laid out anew before it
        size = self.viewport().size()
        span = replace(
            self.span,
            width_px=float(size.width()),
            height_px=float(size.height()),
            labels_px=self._labels_px(size.width()),
            axis_at=self.span.axis_at if self.zoomed else AXIS_AT[self.view],
        )
        zoomed = self.zoomed
        self.show_span(span if zoomed or self._beside else span.fitted(*self._reach()))
        self.zoomed = zoomed

    def _labels_px(self, width_px: float) -> float:
        """Return the width of the labels' column: what the longest takes, but never half the canvas."""
        if self._beside:
            return 0.0
        placed = self.session.desk.scene.placed.values()
        labels = [
            (whole_words(one.fitting.name, made_words(one)), figure(self.session, one.z_mm)) for one in placed
        ]
        wanted = max((wanted_px(*label) for label in labels), default=0.0)
        least = max((beside_words_px(reading) for _name, reading in labels), default=0.0) + LEAST_WORDS_PX
        return max(LEAST_LABELS_PX, min(wanted, max(least, width_px * MOST_LABELS_PART)))

    def _reach(self) -> tuple[float, float]:
        """Return how far to either side, mm, what stands on the mast reaches; stays and spreaders apart."""
        placed = self.session.desk.scene.placed
        gear = [item.outline for name, item in self._fittings.items() if placed[name].on_mast]
        left = min((float(one.low[0]) for one in gear), default=0.0)
        return left, max((float(one.high[0]) for one in gear), default=0.0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setSceneRect(QRectF(self.viewport().rect()))  # the scene is in pixels
        if hasattr(self, "_root"):
            self.fit()

    # -- labels

    def _relabel(self, *_: object) -> None:
        edge = LABEL_PITCH / 2
        wanted = [] if self._beside else list(self._wanted())
        self.labels, self.left_out = placed_labels(wanted, edge, self.span.height_px - edge)
        self.viewport().update()

    def _wanted(self) -> Iterator[Label]:
        placed, states = self.session.desk.scene.placed, self.session.desk.report.states
        among = tuple(one.fitting.name for one in placed.values())
        for name, item in self._fittings.items():
            in_hand = name == self.session.hand
            right, z = item.outline.edge
            z = placed[name].z_mm if in_hand else z  # the thread is its leader
            if self.span.low_z_mm <= z <= self.span.high_z_mm:
                yield Label(
                    name,
                    states.get(name, "clear"),
                    placed[name].fitting.name,
                    figure(self.session, placed[name].z_mm),
                    self.span.x_px(right),
                    self.span.y_px(z),
                    in_hand,
                    among,
                    made_words(placed[name]),
                )

    def said_nearest(self) -> tuple[QRectF, str] | None:
        """Return where the nearest thing is named, and the words; None where it is not."""
        if self.nearest is None or self._beside:
            return None
        marks = [pointed_box(self.span, self.view, pointed) for pointed in self.worst]
        return said(self.span, self.view, self.nearest, self._mast.sides_mm, marks)

    def label_box(self, placed: Placed) -> QRectF:
        """Return the rectangle, in pixels, that a label is painted in."""
        return label_box(self.span, placed)

    def paintEvent(self, event: QPaintEvent) -> None:
        hand = self._fittings.get(self.session.hand)
        if not self.session.previewing or hand is None:
            super().paintEvent(event)
            return
        where = self._root.deviceTransform(self.viewportTransform())
        painter = QPainter(self.viewport())
        bands = [self.bands] if self.bands.isVisible() else []
        beside = [*bands, self._rig, self._mast, self._old_holes, *self._fittings.values()]
        ground, behind = self.theme.colours["ground"], hand.outline.behind
        self._still.paint(painter, hand, beside, where, ground, behind=behind)
        paint_items(painter, [self._cables], where)
        self.drawForeground(painter, QRectF(self.rect()))
        painter.end()

    def drawForeground(self, painter: QPainter, _rect: QRectF | QRect) -> None:
        colours = self.theme.colours
        painter.save()
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._thread(painter)
        if self._reach_of_clew is not None and self.session.sails:
            paint_reach(painter, self.span, self.view, self._reach_of_clew, colours)
        for pointed in (*self.worst, *([self.nearest] if self.nearest else ())):
            paint_pointed(painter, self.span, self.view, pointed, colours)
        if not self._beside:
            paint = self._column.paint if self.session.previewing else paint_labels
            paint(painter, self.span, self.labels, self.left_out, colours)
        found = self.said_nearest()  # over the leaders, which would strike its figures through
        if found is not None and self.nearest is not None:
            paint_said(painter, found[0], self.nearest.number, found[1], colours)
        paint_guides(painter, self.guides(), self._drawing(), colours)
        painter.restore()

    def _drawing(self) -> QRectF:
        return QRectF(0.0, 0.0, self.span.room_px, self.span.height_px)

    def guides(self) -> Iterator[Guide]:
        """Yield the line that what is dragged snapped to."""
        yield from snap_guides(self.session, self.view, self.pointer.snaps, self.span, self._drawing())

    def _thread(self, painter: QPainter) -> None:
        y = self.span.y_px(self.session.z_mm)
        painter.setPen(QPen(self.theme.colours["accent"], THREAD))
        hand = next((p for p in self.labels if p.label.in_hand), None)
        end = hand.label.anchor_x if hand else self.span.room_px
        painter.drawLine(QPointF(0, y), QPointF(end, y))

    # -- pointer and keys

    def viewportEvent(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            name = self.thing_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), names_of(self.session.layout).get(name, ""), self)
            return True
        return bool(super().viewportEvent(event))

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
        if best is not None:
            return best.name
        hole = self._old_holes.at(at, self.span)
        return hole or rig_part_at(self.session.desk.scene, self.view, self.span, at)

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
            event.ignore()  # the view itself would take the arrows, to scroll
