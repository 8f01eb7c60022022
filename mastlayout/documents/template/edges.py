"""The edges of a template's sheets: where to cut, what lies there, the marks that must become whole."""

from collections.abc import Iterator, Sequence

from mastlayout.documents.faces import face_words, neighbours
from mastlayout.documents.lettering import Box, width_mm
from mastlayout.documents.page import DASHED, THICK, THIN, Line, Marks, Point, Text
from mastlayout.documents.rows import Template
from mastlayout.documents.sheet import BAR_MM
from mastlayout.documents.template.labels import opened
from mastlayout.documents.template.proof import CUT_DASH, join_mark
from mastlayout.documents.template.straps import LEAST_MM, MARKS_MM, shape_of
from mastlayout.documents.template.tiles import Tile, reach_mm
from mastlayout.words import _

# The marks of a level cut stand this far from the sheet's edges.
LEVEL_MM = 16.0


def edges(template: Template, tile: Tile, taken: Sequence[Box]) -> Marks:
    """Yield the lines to cut at, the marks that must become whole, and where the next sheet lies.

    ``taken`` are the boxes of words and of stopped holes: lines that nobody cuts open for them.
    """
    view, top = tile.view, BAR_MM + 19.0
    for hand in (-1, 1):
        x, outer = (view.x, tile.column == 0) if hand < 0 else (view.x2, tile.next_left is None)
        if outer or hand < 0:
            yield Line(x, top, x, view.y2, THICK, CUT_DASH)
        if outer and not _is_end(template, tile, hand):
            yield from _upright_marks(tile, shape_of(template, hand), x)
    if tile.column:
        yield from _upright_marks(tile, "diamond", view.x)
    if tile.row:
        yield Line(view.x, view.y, view.x2, view.y, THICK, CUT_DASH)
        yield from _level_marks(tile, view.y)
    if tile.next_left is not None:
        x = view.at((tile.next_left, 0.0))[0]
        yield from _next_edge(((x, view.y), (x, view.y2)), taken)
        yield from _upright_marks(tile, "diamond", x)
    if tile.next_high is not None:
        y = view.at((0.0, tile.next_high))[1]
        yield from _next_edge(((view.x, y), (view.x2, y)), taken)
        yield from _level_marks(tile, y)


def _next_edge(line: Sequence[Point], taken: Sequence[Box]) -> Marks:
    for first, *_others, last in opened(line, taken):
        yield Line(*first, *last, THIN, DASHED)


def _upright_marks(tile: Tile, shape: str, x: float) -> Marks:
    """Yield the marks on an upright cut, above and below the fitting's height, as a strap has them."""
    for up in (MARKS_MM, -MARKS_MM):
        if tile.view.low + 5.0 < up < tile.view.high - 5.0:
            yield from join_mark(shape, x, tile.view.at((0.0, up))[1])


def _level_marks(tile: Tile, y: float) -> Marks:
    for x in (tile.view.x + LEVEL_MM, tile.view.x2 - LEVEL_MM):
        yield from join_mark("diamond", x, y)


def _is_end(template: Template, tile: Tile, hand: int) -> bool:
    """Tell whether a sheet's own edge lies where paper must end, so that no strap is needed."""
    away = -tile.view.left if hand < 0 else tile.view.right
    return reach_mm(template) - away < LEAST_MM


def edge_words(template: Template, tile: Tile) -> Iterator[Text]:
    """Yield what to do at each edge, standing beside it clear of its marks."""
    view = tile.view
    low_room = view.y2 - view.at((0.0, -MARKS_MM))[1]
    bottom = view.y2 - 3.0 if low_room > 44.0 or not view.holds((max(view.left, 0.0), 0.0)) else None
    for hand in (-1, 1):
        outer = tile.column == 0 if hand < 0 else tile.next_left is None
        if not outer and hand > 0:
            continue
        words = _cut_words(template, tile, hand) if outer else _("cut here, lay on the left sheet")
        start = bottom or view.y + 9.0 + width_mm(words, 7.6, bold=True)
        yield Text(view.x + 3.8 if hand < 0 else view.x2 - 1.6, start, words, 7.6, bold=True, turn_deg=90)
    if tile.row:
        words = _("cut here, lay on the sheet above")
        yield Text((view.x + view.x2) / 2 + 8.0, view.y + 9.4, words, 7.6, bold=True)


def _cut_words(template: Template, tile: Tile, hand: int) -> str:
    if not _is_end(template, tile, hand):
        side = face_words(neighbours(template.middle)[0 if hand < 0 else 1]).side
        return _("cut here, lay on strap {letter}").format(letter=side[:1])
    if template.middle == "aft":
        return _("cut here: forward centreline")
    if template.edge_mm is None:
        return _("cut here: middle of the track")
    return _("cut here: 1 mm off the track") if template.raised else _("cut here: edge of the groove")
