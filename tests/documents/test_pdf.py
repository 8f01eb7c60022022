"""The printed file, read back with another library."""

import io

import pdfplumber
import pytest
from pdfminer.pdftypes import resolve1
from sample_lists import ELEVATION, HEAD
from sample_plan import DRILL

from mastlayout.documents.drill import drill_pages
from mastlayout.documents.elevation import elevation_pages
from mastlayout.documents.page import Line, Page, Polyline, Rect, Text
from mastlayout.documents.pdf import pdf

MM = 25.4 / 72


def printed(pages):
    """Open a printed file."""
    return pdfplumber.open(io.BytesIO(pdf(pages, "Test")))


@pytest.mark.parametrize(
    ("paper", "landscape", "size"),
    [
        ("A4", True, (297, 210)),
        ("A4", False, (210, 297)),
        ("Letter", True, (279.4, 215.9)),
        ("A3", False, (297, 420)),
    ],
)
def test_the_page_is_exactly_its_paper(paper, landscape, size):
    """To a thousandth of a millimetre."""
    with printed([Page(paper, landscape, (Rect(0, 0, 10, 10),))]) as book:
        page = book.pages[0]
        assert (page.width * MM, page.height * MM) == pytest.approx(size, abs=1e-3)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_bar_of_the_elevation_is_100_mm_of_paper(paper):
    """Within 0.05 mm, as a tape would confirm."""
    with printed(elevation_pages(HEAD, ELEVATION, paper)) as book:
        lengths = [line["width"] * MM for line in book.pages[0].lines]
    assert any(length == pytest.approx(100.0, abs=0.05) for length in lengths)


def test_a_mark_lies_where_its_page_says():
    """A line from (10, 20) of the block of an A4 sheet starts 29 from the left and 30 from the top."""
    with printed([Page("A4", landscape=True, marks=(Line(10, 20, 60, 20),))]) as book:
        line = book.pages[0].lines[0]
    assert (line["x0"] * MM, line["top"] * MM) == pytest.approx((29.0, 30.0), abs=1e-3)
    assert line["x1"] * MM == pytest.approx(79.0, abs=1e-3)


def test_readings_are_read_back_without_spaces():
    """The gap in 9 667 is no character, on screen and by a reader of the file."""
    with printed(drill_pages(HEAD, DRILL)) as book:
        words = {word["text"] for page in book.pages for word in page.extract_words()}
    assert {"9667", "7633", "4235", "13065", "17300"} <= words


def test_text_is_shown_as_typed():
    """What looks like markup or a formula is text."""
    typed = ["=1+1", "<b>bold</b>", "a & b &amp; c", "x < y > z"]
    marks = tuple(Text(10, 10 + 8 * count, text) for count, text in enumerate(typed))
    with printed([Page("A4", landscape=True, marks=marks)]) as book:
        assert book.pages[0].extract_text().splitlines() == typed


def test_the_same_pages_are_the_same_bytes():
    """No day, no random name."""
    assert pdf(drill_pages(HEAD, DRILL), "a") == pdf(drill_pages(HEAD, DRILL), "a")


def test_the_printer_is_told_not_to_scale_and_fonts_are_inside():
    """PrintScaling None; every font of the file carries its program."""
    with printed([Page("A4", landscape=True, marks=(Text(5, 5, "a"), Text(5, 9, "b", bold=True)))]) as book:
        wishes = resolve1(book.doc.catalog["ViewerPreferences"])
        assert wishes["PrintScaling"].name == "None"
        fonts = book.pages[0].page_obj.resources["Font"]
        used = [char["fontname"] for char in book.pages[0].chars]
        fonts = [resolve1(font) for font in resolve1(fonts).values()]
        embedded = {
            font["BaseFont"].name: "FontFile2" in resolve1(font.get("FontDescriptor", {})) for font in fonts
        }
    assert all(embedded[name] for name in used)


def test_a_filled_outline_is_filled():
    """10 % of ink is nine tenths of white."""
    outline = Polyline(((0, 0), (10, 0), (5, 8)), 0, closed=True, fill=0.1)
    with printed([Page("A4", landscape=True, marks=(outline,))]) as book:
        curve = (book.pages[0].curves + book.pages[0].rects)[0]
    assert curve["fill"]
    assert curve["non_stroking_color"] == pytest.approx(0.9)
