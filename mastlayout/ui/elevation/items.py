"""What the canvas paints: the mast with what runs inside, the rig, and one item for each fitting."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsObject, QStyleOptionGraphicsItem, QWidget

from mastlayout.geometry.inside import Inside
from mastlayout.geometry.scene import Scene
from mastlayout.model.kind import Part
from mastlayout.ui.elevation.shapes import (
    AXES,
    FRAME_PARTS,
    Outline,
    line_path,
    mast_outline,
    polygon_path,
    solid_paths,
)
from mastlayout.ui.look import IN_HAND, STAY_LEAST, THICK, THIN, TYPICAL, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.session import View

# Below these sizes on screen a symbol becomes its outline filled, then a dot.
_FILLED_PX, _DOT_PX, DOT_PX = 10.0, 4.0, 4.0


class MastItem(QGraphicsObject):
    """The mast, its track, and what runs inside as hidden lines."""

    def __init__(self) -> None:
        super().__init__()
        self._bounds = QRectF()
        self._shown: tuple[View, tuple[Inside, ...]] | None = None

    def show_scene(self, scene: Scene, view: View, colours: Colours) -> None:
        """Take the shapes of a scene."""
        self.prepareGeometryChange()
        points = mast_outline(scene, view)
        self._mast = polygon_path(points)
        self._track = _track(scene, view)
        self.show_inside(scene, view)
        low, high = points.min(axis=0), points.max(axis=0)
        self.sides_mm = float(low[0]), float(high[0])
        self._bounds = QRectF(QPointF(low[0] - 100, low[1]), QPointF(high[0] + 100, high[1])).normalized()
        self._colours = colours
        self.update()

    def show_inside(self, scene: Scene, view: View) -> bool:
        """Take what runs inside: a conduit by its two sides, a halyard by its middle line.

        Return False where the very same runs there already.
        """
        if self._shown == (view, scene.inside):
            return False
        self._shown = view, scene.inside
        pipes = {thing.id for thing in scene.conduits}
        self._inside = []
        for thing in scene.inside:
            if len(thing.start):
                points = np.concatenate([thing.start, thing.end[-1:]])
                sides = (-thing.radius_mm, thing.radius_mm) if thing.id in pipes else (0.0,)
                self._inside += [line_path(points, view).translated(side, 0.0) for side in sides]
        self.update()
        return True

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        colours, scale = self._colours, abs(painter.worldTransform().m22())
        painter.setPen(pen(colours["ink"], THICK, scale=scale))
        painter.setBrush(colours["mast"])
        painter.drawPath(self._mast)
        if self._track is not None:
            painter.setBrush(QBrush(colours["shade"]))
            painter.drawPath(self._track)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen(colours["second"], THIN, HIDDEN, scale))
        for path in self._inside:
            painter.drawPath(path)


def _track(scene: Scene, view: View) -> QPainterPath | None:
    track = scene.layout.mast.track
    if track is None or track.kind != "track" or view == "ahead":
        return None
    aft = float(scene.skin.full.x[0])
    path = QPainterPath()
    low = 0.0 if track.lower_end_mm is None else scene.skin.length_mm - track.lower_end_mm
    sign = AXES[view][0][0]
    path.addRect(
        QRectF(
            QPointF(sign * aft, low), QPointF(sign * (aft - track.depth_mm), scene.skin.length_mm)
        ).normalized()
    )
    return path


class RigItem(QGraphicsObject):
    """Stays at their true size but never thinner than a hair, and spreaders."""

    def __init__(self) -> None:
        super().__init__()
        self._bounds = QRectF()

    def show_scene(self, scene: Scene, view: View, colours: Colours) -> None:
        """Take the shapes of a scene."""
        self.prepareGeometryChange()
        self._stays = [
            (line_path(stay.points, view), stay.item.wire_mm or 0.0, stay.item.removable)
            for stay in scene.stays.values()
            if stay.points is not None
        ]
        self._bars = [path for bar in scene.spreaders.values() for path in solid_paths(bar.solids, view)]
        self._bounds = QRectF(-9000, -2000, 18000, scene.skin.length_mm + 3000)
        self._colours = colours
        self.update()

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        scale = abs(painter.worldTransform().m22())
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for path, wire_mm, removable in self._stays:
            width = max(STAY_LEAST, wire_mm * scale)
            painter.setPen(pen(self._colours["second"], width, HIDDEN if removable else (), scale))
            painter.drawPath(path)
        painter.setPen(pen(self._colours["ink"], THIN, scale=scale))
        painter.setBrush(self._colours["foot"])
        for path in self._bars:
            painter.drawPath(path)


class FittingItem(QGraphicsObject):
    """One fitting in its true outline."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name
        self.in_hand = False
        self.typical = False
        self._bounds = QRectF()

    def show_outline(self, outline: Outline, colours: Colours, *, typical: bool) -> None:
        """Take the outline of the fitting as it is placed now."""
        self.prepareGeometryChange()
        self.outline, self._colours, self.typical = outline, colours, typical
        self._bounds = QRectF(QPointF(*outline.low), QPointF(*outline.high)).adjusted(-5, -5, 5, 5)
        self.setZValue(2.0 if not outline.behind else 0.5)
        self.update()

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        scale = abs(painter.worldTransform().m22())
        size = max(self._bounds.width(), self._bounds.height()) * scale
        colours = self._colours
        ink = colours["accent" if self.in_hand else "ink"]
        if size < _DOT_PX:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ink)
            painter.drawEllipse(QPointF(*self.outline.anchor), DOT_PX / 2 / scale, DOT_PX / 2 / scale)
            return
        width, dash = (THIN, HIDDEN) if self.outline.behind else (IN_HAND if self.in_hand else THICK, ())
        plain = pen(ink, width, dash, scale)
        for path, part in self.outline.parts:
            unsure = self.typical and part == "foot"
            painter.setPen(pen(colours["unknown"], TYPICAL, HIDDEN, scale) if unsure else plain)
            painter.setBrush(self._fill(ink, size, part))
            painter.drawPath(path)
            if unsure and size >= _FILLED_PX:
                hatch = QBrush(colours["unknown"], Qt.BrushStyle.BDiagPattern)
                hatch.setTransform(painter.worldTransform().inverted()[0])
                painter.fillPath(path, hatch)

    def _fill(self, ink: QColor, size: float, part: Part) -> QBrush:
        if size < _FILLED_PX:
            return QBrush(ink)
        if self.outline.behind:
            return QBrush(Qt.BrushStyle.NoBrush)
        if part == "mouth":
            return QBrush(self._colours["hole"])
        if self.in_hand:
            return QBrush(self._colours["chosen"])
        return QBrush(self._colours["foot" if part in FRAME_PARTS else "body"])
