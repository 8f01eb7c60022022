"""A sail painted from above: what its cloth sweeps, what holds it off, and the cloth on its way across."""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen

from mastlayout.checks.sailed import Sailed
from mastlayout.geometry.frames import Array
from mastlayout.geometry.main.drawn import Eased
from mastlayout.geometry.tack.drawn import Swept
from mastlayout.ui.look import CLOTH_EDGE, CLOTH_PITCH, LABEL, THIN, THREAD, Colours, font
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.polygon import path_through, polygon
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.plan import Plan
from mastlayout.ui.section.within import paint_between, standing_role
from mastlayout.words import _

# What stands farther off than this is drawn without its distance: drawing style, no limit of a rule.
_SHOWN_MM = 150.0
_ARROW_PX, _DOT_PX, _WORD_PX, _RIM_PX = 6.0, 3.0, 15.0, 2.0


def pixels(plan: Plan, points: Array) -> Array:
    """Return the pixels (k, 2) of places (k, 2) ahead and to port."""
    return plan.pixels(points[:, ::-1] * (-1.0, 1.0))


def paint_sails(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint what the cloth sweeps, its luff and what is sheltered from it."""
    if made.sailed is None:
        return
    _swept(painter, made.sailed, made.plan, made.area, colours)
    _luff(painter, made.sailed, made.plan, made.area, colours)
    _sheltered(painter, made, colours)


def _swept(painter: QPainter, sailed: Sailed, plan: Plan, area: QRectF, colours: Colours) -> None:
    """Paint what the cloth sweeps hatched, its edge thick where something holds it off."""
    swept = sailed.swept
    if isinstance(swept, Swept):
        _bellies(painter, swept, plan, colours)
    _region(painter, [swept.sailed], plan, area, colours, 1)
    _region(painter, swept.whipped, plan, area, colours, 2)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colours["cloth_edge"], THREAD, HIDDEN))
    for line in (*swept.ends, *swept.whipped):
        painter.drawPath(path_through(pixels(plan, line)))
    painter.setPen(pen(colours["cloth_edge"], CLOTH_EDGE))
    for line in swept.edges:
        painter.drawPath(path_through(pixels(plan, line)))


def _bellies(painter: QPainter, swept: Swept, plan: Plan, colours: Colours) -> None:
    """Paint where a headsail hangs in between two things that hold it."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colours["cloth_edge"], THREAD, HIDDEN))
    hung = [path_through(pixels(plan, line)) for line in swept.bellies]
    for path in hung:
        painter.fillPath(path, colours["cloth"])
    for path in hung:
        painter.drawPath(path)


def _region(
    painter: QPainter, outlines: list[Array], plan: Plan, area: QRectF, colours: Colours, sparse: int
) -> None:
    """Fill outlines as ground that cloth gets at; twice as ``sparse`` is hatched half as close."""
    path = QPainterPath()
    for outline in outlines:
        path.addPolygon(polygon(pixels(plan, outline)))
        path.closeSubpath()
    if path.isEmpty():
        return
    painter.fillPath(path, colours["cloth"])
    painter.save()
    painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
    ink = colours["cloth_edge"]
    ink.setAlphaF(0.42)
    painter.setPen(QPen(ink, THIN))
    painter.drawLines(hatching(area, CLOTH_PITCH * sparse))
    painter.restore()


def hatching(area: QRectF, pitch: float) -> list[QLineF]:
    """Return lines rising at 45 degrees over an area, ``pitch`` pixels apart."""
    step = pitch * 2.0**0.5
    count = int((area.width() + area.height()) / step) + 1
    left, foot = area.left(), area.bottom()
    return [
        QLineF(left + i * step - area.height(), foot, left + i * step, area.top())
        for i in range(1, count + 1)
    ]


def paint_cloth(painter: QPainter, made: Drawing, part: float, colours: Colours) -> None:
    """Paint the cloth as a line from its luff to where it has been carried."""
    if made.sailed is None:
        return
    swept = made.sailed.swept
    path = path_through(pixels(made.plan, swept.carried(part)))
    if isinstance(swept, Eased):
        _belly(painter, swept, part, made.plan, colours)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    # A rim of the ground parts it from what it lies on.
    painter.setPen(pen(colours["ground"], CLOTH_EDGE + 2 * _RIM_PX))
    painter.drawPath(path)
    painter.setPen(pen(colours["ink"], CLOTH_EDGE))
    painter.drawPath(path)


def _belly(painter: QPainter, swept: Eased, part: float, plan: Plan, colours: Colours) -> None:
    """Paint where the cloth bellies to, from the straight line on."""
    outline = path_through(pixels(plan, swept.hung(part)))
    painter.fillPath(outline, colours["cloth"])
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colours["ink"], THREAD, HIDDEN))
    painter.drawPath(path_through(pixels(plan, swept.lies(part, swept.belly))))


