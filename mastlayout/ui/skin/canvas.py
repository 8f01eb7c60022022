"""The skin on its widget: gathered round the height in hand, placed with its words, painted."""

from collections.abc import Iterator

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, SignalInstance
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.ui.clipping import clipped
from mastlayout.ui.lines import broken, width_px
from mastlayout.ui.look import LABEL, MARGIN, THREAD, UNIT, VALUE, font
from mastlayout.ui.moving.guide import Guide
from mastlayout.ui.moving.pointer import Gesture
from mastlayout.ui.moving.way import Grip
from mastlayout.ui.nothing import missing_words
from mastlayout.ui.section.at_height import HeightView
from mastlayout.ui.section.callouts import LINE_PX
from mastlayout.ui.section.hits import Hit, square
from mastlayout.ui.session import Session
from mastlayout.ui.skin.behind import band_shape, paint_behind
from mastlayout.ui.skin.development import (
    FULL_FROM_PX,
    SHOWN_GIRTH_MM,
    Development,
    Piece,
    close_scale,
    scale_for,
)
from mastlayout.ui.skin.dimensions import Dimension, Measured, dimensions, measured
from mastlayout.ui.skin.feet import paint_foot
from mastlayout.ui.skin.figures import FoundLine, found_lines
from mastlayout.ui.skin.ground import paint_breaks, paint_ends, paint_lines, paint_zones
from mastlayout.ui.skin.holes import HoleMark, Room, Tag, hole_marks
from mastlayout.ui.skin.lettering import (
    SIDES_PX,
    paint_dimensions,
    paint_rulers,
    paint_side_words,
    paint_tags,
)
from mastlayout.ui.skin.marks import paint_centre, paint_found, paint_hole, paint_old_holes
from mastlayout.ui.skin.patch import Patch, lost_at, middle_for, patch_between
from mastlayout.ui.skin.slide import Slide
from mastlayout.ui.skin.tags import foot_box, names, own_tags
from mastlayout.ui.skin.words import description, lost_words
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

LEFT_PX, HEAD_PX = 52.0, 30.0
# Of a long foot only its middle shows, so that its holes keep a size that can be read.
_MOST_TALL_MM, _LEAST_TALL_MM, _ROUND_FOOT_MM, _BESIDE_FOOT_MM = 300.0, 100.0, 32.0, 10.0
# Round a single foot close up, for tags and dimension lines.
_ROUND_CLOSE_MM = 26.0
_Content = tuple[Development, Patch, Units, tuple[tuple[str, str], ...]]


