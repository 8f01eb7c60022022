"""Dragging a kind out of the catalogue: a preview with every move, one undo step where it is dropped."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtWidgets import QLabel, QTabBar, QWidget

from mastlayout.errors import MastLayoutError
from mastlayout.geometry.scene import Scene
from mastlayout.model.around import Around
from mastlayout.model.hosting import Offer, Place, offers, placed_new, suits, taken
from mastlayout.model.kind import Kind
from mastlayout.ui.catalogue.targets import Spot, Target
from mastlayout.ui.hosts import offer_words, place_on, seats_words
from mastlayout.ui.look import GAP, LABEL, UNIT, font
from mastlayout.ui.moving.girth import whole
from mastlayout.ui.moving.snap import Rungs, girths, nearest
from mastlayout.ui.moving.snap import Target as Rung
from mastlayout.ui.moving.way import WayName
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import figure
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

_OFF_PX = 18


class DragKind:
    """One drag of a kind over the targets; ``finish`` drops it, ``cancel`` puts everything back."""

    def __init__(self, session: Session, theme: Theme, kind: Kind, targets: Sequence[Target], over: QWidget):
        self._session, self.kind, self._targets, self._over = session, kind, targets, over
        self._before, self._hand, self._z_mm = session.layout, session.hand, session.z_mm
        self._name = ""
        self._scene = session.desk.scene  # what stands there without the kind that is dragged
        self._rungs: dict[str, Rungs] = {}
        self._at: QPoint | None = None
        self.chip = _chip(theme, over)
        self._hold(held=True)

    def move(self, at: QPoint, held: Qt.KeyboardModifier) -> None:
        """Follow the pointer, a place on the screen; Control suspends every snap."""
        self._at = at
        self._turn_to_tab(at)
        snaps = not held & Qt.KeyboardModifier.ControlModifier
        found = next(((one, spot) for one in self._targets if (spot := _spot(one, at))), None)
        words = self._show(*found, snaps=snaps) if found else self._hide()
        self._show_chip(at, words)

    def hold(self, held: Qt.KeyboardModifier) -> None:
        """Follow what is held while the pointer rests."""
        if self._at is not None:
            self.move(self._at, held)

    def _end(self) -> None:
        self._lead(None)
        self.chip.deleteLater()
        self._hold(held=False)

    def _hold(self, *, held: bool) -> None:
        for target in self._targets:
            if target.still is not None:
                target.still.held = held

    def finish(self) -> str:
        """Leave it where it is; return its id, "" where it was over no view."""
        self._end()
        name, self._name = self._name, ""
        if name:
            self._session.edit(self._session.layout, _("Place {name}").format(name=self.kind.name))
            self._session.pick(name)
        return name

    def cancel(self) -> None:
        """Put back what was there."""
        self._hide()
        self._end()

    def _show(self, target: Target, spot: Spot, *, snaps: bool) -> str:
        """Show the kind at a spot; return what the chip says."""
        session = self._session
        place = self._place(spot)
        rung = self._rung(place, spot.reach_mm) if place is not None and snaps else None
        if place is not None:
            place = _along(place, rung, self._scene.skin.length_mm, session.units)
        line = self._line(place, spot) if place is not None and snaps else None
        if place is not None and line is not None and isinstance(line.place, Around):
            place = replace(place, girth=line.place)
        self._lead(target, rung, line)
        if place is None:
            self._hide()
            return _("It sits on {hosts}: none here is free").format(hosts=seats_words(self.kind))
        try:
            layout, name = placed_new(self._before, self.kind, place)
            session.preview(layout)
        except MastLayoutError as error:
            self._hide()
            return str(error)
        self._name = name
        if target.takes_hand:
            session.pick(name)
        elif session.hand == name:
            session.pick(self._hand)
        z = session.desk.scene.placed[name].z_mm if name in session.desk.scene.placed else spot.z_mm
        said = _("{reading} from the masthead, {where}").format(
            reading=figure(session, z), where=place.girth or offer_words(layout, _offer(place))
        )
        snapped = [f"{one.words[:1].upper()}{one.words[1:]}" for one in (rung, line) if one is not None]
        return "\n".join((said, *snapped))

    def _rung(self, place: Place, reach_mm: float) -> Rung | None:
        """Return the neighbour's height, or the equal spacing, that draws a place in."""
        wanted = _wanted(place)
        if wanted is None or not reach_mm:
            return None
        if place.on not in self._rungs:
            self._rungs[place.on] = Rungs(self._scene, place.on, self.kind.id, self._session.units)
        return nearest(self._rungs[place.on].near(wanted), wanted, reach_mm)

    def _line(self, place: Place, spot: Spot) -> Rung | None:
        """Return the centreline, widest place or track's edge that draws a place in round the mast."""
        if place.girth is None or not spot.round_mm:
            return None
        skin, foot = self._scene.skin, self.kind.foot
        wanted, turn = skin.girth_of(place.girth, spot.z_mm), 2 * skin.ring(spot.z_mm).half_girth_mm
        lines = girths(self._scene, spot.z_mm, foot.across_mm / 2 if foot else None)
        return nearest(lines, wanted, spot.round_mm, turn)

    def _lead(self, target: Target | None, rung: Rung | None = None, line: Rung | None = None) -> None:
        ways: tuple[tuple[WayName, Rung | None], ...] = (("along", rung), ("round", line))
        snaps = {name: snap for name, snap in ways if snap is not None}
        for one in self._targets:
            if one.pointer is not None:
                one.pointer.lead(snaps if one is target else {})

    def _place(self, spot: Spot) -> Place | None:
        """Return a place on the mast, or on the free host nearest in height that the kind is made for."""
        scene = self._session.desk.scene
        may = [one for one in offers(self._before) if suits(self.kind, one) and not taken(self._before, one)]
        if not may:
            return None
        host = min(may, key=lambda one: abs(_height(scene, one, spot.z_mm) - spot.z_mm))
        return place_on(scene, host, spot.z_mm, self.kind, spot.girth)

    def _hide(self) -> str:
        self._lead(None)
        if self._name:
            self._name = ""
            self._session.cancel()
            self._session.pick(self._hand)
            self._session.go_to(self._z_mm)
        return _("Drop it on the elevation, the section or the skin. Escape puts it back.")

    def _turn_to_tab(self, at: QPoint) -> None:
        """Bring a view to the front when the pointer comes over its tab."""
        for bar in self._over.findChildren(QTabBar):
            tab = bar.tabAt(bar.mapFromGlobal(at)) if bar.isVisible() else -1
            if tab >= 0:
                bar.setCurrentIndex(tab)

    def _show_chip(self, at: QPoint, words: str) -> None:
        self.chip.setText(f"{self.kind.name}\n{words}")
        self.chip.adjustSize()
        here = self._over.mapFromGlobal(at) + QPoint(_OFF_PX, _OFF_PX)
        room = self._over.rect().bottomRight() - self.chip.rect().bottomRight()
        self.chip.move(min(here.x(), room.x()), min(here.y(), room.y()))
        self.chip.show()
        self.chip.raise_()


