"""The tape on the elevation: seats, bodies, spreaders and stays, the mast's near side, the plane behind."""

from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from PySide6.QtCore import QPointF, QRectF

from mastlayout.geometry.frames import Array
from mastlayout.geometry.silhouette import silhouettes
from mastlayout.geometry.skin import Ring
from mastlayout.geometry.spot import InSpace, OnSkin, OnThing, Spot, parts_of
from mastlayout.geometry.tape import Taped
from mastlayout.ui.elevation.canvas import ElevationCanvas
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.measuring.view import Stretch, near
from mastlayout.ui.measuring.words import along_text, least_text, straight_text
from mastlayout.ui.session import View

_BESIDE_PX, _STAY_PX, _LEVEL_PX = 30.0, 5.0, 4.0


class OnElevation:
    """The elevation as the tape measure meets it."""

    def __init__(self, canvas: ElevationCanvas) -> None:
        self.canvas, self.surface = canvas, canvas.viewport()

    def spot_at(self, at: QPointF) -> Spot | None:
        canvas = self.canvas
        label = next((p.label.id for p in canvas.labels if canvas.label_box(p).contains(at)), "")
        if label:
            return OnThing(label, "seat")
        if at.x() > canvas.span.room_px:
            return None
        name = canvas.thing_at(at)
        if name in canvas.session.desk.scene.placed:
            return self._part(name, at)
        return self._spreader(at) or self._stay(at) or self._free(at)

    def _part(self, name: str, at: QPointF) -> Spot:
        placed = self.canvas.session.desk.scene.placed[name]
        seat = self._pixel(placed.seats.origin[0])
        return OnThing(name, "seat" if near(seat, at) or not len(placed.solids) else "body")

    def _spreader(self, at: QPointF) -> Spot | None:
        scene, here = self.canvas.session.desk.scene, shapely.Point(*self._drawn(at))
        for name, bar in scene.spreaders.items():
            if near(self._pixel(bar.root), at):
                return OnThing(name, "seat")
            if not len(bar.solids):
                continue
            shapes = silhouettes(bar.solids, self._axes)
            if any(shapely.Polygon(shape).buffer(0).contains(here) for shape in shapes):
                return OnThing(name, "body")
        return None

    def _stay(self, at: QPointF) -> Spot | None:
        here = shapely.Point(*self._drawn(at))
        reach = _STAY_PX / self.canvas.span.scale
        for name, stay in self.canvas.session.desk.scene.stays.items():
            if stay.points is not None and len(stay.solids):
                line = shapely.LineString(stay.points @ self._axes.T)
                if line.distance(here) <= reach:
                    return OnThing(name, "body")
        return None

    def _free(self, at: QPointF) -> Spot:
        """Return the mast's near side under a pixel; beside the mast, a point in the plane of its axis."""
        right, z = (float(round(value)) for value in self._drawn(at))
        skin, view = self.canvas.session.desk.scene.skin, self.canvas.view
        girth = near_girth(skin.ring(z), view, self._drawn(at)[0]) if 0 <= z <= skin.length_mm else None
        if girth is not None:
            return OnSkin(z, girth)
        ahead, port = {"starboard": (right, 0.0), "port": (-right, 0.0), "ahead": (0.0, right)}[view]
        return InSpace(ahead, port, z)

    def spot_in_hand(self) -> Spot:
        session = self.canvas.session
        parts = parts_of(session.desk.scene, session.hand)
        if parts:
            return parts[0]
        skin, z = session.desk.scene.skin, float(round(session.z_mm))
        girth = near_girth(skin.ring(z), self.canvas.view, 0.0)
        return OnSkin(min(max(z, 0.0), skin.length_mm), girth or 0.0)

    @property
    def _axes(self) -> Array:
        return AXES[self.canvas.view]

    def _drawn(self, at: QPointF) -> tuple[float, float]:
        return self.canvas.span.right_mm(at.x()), self.canvas.span.z_mm(at.y())

    def _pixel(self, point: Array) -> QPointF:
        right, z = (float(value) for value in self._axes @ point)
        return QPointF(self.canvas.span.x_px(right), self.canvas.span.y_px(z))

    def seen(self, _spot: Spot, point: Array) -> QPointF | None:
        return self._pixel(point)

    def stretches(self, _ends: Sequence[Spot], taped: Taped) -> Sequence[Stretch]:
        return list(self._stretches(taped))

    def _stretches(self, taped: Taped) -> Iterator[Stretch]:
        """Yield the straight tape, the plain dimension along the mast left of it, and body to body."""
        session = self.canvas.session
        first, second = (self._pixel(point) for point in taped.points)
        straight = straight_text(taped.straight_mm, session.units)
        along = along_text(session, taped)
        yield Stretch((first, second), straight)
        if abs(first.y() - second.y()) > _LEVEL_PX and along != straight:
            x = min(first.x(), second.x()) - _BESIDE_PX
            yield Stretch((QPointF(x, first.y()), QPointF(x, second.y())), along, thin=True)
        if taped.bodies is not None and taped.bodies.distance_mm > 0:
            ends = tuple(self._pixel(point) for point in taped.bodies.points)
            if not (near(ends[0], first) and near(ends[1], second)):
                yield Stretch(ends, least_text(taped.bodies.distance_mm, session.units), thin=True)

    def area(self) -> QRectF:
        span = self.canvas.span
        return QRectF(0, 0, span.room_px, span.height_px)

    def taken(self) -> Sequence[QRectF]:
        named = self.canvas.said_nearest()
        labels = [self.canvas.label_box(placed) for placed in self.canvas.labels]
        return [*labels, named[0]] if named else labels


def near_girth(ring: Ring, view: View, right_mm: float) -> float | None:
    """Return the girth of the mast's near side at the drawing's right-hand coordinate; None beside it."""
    if view == "ahead":
        # The near half runs from the greatest beam to ahead; y falls along it.
        widest = int(np.argmax(ring.y))
        girth, across = ring.girth[widest:], ring.y[widest:]
        if abs(right_mm) > across[0]:
            return None
        found = float(np.interp(-abs(right_mm), -across, girth))
        return -found if right_mm > 0 else found
    ahead, sign = (right_mm, 1.0) if view == "starboard" else (-right_mm, -1.0)
    if not ring.x[0] <= ahead <= ring.x[-1]:
        return None
    return sign * float(np.interp(ahead, ring.x, ring.girth))
