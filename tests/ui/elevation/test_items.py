"""Lines of the drawings: as thick on every screen."""

import pytest
from PySide6.QtCore import QLineF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from mastlayout.ui.pens import pen


@pytest.mark.parametrize("ratio", [1, 2])
@pytest.mark.parametrize("scale", [0.25, 1.0, 2.0])
def test_a_line_is_as_thick_at_every_scale_of_drawing_and_screen(qapp, ratio, scale):
    """Four pixels of the window: eight dots of a screen at 200 %."""
    image = QImage(100 * ratio, 100 * ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.scale(scale, -scale)
    painter.setPen(pen(QColor("black"), 4.0, scale=scale))
    painter.drawLine(QLineF(0.0, -50 / scale, 100 / scale, -50 / scale))
    painter.end()
    dark = sum(image.pixelColor(50 * ratio, y).lightness() < 128 for y in range(100 * ratio))
    assert dark == 4 * ratio
