"""The bands beside the mast: over which heights each sail sweeps it, and each reef of it."""

from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen
from PySide6.QtWidgets import QGraphicsObject, QStyleOptionGraphicsItem, QWidget

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.main.drawn import bands as main_bands
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.bands import Band, bands
from mastlayout.once import once
from mastlayout.ui.elevation.bandnames import Gear, gear_of, name_middle_px
from mastlayout.ui.elevation.shapes import mast_outline
from mastlayout.ui.elevation.span import GUTTER_PX, Span
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import CLOTH_EDGE, FIGURE, THIN, UNIT, Colours, font
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.session import View
from mastlayout.units import Units, write_length
from mastlayout.words import _

_BAR_PX, _LEAST_BAR_PX, _BETWEEN_PX, _EDGE_PX, _WORD_PX = 8.0, 6.0, 2.0, 4.0, 13.0
_NAME_OFF_PX = 1.0
# From bar to bar: with a name between them, and where there is no room for names.
_PITCH_PX, _LEAST_PITCH_PX = _BAR_PX + _BETWEEN_PX + _WORD_PX, _LEAST_BAR_PX + _BETWEEN_PX
# Told apart without colour, in this order; the mainsail's is its own.
PATTERNS = (
    Qt.BrushStyle.BDiagPattern,
    Qt.BrushStyle.Dense6Pattern,
    Qt.BrushStyle.DiagCrossPattern,
    Qt.BrushStyle.FDiagPattern,
    Qt.BrushStyle.Dense4Pattern,
    Qt.BrushStyle.CrossPattern,
    Qt.BrushStyle.VerPattern,
)
MAIN_PATTERN = Qt.BrushStyle.HorPattern


@once
def bands_of(main: Main) -> tuple[Band, ...]:
    """Return every band: the headsails', then the mainsail's. Every view and repaint asks for the same."""
    return (*bands(main.tack), *main_bands(main))


def pattern_of(found: tuple[Band, ...], at: int) -> Qt.BrushStyle:
    """Return the pattern of one of these bands."""
    return MAIN_PATTERN if found[at].sail.role == "main" else PATTERNS[at % len(PATTERNS)]


@dataclass(frozen=True)
class BandSeen:
    """A band as the view shows it, in pixels: its bar, and how far down the sail gets going up or down.

    ``name_px`` is the row its name is centred on, None where nothing leaves it room; ``reefs_px`` are
    where the head is in each reef.
    """

    band: Band
    bar: QRectF
    lowest_px: float
    name_px: float | None
    pattern: Qt.BrushStyle
    reefs_px: tuple[float, ...]


def bands_seen(scene: Scene, span: Span, view: View) -> Iterator[BandSeen]:
    """Yield the bands on the side of the mast that gear leaves free: aft of it, from ahead at the left.

    They stand closer where there is little room, so that the mast hides none.
    """
    found = bands_of(scene.main)
    low, high = (float(end) for end in np.sort(mast_outline(scene, view)[:, 0])[[0, -1]])
    left, right = _EDGE_PX, span.x_px(low) - _EDGE_PX
    if view == "port":
        left, right = span.x_px(high) + 2 * _EDGE_PX, span.room_px - GUTTER_PX / 2
    pitch = max(min((right - left) / max(len(found), 1), _PITCH_PX), _LEAST_PITCH_PX)
    wide = min(_BAR_PX, pitch - _BETWEEN_PX)
    gear = gear_of(scene, span, view) if pitch >= _BAR_PX + _WORD_PX else None
    for i, band in enumerate(found):
        top, foot = span.y_px(band.high_mm), span.y_px(band.low_mm)
        bar = QRectF(left + i * pitch, top, wide, foot - top)
        reefs = tuple(span.y_px(head) for _reef, head in band.reefed_mm)
        name_px = None if gear is None else _name_px(band, bar, span, gear)
        yield BandSeen(band, bar, span.y_px(band.lowest_mm), name_px, pattern_of(found, i), reefs)


