"""The ring picture: what each light and antenna sees round the compass, ahead up."""

import math
from collections.abc import Sequence
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from mastlayout.documents.compass import at, colour_deg, letters_deg, unwound, wedge
from mastlayout.ranges.ring_words import Lettered, Numbered
from mastlayout.ranges.rings import Arc, Bearings, Ring
from mastlayout.ui.look import BODY, FIGURE, IN_HAND, LABEL, MARGIN, THIN, Colours, font
from mastlayout.ui.pens import pen
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_HULL, _GROUND = 0.26, 0.06
_LEAST = QSize(360, 360)
_RIM_PX, _BADGE_PX, _LETTER_PX = 30, 10, 7
_NUMBER_DEG = 292.5
# How thick a light's colour lies on its arc.
_TINT = 60


class RingPicture(QWidget):
    """Paints rings; ``chosen`` is the thing whose wedge is outlined, by the ring's number and its letter."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = theme
        self.shown: Sequence[Numbered] = ()
        self.chosen: tuple[int, str] | None = None
        self.setMinimumSize(_LEAST)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(_("Lights, antennas and horns round the compass"))
        self.setAccessibleDescription(_("The list beside it says in words what is painted."))

    def show_rings(self, shown: Sequence[Numbered], chosen: tuple[int, str] | None) -> None:
        """Paint these rings; the list beside them says in words what is painted."""
        if (shown, chosen) != (self.shown, self.chosen):
            self.shown, self.chosen = shown, chosen
            self.update()

    def radius_px(self) -> float:
        """Return the radius of the outermost ring."""
        return min(self.width(), self.height()) / 2 - _RIM_PX - MARGIN

    def band_px(self, count: int) -> tuple[float, float]:
        """Return the inner and outer radius of a ring by its place, the first outermost."""
        radius = self.radius_px()
        thick = (1 - _HULL) * radius / max(len(self.shown), 1)
        outer = radius - count * thick
        return outer - thick * (1 - _GROUND), outer - thick * _GROUND

    def centre(self) -> tuple[float, float]:
        """Return the middle of the rings."""
        return self.width() / 2, self.height() / 2

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), self.theme.colours
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), colours["ground"])
        self._paint_scale(painter, colours)
        for paint in (self._paint_ring, self._paint_words, self._paint_number):
            for count, one in enumerate(self.shown):
                paint(painter, colours, count, one)
        painter.end()

    def _paint_scale(self, painter: QPainter, colours: Colours) -> None:
        centre, radius = self.centre(), self.radius_px()
        painter.setPen(pen(colours["edge"], THIN))
        painter.drawEllipse(QPointF(*centre), radius, radius)
        for bearing in range(0, 360, 10):
            long = 8.0 if bearing % 30 == 0 else 4.0
            painter.drawLine(
                QPointF(*at(centre, radius, bearing)), QPointF(*at(centre, radius + long, bearing))
            )
        painter.setPen(colours["second"])
        painter.setFont(font(FIGURE))
        for bearing in range(0, 360, 30):
            _word(painter, at(centre, radius + 22.0, bearing), f"{bearing:03d}°")
        self._paint_yacht(painter, colours)

    def _paint_yacht(self, painter: QPainter, colours: Colours) -> None:
        """Paint the yacht from above, bow up, in the middle."""
        (x, y), size = self.centre(), _HULL * self.radius_px()
        hull = QPolygonF(
            [
                QPointF(x + across * size, y - along * size)
                for across, along in (
                    (0.0, 0.85), (0.14, 0.5), (0.22, 0.1), (0.22, -0.4), (0.16, -0.8),
                    (-0.16, -0.8), (-0.22, -0.4), (-0.22, 0.1), (-0.14, 0.5),
                )
            ]
        )  # fmt: skip
        painter.setPen(pen(colours["edge"], THIN))
        painter.setBrush(colours["mast"])
        painter.drawPolygon(hull)
        painter.setBrush(colours["ink"])
        painter.drawEllipse(QPointF(x, y), 2.0, 2.0)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _paint_ring(self, painter: QPainter, colours: Colours, count: int, one: Numbered) -> None:
        inner, outer = self.band_px(count)
        for arc in one.ring.arcs:
            self._paint_arc(painter, colours, arc, inner, outer)
        for item in one.things:
            self._paint_thing(painter, colours, item, inner, outer)

    def _paint_words(self, painter: QPainter, colours: Colours, count: int, one: Numbered) -> None:
        """Paint the colours' names and the letters: over all rings, since a ring may be lower than a word."""
        inner, outer = self.band_px(count)
        for arc in one.ring.arcs:
            self._paint_colour(painter, colours, arc, (inner + outer) / 2)
        radius = (inner + outer) / 2
        letters = letters_deg(one, radius, _BADGE_PX, _LETTER_PX, _number_deg(one.ring, radius))
        for item, bearing in zip(one.things, letters, strict=True):
            self._paint_letter(painter, colours, item.letter, at(self.centre(), radius, bearing))
            if self.chosen == (one.number, item.letter):
                painter.setPen(pen(colours["accent"], IN_HAND + 1.0))
                painter.drawPolygon(self._wedge(inner, outer, item.thing.seen))

    def _paint_number(self, painter: QPainter, colours: Colours, count: int, one: Numbered) -> None:
        """Paint a ring's number on it, no larger than the rings beside it leave room for."""
        inner, outer = self.band_px(count)
        large = outer - inner >= 2 * _LETTER_PX
        badge_px = _BADGE_PX if large else _LETTER_PX
        middle = QPointF(*at(self.centre(), (inner + outer) / 2, _number_deg(one.ring, (inner + outer) / 2)))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours["ink"])
        painter.drawEllipse(middle, badge_px, badge_px)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(colours["ground"])
        painter.setFont(font(BODY if large else FIGURE, bold=True))
        _word(painter, (middle.x(), middle.y()), str(one.number))

    def _paint_arc(self, painter: QPainter, colours: Colours, arc: Arc, inner: float, outer: float) -> None:
        bearings = unwound(arc.first_deg, arc.last_deg)
        role = {"red": "port", "green": "starboard", "white": "tape"}.get(arc.colour, "cloth")
        tint = QColor(colours[role])
        if role in ("port", "starboard"):
            tint.setAlpha(_TINT)
        painter.setPen(pen(colours["edge"], THIN))
        painter.setBrush(tint)
        painter.drawPolygon(self._wedge(inner, outer, bearings))
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _paint_colour(self, painter: QPainter, colours: Colours, arc: Arc, radius: float) -> None:
        if arc.colour:
            words = {"red": _("red"), "green": _("green"), "white": _("white")}[arc.colour]
            painter.setPen(colours["ink"])
            painter.setFont(font(LABEL))
            _word(painter, at(self.centre(), radius, colour_deg(arc)), words)

    def _paint_thing(
        self, painter: QPainter, colours: Colours, item: Lettered, inner: float, outer: float
    ) -> None:
        painter.setPen(pen(colours["ink"], THIN))
        shape = self._wedge(inner, outer, item.thing.seen)
        painter.setBrush(colours["ground"])
        painter.drawPolygon(shape)
        painter.setBrush(QBrush(colours["ink"], Qt.BrushStyle.BDiagPattern))
        painter.drawPolygon(shape)
        if item.dark is not None:
            painter.setBrush(colours["ink"])
            painter.drawPolygon(self._wedge(inner, outer, item.dark))
        painter.setBrush(Qt.BrushStyle.NoBrush)

    @staticmethod
    def _paint_letter(painter: QPainter, colours: Colours, letter: str, middle: tuple[float, float]) -> None:
        """Paint a thing's letter on its own ground: another may lie there."""
        painter.setFont(font(BODY, bold=True))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours["ground"])
        painter.drawEllipse(QPointF(*middle), _LETTER_PX, _LETTER_PX)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(colours["ink"])
        _word(painter, middle, letter)

    def _wedge(self, inner: float, outer: float, bearings: Bearings) -> QPolygonF:
        return _polygon(self.centre(), inner, outer, bearings)


# While something is moved most wedges stay as they were painted last.
@lru_cache(maxsize=512)
def _polygon(centre: tuple[float, float], inner: float, outer: float, bearings: Bearings) -> QPolygonF:
    return QPolygonF([QPointF(x, y) for x, y in wedge(centre, inner, outer, bearings)])


def _number_deg(ring: Ring, radius_px: float) -> float:
    """Return the bearing of a ring's number: on its arcs, or beside the first where none reaches there."""
    spans = [unwound(arc.first_deg, arc.last_deg) for arc in ring.arcs]
    if any((_NUMBER_DEG - first) % 360.0 <= last - first for first, last in spans):
        return _NUMBER_DEG
    return ring.arcs[0].first_deg - math.degrees(_BADGE_PX / radius_px)


def _word(painter: QPainter, middle: tuple[float, float], text: str) -> None:
    box = QRectF(middle[0] - 40.0, middle[1] - 12.0, 80.0, 24.0)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
