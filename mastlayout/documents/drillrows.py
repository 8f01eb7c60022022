"""The blocks of the drilling schedule: a fitting's heading, its hole rows and its picture."""

from collections.abc import Sequence
from dataclasses import dataclass

from mastlayout.documents.faces import face_words
from mastlayout.documents.footpicture import WIDTH_MM as PICTURE_MM
from mastlayout.documents.footpicture import foot_picture
from mastlayout.documents.lettering import grouped, one_line, reading, width_mm
from mastlayout.documents.page import BOX, DASHED, DOTTED, MEDIUM, THIN, Line, Marks, Polyline, Rect, Text
from mastlayout.documents.rows import DrillBlock, HoleRow, Note, SheetHead
from mastlayout.documents.sheet import Letters, named_box, sign, tag_badge, tick_box
from mastlayout.geometry.frames import Face
from mastlayout.units import MM_PER_INCH
from mastlayout.words import _

HEADING_MM = 7.2
ROW_MM = 10.2
_CENTRE_MM = 34.0
_LEAST_MM = 2 * ROW_MM
# The columns' left edges, mm; their widths are those of the trade's paper: tape, line, tape, drill.
TAG, MASTHEAD, MAP, MARK = PICTURE_MM, 51.0, 78.0, 122.0
HEEL, EDGE, AGAIN, DRILL, DRILLED, DEBURR, FASTEN, FASTENED, END = (
    131.0, 152.0, 174.0, 183.0, 206.0, 215.0, 224.0, 250.0, 259.0
)  # fmt: skip
RULES = (MASTHEAD, HEEL, DRILL, DEBURR, FASTEN)
_NAME_X, _HEADING_END, _NAME_MM = 16.0, 205.0, 92.0
_BADGE_STEP = 5.2


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


def rows_height_mm(block: DrillBlock) -> float:
    """Return how high the rows of a block are, its heading left out."""
    if not block.rows:
        return _CENTRE_MM
    return max(len(block.rows) * ROW_MM, _LEAST_MM)


def heading(block: DrillBlock) -> tuple[str, str, tuple[Note, ...]]:
    """Return a heading's name, its facts, and notes for what did not fit into it."""
    name = _("{name} (continued)").format(name=block.name) if block.continued else block.name
    shown = one_line(name, 12.5, _NAME_MM, bold=True)
    notes = (Note(block.tag, name),) if shown.endswith("…") and shown != name else ()
    badges = _BADGE_STEP * len({*block.notes, *notes, *([block.fault] if block.fault else [])})
    room = _HEADING_END - _NAME_X - width_mm(shown, 12.5, bold=True) - badges - 3.0
    facts = list(block.facts)
    while facts and width_mm(grouped(" · ".join(facts)), 8.4) > room - (
        _BADGE_STEP if _cut(facts, block) else 0
    ):
        facts.pop()
    rest = block.facts[len(facts) :]
    if rest:
        notes = (*notes, Note(block.tag, grouped(" · ".join(rest))))
    return shown, grouped(" · ".join(facts)), notes


def _cut(facts: Sequence[str], block: DrillBlock) -> bool:
    return len(facts) < len(block.facts)


def block_notes(block: DrillBlock) -> list[Note]:
    """Return the notes a block brings to its sheet, in the order in which they are met."""
    stops = [row.stop for row in block.rows if row.stop]
    return [*([block.fault] if block.fault else []), *stops, *block.notes, *heading(block)[2]]


def draw_block(block: DrillBlock, y: float, setting: Setting) -> Marks:
    """Yield a fitting's heading, rows and picture from ``y`` down."""
    yield from _heading(block, y, setting)
    top, height = y + HEADING_MM, rows_height_mm(block)
    yield from foot_picture(block, top, height)
    for x in RULES:
        if block.rows or x != FASTEN:
            yield Line(x, top, x, top + height, BOX)
    if block.rows:
        for count, row in enumerate(block.rows):
            yield from _hole_row(row, block, top + count * ROW_MM, setting)
        yield from _separators(block.rows, top)
    else:
        yield from _centre_row(block, top, setting)
    yield from _map_line(block, top, height)
    yield Line(0, top + height, END, top + height, 0.7)


