"""The rig as the strip paints it: boat lines, sails, stays, mast, spreaders and gear at one scale."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QLinearGradient, QPainter, QPolygonF
from PySide6.QtWidgets import QStyleOptionGraphicsItem

from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.model.layout import Layout
from mastlayout.ui.elevation.items import DOT_PX, RigItem
from mastlayout.ui.elevation.oldholes import old_holes_seen
from mastlayout.ui.elevation.shapes import AXES, FRAME_PARTS, Outline, mast_outline, outline, polygon_path
from mastlayout.ui.look import FIGURE, MARGIN, THIN, TYPICAL, Colours, font
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.session import View
from mastlayout.ui.strip.sails import sail_outlines
from mastlayout.ui.strip.scale import Scale, deck, heights, water
from mastlayout.words import _

_FADE_PX = 22.0
_WORD_PX = 15.0


class Picture:
    """Every shape of a scene in one view and one theme, taken once and painted often."""

    def __init__(self, scene: Scene, view: View, colours: Colours) -> None:
        self._colours, self._view = colours, view
        self._fixed = _fixed(scene.layout)
        axes = AXES[view]
        mast = mast_outline(scene, view)
        self._mast, self._mast_right_mm = polygon_path(mast), float(mast[:, 0].max())
        self._rig = RigItem()
        self._rig.show_scene(scene, view, colours)
        # From ahead a sail amidships is a line.
        corners = () if view == "ahead" else sail_outlines(scene)
        self._sails = [polygon_path(points @ axes.T) for points in corners]
        self._levels = [
            (_seen(line, view), name, wet)
            for line, name, wet in ((water(scene), _("water"), True), (deck(scene), _("deck"), False))
            if line is not None
        ]
        self._dots = [hole.at for hole in old_holes_seen(scene, view)]
        # Spreaders of unknown size have no shape, but a root.
        self._dots += [axes @ bar.root for bar in scene.spreaders.values() if not len(bar.solids)]
        self._heights = heights(scene)
        self.fittings: dict[str, Outline] = {}
        for name in scene.placed:
            self.take(scene, name)

    def holds(self, scene: Scene) -> bool:
        """Tell whether boat, sails and old holes are still those that were taken."""
        fixed = _fixed(scene.layout)
        return len(fixed) == len(self._fixed) and all(a is b for a, b in zip(fixed, self._fixed, strict=True))

    def take(self, scene: Scene, name: str) -> None:
        """Take one fitting as it is placed now, or leave it out where it is placed no more."""
        placed = scene.placed.get(name)
        if placed is None:
            self.fittings.pop(name, None)
            return
        self.fittings[name] = outline(placed, self._view)

    def right_mm(self, name: str) -> float:
        """Return how far to the right a thing reaches, the mast itself at the least."""
        gear = self.fittings.get(name)
        return max(self._mast_right_mm, float(gear.high[0]) if gear else 0.0)

    def heights(self) -> tuple[float, float]:
        """Return the lowest and the highest height, z in mm, of all that is painted."""
        low, high = self._heights
        lows = [float(gear.low[1]) for gear in self.fittings.values()]
        highs = [float(gear.high[1]) for gear in self.fittings.values()]
        return min([low, *lows]), max([high, *highs])

    def paint(self, painter: QPainter, scale: Scale, hand: str) -> None:
        """Paint all but what is in hand, which moves most."""
        colours = self._colours
        whole = QRectF(0, 0, scale.width_px, scale.height_px)
        painter.fillRect(whole, colours["ground"])
        for ends, _name, wet in self._levels:
            self._level(painter, scale, ends, wet=wet)
        painter.save()
        painter.setTransform(scale.transform, True)  # noqa: FBT003 - Qt's own flag: combine
        painter.setPen(pen(colours["cloth_edge"], THIN, scale=scale.px_per_mm))
        painter.setBrush(colours["cloth"])
        for path in self._sails:
            painter.drawPath(path)
        self._rig.paint(painter, QStyleOptionGraphicsItem())
        painter.setPen(pen(colours["ink"], TYPICAL, scale=scale.px_per_mm))
        painter.setBrush(colours["mast"])
        painter.drawPath(self._mast)
        self._gear(painter, scale, hand)
        painter.restore()
        self._fade(painter, whole)
        self._name_levels(painter, scale)

    def paint_hand(self, painter: QPainter, scale: Scale, hand: str) -> None:
        """Paint what is in hand, in the accent."""
        gear = self.fittings.get(hand)
        if gear is not None:
            painter.save()
            painter.setTransform(scale.transform, True)  # noqa: FBT003 - Qt's own flag: combine
            self._outline(painter, scale, gear, "accent")
            painter.restore()

    def _gear(self, painter: QPainter, scale: Scale, hand: str) -> None:
        for point in self._dots:
            self._dot(painter, scale, point, "ink")
        for name, gear in self.fittings.items():
            if name != hand:
                self._outline(painter, scale, gear, "ink")

    def _outline(self, painter: QPainter, scale: Scale, gear: Outline, ink: str) -> None:
        """Paint a fitting's outline in an ink; smaller than a dot it is a dot."""
        if float((gear.high - gear.low).max()) * scale.px_per_mm < DOT_PX:
            self._dot(painter, scale, gear.anchor, ink)
            return
        painter.setPen(pen(self._colours[ink], THIN, HIDDEN if gear.behind else (), scale.px_per_mm))
        for path, part in gear.parts:
            fill = ink if ink == "accent" else "foot" if part in FRAME_PARTS else "body"
            painter.setBrush(Qt.BrushStyle.NoBrush if gear.behind else self._colours[fill])
            painter.drawPath(path)

    def _dot(self, painter: QPainter, scale: Scale, at: Array, ink: str) -> None:
        radius = DOT_PX / 2 / scale.px_per_mm
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._colours[ink])
        painter.drawEllipse(QPointF(*at), radius, radius)

    def _level(self, painter: QPainter, scale: Scale, ends: Array, *, wet: bool) -> None:
        left, right = (QPointF(scale.x_px(x), scale.y_px(z)) for x, z in ends)
        if wet:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(self._colours["window"])
            below = 2 * scale.height_px
            painter.drawPolygon(QPolygonF([left, right, QPointF(right.x(), below), QPointF(left.x(), below)]))
        painter.setPen(pen(self._colours["edge"], THIN))
        painter.drawLine(left, right)

    def _name_levels(self, painter: QPainter, scale: Scale) -> None:
        painter.setFont(font(FIGURE))
        painter.setPen(self._colours["second"])
        for ends, name, _wet in self._levels:
            order = np.argsort(ends[:, 0])
            x_mm = (MARGIN - scale.x_px(0.0)) / scale.px_per_mm
            y = scale.y_px(float(np.interp(x_mm, ends[order, 0], ends[order, 1])))
            painter.drawText(QRectF(6, y - _WORD_PX, 60, _WORD_PX), Qt.AlignmentFlag.AlignVCenter, name)

    def _fade(self, painter: QPainter, whole: QRectF) -> None:
        """Let what is wider than the strip fade out at both sides instead of ending at a cut."""
        ground = self._colours["ground"]
        clear = self._colours["ground"]
        clear.setAlpha(0)
        for edge, inward in ((whole.left(), _FADE_PX), (whole.right(), -_FADE_PX)):
            fade = QLinearGradient(edge, 0, edge + inward, 0)
            fade.setColorAt(0.0, ground)
            fade.setColorAt(1.0, clear)
            painter.fillRect(QRectF(edge, 0, inward, whole.height()).normalized(), fade)


def _seen(line: Array, view: View) -> Array:
    """Return a level line's ends (2, 2) as a view shows it; from ahead it runs athwart, beside the mast."""
    seen = line @ AXES[view].T
    return seen if view != "ahead" else np.stack([line[:, 0], np.full(2, seen[:, 1].mean())], axis=1)


def _fixed(layout: Layout) -> tuple[object, ...]:
    """Return the parts of a layout that are painted but are no shapes of the scene."""
    return (layout.boat, *layout.sails, *layout.holes)
