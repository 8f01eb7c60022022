"""Where the words of the skin stand: tags of holes, names of feet, of what lies behind and of zones."""

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QPointF, QRectF

from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.ui.lines import broken, width_px
from mastlayout.ui.look import LABEL
from mastlayout.ui.section.words import zone_words
from mastlayout.ui.skin.development import Development
from mastlayout.ui.skin.holes import TAG_PX, HoleMark, Room, Tag, hole_tag
from mastlayout.ui.skin.patch import Band, OldHoleAt, Patch, SlotAt
from mastlayout.ui.skin.words import foot_words
from mastlayout.words import _

_NAME_STEP_PX, _PAD_PX, _LINES, _LEAST_LINE_PX = 14.0, 4.0, 3, 90.0


def foot_box(made: Development, placed: Placed) -> QRectF:
    """Return the rectangle round a foot, in pixels, cut out parts counted as if they showed."""
    if placed.outline is None:
        return QRectF()
    (left, low), (right, high) = placed.outline.min(axis=0), placed.outline.max(axis=0)
    around = float(placed.places.around[0])
    middle = made.pieces[len(made.pieces) // 2]
    zero = middle.zero_x + made.offset_mm(around) * made.scale
    return QRectF(
        zero + (float(left) - around) * made.scale,
        made.y_px(float(high)),
        float(right - left) * made.scale,
        float(high - low) * made.scale,
    )


def own_tags(made: Development, marks: Sequence[HoleMark], room: Room) -> list[Tag]:
    """Return the tags of holes: each has one place beside its foot, so they come before all other words."""
    return [tag for mark in marks if (tag := _of_hole(made, mark, room))]


def names(made: Development, patch: Patch, marks: Sequence[HoleMark], room: Room) -> Iterator[Tag]:
    """Yield the words of everything else, what matters most first."""
    every = (
        *(
            _of_foot(made, patch, foot, room)
            for foot in sorted(patch.feet, key=lambda one: one is not patch.hand)
        ),
        *(_of_band(made, band, room) for band in patch.bands),
        *(_of_old(made, hole, room) for hole in patch.old_holes),
        *(_of_slot(made, slot, room) for slot in patch.slots),
        *_of_zones(made, patch, room),
        *(_of_hole(made, mark, room) for mark in marks),
    )
    return (tag for tag in every if tag)


def _wide(words: str) -> float:
    return width_px(words, LABEL) + _PAD_PX


def _tag_wide(words: str) -> float:
    return width_px(words, LABEL, bold=True) + 2.0


def _of_hole(made: Development, mark: HoleMark, room: Room) -> Tag | None:
    role = "cable" if mark.opening.use == "entry" else "ink"
    return hole_tag(mark, foot_box(made, mark.placed), _tag_wide, room, role)


def _of_band(made: Development, band: Band, room: Room) -> Tag | None:
    """Return the words of what lies behind, at the foot of its band or at the top, in lines if need be."""
    said = _("{name} behind").format(name=band.name)
    area = made.area
    x = made.x_px(made.offset_mm((band.top[1] + band.top[2]) / 2))
    if x is None:
        return None
    for lines in dict.fromkeys(
        broken(said, width, _LINES, _wide) for width in (area.width(), _LEAST_LINE_PX)
    ):
        wide, tall = max(_wide(line) for line in lines), TAG_PX * len(lines)
        left = min(max(x - wide / 2, area.left() + 2), area.right() - wide - 2)
        rows = (area.bottom() - tall - 2, area.top() + 2, area.bottom() - 2 * tall - 4, area.top() + tall + 4)
        box = room.first_free([QRectF(left, y, wide, tall) for y in rows])
        if box is not None:
            return Tag("\n".join(lines), box, "second", band.id)
    return None


def _beside(at: QPointF, words: str, room: Room, away: float) -> tuple[str, QRectF] | None:
    """Return words and where they stand beside a place, in lines where there is no room for one."""
    for lines in dict.fromkeys(broken(words, width, _LINES, _wide) for width in (1e6, _LEAST_LINE_PX)):
        wide, tall = max(_wide(line) for line in lines), TAG_PX * len(lines)
        y = at.y() - tall / 2
        places = [(at.x() + away, y), (at.x() - away - wide, y)]
        places += [(at.x() - wide / 2, at.y() + away), (at.x() - wide / 2, at.y() - away - tall)]
        box = room.first_free([QRectF(x, top, wide, tall) for x, top in places])
        if box is not None:
            return "\n".join(lines), box
    return None


def _of_old(made: Development, hole: OldHoleAt, room: Room) -> Tag | None:
    at = made.at(hole.girth_mm, hole.z_mm)
    away = max((hole.diameter_mm or 0.0) / 2 * made.scale, 4.0) + 4.0
    found = _beside(at, hole.name, room, away) if at is not None else None
    return Tag(*found, "second", hole.id) if found else None


def _of_slot(made: Development, slot: SlotAt, room: Room) -> Tag | None:
    at = made.at(sum(slot.girths) / 2, (slot.low_mm + slot.high_mm) / 2)
    found = _beside(at, _("slot to cut") if slot.new else _("slot"), room, 8.0) if at is not None else None
    return Tag(*found, "second", slot.id) if found else None


def _of_zones(made: Development, patch: Patch, room: Room) -> Iterator[Tag | None]:
    """Yield the names of zones, at the left below their upper end."""
    length = patch.skin.length_mm
    for zone in patch.zones:
        y = max(made.y_px(height_mm(length, zone.from_masthead_mm)), made.area.top()) + 2
        words = zone_words(zone)
        clip = made.pieces[len(made.pieces) // 2].clip
        places = [QRectF(clip.left() + 2, y + n * _NAME_STEP_PX, _wide(words), TAG_PX) for n in range(6)]
        box = room.first_free(places)
        yield Tag(words, box, "second", "") if box else None


def _of_foot(made: Development, patch: Patch, foot: Placed, room: Room) -> Tag | None:
    """Return the words of a foot that is not in hand, or of one that is not confirmed."""
    shown = made.x_px(made.offset_mm(float(foot.places.around[0]))) is not None
    if not shown or (foot is patch.hand and foot.foot_known):
        return None
    clip = made.pieces[len(made.pieces) // 2].clip
    box, said = foot_box(made, foot), foot_words(foot)
    for lines in dict.fromkeys(
        broken(said, width, _LINES, _wide) for width in (clip.width() - 4, _LEAST_LINE_PX)
    ):
        wide, tall = max(_wide(line) for line in lines), TAG_PX * len(lines)
        x = min(max(box.center().x() - wide / 2, clip.left() + 2), max(clip.right() - wide - 2, clip.left()))
        own = foot is patch.hand
        free = room.first_free([QRectF(x, y, wide, tall) for y in _rows(made, box, tall, own=own)])
        if free is None and own:
            # A foot that fills the picture is nobody else's: its words may stand on it.
            inside = (box.bottom() - tall - 4, box.center().y() + 12, box.top() + 4)
            free = room.first_free([QRectF(x, y, wide, tall) for y in inside], over=box)
        if free is not None:
            return Tag("\n".join(lines), free, "second" if foot.foot_known else "unknown", foot.id)
    return None


def _rows(made: Development, box: QRectF, tall: float, *, own: bool) -> list[float]:
    """Return the rows a foot's words may stand in; words far from a foot would be taken for another's."""
    steps = 4 if own else 2
    rows = [box.bottom() + 2 + n * _NAME_STEP_PX for n in range(steps)]
    rows += [box.top() - tall - 2 - n * _NAME_STEP_PX for n in range(steps)]
    if own:
        rows += [made.area.bottom() - tall - 2, made.area.top() + 2]
    return rows
