"""What a window really paints: every piece of text with its place, its clip and its ink.

Each widget is painted alone through a paint engine that draws nothing and keeps what it is given,
so text of Qt's own controls, of delegates and of custom painting is met in one way.
"""

import zlib
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPaintDevice, QPaintEngine, QPainter, QRegion
from PySide6.QtWidgets import QWidget

_Metric = QPaintDevice.PaintDeviceMetric
_DPI = 96


@dataclass(frozen=True, eq=False)
class Written:
    """One piece of painted text; boxes in pixels of its own widget, ``box`` as tight as the ink."""

    words: str
    box: QRectF
    clip: QRectF | None
    ink: str
    font: QFont
    widget: QWidget

    @property
    def room(self) -> QRectF:
        """The part of the widget in which it can be seen."""
        whole = QRectF(self.widget.rect())
        return whole if self.clip is None else whole.intersected(self.clip)

    @property
    def seen(self) -> QRectF:
        """What is seen of it, in pixels of its window; empty where nothing is."""
        widget = self.widget
        inside = QRectF(widget.visibleRegion().boundingRect()).intersected(self.room)
        box = self.box.intersected(inside)
        return box.translated(widget.mapTo(widget.window(), QPoint(0, 0)).toPointF())


class _Engine(QPaintEngine):
    """Keeps text and forgets everything else."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(QPaintEngine.PaintEngineFeature.AllFeatures)
        self.widget = widget
        self.kept: list[Written] = []

    def begin(self, _device):
        return True

    def end(self):
        return True

    def type(self):
        return QPaintEngine.Type.User

    def drawTextItem(self, at, item):
        if not item.text().strip():
            return
        painter = self.painter()
        turn = painter.combinedTransform()
        box = QFontMetricsF(item.font()).tightBoundingRect(item.text()).translated(at)
        clip = turn.mapRect(painter.clipBoundingRect()) if painter.hasClipping() else None
        ink = painter.pen().color().name()[1:]
        self.kept.append(Written(item.text(), turn.mapRect(box), clip, ink, QFont(item.font()), self.widget))

    def drawPath(self, path):
        """Drop what is painted over whole, as a tape's figures are by the flag of its reading."""
        painter = self.painter()
        brush = painter.brush()
        if brush.style() == Qt.BrushStyle.SolidPattern and brush.color().alpha() == 255:
            over = painter.combinedTransform().map(path)
            clip = painter.combinedTransform().mapRect(painter.clipBoundingRect())
            self.kept = [
                kept
                for kept in self.kept
                if not (over.contains(kept.box) and (not painter.hasClipping() or clip.contains(kept.box)))
            ]

    def _forget(self, *_what):
        """Draw nothing."""

    # Rectangles and ellipses come as paths.
    updateState = drawPixmap = drawImage = drawTiledPixmap = _forget
    drawPolygon = drawLines = drawPoints = _forget


class _Device(QPaintDevice):
    def __init__(self, widget: QWidget) -> None:
        super().__init__()
        self.engine, size = _Engine(widget), QSize(widget.size())
        self._known = {
            _Metric.PdmWidth: size.width(), _Metric.PdmHeight: size.height(), _Metric.PdmDepth: 32,
            _Metric.PdmWidthMM: round(size.width() * 25.4 / _DPI),
            _Metric.PdmHeightMM: round(size.height() * 25.4 / _DPI),
            _Metric.PdmDpiX: _DPI, _Metric.PdmDpiY: _DPI,
            _Metric.PdmPhysicalDpiX: _DPI, _Metric.PdmPhysicalDpiY: _DPI,
            _Metric.PdmDevicePixelRatio: 1, _Metric.PdmDevicePixelRatioScaled: 1 << 16,
        }  # fmt: skip

    def paintEngine(self):
        return self.engine

    def metric(self, which):
        return self._known.get(which, 0)


def shown_widgets(root: QWidget) -> Iterator[QWidget]:
    """Every widget of a window that shows, the window first."""
    for widget in (root, *root.findChildren(QWidget)):
        if widget.isVisible() and widget.window() is root.window():
            yield widget


class Reader:
    """Reads a window stop after stop; what looks as it did at the last stop is not read again."""

    def __init__(self) -> None:
        self._known: dict[QWidget, tuple[tuple[int, ...], list[Written]]] = {}

    def read(self, root: QWidget, seen: np.ndarray) -> tuple[list[Written], list[Written]]:
        """Return every piece of text that a window paints now, and those of them that are new.

        ``seen`` holds the pixels (height, width) of the window's picture.
        """
        pieces, fresh = [], []
        for widget in shown_widgets(root):
            at = QRect(widget.mapTo(root, QPoint(0, 0)), widget.size())
            part = seen[max(at.top(), 0) : at.bottom() + 1, max(at.left(), 0) : at.right() + 1]
            looks = (*at.getRect(), zlib.crc32(np.ascontiguousarray(part)))
            before = self._known.get(widget)
            if before is None or before[0] != looks:
                before = self._known[widget] = looks, _of(widget)
                fresh += before[1]
            pieces += before[1]
        return pieces, fresh


def _of(widget: QWidget) -> list[Written]:
    device = _Device(widget)
    painter = QPainter(device)
    # A graphics view has another render of its own.
    QWidget.render(widget, painter, QPoint(0, 0), QRegion(), QWidget.RenderFlag(0))
    painter.end()
    return device.engine.kept
