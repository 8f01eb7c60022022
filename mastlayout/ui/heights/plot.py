"""The plot: pyqtgraph's axes, curves, dots and the line at the height in hand."""

from collections.abc import Sequence

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsRectItem, QWidget

from mastlayout.geometry.frames import Array
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.reach import REACHES, Reach
from mastlayout.ui.heights.scale import Scale, ticks, unit_m
from mastlayout.ui.heights.shown import OnMast
from mastlayout.ui.look import FIGURE, THICK, THIN, THREAD, Colours, font
from mastlayout.ui.pens import CENTRE, HIDDEN, pen
from mastlayout.units import Units
from mastlayout.words import _

AXIS_WIDE_PX, AXIS_HIGH_PX = 44, 38
_MAST_PX, _DOT_PX, _HAND_DOT_PX, _CROSSING_PX = 7.0, 7, 12, 8
# A tick's number stands half of its width to the right of it.
_NUMBER_PX = 20
_SAMPLES = 129
# How each convention's line is told from the others without colour.
_DASHES: dict[str, tuple[float, ...]] = {"2.08": (), "2.12": HIDDEN, "4/3": CENTRE}


class Plot:
    """Draws in view coordinates: nautical miles across, metres above the water up."""

    def __init__(self, parent: QWidget) -> None:
        self.widget = pg.PlotWidget(parent)
        for part in (self.widget, self.widget.viewport()):  # the chart round it takes the keys
            part.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.widget.setAccessibleName(_("Plot"))
        self.widget.setFrameShape(self.widget.Shape.NoFrame)
        self.item = self.widget.getPlotItem()
        self.view = self.item.getViewBox()
        self._framed: object = None
        self._drawn: object = None
        self._quiet()
        self.grid = pg.PlotCurveItem(connect="pairs")
        self.curves = {reach.key: pg.PlotCurveItem(antialias=True) for reach in REACHES}
        self.mast = QGraphicsRectItem()
        self.water, self.line = (pg.InfiniteLine(angle=0) for _one in range(2))
        # Dots of one look are rendered once, those of a look each anew with every move: two items.
        self.dots, self.held, self.crossings = (pg.ScatterPlotItem(antialias=True) for _one in range(3))
        spots = self.crossings, self.dots, self.held
        for one in (self.grid, *self.curves.values(), self.water, self.mast, self.line, *spots):
            self.item.addItem(one)

    def _quiet(self) -> None:
        """Take away what a laboratory needs: the menu, the buttons, pan and zoom."""
        self.item.hideButtons()
        self.item.setMenuEnabled(False)
        self.view.setMouseEnabled(x=False, y=False)
        self.view.setDefaultPadding(0.0)
        self.item.setContentsMargins(0, 0, 0, 0)
        self.item.layout.setContentsMargins(0, 0, 0, 0)
        left, bottom = self.item.getAxis("left"), self.item.getAxis("bottom")
        left.setWidth(AXIS_WIDE_PX)
        bottom.setHeight(AXIS_HIGH_PX)
        for axis in (left, bottom):
            axis.setStyle(tickFont=font(FIGURE), tickLength=-4, autoExpandTextSpace=False)

    # -- what is drawn

    def colour(self, colours: Colours) -> None:
        """Take the colours in force."""
        self.widget.setBackground(colours["ground"])
        for side in ("left", "bottom"):
            axis = self.item.getAxis(side)
            axis.setPen(pen(colours["edge"], THIN))
            axis.setTextPen(colours["second"])
        self.grid.setPen(self._in_pixels(pen(colours["hair"], THIN)))
        for reach in REACHES:
            self.curves[reach.key].setPen(self._in_pixels(curve_pen(reach, colours)))
        self.mast.setPen(self._in_pixels(pen(colours["edge"], THIN)))
        self.mast.setBrush(colours["mast"])
        self.water.setPen(self._in_pixels(pen(colours["cloth_edge"], THICK)))
        self.line.setPen(self._in_pixels(pen(colours["accent"], THREAD)))
        self.crossings.setPen(self._in_pixels(pen(colours["accent"], THREAD)))
        self.crossings.setBrush(colours["ground"])
        for dots, size, role in ((self.dots, _DOT_PX, "ink"), (self.held, _HAND_DOT_PX, "accent")):
            dots.setSize(size)
            dots.setBrush(colours[role])
            dots.setPen(self._in_pixels(pen(colours["ground"], THIN)))

    def _in_pixels(self, made: QPen) -> QPen:
        """Return a pen as wide whatever the scale; Qt takes its width in the screen's own dots."""
        made.setWidthF(made.widthF() * self.widget.devicePixelRatioF())
        made.setCosmetic(True)
        return made

    def draw_curves(self, top_m: float, asked: Asked) -> None:
        """Draw every reach from the water to a height; one whose other end is not known is not drawn."""
        if (top_m, asked) == self._drawn:
            return
        self._drawn = top_m, asked
        heights = curve_heights(top_m)
        for reach in REACHES:
            distances = reach.distance_nm(heights, asked)
            known = bool(np.isfinite(distances).all())
            self.curves[reach.key].setVisible(known)
            if known:
                self.curves[reach.key].setData(distances, heights)

    def draw_fittings(self, mast: OnMast, hand: str) -> None:
        """Draw a dot for each fitting, the one in hand larger and in its colour, over its neighbours."""
        held = np.array([one == hand for one in mast.ids], dtype=bool)
        for dots, shown in ((self.dots, mast.heights_m[~held]), (self.held, mast.heights_m[held])):
            dots.setData(x=np.zeros(len(shown)), y=shown)
        for drawn in (self.dots, self.held, self.mast, self.line, self.crossings):
            drawn.setVisible(mast.missing is None)

    def draw_height(self, height_m: float, asked: Asked) -> None:
        """Draw the line at the height in hand and where it meets the curves."""
        self.line.setValue(height_m)
        met = np.array([float(reach.distance_nm(np.array(height_m), asked)) for reach in REACHES])
        met = met[np.isfinite(met)]
        self.crossings.setData(x=met, y=np.full(len(met), height_m), size=_CROSSING_PX)

    def frame(self, scale: Scale, mast: OnMast, units: Units) -> None:
        """Show a scale, with its ticks and hair lines; what shows already is left alone."""
        shown = scale, mast.top_m, mast.heel_m, units
        if shown == self._framed:
            return
        self._framed = shown
        self.view.setRange(
            xRange=(scale.low_nm, scale.high_nm), yRange=(scale.low_m, scale.high_m), padding=0
        )
        nm_per_px = (scale.high_nm - scale.low_nm) / max(self.view.width(), 1.0)
        m_per_px = (scale.high_m - scale.low_m) / max(self.view.height(), 1.0)
        unit, each_m = unit_m(units)
        across = ticks(0.0, scale.high_nm - _NUMBER_PX * nm_per_px, nm_per_px, _("NM"))
        up = ticks(0.0, mast.top_m, m_per_px, unit, each_m)
        self.item.getAxis("bottom").setTicks([across, []])
        self.item.getAxis("left").setTicks([[(0.0, _("water")), *up[1:]], []])
        self._draw_grid([at for at, _text in across], [at for at, _text in up], scale, mast.top_m)
        half = _MAST_PX / 2 * nm_per_px
        self.mast.setRect(QRectF(-half, mast.heel_m, 2 * half, mast.masthead_m - mast.heel_m))

    def _draw_grid(self, across: Sequence[float], up: Sequence[float], scale: Scale, top_m: float) -> None:
        ends = [((nm, scale.low_m), (nm, top_m)) for nm in across]
        ends += [((scale.low_nm, m), (scale.high_nm, m)) for m in up]
        points = np.array(ends, dtype=float).reshape(-1, 2)
        self.grid.setData(points[:, 0], points[:, 1])

    # -- where things are

    def size_px(self) -> tuple[float, float]:
        """Return how wide and high the plot within its axes is."""
        return float(self.view.width()), float(self.view.height())

    def pixel(self, nm: float, height_m: float) -> QPointF:
        """Return where a distance and a height are on the widget."""
        return QPointF(self.view.mapViewToScene(QPointF(nm, height_m)))

    def pixels(self, nm: Array, heights_m: Array) -> tuple[Array, Array]:
        """Return where distances and heights (n,) are on the widget, across and down: one scale for all."""
        origin, ahead = self.pixel(0.0, 0.0), self.pixel(1.0, 1.0)
        across = origin.x() + np.asarray(nm) * (ahead.x() - origin.x())
        return across, origin.y() + np.asarray(heights_m) * (ahead.y() - origin.y())

    def height_at(self, at: QPointF) -> float:
        """Return the height above the water, m, of a pixel of the widget."""
        return float(self.view.mapSceneToView(at).y())


def line_of(x: Array, y: Array) -> QPolygonF:
    """Return points (n,) in pixels as one line: a point at a time would cost thrice the painting."""
    line: QPolygonF = pg.functions.arrayToQPolygonF(np.ascontiguousarray(x), np.ascontiguousarray(y))
    return line


def curve_heights(top_m: float) -> Array:
    """Return the heights at which a curve is drawn: closer at the water, where it bends most."""
    return top_m * np.linspace(0.0, 1.0, _SAMPLES) ** 2


def curve_pen(reach: Reach, colours: Colours) -> QPen:
    """Return the pen of a curve: colour and dash by its convention, thick where the other end counts."""
    role = "cable" if reach.convention.key == "4/3" else "ink"
    return pen(colours[role], THIN if reach.end is None else THICK, _DASHES[reach.convention.key])
