"""What is pointed at over the drawing: the worst places of the chosen finding, and the nearest thing."""

from collections.abc import Iterable

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from mastlayout.checks.clearance import nearest_thing
from mastlayout.checks.clewed import SweptClew
from mastlayout.checks.finding import Finding
from mastlayout.checks.sentence import measured_text, names_of
from mastlayout.checks.worst import Place, Worst, worst_of
from mastlayout.frozen import dataclass
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.elevation.span import GUTTER_PX, Span
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import LABEL, THICK, THREAD, UNIT, VALUE, Colours, font
from mastlayout.ui.marks import colour
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.polygon import polygon
from mastlayout.ui.session import Session, View
from mastlayout.words import _

# The nearest thing is named where it is nearer than an elbow: drawing style, no limit of a rule.
_NEAR_MM = 400.0
_RING_PX, _DOT_PX, _HALO_PX, _TALL_PX = 4.5, 2.0, 3.0, 20.0
# How high letters stand over their line, and how far below it they reach, with the ground about them.
_TALL, _BELOW_PX = {VALUE: 12.0, LABEL: 10.0}, 5.0


@dataclass(frozen=True)
class Pointed:
    """Two places that belong together. ``state`` is a finding's, "" for the nearest thing; words say it."""

    worst: Worst
    state: str
    number: str = ""
    words: str = ""


def worst_places(session: Session) -> list[Pointed]:
    """Return where the findings that are chosen are worst."""
    report = session.desk.report
    chosen = [found for found in report.open if found.key in session.chosen]
    places = [(found, worst_of(report.scene_of(found), found)) for found in chosen]
    return [Pointed(worst, found.standing) for found, worst in places if worst is not None]


def paint_reach(painter: QPainter, span: Span, view: View, clew: SweptClew, colours: Colours) -> None:
    """Paint the edge of all that a clew or a sheet sweeps, seen from the side."""
    right, up = AXES[view]
    outline = clew.swept.outline(right, up)[0] @ np.stack([right, up], axis=1)
    where = outline * (span.scale, -span.scale) + (span.x_px(0.0), span.y_px(0.0))
    painter.save()
    painter.setClipRect(QRectF(0.0, 0.0, span.room_px, span.height_px), Qt.ClipOperation.IntersectClip)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colours["caution"], THICK, HIDDEN))
    painter.drawPolygon(polygon(where))
    painter.restore()


def nearest_place(session: Session) -> Pointed | None:
    """Return what is nearest to what is in hand, where it is near enough to be named."""
    scene = session.desk.scene
    placed = scene.placed.get(session.hand)
    found = nearest_thing(scene, placed, _NEAR_MM) if placed is not None else None
    if placed is None or found is None or found[1] < 0.0:
        return None
    other, gap_mm = found
    between = Finding("clearance/fitting", "note", (placed.id, other), measured=gap_mm)
    worst = worst_of(scene, between)
    if worst is None:
        return None
    words = _("to {thing}").format(thing=names_of(scene.layout).get(other, other))
    return Pointed(worst, "", measured_text(between, session.units), words)


def paint_pointed(painter: QPainter, span: Span, view: View, pointed: Pointed, colours: Colours) -> None:
    """Paint two places and the line between them."""
    at, other = (_seen(span, view, place) for place in (pointed.worst.at, pointed.worst.other))
    ink = colour(pointed.state, colours) if pointed.state else colours["ink"]
    painter.setPen(QPen(ink, THREAD))
    painter.drawLine(at, other)
    painter.setBrush(ink)
    painter.setPen(Qt.PenStyle.NoPen)
    for place in (at, other):
        painter.drawEllipse(place, _DOT_PX, _DOT_PX)
    if pointed.state:
        _ring(painter, at, ink, colours)


def _seen(span: Span, view: View, place: Place) -> QPointF:
    right, up = AXES[view] @ place
    return QPointF(span.x_px(float(right)), span.y_px(float(up)))


def _ring(painter: QPainter, at: QPointF, ink: QColor, colours: Colours) -> None:
    painter.setPen(QPen(ink, THREAD))
    painter.setBrush(colours["ground"])
    painter.drawEllipse(at, _RING_PX, _RING_PX)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    painter.drawEllipse(at, _DOT_PX, _DOT_PX)


def pointed_box(span: Span, view: View, pointed: Pointed) -> QRectF:
    """Return the rectangle, in pixels, of two places, the line between them and the ring."""
    at, other = (_seen(span, view, place) for place in (pointed.worst.at, pointed.worst.other))
    room = _RING_PX + 1.0
    return QRectF(at, other).normalized().adjusted(-room, -room, room, room)


def said(
    span: Span, view: View, pointed: Pointed, mast_mm: tuple[float, float], marks: Iterable[QRectF] = ()
) -> tuple[QRectF, str]:
    """Return where the number stands, and the words after it: beside line and mast, clear of the labels.

    ``mast_mm`` is how far to left and right the mast reaches. They stand on its right where there
    is the room, else on its left; where neither has room for the words the number stands alone.
    They stand above what is painted in ``marks``, not over it.
    """
    at, other = (_seen(span, view, place) for place in (pointed.worst.at, pointed.worst.other))
    middle = (at + other) / 2
    number = width_px(pointed.number, VALUE, bold=True)
    wide = number + UNIT + width_px(pointed.words, LABEL)
    left = max(middle.x(), span.x_px(mast_mm[1])) + 2 * UNIT
    words = pointed.words
    if left + wide > span.room_px - GUTTER_PX:
        further_left = min(middle.x(), span.x_px(mast_mm[0])) - 2 * UNIT - wide
        if further_left >= 0.0:
            left = further_left
        else:
            words, wide = "", number
            left = max(min(left, span.room_px - GUTTER_PX - number), 0.0)
    box = QRectF(left, middle.y() - _TALL_PX / 2, wide, _TALL_PX)
    for mark in sorted(marks, key=lambda mark: -mark.top()):
        if box.intersects(mark):
            box.moveBottom(mark.top())
    return box, words


def paint_said(painter: QPainter, box: QRectF, number: str, words: str, colours: Colours) -> None:
    """Write number and words on a ground of their own, beyond which the drawing shows."""
    base = box.center().y() + 5.0
    number_face, face = font(VALUE, bold=True), font(LABEL)
    after = box.left() + width_px(number, VALUE, bold=True) + UNIT
    lines = ((box.left(), number_face, VALUE, number), (after, face, LABEL, words))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours["ground"])
    for left, _face, size, text in lines:
        if text:
            wide = width_px(text, size, bold=size == VALUE)
            own = QRectF(left, base - _TALL[size], wide, _TALL[size] + _BELOW_PX)
            painter.drawRoundedRect(own.adjusted(-_HALO_PX, -_HALO_PX, _HALO_PX, 0), _HALO_PX, _HALO_PX)
    painter.setPen(colours["ink"])
    for left, own_face, _size, text in lines:
        painter.setFont(own_face)
        painter.drawText(QPointF(left, base), text)
