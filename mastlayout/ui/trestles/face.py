"""The face that is up, true to scale round the next hole, with the tape along it."""

from collections.abc import Iterator
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPolygonF,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from mastlayout.documents.schedule.places import tag_of
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.ui.look import BODY, MARGIN, NAME, UNIT, VALUE, font
from mastlayout.ui.section.cut import lost_between
from mastlayout.ui.skin.holes import Room, Tag
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.facepaint import paint_face
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.plan import (
    Band,
    FacePlan,
    FootShape,
    HoleSpot,
    bands,
    feet,
    hole_spots,
    mast_shape,
    old_spots,
)
from mastlayout.ui.trestles.walk import Walk, WalkHole
from mastlayout.ui.trestles.words import edge_words, hand_head, line_words
from mastlayout.words import _

HEAD_PX, TAPE_PX, HAND_PX, FOOT_PX, _TAPE_GAP_PX = 36.0, 42.0, 30.0, 24.0, 16.0
_LEAST_ALONG_MM, _MOST_SCALE, _BESIDE = 300.0, 6.0, 2.2
_ROOMY_PX, _HIT_PX, _NOTCH = 420, 14.0, 120.0
_STEP_MM, _LARGE_STEP_MM = 10.0, 100.0


class FaceCanvas(QWidget):
    """The face from above. ``picked`` carries the key of a hole that was clicked."""

    picked = Signal(tuple)
    span_changed = Signal(float, float)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = theme
        self.scene: Scene | None = None
        self.walk: Walk | None = None
        self.current: WalkHole | None = None
        self.lie, self.centre_z_mm = Lie(), 0.0
        self.spots, self.old, self.feet = list[HoleSpot](), list[HoleSpot](), list[FootShape]()
        self.bands, self.tags, self.notes, self.lost = list[Band](), list[Tag](), list[Tag](), ""
        self.edges = QPolygonF(), QPolygonF()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("The face that is up"))
        self.setMinimumSize(400, 240)
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(1200, 520)

    def show_walk(self, scene: Scene, walk: Walk, lie: Lie, current: WalkHole | None) -> None:
        """Take the mast, the walk of the face that is up, and the hole that is next."""
        self.scene, self.walk, self.lie, self.current = scene, walk, lie, current
        self.arrange()

    def show_height(self, z_mm: float) -> None:
        """Show the face round a height."""
        length = self.scene.skin.length_mm if self.scene else z_mm
        self.centre_z_mm = min(max(z_mm, 0.0), length)
        self.arrange()

    # -- places

    @property
    def roomy(self) -> bool:
        """Tell whether the large sizes of type fit."""
        return self.height() >= _ROOMY_PX

    @property
    def words_px(self) -> int:
        """The size of its words."""
        return NAME - 2 if self.roomy else VALUE

    @property
    def tape_box(self) -> QRectF:
        """Where the tape lies: below the mast, along it."""
        area = self.plan.area
        return QRectF(area.left(), area.bottom() + _TAPE_GAP_PX, area.width(), TAPE_PX)

    @property
    def plan(self) -> FacePlan:
        """How the face lies on the widget."""
        lost = FOOT_PX if self.lost else 0.0
        below = _TAPE_GAP_PX + TAPE_PX + HAND_PX + lost + UNIT
        area = QRectF(self.rect()).adjusted(MARGIN, HEAD_PX + HAND_PX, -MARGIN, -below)
        area.setSize(area.size().expandedTo(QRectF(0, 0, 1, 1).size()))
        if self.scene is None:
            return FacePlan(area, self.lie, 1.0, 0.0, 1.0)
        skin = self.scene.skin
        # The full section, so that the scale does not change as one walks up a taper.
        wide = 2 * float(abs(self.lie.right_mm(skin.full.polygon())).max())
        scale = min(area.height() / wide, area.width() / self._along_mm(), _MOST_SCALE)
        return FacePlan(area, self.lie, skin.length_mm, self.centre_z_mm, scale)

    def _along_mm(self) -> float:
        """Return how much of the mast's length shows at least: the foot and what is beside it."""
        placed = self.scene.placed.get(self.current.block.fitting) if self.scene and self.current else None
        if placed is None or placed.outline is None:
            return _LEAST_ALONG_MM
        along = placed.outline[:, 1]
        return max(float(along.max() - along.min()) * _BESIDE, _LEAST_ALONG_MM)

    def arrange(self) -> None:
        """Place all that shows."""
        scene = self.scene
        if scene is None:
            return
        plan = self.plan
        self.lost = ", ".join(lost_between(scene, plan.low_z_mm, plan.high_z_mm, frozenset()))
        plan = self.plan
        self.edges = mast_shape(plan, scene.skin)
        self.feet, self.bands = list(feet(plan, scene)), list(bands(plan, scene))
        self.old = list(old_spots(plan, scene))
        new = [foot.placed for foot in self.feet if foot.placed.fitting.new]
        self.spots = [spot for placed in new for spot in hole_spots(plan, placed, tag_of(placed))]
        self.tags = self._tags(plan)
        self.setAccessibleDescription(self._description())
        self.span_changed.emit(plan.low_z_mm, plan.high_z_mm)
        self.update()

    def _tags(self, plan: FacePlan) -> list[Tag]:
        """Put each hole's tag beyond its foot's nearer edge, else beside it; what has no room goes."""
        taken = [_reach(spot) for spot in (*self.spots, *self.old)]
        room = Room(plan.area.adjusted(0, -4, 0, 4), [*taken, *self._kept_free(plan)])
        found = []
        own = self.current.key if self.current else None
        for spot in sorted(self.spots, key=lambda spot: spot.key != own):
            words, reach = spot.tag, _reach(spot)
            metrics = QFontMetricsF(font(self.words_px, bold=True))
            wide, high = metrics.horizontalAdvance(words) + UNIT, metrics.height()
            box = room.first_free(_places(spot, reach, wide, high, self._foot_of(spot), own=spot.key == own))
            if box is not None:
                role = "accent" if spot.key == own else "cable" if spot.entry else "ink"
                found.append(Tag(words, box, role, spot.key[0], bold=True))
        self.notes = list(self._notes(plan, room))
        return found

    def _kept_free(self, plan: FacePlan) -> Iterator[QRectF]:
        """Yield where no tag may stand: along the dimension of the next hole."""
        hole = self.current
        own = next((spot for spot in self.spots if hole and spot.key == hole.key), None)
        if own is not None and hole is not None and hole.row.round.side:
            right = max(self._foot_of(own).right(), own.centre.x())
            top, low = sorted((own.centre.y(), plan.y_px(0.0)))
            yield QRectF(right + 20, top - 8, 200, low - top + 16)

    def _notes(self, plan: FacePlan, room: Room) -> Iterator[Tag]:
        """Yield the words of feet that are not to be drilled and of what lies behind, where they fit."""
        metrics = {bold: QFontMetricsF(font(BODY, bold=bold)) for bold in (True, False)}
        for foot in self.feet:
            if not foot.placed.foot_known:
                new = foot.placed.fitting.new
                words = _("{tag}: typical, not to be drilled yet") if new else _("{tag}, there")
                tag = Tag(
                    words.format(tag=tag_of(foot.placed)),
                    QRectF(),
                    "unknown" if new else "second",
                    foot.placed.id,
                    bold=new,
                )
                wide = metrics[new].horizontalAdvance(tag.words) + 2 * UNIT
                box = room.first_free(foot_places(foot.shape.boundingRect(), plan.area, wide))
                if box is not None:
                    yield replace(tag, box=box)
        line = line_words(self.lie)
        box = room.first_free(line_places(plan, metrics[False].horizontalAdvance(line) + 2 * UNIT))
        if line and box is not None:
            yield Tag(line, box, "second", "")
        for band in self.bands:
            words = _("{name} behind").format(name=band.name)
            wide = metrics[False].horizontalAdvance(words) + 2 * UNIT
            box = room.first_free(band_places(band.shape.boundingRect(), wide))
            if box is not None:
                yield Tag(words, box, "caution", "")

    def _foot_of(self, spot: HoleSpot) -> QRectF:
        shapes = (foot.shape for foot in self.feet if foot.placed.id == spot.key[0])
        return next(shapes, QPolygonF()).boundingRect()

    def _description(self) -> str:
        said = [hand_head(self.lie, "left"), hand_head(self.lie, "right")]
        said += [_("hole {tag}").format(tag=spot.tag) for spot in self.spots]
        said += [_("{name} behind").format(name=band.name) for band in self.bands]
        said += [_("{tag} typical, not to be drilled yet").format(tag=tag_of(p)) for p in self.typical()]
        return ". ".join(said) + "."

    def typical(self) -> list[Placed]:
        """Return the new fittings whose feet show and nobody has confirmed."""
        return [f.placed for f in self.feet if f.placed.fitting.new and not f.placed.foot_known]

    def hand_edge(self, *, left: bool) -> str:
        """Return the words of an edge."""
        return edge_words(self.lie, "left" if left else "right")

    # -- hands and keys

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.arrange()

    def spot_at(self, at: QPointF) -> HoleSpot | None:
        """Return the hole under a pixel, the nearest one."""
        near = [(_apart(spot.centre, at), spot) for spot in self.spots]
        hit = [(d, spot) for d, spot in near if d <= max(spot.radius, _HIT_PX)]
        return min(hit, key=lambda one: one[0])[1] if hit else None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        spot = self.spot_at(event.position())
        if spot is not None and event.button() == Qt.MouseButton.LeftButton:
            self.picked.emit(spot.key)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y() or event.angleDelta().x()
        large = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        self._walk_along(-turned / _NOTCH * (_LARGE_STEP_MM if large else _STEP_MM))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        large = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        step = _LARGE_STEP_MM if large else _STEP_MM
        if event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._walk_along(step if event.key() == Qt.Key.Key_Right else -step)
        else:
            super().keyPressEvent(event)

    def _walk_along(self, along_mm: float) -> None:
        self.show_height(self.centre_z_mm + self.lie.along_mm(along_mm))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_face(painter, self, self.theme.colours)
        painter.end()


