"""A view as it shows, with its caption, as the bytes of a PNG at twice the screen's size or of an SVG."""

import math

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QImage, QImageWriter, QPainter, QPen, QRegion
from PySide6.QtSvg import QSvgGenerator
from PySide6.QtWidgets import QGraphicsView, QWidget

from mastlayout.errors import FileError
from mastlayout.ui.clipping import clipped
from mastlayout.ui.look import LABEL, MARGIN, THIN, Colours, font
from mastlayout.ui.pictures.svg import readable
from mastlayout.words import _

_LARGER = 2
_WRAPPED = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
_INNER = QWidget.RenderFlag.DrawChildren


def picture(widget: QWidget, caption: str, colours: Colours, ending: str) -> bytes:
    """Return a widget as the bytes of a ``.png`` or ``.svg``; FileError for any other ending."""
    if ending == ".png":
        return _png(image(widget, caption, colours))
    if ending == ".svg":
        return _svg(widget, caption, colours)
    raise FileError(_("A picture is saved as .png or .svg, not as “{ending}”.").format(ending=ending))


def size_of(widget: QWidget, caption: str) -> QSize:
    """Return the size of a picture on screen: the view, and the lines of its caption below."""
    room = QRectF(0, 0, widget.width() - 2 * MARGIN, 400)
    words = QFontMetricsF(font(LABEL)).boundingRect(room, int(_WRAPPED), caption)
    return widget.size() + QSize(0, math.ceil(words.height()) + MARGIN)


def image(widget: QWidget, caption: str, colours: Colours) -> QImage:
    """Return a widget as an image at twice the screen's size."""
    made = QImage(size_of(widget, caption) * _LARGER, QImage.Format.Format_RGB32)
    made.setDevicePixelRatio(_LARGER)
    made.fill(colours["ground"])
    painter = QPainter(made)
    _paint(painter, widget, caption, colours)
    painter.end()
    return made


def _png(made: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(made)
    return bytes(buffer.data().data())


def _svg(widget: QWidget, caption: str, colours: Colours) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    drawing = QSvgGenerator()
    drawing.setOutputDevice(buffer)
    drawing.setSize(size_of(widget, caption))
    drawing.setViewBox(QRect(QPoint(0, 0), size_of(widget, caption)))
    drawing.setTitle(caption)
    drawing.setDescription(widget.accessibleDescription())
    painter = QPainter(drawing)
    _paint(painter, widget, caption, colours)
    painter.end()
    return readable(bytes(buffer.data().data()))


def _paint(painter: QPainter, widget: QWidget, caption: str, colours: Colours) -> None:
    painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
    painter.fillRect(QRect(QPoint(0, 0), size_of(widget, caption)), colours["ground"])
    inner = [view for view in widget.findChildren(QGraphicsView) if view.isVisible()]
    if not inner:
        widget.render(painter, QPoint(0, 0))
    for view in inner:
        _paint_within(painter, widget, view)
    for child in widget.children() if inner else ():
        if isinstance(child, QWidget) and child not in inner and child.isVisible():
            child.render(painter, child.pos(), QRegion(), _INNER)
    high = size_of(widget, caption).height() - widget.height()
    band = QRectF(0, widget.height(), widget.width(), high)
    painter.setPen(QPen(colours["edge"], THIN))
    painter.drawLine(band.topLeft(), band.topRight())
    painter.setFont(font(LABEL))
    painter.setPen(colours["second"])
    painter.drawText(band.adjusted(MARGIN, 0, -MARGIN, 0), int(_WRAPPED), caption)


def _paint_within(painter: QPainter, widget: QWidget, inner: QGraphicsView) -> None:
    """Paint a graphics view within its own edges."""
    shown = inner.rect().translated(inner.mapTo(widget, QPoint(0, 0)))
    kept = inner.cacheMode()
    inner.setCacheMode(QGraphicsView.CacheModeFlag.CacheNone)  # the ground it keeps would be dots in an SVG
    with clipped(painter, QRectF(shown)):
        QWidget.render(inner, painter, shown.topLeft())  # the view has another render of its own
    inner.setCacheMode(kept)
