"""Holes that are there already, on the elevation: filled at their size, a ring where they are behind."""

import math
from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsObject, QStyleOptionGraphicsItem, QWidget

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.ui.elevation.items import DOT_PX
from mastlayout.ui.elevation.shapes import AXES, TOWARDS
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.look import THIN, Colours
from mastlayout.ui.pens import pen
from mastlayout.ui.session import View

_REACH_PX = 5.0


@dataclass(frozen=True)
class OldHoleSeen:
    """A hole as a view shows it: its place to the right and up, mm; its diameter is 0 where not known."""

    id: str
    at: Array
    diameter_mm: float
    behind: bool


def old_holes_seen(scene: Scene, view: View) -> Iterator[OldHoleSeen]:
    """Yield the holes of a layout that belong to no fitting."""
    skin = scene.skin
    for hole in scene.layout.holes:
        z = height_mm(skin.length_mm, hole.from_masthead_mm)
        point, normal = skin.at(np.array([z]), np.array([skin.girth_of(hole.girth, z)]))
        behind = bool(normal[0] @ TOWARDS[view] < 0.0)
        yield OldHoleSeen(hole.id, AXES[view] @ point[0], hole.diameter_mm or 0.0, behind)


class OldHolesItem(QGraphicsObject):
    """Every old hole; there are few, and they seldom move."""

    def __init__(self) -> None:
        super().__init__()
        self._bounds = QRectF()
        self.seen: tuple[OldHoleSeen, ...] = ()
        self.setZValue(1.0)

    def show_scene(self, scene: Scene, view: View, colours: Colours) -> None:
        """Take the holes of a scene."""
        self.prepareGeometryChange()
        self.seen, self._colours = tuple(old_holes_seen(scene, view)), colours
        self._bounds = QRectF(-500, -100, 1000, scene.skin.length_mm + 200)
        self.update()

    def at(self, pixel: QPointF, span: Span) -> str:
        """Return the id of the hole at a pixel, "" where there is none."""
        for hole in self.seen:
            reach = max(hole.diameter_mm * span.scale / 2, _REACH_PX)
            off = pixel - QPointF(span.x_px(float(hole.at[0])), span.y_px(float(hole.at[1])))
            if math.hypot(off.x(), off.y()) <= reach:
                return hole.id
        return ""

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        scale = abs(painter.worldTransform().m22())
        ink = self._colours["second"]
        painter.setPen(pen(ink, THIN, scale=scale))
        for hole in self.seen:
            radius = max(hole.diameter_mm, DOT_PX / scale) / 2
            painter.setBrush(self._colours["mast"] if hole.behind else ink)
            painter.drawEllipse(QPointF(*hole.at), radius, radius)