def _heading(block: DrillBlock, y: float, setting: Setting) -> Marks:
    name, facts, more = heading(block)
    yield Rect(0, y + 0.35, END, HEADING_MM - 0.35, 0, 0.1)
    yield from tag_badge(0, y, 13.0, HEADING_MM, block.tag, 15)
    yield Text(_NAME_X, y + 5.1, name, 12.5, bold=True)
    x = _NAME_X + width_mm(name, 12.5, bold=True) + 1.6
    fault = [block.fault] if block.fault else []
    for note in dict.fromkeys([*fault, *block.notes, *more]):
        yield from setting.letters.badge(x, y + 4.9, note)
        x += _BADGE_STEP
    yield Text(x + 1.2, y + 4.9, facts, 8.4)


def _separators(rows: Sequence[HoleRow], top: float) -> Marks:
    for count in range(1, len(rows)):
        same = rows[count].height.masthead == rows[count - 1].height.masthead
        y = top + count * ROW_MM
        yield Line(TAG, y, END, y, THIN if same else 0.4, DASHED if same else ())
    if len(rows) * ROW_MM < _LEAST_MM:
        yield Line(TAG, top + len(rows) * ROW_MM, END, top + len(rows) * ROW_MM, 0.4)


def _hole_row(row: HoleRow, block: DrillBlock, y: float, setting: Setting) -> Marks:
    yield Text(MASTHEAD - 2.2, y + 6.3, one_line(row.tag, 13.5, 14, bold=True), 13.5, bold=True, anchor="end")
    yield from _readings(row, block, y, setting, may_mark=block.fault is None)
    yield from _drill_cell(row, y, setting)
    yield from _fastener_cell(row, y, has_box=setting.checked and not row.stop and not block.fault)
    if not setting.checked:
        return
    held = block.fault or row.stop
    if held:
        under = _("note {letter}").format(letter=setting.letters[held])
        yield from sign(DRILLED + 0.8, y + 1.1, FASTEN - DRILLED - 1.4, 8.0, _("STOP"), under, 14)
    else:
        yield from tick_box(DRILLED + 0.8, y + 1.35)
        yield from tick_box(DEBURR + 0.8, y + 1.35)


def _readings(row: HoleRow, block: DrillBlock, y: float, setting: Setting, *, may_mark: bool) -> Marks:
    """Yield both pairs of readings, each ending in its box."""
    height, around = row.height, row.round
    yield from reading(MAP - 4.0, y + 7.1, height.text(height.masthead), 18, bold=True, anchor="end")
    yield from _map_cell(row, block, y)
    yield from reading(HEEL + 1.6, y + 4.6, height.text(height.heel), 11.5)
    yield Line(HEEL + 1.6, y + 8.7, EDGE - 1.4, y + 8.7, THIN, DOTTED)
    second = around.forward if block.face == "aft" else around.track_edge
    if block.half_track is not None:
        yield from reading(EDGE + 0.8, y + 4.6, around.text(second), 11.5)
        yield Line(EDGE + 0.8, y + 8.7, AGAIN - 1.0, y + 8.7, THIN, DOTTED)
    side = {"port": _("PORT"), "starboard": _("STBD"), None: _("both")}[around.side]
    yield Text(AGAIN - 0.8, y + 4.6, side, 7.2, bold=True, anchor="end")
    if not setting.one_sum and block.half_track is not None:
        words = _("of {total}").format(total=around.text(around.total))
        yield Text(AGAIN - 0.8, y + 7.6, words, 7.0, anchor="end")
    if may_mark:
        yield from tick_box(MARK + 0.8, y + 1.35)
        yield from tick_box(AGAIN + 0.8, y + 1.35)


def _map_cell(row: HoleRow, block: DrillBlock, y: float) -> Marks:
    x = line_x(block.face)
    if row.round.side is None and block.face in ("forward", "aft"):
        yield Text(x, y + 6.7, _("ON LINE"), 12.5, bold=True, anchor="middle")
        return
    hand = _hand(row, block.face)
    aft = block.face == "aft"
    number = row.round.text(row.round.track_edge if aft else row.round.forward)
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