def luff_px(sailed: Sailed, plan: Plan) -> QPointF:
    """Return the pixel of the luff point, in the picture or not."""
    ahead, port = sailed.swept.luff
    return plan.at(float(ahead), float(port))


def _luff(painter: QPainter, sailed: Sailed, plan: Plan, area: QRectF, colours: Colours) -> None:
    """Paint the luff point, or at the picture's edge an arrow towards it."""
    at, ink = luff_px(sailed, plan), colours["cloth_edge"]
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    if area.contains(at):
        painter.drawEllipse(at, _DOT_PX, _DOT_PX)
        return
    tip = arrow_px(sailed, plan, area)
    painter.drawPolygon(
        [tip, tip + QPointF(-0.6 * _ARROW_PX, _ARROW_PX), tip + QPointF(0.6 * _ARROW_PX, _ARROW_PX)]
    )


def arrow_px(sailed: Sailed, plan: Plan, area: QRectF) -> QPointF:
    """Return where the arrow's tip stands that points to a luff ahead of the picture."""
    at = luff_px(sailed, plan)
    return QPointF(min(max(at.x(), area.left() + _ARROW_PX), area.right() - _ARROW_PX), area.top())


def _sheltered(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Write behind the mast that cloth does not get there, where there is room for the word."""
    area, plan, cut = made.area, made.plan, made.cut
    line = QRectF(plan.axis_x - area.width() / 2, area.bottom() - _WORD_PX, area.width(), _WORD_PX)
    track = cut.track.depth_mm if cut.track and cut.track.kind == "track" else 0.0
    aft = plan.at(float(cut.ring.x.min()) - track, 0.0).y()
    swept = made.sailed.swept if made.sailed else None
    if not isinstance(swept, Swept) or not swept.beside or aft > line.top():
        return
    painter.setFont(font(LABEL))
    painter.setPen(colours["second"])
    painter.drawText(line, Qt.AlignmentFlag.AlignCenter, _("sheltered"))


def stand_line(made: Drawing) -> tuple[QPointF, QPointF] | None:
    """Return the pixels of the worst point in hand and of the nearest on the boundary, if they are shown.

    A finding that is looked at shows its own.
    """
    sailed = made.sailed
    if sailed is None or sailed.stand is None or made.cut.worst is not None:
        return None
    if sailed.stand.clear_mm > _SHOWN_MM or sailed.own_z_mm != sailed.z_mm:
        return None
    at, other = made.plan.at(*sailed.stand.at), made.plan.at(*sailed.stand.other)
    return (at, other) if made.area.contains(at) else None


def paint_stand(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint how far what is in hand stands from the cloth, or out in it."""
    line = stand_line(made)
    if line is not None and made.sailed is not None:
        paint_between(painter, *line, colours[stand_role(made.sailed)], colours)


def stand_role(sailed: Sailed | None) -> str:
    """Return the colour of how what is in hand stands: its finding's where cloth touches it."""
    if sailed is None:
        return "second"
    touched = sailed.stand is not None and sailed.stand.clear_mm < 0
    return standing_role(sailed.finding.standing) if sailed.finding and touched else "second"
