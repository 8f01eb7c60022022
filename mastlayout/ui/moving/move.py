"""Moving one thing with the pointer: a preview with every move, one undo step at the end."""

from collections.abc import Mapping

from PySide6.QtCore import Qt

from mastlayout.errors import MastLayoutError
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.skin import Ring
from mastlayout.model.around import Around
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import Layout
from mastlayout.ui.moving.girth import around_of, whole, whole_around
from mastlayout.ui.moving.snap import Rungs, Target, girths, half_across_mm, nearest, quarters
from mastlayout.ui.moving.way import Grip, Way, WayName
from mastlayout.ui.session import Session
from mastlayout.words import _

SNAP_PX = 6.0


class Move:
    """Moves the thing of a grip to wherever a canvas says the pointer wants it.

    ``snaps`` holds what it snapped to, by way. ``steady`` lets it also snap to where it was, which a
    pointer that moves it both ways needs to keep one of them.
    """

    def __init__(self, session: Session, grip: Grip, *, steady: bool = False) -> None:
        self.grip, self.snaps = grip, dict[WayName, Target]()
        self._session, self._base, self._moved = session, session.layout, False
        self._said = ""
        own = session.desk.scene.placed.get(grip.id)
        kind = own.kind.id if own else ""
        self._rungs = Rungs(session.desk.scene, grip.on, kind, session.units, but=(grip.id, grip.mate))
        self._steady = steady
        self._round = self._round_targets()

    def _round_targets(self) -> list[Target]:
        scene, grip = self._session.desk.scene, self.grip
        if grip.on == MAST:
            across = half_across_mm(scene.placed.get(grip.id))
            return girths(scene, height_mm(scene.skin.length_mm, grip.along.now), across)
        return quarters(grip.on in scene.stays)

    def to(
        self,
        wanted: Mapping[WayName, float],
        held: Qt.KeyboardModifier,
        reach: Mapping[WayName, float],
        hint: str = "",
    ) -> None:
        """Move it to the wanted places, each snapping within its reach unless Control is held.

        ``hint`` is what the canvas has to say besides.
        """
        self.snaps = {}
        layout, said = self._base, []
        for name, value in wanted.items():
            way = self.grip.way(name)
            if way.take is None or way.why:
                said.append(way.why)
                continue
            at, sentence = way.held(value)
            free = bool(held & Qt.KeyboardModifier.ControlModifier)
            target = None if free or sentence else self._target(name, at, reach[name])
            said.append(sentence)
            if target is not None:
                self.snaps[name] = target
            try:
                layout = way.take(layout, self._place(way, at) if target is None else target.place)
            except MastLayoutError as error:
                said.append(str(error))
        self._preview(layout, said)
        self._say([*(_sentence(target.words) for target in self.snaps.values()), *said, hint])

    def _preview(self, layout: Layout, said: list[str]) -> None:
        if layout is self._base and not self._moved:
            return
        try:
            self._session.preview(layout)
            self._moved = True
        except MastLayoutError as error:
            said.append(str(error))

    def _target(self, name: WayName, at: float, reach: float) -> Target | None:
        way = self.grip.way(name)
        targets = [] if name == "off" else self._round if name == "round" else list(self._rungs.near(at))
        if self._steady:
            place = self._kept(way)
            targets = [*targets, Target(way.now, _("as it was"), place)]
        return nearest(targets, at, reach, self._turn(way))

    def _kept(self, way: Way) -> float | Around:
        return around_of(way.now, self._ring()) if way.unit == "girth" else way.now

    def _turn(self, way: Way) -> float:
        if way.unit == "girth":
            return 2 * self._ring().half_girth_mm
        return 360.0 if way.unit == "degrees" else 0.0

    def _ring(self) -> Ring:
        skin = self._session.desk.scene.skin
        return skin.ring(height_mm(skin.length_mm, self.grip.along.now))

    def _place(self, way: Way, at: float) -> float | Around:
        units = self._session.units
        if way.unit == "girth":
            return whole_around(around_of(at, self._ring()), units)
        return float(round(at)) if way.unit == "degrees" else min(max(whole(at, units), way.low), way.high)

    def _say(self, parts: list[str]) -> None:
        words = " ".join(dict.fromkeys(part for part in parts if part))
        words = words or _("With Control it snaps to nothing. Escape or a right click puts it back.")
        if words != self._said:
            self._said = words
            self._session.said.emit(words)

    def finish(self) -> None:
        """Make the move one undo step."""
        self.snaps = {}
        if self._moved:
            self._session.edit(self._session.layout, self.grip.step)
            self._session.said.emit("")

    def cancel(self) -> None:
        """Put the thing back."""
        self.snaps = {}
        self._session.cancel()
        self._session.said.emit("")


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."