def _map_line(block: DrillBlock, top: float, height: float) -> Marks:
    """Yield the sheet's line through the map column, open where ON LINE stands."""
    x, y = line_x(block.face), top
    middle = block.face in ("forward", "aft")
    rows = block.rows or (block.centre,)
    step = ROW_MM if block.rows else height
    for row in rows:
        if middle and row.round.side is None:
            gap_top, gap_bottom = y + step / 2 - 2.9, y + step / 2 + 2.9
            yield Line(x, y, x, gap_top, BOX)
            yield Line(x, gap_bottom, x, y + step, BOX)
        else:
            yield Line(x, y, x, y + step, BOX)
        y += step
    if y < top + height - 0.1:
        yield Line(x, y, x, top + height, BOX)


def _drill_cell(row: HoleRow, y: float, setting: Setting) -> Marks:
    middle = (DRILL + DRILLED) / 2
    if row.wall_missing:
        yield Text(middle, y + 3.2, _("wall here"), 7.2, bold=True, anchor="middle")
        yield Rect(DRILL + 1.4, y + 4.2, DRILLED - DRILL - 2.8, 5.0, MEDIUM)
    elif row.drill_mm is not None:
        yield from _drill_words(row.drill_mm, middle, y, setting)
        yield Text(middle, y + 9.2, one_line(row.how, 7.2, DRILLED - DRILL - 1.0), 7.2, anchor="middle")
    else:
        yield Text(middle, y + 4.8, _("drill not"), 7.6, anchor="middle")
        yield Text(middle, y + 8.2, _("worked out"), 7.6, anchor="middle")


def _drill_words(drill_mm: float, middle: float, y: float, setting: Setting) -> Marks:
    words = f"{drill_mm:.1f}"
    if setting.head.units == "metric":
        yield Text(middle, y + 5.8, words, 15, bold=True, anchor="middle")
        return
    inches = _("{size} in").format(size=f"{drill_mm / MM_PER_INCH:.3f}")
    yield Text(DRILL + 0.9, y + 5.8, words, 13, bold=True)
    yield Text(DRILLED - 0.7, y + 5.8, inches, 7.4, bold=True, anchor="end")


def _fastener_cell(row: HoleRow, y: float, *, has_box: bool) -> Marks:
    room = (FASTENED if has_box else END) - FASTEN - 1.2
    yield Text(FASTEN + 1.0, y + 4.5, one_line(row.fastener, 9.5, room, bold=True), 9.5, bold=True)
    yield Text(FASTEN + 1.0, y + 8.4, one_line(row.stack, 7.1, room), 7.1)
    if has_box:
        yield from tick_box(FASTENED + 0.7, y + 1.35)


def _centre_row(block: DrillBlock, y: float, setting: Setting) -> Marks:
    """Yield the one row of a typical foot, and the boxes for what the part in hand will say."""
    middle = y + _CENTRE_MM / 2
    yield Text(
        MASTHEAD - 7.5,
        middle - 0.6,
        one_line(block.tag, 13.5, 14, bold=True),
        13.5,
        bold=True,
        anchor="middle",
    )
    yield Text(MASTHEAD - 7.5, middle + 3.2, _("centre"), 8.2, anchor="middle")
    yield from _readings(block.centre, block, middle - ROW_MM / 2, setting, may_mark=block.fault is None)
    for count, name in enumerate((_("foot across"), _("foot along"), _("wall here"), _("holes"))):
        yield from named_box(DRILL + 1.2, y + 1.2 + 7.9 * count, DRILLED - DRILL - 2.4, 7.9, name)
    left = DRILLED + 1.2 if setting.checked else FASTEN + 1.2
    if block.fault:
        words, under = (
            _("OPEN FAULT"),
            _("note {letter}: no mark").format(letter=setting.letters[block.fault]),
        )
    else:
        words, under = _("OFFER UP"), _("the part in hand")
    yield from sign(left, y + 4.0, END - left, 13.0, words, under, 14)
    lines = (_("centre only: hole rows"), _("when the foot is in hand"))
    for count, line in enumerate(lines):
        yield Text(left, y + 22.0 + 3.5 * count, one_line(line, 7.6, END - left), 7.6)
