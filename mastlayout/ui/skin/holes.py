"""The holes on the unrolled skin, and their tags beside them: each where it hides neither hole nor foot."""

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from PySide6.QtCore import QPointF, QRectF

from mastlayout.documents.schedule.places import tag_of
from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.holes import Opening
from mastlayout.geometry.placed import Placed
from mastlayout.ui.skin.development import Development
from mastlayout.words import _

LEAST_HOLE_PX, _CROSS_PX, TAG_PX = 5.0, 5.0, 16.0


@dataclass(frozen=True)
class HoleMark:
    """One opening as it is drawn: its centre and radius in pixels; ``sized`` where its drill is known."""

    placed: Placed
    opening: Opening
    centre: QPointF
    radius: float
    sized: bool

    @property
    def words(self) -> str:
        """What stands beside it."""
        tag = f"{tag_of(self.placed)}.{self.opening.number}"
        return _("{tag} cable").format(tag=tag) if self.opening.use == "entry" else tag

    @property
    def reach(self) -> QRectF:
        """The square its cross hairs take."""
        side = self.radius + _CROSS_PX
        return QRectF(self.centre.x() - side, self.centre.y() - side, 2 * side, 2 * side)


def hole_marks(feet: Sequence[Placed], development: Development) -> Iterator[HoleMark]:
    """Yield the openings whose places are known and show; a drill that misses the mast has none."""
    for placed in feet:
        holes = placed.holes
        if holes is None:
            continue
        for opening, girth, z in zip(holes.openings, holes.girth_mm[0], holes.z_mm[0], strict=True):
            at = None if np.isnan(girth) else development.at(float(girth), float(z))
            if at is not None and development.area.contains(at):
                size = drill_mm(opening)
                radius = max((size or 0.0) * development.scale, LEAST_HOLE_PX) / 2
                yield HoleMark(placed, opening, at, radius, size is not None)


@dataclass(frozen=True)
class Tag:
    """Words beside a hole or a foot, in their rectangle; ``id`` is that of the thing they speak of."""

    words: str
    box: QRectF
    role: str
    id: str
    bold: bool = False


class Room:
    """The rectangles taken so far in an area; words go where they are free."""

    def __init__(self, area: QRectF, taken: Sequence[QRectF] = ()) -> None:
        self._area, self._taken = area, list(taken)

    def take(self, box: QRectF) -> None:
        """Keep a rectangle free of later words."""
        self._taken.append(box)

    def first_free(self, boxes: Sequence[QRectF], over: QRectF | None = None) -> QRectF | None:
        """Take the first rectangle that is free, if there is one; it may lie ``over`` one that is taken."""
        taken = [other for other in self._taken if other != over]
        for box in boxes:
            if self._area.contains(box) and not any(box.intersects(other) for other in taken):
                self._taken.append(box)
                return box
        return None


def hole_tag(
    mark: HoleMark, foot: QRectF, width_of: Callable[[str], float], room: Room, role: str
) -> Tag | None:
    """Return a hole's tag: outside its foot on its own side, else beside the hole; None without room."""
    wide, at, gap = width_of(mark.words), mark.centre, 6.0
    y = at.y() - TAG_PX / 2
    outside = [QRectF(foot.left() - gap - wide, y, wide, TAG_PX), QRectF(foot.right() + gap, y, wide, TAG_PX)]
    if at.x() > foot.center().x() + 0.5:
        outside.reverse()
    reach = mark.reach
    beside = [
        QRectF(reach.right() + 2, y, wide, TAG_PX),
        QRectF(reach.left() - 2 - wide, y, wide, TAG_PX),
        QRectF(at.x() - wide / 2, reach.top() - TAG_PX, wide, TAG_PX),
        QRectF(at.x() - wide / 2, reach.bottom(), wide, TAG_PX),
    ]
    if not foot.contains(at):
        outside = []
    box = room.first_free(outside + beside)
    return Tag(mark.words, box, role, mark.placed.id, bold=True) if box else None
