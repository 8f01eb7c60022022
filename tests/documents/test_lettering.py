"""Letters: widths from the font, wrapping, drawn gaps, fractions."""

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from mastlayout.documents.lettering import (
    GAP,
    as_read,
    box_mm,
    fitting_pt,
    grouped,
    one_line,
    reading,
    width_mm,
    wrapped,
)
from mastlayout.documents.page import Text
from mastlayout.resources import resources


def advance(letters, *, bold=False):
    """The width of letters in em, read from the font file by another library."""
    name = "DejaVuSansCondensed-Bold.ttf" if bold else "DejaVuSansCondensed.ttf"
    font = TTFont(resources() / "fonts" / name)
    table, widths = font.getBestCmap(), font["hmtx"]
    return sum(widths[table[ord(letter)]][0] for letter in letters) / font["head"].unitsPerEm


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_those_of_the_font_file(bold):
    """A millimetre is 72 / 25.4 points."""
    expected = advance("Forestay 12.5", bold=bold) * 10 * 25.4 / 72
    # The renderer keeps widths in thousandths of an em.
    assert width_mm("Forestay 12.5", 10, bold=bold) == pytest.approx(expected, abs=0.03)


def test_the_font_has_the_signs_the_sheets_use():
    """Diameter, degree, arrows, ticks, plus-minus, minus, times, quotes."""
    table = TTFont(resources() / "fonts" / "DejaVuSansCondensed.ttf").getBestCmap()
    assert all(ord(sign) in table for sign in "⌀ø°±−×·…–“”✓▲◄►éÅß")


def test_figures_are_of_one_width():
    """So that columns of numbers line up."""
    assert len({round(width_mm(figure, 12, bold=True), 6) for figure in "0123456789"}) == 1


def test_the_gap_before_thousands_is_drawn_and_not_a_character():
    """9667 is set wider than its figures, and read back as 9667."""
    shown = grouped("9667")
    assert shown == f"9{GAP}667"
    assert as_read(shown) == "9667"
    assert width_mm(shown, 10) > width_mm("9667", 10)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("17300", f"17{GAP}300"),
        ("300", "300"),
        ("31-8 9/16", "31-8 9/16"),
        ("9703 from the masthead, 15 is wanted", f"9{GAP}703 from the masthead, 15 is wanted"),
        ("hailer-1234", "hailer-1234"),
        ("7F3A", "7F3A"),
    ],
)
def test_only_long_whole_numbers_are_grouped(text, shown):
    """Names, marks, fractions and short numbers stay as they are."""
    assert grouped(text) == shown


def test_a_number_is_never_broken():
    """A line breaks before a grouped number, not in its gap."""
    lines = wrapped(f"wall at 9{GAP}667 and more", 8, width_mm(f"wall at 9{GAP}6", 8))
    assert any(f"9{GAP}667" in line for line in lines)


@given(st.text(max_size=200), st.floats(8, 90))
def test_wrapped_lines_fit_and_lose_nothing(text, width):
    """Each line is at most as wide as asked, and the letters are all there."""
    lines = wrapped(text, 8, width)
    assert all(width_mm(line, 8) <= width or len(line) == 1 for line in lines)
    spaces = " \t\r\n\f\v"
    assert "".join(lines).replace(" ", "") == "".join(sign for sign in text if sign not in spaces)


@given(st.text(max_size=200), st.floats(8, 90))
def test_one_line_fits(text, width):
    """A line cut short ends in an ellipsis; one that fits keeps its words."""
    line = one_line(text, 8, width)
    assert width_mm(line, 8) <= width


def test_a_tag_takes_the_largest_size_that_holds_it():
    """Tags are set smaller and never cut."""
    assert fitting_pt("13", (15, 12, 7), 12.0) == 15
    assert fitting_pt("1234", (15, 12, 7), 12.0) == 12


def test_a_fraction_is_set_smaller_beside_its_whole_number():
    """31-8 at 18 pt, 9/16 behind it at 10.8 pt, both read back with one space."""
    whole, part = reading(50, 10, "31-8 9/16", 18, bold=True)
    assert (whole.text, part.text) == ("31-8 ", "9/16")
    assert part.size_pt == pytest.approx(10.8)
    assert part.x == pytest.approx(50 + width_mm("31-8 ", 18, bold=True))


def test_a_box_of_turned_words_stands():
    """Words that read upwards are as high as they are long, above their anchor."""
    left, top, right, bottom = box_mm(Text(20, 100, "DO NOT DRILL", 15, bold=True, turn_deg=90))
    assert bottom == 100
    assert bottom - top == pytest.approx(width_mm("DO NOT DRILL", 15, bold=True))
    assert left < 20 < right


def test_a_per_cent_stays_with_its_number():
    """A sail's name breaks before the number, never behind it."""
    width = width_mm("13 Hailer; Genoa, 140", 9.5, bold=True) + 0.5
    assert wrapped("13 Hailer; Genoa, 140 %", 9.5, width, bold=True) == ["13 Hailer; Genoa,", "140 %"]


def test_a_cable_of_three_times_stays_whole():
    """What is multiplied is one number."""
    width = width_mm("Anchor light, 3 x 1", 9.5, bold=True)
    assert wrapped("Anchor light, 3 x 1.5", 9.5, width, bold=True) == ["Anchor light,", "3 x 1.5"]
    assert wrapped("box x 15", 9.5, width_mm("box x", 9.5) + 0.5) == ["box x", "15"]
