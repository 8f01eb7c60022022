"""The tape on the section: bodies that stand at the height in hand, the skin, and any other point there."""

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from PySide6.QtCore import QPointF, QRectF

from mastlayout.geometry.frames import Array, bearing_of
from mastlayout.geometry.spot import InSpace, OnSkin, OnThing, Spot, parts_of
from mastlayout.geometry.tape import Taped
from mastlayout.ui.measuring.view import NEAR_PX, Stretch, near
from mastlayout.ui.measuring.words import round_text, straight_text
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.section.plan import bodies

_ARC_STEP_MM, _OFF_PX, _LEVEL_MM = 4.0, 7.0, 0.5


class OnSection:
    """The section as the tape measure meets it."""

    def __init__(self, canvas: SectionCanvas) -> None:
        self.canvas = self.surface = canvas

    def spot_at(self, at: QPointF) -> Spot | None:
        canvas, scene = self.canvas, self.canvas.session.desk.scene
        plan, z = canvas.plan, canvas.session.z_mm
        ahead, port = (plan.axis_y - at.y()) / plan.scale, (plan.axis_x - at.x()) / plan.scale
        girth = scene.skin.ring(z).girth_at_bearing(bearing_of(ahead, port))
        for placed in canvas.cut.standing:
            x, y, seat_z = (float(value) for value in placed.seats.origin[0])
            if abs(seat_z - z) <= _LEVEL_MM and near(plan.at(x, y), at):
                return OnThing(placed.id, "seat")
        points, _normals = scene.skin.at(np.array([z]), np.array([girth]))
        skin = math.hypot(float(points[0, 0]) - ahead, float(points[0, 1]) - port) * plan.scale
        if canvas.cut.on_mast and skin <= NEAR_PX:
            return OnSkin(z, round(girth, 1))
        return self._body(QPointF(-port, ahead)) or InSpace(round(ahead, 1), round(port, 1), z)

    def _body(self, drawn: QPointF) -> Spot | None:
        """Return the smallest body whose outline holds a place of the drawing."""
        here, found = shapely.Point(drawn.x(), drawn.y()), []
        for name, outlines in bodies(self.canvas.cut).items():
            shapes = [shapely.Polygon(outline).buffer(0) for outline in outlines]
            found += [(shape.area, name) for shape in shapes if shape.contains(here)]
        return OnThing(min(found)[1], "body") if found else None

    def spot_in_hand(self) -> Spot:
        canvas = self.canvas
        scene, z = canvas.session.desk.scene, canvas.session.z_mm
        if canvas.cut.hand is not None:
            return parts_of(scene, canvas.cut.hand.id)[0]
        return OnSkin(z, scene.skin.ring(z).half_girth_mm)

    def seen(self, _spot: Spot, point: Array) -> QPointF | None:
        return self.canvas.plan.at(float(point[0]), float(point[1]))

    def stretches(self, _ends: Sequence[Spot], taped: Taped) -> Sequence[Stretch]:
        return list(self._stretches(taped))

    def _stretches(self, taped: Taped) -> Iterator[Stretch]:
        """Yield the tape round the skin; straight across only between two ends at one height."""
        units = self.canvas.session.units
        if taped.around is not None and taped.around.length_mm > _LEVEL_MM:
            yield Stretch(tuple(self._arc(taped)), round_text(taped.around, units))
        if abs(taped.along_mm) <= _LEVEL_MM:
            ends = tuple(self.canvas.plan.at(float(p[0]), float(p[1])) for p in taped.points)
            words = straight_text(taped.straight_mm, units)
            yield Stretch(ends, words, thin=taped.around is not None)

    def _arc(self, taped: Taped) -> Iterator[QPointF]:
        """Yield the corners of the tape laid round, a little off the skin so that the wall stays in sight."""
        around, plan = taped.around, self.canvas.plan
        if around is None:
            return
        count = max(2, round(around.length_mm / _ARC_STEP_MM))
        girths = around.from_girth_mm + np.linspace(0.0, around.by_mm, count)
        points, normals = self.canvas.cut.ring.at(girths)
        for x, y in points + normals * _OFF_PX / plan.scale:
            yield plan.at(float(x), float(y))

    def area(self) -> QRectF:
        return QRectF(self.canvas.rect())

    def taken(self) -> Sequence[QRectF]:
        return [row.box for row in self.canvas.rows]
