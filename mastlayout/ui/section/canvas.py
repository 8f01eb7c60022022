"""The section on its widget: gathered at the height in hand, placed with its call-outs, painted."""

from collections.abc import Iterator, Sequence
from typing import cast

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QWidget

from mastlayout.checks.clewed import SweptClew
from mastlayout.checks.finding import Key
from mastlayout.checks.report import Report
from mastlayout.checks.sailed import Called, Sailed, sailed_at
from mastlayout.desk import Change
from mastlayout.geometry.frames import Array
from mastlayout.ui.clewed import chosen_clew
from mastlayout.ui.clipping import clipped
from mastlayout.ui.lines import broken, width_px
from mastlayout.ui.look import IN_HAND, LABEL, MARGIN, UNIT, font
from mastlayout.ui.moving.guide import Guide
from mastlayout.ui.moving.pointer import Gesture
from mastlayout.ui.moving.way import Grip
from mastlayout.ui.nothing import missing_words
from mastlayout.ui.scalebar import BAR_PX, paint_bar
from mastlayout.ui.section.around import LEAST_STAY_PX, paint_bodies, paint_feet, paint_spreaders, paint_stays
from mastlayout.ui.section.at_height import HeightView
from mastlayout.ui.section.callouts import LINE_PX, CallOut, Row, stand
from mastlayout.ui.section.carry import Carry
from mastlayout.ui.section.clew import clew_words, paint_clew
from mastlayout.ui.section.cut import Crossing, Cut, Passing, cut_at
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.feet import FootAt, feet_at
from mastlayout.ui.section.hits import Hit, square
from mastlayout.ui.section.lettering import paint_callout, paint_sides
from mastlayout.ui.section.metal import paint_mast
from mastlayout.ui.section.plan import Plan, bodies, bounds_mm, fitted, from_above, outline_of
from mastlayout.ui.section.poles import paint_poles, pole_callouts, poles_asked, poles_at
from mastlayout.ui.section.sails import paint_cloth, paint_sails, paint_stand, stand_role
from mastlayout.ui.section.sailwords import elsewhere_words, sail_callouts, sail_description
from mastlayout.ui.section.within import LEAST_ROPE_PX, paint_drills, paint_inside, paint_worst
from mastlayout.ui.section.words import callouts, description, lost_words
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

_HEAD_PX, _MORE_PX, _LEAST_DRAWN_PX = 26.0, 16.0, 60.0
# How much of the width the drawing takes: the widest that leaves every call-out its row.
_PARTS = (1.0, 0.88, 0.78, 0.68, 0.58, 0.5, 0.42, 0.34, 0.28)
# How wide the lines of a call-out may be: beside the mast, which is narrower than what stands on it.
_LEAST_LINE_PX, _GOOD_LINE_PX, _MOST_LINE_PX, _LEADER_PX = 56.0, 80.0, 190.0, 16.0
_STAY_ROOM_PX = 3.0
# How far a snap's ray reaches, in distances of the skin from the axis.
_RAY = 1.6
Content = tuple[Cut, Units, str, Sailed | None, SweptClew | None]
SailsAsked = tuple[Report, float, str, frozenset[Key], Called | None]


