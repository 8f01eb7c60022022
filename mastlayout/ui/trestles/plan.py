"""Where things lie on the face that is up: pixels along the mast and across it, the same scale both ways."""

import itertools
from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPolygonF

from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.ui.section.cut import centre_at
from mastlayout.ui.skin.holes import LEAST_HOLE_PX
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.walk import Key

# A place whose skin looks this little upwards is seen edge on.
_SEEN = 0.05
_EDGE_STEPS = 6


@dataclass(frozen=True)
class FacePlan:
    """The face in a rectangle of pixels: the mast's axis on its middle row, one height at its middle."""

    area: QRectF
    lie: Lie
    length_mm: float
    centre_z_mm: float
    scale: float

    def x_px(self, z_mm: float) -> float:
        """Return the column of a height: what is farther from the person lies farther right."""
        return self.area.center().x() + self.lie.along_mm(z_mm - self.centre_z_mm) * self.scale

    def z_at(self, x_px: float) -> float:
        """Return the height at a column."""
        return self.centre_z_mm + self.lie.along_mm((x_px - self.area.center().x()) / self.scale)

    def y_px(self, right_mm: float) -> float:
        """Return the row of a place to the right of the axis: the left hand is up."""
        return self.area.center().y() + right_mm * self.scale

    def at(self, point: Array) -> QPointF:
        """Return the pixel of a point (3,) of the mast frame, seen square from above."""
        return QPointF(self.x_px(float(point[2])), self.y_px(float(self.lie.right_mm(point))))

    @property
    def low_z_mm(self) -> float:
        """The lowest height that shows, on the mast."""
        return max(min(self.z_at(self.area.left()), self.z_at(self.area.right())), 0.0)

    @property
    def high_z_mm(self) -> float:
        """The highest height that shows, on the mast."""
        return min(max(self.z_at(self.area.left()), self.z_at(self.area.right())), self.length_mm)


@dataclass(frozen=True)
class HoleSpot:
    """One opening as it is drawn."""

    key: Key
    tag: str
    centre: QPointF
    radius: float
    entry: bool


@dataclass(frozen=True)
class FootShape:
    """A foot as it is drawn, seen from above."""

    placed: Placed
    shape: QPolygonF


@dataclass(frozen=True)
class Band:
    """A conduit behind the skin, its two sides at the ends of what shows of it."""

    name: str
    shape: QPolygonF


def mast_shape(plan: FacePlan, skin: Skin) -> tuple[QPolygonF, QPolygonF]:
    """Return the edges of the mast as they show: on the left hand, and on the right."""
    heights = np.linspace(plan.low_z_mm, plan.high_z_mm, 9)
    sides = [plan.lie.right_mm(skin.ring(float(z)).polygon()) for z in heights]
    one = [QPointF(plan.x_px(z), plan.y_px(float(own.min()))) for z, own in zip(heights, sides, strict=True)]
    other = [
        QPointF(plan.x_px(z), plan.y_px(float(own.max()))) for z, own in zip(heights, sides, strict=True)
    ]
    return QPolygonF(one), QPolygonF(other)


def feet(plan: FacePlan, scene: Scene) -> Iterator[FootShape]:
    """Yield the feet that show, each as far as it is not round the edge."""
    for placed in scene.placed.values():
        if placed.skin is None or placed.outline is None:
            continue
        low, high = placed.outline[:, 1].min(), placed.outline[:, 1].max()
        if low <= plan.high_z_mm and high >= plan.low_z_mm:
            shape = _seen(plan, placed.skin, placed.outline)
            if len(shape) > 2:
                yield FootShape(placed, QPolygonF([plan.at(point) for point in shape]))


def _seen(plan: FacePlan, skin: Skin, outline: Array) -> Array:
    """Return the points (k, 3) of an outline in girth and height that look upwards."""
    part = np.linspace(0.0, 1.0, _EDGE_STEPS, endpoint=False)[:, None]
    closed = np.concatenate([outline, outline[:1]])
    edge = np.concatenate([a + part * (b - a) for a, b in itertools.pairwise(closed)])
    points, normals = skin.at(edge[:, 1], edge[:, 0])
    return np.asarray(points[plan.lie.up_mm(normals) > 0.0])


def hole_spots(plan: FacePlan, placed: Placed, tag: str) -> Iterator[HoleSpot]:
    """Yield the openings of a foot in hand that show; a drill that misses the mast has none."""
    holes, skin = placed.holes, placed.skin
    if holes is None or skin is None or not placed.foot_known:
        return
    known = ~np.isnan(holes.girth_mm[0])
    _points, normals = skin.at(holes.z_mm[0], np.nan_to_num(holes.girth_mm[0]))
    shows = known & (plan.lie.up_mm(normals) > _SEEN)
    for opening, point, seen in zip(holes.openings, holes.point[0], shows, strict=True):
        if seen and plan.area.left() <= (at := plan.at(point)).x() <= plan.area.right():
            radius = max((drill_mm(opening) or 0.0) * plan.scale, LEAST_HOLE_PX) / 2
            key = placed.id, opening.number
            yield HoleSpot(key, f"{tag}.{opening.number}", at, radius, opening.use == "entry")


def old_spots(plan: FacePlan, scene: Scene) -> Iterator[HoleSpot]:
    """Yield the holes that are there already and show."""
    skin = scene.skin
    for hole in scene.layout.holes:
        z = height_mm(skin.length_mm, hole.from_masthead_mm)
        point, normal = skin.at(np.array([z]), np.array([skin.girth_of(hole.girth, z)]))
        at = plan.at(point[0])
        if plan.lie.up_mm(normal)[0] > _SEEN and plan.area.left() <= at.x() <= plan.area.right():
            radius = max((hole.diameter_mm or 0.0) * plan.scale, LEAST_HOLE_PX) / 2
            yield HoleSpot((hole.id, 0), hole.name, at, radius, entry=False)


def bands(plan: FacePlan, scene: Scene) -> Iterator[Band]:
    """Yield the conduits whose place is known, each as wide as it is; those near the face come last."""
    for pipe in sorted(scene.conduits, key=lambda own: _up(plan, own)):
        low, high = max(plan.low_z_mm, pipe.z_low_mm), min(plan.high_z_mm, pipe.z_high_mm)
        ends = [(z, centre_at(pipe, z)) for z in (low, high)] if low < high else []
        sides = [
            (plan.x_px(z), plan.y_px(float(plan.lie.right_mm(np.array(c)))), pipe.radius_mm * plan.scale)
            for z, c in ends
            if c is not None
        ]
        if len(sides) == 2:
            one = [QPointF(x, y - r) for x, y, r in sides]
            other = [QPointF(x, y + r) for x, y, r in reversed(sides)]
            yield Band(pipe.name, QPolygonF(one + other))


def _up(plan: FacePlan, pipe: Inside) -> float:
    centre = centre_at(pipe, min(max(plan.centre_z_mm, pipe.z_low_mm), pipe.z_high_mm))
    return float(plan.lie.up_mm(np.array(centre))) if centre else 0.0


def line_y(plan: FacePlan, skin: Skin, girth_mm: float, z_mm: float) -> float | None:
    """Return the row of a line along the skin at one height; None where it looks down."""
    point, normal = skin.at(np.array([z_mm]), np.array([girth_mm]))
    return None if plan.lie.up_mm(normal)[0] < -_SEEN else plan.y_px(float(plan.lie.right_mm(point)[0]))
