"""The mast painted: its wall at true thickness, its track or groove, holes that are there already."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen

from mastlayout.ui.look import THICK, THIN, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.plan import inner_face, outline_of

_LEAST_TRACK_MM, _LEAST_HOLE_PX = 2.0, 2.5


def paint_mast(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint the mast; above its head or below its heel the nearest section, dashed."""
    cut, plan = made.cut, made.plan
    outline = plan.seen(outline_of(cut.ring))
    painter.setBrush(colours["ground"])
    if not cut.on_mast:
        painter.setPen(pen(colours["second"], THIN, HIDDEN))
        painter.drawPolygon(outline)
        return
    _wall(painter, made, colours)
    _track(painter, made, colours)
    _old_holes(painter, made, colours)


def _wall(painter: QPainter, made: Drawing, colours: Colours) -> None:
    cut, plan = made.cut, made.plan
    outline = plan.seen(outline_of(cut.ring))
    thickness = cut.wall_mm if cut.wall_mm is not None else cut.near_wall_mm
    inner = plan.seen(inner_face(cut.ring, thickness)) if thickness else None
    # A wall is never thinner than the outlines of other things.
    thin = cut.wall_mm is not None and cut.wall_mm * plan.scale < THICK
    if cut.wall_mm is None or inner is None or thin:
        painter.setPen(QPen(colours["ink"], THICK))
        painter.drawPolygon(outline)
        if inner is not None and not thin:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(colours["unknown"], THIN, HIDDEN))
            painter.drawPolygon(inner)
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawPolygon(outline)
    wall = QPainterPath()
    wall.addPolygon(outline)
    wall.addPolygon(inner)
    painter.fillPath(wall, colours["ink"])


def _track(painter: QPainter, made: Drawing, colours: Colours) -> None:
    cut, plan = made.cut, made.plan
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
        painter.drawEllipse(plan.at(aft + deep + chamber, 0.0), chamber * plan.scale, chamber * plan.scale)
    slot = QRectF(plan.at(aft + deep + chamber, half), plan.at(aft - THICK / plan.scale, -half))
    painter.fillRect(slot, colours["ground"])
    painter.drawLine(slot.topLeft(), slot.bottomLeft())
    painter.drawLine(slot.topRight(), slot.bottomRight())


def _old_holes(painter: QPainter, made: Drawing, colours: Colours) -> None:
    painter.setPen(QPen(colours["ink"], THIN))
    painter.setBrush(colours["ground"])
    for hole in made.cut.old_holes:
        radius = max((hole.diameter_mm or 0.0) / 2 * made.plan.scale, _LEAST_HOLE_PX)
        painter.drawEllipse(made.plan.at(hole.ahead_mm, hole.port_mm), radius, radius)
