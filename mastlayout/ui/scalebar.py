"""A bar of a round length below a drawing, true both ways."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from mastlayout.ui.lines import width_px
from mastlayout.ui.look import GAP, LABEL, THICK, Colours, font
from mastlayout.units import MM_PER_INCH, Units
from mastlayout.words import _

BAR_PX = 20.0
_FOOT = 12
_BARS: dict[Units, tuple[float, ...]] = {
    "metric": (10, 20, 50, 100, 200, 500, 1000, 2000, 5000),
    "inches": tuple(
        MM_PER_INCH * n for n in (1, 2, 3, 6, _FOOT, 2 * _FOOT, 5 * _FOOT, 10 * _FOOT, 20 * _FOOT)
    ),
}
_MOST_PX = 140.0


def bar_length_mm(scale: float, room_px: float, units: Units) -> float:
    """Return the longest round length whose bar and words fit; the shortest there is where none do."""
    fits = [
        mm
        for mm in _BARS[units]
        if mm * scale <= _MOST_PX and mm * scale + GAP + width_px(bar_words(mm, units), LABEL) <= room_px
    ]
    return fits[-1] if fits else _BARS[units][0]


def bar_words(length_mm: float, units: Units) -> str:
    """Return what stands beside a bar."""
    if units == "metric":
        return _("{n:.0f} mm, true both ways").format(n=length_mm)
    inches = round(length_mm / MM_PER_INCH)
    feet, rest = divmod(inches, _FOOT)
    words = _("{n} in, true both ways") if rest else _("{n} ft, true both ways")
    return words.format(n=inches if rest else feet)


def paint_bar(painter: QPainter, box: QRectF, scale: float, units: Units, colours: Colours) -> None:
    """Paint a bar at the left of a box, its words beside it, at a scale in pixels a millimetre."""
    long_mm = bar_length_mm(scale, box.width(), units)
    left, right, y = box.left(), box.left() + long_mm * scale, box.center().y() + 2
    painter.setPen(QPen(colours["ink"], THICK))
    painter.drawLine(QPointF(left, y), QPointF(right, y))
    for part in range(6):
        x = left + (right - left) * part / 5
        painter.drawLine(QPointF(x, y), QPointF(x, y - (6 if part in (0, 5) else 3)))
    painter.setFont(font(LABEL))
    painter.setPen(colours["second"])
    words = QRectF(right + GAP, box.top(), max(box.right() - right - GAP, 1.0), box.height())
    painter.drawText(
        words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, bar_words(long_mm, units)
    )
