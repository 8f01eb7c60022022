"""The cells of a hole's row: two pairs of readings, drill, fastener, and why there may be no box."""

import re
from collections.abc import Sequence

from mastlayout.documents.faces import face_words
from mastlayout.documents.footpicture import WIDTH_MM as PICTURE_MM
from mastlayout.documents.lettering import fitting_pt, one_line, reading, width_mm, wrapped
from mastlayout.documents.page import DOTTED, MEDIUM, THIN, Anchor, Line, Marks, Polyline, Rect, Text
from mastlayout.documents.rows import DrillBlock, HoleRow, SheetHead
from mastlayout.documents.sheet import Letters, tick_box
from mastlayout.documents.walk import hold_of
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Face
from mastlayout.units import decimal_inches, write_drill
from mastlayout.words import _

# The columns' left edges, mm; their widths are those of the trade's paper: tape, line, tape, drill.
TAG, MASTHEAD, MAP, MARK = PICTURE_MM, 51.0, 78.0, 122.0
HEEL, EDGE, AGAIN, DRILL, DRILLED, DEBURR, FASTEN, FASTENED, END = (
    131.0, 152.0, 174.0, 183.0, 206.0, 215.0, 224.0, 250.0, 259.0
)  # fmt: skip
_NOUGHT = re.compile(r"(?<![\d.])0\.(?=\d{3})")
RULES = (MASTHEAD, HEEL, DRILL, DEBURR, FASTEN)


@dataclass(frozen=True)
class Setting:
    """What all blocks of a sheet share: checked or not, one sum or many, and the letters of its notes."""

    head: SheetHead
    letters: Letters
    one_sum: bool

    @property
    def checked(self) -> bool:
        """Tell whether the hole rules have run."""
        return self.head.holes_checked


def line_x(face: Face) -> float:
    """Return where the sheet's line runs in the map column: in the middle, or at the side it lies on."""
    return {"forward": 100.0, "aft": 100.0, "port": MAP + 6.0, "starboard": MARK - 6.0}[face]


def from_track_edge(block: DrillBlock) -> bool:
    """Tell whether one marks from the track's edge: it lies up, and its width is known."""
    return block.face == "aft" and block.half_track is not None


def held_because(row: HoleRow, block: DrillBlock, setting: Setting) -> str:
    """Return why a hole has no box to drill it, in two words; empty where it may be drilled."""
    hold = hold_of(row, block)
    if hold is None:
        return ""
    return _("note {letter}").format(letter=setting.letters[hold.note]) if hold.note else hold.words


def readings(row: HoleRow, block: DrillBlock, y: float, setting: Setting, *, may_mark: bool) -> Marks:
    """Yield both pairs of readings, each ending in its box."""
    height, around = row.height, row.round
    # Feet, inches and a fraction are longer than millimetres: still arm's length at 15 pt.
    size, right = (18, MAP - 4.0) if setting.head.units == "metric" else (15, MAP - 1.0)
    yield from reading(right, y + 7.1, height.text(height.masthead), size, bold=True, anchor="end")
    yield from _map_cell(row, block, y)
    yield from reading(HEEL + 1.6, y + 4.6, height.text(height.heel), 11.5)
    yield Line(HEEL + 1.6, y + 8.7, EDGE - 1.4, y + 8.7, THIN, DOTTED)
    second = around.forward if from_track_edge(block) else around.track_edge
    if block.half_track is not None:
        yield from reading(EDGE + 0.8, y + 4.6, around.text(second), 11.5)
        yield Line(EDGE + 0.8, y + 8.7, AGAIN - 1.0, y + 8.7, THIN, DOTTED)
    side = {"port": _("PORT"), "starboard": _("STBD"), None: _("both")}[around.side]
    yield Text(AGAIN - 0.8, y + 4.6, side, 7.2, bold=True, anchor="end")
    if not setting.one_sum and block.half_track is not None:
        words = _("of {total}").format(total=around.text(around.total))
        yield Text(AGAIN - 0.8, y + 7.6, words, 7.0, anchor="end")
    if may_mark:
        yield from tick_box(MARK + 0.8, y + 1.35, done="marked" in row.done)
        yield from tick_box(AGAIN + 0.8, y + 1.35, done="measured again" in row.done)


def _map_cell(row: HoleRow, block: DrillBlock, y: float) -> Marks:
    x = line_x(block.face)
    if row.round.side is None and block.face in ("forward", "aft"):
        yield Text(x, y + 6.7, _("ON LINE"), 12.5, bold=True, anchor="middle")
        return
    hand = _hand(row, block.face)
    number = row.round.text(row.round.track_edge if from_track_edge(block) else row.round.forward)
    word = face_words(row.round.side or "forward").side
    anchor: Anchor = "start" if hand > 0 else "end"
    yield Text(x + hand * 3.0, y + 2.9, word, 7.4, bold=True, anchor=anchor)
    yield from reading(x + hand * 3.0, y + 8.9, number, 18, bold=True, anchor=anchor)
    wedge = ((x + hand * 0.3, y + 4.6), (x + hand * 2.2, y + 5.8), (x + hand * 0.3, y + 7.0))
    yield Polyline(wedge, 0, closed=True, fill=1.0)


