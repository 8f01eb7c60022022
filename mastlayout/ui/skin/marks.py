"""Holes on the skin painted, the centre of a foot nobody has confirmed, and figures of findings."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPen

from mastlayout.ui.look import IN_HAND, THICK, THIN, THREAD, VALUE, Colours, font
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.skin.development import Development
from mastlayout.ui.skin.figures import FoundLine
from mastlayout.ui.skin.holes import HoleMark
from mastlayout.ui.skin.patch import OldHoleAt

_CROSS_PX, _CENTRE_PX = 5.0, 9.0


def paint_hole(painter: QPainter, mark: HoleMark, colours: Colours, *, in_hand: bool) -> None:
    """Paint a hole at true size with cross hairs, an entry as a blue ring, a typical one bare.

    One that is in the mast is filled, as it is in the metal; its plan beside it is a dashed ring.
    """
    if mark.opening.use == "cutout":
        return
    if mark.opening.use == "entry":
        painter.setPen(QPen(colours["cable"], IN_HAND))
        painter.setBrush(colours["hole" if mark.made else "ground"])
        painter.drawEllipse(mark.centre, mark.radius, mark.radius)
        return
    known = mark.placed.foot_known
    ink = colours["ink" if known else "unknown"]
    painter.setPen(QPen(ink, THREAD) if mark.sized and known else QPen(ink, THIN))
    painter.setBrush(colours["hole" if mark.made else "ground"])
    painter.drawEllipse(mark.centre, mark.radius, mark.radius)
    if mark.planned is not None:
        painter.setPen(pen(colours["second"], THREAD, HIDDEN))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(mark.planned, mark.radius, mark.radius)
    if not known:
        return
    painter.setPen(QPen(colours["accent"] if in_hand else ink, THIN))
    _cross(painter, mark.centre, mark.radius + _CROSS_PX)


def _cross(painter: QPainter, at: QPointF, reach: float) -> None:
    painter.drawLine(at - QPointF(reach, 0), at + QPointF(reach, 0))
    painter.drawLine(at - QPointF(0, reach), at + QPointF(0, reach))


def paint_old_holes(
    painter: QPainter, holes: Sequence[OldHoleAt], made: Development, colours: Colours
) -> None:
    """Paint the holes that are there already."""
    painter.setBrush(colours["second"])
    for hole in holes:
        at = made.at(hole.girth_mm, hole.z_mm)
        if at is not None:
            radius = max((hole.diameter_mm or 0.0) * made.scale, _CROSS_PX) / 2
            painter.setPen(QPen(colours["second"], THIN))
            painter.drawEllipse(at, radius, radius)


def paint_centre(painter: QPainter, at: QPointF, colours: Colours) -> None:
    """Paint the centre of a typical foot: all of it that may be marked on the mast."""
    painter.setPen(QPen(colours["unknown"], THICK))
    _cross(painter, at, _CENTRE_PX)


def paint_found(painter: QPainter, lines: Sequence[FoundLine], colours: Colours) -> None:
    """Paint findings as dimension lines in the colour of their standing, the one looked at thick."""
    for line in lines:
        painter.setPen(QPen(colours[line.role], IN_HAND if line.chosen else THREAD))
        painter.drawLine(line.start, line.end)
        for end in (line.start, line.end):
            painter.drawLine(end + QPointF(-3, 3), end + QPointF(3, -3))
    painter.setFont(font(VALUE, bold=True))
    for line in lines:
        if line.box is not None:
            painter.setPen(QPen(colours[line.role], THIN))
            painter.drawLine((line.start + line.end) / 2, line.elbow)
            painter.fillRect(line.box, colours["mast"])
            painter.drawText(line.box, Qt.AlignmentFlag.AlignCenter, line.words)