class SkinCanvas(HeightView):
    """The unrolled skin. ``development`` is where it lies; holes, tags and lines are as painted.

    ``close_up`` shows the foot in hand alone at a scale of its own.
    """

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.close_up = False
        self.holes: list[HoleMark] = []
        self.tags: list[Tag] = []
        self.dimensions: list[Dimension] = []
        self.found: list[FoundLine] = []
        super().__init__(session, theme, _("Skin unrolled"), parent)
        self.setMinimumSize(240, 180)

    def sizeHint(self) -> QSize:
        return QSize(374, 320)

    @property
    def turn(self) -> SignalInstance:
        return self.session.turns.skin

    def look_close(self, close: bool) -> None:  # noqa: FBT001 - a button's signal calls it so
        """Show the foot in hand alone, or the girth again."""
        self.close_up = close
        self._fit_anew()

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

    def _content(self) -> _Content:
        content: _Content = self.content or self.gather()  # type: ignore[assignment]  # the view's own
        return content

    def gather(self) -> _Content:
        session = self.session
        report, z = session.desk.report, session.z_mm
        notes = tuple(self._notes())
        made = self._fixed() or self._development(
            report.scene.placed.get(session.hand), z, LINE_PX * len(notes)
        )
        patch = patch_between(report, made.low_z_mm, made.high_z_mm, z, session.hand, session.chosen)
        return made, patch, session.units, notes

    def _fixed(self) -> Development | None:
        """While the pointer moves a thing on it, the skin stands still."""
        return self.development if self.pointer.busy else None

    def _notes(self) -> Iterator[tuple[str, str]]:
        """Yield lines for below the drawing, with their colours: what it cannot show, and why."""
        scene = self.session.desk.scene
        said = (
            (missing_words(self.session), "second"),
            (lost_words(lost_at(scene, self.session.z_mm)), "unknown"),
        )
        for words, role in said:
            if words:
                room = self.width() - 2.0 * MARGIN
                yield from (
                    (line, role) for line in broken(words, room, 3, lambda part: width_px(part, LABEL))
                )

    def _development(self, placed: Placed | None, z_mm: float, below_px: float) -> Development:
        skin = self.session.desk.scene.skin
        half, track = skin.ring(z_mm).half_girth_mm, skin.half_track_mm or 0.0
        area = QRectF(self.rect()).adjusted(LEFT_PX, HEAD_PX, -MARGIN, -SIDES_PX - 2 * UNIT - below_px)
        area.setHeight(max(area.height(), 1.0))
        area.setWidth(max(area.width(), 1.0))
        middle = middle_for(placed)
        reach, tall = SHOWN_GIRTH_MM / 2, _LEAST_TALL_MM
        if placed is not None and placed.outline is not None:
            one = Development(area, middle, half, track, z_mm, 1.0)
            wide, high = (float(side) for side in placed.outline.max(axis=0) - placed.outline.min(axis=0))
            offset = one.offset_mm(float(placed.places.around[0]))
            if self.close_up:
                scale = close_scale(area, wide + 2 * _ROUND_CLOSE_MM, high + 2 * _ROUND_CLOSE_MM)
                return Development(area, middle, half, track, z_mm, scale, offset)
            reach = max(reach, abs(offset) + wide / 2 + _BESIDE_FOOT_MM)
            tall = min(max(tall, high + 2 * _ROUND_FOOT_MM), _MOST_TALL_MM)
        scale = scale_for(area, half, track, reach, tall, full=self.width() > FULL_FROM_PX)
        return Development(area, middle, half, track, z_mm, scale)

    def arrange(self) -> None:
        made, patch = self.development, self.patch
        self.holes = list(hole_marks(patch.feet, made))
        room = Room(made.area, [mark.reach for mark in self.holes])
        for foot in patch.feet:
            room.take(foot_box(made, foot))
        own = [mark for mark in self.holes if mark.placed is patch.hand and mark.placed.foot_known]
        # The words of a cable entry go anywhere near it.
        first = [mark for mark in own if mark.opening.use != "entry"]
        rest = [mark for mark in self.holes if mark not in first and mark.placed.foot_known]
        self.tags = own_tags(made, first, room)
        self.dimensions = list(self._dimensions(own, room))
        self.tags += own_tags(made, [mark for mark in own if mark not in first], room)
        self.found = list(found_lines(patch.marks, made, self.units, room))
        self.tags += names(made, patch, [mark for mark in rest if mark not in own], room)
        said = description(patch, measured(own), self.units), missing_words(self.session)
        self.setAccessibleDescription(" ".join(said).strip())

    def foot_box(self, placed: Placed) -> QRectF:
        """Return the rectangle round a foot, in pixels."""
        return foot_box(self.development, placed)

    @property
    def centre(self) -> QPointF | None:
        """The pixel of the centre of the foot in hand where nobody has confirmed it."""
        hand = self.patch.hand
        if hand is None or hand.foot_known or hand.outline is None or not hand.fitting.new:
            return None
        return self.development.at(float(hand.places.around[0]), hand.z_mm)

    def _dimensions(self, own: list[HoleMark], room: Room) -> Iterator[Dimension]:
        patch, made = self.patch, self.development
        if patch.hand is None or patch.hand.outline is None:
            return iter(())
        holes, centre = measured(own), self.centre
        if centre is not None:
            holes = [Measured(centre, float(patch.hand.places.around[0]), patch.hand.z_mm)]
        box = foot_box(made, patch.hand)
        return dimensions(holes, box, made, patch.skin, self.units, _value_width, room)

    def hits(self) -> Iterator[Hit]:
        """Yield words, holes, old holes, feet, and what lies behind."""
        made, patch = self.development, self.patch
        yield from (Hit(tag.id, QPolygonF(tag.box)) for tag in self.tags if tag.id)
        yield from (Hit(mark.placed.id, QPolygonF(mark.reach)) for mark in self.holes)
        for hole in patch.old_holes:
            at = made.at(hole.girth_mm, hole.z_mm)
            if at is not None:
                yield square(hole.id, at, (hole.diameter_mm or 0.0) / 2 * made.scale)
        for piece in made.turns:
            window = QPolygonF(piece.clip)
            for foot in patch.feet:
                if foot.outline is not None:
                    shape = made.polygon(piece, foot.outline, float(foot.places.around[0]))
                    yield Hit(foot.id, shape.intersected(window))
            for band in patch.bands:
                yield Hit(band.id, band_shape(piece, made, band).intersected(window))

    # -- painting

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
        made, patch, colours = self.development, self.patch, self.theme.colours
        for piece in made.pieces:
            painter.fillRect(piece.clip, colours["mast"])
        for turned in made.turns:
            with clipped(painter, turned.clip):
                self._paint_piece(painter, turned)
        with clipped(painter, made.area):
            paint_ends(painter, made, patch, colours)
        painter.setPen(QPen(colours["accent"], THREAD))
        y = made.y_px(patch.z_mm)
        painter.drawLine(QPointF(made.area.left() - 8, y), QPointF(made.area.right(), y))
        with clipped(painter, made.area):
            for mark in self.holes:
                paint_hole(painter, mark, colours, in_hand=mark.placed is patch.hand)
            paint_old_holes(painter, patch.old_holes, made, colours)
            if self.centre is not None:
                paint_centre(painter, self.centre, colours)
        paint_breaks(painter, made, colours)
        self._paint_words(painter)
        self.paint_guides(painter)
        painter.end()

    def _paint_piece(self, painter: QPainter, piece: Piece) -> None:
        made, patch, colours = self.development, self.patch, self.theme.colours
        paint_behind(painter, piece, made, patch, self.session.hand, colours)
        paint_zones(painter, piece, made, patch, colours)
        paint_lines(painter, piece, made, patch, colours)
        for placed in patch.feet:
            paint_foot(painter, piece, made, placed, colours, in_hand=placed is patch.hand)

    def _paint_words(self, painter: QPainter) -> None:
        made, patch, colours = self.development, self.patch, self.theme.colours
        paint_dimensions(painter, self.dimensions, colours)
        paint_tags(painter, self.tags, colours)
        paint_found(painter, self.found, colours)
        paint_rulers(painter, made, patch, self.units, self.width(), colours)
        paint_side_words(painter, made, patch, colours)
        line = QRectF(MARGIN, made.area.bottom() + SIDES_PX + UNIT, self.width(), LINE_PX)
        painter.setFont(font(LABEL))
        for words, role in self._content()[3]:
            painter.setPen(colours[role])
            painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, words)
            line.translate(0, LINE_PX)


def _value_width(words: str) -> float:
    return width_px(words, VALUE, bold=True) + 4.0
