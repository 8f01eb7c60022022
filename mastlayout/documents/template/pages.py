"""Templates as pages: 1:1 sheets with their overlaps, the straps to the track, and what is not printed."""

from collections.abc import Sequence

from mastlayout.documents.drillhead import banner_words
from mastlayout.documents.lettering import box_mm, fitting_pt, grouped, one_line
from mastlayout.documents.page import Marks, Page, PaperName, Rect, Text, block_mm
from mastlayout.documents.rows import Note, NoTemplate, SheetHead, Template
from mastlayout.documents.sheet import (
    BANNER_MM,
    BAR_MM,
    FOOT_MM,
    Letters,
    SheetName,
    frame,
    tag_badge,
    written_lines,
)
from mastlayout.documents.template.edges import LEVEL_MM, edge_words, edges
from mastlayout.documents.template.leftout import left_out_pages
from mastlayout.documents.template.map import held_tags, side_words, template_map
from mastlayout.documents.template.proof import across_bar, along_bar, bar_between, corner, port_is_right
from mastlayout.documents.template.reference import girth_ruler
from mastlayout.documents.template.straps import STRAP_MM, Strap, draw_strap, straps
from mastlayout.documents.template.tiles import Tile, tiles
from mastlayout.documents.walk import hold_of
from mastlayout.frozen import dataclass
from mastlayout.words import _

_SIDE_MM, _TOP_MM, _BELOW_MM = 14.5, 26.0, 14.5
_STRAP_GAP_MM = 2.5
_MOST_NOTES = 3
_STRAPS_TOP_MM, _STRAPS_BELOW_MM = 27.0, 20.0


@dataclass(frozen=True)
class _Sheet:
    """What all pages of one template share."""

    head: SheetHead
    template: Template
    paper: PaperName
    letters: Letters
    why: dict[str, str]
    count: int

    @property
    def block(self) -> tuple[float, float]:
        """Width and height, mm, of what one page holds."""
        return block_mm(self.paper, landscape=True)

    def page(self, number: int, marks: Marks, left: float, right: float) -> Page:
        """Return a page between two edges to cut at, or from edge to edge."""
        kind = _("TEMPLATE {tag},").format(tag=self.template.block.tag)
        name = SheetName(kind, number, self.count, is_map=True)
        bar = bar_between(self.template, left, right)
        around = (*frame(self.head, name, "template", self.block, bar), *corner(self.template, left, right))
        title = _("Template {tag}, {name}, {number} of {count}").format(
            tag=self.template.block.tag, name=self.template.block.name, number=number, count=self.count
        )
        return Page(self.paper, landscape=True, marks=(*around, *marks), title=title)


def template_pages(
    head: SheetHead, templates: Sequence[Template], left_out: Sequence[NoTemplate], paper: PaperName = "A4"
) -> list[Page]:
    """Return every template, 1:1 on any paper, and at last one list of those that are not printed and why."""
    pages = [page for template in templates for page in _pages(head, template, paper)]
    return [*pages, *(left_out_pages(head, left_out, paper) if left_out else ())]


def _pages(head: SheetHead, template: Template, paper: PaperName) -> list[Page]:
    width, height = block_mm(paper, landscape=True)
    letters, notes_mm = _letters(template, width)
    top = _TOP_MM + (0.0 if head.holes_checked else BANNER_MM)
    room = height - FOOT_MM - _BELOW_MM - notes_mm - top
    sheets = tiles(template, _SIDE_MM, top, width - 2 * _SIDE_MM, room)
    strips = straps(template, sheets, width - 14.0)
    each = int(
        (height - FOOT_MM - _STRAPS_BELOW_MM - _STRAPS_TOP_MM + _STRAP_GAP_MM) // (STRAP_MM + _STRAP_GAP_MM)
    )
    groups = [strips[start : start + each] for start in range(0, len(strips), each)]
    why = {tag: words or _note_of(template, tag, letters) for tag, words in held_tags(template).items()}
    sheet = _Sheet(head, template, paper, letters, why, len(sheets) + len(groups))
    pages = [
        sheet.page(number, _map_page(sheet, tile), tile.view.x, tile.view.x2)
        for number, tile in enumerate(sheets, 1)
    ]
    pages += [
        sheet.page(number, _strap_page(sheet, group), 0.0, width)
        for number, group in enumerate(groups, len(sheets) + 1)
    ]
    return pages


def _letters(template: Template, width: float) -> tuple[Letters, float]:
    """Return the notes of a template, a few at most, and how high they stand."""
    block = template.block
    held = [hold.note for hole in template.holes if (hold := hold_of(hole.row, block)) and hold.note]
    notes = list(dict.fromkeys([*(Note(block.tag, words) for words in template.warnings), *held]))
    # A sheet has room for a few; the drilling schedule and the findings have all of them.
    letters = Letters(notes[:_MOST_NOTES])
    return letters, letters.height_mm(width)


def _note_of(template: Template, tag: str, letters: Letters) -> str:
    hole = next(hole for hole in template.holes if hole.row.tag == tag)
    hold = hold_of(hole.row, template.block)
    if hold is None or hold.note is None or hold.note not in letters:
        return _("see DRILL")
    return _("note {letter}").format(letter=letters[hold.note])


