"""A whole template as one drawing by layer: what a plotter, a cutter or a browser shows, 1:1."""

from collections.abc import Iterator

from mastlayout.documents.drillhead import banner_words
from mastlayout.documents.lettering import as_read
from mastlayout.documents.page import THICK, Line, Mark, Text
from mastlayout.documents.rows import SheetHead, Template
from mastlayout.documents.template.map import held_tags, side_words, template_map
from mastlayout.documents.template.proof import across_bar, along_bar
from mastlayout.documents.template.reference import girth_ruler
from mastlayout.documents.template.tiles import whole
from mastlayout.documents.template.view import View
from mastlayout.words import _

_LINE_MM = 5.0


def template_drawing(head: SheetHead, template: Template) -> tuple[View, Iterator[tuple[str, Mark]]]:
    """Return the window of a template and its marks by layer; x runs right, y down, the line at x 0.

    The height of the foot's middle is at y 0. A hole that may not be drilled has no circle.
    """
    view = whole(template)
    return view, _marks(head, template, view)


def _marks(head: SheetHead, template: Template, view: View) -> Iterator[tuple[str, Mark]]:
    why = {tag: words or _("see the template's PDF") for tag, words in held_tags(template).items()}
    sides = list(side_words(template, view.inset(12.0), view.y + 5.2))
    for text in sides:
        yield "words", text
    yield from template_map(template, view, why, sides)
    bars = (*across_bar(head, view.x, view.y2 + 10.0), *along_bar(head, view.x - 6.0, view.y))
    for mark in (*girth_ruler(template, view), *bars):
        yield "check", mark
    if template.middle == "aft":
        for x in (-template.half_mm, template.half_mm):
            yield "line", Line(x, view.y, x, view.y2, THICK)
    for count, words in enumerate(_sentences(head, template)):
        yield "words", Text(view.x, view.y2 + 20.0 + count * _LINE_MM, words, 8.0)


def _sentences(head: SheetHead, template: Template) -> Iterator[str]:
    block = template.block
    name = _("{yacht} · {tag} {name} · {day} · plan mark {mark}")
    yield name.format(yacht=head.yacht, tag=block.tag, name=block.name, day=head.day, mark=head.plan_mark)
    if not head.holes_checked:
        yield banner_words()
    yield _("Masthead up, seen from outside. 1:1, for paper {thick:.2f} mm thick; half girth {half}.").format(
        thick=template.paper_mm, half=template.half_girth
    )
    yield _("Both bars are 100 mm. Planning aid, not an approval: rigger and local rules decide.")


def plain(text: str) -> str:
    """Return words for a drawing's file: on one line, gaps drawn on paper left out, no control signs."""
    return "".join(sign if sign.isprintable() else " " for sign in as_read(text))