def _name_px(band: Band, bar: QRectF, span: Span, gear: Gear) -> float | None:
    """Return the row of a band's name, beside what shows of its bar."""
    top, foot = max(bar.top(), 0.0), min(bar.bottom(), span.height_px)
    strip = QRectF(bar.right() + _NAME_OFF_PX, top, _WORD_PX, max(foot - top, 0.0))
    return name_middle_px(strip, width_px(band_words(band), FIGURE), gear)


def spoken(scene: Scene, units: Units) -> str:
    """Say the bands as sentences: "Swept by Genoa from 4120 to 16680 from the masthead."."""
    said = _("{words} from {top} to {foot} from the masthead.")
    length = scene.skin.length_mm
    rows = []
    for band in bands_of(scene.main):
        words = band_words(band)
        top, foot = (write_length(height_mm(length, z), units) for z in (band.high_mm, band.low_mm))
        rows.append(said.format(words=words[:1].upper() + words[1:], top=top, foot=foot))
        for reef, head in band.reefed_mm:
            head_read = write_length(height_mm(length, head), units)
            rows.append(_("With {reef} from {top}.").format(reef=reef.name, top=head_read))
    return " ".join(rows)


def band_words(band: Band) -> str:
    """Say what sweeps there: "swept by Genoa: one reef"."""
    return _("swept by {sail}").format(sail=state_words(band))


def state_words(band: Band) -> str:
    """Name the sail of a band, and its reef: "Genoa: one reef"."""
    sail = band.sail.name
    if band.reef is not None:
        return _("{sail}: {state}").format(sail=sail, state=band.reef.name)
    return sail


def paint_pattern(painter: QPainter, box: QRectF, pattern: Qt.BrushStyle, colours: Colours) -> None:
    """Paint a piece of a band: its pattern in the ink of what is second, for black and white too."""
    painter.fillRect(box, colours["cloth"])
    painter.setPen(QPen(colours["cloth_edge"], THIN))
    painter.setBrush(QBrush(colours["second"], pattern))
    painter.drawRect(box)


class BandsItem(QGraphicsObject):
    """Every band; it stands in pixels beside the mast, and moves with it up and down."""

    def __init__(self) -> None:
        super().__init__()
        self._bounds = QRectF()
        self.seen: tuple[BandSeen, ...] = ()
        self.sails: Main | None = None
        self.setZValue(-1.0)

    def show_scene(self, scene: Scene, span: Span, view: View, colours: Colours) -> None:
        """Take the bands of a scene as a span shows them."""
        self.prepareGeometryChange()
        self.seen, self._colours = tuple(bands_seen(scene, span, view)), colours
        self.sails = scene.main
        self._bounds = QRectF(-9000, -2000, 18000, scene.skin.length_mm + 3000)
        self.update()

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        painter.save()
        painter.resetTransform()
        for seen in self.seen:
            self._bar(painter, seen)
        painter.restore()

    def _bar(self, painter: QPainter, seen: BandSeen) -> None:
        colours, bar = self._colours, seen.bar
        paint_pattern(painter, bar, seen.pattern, colours)
        middle = bar.center().x()
        if seen.lowest_px > bar.bottom():
            painter.setPen(pen(colours["cloth_edge"], THIN, HIDDEN))
            painter.drawLine(QLineF(middle, bar.bottom(), middle, seen.lowest_px))
        painter.setPen(QPen(colours["cloth_edge"], CLOTH_EDGE))
        for y in (bar.top(), bar.bottom(), *seen.reefs_px):
            painter.drawLine(QLineF(bar.left() - 1.0, y, bar.right() + 1.0, y))
        self._word(painter, seen)

    def _word(self, painter: QPainter, seen: BandSeen) -> None:
        """Write the sail's name along its bar."""
        if seen.name_px is None:
            return
        words = band_words(seen.band)
        long = width_px(words, FIGURE)
        painter.save()
        painter.translate(QPointF(seen.bar.right() + _NAME_OFF_PX, seen.name_px + long / 2))
        painter.rotate(-90.0)
        painter.setFont(font(FIGURE))
        painter.setPen(self._colours["second"])
        painter.drawText(QRectF(0.0, 0.0, long + UNIT, _WORD_PX), Qt.AlignmentFlag.AlignVCenter, words)
        painter.restore()
