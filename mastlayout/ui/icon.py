"""The program's own icon: a mast, its spreaders and stays."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPen, QPixmap

from mastlayout.ui.look import LIGHT

_SIZES_PX = (16, 32, 64, 128, 256)


def window_icon() -> QIcon:
    """Return the icon in the sizes that systems ask for."""
    icon = QIcon()
    for size in _SIZES_PX:
        icon.addPixmap(_painted(size))
    return icon


def _painted(size: int) -> QPixmap:
    picture = QPixmap(size, size)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(size / 64, size / 64)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(LIGHT["accent"])
    painter.drawRoundedRect(QRectF(2, 2, 60, 60), 10, 10)
    white = LIGHT["on_accent"]
    painter.setPen(QPen(white, 2.4))
    painter.drawPolyline([QPointF(32, 8), QPointF(48, 30), QPointF(46, 56)])
    painter.drawPolyline([QPointF(32, 8), QPointF(16, 30), QPointF(18, 56)])
    painter.drawLine(QPointF(16, 30), QPointF(48, 30))
    painter.setPen(QPen(white, 6, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.drawLine(QPointF(32, 7), QPointF(32, 57))
    painter.end()
    return picture
