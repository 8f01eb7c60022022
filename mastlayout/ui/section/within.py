"""What runs inside the mast painted: conduits with their cables, halyards, and the drills that go in."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from mastlayout.ui.look import IN_HAND, THICK, THIN, THREAD, Colours
from mastlayout.ui.pens import CENTRE, pen
from mastlayout.ui.section.cut import Crossing
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.drilled import Drill
from mastlayout.ui.section.plan import Plan

LEAST_ROPE_PX, _LEAST_CABLE_PX, _OUT_MM = 3.0, 1.2, 12.0


def paint_inside(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint conduits as rings, cables blue in them, halyards hatched, each at its size."""
    for crossing in made.cut.crossings:
        held = crossing.id == made.cut.in_hand
        painter.setPen(QPen(colours["accent" if held else "ink"], IN_HAND if held else THREAD))
        if crossing.kind == "halyard":
            _rope(painter, crossing, made.plan, colours)
        else:
            _conduit(painter, crossing, made.plan, colours)


def _rope(painter: QPainter, crossing: Crossing, plan: Plan, colours: Colours) -> None:
    radius = max(crossing.radius_mm * plan.scale, LEAST_ROPE_PX)
    at = plan.at(crossing.ahead_mm, crossing.port_mm)
    painter.setBrush(colours["ground"])
    painter.drawEllipse(at, radius, radius)
    painter.setBrush(QBrush(colours["ink"], Qt.BrushStyle.BDiagPattern))
    painter.drawEllipse(at, radius, radius)


def _conduit(painter: QPainter, crossing: Crossing, plan: Plan, colours: Colours) -> None:
    at, radius = plan.at(crossing.ahead_mm, crossing.port_mm), crossing.radius_mm * plan.scale
    painter.setBrush(colours["mast"])
    painter.drawEllipse(at, radius, radius)
    filling = crossing.filling
    if filling is None or filling.bore_mm is None:
        return
    painter.setBrush(colours["ground"])
    bore = filling.bore_mm / 2 * plan.scale
    if radius - bore > THREAD:
        painter.setPen(QPen(colours["ink"], THIN))
        painter.drawEllipse(at, bore, bore)
    painter.setPen(QPen(colours["cable"], THIN))
    painter.setBrush(colours["cloth"])
    for ahead, port, own in filling.circles:
        size = max(own * plan.scale, _LEAST_CABLE_PX)
        painter.drawEllipse(plan.at(crossing.ahead_mm + ahead, crossing.port_mm + port), size, size)


def drill_line(drill: Drill, plan: Plan) -> tuple[QPointF, QPointF, QPointF]:
    """Return a pixel outside, one on the skin, and one as deep as the drill is followed."""
    skin, deep = plan.at(*drill.skin), plan.at(*drill.deep)
    way = deep - skin
    long = max((way.x() ** 2 + way.y() ** 2) ** 0.5, 1e-9)
    return skin - way * (_OUT_MM * plan.scale / long), skin, deep


def paint_drills(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint every drill as a chain line, in the colour of what it does, those with a finding last."""
    for drill in sorted(made.cut.drills, key=lambda one: one.worst is not None):
        out, skin, deep = drill_line(drill, made.plan)
        held = drill.owner == made.cut.in_hand
        painter.setPen(pen(colours[drill_role(drill, held=held)], THREAD, CENTRE))
        painter.drawLine(out, deep)
        if drill.use == "entry":
            painter.setPen(QPen(colours["cable"], THICK))
            painter.setBrush(colours["ground"])
            painter.drawEllipse(skin, 3.0, 3.0)


def drill_role(drill: Drill, *, held: bool) -> str:
    """Return the colour of a drill: that of its finding, blue for a cable's, else as what it belongs to."""
    if drill.worst is not None:
        return standing_role(drill.worst.standing)
    if drill.use == "entry":
        return "cable"
    return "accent" if held else "second"


def standing_role(standing: str) -> str:
    """Return the colour of a finding's standing."""
    return "unknown" if standing == "not checked" else standing


def paint_worst(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint the worst place of the finding looked at, a dot in a ring, and its line to the nearest place."""
    cut = made.cut
    if cut.worst is None or cut.chosen is None:
        return
    at, other = made.plan.at(*cut.worst.at[:2]), made.plan.at(*cut.worst.other[:2])
    paint_between(painter, at, other, colours[standing_role(cut.chosen.standing)], colours)


def paint_between(painter: QPainter, at: QPointF, other: QPointF, ink: QColor, colours: Colours) -> None:
    """Paint a worst place, a dot in a ring, and its line to the nearest place on something else."""
    painter.setPen(QPen(ink, THICK))
    painter.drawLine(at, other)
    painter.setBrush(ink)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawEllipse(other, 2.4, 2.4)
    painter.setPen(QPen(ink, THREAD))
    painter.setBrush(colours["ground"])
    painter.drawEllipse(at, 5.0, 5.0)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    painter.drawEllipse(at, 2.2, 2.2)
