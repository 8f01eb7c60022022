"""The section painted: mast and wall, what runs inside, what stands round it, drills, call-outs."""

from collections.abc import Iterator

import numpy as np
import shapely
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from mastlayout.geometry.frames import Array
from mastlayout.geometry.silhouette import FROM_ABOVE, silhouettes
from mastlayout.limits import limits_of
from mastlayout.ui.elevation.items import CENTRE, HIDDEN, pen
from mastlayout.ui.elevation.shapes import FRAME_PARTS
from mastlayout.ui.look import IN_HAND, LABEL, MARGIN, THICK, THIN, THREAD, UNIT, Colours, font
from mastlayout.ui.moving.guide import Guide
from mastlayout.ui.moving.pointer import Gesture
from mastlayout.ui.moving.way import Grip
from mastlayout.ui.section.at_height import HeightView
from mastlayout.ui.section.callouts import CallOut, Row, stand
from mastlayout.ui.section.carry import Carry
from mastlayout.ui.section.cut import Cut, cut_at, parts_at
from mastlayout.ui.section.hits import Hit, square
from mastlayout.ui.section.plan import Plan, bodies, bounds_mm, fitted
from mastlayout.ui.section.words import callouts, description, lost_words
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

_HEAD_PX, _MORE_PX = 26.0, 16.0
# How much of the width the drawing takes: the widest that leaves every call-out its row.
_PARTS = (1.0, 0.88, 0.78, 0.68, 0.58, 0.5, 0.42, 0.34)
# Of the width, what a call-out may take; a longer one loses its middle: the side stands at the end.
_MOST_WORDS = 0.38
_LEAST_ROPE_PX, _LEAST_TRACK_MM, _DRILL_OUT_MM = 3.0, 2.0, 12.0
# How far a snap's ray reaches, in distances of the skin from the axis.
_RAY = 1.6
_ROLES = {True: "foot", False: "body"}


