"""The skin painted: what lies behind, feet with their holes, ruler, ticks, thread and dimension lines."""

from collections.abc import Iterator

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QWidget

from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.ui.look import LABEL, MARGIN, UNIT, VALUE, font
from mastlayout.ui.moving.guide import Guide
from mastlayout.ui.moving.pointer import Gesture
from mastlayout.ui.moving.way import Grip
from mastlayout.ui.section.at_height import HeightView
from mastlayout.ui.section.hits import Hit, square
from mastlayout.ui.session import Session
from mastlayout.ui.skin.development import FULL_FROM_PX, SHOWN_GIRTH_MM, Development, scale_for
from mastlayout.ui.skin.dimensions import Dimension, dimensions, measured
from mastlayout.ui.skin.holes import TAG_PX, HoleMark, Room, Tag, hole_marks, hole_tag
from mastlayout.ui.skin.painting import band_shape, paint
from mastlayout.ui.skin.patch import Band, OldHoleAt, Patch, middle_for, patch_between
from mastlayout.ui.skin.slide import Slide
from mastlayout.ui.skin.words import description, foot_words, lost_words
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

LEFT_PX, HEAD_PX, SIDES_PX, _NAME_STEP_PX = 52.0, 30.0, 22.0, 14.0
# Of a long foot only its middle shows, so that its holes keep a size that can be read.
_MOST_TALL_MM, _LEAST_TALL_MM, _ROUND_FOOT_MM, _BESIDE_FOOT_MM = 300.0, 100.0, 32.0, 10.0


