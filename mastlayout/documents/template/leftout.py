"""The list of feet of which no template is printed, each with what to do about it."""

from collections.abc import Sequence

from mastlayout.documents.lettering import paragraph, wrapped
from mastlayout.documents.page import THIN, Line, Marks, Page, PaperName, Text, block_mm
from mastlayout.documents.rows import NoTemplate, SheetHead
from mastlayout.documents.sheet import FOOT_MM, SheetName, frame, tag_badge, written_lines
from mastlayout.words import _


def left_out_pages(head: SheetHead, left_out: Sequence[NoTemplate], paper: PaperName) -> list[Page]:
    """Return the list of feet of which no template is printed, on as many pages as it takes."""
    width, height = block_mm(paper, landscape=True)
    room = height - FOOT_MM - 4.0
    pages: list[list[tuple[NoTemplate, list[str]]]] = [[]]
    y = 28.0
    for one in left_out:
        lines = wrapped(one.why, 9.0, width - 96.0)
        tall = max(4.4 * len(lines), 7.0) + 4.0
        if y + tall > room and pages[-1]:
            pages.append([])
            y = 28.0
        pages[-1].append((one, lines))
        y += tall
    return [
        Page(
            paper,
            landscape=True,
            marks=tuple(_list_page(head, rows, number, len(pages), (width, height))),
            title=_("Feet without a template"),
        )
        for number, rows in enumerate(pages, 1)
    ]


def _list_page(
    head: SheetHead,
    rows: Sequence[tuple[NoTemplate, list[str]]],
    number: int,
    count: int,
    block: tuple[float, float],
) -> Marks:
    width = block[0]
    yield from frame(head, SheetName(_("NO TEMPLATE"), number, count), "no_template", block)
    yield Text(0, 17.0, _("Feet of which there is no template yet"), 18, bold=True)
    y = 28.0
    for one, lines in rows:
        yield from tag_badge(0, y - 4.6, 14.0, 7.0, one.tag, 13)
        yield from paragraph(17.0, y, one.name, 74.0, 10.0, bold=True, lines=2)
        yield from paragraph(94.0, y, one.why, width - 96.0, 9.0)
        y += max(4.4 * len(lines), 7.0) + 4.0
        yield Line(0, y - 6.6, width, y - 6.6, THIN)
    label = _("Measured, part in hand (outline, holes, cable; UP and PORT on each sketch):")
    yield Text(0, y + 1.0, label, 8, bold=True)
    yield from written_lines(y + 1.6, block[1] - FOOT_MM - 1.0, "", width)
