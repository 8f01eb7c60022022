"""The picture of each question, in the lines of the drawings; sizes in a frame of 700 by 360."""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QLinearGradient,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from mastlayout.ui.look import BODY, THICK, THIN, VALUE, Colours
from mastlayout.ui.start.answers import Key
from mastlayout.ui.start.rigpictures import paint_gear, paint_sails, paint_spreaders, paint_stands
from mastlayout.ui.start.strokes import arrow, breaks, line, said
from mastlayout.ui.theme import Theme
from mastlayout.words import _

FRAME = QRectF(0, 0, 700, 360)


class Picture(QWidget):
    """The picture of the question that is asked."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._key: Key = "length"
        self._choice = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(200)
        self.setAccessibleDescription(_("A drawing of what is asked; what is chosen is marked in it."))
        theme.changed.connect(self.update)

    def ask(self, key: Key, choice: str, words: str) -> None:
        """Show the picture of a question, with what is chosen marked in it."""
        self._key, self._choice = key, choice
        self.setAccessibleName(words)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale = min(self.width() / FRAME.width(), self.height() / FRAME.height(), 1.35)
        painter.translate(self.width() / 2, self.height() / 2)
        painter.scale(scale, scale)
        painter.translate(-FRAME.center())
        _PAINT[self._key](painter, self._theme.colours, self._choice)
        painter.end()


def paint_length(painter: QPainter, colours: Colours, _choice: str) -> None:
    """The lying mast with the tape hooked at the masthead and read at the heel."""
    top, bottom = 60.0, 190.0
    for box, heel in (
        (QRectF(120, top, 180, bottom - top), True),
        (QRectF(390, top, 170, bottom - top), False),
    ):
        _tube(painter, colours, box, heel=heel)
    painter.setPen(QPen(colours["ink"], THIN))
    painter.setBrush(colours["shade"])
    painter.drawRect(QRectF(210, bottom, 90, 7))
    painter.drawRect(QRectF(390, bottom, 100, 7))
    _crane(painter, colours)
    _tape(painter, colours)
    line(painter, colours, "accent", (120, bottom), (120, 294), width=THICK)
    line(painter, colours, "accent", (560, bottom), (560, 294), width=THICK)
    for x in (120.0, 560.0):
        painter.setBrush(colours["accent"])
        painter.drawEllipse(QPointF(x, bottom), 4, 4)
    arrow(painter, colours, (120, 282), (560, 282))
    said(painter, colours, _("mast length"), (340, 282), size=VALUE, bold=True, role="accent", ground=True)
    said(painter, colours, _("forward face"), (210, 46))
    said(painter, colours, _("cut level for the step"), (110, 125), right=True, width=90)
    said(painter, colours, _("track"), (250, 210))
    said(painter, colours, _("crane plate taken off"), (600, 125), left=True, width=90)
    said(
        painter,
        colours,
        _("Heel: lower edge of the tube, at the track side"),
        (120, 318),
        left=True,
        width=190,
    )
    said(
        painter,
        colours,
        _("Masthead: upper edge of the tube, at the track side"),
        (560, 318),
        right=True,
        width=200,
    )


def _tube(painter: QPainter, colours: Colours, box: QRectF, *, heel: bool) -> None:
    shade = QLinearGradient(box.topLeft(), box.bottomLeft())
    dark, light = sorted((colours["shade"], colours["body"]), key=QColor.lightness)
    shade.setColorAt(0.0, dark)
    shade.setColorAt(0.5, light)  # the middle of a tube takes the light, in either theme
    shade.setColorAt(1.0, dark)
    broken = breaks(box.right() if heel else box.left(), box.top(), box.bottom())
    end = (
        [QPointF(box.left() - 6, box.top()), box.bottomLeft()]
        if heel
        else [box.topRight(), box.bottomRight()]
    )
    ring = [*end, *reversed(broken)]
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QBrush(shade))
    painter.drawPolygon(QPolygonF(ring))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colours["ink"], THICK))
    painter.drawPolyline([broken[0], end[0], end[1], broken[-1]])
    painter.setPen(QPen(colours["second"], THIN))
    painter.drawPolyline(broken)


def _crane(painter: QPainter, colours: Colours) -> None:
    pen = QPen(colours["second"], THIN)
    pen.setDashPattern([5, 3])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(QRectF(576, 34, 10, 182))
    painter.drawLine(QPointF(560, 84), QPointF(576, 84))
    painter.drawLine(QPointF(560, 160), QPointF(576, 160))


def _tape(painter: QPainter, colours: Colours) -> None:
    painter.setPen(QPen(colours["tape_ink"], THIN))
    painter.setBrush(colours["tape"])
    for left, right in ((120.0, 300.0), (390.0, 560.0)):
        painter.setBrush(colours["tape"])
        painter.drawRect(QRectF(left, 226, right - left, 24))
        x = left + 84 if left < 200 else left + 6
        while x < (right - 4 if left < 200 else right - 84):
            painter.drawLine(QPointF(x, 226), QPointF(x, 233))
            x += 8
    for words, left in ((_("read here"), 120.0), (_("hook here"), 480.0)):
        painter.fillRect(QRectF(left, 226, 80, 24), colours["accent"])
        said(painter, colours, words, (left + 40, 238), bold=True, role="on_accent")


def paint_section(painter: QPainter, colours: Colours, choice: str) -> None:
    """The section from above, bow up, with the two sizes that callipers read."""
    box = QRectF(270, 40, 160, 236)
    outer, inner = _outline(box, choice), _outline(box.adjusted(7, 7, -7, -7), choice)
    painter.setPen(QPen(colours["ink"], THICK))
    painter.setBrush(colours["shade"])
    painter.drawPath(outer)
    painter.setPen(QPen(colours["ink"], THIN))
    painter.setBrush(colours["ground"])
    painter.drawPath(inner)
    painter.setBrush(colours["hole"])
    painter.drawRect(QRectF(344, 262, 12, 16))
    arrow(painter, colours, (470, 40), (470, 276))
    arrow(painter, colours, (270, 308), (430, 308))
    for y in (40.0, 276.0):
        line(painter, colours, "edge", (356, y), (478, y))
    for x in (270.0, 430.0):
        line(painter, colours, "edge", (x, 160), (x, 316))
    said(painter, colours, _("fore and aft"), (486, 158), size=BODY, bold=True, role="accent", left=True)
    said(painter, colours, _("athwart"), (350, 330), size=BODY, bold=True, role="accent")
    said(painter, colours, "▲ " + _("bow"), (350, 24))
    said(painter, colours, _("PORT"), (252, 60), right=True, bold=True, role="ink")
    said(painter, colours, _("STARBOARD"), (508, 60), left=True, bold=True, role="ink")
    said(painter, colours, _("track, aft"), (338, 292), right=True)
    _sizes(painter, colours, choice)


def _sizes(painter: QPainter, colours: Colours, choice: str) -> None:
    """Show what a box or a D has besides its two sizes."""
    if choice in ("rounded box", "d"):
        low = choice == "d"
        end = (430.0 - 12, 276.0 - 12) if low else (430.0 - 12, 40.0 + 12)
        line(painter, colours, "accent", (400, 246 if low else 70), end)
        at = (396, 236 if low else 84)
        said(painter, colours, _("corner radius"), at, right=True, role="accent")
    if choice == "d":
        arrow(painter, colours, (252, 150), (252, 262))
        said(painter, colours, _("straight side"), (244, 206), right=True, role="accent")


def _outline(box: QRectF, choice: str) -> QPainterPath:
    path = QPainterPath()
    if choice == "rounded box":
        path.addRoundedRect(box, 40, 40)
    elif choice == "d":
        middle = box.top() + box.height() * 0.46
        path.moveTo(box.left(), middle)
        path.arcTo(QRectF(box.left(), box.top(), box.width(), 2 * (middle - box.top())), 180, -180)
        path.lineTo(box.right(), box.bottom() - 14)
        path.quadTo(box.bottomRight(), QPointF(box.right() - 14, box.bottom()))
        path.lineTo(box.left() + 14, box.bottom())
        path.quadTo(box.bottomLeft(), QPointF(box.left(), box.bottom() - 14))
        path.closeSubpath()
    else:
        path.addEllipse(box)
    return path


_PAINT: dict[Key, Callable[[QPainter, Colours, str], None]] = {
    "length": paint_length,
    "section": paint_section,
    "stands": paint_stands,
    "holds": paint_spreaders,
    "sails": paint_sails,
    "gear": paint_gear,
}