def _reach(spot: HoleSpot) -> QRectF:
    side = spot.radius + 5.0
    return QRectF(spot.centre.x() - side, spot.centre.y() - side, 2 * side, 2 * side)


def _places(
    spot: HoleSpot, reach: QRectF, wide: float, high: float, foot: QRectF, *, own: bool
) -> list[QRectF]:
    """Return where a tag may stand, the best place first."""
    at = spot.centre
    above, below = foot.top() - high - 2, foot.bottom() + 2
    rows = [above, below] if at.y() <= foot.center().y() else [below, above]
    beside_x = [reach.right() + 2, reach.left() - wide - 2]
    if at.x() < foot.center().x():
        beside_x.reverse()
    # The thread to the tape runs straight down from the next hole: its tag stands beside it.
    edge_x = at.x() + 6 if own and rows[0] == below else at.x() - wide / 2
    edge = [QRectF(edge_x, y, wide, high) for y in rows[:1]] if foot.contains(at) else []
    beside = [QRectF(x, at.y() - high / 2, wide, high) for x in beside_x]
    inward = [reach.bottom(), reach.top() - high]
    if at.y() > foot.center().y():
        inward.reverse()
    over = [QRectF(at.x() - wide / 2, y, wide, high) for y in (inward if not own else inward[1:])]
    return edge + (over + beside if foot.contains(at) else beside + over)


def foot_places(box: QRectF, area: QRectF, wide: float) -> list[QRectF]:
    """Return where the words of a foot may stand: on its middle, else up or down from there."""
    left = min(max(box.center().x() - wide / 2, area.left()), area.right() - wide)
    middle = min(max(box.center().y() - 9, area.top() + 2), area.bottom() - 20)
    return [QRectF(left, middle + away, wide, 18) for away in (0, -20, 20, -40, 40)]


def line_places(plan: FacePlan, wide: float) -> list[QRectF]:
    """Return where the name of the line that is up may stand: over it, at either end."""
    y, area = plan.y_px(0.0) - 21, plan.area
    return [QRectF(x, y, wide, 18) for x in (area.left() + 2, area.right() - wide - 2)]


def band_places(box: QRectF, wide: float) -> list[QRectF]:
    """Return where the words of what lies behind may stand: low or high in its band, at either end."""
    rows = (box.bottom() - 19, box.top() + 1)
    columns = (box.left() + 2, box.right() - wide - 2)
    return [QRectF(x, y, wide, 18) for x in columns for y in rows]


def _apart(one: QPointF, other: QPointF) -> float:
    return float(QPointF.dotProduct(one - other, one - other) ** 0.5)