class SectionCanvas(HeightView):
    """The section. ``rows`` are its call-outs; ``left_out`` of them had no room.

    ``arranged`` tells that it shows something else.
    """

    from_above = True
    arranged = Signal()

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.rows, self.left_out = list[Row](), 0
        self._drawing: Drawing | None = None  # until the view has its size
        self.carried = -1.0  # how far across the sail has been carried
        self._part, self._line, self._held = 0, 0, False
        self._notes: list[tuple[str, str]] = []
        self._described = False
        self._sails_of: SailsAsked | None = None
        self._sails: tuple[Sailed | None, SweptClew | None] = None, None
        self._poles = poles_asked(session)
        self.held = False  # a drag from elsewhere is over it: the plan stays under the pointer
        super().__init__(session, theme, _("Section from above"), parent)
        self.setMinimumSize(200, 160)
        session.undo.indexChanged.connect(self._let_go)
        session.turns.cloth.connect(self._follow_sails)
        session.turns.fields.connect(self._describe)
        for signal in (session.sails_changed, session.cloth_changed):
            signal.connect(self._fit_anew)
        session.shown.connect(self._fit_poles)

    def sizeHint(self) -> QSize:
        return QSize(312, 320)

    @property
    def cut(self) -> Cut:
        """What the height in hand holds."""
        return self._content()[0]

    @property
    def sailed(self) -> Sailed | None:
        """What a sail does there; None where none is drawn."""
        return self._content()[3]

    @property
    def drawing(self) -> Drawing:
        """What it shows."""
        if self._drawing is None:
            self._fit_anew()
        return cast("Drawing", self._drawing)

    @property
    def plan(self) -> Plan:
        """Where it lies."""
        return self.drawing.plan

    def _content(self) -> Content:
        content: Content = self.content or self.gather()  # type: ignore[assignment]  # the view's own
        return content

    def gather(self) -> Content:
        session = self.session
        report, z_mm = session.desk.report, session.z_mm
        cut = cut_at(report, z_mm, session.hand, session.chosen)
        if not session.sails_drawn or not cut.on_mast:
            return cut, session.units, missing_words(session), None, None
        if self._sails_of is None or not session.previewing:
            self._sails_anew()
        return cut, session.units, missing_words(session), *self._sails

    def _follow_sails(self) -> None:
        """Find how the sail passes now: while a gesture is under way it has a turn of its own."""
        if self._sails_anew():
            if self._sails[0] is not None:
                self._sails[0].work_out()  # its painting has a turn of its own, and other work
            self.ask_anew()
            self.session.turns.section_again()

    def _sails_anew(self) -> bool:
        """Find how the sail passes now; tell whether that was not known."""
        session = self.session
        asked = session.desk.report, session.z_mm, session.hand, session.chosen, session.cloth
        if not session.sails_drawn or asked == self._sails_of:
            return False
        self._sails_of, self._sails = asked, (sailed_at(*asked), chosen_clew(session))
        return True

    def carry_cloth(self, part: float) -> None:
        """Carry the sail from as far as it goes to port, -1, to starboard, 1."""
        self.carried = part
        self.update()

    def arrange(self) -> None:
        cut, units, missing, sailed, clew = self._content()
        scene, outlines, feet = self.session.desk.scene, bodies(cut), tuple(feet_at(cut))
        self._notes = self._broken(elsewhere_words(sailed, scene, units), stand_role(sailed))
        self._notes += self._broken(clew_words(clew), "second")
        self._notes += [*self._broken(missing, "second"), *self._broken(lost_words(cut), "unknown")]
        self._drawing, self.rows, self.left_out = self._placed(cut, outlines, feet, units)
        self._described = False
        if not self.session.previewing:
            self._describe()
        self.arranged.emit()

    def _describe(self) -> None:
        """Say it in the accessible description: while a gesture is under way in a turn of its own."""
        if self._described:
            return
        (cut, units, missing, sailed, clew), scene = self._content(), self.session.desk.scene
        self._described = True
        said = (
            description(cut, scene, units),
            sail_description(sailed, scene, units),
            clew_words(clew),
            missing,
        )
        self.setAccessibleDescription(" ".join(words for words in said if words))

    def _placed(
        self, cut: Cut, outlines: dict[str, Array], feet: tuple[FootAt, ...], units: Units
    ) -> tuple[Drawing, list[Row], int]:
        """Return the largest drawing that leaves every call-out its row in lines of a good length.

        Where there is none: the one that leaves out least, then the one with the longest lines.
        """
        area, bounds = self.area(), bounds_mm(cut, outlines)
        inner = area.adjusted(0, IN_HAND, 0, -IN_HAND)  # thick outlines stay whole
        best, found, poles = (-1, 0.0), None, tuple(poles_at(self.session))
        plans = list(self._plans(bounds, inner))
        if self.session.previewing and self._part < len(plans):
            # A drag keeps the drawing's size: it neither jumps nor is it fitted with every move.
            plans, self._held = [plans[self._part]], True
        for part, plan in enumerate(plans):
            made = Drawing(cut, plan, outlines, feet, self.sailed, area, self._content()[4])
            blocks = self._blocks(made, area)
            scene = self.session.desk.scene
            wanted = [*callouts(made, scene, units), *sail_callouts(made, scene, units)]
            wanted += [*self._stay_words(made, area), *pole_callouts(made, poles, self.session.hand)]
            lengths = list(dict.fromkeys(_line_px(area, wide) for wide in _widths(made, blocks)))
            for most in lengths if len(plans) > 1 else [lengths[min(self._line, len(lengths) - 1)]]:
                rows, left_out = stand(wanted, most, area, blocks, area.adjusted(0, 0, 0, -_MORE_PX))
                score = -left_out, min(most, _GOOD_LINE_PX)
                if found is None or score > best:
                    best, found = score, (made, rows, left_out)
                    if len(plans) > 1:
                        self._part, self._line = part, lengths.index(most)
                if score == (0, _GOOD_LINE_PX):
                    return found
        return found or (Drawing(cut, fitted(bounds, inner), outlines, feet, self.sailed, area), [], 0)

    def _let_go(self, _index: int) -> None:
        """Fit the drawing anew once a drag is a step."""
        if self._held:
            self._held = False
            self._fit_anew()

    def _fit_poles(self, _change: Change) -> None:
        """Draw anew where a pole, or how far poles are carried, was edited."""
        asked = poles_asked(self.session)
        if asked != self._poles:
            self._poles = asked
            self._fit_anew()

    def _plans(self, bounds: tuple[float, float, float], inner: QRectF) -> Iterator[Plan]:
        """Yield the plans to try, largest first; the one that shows while the pointer moves a thing on it."""
        if self.pointer.busy or self.held:
            yield self.plan
        else:
            yield from (fitted(bounds, inner, part) for part in _PARTS)

    def _broken(self, words: str, role: str) -> list[tuple[str, str]]:
        if not words:
            return []
        most = self.width() - 2.0 * MARGIN
        return [(line, role) for line in broken(words, most, 3, lambda part: width_px(part, LABEL))]

    def area(self) -> QRectF:
        """Return where drawing and call-outs stand: below the head, above the notes and the scale bar."""
        inner = QRectF(self.rect()).adjusted(MARGIN, _HEAD_PX, -MARGIN, -UNIT)
        below = BAR_PX + UNIT + LINE_PX * len(self._notes)
        return inner.adjusted(0, 0, 0, -min(below, max(inner.height() - _LEAST_DRAWN_PX, 0.0)))

    @staticmethod
    def _stay_words(made: Drawing, area: QRectF) -> Iterator[CallOut]:
        for stay in made.cut.stays:
            at = made.plan.at(stay.ahead_mm, stay.port_mm)
            if area.contains(at):
                yield CallOut(
                    stay.id, stay.name, at, 5, "accent" if stay.id == made.cut.in_hand else "second"
                )

    @staticmethod
    def _blocks(made: Drawing, area: QRectF) -> list[QRectF]:
        """Return the rectangles no call-out may stand in."""
        shapes = [part for outline in made.outlines.values() for part in outline]
        shapes += [foot.metal for foot in made.feet]
        shapes += [part for bar in made.cut.spreaders for part in from_above(bar.solids)]
        boxes = [made.plan.box(shape) for shape in (*shapes, outline_of(made.cut.ring))]
        for stay in made.cut.stays:
            at, reach = made.plan.at(stay.ahead_mm, stay.port_mm), stay.radius_mm * made.plan.scale
            if area.contains(at):
                reach = max(reach, LEAST_STAY_PX) + _STAY_ROOM_PX - UNIT
                boxes.append(QRectF(at.x() - reach, at.y() - reach, 2 * reach, 2 * reach))
        return [box.adjusted(-UNIT, -UNIT, UNIT, UNIT) for box in boxes]

    def hits(self) -> Iterator[Hit]:
        """Yield words, bodies, spreaders, stays and what runs inside."""
        made = self.drawing
        for row in self.rows:
            if row.callout.id:
                yield Hit(row.callout.id, QPolygonF(row.box))
        for name, outline in made.outlines.items():
            for part in outline:
                yield Hit(name, made.plan.seen(part))
        for foot in made.feet:
            yield Hit(foot.id, made.plan.seen(foot.metal))
        for bar in made.cut.spreaders:
            for part in from_above(bar.solids):
                yield Hit(bar.item.id, made.plan.seen(part))
        round_things: tuple[Crossing | Passing, ...] = (*made.cut.crossings, *made.cut.stays)
        for thing in round_things:
            at = made.plan.at(thing.ahead_mm, thing.port_mm)
            yield square(thing.id, at, max(thing.radius_mm * made.plan.scale, LEAST_ROPE_PX))
        for hole in made.cut.old_holes:
            yield square(hole.id, made.plan.at(hole.ahead_mm, hole.port_mm), LEAST_ROPE_PX)

    def gesture(self, grip: Grip, at: QPointF) -> Gesture:
        return Carry(self, grip, self.cut.ring, at)

    def guides(self) -> Iterator[Guide]:
        """Yield the ray through the girth that what is dragged snapped to."""
        for name, target in self.pointer.snaps.items():
            if name == "round":
                point, _normal = self.cut.ring.at(np.array([target.value]))
                x, y = (float(value) for value in point[0])
                out = self.plan.at(_RAY * x, _RAY * y)
                yield Guide(QLineF(out, self.plan.at(0.0, 0.0)), target.words)

    # -- painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        made, colours = self.drawing, self.theme.colours
        area = self.area()
        with clipped(painter, QRectF(0, area.top(), self.width(), area.height() + UNIT)):
            paint_sails(painter, made, colours)
            paint_clew(painter, made, colours)
            paint_spreaders(painter, made, colours)
            paint_mast(painter, made, colours)
            paint_inside(painter, made, colours)
            paint_feet(painter, made, colours)
            paint_bodies(painter, made, colours)
            paint_stays(painter, made, area, colours)
            paint_poles(painter, made, self.rows, self.session, colours)
            paint_drills(painter, made, colours)
            paint_cloth(painter, made, self.carried, colours)
        for row in self.rows:
            paint_callout(painter, row, colours)
        with clipped(painter, QRectF(0, area.top(), self.width(), area.height() + UNIT)):
            paint_worst(painter, made, colours)
            paint_stand(painter, made, colours)
        head = QRectF(self.rect()).adjusted(MARGIN, 0, -MARGIN, 0)
        head.setHeight(_HEAD_PX)
        paint_sides(painter, head, made.plan.axis_x, colours)
        self._paint_below(painter)
        self.paint_guides(painter)
        painter.end()

    def _paint_below(self, painter: QPainter) -> None:
        colours, area = self.theme.colours, self.area()
        line = QRectF(area.left(), area.bottom() + UNIT, area.width(), LINE_PX)
        painter.setFont(font(LABEL))
        if self.left_out:
            painter.setPen(colours["second"])
            more, words = line.translated(0, -_MORE_PX - UNIT), _("+{n} more").format(n=self.left_out)
            right = Qt.AlignmentFlag.AlignRight
            painter.fillRect(painter.boundingRect(more, right, words), colours["ground"])
            painter.drawText(more, right, words)
        for words, role in self._notes:
            painter.setPen(colours[role])
            painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, words)
            line.translate(0, LINE_PX)
        bar = QRectF(area.left(), self.height() - BAR_PX - UNIT, area.width(), BAR_PX)
        paint_bar(painter, bar, self.plan.scale, self._content()[1], colours)


def _widths(made: Drawing, blocks: Sequence[QRectF]) -> tuple[float, float]:
    """Return how wide the mast is, and how wide all that stands there."""
    outline = made.plan.box(outline_of(made.cut.ring))
    middle = outline.center().x()
    reach = max((max(middle - box.left(), box.right() - middle) for box in blocks), default=0.0)
    return outline.width(), 2 * reach


def _line_px(area: QRectF, wide: float) -> float:
    """Return how long lines may be beside something so wide in the middle."""
    room = (area.width() - wide) / 2 - UNIT - _LEADER_PX
    return min(max(room, _LEAST_LINE_PX), _MOST_LINE_PX)
