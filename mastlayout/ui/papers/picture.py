"""The elevation as a picture: PNG at twice the screen's size, or SVG."""

from collections.abc import Iterable
from pathlib import Path
from typing import cast

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPoint, QRect, QSize
from PySide6.QtGui import QImage, QImageWriter, QPainter, QRegion
from PySide6.QtSvg import QSvgGenerator
from PySide6.QtWidgets import QGraphicsView, QWidget

from mastlayout.errors import FileError, MastLayoutError
from mastlayout.storage.writing import write_whole
from mastlayout.ui.asks import Asks
from mastlayout.words import _

_LARGER = 2


def save_picture(widget: QWidget, asks: Asks, folder: Path) -> str:
    """Ask for a name and save the widget as it shows; return the sentence that says what became of it."""
    kinds = _("Pictures (*.png *.svg)")
    path = asks.file_to_save(folder / f"{_('elevation')}.png", kinds)
    if path is None:
        return ""
    try:
        write_whole(path, picture(widget, path.suffix.lower()))
    except MastLayoutError as error:
        asks.say(str(error))
        return ""
    return _("Saved as {path}").format(path=path)


def picture(widget: QWidget, ending: str) -> bytes:
    """Return a widget as the bytes of a ``.png`` or ``.svg``; FileError for any other ending."""
    if ending == ".png":
        return _png(widget)
    if ending == ".svg":
        return _svg(widget)
    raise FileError(_("A picture is saved as .png or .svg, not as “{ending}”.").format(ending=ending))


def _png(widget: QWidget) -> bytes:
    image = QImage(widget.size() * _LARGER, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(_LARGER)
    widget.render(image)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(image)
    return bytes(buffer.data().data())


def _svg(widget: QWidget) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    drawing = QSvgGenerator()
    drawing.setOutputDevice(buffer)
    drawing.setSize(QSize(widget.width(), widget.height()))
    drawing.setViewBox(widget.rect())
    drawing.setTitle(widget.accessibleName())
    painter = QPainter(drawing)
    inner = widget.findChild(QGraphicsView)
    if inner is None:
        widget.render(painter, QPoint(0, 0))
    else:
        _render_round(painter, widget, inner)
    painter.end()
    return bytes(buffer.data().data())


def _render_round(painter: QPainter, widget: QWidget, inner: QGraphicsView) -> None:
    """Render a graphics view, hide what runs over its edges, then what stands beside it.

    QSvgGenerator knows no clipping: what the view does not show would be drawn over its neighbours.
    """
    shown = inner.rect().translated(inner.mapTo(widget, QPoint(0, 0)))
    QWidget.render(inner, painter, shown.topLeft())  # the view has another render of its own
    for beside in _rects(QRegion(widget.rect()).subtracted(QRegion(shown))):
        painter.fillRect(beside, inner.backgroundBrush())
    for child in widget.children():
        if isinstance(child, QWidget) and child is not inner and child.isVisible():
            child.render(painter, child.pos(), QRegion(), QWidget.RenderFlag.DrawChildren)


def _rects(region: QRegion) -> list[QRect]:
    """Return the rectangles a region is made of; PySide6 iterates it, its stubs do not say so."""
    return list(cast("Iterable[QRect]", region))
