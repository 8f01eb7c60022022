"""The blocks of the drilling schedule: a fitting's heading, its hole rows and its picture."""

from collections.abc import Sequence

from mastlayout.documents.drillcells import (
    DEBURR,
    DRILL,
    DRILLED,
    END,
    FASTEN,
    MASTHEAD,
    RULES,
    TAG,
    Setting,
    drill_cell,
    fastener_cell,
    held_because,
    line_x,
    readings,
)
from mastlayout.documents.footpicture import foot_picture
from mastlayout.documents.lettering import fitting_pt, grouped, one_line, width_mm
from mastlayout.documents.page import BOX, DASHED, THIN, Line, Marks, Rect, Text
from mastlayout.documents.rows import DrillBlock, HoleRow, Note
from mastlayout.documents.sheet import named_box, sign, tag_badge, tick_box
from mastlayout.words import _

HEADING_MM = 7.2
ROW_MM = 10.2
_CENTRE_MM = 34.0
_LEAST_MM = 2 * ROW_MM
_NAME_X, _HEADING_END, _NAME_MM = 16.0, 205.0, 92.0
_BADGE_STEP = 5.2


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
    own = {*block.notes, *notes, *([block.fault] if block.fault else [])}
    room = (
        _HEADING_END - _NAME_X - width_mm(shown, 12.5, bold=True) - _BADGE_STEP * min(len(own) + 1, 3) - 3.0
    )
    facts = list(block.facts)
    while facts and width_mm(grouped(" · ".join(facts)), 8.4) > room:
        facts.pop()
    rest = block.facts[len(facts) :]
    if rest:
        notes = (*notes, Note(block.tag, grouped(" · ".join(rest))))
    return shown, grouped(" · ".join(facts)), notes


def block_notes(block: DrillBlock) -> list[Note]:
    """Return the notes a block brings to its sheet, in the order in which they are met."""
    stops = [row.stop for row in block.rows if row.stop]
    return [*([block.fault] if block.fault else []), *stops, *block.notes, *heading(block)[2]]


def draw_block(block: DrillBlock, y: float, setting: Setting) -> Marks:
    """Yield a fitting's heading, rows and picture from ``y`` down."""
    yield from _heading(block, y, setting)
    top, height = y + HEADING_MM, rows_height_mm(block)
    yield from foot_picture(block, top, height)
    for x in RULES if block.rows else RULES[:3]:
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
    notes = list(dict.fromkeys([*fault, *block.notes, *more]))
    many = len(notes) > 3
    for note in (notes[0], notes[-1]) if many else notes:
        yield from setting.letters.badge(x, y + 4.9, note)
        x += _BADGE_STEP
        if many and note is notes[0]:
            yield Text(x - 0.3, y + 4.9, _("to"), 8.4)
            x += _BADGE_STEP - 1.6
    yield Text(x + 1.2, y + 4.9, facts, 8.4)


def _separators(rows: Sequence[HoleRow], top: float) -> Marks:
    for count in range(1, len(rows)):
        same = rows[count].height.masthead == rows[count - 1].height.masthead
        y = top + count * ROW_MM
        yield Line(TAG, y, END, y, THIN if same else 0.4, DASHED if same else ())
    if len(rows) * ROW_MM < _LEAST_MM:
        yield Line(TAG, top + len(rows) * ROW_MM, END, top + len(rows) * ROW_MM, 0.4)


def _hole_row(row: HoleRow, block: DrillBlock, y: float, setting: Setting) -> Marks:
    size = fitting_pt(row.tag, (13.5, 11.0, 8.5), MASTHEAD - TAG - 2.0)
    yield Text(MASTHEAD - 1.8, y + 6.3, row.tag, size, bold=True, anchor="end")
    yield from readings(row, block, y, setting, may_mark=block.fault is None)
    yield from drill_cell(row, y, setting)
    held = held_because(row, block, setting)
    yield from fastener_cell(row, y, has_box=setting.checked and not held)
    if not setting.checked:
        return
    if held:
        yield from sign(DRILLED + 0.8, y + 1.1, FASTEN - DRILLED - 1.4, 8.0, _("STOP"), held, 14)
    else:
        yield from tick_box(DRILLED + 0.8, y + 1.35, done="drilled" in row.done)
        yield from tick_box(DEBURR + 0.8, y + 1.35, done="deburred" in row.done)


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


def _centre_row(block: DrillBlock, y: float, setting: Setting) -> Marks:
    """Yield the one row of a typical foot, and the boxes for what the part in hand will say."""
    middle, x = y + _CENTRE_MM / 2, MASTHEAD - 7.5
    size = fitting_pt(block.tag, (13.5, 11.0, 8.5), MASTHEAD - TAG - 2.0)
    yield Text(x, middle - 0.6, block.tag, size, bold=True, anchor="middle")
    yield Text(x, middle + 3.2, _("centre"), 8.2, anchor="middle")
    yield from readings(block.centre, block, middle - ROW_MM / 2, setting, may_mark=block.fault is None)
    for count, name in enumerate((_("foot across"), _("foot along"), _("wall here"), _("holes"))):
        yield from named_box(DRILL + 1.2, y + 1.2 + 7.9 * count, DRILLED - DRILL - 2.4, 7.9, name)
    yield from _offer_up(block, y, DRILLED + 1.2 if setting.checked else FASTEN + 1.2, setting)


def _offer_up(block: DrillBlock, y: float, left: float, setting: Setting) -> Marks:
    if block.fault:
        letter = setting.letters[block.fault]
        yield from sign(
            left,
            y + 4.0,
            END - left,
            13.0,
            _("OPEN FAULT"),
            _("note {letter}: no mark").format(letter=letter),
            14,
        )
    else:
        yield from sign(left, y + 4.0, END - left, 13.0, _("OFFER UP"), _("THE PART"), 13, 13)
    lines = (_("centre only: hole rows"), _("when the foot is in hand"))
    for count, line in enumerate(lines):
        yield Text(left, y + 22.0 + 3.5 * count, one_line(line, 7.6, END - left), 7.6)
