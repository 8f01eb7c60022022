"""The sheet of heights: nothing over anything, every place and reason on it, unknown is a question mark."""

import known
import pytest
from builders import a_kind, a_layout
from sheet_check import faults, words

from mastlayout.checks.report import check
from mastlayout.documents.heights import heights_pages
from mastlayout.documents.page import Polyline, Rect, Text
from mastlayout.documents.schedule.heights import heights_of
from mastlayout.documents.schedule.plan import head_of
from mastlayout.geometry.scene import build

UNITS = {"whimbrel": "metric", "sanderling": "inches", "turnstone": "metric"}


@pytest.fixture(scope="module")
def made():
    """Head and rows of the three yachts by name, one of them in inches."""
    found = {}
    for name, units in UNITS.items():
        report = known.report(name)
        found[name] = head_of(report, units, "2026-11-26"), heights_of(report, units)
    return found


def test_a_mast_on_which_no_height_matters_has_no_sheet():
    """Nothing to say, no paper."""
    report = check(build(a_layout(kinds=(a_kind(group="deck"),))))
    assert heights_of(report, "metric") is None
    assert heights_pages(head_of(report, "metric", ""), None) == []


@pytest.mark.parametrize("paper", ["A4", "A3"])
@pytest.mark.parametrize("name", UNITS)
def test_all_of_it_is_on_the_page_and_nothing_over_anything(made, name, paper):
    """Also where a yacht has many places and in feet and inches."""
    head, heights = made[name]
    assert [line for page in heights_pages(head, heights, paper) for line in faults(page)] == []


@pytest.mark.parametrize("name", UNITS)
def test_every_place_and_figure_is_printed(made, name):
    """Letters, figures, what is asked, formulas, and the cautions."""
    head, heights = made[name]
    printed = words(heights_pages(head, heights))
    for placing in heights.placings:
        assert placing.name in printed
        for row in placing.places:
            assert row.letter in printed
            assert all(cell in printed for cell in row.cells)
    assert "None" not in printed
    joined = " ".join(printed)
    assert "No reflector guarantees being seen." in joined
    assert "National rules say what must be carried" in joined
    assert "Radar off" in joined
    assert "ITU-R P.526" in joined


def test_black_and_white_alone(made):
    """Every mark is ink or paper: the one grey is the band behind a fitting's name."""
    head, heights = made["whimbrel"]
    for page in heights_pages(head, heights):
        fills = {
            mark.fill for mark in page.marks if isinstance(mark, Polyline | Rect) and mark.fill is not None
        }
        assert fills <= {0.0, 0.1, 1.0}


def test_higher_stands_beside_lower(made):
    """Each reflector's echo is drawn for its highest free place, as planned, and for the lowest."""
    _head, heights = made["whimbrel"]
    reflector = heights.placings[0]
    drawn = [row for row in reflector.places if row.lanes]
    assert len(drawn) == 3
    assert drawn[0].free
    assert drawn[-1] is reflector.places[-1]
    assert [len(row.lanes) for row in drawn] == [3, 3, 3]
    # Fades by hand: the higher, the more lobes; the 15 m ship loses the lower one for good sooner.
    assert len(drawn[0].lanes[0].fades) > len(drawn[-1].lanes[0].fades)
    assert drawn[0].lanes[0].horizon_nm > drawn[-1].lanes[0].horizon_nm


def test_a_level_nobody_read_is_a_question_mark(made):
    """The hailer's plate: no level, so no figure at the helm, and its measure is named."""
    _head, heights = made["whimbrel"]
    (hailer,) = [one for one in heights.placings if one.name == "Hailer"]
    assert all(row.cells[1] == "?" for row in hailer.places)
    assert any("Not settled before it is measured" in sentence for sentence in hailer.reasons)


def test_words_are_texts(made):
    """The first sentence, the answer, is the one in bold."""
    head, heights = made["whimbrel"]
    first = heights_pages(head, heights)[0]
    bold = [mark.text for mark in first.marks if isinstance(mark, Text) and mark.bold]
    assert any(text.startswith("Farthest, free of faults: B") for text in bold)
