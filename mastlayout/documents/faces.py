"""Faces in words, and the lying mast as the eyes see it from the heel."""

from mastlayout.documents.lettering import fitted_lines, leading_mm
from mastlayout.documents.page import BOX, MEDIUM, Circle, Line, Marks, Point, Polyline, Rect, Text
from mastlayout.documents.rows import ConduitMark, EndView
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Face, bearing_direction, hand_of
from mastlayout.words import _

_BEARINGS: dict[Face, float] = {"forward": 0.0, "starboard": 90.0, "aft": 180.0, "port": 270.0}
_WIDEST_MM = 24.0
_LETTER_RADIUS_MM = 1.75
_CONDUIT_INK = 0.15


@dataclass(frozen=True)
class FaceWords:
    """How a sheet speaks of a face that lies up."""

    title: str
    caption: str
    down: str
    side: str
    short: str


def face_words(face: Face) -> FaceWords:
    """Return the words of a face."""
    return {
        "forward": FaceWords(
            _("Forward face up"), _("FORWARD FACE UP"), _("forward down"), _("FORWARD"), _("FWD")
        ),
        "aft": FaceWords(_("Track up"), _("TRACK UP"), _("track down"), _("TRACK"), _("TRACK")),
        "port": FaceWords(_("Port side up"), _("PORT SIDE UP"), _("port down"), _("PORT"), _("PORT")),
        "starboard": FaceWords(
            _("Starboard side up"), _("STARBOARD SIDE UP"), _("starboard down"), _("STARBOARD"), _("STBD")
        ),
    }[face]


def neighbours(face: Face) -> tuple[Face, Face]:
    """Return the faces on the left and on the right hand of a person standing at the heel."""
    hands = {hand_of(side, face, "heel"): side for side in _BEARINGS}
    return hands["left"], hands["right"]


def opposite(face: Face) -> Face:
    """Return the face that lies down."""
    turned = (_BEARINGS[face] + 180.0) % 360.0
    return next(side for side, bearing in _BEARINGS.items() if bearing == turned)


def seen_from_heel(point: Point, face: Face) -> Point:
    """Return a point of the section (x forward, y to port) as (to the right, up) seen from the heel."""
    up_x, up_y = bearing_direction(_BEARINGS[face])
    x, y = point
    return float(y * up_x - x * up_y), float(x * up_x + y * up_y)


def end_view(section: EndView, face: Face, x: float, y: float, height: float) -> Marks:
    """Yield the section on its support, its caption's baseline at ``y``, in ``height`` mm below it."""
    seen = [seen_from_heel(point, face) for point in section.outline]
    tall, half = max(up for _r, up in seen) - min(up for _r, up in seen), max(right for right, _u in seen)
    scale = min(height / tall, _WIDEST_MM / (2 * half))
    middle = y + 2.4 + height - scale * -min(up for _r, up in seen)
    words = face_words(face)
    yield Text(x, y, words.caption, 8.6, bold=True, anchor="middle")
    top = middle - scale * max(up for _r, up in seen)
    yield Polyline(((x - 1.0, top - 0.5), (x, top - 2.0), (x + 1.0, top - 0.5)), 0, closed=True, fill=1.0)
    yield Polyline(tuple((x + scale * r, middle - scale * u) for r, u in seen), 0.7, closed=True)
    for conduit in section.conduits or ():
        yield from _conduit(conduit, face, (x, middle), scale)
    yield from _hands(face, x, middle, max(scale * half, 5.0) + 2.0)
    yield from _support(section, face, x, y + 2.4 + height)


def _conduit(conduit: ConduitMark, face: Face, centre: Point, scale: float) -> Marks:
    if conduit.centre is None:
        return
    right, up = seen_from_heel(conduit.centre, face)
    x, y = centre[0] + scale * right, centre[1] - scale * up
    yield Circle(x, y, max(scale * conduit.radius_mm, _LETTER_RADIUS_MM), MEDIUM, _CONDUIT_INK)
    yield Text(x, y + 0.95, conduit.letter, 7.2, bold=True, anchor="middle")


def _hands(face: Face, x: float, y: float, reach: float) -> Marks:
    left, right = neighbours(face)
    yield Text(x - reach, y, face_words(left).side, 9, bold=True, anchor="end")
    yield Text(x + reach, y, face_words(right).side, 9, bold=True)
    yield Text(x - reach, y + 3.4, _("on your left"), 7.6, anchor="end")
    yield Text(x + reach, y + 3.4, _("on your right"), 7.6)


def _support(section: EndView, face: Face, x: float, y: float) -> Marks:
    yield Rect(x - 9.0, y + 0.3, 18.0, 1.6, MEDIUM, 0.25)
    yield Line(x - 6.0, y + 1.9, x - 7.2, y + 2.8, BOX)
    yield Line(x + 6.0, y + 1.9, x + 7.2, y + 2.8, BOX)
    size, lines = fitted_lines(_conduit_words(section), (7.6, 7.0), 27, 2)
    for count, line in enumerate(lines):
        yield Text(x - 10.2, y + 1.8 + count * leading_mm(size), line, size, anchor="end")
    yield Text(x + 10.2, y + 1.8, face_words(opposite(face)).down, 7.6)


def _conduit_words(section: EndView) -> str:
    if section.conduits is None:
        return _("conduits not looked for")
    if not section.conduits:
        return _("no conduit")
    known = ", ".join(item.letter for item in section.conduits if item.centre)
    lost = ", ".join(item.letter for item in section.conduits if not item.centre)
    if not lost:
        return _("conduit {known}").format(known=known)
    if known:
        return _("conduit {known}; {lost} not known").format(known=known, lost=lost)
    return _("conduits not known") if "," in lost else _("conduit not known")
