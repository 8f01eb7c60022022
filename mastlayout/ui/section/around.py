"""What stands round the mast painted: spreaders, stays as they pass, feet, and bodies."""

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen

from mastlayout.ui.elevation.shapes import FRAME_PARTS
from mastlayout.ui.look import IN_HAND, THIN, THREAD, TYPICAL, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.section.cut import parts_at
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.plan import from_above

LEAST_STAY_PX = 2.0


def paint_spreaders(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint spreaders and struts, which go out of the picture."""
    for bar in made.cut.spreaders:
        held = bar.item.id == made.cut.in_hand
        painter.setPen(QPen(colours["accent" if held else "ink"], IN_HAND if held else THIN))
        painter.setBrush(colours["chosen" if held else "foot"])
        for part in from_above(bar.solids):
            painter.drawPolygon(made.plan.seen(part))


def paint_stays(painter: QPainter, made: Drawing, area: QRectF, colours: Colours) -> None:
    """Paint the stays that pass within an area, as dots at true size."""
    painter.setPen(Qt.PenStyle.NoPen)
    for stay in made.cut.stays:
        at = made.plan.at(stay.ahead_mm, stay.port_mm)
        if area.contains(at):
            painter.setBrush(colours["accent" if stay.id == made.cut.in_hand else "ink"])
            size = max(stay.radius_mm * made.plan.scale, LEAST_STAY_PX)
            painter.drawEllipse(at, size, size)


def paint_feet(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint the metal of feet grey, their pads hatched; a foot nobody has confirmed is violet."""
    for foot in made.feet:
        held = foot.id == made.cut.in_hand
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(colours["second"], Qt.BrushStyle.Dense4Pattern))
        painter.drawPolygon(made.plan.seen(foot.pad))
        if foot.known:
            painter.setPen(QPen(colours["accent" if held else "ink"], THREAD))
            painter.setBrush(colours["foot"])
        else:
            painter.setPen(pen(colours["unknown"], TYPICAL, HIDDEN))
            painter.setBrush(colours["ground"])
        painter.drawPolygon(made.plan.seen(foot.metal))


def paint_bodies(painter: QPainter, made: Drawing, colours: Colours) -> None:
    """Paint bodies, brackets and feet in grey, neighbours thin, what is in hand last and thick."""
    placed_by_id = {placed.id: placed for placed in made.cut.standing}
    for name in sorted(made.outlines, key=lambda one: one == made.cut.in_hand):
        outline, placed, held = made.outlines[name], placed_by_id[name], name == made.cut.in_hand
        mask = parts_at(placed.solids, made.cut.z_mm)
        parts = [part for part, here in zip(placed.body.parts, mask, strict=True) if here]
        painter.setPen(QPen(colours["accent" if held else "ink"], IN_HAND if held else THIN))
        # The lowest is painted first, as one looks down on it.
        for i in np.argsort(placed.solids.centre[mask][:, 2], kind="stable"):
            painter.setBrush(colours[_role(parts[i], held=held)])
            painter.drawPolygon(made.plan.seen(outline[i]))


def _role(part: str, *, held: bool) -> str:
    if part in FRAME_PARTS:
        return "foot"
    return "chosen" if held else "body"
