"""How the face that is up is painted, back to front."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QLinearGradient, QPainter, QPen, QPolygonF

from mastlayout.documents.drillcells import from_track_edge
from mastlayout.documents.faces import face_words
from mastlayout.geometry.frames import Face
from mastlayout.ui.look import (
    BODY,
    CORNER,
    IN_HAND,
    NAME,
    THICK,
    THIN,
    THREAD,
    TYPICAL,
    UNIT,
    VALUE,
    Colours,
    font,
)
from mastlayout.ui.pens import CENTRE, HIDDEN, pen
from mastlayout.ui.trestles.plan import FacePlan, HoleSpot, line_y
from mastlayout.ui.trestles.ticks import tape_ticks
from mastlayout.ui.trestles.words import end_words, girth_number, number
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.ui.trestles.face import FaceCanvas

_CROSS_PX, _APART_PX, _INCH_APART_PX, _FLAG_PAD = 6.0, 62.0, 76.0, 14.0
_RING_PX, _DIMENSION_PX = 9.0, 26.0


def paint_face(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    """Paint all that the canvas shows."""
    if canvas.scene is None or canvas.walk is None:
        return
    plan = canvas.plan
    _words(painter, canvas, colours)
    painter.save()
    painter.setClipRect(plan.area.adjusted(0, -2, 0, 2))
    _mast(painter, canvas, colours)
    _behind(painter, canvas, colours)
    _lines(painter, canvas, plan, colours)
    _feet(painter, canvas, colours)
    painter.restore()
    _tape(painter, canvas, plan, colours)
    for spot in canvas.old:
        painter.setPen(QPen(colours["second"], THIN))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(spot.centre, spot.radius, spot.radius)
    _holes(painter, canvas, colours)
    _tags(painter, canvas, colours)
    _dimension(painter, canvas, plan, colours)


def _words(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    area, lie = canvas.plan.area, canvas.lie
    painter.setPen(colours["ink"])
    painter.setFont(font(canvas.words_px, bold=True))
    head = QRectF(area.left(), UNIT, area.width(), area.top() - canvas.words_px - 3 * UNIT)
    middle = Qt.AlignmentFlag.AlignVCenter
    painter.drawText(head, middle | Qt.AlignmentFlag.AlignHCenter, face_words(lie.face).caption)
    painter.drawText(head, middle | Qt.AlignmentFlag.AlignLeft, f"← {end_words(lie.end)}")
    painter.drawText(head, middle | Qt.AlignmentFlag.AlignRight, f"{end_words(lie.far_end)} →")
    centre = Qt.AlignmentFlag.AlignHCenter
    high = float(canvas.words_px + 2 * UNIT)
    top = min(point.y() for point in canvas.edges[0].toList())
    above = QRectF(area.left(), top - high - UNIT, area.width(), high)
    painter.drawText(above, centre | Qt.AlignmentFlag.AlignBottom, canvas.hand_edge(left=True))
    below = QRectF(area.left(), canvas.tape_box.bottom() + UNIT / 2, area.width(), high)
    painter.drawText(below, centre | middle, canvas.hand_edge(left=False))
    painter.setFont(font(BODY))
    painter.setPen(colours["second"])
    hooks = (_("tape hooked on the masthead, upper edge, aft side"), _("hooked on the masthead"))
    room = (below.width() - _wide(canvas.hand_edge(left=False), canvas.words_px, bold=True)) / 2 - UNIT
    hook = next((words for words in hooks if _wide(words, BODY) <= room), "")
    painter.drawText(below, Qt.AlignmentFlag.AlignLeft | middle, hook)
    if canvas.lost:
        painter.setPen(colours["unknown"])
        lost = QRectF(below.left(), below.bottom(), below.width(), 20)
        words = _("Behind, place not known: {names}").format(names=canvas.lost)
        painter.drawText(lost, Qt.AlignmentFlag.AlignLeft | middle, words)


def _wide(words: str, size: int, *, bold: bool = False) -> float:
    return QFontMetricsF(font(size, bold=bold)).horizontalAdvance(words)


def _mast(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    left, right = canvas.edges
    lefts, rights = left.toList(), right.toList()
    body = QPolygonF(lefts + rights[::-1])
    top, low = body.boundingRect().top(), body.boundingRect().bottom()
    round_ = QLinearGradient(0, top, 0, low)
    for at, role in ((0.0, "shade"), (0.35, "mast"), (0.65, "mast"), (1.0, "shade")):
        round_.setColorAt(at, colours[role])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QBrush(round_))
    painter.drawPolygon(body)
    painter.setPen(QPen(colours["ink"], THICK))
    for edge in canvas.edges:
        painter.drawPolyline(edge)
    for one, other in ((lefts[0], rights[0]), (lefts[-1], rights[-1])):
        if canvas.plan.area.left() + 1 < one.x() < canvas.plan.area.right() - 1:
            painter.drawLine(one, other)  # an end of the mast


def _behind(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    tint = QColor(colours["caution"])
    tint.setAlphaF(0.10)
    for band in canvas.bands:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tint)
        painter.drawPolygon(band.shape)
        painter.setPen(pen(colours["second"], THIN, HIDDEN))
        points = band.shape.toList()
        painter.drawLine(points[0], points[1])
        painter.drawLine(points[2], points[3])


def _lines(painter: QPainter, canvas: "FaceCanvas", plan: FacePlan, colours: Colours) -> None:
    """Paint the centreline that is up, and the track or groove with its edges."""
    skin = canvas.scene.skin if canvas.scene else None
    if skin is None:
        return
    face: Face = plan.lie.face
    if face in ("forward", "aft"):
        y = plan.y_px(0.0)
        if face == "aft" and skin.half_track_mm:
            half = skin.half_track_mm * plan.scale
            painter.setPen(QPen(colours["ink"], THIN))
            painter.setBrush(QBrush(colours["shade"]))
            painter.drawRect(QRectF(plan.area.left() - 4, y - half, plan.area.width() + 8, 2 * half))
        painter.setPen(pen(colours["ink"], THIN, CENTRE))
        painter.drawLine(QPointF(plan.area.left(), y), QPointF(plan.area.right(), y))


def _feet(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    own = canvas.current.block.fitting if canvas.current else ""
    for foot in canvas.feet:
        placed = foot.placed
        if placed.foot_known:
            role = "accent" if placed.id == own else "ink"
            fill = QColor(colours["chosen" if placed.id == own else "foot"])
            fill.setAlphaF(0.75)
            painter.setPen(QPen(colours[role], IN_HAND if placed.id == own else THIN))
            painter.setBrush(fill)
            painter.drawPolygon(foot.shape)
            continue
        new = placed.fitting.new
        painter.setPen(pen(colours["unknown" if new else "second"], TYPICAL if new else THIN, HIDDEN))
        painter.setBrush(
            QBrush(colours["unknown"], Qt.BrushStyle.BDiagPattern) if new else Qt.BrushStyle.NoBrush
        )
        painter.drawPolygon(foot.shape)


def _holes(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    own = canvas.current.key if canvas.current else None
    for spot in canvas.spots:
        hole = canvas.walk.hole(spot.key) if canvas.walk else None
        done = hole is not None and "drilled" in hole.done
        role = "accent" if spot.key == own else "cable" if spot.entry else "ink"
        _hole(painter, spot, colours[role], colours["hole"] if done else None)
        if spot.key == own:
            painter.setPen(QPen(colours["accent"], IN_HAND))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(spot.centre, spot.radius + _RING_PX, spot.radius + _RING_PX)


def _hole(painter: QPainter, spot: HoleSpot, ink: QColor, fill: QColor | None) -> None:
    painter.setPen(QPen(ink, 1.6))
    painter.setBrush(fill or Qt.BrushStyle.NoBrush)
    painter.drawEllipse(spot.centre, spot.radius, spot.radius)
    reach = spot.radius + _CROSS_PX
    for way in (QPointF(reach, 0), QPointF(0, reach)):
        painter.drawLine(spot.centre - way, spot.centre + way)


def _tags(painter: QPainter, canvas: "FaceCanvas", colours: Colours) -> None:
    for note in canvas.notes:
        painter.setFont(font(BODY, bold=note.bold))
        painter.fillRect(note.box, colours["mast"])
        painter.setPen(colours[note.role])
        painter.drawText(note.box, Qt.AlignmentFlag.AlignCenter, note.words)
    painter.setFont(font(canvas.words_px, bold=True))
    for tag in canvas.tags:
        if tag.role != "ink":  # in colour it is too faint on what may lie behind
            painter.fillRect(tag.box, colours["mast"])
        painter.setPen(colours[tag.role])
        painter.drawText(tag.box, Qt.AlignmentFlag.AlignCenter, tag.words)


# -- the tape


def _tape(painter: QPainter, canvas: "FaceCanvas", plan: FacePlan, colours: Colours) -> None:
    box, walk = canvas.tape_box, canvas.walk
    painter.setPen(QPen(colours["edge"], THIN))
    painter.setBrush(colours["tape"])
    painter.drawRect(box)
    if walk is None:
        return
    units = walk.head.units
    apart = _APART_PX if units == "metric" else _INCH_APART_PX
    flag = flag_box(canvas, plan)
    painter.save()
    painter.setClipRect(box)
    for tick in tape_ticks(plan.length_mm, plan.low_z_mm, plan.high_z_mm, plan.scale, units, apart):
        x = plan.x_px(tick.z_mm)
        painter.setPen(QPen(colours["tape_ink"], THIN))
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.top() + (12 if tick.words else 6)))
        words = QRectF(x - 45, box.top() + 13, 90, box.height() - 14)
        size = VALUE if tick.strong else BODY
        half = _wide(tick.words, size, bold=tick.strong) / 2
        whole = box.left() <= x - half and x + half <= box.right()
        if tick.words and whole and not (flag and words.adjusted(20, 0, -20, 0).intersects(flag)):
            painter.setFont(font(size, bold=tick.strong))
            painter.drawText(words, Qt.AlignmentFlag.AlignCenter, tick.words)
    painter.restore()
    _flag(painter, canvas, plan, colours)


def flag_box(canvas: "FaceCanvas", plan: FacePlan) -> QRectF | None:
    """Return the flag of the next hole's reading on the tape; None where the hole is out of the picture."""
    spot, hole = current_spot(canvas), canvas.current
    if spot is None or hole is None:
        return None
    painter_font = font(NAME if canvas.roomy else VALUE + 2, bold=True)

    words = number(hole.row.height, hole.row.height.masthead)
    wide = QFontMetricsF(painter_font).horizontalAdvance(words) + 2 * _FLAG_PAD
    box = QRectF(spot.centre.x() - wide / 2, canvas.tape_box.top(), wide, canvas.tape_box.height())
    box.moveLeft(min(max(box.left(), plan.area.left()), plan.area.right() - wide))
    return box


