"""The tape on the unrolled skin: holes, feet, and every place of the skin."""

from collections.abc import Iterator, Sequence

import numpy as np
from PySide6.QtCore import QPointF, QRectF

from mastlayout.geometry.frames import Array
from mastlayout.geometry.spot import InSpace, OnSkin, OnThing, Spot, end_of, parts_of
from mastlayout.geometry.tape import Taped
from mastlayout.ui.measuring.view import Stretch, near
from mastlayout.ui.measuring.words import along_text, round_text
from mastlayout.ui.skin.canvas import SkinCanvas

_LEVEL_PX = 1.0


class OnSkinView:
    """The unrolled skin as the tape measure meets it."""

    def __init__(self, canvas: SkinCanvas) -> None:
        self.canvas = self.surface = canvas

    def spot_at(self, at: QPointF) -> Spot | None:
        made = self.canvas.development
        if not made.area.contains(at):
            return None
        hole = next((mark for mark in self.canvas.holes if near(mark.centre, at)), None)
        if hole is not None:
            return OnThing(hole.placed.id, "hole", hole.opening.number)
        for old in self.canvas.patch.old_holes:
            there = made.at(old.girth_mm, old.z_mm)
            if there is not None and near(there, at):
                return OnThing(old.id, "hole")
        foot = next((p for p in self.canvas.patch.feet if self.canvas.foot_box(p).contains(at)), None)
        return self._free(at) if foot is None else OnThing(foot.id, "seat")

    def _free(self, at: QPointF) -> Spot | None:
        made, skin = self.canvas.development, self.canvas.patch.skin
        z = made.centre_z_mm + (made.area.center().y() - at.y()) / made.scale
        piece = next((piece for piece in made.pieces if piece.clip.contains(at)), None)
        if piece is None or not 0.0 <= z <= skin.length_mm:
            return None
        offset = (at.x() - piece.zero_x) / made.scale
        girth = offset + (made.half_girth_mm if made.middle == "forward" else 0.0)
        return OnSkin(float(round(z)), round(float(skin.ring(z).wrapped(np.array(girth))) * 2) / 2)

    def spot_in_hand(self) -> Spot:
        canvas = self.canvas
        if canvas.patch.hand is not None:
            return parts_of(canvas.session.desk.scene, canvas.patch.hand.id)[0]
        made = canvas.development
        return OnSkin(canvas.session.z_mm, made.half_girth_mm if made.middle == "forward" else 0.0)

    def seen(self, spot: Spot, _point: Array) -> QPointF | None:
        if isinstance(spot, InSpace):
            return None
        end = end_of(self.canvas.session.desk.scene, spot)
        if end.girth_mm is None or end.point is None:
            return None
        return self.canvas.development.at(end.girth_mm, float(end.point[2]))

    def stretches(self, ends: Sequence[Spot], taped: Taped) -> Sequence[Stretch]:
        return list(self._stretches(ends, taped))

    def _stretches(self, ends: Sequence[Spot], taped: Taped) -> Iterator[Stretch]:
        """Yield the way round at the first end's height, then the way along to the second."""
        first, second = (self.seen(spot, point) for spot, point in zip(ends, taped.points, strict=True))
        if first is None or second is None or taped.around is None:
            return
        corner = QPointF(second.x(), first.y())
        session = self.canvas.session
        if abs(corner.x() - first.x()) > _LEVEL_PX:
            yield Stretch((first, corner), round_text(taped.around, session.units))
        if abs(corner.y() - second.y()) > _LEVEL_PX:
            yield Stretch((corner, second), along_text(session, taped))

    def area(self) -> QRectF:
        return self.canvas.development.area

    def taken(self) -> Sequence[QRectF]:
        return [tag.box for tag in self.canvas.tags] + [line.box for line in self.canvas.dimensions]