def _hand(row: HoleRow, face: Face) -> int:
    """Return 1 where the number stands right of the sheet's line, -1 left of it."""
    if face in ("port", "starboard"):
        return 1 if face == "port" else -1
    to_port = row.round.side == "port"
    return 1 if to_port == (face == "forward") else -1


def drill_cell(row: HoleRow, y: float, setting: Setting) -> Marks:
    """Yield the drill with its pilot and depth stop, or an empty box for the wall that it waits for."""
    middle = (DRILL + DRILLED) / 2
    if row.wall_missing:
        yield Text(middle, y + 3.2, _("wall here"), 7.2, bold=True, anchor="middle")
        yield Rect(DRILL + 1.4, y + 4.2, DRILLED - DRILL - 2.8, 5.0, MEDIUM)
    elif row.drill_mm is not None and "drilled" in row.done:
        yield Text(middle, y + 4.6, _("DRILLED"), 10.5, bold=True, anchor="middle")
        yield Text(middle, y + 8.6, write_drill(row.drill_mm, setting.head.units), 7.6, anchor="middle")
    elif row.drill_mm is not None:
        yield from _drill_words(row.drill_mm, middle, y, setting)
        yield from _how(row.how, middle, y, setting)
    else:
        yield Text(middle, y + 4.8, _("drill not"), 7.6, anchor="middle")
        yield Text(middle, y + 8.2, _("worked out"), 7.6, anchor="middle")


def _drill_words(drill_mm: float, middle: float, y: float, setting: Setting) -> Marks:
    words = f"{drill_mm:.1f}"
    if setting.head.units == "metric":
        yield Text(middle, y + 5.8, words, 15, bold=True, anchor="middle")
        return
    yield Text(DRILL + 0.9, y + 4.3, words, 12, bold=True)
    yield Text(DRILLED - 0.7, y + 4.3, decimal_inches(drill_mm), 7.2, bold=True, anchor="end")


def _how(how: str, middle: float, y: float, setting: Setting) -> Marks:
    """Yield pilot and depth stop: on one line, or each on its own where inches stand beside them."""
    room = DRILLED - DRILL - 1.0
    if setting.head.units == "metric":
        yield Text(middle, y + 9.2, one_line(how, 7.2, room), 7.2, anchor="middle")
        return
    # The column's head says “mm and inch”: there is no room to say it in every row.
    for count, words in enumerate(how.replace(" mm", "").split(" · ")):
        yield Text(middle, y + 6.9 + count * 2.7, one_line(words, 7.0, room), 7.0, anchor="middle")


def fastener_cell(row: HoleRow, y: float, *, has_box: bool) -> Marks:
    """Yield the fastener over its stack, and its box where the hole may be drilled."""
    room = (FASTENED if has_box else END) - FASTEN - 1.2
    first = fitting_pt(row.fastener, (9.5, 7.0), room)
    stack = _stack_lines(row.stack, room)
    if first == 9.5 and len(stack) == 1:
        yield Text(FASTEN + 1.0, y + 4.5, row.fastener, 9.5, bold=True)
        yield Text(FASTEN + 1.0, y + 8.4, row.stack, 7.1)
    else:
        yield from _crowded(wrapped(row.fastener, first, room, bold=True), first, stack, y, room)
    if has_box:
        yield from tick_box(FASTENED + 0.7, y + 1.35, done="fitted" in row.done)


def _stack_lines(stack: str, room: float) -> list[str]:
    """Return a stack on as many lines as it wants; a sum breaks before what it comes to."""
    parts, equals, total = stack.partition(" = ")
    if equals and width_mm(stack, 7.1) > room:
        if width_mm(parts, 7.0) > FASTENED - FASTEN - 1.2:
            # Four layers in inches: as on a calliper, without the noughts before their points.
            parts, total = (_NOUGHT.sub(".", words) for words in (parts, total))
        return [parts, f"= {total}"]
    return wrapped(stack, 7.1, room)


def _crowded(names: Sequence[str], size_pt: float, stack: Sequence[str], y: float, room: float) -> Marks:
    """Yield a fastener and its stack on three lines; the last is cut where there is more."""
    lines = [*((name, size_pt, True) for name in names), *((part, 7.0, False) for part in stack)]
    if len(lines) > 3:
        rest = " ".join(text for text, _size, _bold in lines[2:])
        lines = [*lines[:2], (one_line(rest, 7.0, room), 7.0, lines[2][2])]
    for count, (text, size, bold) in enumerate(lines):
        yield Text(FASTEN + 0.6, y + 3.5 + count * 3.0, text, size, bold=bold)
