"""Straps from a template to the track: the proof that the girth, and so the template, is right."""

from collections.abc import Sequence
from math import ceil

from mastlayout.documents.faces import face_words, neighbours
from mastlayout.documents.lettering import wrapped
from mastlayout.documents.page import DASHED, MEDIUM, THICK, THIN, Anchor, Line, Marks, Rect, Text
from mastlayout.documents.rows import Template
from mastlayout.documents.template.labels import free_size
from mastlayout.documents.template.proof import CUT_DASH, join_mark
from mastlayout.documents.template.tiles import Tile, ends_at_raised_track, reach_mm
from mastlayout.frozen import dataclass
from mastlayout.words import _

STRAP_MM, _UNDER_MM = 42.0, 12.0
# The marks of a strap and of its sheet stand this far above and below the fitting's height.
MARKS_MM = 11.0
# The track's edge may come up this far to either side: rubbed paper and a girth by tape are no better.
WINDOW_MM = 2.4
LEAST_MM = 14.0
_JOINT_MM, _LONG_MM = 8.0, 46.0


@dataclass(frozen=True)
class Strap:
    """A piece of paper from ``near`` to ``far`` mm off the line, on one hand; ``ends`` at the proof."""

    hand: int
    near: float
    far: float
    ends: bool
    piece: int
    pieces: int


def straps(template: Template, sheets: Sequence[Tile], longest: float) -> list[Strap]:
    """Return the straps of a template, the left hand first; none where the sheet itself gets there."""
    found: list[Strap] = []
    for hand, near in (
        (-1, -min(tile.view.left for tile in sheets)),
        (1, max(tile.view.right for tile in sheets)),
    ):
        room = reach_mm(template) - near
        if room < LEAST_MM:
            continue
        count = ceil(room / (longest - _UNDER_MM - _JOINT_MM))
        for number in range(count):
            start, end = near + room * number / count, near + room * (number + 1) / count
            found.append(Strap(hand, start, end, number == count - 1, number + 1, count))
    return found


def shape_of(template: Template, hand: int) -> str:
    """Return the mark that joins the strap of a hand, starboard's or port's: they cannot be swapped."""
    return "triangle" if neighbours(template.middle)[0 if hand < 0 else 1] == "starboard" else "square"


def draw_strap(template: Template, strap: Strap, x: float, y: float) -> Marks:
    """Yield a strap, its nearer end on the right for the left hand; (x, y) is its top left corner."""
    frame = _Frame(strap, template, x)
    yield Rect(x, y, frame.width, STRAP_MM, THICK)
    join = frame.at(strap.near)
    yield Line(join, y, join, y + STRAP_MM, THIN, DASHED)
    yield from _join_marks(template, strap, join, y)
    under = join - strap.hand * (_UNDER_MM - 3.0)
    yield Text(under + 1.0, y + STRAP_MM / 2, _("under the sheet"), 7.4, anchor="middle", turn_deg=90)
    yield from _ruler(template, strap, frame, y + 21.0)
    yield from _words(template, strap, frame, y)
    if strap.ends:
        yield from _window(template, strap, frame, y)
    else:
        end = frame.at(strap.far)
        yield Line(end, y, end, y + STRAP_MM, THICK, CUT_DASH)
        yield from _join_marks(template, strap, end, y)


def _join_marks(template: Template, strap: Strap, x: float, y: float) -> Marks:
    for up in (MARKS_MM, -MARKS_MM):
        yield from join_mark(shape_of(template, strap.hand), x, y + STRAP_MM / 2 - up)


class _Frame:
    """Where a strap lies on the block."""

    def __init__(self, strap: Strap, template: Template, x: float) -> None:
        self._strap = strap
        beyond = 0.0 if ends_at_raised_track(template) else WINDOW_MM
        self.width = strap.far - strap.near + _UNDER_MM + (beyond if strap.ends else _JOINT_MM)
        self._near = x + (_UNDER_MM if strap.hand > 0 else self.width - _UNDER_MM)

    def at(self, away_mm: float) -> float:
        """Return the block's x of a distance off the line."""
        return self._near + self._strap.hand * (away_mm - self._strap.near)


def _ruler(template: Template, strap: Strap, frame: _Frame, y: float) -> Marks:
    """Yield round girths along a strap."""
    start, end = frame.at(strap.near), frame.at(strap.far)
    yield Line(min(start, end), y, max(start, end), y, MEDIUM)
    for count, (away, words) in enumerate(template.ruler):
        if strap.near <= away <= strap.far:
            x = frame.at(away)
            yield Line(x, y - 1.8, x, y, THIN)
            if count % 2 == 0 and strap.near + 7.0 < away < strap.far - 8.0:
                yield Text(x, y + 3.4, words, 7.4, anchor="middle")


def _words(template: Template, strap: Strap, frame: _Frame, y: float) -> Marks:
    side = _side(template, strap.hand)
    middle = (frame.at(strap.near) + frame.at(strap.far)) / 2
    size = free_size(side, (18.0, 13.0, 9.0), strap.far - strap.near - 14.0)
    # A strap too short for the word has its letter.
    yield Text(middle, y + 10.4, side if size else side[:1], size or 13.0, bold=True, anchor="middle")
    of = _("piece {n} of {count} · ").format(n=strap.piece, count=strap.pieces) if strap.pieces > 1 else ""
    what = _("strap {letter} · {of}masthead ▲").format(letter=side[:1], of=of)
    if strap.far - strap.near > _LONG_MM:
        yield Text(middle, y + 15.6, what, 7.6, anchor="middle")
    else:
        yield Text(middle, y + 15.6, "▲", 7.6, anchor="middle")


def _side(template: Template, hand: int) -> str:
    return face_words(neighbours(template.middle)[0 if hand < 0 else 1]).side


def _end_words(template: Template) -> str:
    """Return what must come up at the end of a strap."""
    if ends_at_raised_track(template):
        return _("The gap to the track must be 0 to 2 mm, or the girth is wrong: STOP.")
    what = _("Rub with a pencil: the edge of the groove")
    if template.middle == "aft":
        what = _("The forward centreline")
    elif template.edge_mm is None:
        what = _("The middle of the track")
    return _("{what} must come up between the two lines, or the girth is wrong: STOP.").format(what=what)


def _window(template: Template, strap: Strap, frame: _Frame, y: float) -> Marks:
    end, hand = reach_mm(template), strap.hand
    inside = end
    if not ends_at_raised_track(template):
        inside = end - WINDOW_MM
        # The other line is the strap's own end.
        yield Line(frame.at(inside), y, frame.at(inside), y + STRAP_MM, 0.9)
        yield Line(frame.at(end), y, frame.at(end), y + STRAP_MM, THIN, DASHED)
    within = strap.far - strap.near > _LONG_MM
    # Beside a short strap, on the side away from the track.
    x = frame.at(inside) - hand * 2.0 if within else frame.at(strap.near) - hand * (_UNDER_MM + 3.0)
    anchor: Anchor = "end" if hand > 0 else "start"
    room = min(strap.far - strap.near - 12.0, 80.0) if within else 80.0
    lines = wrapped(_end_words(template), 7.6, room, bold=True)
    for count, words in enumerate(lines):
        yield Text(
            x, y + STRAP_MM - 2.4 - 3.3 * (len(lines) - 1 - count), words, 7.6, bold=True, anchor=anchor
        )