class SkinCanvas(HeightView):
    """The unrolled skin. ``development`` is where it lies; holes, tags and dimensions are as painted."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.holes: list[HoleMark] = []
        self.tags: list[Tag] = []
        self.dimensions: list[Dimension] = []
        super().__init__(session, theme, _("Skin unrolled"), parent)
        self.setMinimumSize(240, 180)
        self._refresh()

    def sizeHint(self) -> QSize:
        return QSize(374, 320)

    @property
    def development(self) -> Development:
        """How the skin lies on the widget."""
        return self._content()[0]

    @property
    def patch(self) -> Patch:
        """What the skin holds where it shows."""
        return self._content()[1]

    @property
    def units(self) -> Units:
        """The units its numbers are written in."""
        return self._content()[2]

    def _content(self) -> tuple[Development, Patch, Units]:
        content: tuple[Development, Patch, Units] = self.content or self.gather()  # type: ignore[assignment]  # the view's own
        return content

    def gather(self) -> tuple[Development, Patch, Units]:
        session = self.session
        scene, z = session.desk.scene, session.z_mm
        placed = scene.placed.get(session.hand)
        made = self.development if self.pointer.busy else self._development(placed, z)
        patch = patch_between(scene, made.low_z_mm, made.high_z_mm, z, session.hand)
        return made, patch, session.units

    def _development(self, placed: Placed | None, z_mm: float) -> Development:
        skin = self.session.desk.scene.skin
        half, track = skin.ring(z_mm).half_girth_mm, skin.half_track_mm or 0.0
        area = QRectF(self.rect()).adjusted(LEFT_PX, HEAD_PX, -MARGIN, -SIDES_PX - UNIT - self._lost_px())
        area.setHeight(max(area.height(), 1.0))
        area.setWidth(max(area.width(), 1.0))
        middle = middle_for(placed)
        reach, tall = SHOWN_GIRTH_MM / 2, _LEAST_TALL_MM
        if placed is not None and placed.outline is not None:
            one = Development(area, middle, half, track, z_mm, 1.0)
            wide, high = (float(side) for side in placed.outline.max(axis=0) - placed.outline.min(axis=0))
            off = abs(one.offset_mm(float(placed.places.around[0])))
            reach = max(reach, off + wide / 2 + _BESIDE_FOOT_MM)
            tall = min(max(tall, high + 2 * _ROUND_FOOT_MM), _MOST_TALL_MM)
        scale = scale_for(area, half, track, reach, tall, full=self.width() > FULL_FROM_PX)
        return Development(area, middle, half, track, z_mm, scale)

    def _lost_px(self) -> float:
        words = self._lost_here()
        if not words:
            return 0.0
        room = QRectF(0, 0, max(self.width() - 2 * MARGIN, 1), 400)
        flags = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft
        return QFontMetricsF(font(LABEL)).boundingRect(room, int(flags), words).height()

    def _lost_here(self) -> str:
        session = self.session
        z = session.z_mm
        return lost_words(patch_between(session.desk.scene, z, z, z, session.hand))

    def arrange(self) -> None:
        made, patch = self.development, self.patch
        self.holes = list(hole_marks(patch.feet, made))
        room = Room(made.area, [mark.reach for mark in self.holes])
        for foot in patch.feet:
            room.take(self.foot_box(foot))
        own = [mark for mark in self.holes if mark.placed is patch.hand]
        # A hole has one place beside its foot, a value many; the words of a cable entry go anywhere near it.
        own_holes = [mark for mark in own if mark.opening.use != "entry"]
        self.tags = [tag for mark in own_holes if (tag := self._tag(mark, room))]
        self.dimensions = list(self._dimensions(own, room))
        others = [mark for mark in self.holes if mark not in own]
        rest = (
            *(self._tag(mark, room) for mark in own if mark not in own_holes),
            *(self._band_name(band, room) for band in patch.bands),
            *(self._name(foot, room) for foot in patch.feet),
            *(self._old_name(hole, room) for hole in patch.old_holes),
            *(self._tag(mark, room) for mark in others),
        )
        self.tags += [tag for tag in rest if tag]
        self.setAccessibleDescription(description(patch, measured(own), self.units))

    def foot_box(self, placed: Placed) -> QRectF:
        """Return the rectangle round a foot, in pixels, cut out parts counted as if they showed."""
        made = self.development
        if placed.outline is None:
            return QRectF()
        (left, low), (right, high) = placed.outline.min(axis=0), placed.outline.max(axis=0)
        around = float(placed.places.around[0])
        zero = made.area.center().x() + made.offset_mm(around) * made.scale
        return QRectF(
            zero + (float(left) - around) * made.scale,
            made.y_px(float(high)),
            float(right - left) * made.scale,
            float(high - low) * made.scale,
        )

    def _dimensions(self, own: list[HoleMark], room: Room) -> Iterator[Dimension]:
        patch, made = self.patch, self.development
        if patch.hand is None or patch.hand.outline is None:
            return iter(())
        box = self.foot_box(patch.hand)
        return dimensions(measured(own), box, made, patch.skin, self.units, self._value_width, room)

    def _band_name(self, band: Band, room: Room) -> Tag | None:
        """Return the words of a conduit, at the foot of its band or at the top."""
        words, (_z, one, other) = _("{name} behind").format(name=band.name), band.top
        made = self.development
        wide, x = self._name_width(words), made.x_px(made.offset_mm((one + other) / 2))
        if x is None:
            return None
        x = min(max(x - wide / 2, made.area.left() + 2), made.area.right() - wide - 2)
        rows = (made.area.bottom() - TAG_PX - 2, made.area.top() + 2)
        box = room.first_free([QRectF(x, y, wide, TAG_PX) for y in rows])
        return Tag(words, box, "second", band.id) if box else None

    def _old_name(self, hole: OldHoleAt, room: Room) -> Tag | None:
        at, wide = self.development.at(hole.girth_mm, hole.z_mm), self._name_width(hole.name)
        if at is None:
            return None
        y = at.y() - TAG_PX / 2
        box = room.first_free([QRectF(x, y, wide, TAG_PX) for x in (at.x() + 8, at.x() - 8 - wide)])
        return Tag(hole.name, box, "second", hole.id) if box else None

    def _tag(self, mark: HoleMark, room: Room) -> Tag | None:
        role = "cable" if mark.opening.use == "entry" else "ink"
        return hole_tag(mark, self.foot_box(mark.placed), self._tag_width, room, role)

    def _name(self, foot: Placed, room: Room) -> Tag | None:
        """Return the words of a foot that is not in hand, or of one that is not confirmed."""
        made = self.development
        shown = made.x_px(made.offset_mm(float(foot.places.around[0]))) is not None
        if not shown or (foot is self.patch.hand and foot.foot_known):
            return None
        words = foot_words(foot)
        box, wide = self.foot_box(foot), self._name_width(words)
        pieces, area = made.pieces(), made.area
        clip = pieces[len(pieces) // 2].clip
        x = min(max(box.center().x() - wide / 2, clip.left() + 2), max(clip.right() - wide - 2, clip.left()))
        # Words far from a foot would be taken for another's; what is in hand is known by its colour.
        steps = 4 if foot is self.patch.hand else 2
        rows = [box.bottom() + 2 + n * _NAME_STEP_PX for n in range(steps)]
        rows += [box.top() - TAG_PX - 2 - n * _NAME_STEP_PX for n in range(steps)]
        if foot is self.patch.hand:
            rows += [area.bottom() - TAG_PX - 2, area.top() + 2]
        free = room.first_free([QRectF(x, y, wide, TAG_PX) for y in rows])
        if free is None:
            return None
        return Tag(words, free, "second" if foot.foot_known else "unknown", foot.id)

    def _tag_width(self, words: str) -> float:
        return QFontMetricsF(font(LABEL, bold=True)).horizontalAdvance(words) + 2.0

    def _name_width(self, words: str) -> float:
        return QFontMetricsF(font(LABEL)).horizontalAdvance(words) + 4.0

    def _value_width(self, words: str) -> float:
        return QFontMetricsF(font(VALUE, bold=True)).horizontalAdvance(words) + 4.0

    def hits(self) -> Iterator[Hit]:
        """Yield words, holes, old holes, feet, and what lies behind."""
        made, patch = self.development, self.patch
        for tag in self.tags:
            yield Hit(tag.id, QPolygonF(tag.box))
        for mark in self.holes:
            yield Hit(mark.placed.id, QPolygonF(mark.reach))
        for hole in patch.old_holes:
            at = made.at(hole.girth_mm, hole.z_mm)
            if at is not None:
                yield square(hole.id, at, (hole.diameter_mm or 0.0) / 2 * made.scale)
        for piece in made.turns():
            window = QPolygonF(piece.clip)
            for foot in patch.feet:
                if foot.outline is not None:
                    shape = made.polygon(piece, foot.outline, float(foot.places.around[0]))
                    yield Hit(foot.id, shape.intersected(window))
            for band in patch.bands:
                yield Hit(band.id, band_shape(piece, made, band).intersected(window))

    def gesture(self, grip: Grip, at: QPointF) -> Gesture:
        return Slide(self.session, self.development, grip, at)

    def guides(self) -> Iterator[Guide]:
        """Yield the level line and the line along the mast that what is dragged snapped to."""
        made, area = self.development, self.development.area
        for name, target in self.pointer.snaps.items():
            x = made.x_px(made.offset_mm(target.value)) if name == "round" else None
            if name == "along":
                y = made.y_px(height_mm(self.patch.skin.length_mm, target.value))
                yield Guide(QLineF(area.left(), y, area.right(), y), target.words)
            elif x is not None:
                yield Guide(QLineF(x, area.bottom(), x, area.top()), target.words)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint(painter, self, self.theme.colours)
        self.paint_guides(painter)
        self.paint_focus(painter)
        painter.end()
