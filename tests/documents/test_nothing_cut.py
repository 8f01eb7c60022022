"""No word that a rigger needs ends in "…": every sheet of every demo, in both units."""

from dataclasses import replace
from functools import cache

import known
import pytest
from shapely import LineString, STRtree, box
from sheet_check import texts

from mastlayout.documents.labels import label_pages
from mastlayout.documents.lettering import box_mm, fitted_lines, width_mm
from mastlayout.documents.page import Line, Polyline, Rect
from mastlayout.documents.papers import sheets
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.documents.template.labels import meet


@cache
def drawn(demo, units):
    """Every sheet of a demo."""
    return tuple(sheets(plan_of(known.report(demo), units), "A4"))


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["whimbrel", "sanderling", "turnstone"])
def test_no_sheet_of_a_demo_cuts_a_word(demo, units):
    """A4 and Letter are one block, A3 the same larger."""
    cut = [
        (sheet.kind, text.text)
        for sheet in drawn(demo, units)
        for page in sheet.pages
        for text in texts(page)
        if "…" in text.text
    ]
    assert cut == []


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["whimbrel", "sanderling", "turnstone"])
def test_no_word_lies_under_a_box_or_a_line(demo, units):
    """No box to tick stands on words, and on templates, elevation and lists no line runs through any."""
    for sheet in drawn(demo, units):
        for page in sheet.pages:
            words = [(text.text, inner(box_mm(text))) for text in texts(page) if len(text.text) > 1]
            boxes = [(m.x, m.y, m.x + m.width, m.y + m.height) for m in page.marks if is_to_tick(m)]
            assert [(sheet.kind, said) for said, one in words for other in boxes if meet(one, other)] == []
            if sheet.kind in ("templates", "order", "chafe", "measure"):
                lines = [m for m in page.marks if isinstance(m, Line | Polyline) and m.width_mm]
                tree = STRtree([LineString(ends(m)) for m in lines if getattr(m, "fill", None) is None])
                crossed, _by = tree.query([box(*one) for _said, one in words], predicate="intersects")
                # A stopped hole's sign hides the line that it stands on.
                through = {words[i][0] for i in crossed} - {"STOP"}
                assert through == set(), sheet.kind


def is_to_tick(mark):
    """Tell whether a mark is a box to tick."""
    return isinstance(mark, Rect) and mark.width == mark.height and 5.0 < mark.width < 8.0 and mark.width_mm


def inner(one):
    """A box of words without the hair round its letters."""
    return one[0] + 0.25, one[1] + 0.25, one[2] - 0.25, one[3] - 0.1


def ends(mark):
    """The points of a line or a polyline."""
    if isinstance(mark, Line):
        return [(mark.x1, mark.y1), (mark.x2, mark.y2)]
    return [*mark.points, mark.points[0]] if mark.closed else mark.points


@pytest.mark.parametrize(
    ("name", "lines"),
    [("Hailer", 1), ("Steaming and deck light, in a hoop", 2), ("Radar reflector, cluster of 230", 2)],
)
def test_a_label_takes_two_lines_for_a_long_name(name, lines):
    """The name stands whole beside its tag."""
    plan = plan_of(known.report("sanderling"))
    blocks = [replace(plan.drill[0], name=name)]
    said = [text.text for page in label_pages(plan.head, blocks) for text in texts(page)]
    assert any(name == " ".join(said[i : i + n][::-1]) for n in (lines,) for i in range(len(said)))


def test_only_a_name_of_hundreds_of_letters_is_cut():
    """It is told by its tag, and stands whole with the findings."""
    size, lines = fitted_lines("a word and " * 30, (10.0, 8.0), 40.0, 2)
    assert (size, len(lines)) == (8.0, 2)
    assert lines[-1].endswith("…")
    assert all(width_mm(line, size) <= 40.0 for line in lines)
