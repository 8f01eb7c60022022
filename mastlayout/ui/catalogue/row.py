"""How a row of the catalogue is painted: two drawings to one scale with its bar, and words."""

import numpy as np
from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from mastlayout.model.kind import Kind
from mastlayout.ui.catalogue.drawn import Drawing, Drawn
from mastlayout.ui.catalogue.kinds import ENTRY, Entry, Kinds
from mastlayout.ui.catalogue.words import group_words, size_words, typical_words
from mastlayout.ui.look import BODY, FIGURE, GAP, LABEL, ROW, THICK, THIN, THREAD, UNIT, font
from mastlayout.ui.pens import pen
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.ui.typed import written

# A row and its two cells, high and low: a low room still shows several kinds.
TALL_PX, LOW_PX, HEAD_PX, _AROUND_PX = 84, 60, ROW + UNIT, 10.0
_BAR_PX, _PAD_PX, _FINE_PX = 3.0, 6.0, 28.0
_SCALE_BARS_MM = (5, 10, 20, 50, 100, 200, 500, 1000)
_BEHIND_MM = 400.0


class KindDelegate(QStyledItemDelegate):
    """Paints the rows of the catalogue."""

    def __init__(self, session: Session, theme: Theme, kinds: Kinds, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session, self._theme, self._kinds = session, theme, kinds
        self.row_px = TALL_PX

    @property
    def _cell_px(self) -> float:
        return self.row_px - _AROUND_PX

    def sizeHint(self, _option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(200, self.row_px if index.data(ENTRY).kind else HEAD_PX)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        entry: Entry = index.data(ENTRY)
        box = QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if entry.kind is None:
            self._head(painter, box, group_words(entry.group))
        else:
            chosen = bool(option.state & QStyle.StateFlag.State_Selected)
            self._row(painter, box, entry.kind, chosen=chosen)
        painter.restore()

    def _head(self, painter: QPainter, box: QRectF, words: str) -> None:
        colours = self._theme.colours
        painter.setFont(font(BODY, bold=True))
        painter.setPen(colours["second"])
        low = Qt.AlignmentFlag.AlignBottom
        painter.drawText(box.adjusted(GAP, 0, -GAP, -UNIT), low, words)
        painter.setPen(QPen(colours["edge"], THIN))
        painter.drawLine(box.bottomLeft(), box.bottomRight())

    def _row(self, painter: QPainter, box: QRectF, kind: Kind, *, chosen: bool) -> None:
        colours = self._theme.colours
        if chosen:
            painter.fillRect(box, colours["chosen"])
            painter.fillRect(QRectF(box.left(), box.top(), _BAR_PX, box.height()), colours["accent"])
        drawn, side = self._kinds.drawn(kind), self._cell_px
        top = box.top() + (box.height() - self._cell_px) / 2
        cells = [QRectF(box.left() + GAP + i * (side + UNIT), top, side, side) for i in (0, 1)]
        scale = scale_of(drawn, side)
        for cell, drawing in zip(cells, (drawn.side, drawn.front), strict=True):
            self._cell(painter, cell, drawing, scale, drawn)
        self._scale_bar(painter, cells[0], scale)
        self._words(painter, box.adjusted(2 * (side + UNIT) + 2 * GAP, 0, -GAP, 0), kind, chosen=chosen)
        painter.setPen(QPen(colours["hair"], THIN))
        painter.drawLine(box.bottomLeft(), box.bottomRight())

    def _cell(self, painter: QPainter, cell: QRectF, drawing: Drawing, scale: float, drawn: Drawn) -> None:
        colours = self._theme.colours
        painter.save()
        painter.setClipRect(cell)
        painter.fillRect(cell, colours["ground"])
        middle = (drawing.low + drawing.high) / 2
        # The scale bar takes the lower edge of the cell.
        painter.translate(cell.center().x(), cell.center().y() - _PAD_PX)
        painter.scale(scale, -scale)
        painter.translate(-float(middle[0]), -float(middle[1]))
        if drawn.on_mast:
            self._mast(painter, scale, front=drawing is drawn.front)
        fine = float(drawing.size.max()) * scale < _FINE_PX
        painter.setPen(pen(colours["ink"], THIN if fine else THREAD, scale=scale))
        for path, frame in drawing.parts:
            painter.setBrush(colours["foot" if frame else "body"])
            painter.drawPath(path)
        painter.restore()
        painter.setPen(QPen(colours["hair"], THIN))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(cell)

    def _mast(self, painter: QPainter, scale: float, *, front: bool) -> None:
        """Paint the mast that is open behind a kind on its fore face, at the height in hand."""
        ring = self._session.desk.scene.skin.ring(self._session.z_mm)
        colours, tall = self._theme.colours, 2 * 1500.0
        if front:
            half = float(ring.y.max())
            painter.fillRect(QRectF(-half, -tall / 2, 2 * half, tall), colours["mast"])
            return
        painter.fillRect(QRectF(-_BEHIND_MM, -tall / 2, _BEHIND_MM, tall), colours["mast"])
        painter.setPen(pen(colours["ink"], THICK, scale=scale))
        painter.drawLine(QPointF(0.0, -tall / 2), QPointF(0.0, tall / 2))

    def _scale_bar(self, painter: QPainter, cell: QRectF, scale: float) -> None:
        colours = self._theme.colours
        fits = [mm for mm in _SCALE_BARS_MM if mm * scale <= cell.width() * 0.45]
        long_mm = fits[-1] if fits else _SCALE_BARS_MM[0]
        left, y = cell.left() + 4.5, cell.bottom() - 4.5
        right = left + long_mm * scale
        words = written(long_mm, self._session.units)
        painter.setFont(font(FIGURE))
        room = QRectF(right + 3, y - 9, QFontMetricsF(font(FIGURE)).horizontalAdvance(words) + 2, 12)
        painter.fillRect(room, colours["ground"])
        painter.setPen(QPen(colours["ink"], THICK))
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        painter.setPen(QPen(colours["ink"], THIN))
        for x in (left, right):
            painter.drawLine(QPointF(x, y - 3), QPointF(x, y + 1))
        painter.setPen(colours["second"])
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)

    def _words(self, painter: QPainter, box: QRectF, kind: Kind, *, chosen: bool) -> None:
        colours, units = self._theme.colours, self._session.units
        lines = (
            (kind.name, font(BODY, bold=chosen), "ink"),
            (size_words(kind, units), font(LABEL), "second"),
            (typical_words(kind, units), font(LABEL), "unknown"),
        )
        tall = box.height() / 4
        for at, (words, face, role) in enumerate(lines):
            line = QRectF(box.left(), box.top() + tall * (at + 0.5), box.width(), tall)
            painter.setFont(face)
            painter.setPen(colours[role])
            text = QFontMetricsF(face).elidedText(words, Qt.TextElideMode.ElideRight, line.width())
            painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, text)


def scale_of(drawn: Drawn, cell_px: float) -> float:
    """Return the one scale, px a mm, at which both drawings of a kind fill their cells."""
    largest = float(np.max([drawn.side.size, drawn.front.size]))
    return (cell_px - 4 * _PAD_PX) / max(largest, 1.0)
