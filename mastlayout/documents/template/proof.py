"""How a wrong print shows: bars of 100 mm both ways, the corner to cut off, marks that must become whole."""

from mastlayout.documents.faces import neighbours
from mastlayout.documents.hatching import hatch
from mastlayout.documents.page import (
    BOX,
    MEDIUM,
    THICK,
    THIN,
    Anchor,
    Line,
    Marks,
    Point,
    Polyline,
    Rect,
    Text,
)
from mastlayout.documents.rows import SheetHead, Template
from mastlayout.documents.sheet import BAR_MM
from mastlayout.words import _

BAR_LENGTH_MM, CORNER_MM = 100.0, 25.0
CUT_DASH = (2.6, 1.8)
# How long a tick is and how thick, within a bar and at its ends.
_TICKS = ((1.1, THIN), (2.2, BOX))


def across_bar(head: SheetHead, x: float, y: float) -> Marks:
    """Yield the bar of 100 mm across the sheet, its words below it."""
    yield Line(x, y, x + BAR_LENGTH_MM, y, BOX)
    for count in range(11):
        tick = x + count * BAR_LENGTH_MM / 10
        size, pen = _TICKS[count % 10 == 0]
        yield Line(tick, y - size, tick, y, pen)
    yield Text(x + BAR_LENGTH_MM / 2, y + 3.6, _bar_words(head, _("across")), 8.0, bold=True, anchor="middle")


def along_bar(head: SheetHead, x: float, y: float) -> Marks:
    """Yield the bar of 100 mm along the sheet from ``y`` down, its words left of it."""
    yield Line(x, y, x, y + BAR_LENGTH_MM, BOX)
    for count in range(11):
        tick = y + count * BAR_LENGTH_MM / 10
        size, pen = _TICKS[count % 10 == 0]
        yield Line(x - size, tick, x, tick, pen)
    words = _bar_words(head, _("along"))
    yield Text(x - 2.8, y + BAR_LENGTH_MM / 2, words, 8.0, bold=True, anchor="middle", turn_deg=90)


def _bar_words(head: SheetHead, way: str) -> str:
    if head.units == "metric":
        return _("this bar: 100 mm {way}").format(way=way)
    return _("this bar: 100 mm {way}, 3 15/16 in").format(way=way)


def port_is_right(template: Template) -> bool:
    """Tell whether port lies on the right hand of a sheet."""
    return neighbours(template.middle)[1] == "port"


def bar_between(template: Template, left: float, right: float) -> tuple[float, float]:
    """Return where the black bar runs between the edges to cut at, clear of the corner."""
    clear = CORNER_MM + 2.0
    return (left, right - clear) if port_is_right(template) else (left + clear, right)


def corner(template: Template, left: float, right: float) -> Marks:
    """Yield the corner to cut off: at the masthead, to port; on a mirrored sheet it lies to starboard."""
    x, inward = (right, -1.0) if port_is_right(template) else (left, 1.0)
    triangle = ((x + inward * CORNER_MM, 0.0), (x, 0.0), (x, CORNER_MM))
    yield from hatch(triangle, 1.6)
    yield Polyline((triangle[0], triangle[2]), THICK, dash_mm=CUT_DASH)
    yield Polyline(triangle, THIN)
    at = x + inward * (CORNER_MM - 3.0)
    anchor: Anchor = "end" if inward < 0 else "start"
    yield Text(at, BAR_MM + 4.4, _("cut this corner off:"), 8.0, bold=True, anchor=anchor)
    yield Text(at + inward * 3.4, BAR_MM + 8.0, _("masthead, PORT"), 8.0, anchor=anchor)


def join_mark(shape: str, x: float, y: float) -> Marks:
    """Yield a triangle, a square or a diamond about a point of a cut: both sheets together make it whole."""
    outlines: dict[str, tuple[Point, ...]] = {
        "triangle": ((x - 4.0, y + 3.2), (x, y - 4.2), (x + 4.0, y + 3.2)),
        "diamond": ((x - 4.2, y), (x, y - 4.2), (x + 4.2, y), (x, y + 4.2)),
    }
    if shape == "square":
        yield Rect(x - 3.6, y - 3.6, 7.2, 7.2, MEDIUM)
    else:
        yield Polyline(outlines[shape], MEDIUM, closed=True)
    yield Line(x - 6.0, y, x + 6.0, y, THIN)
    yield Line(x, y - 6.0, x, y + 6.0, THIN)
