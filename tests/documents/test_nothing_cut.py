"""No word that a rigger needs ends in "…": every sheet of every demo, in both units."""

from dataclasses import replace

import known
import pytest
from sheet_check import texts

from mastlayout.documents.labels import label_pages
from mastlayout.documents.lettering import fitted_lines, width_mm
from mastlayout.documents.papers import sheets
from mastlayout.documents.schedule.plan import plan_of


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("demo", ["whimbrel", "sanderling", "turnstone"])
def test_no_sheet_of_a_demo_cuts_a_word(demo, units):
    """A4 and Letter are one block, A3 the same larger."""
    plan = plan_of(known.report(demo), units)
    cut = [
        (sheet.kind, text.text)
        for sheet in sheets(plan, "A4")
        for page in sheet.pages
        for text in texts(page)
        if "…" in text.text
    ]
    assert cut == []


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
