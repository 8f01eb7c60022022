"""The marks of a page replayed on a QPainter, in the page's own millimetres."""

from functools import singledispatch

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from mastlayout.documents.lettering import pieces, width_mm
from mastlayout.documents.page import MM_PER_PT, Circle, Line, Mark, Page, Polyline, Rect, Text
from mastlayout.ui.look import font

# Letters are set at this size and scaled: a font of Qt's has whole pixels only.
_EM_PX = 100
_START = {"start": 0.0, "middle": 0.5, "end": 1.0}


def paint_page(painter: QPainter, page: Page) -> None:
    """Paint a page; the painter's unit must be a millimetre from the paper's top left corner."""
    painter.save()
    painter.translate(QPointF(*page.corner_mm))
    painter.scale(page.zoom, page.zoom)
    for mark in page.marks:
        _draw(mark, painter)
    painter.restore()


@singledispatch
def _draw(mark: Mark, painter: QPainter) -> None:
    raise TypeError(f"no way to draw {mark!r} on {painter!r}")


@_draw.register
def _line(mark: Line, painter: QPainter) -> None:
    painter.setPen(_pen(mark.width_mm, mark.dash_mm))
    painter.drawLine(QPointF(mark.x1, mark.y1), QPointF(mark.x2, mark.y2))


@_draw.register
def _polyline(mark: Polyline, painter: QPainter) -> None:
    _ink(painter, mark.width_mm, mark.fill, mark.dash_mm)
    points = QPolygonF([QPointF(x, y) for x, y in mark.points])
    if mark.closed or mark.fill is not None:
        painter.drawPolygon(points)
    else:
        painter.drawPolyline(points)


@_draw.register
def _circle(mark: Circle, painter: QPainter) -> None:
    _ink(painter, mark.width_mm, mark.fill)
    painter.drawEllipse(QPointF(mark.x, mark.y), mark.radius_mm, mark.radius_mm)


@_draw.register
def _rect(mark: Rect, painter: QPainter) -> None:
    _ink(painter, mark.width_mm, mark.fill, mark.dash_mm)
    painter.drawRect(QRectF(mark.x, mark.y, mark.width, mark.height))


@_draw.register
def _text(mark: Text, painter: QPainter) -> None:
    painter.save()
    painter.translate(QPointF(mark.x, mark.y))
    painter.rotate(-mark.turn_deg)
    scale = mark.size_pt * MM_PER_PT / _EM_PX
    painter.scale(scale, scale)
    painter.setFont(_face(bold=mark.bold))
    painter.setPen(QColor("white" if mark.white else "black"))
    x = -_START[mark.anchor] * width_mm(mark.text, mark.size_pt, bold=mark.bold)
    for piece, advance in pieces(mark.text, mark.size_pt, bold=mark.bold):
        painter.drawText(QPointF(x / scale, 0.0), piece)
        x += advance
    painter.restore()


def _face(*, bold: bool) -> QFont:
    """Return the face as paper sets it: each letter its own width, none moved to the pixels."""
    face = font(_EM_PX, bold=bold)
    face.setKerning(False)
    face.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return face


def _pen(width_mm: float, dash_mm: tuple[float, ...] = ()) -> QPen:
    pen = QPen(QColor("black"), width_mm, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if dash_mm:
        pen.setDashPattern([part / width_mm for part in dash_mm])
    return pen


def _ink(painter: QPainter, width_mm: float, fill: float | None, dash_mm: tuple[float, ...] = ()) -> None:
    painter.setPen(_pen(width_mm, dash_mm) if width_mm else QPen(Qt.PenStyle.NoPen))
    painter.setBrush(Qt.BrushStyle.NoBrush if fill is None else QColor.fromRgbF(*(1.0 - fill,) * 3))
