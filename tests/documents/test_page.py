"""Pages in millimetres: blocks, placing, hatching."""

import math

import pytest

from mastlayout.documents.hatching import hatch
from mastlayout.documents.page import Circle, Line, Page, Polyline, Text, block_mm, moved


@pytest.mark.parametrize(
    ("paper", "landscape", "corner"),
    [
        ("A4", True, (19.0, 10.0)),
        ("A4", False, (10.0, 19.0)),
        ("Letter", True, (10.2, 12.95)),
        ("Letter", False, (12.95, 10.2)),
    ],
)
def test_one_block_lies_centred_on_a4_and_letter(paper, landscape, corner):
    """259 x 190 mm, whatever the paper: (297 - 259) / 2 = 19, (279.4 - 259) / 2 = 10.2."""
    page = Page(paper, landscape, ())
    assert page.block_mm == ((259.0, 190.0) if landscape else (190.0, 259.0))
    assert page.corner_mm == pytest.approx(corner)


def test_a3_holds_the_same_block_enlarged_or_a_larger_one():
    """Enlarged 1.4 times the block keeps its millimetres; at its own size it is 266 x 362.6."""
    assert Page("A3", landscape=True, marks=(), zoom=1.4).block_mm == pytest.approx((259.0, 190.0))
    assert block_mm("A3", landscape=False) == pytest.approx((266.0, 362.6))


def test_hatch_stays_inside_its_outline_at_45_degrees():
    """Every line of a hatched rectangle lies in it, rises at 45 degrees, and the step is kept."""
    lines = list(hatch([(10, 20), (40, 20), (40, 30), (10, 30)], step_mm=2.0))
    # Lines rising at 45 degrees hold x + y: it runs from 30 to 70 in steps of 2 times the root of 2.
    assert len(lines) == math.floor(40 / (2 * math.sqrt(2)))
    for line in lines:
        assert min(line.x1, line.x2) >= 10 - 1e-9
        assert max(line.x1, line.x2) <= 40 + 1e-9
        assert line.x1 + line.y1 == pytest.approx(line.x2 + line.y2)


def test_moved_shifts_every_kind_of_mark():
    """Lines, outlines, circles and words go along."""
    marks = (Line(0, 0, 1, 1), Polyline(((0, 0), (1, 0))), Circle(0, 0, 1), Text(0, 0, "a"))
    line, outline, circle, text = moved(marks, 5, 7)
    assert (line.x2, line.y2) == (6, 8)
    assert outline.points == ((5, 7), (6, 7))
    assert (circle.x, circle.y, text.x, text.y) == (5, 7, 5, 7)
