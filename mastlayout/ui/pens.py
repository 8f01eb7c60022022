"""Pens of the drawings."""

from PySide6.QtGui import QColor, QPen


def pen(colour: QColor, width: float, dash: tuple[float, ...] = (), scale: float = 1.0) -> QPen:
    """Return a pen whose width and dashes are pixels where the painter has a scale.

    Qt's own cosmetic pens are as wide in the screen's dots: at 200 % they would be half as thick.
    """
    made = QPen(colour, width / scale)
    if dash:
        made.setDashPattern([d / width for d in dash])
    return made


HIDDEN = (5.0, 3.0)
CENTRE = (14.0, 3.0, 3.0, 3.0)