def _map_page(sheet: _Sheet, tile: Tile) -> Marks:
    width, height = sheet.block
    view = tile.view
    yield from _heading(sheet, view.x)
    if not sheet.head.holes_checked:
        yield from _banner(*bar_between(sheet.template, view.x, view.x2))
    sides = side_words(sheet.template, view, view.y + 5.2)
    if tile.row:
        # Above the cut: what lies below it may be foot or holes anywhere.
        sides = side_words(sheet.template, view.inset(LEVEL_MM + 6.0), view.y - 2.2, (9.0,))
    words = [*sides, *edge_words(sheet.template, tile)]
    drawn = [mark for _layer, mark in template_map(sheet.template, view, sheet.why, words)]
    words += [mark for mark in drawn if isinstance(mark, Text)]
    yield from (mark for mark in drawn if not isinstance(mark, Text))
    yield from words
    stops = [(m.x, m.y, m.x + m.width, m.y + m.height) for m in drawn if isinstance(m, Rect)]
    yield from edges(sheet.template, tile, [*map(box_mm, words), *stops])
    yield from girth_ruler(sheet.template, view)
    yield from sheet.letters.list(view.y2 + 3.8, width)
    yield from across_bar(sheet.head, 14.5, height - FOOT_MM - 5.4)
    yield from along_bar(sheet.head, width - 1.0, (height - FOOT_MM + 25.0) / 2 - 44.0)
    for count, line in enumerate(_advice(sheet, tile)):
        yield Text(122.0, height - FOOT_MM - 5.6 + 3.4 * count, one_line(line, 7.6, width - 122.0), 7.6)


def _heading(sheet: _Sheet, x: float) -> Marks:
    block, right = sheet.template.block, port_is_right(sheet.template)
    left = x + (0.0 if right else 62.0)
    yield from tag_badge(left, BAR_MM + 1.6, 13.0, 6.6, block.tag, 15)
    room = sheet.block[0] - left - (92.0 if right else 32.0)
    yield Text(left + 15.0, BAR_MM + 6.6, one_line(block.name, 14, room, bold=True), 14, bold=True)
    centre = block.centre.height
    words = _("1:1 · centre {masthead} from the masthead, {heel} from the heel · half girth {half}").format(
        masthead=grouped(centre.text(centre.masthead)),
        heel=grouped(centre.text(centre.heel)),
        half=sheet.template.half_girth,
    )
    yield Text(left, BAR_MM + 11.8, one_line(words, 7.8, room + 15.0), 7.8)


def _banner(left: float, right: float) -> Marks:
    """Yield the banner of a plan whose hole rules have not run, clear of the corner to cut off."""
    yield Rect(left, BAR_MM + 14.2, right - left, BANNER_MM - 2.3, 0.9)
    words = _("{words} FROM THIS PAGE").format(words=banner_words())
    size = fitting_pt(words, (15.0, 12.0, 9.0), right - left - 4.0)
    yield Text((left + right) / 2, BAR_MM + 19.9, words, size, bold=True, anchor="middle")


def _advice(sheet: _Sheet, tile: Tile) -> tuple[str, str]:
    lay = _("Rub the sheet down from the line outwards, both rings on their readings.")
    if tile.columns * tile.rows > 1:
        place = _("Sheet {n} of {count}: row {row}, column {column}. Join the marks first.").format(
            n=tile.row * tile.columns + tile.column + 1,
            count=tile.columns * tile.rows,
            row=tile.row + 1,
            column=tile.column + 1,
        )
        return place, lay
    if sheet.count == 1:
        return lay, ""
    if sheet.template.middle == "aft":
        return lay, _("Then the straps must reach the forward centreline: last sheet.")
    return lay, _("Then the straps must reach the track: last sheet.")


def _strap_page(sheet: _Sheet, group: Sequence[Strap]) -> Marks:
    width, height = sheet.block
    template = sheet.template
    yield from _heading(sheet, 0.0)
    words = _("Straps: cut out, lay the sheet's cut edge on the dashed line, like mark on like mark.")
    left = 0.0 if port_is_right(template) else 28.0
    yield Text(left, BAR_MM + 16.4, one_line(words, 8.6, width - 30.0, bold=True), 8.6, bold=True)
    y = _STRAPS_TOP_MM
    for strap in group:
        long = strap.far - strap.near
        x = 2.0 if strap.hand < 0 else width - 26.0 - long
        yield from draw_strap(template, strap, max(x, 2.0), y)
        y += STRAP_MM + _STRAP_GAP_MM
    yield from across_bar(sheet.head, 14.5, height - FOOT_MM - 5.4)
    yield from along_bar(sheet.head, width - 1.0, height - FOOT_MM - 124.0)
    bottom = height - FOOT_MM - 20.0
    yield from written_lines(y, bottom, _("Written on the mast:"), width - 14.0)
    yield from _girth_box(sheet, 124.0, height - FOOT_MM - 16.0)


def _girth_box(sheet: _Sheet, x: float, y: float) -> Marks:
    template = sheet.template
    yield Text(x, y + 5.4, _("Girth by tape here"), 9.0, bold=True)
    yield Rect(x + 36.0, y, 30.0, 8.0, 0.5)
    edge = _("not measured") if template.edge_mm is None else template.edge
    half = _("entered {girth}; half {half}").format(girth=template.girth, half=template.half_girth)
    yield Text(x + 68.0, y + 3.4, one_line(half, 7.6, 66.0), 7.6)
    what = (
        _("track's edge {edge} from the line") if template.middle == "forward" else _("half the track {edge}")
    )
    yield Text(x + 68.0, y + 6.8, one_line(what.format(edge=edge), 7.6, 66.0), 7.6)
    thick = _("Drawn for paper {thick:.2f} mm thick: {longer:.2f} mm longer in half the girth.").format(
        thick=template.paper_mm, longer=template.longer_mm
    )
    yield Text(x, y + 12.4, one_line(thick, 7.6, 134.0), 7.6)
