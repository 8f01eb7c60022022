"""Cables: from the body to its entry, then inside the mast along the conduit to where it comes out."""

import operator
from collections import Counter
from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsObject, QStyleOptionGraphicsItem, QWidget

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.model.fitting import Cable
from mastlayout.ui.elevation.shapes import AXES, FRAME_PARTS, line_path
from mastlayout.ui.look import CABLE, THREAD, Colours
from mastlayout.ui.pens import HIDDEN, pen
from mastlayout.ui.session import View

_ENTRY_PX = 3.5
# A cable is drawn with a drip loop: how far below its ends, of the distance between them.
_LOOP_PART, _LEAST_LOOP_MM = 0.25, 25.0


@dataclass(frozen=True, eq=False)
class CableLine:
    """One cable: the bend outside, its way inside, and its entry, in the drawing's own millimetres."""

    outside: QPainterPath
    inside: QPainterPath | None
    entry: Array


def cable_lines(scene: Scene, view: View) -> Iterator[CableLine]:
    """Yield the cables whose entry is known: those of a foot nobody confirmed have no place yet."""
    beside: Counter[str] = Counter()
    together = Counter(cable.conduit for cable in scene.layout.cables)
    for cable in scene.layout.cables:
        beside[cable.conduit or ""] += 1
        placed = scene.placed.get(cable.fitting or "")
        entry = _entry(placed) if placed is not None and placed.foot_known else None
        if placed is None or entry is None:
            continue
        seen = AXES[view] @ entry
        way = _way(scene, cable, entry)
        inside = None
        if way is not None:
            line, radius_mm = way
            # Side by side in their conduit, so that each one's dashes are seen.
            part = 2 * beside[cable.conduit or ""] / (together[cable.conduit] + 1) - 1
            inside = line_path(line, view).translated(part * radius_mm, 0.0)
        yield CableLine(_bend(AXES[view] @ _leaves(placed, entry), seen), inside, seen)


def _entry(placed: Placed) -> Array | None:
    holes = placed.holes
    if holes is None:
        return None
    entries = [i for i, opening in enumerate(holes.openings) if opening.use == "entry"]
    if not entries or np.isnan(holes.point[0, entries[0]]).any():
        return None
    return np.asarray(holes.point[0, entries[0]])


def _leaves(placed: Placed, entry: Array) -> Array:
    """Return where the cable leaves the body: the middle of the part that is nearest to its entry."""
    bodies = [i for i, part in enumerate(placed.body.parts) if part not in FRAME_PARTS]
    if not bodies:
        return np.asarray(placed.seats.origin[0])
    centres = placed.solids.centre[bodies]
    nearest = int(np.argmin(np.linalg.norm(centres - entry, axis=1)))
    solid = placed.solids[np.array([bodies[nearest]])]
    down = np.array([[0.0, 0.0, -1.0]])
    low_z = float((solid.core(down) + solid.round_mm[:, None] * down)[0, 2])
    return np.array([*centres[nearest][:2], low_z])


def _bend(start: Array, end: Array) -> QPainterPath:
    """Return a bend with a drip loop below both ends."""
    loop = max(_LOOP_PART * float(np.linalg.norm(end - start)), _LEAST_LOOP_MM)
    low = min(start[1], end[1]) - loop
    path = QPainterPath(QPointF(*start))
    path.cubicTo(QPointF(start[0], low), QPointF((start[0] + end[0]) / 2, low), QPointF(*end))
    return path


def _way(scene: Scene, cable: Cable, entry: Array) -> tuple[Array, float] | None:
    """Return the way inside (k, 3) and the conduit's radius, mm; None where it is not known."""
    runs = [
        run
        for run in scene.conduits
        if run.id == cable.conduit and len(run.start) and run.z_low_mm <= entry[2] <= run.z_high_mm
    ]
    if not runs:
        return None
    line = np.concatenate([runs[0].start, runs[0].end[-1:]])
    low_z = max(_exit_z(scene, cable), runs[0].z_low_mm)
    top, low = (_at(line, z) for z in (float(entry[2]), low_z))
    between = line[(line[:, 2] > low[2]) & (line[:, 2] < top[2])][::-1]
    return np.concatenate([top[None], between, low[None]]), runs[0].radius_mm


def _exit_z(scene: Scene, cable: Cable) -> float:
    placed = scene.placed.get(cable.exit or "")
    if placed is not None:
        return placed.z_mm
    if cable.exit_from_masthead_mm is not None:
        return height_mm(scene.skin.length_mm, cable.exit_from_masthead_mm)
    return 0.0


def _at(line: Array, z_mm: float) -> Array:
    return np.array([*(np.interp(z_mm, line[:, 2], line[:, k]) for k in (0, 1)), z_mm])


class CablesItem(QGraphicsObject):
    """Every cable, in cable blue: a ring at its entry, dashed inside the mast."""

    def __init__(self) -> None:
        super().__init__()
        self._bounds = QRectF()
        self._lines: list[CableLine] = []
        self._shows: tuple[object, ...] = ()
        self.setZValue(3.0)

    def show_scene(self, scene: Scene, view: View, colours: Colours) -> None:
        """Take the cables of a scene; most moves of a drag change none of them."""
        cables = scene.layout.cables
        ends = (scene.placed.get(name or "") for cable in cables for name in (cable.fitting, cable.exit))
        shows = view, colours, scene.conduits, *cables, *ends
        if len(shows) == len(self._shows) and all(map(operator.is_, shows, self._shows)):
            return
        self._shows = shows
        self.prepareGeometryChange()
        self._lines, self._colours = list(cable_lines(scene, view)), colours
        self._bounds = QRectF(-9000, -2000, 18000, scene.skin.length_mm + 3000)
        self.update()

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        colour, scale = self._colours["cable"], abs(painter.worldTransform().m22())
        radius = _ENTRY_PX / scale
        for line in self._lines:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(colour, CABLE, scale=scale))
            painter.drawPath(line.outside)
            if line.inside is not None:
                painter.setPen(pen(colour, CABLE, HIDDEN, scale))
                painter.drawPath(line.inside)
            painter.setPen(pen(colour, THREAD, scale=scale))
            painter.setBrush(self._colours["ground"])
            painter.drawEllipse(QPointF(*line.entry), radius, radius)
