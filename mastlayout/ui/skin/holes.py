"""The holes on the unrolled skin, and their tags beside them: each where it hides neither hole nor foot."""

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from PySide6.QtCore import QPointF, QRectF

from mastlayout.checks.built import off_plan
from mastlayout.documents.schedule.made import SAME_MM
from mastlayout.documents.schedule.places import tag_of
from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.holes import Opening
from mastlayout.geometry.placed import Placed
from mastlayout.model.fitting import is_made
from mastlayout.ui.skin.development import Development
from mastlayout.words import _

LEAST_HOLE_PX, _CROSS_PX, TAG_PX = 5.0, 5.0, 16.0
# A hole so near the middle of its foot belongs to neither side.
_MIDDLE_PX = 0.5


@dataclass(frozen=True)
class HoleMark:
    """One opening as it is drawn: its centre and radius in pixels; ``sized`` where its drill is known.

    ``made``, it is in the mast; ``planned`` is the pixel of its plan, where it was drilled beside that.
    """

    placed: Placed
    opening: Opening
    centre: QPointF
    radius: float
    sized: bool
    made: bool = False
    planned: QPointF | None = None

    @property
    def tag(self) -> str:
        """Its tag alone."""
        return f"{tag_of(self.placed)}.{self.opening.number}"

    @property
    def words(self) -> str:
        """What stands beside it."""
        said = _("{tag} cable").format(tag=self.tag) if self.opening.use == "entry" else self.tag
        return _("{tag} drilled").format(tag=said) if self.made else said

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
        plans = _plans(placed, development)
        for opening, girth, z in zip(holes.openings, holes.girth_mm[0], holes.z_mm[0], strict=True):
            at = None if np.isnan(girth) else development.at(float(girth), float(z))
            if at is not None and development.area.contains(at):
                size = drill_mm(opening)
                radius = max((size or 0.0) * development.scale, LEAST_HOLE_PX) / 2
                made = is_made(placed.fitting, opening.number)
                yield HoleMark(placed, opening, at, radius, size is not None, made, plans.get(opening.number))


def _plans(placed: Placed, development: Development) -> dict[int, QPointF]:
    """Return where holes that were drilled beside their plan were planned, by their numbers."""
    holes = placed.holes
    if holes is None or not placed.fitting.holes_built:
        return {}
    found = {}
    for off in off_plan(placed):
        girth = float(holes.girth_mm[0, off.index]) - off.round_mm
        at = development.at(girth, float(holes.z_mm[0, off.index]) - off.along_mm)
        if at is not None and off.off_mm >= SAME_MM:
            found[off.built.number] = at
    return found


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
    """Return a hole's tag: outside its foot on its own side, else beside the hole; None without room.

    Never on the far side of its foot, where it would be taken for the other hole's; a hole in the
    middle has two sides. What is said besides the tag goes first.
    """
    for words in dict.fromkeys((mark.words, mark.tag)):
        box = room.first_free(_boxes(mark, foot, width_of(words)))
        if box is not None:
            return Tag(words, box, role, mark.placed.id, bold=True)
    return None


def _boxes(mark: HoleMark, foot: QRectF, wide: float) -> list[QRectF]:
    """Return where a tag so wide may stand, the best place first."""
    at, gap, reach = mark.centre, 6.0, mark.reach
    y = at.y() - TAG_PX / 2
    left = QRectF(foot.left() - gap - wide, y, wide, TAG_PX)
    right = QRectF(foot.right() + gap, y, wide, TAG_PX)
    off = at.x() - foot.center().x()
    outside = [left, right] if abs(off) <= _MIDDLE_PX else [right if off > 0 else left]
    beside = [
        QRectF(reach.right() + 2, y, wide, TAG_PX),
        QRectF(reach.left() - 2 - wide, y, wide, TAG_PX),
        QRectF(at.x() - wide / 2, reach.top() - TAG_PX, wide, TAG_PX),
        QRectF(at.x() - wide / 2, reach.bottom(), wide, TAG_PX),
    ]
    return [*(outside if foot.contains(at) else []), *beside]