def _spot(target: Target, at: QPoint) -> Spot | None:
    here = target.view.mapFromGlobal(at)
    if not target.view.isVisible() or not target.view.visibleRegion().contains(here):
        return None
    return target.spot(QPointF(here))


def _wanted(place: Place) -> float | None:
    """Return how far along its host a place is where that is what is dragged."""
    return place.along_mm if place.from_masthead_mm is None else place.from_masthead_mm


def _along(place: Place, rung: Rung | None, length_mm: float, units: Units) -> Place:
    """Return a place where it snapped to; a height that snapped to nothing is a whole reading of the tape."""
    high = place.from_masthead_mm
    if high is None:
        return place if rung is None else replace(place, along_mm=rung.value)
    wanted = min(whole(high, units), length_mm) if rung is None else rung.value
    return replace(place, from_masthead_mm=round(wanted, 2))


def _height(scene: Scene, offer: Offer, z_mm: float) -> float:
    """Return how high a host is, z in mm: the mast and a stay are where they are wanted."""
    if offer.seat == "spreader":
        return float(scene.spreaders[offer.on].root[2])
    host = scene.placed.get(offer.on)
    return z_mm if host is None else host.z_mm


def _offer(place: Place) -> Offer:
    return Offer(place.on, "mount out", place.mount)


def _chip(theme: Theme, over: QWidget) -> QLabel:
    colours = theme.colours
    chip = QLabel(over)
    chip.setFont(font(LABEL))
    chip.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    chip.setStyleSheet(
        f"QLabel {{ background: #{colours.field}; color: #{colours.ink}; border: 1px solid #{colours.accent};"
        f" padding: {UNIT}px {GAP}px; }}"
    )
    return chip