def _flag(painter: QPainter, canvas: "FaceCanvas", plan: FacePlan, colours: Colours) -> None:
    box, spot, hole = flag_box(canvas, plan), current_spot(canvas), canvas.current
    if box is None or spot is None or hole is None:
        return
    painter.setPen(QPen(colours["accent"], THREAD))
    start = QPointF(spot.centre.x(), spot.centre.y() + spot.radius + _RING_PX)
    painter.drawLine(start, QPointF(spot.centre.x(), box.top()))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours["accent"])
    painter.drawRoundedRect(box, CORNER, CORNER)
    painter.setFont(font(NAME if canvas.roomy else VALUE + 2, bold=True))
    painter.setPen(colours["on_accent"])
    words = number(hole.row.height, hole.row.height.masthead)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)


def current_spot(canvas: "FaceCanvas") -> HoleSpot | None:
    """Return the next hole as it is drawn, None where it does not show."""
    own = canvas.current.key if canvas.current else None
    return next((spot for spot in canvas.spots if spot.key == own), None)


# -- the dimension


def _dimension(painter: QPainter, canvas: "FaceCanvas", plan: FacePlan, colours: Colours) -> None:
    """Paint how far the next hole is from the line it is marked from, along the skin."""
    spot, hole, scene = current_spot(canvas), canvas.current, canvas.scene
    if spot is None or hole is None or scene is None or hole.row.round.side is None:
        return
    y = _line_y(canvas, plan)
    if y is None:
        return
    words = girth_number(hole.block, hole.row)
    foot = next((f.shape.boundingRect() for f in canvas.feet if f.placed.id == hole.block.fitting), QRectF())
    x = max(foot.right(), spot.centre.x() + spot.radius + _RING_PX) + _DIMENSION_PX
    painter.setPen(QPen(colours["ink"], THIN))
    ends = QPointF(x, spot.centre.y()), QPointF(x, y)
    painter.drawLine(*ends)
    painter.drawLine(spot.centre + QPointF(spot.radius + _RING_PX + 3, 0), ends[0] + QPointF(6, 0))
    for end in ends:
        painter.drawLine(end + QPointF(-5, 5), end + QPointF(5, -5))
    for text, size, bold, left in _pieces(words, x + 10, canvas):
        painter.setFont(font(size, bold=bold))
        wide = painter.fontMetrics().horizontalAdvance(text) + UNIT
        box = QRectF(left, (ends[0].y() + y) / 2 - 14, wide, 28)
        ground = QColor(colours["mast"])
        ground.setAlphaF(0.85)
        painter.fillRect(box.adjusted(-2, 2, 2, -2), ground)
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, text)


def _pieces(words: str, left: float, canvas: "FaceCanvas") -> Iterator[tuple[str, int, bool, float]]:

    size = NAME + 4 if canvas.roomy else NAME
    yield words, size, True, left
    wide = QFontMetricsF(font(size, bold=True)).horizontalAdvance(words)
    yield _("along the skin"), VALUE, False, left + wide + 2 * UNIT


def _line_y(canvas: "FaceCanvas", plan: FacePlan) -> float | None:
    hole, scene = canvas.current, canvas.scene
    if hole is None or scene is None:
        return None
    skin, placed = scene.skin, scene.placed[hole.block.fitting]
    spot = current_spot(canvas)
    z = plan.z_at(spot.centre.x()) if spot else placed.z_mm
    side = 1.0 if hole.row.round.side == "starboard" else -1.0
    if from_track_edge(hole.block):
        return line_y(plan, skin, side * (skin.half_track_mm or 0.0), z)
    return line_y(plan, skin, skin.ring(z).half_girth_mm, z)