class SectionCanvas(HeightView):
    """The section. ``plan`` is where it lies, ``rows`` its call-outs, ``left_out`` how many had no room."""

    from_above = True

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.plan, self.rows, self.left_out = Plan(0.0, 0.0, 1.0), list[Row](), 0
        super().__init__(session, theme, _("Section from above"), parent)
        self.setMinimumSize(200, 160)
        self._refresh()

    def sizeHint(self) -> QSize:
        return QSize(312, 320)

    @property
    def cut(self) -> Cut:
        """What the height in hand holds."""
        found, _units = self._content()
        return found

    def _content(self) -> tuple[Cut, Units]:
        content: tuple[Cut, Units] = self.content or self.gather()  # type: ignore[assignment]  # the view's own
        return content

    def gather(self) -> tuple[Cut, Units]:
        session = self.session
        return cut_at(session.desk.scene, session.z_mm, session.hand), session.units

    def arrange(self) -> None:
        cut, units = self._content()
        self._outlines = bodies(cut)
        area, bounds = self._area(), bounds_mm(cut, self._outlines)
        tried = []
        for part in _PARTS:
            plan = self.plan if self.pointer.busy else fitted(bounds, area, part)
            wanted = list(callouts(cut, plan, self._outlines, units))
            rows, left_out = stand(wanted, self._width, area, self._blocks(plan))
            if left_out:
                less = area.adjusted(0, 0, 0, -_MORE_PX)
                rows, left_out = stand(wanted, self._width, less, self._blocks(plan))
            tried.append((plan, rows, left_out))
            if not left_out or self.pointer.busy:
                break
        self.plan, self.rows, self.left_out = min(tried, key=lambda one: one[2])
        self.setAccessibleDescription(description(cut, self.session.desk.scene.skin, units))

    def _area(self) -> QRectF:
        inner = QRectF(self.rect()).adjusted(MARGIN, _HEAD_PX, -MARGIN, -MARGIN)
        return inner.adjusted(0, 0, 0, -self._lost_box(inner).height())

    def _lost_box(self, inner: QRectF) -> QRectF:
        words = lost_words(self.cut)
        if not words:
            return QRectF(inner.left(), inner.bottom(), inner.width(), 0)
        flags = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft
        box = QFontMetricsF(font(LABEL)).boundingRect(QRectF(0, 0, inner.width(), 400), int(flags), words)
        tall = box.height() + UNIT
        return QRectF(inner.left(), inner.bottom() - tall + UNIT, inner.width(), tall)

    def _width(self, words: str) -> float:
        most = (self.width() - 2 * MARGIN) * _MOST_WORDS
        return min(QFontMetricsF(font(LABEL, bold=True)).horizontalAdvance(words) + 2.0, most)

    def _blocks(self, plan: Plan) -> list[QRectF]:
        """Return the rectangles no call-out may stand in."""
        shapes = [plan.seen(part) for outline in self._outlines.values() for part in outline]
        shapes.append(plan.seen(_outline(self.cut)))
        return [shape.boundingRect().adjusted(-UNIT, -UNIT, UNIT, UNIT) for shape in shapes]

    def hits(self) -> Iterator[Hit]:
        """Yield words, bodies, spreaders and what runs inside."""
        for row in self.rows:
            if row.callout.id:
                yield Hit(row.callout.id, QPolygonF(row.box))
        for name, outline in self._outlines.items():
            for part in outline:
                yield Hit(name, self.plan.seen(part))
        for bar in self.cut.spreaders:
            for part in silhouettes(bar.solids, FROM_ABOVE):
                yield Hit(bar.item.id, self.plan.seen(part))
        for crossing in self.cut.crossings:
            at = self.plan.at(crossing.ahead_mm, crossing.port_mm)
            yield square(crossing.id, at, max(crossing.radius_mm * self.plan.scale, _LEAST_ROPE_PX))

    def gesture(self, grip: Grip, at: QPointF) -> Gesture:
        return Carry(self, grip, self.cut.ring, at)

    def guides(self) -> Iterator[Guide]:
        """Yield the ray through the girth that what is dragged snapped to."""
        for name, target in self.pointer.snaps.items():
            if name == "round":
                point, _normal = self.cut.ring.at(np.array([target.value]))
                x, y = (float(value) for value in point[0])
                out = self.plan.at(_RAY * x, _RAY * y)
                yield Guide(QLineF(out, self.plan.at(0.0, 0.0)), target.words)

    # -- painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        cut, colours = self.cut, self.theme.colours
        self._words(painter, colours)
        for bar in cut.spreaders:
            painter.setPen(QPen(colours["ink"], THIN))
            painter.setBrush(colours["foot"])
            for part in silhouettes(bar.solids, FROM_ABOVE):
                painter.drawPolygon(self.plan.seen(part))
        self._mast(painter, colours)
        self._inside(painter, colours)
        for name, outline in self._outlines.items():
            self._body(painter, name, outline, colours)
        self._drills(painter, colours)
        for row in self.rows:
            self._callout(painter, row, colours)
        self.paint_guides(painter)
        self.paint_focus(painter)
        painter.end()

    def _words(self, painter: QPainter, colours: Colours) -> None:
        head = QRectF(self.rect()).adjusted(MARGIN, 0, -MARGIN, 0)
        head.setHeight(_HEAD_PX)
        painter.setPen(colours["ink"])
        painter.setFont(font(LABEL, bold=True))
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(head, middle | Qt.AlignmentFlag.AlignLeft, _("PORT"))
        painter.drawText(head, middle | Qt.AlignmentFlag.AlignRight, _("STARBOARD"))
        painter.setFont(font(LABEL))
        painter.setPen(colours["second"])
        x, y = self.plan.axis_x, head.center().y()
        bow = QRectF(x + 8, head.top(), 60, head.height())
        painter.drawText(bow, middle | Qt.AlignmentFlag.AlignLeft, _("bow"))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours["ink"])
        painter.drawPolygon(QPolygonF([QPointF(x - 5, y + 5), QPointF(x, y - 5), QPointF(x + 5, y + 5)]))
        painter.setPen(colours["unknown"])
        inner = QRectF(self.rect()).adjusted(MARGIN, _HEAD_PX, -MARGIN, -MARGIN)
        painter.drawText(
            self._lost_box(inner), Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft, lost_words(self.cut)
        )
        if self.left_out:
            painter.setPen(colours["second"])
            low = QRectF(inner.left(), self._area().bottom() - _MORE_PX, inner.width(), _MORE_PX)
            painter.drawText(low, Qt.AlignmentFlag.AlignRight, _("+{n} more").format(n=self.left_out))

    def _mast(self, painter: QPainter, colours: Colours) -> None:
        cut, plan = self.cut, self.plan
        outline = plan.seen(_outline(cut))
        painter.setBrush(colours["ground"])
        if not cut.on_mast:
            painter.setPen(pen(colours["second"], THIN, HIDDEN))
            painter.drawPolygon(outline)
            return
        painter.setPen(QPen(colours["ink"], THICK))
        painter.drawPolygon(outline)
        inner = plan.seen(_moved_in(cut, cut.wall_mm if cut.wall_mm is not None else cut.near_wall_mm))
        if cut.wall_mm is not None:
            wall = QPainterPath()
            wall.addPolygon(outline)
            wall.addPolygon(inner)
            painter.fillPath(wall, colours["ink"])
        else:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(colours["unknown"], THIN, HIDDEN))
            painter.drawPolygon(inner)
        self._track(painter, colours)

    def _track(self, painter: QPainter, colours: Colours) -> None:
        cut, plan = self.cut, self.plan
        if cut.track is None:
            return
        aft, half = float(cut.ring.x.min()), cut.track.width_mm / 2
        painter.setPen(QPen(colours["ink"], THIN))
        if cut.track.kind == "track":
            painter.setBrush(colours["shade"])
            depth = max(cut.track.depth_mm, _LEAST_TRACK_MM)
            painter.drawRect(QRectF(plan.at(aft, half), plan.at(aft - depth, -half)))
            return
        chamber = cut.track.chamber_mm / 2
        deep = max(cut.track.depth_mm, cut.near_wall_mm or 0.0)
        painter.setBrush(colours["ground"])
        if chamber:
            painter.drawEllipse(
                plan.at(aft + deep + chamber, 0.0), chamber * plan.scale, chamber * plan.scale
            )
        slot = QRectF(plan.at(aft + deep + chamber, half), plan.at(aft - THICK / plan.scale, -half))
        painter.fillRect(slot, colours["ground"])
        painter.drawLine(slot.topLeft(), slot.bottomLeft())
        painter.drawLine(slot.topRight(), slot.bottomRight())

    def _inside(self, painter: QPainter, colours: Colours) -> None:
        for crossing in self.cut.crossings:
            at = self.plan.at(crossing.ahead_mm, crossing.port_mm)
            size = crossing.radius_mm * self.plan.scale
            if crossing.kind == "halyard":
                size = max(size, _LEAST_ROPE_PX)
                painter.setPen(QPen(colours["ink"], THIN))
                painter.setBrush(QBrush(colours["ink"], Qt.BrushStyle.BDiagPattern))
            else:
                painter.setPen(QPen(colours["ink"], THREAD))
                painter.setBrush(colours["mast"])
            painter.drawEllipse(at, size, size)

    def _body(self, painter: QPainter, name: str, outline: Array, colours: Colours) -> None:
        placed = self.session.desk.scene.placed[name]
        in_hand = placed is self.cut.hand
        mask = parts_at(placed.solids, self.cut.z_mm)
        parts = [part for part, held in zip(placed.body.parts, mask, strict=True) if held]
        # The lowest is painted first, as one looks down on it.
        for i in np.argsort(placed.solids.centre[mask][:, 2], kind="stable"):
            painter.setPen(QPen(colours["accent" if in_hand else "ink"], IN_HAND if in_hand else THREAD))
            painter.setBrush(_fill(colours, parts[i] in FRAME_PARTS, in_hand=in_hand))
            painter.drawPolygon(self.plan.seen(outline[i]))

    def drills(self) -> list[tuple[QPointF, QPointF, QPointF]]:
        """Return for each hole in hand a pixel outside, one on the skin, and one as deep as a drill runs."""
        holes = self.cut.hand.holes if self.cut.hand else None
        if holes is None:
            return []
        reach = limits_of(self.session.layout)["drill.reach"].value
        lines = []
        for point, way in zip(holes.point[0], holes.direction[0], strict=True):
            if not np.isnan(point).any():
                ends = (point - _DRILL_OUT_MM * way, point, point + reach * way)
                out, skin, deep = (self.plan.at(float(x), float(y)) for x, y, _z in ends)
                lines.append((out, skin, deep))
        return lines

    def _drills(self, painter: QPainter, colours: Colours) -> None:
        painter.setPen(pen(colours["accent"], THREAD, CENTRE))
        for out, _skin, deep in self.drills():
            painter.drawLine(out, deep)

    def _callout(self, painter: QPainter, row: Row, colours: Colours) -> None:
        callout: CallOut = row.callout
        ink = colours[callout.role]
        painter.setPen(QPen(ink if callout.role == "accent" else colours["edge"], THIN))
        painter.drawPolyline(QPolygonF(row.leader))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawEllipse(callout.anchor, 1.6, 1.6)
        painter.setPen(ink)
        face = font(LABEL, bold=callout.role == "accent")
        painter.setFont(face)
        elided = Qt.TextElideMode.ElideMiddle
        words = QFontMetricsF(face).elidedText(callout.words, elided, row.box.width())
        side = Qt.AlignmentFlag.AlignLeft if row.left else Qt.AlignmentFlag.AlignRight
        painter.drawText(row.box, side | Qt.AlignmentFlag.AlignVCenter, words)


def _outline(cut: Cut) -> Array:
    """Return the section as the drawing has it: to the right, and up."""
    return np.asarray(cut.ring.polygon() @ FROM_ABOVE[:, :2].T)


def _moved_in(cut: Cut, wall_mm: float | None) -> Array:
    """Return the wall's inner face as the drawing has it; nothing where it has none."""
    if not wall_mm:
        return np.empty((0, 2))
    inner = shapely.Polygon(_outline(cut)).buffer(-wall_mm)
    return np.asarray(inner.exterior.coords) if isinstance(inner, shapely.Polygon) else np.empty((0, 2))


def _fill(colours: Colours, frame: bool, *, in_hand: bool) -> QColor:  # noqa: FBT001 - a key of the table
    return colours[_ROLES[frame] if frame or not in_hand else "chosen"]
