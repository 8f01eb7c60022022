"""Poles from above: the ground one swings over while it is set, and its tube where it is stowed there."""

from collections.abc import Iterable, Iterator, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPainterPath

from mastlayout.checks.pole import of_scene
from mastlayout.geometry.pole.drawn import PoleAt, pole_at
from mastlayout.ui.look import THIN, THREAD, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.polygon import polygon
from mastlayout.ui.section.callouts import CallOut, Row
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.sails import pixels
from mastlayout.ui.session import Session
from mastlayout.words import _

# A pole's words give way to those of fittings and of what runs inside.
_RANK = 6


def poles_asked(session: Session) -> tuple[object, ...]:
    """Return what poles are drawn by, equal as long as they are drawn alike."""
    return session.layout.poles, session.layout.limits, session.layout.mast


def poles_at(session: Session) -> Iterator[PoleAt]:
    """Yield the poles that come to the height in hand: with the sails shown, else the one in hand."""
    desk = session.desk
    for pole in of_scene(desk.scene, desk.report.limits):
        found = pole_at(pole, session.z_mm)
        if found is not None and (session.sails_drawn or session.hand == pole.item.id):
            yield found


def paint_poles(
    painter: QPainter, made: Drawing, rows: Sequence[Row], session: Session, colours: Colours
) -> None:
    """Paint the edge of what each pole sweeps, and the tube of a stowed one; words stay clear of both."""
    clear = QPainterPath()
    clear.addRect(made.area)
    for row in rows:
        words = QPainterPath()
        words.addRect(row.box)
        clear -= words
    painter.save()
    painter.setClipPath(clear, Qt.ClipOperation.IntersectClip)
    for found in poles_at(session):
        ink = colours["accent" if found.id == session.hand else "second"]
        if found.swept is not None:
            painter.setPen(pen(ink, THREAD, HIDDEN))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPolygon(polygon(pixels(made.plan, found.swept)))
        if found.lying is not None:
            painter.setPen(pen(ink, THIN))
            painter.setBrush(colours["ground"])
            painter.drawPolygon(polygon(pixels(made.plan, found.lying)))
    painter.restore()


def pole_callouts(made: Drawing, poles: Iterable[PoleAt], hand: str) -> Iterator[CallOut]:
    """Yield the words of each pole that is drawn."""
    for found in poles:
        role = "accent" if found.id == hand else "second"
        if found.lying is not None:
            ahead, port = found.lying.mean(axis=0)
            at = made.plan.at(float(ahead), float(port))
            yield CallOut(found.id, _("{name}, stowed").format(name=found.name), at, _RANK, role)
        if found.swept is not None:
            # Its after edge is in the picture, its end seldom.
            ahead, port = found.swept[found.swept[:, 0].argmin()]
            at = made.plan.at(float(ahead), float(port))
            if made.area.contains(at):
                yield CallOut(found.id, _("{name} swings here").format(name=found.name), at, _RANK, role)
