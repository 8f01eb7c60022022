"""Grips of rivets and threads in a wall against the publications they were read in."""

import pytest

from mastlayout.fastening.choice import full_threads
from mastlayout.fastening.grip import grip_of, grips
from mastlayout.fastening.tables import diameter_mm, tables

# ISO 15981:2002, 3.1, aluminium rivets: least length, most length, least grip, most grip, mm. Which
# column belongs to which diameter was inferred from a page whose table had lost its lines.
ISO_15981 = {
    2.4: [(6, 7, 0.5, 3), (9, 10, 3, 6), (12, 13, 6, 9)],
    3.2: [(6, 7, 1.5, 3.5), (8, 9, 3.5, 5), (10, 11, 5, 7), (12, 13, 7, 9), (16, 17, 9, 13), (20, 21, 13, 17),
          (25, 26, 17, 22)],
    4.0: [(6, 7, 1, 3), (8, 9, 3, 5), (10, 11, 5, 6.5), (12, 13, 6.5, 8.5), (16, 17, 8.5, 12.5),
          (20, 21, 12.5, 16.5), (25, 26, 16.5, 21)],
    4.8: [(6, 7, 1.5, 2.5), (8, 9, 2.5, 4), (10, 11, 4, 6), (12, 13, 6, 8), (16, 17, 8, 12), (20, 21, 12, 15),
          (25, 26, 15, 20), (30, 31, 20, 25)],
    6.0: [(12, 13, 3, 6), (16, 17, 6, 10), (20, 21, 10, 14), (25, 26, 14, 18), (30, 31, 18, 23)],
}  # fmt: skip
# US Army TM 10-5410-221-14/1, Table 4-3, rivets of 1/4 in: least grip, most grip, body length, inches.
TM_QUARTER = [(0.125, 0.250, 0.447), (0.251, 0.375, 0.572), (0.376, 0.500, 0.697), (0.626, 0.750, 0.947)]
# Major diameters of unified threads, inches, of an open CAD parts library's table.
MAJOR_IN = {
    "#4-40": 0.112, "#6-32": 0.138, "#8-32": 0.164, "#10-24": 0.19, "#12-24": 0.216, "1/4-20": 0.25,
    "5/16-18": 0.3125, "3/8-16": 0.375, "7/16-14": 0.4375, "1/2-13": 0.5,
}  # fmt: skip


# The same table: the least and the most hole of an inch rivet, mm, beside the metric name that buys it.
TM_HOLE = {2.4: (2.438, 2.540), 3.2: (3.251, 3.353), 4.0: (4.064, 4.166), 6.4: (6.528, 6.629)}


@pytest.mark.parametrize("size", TM_HOLE)
def test_drills_of_rivets_lie_within_what_was_read_for_their_inch_sizes(size):
    """Rivet holes are from memory (metric standards): they meet what was read to a drill's own tolerance.

    A drill cuts a few hundredths over its size; its most is what the metric standard allows, 0.07 more.
    """
    least, most = TM_HOLE[size]
    row = tables()["rivet"][f"{size:g}"]
    assert least - 0.03 <= row["drill"] <= most
    assert row["most"] <= most + 0.07


@pytest.mark.parametrize("size", ISO_15981)
def test_grips_of_metric_rivets(size):
    """Row by row; 3 and 3.2, and 4.8 and 5, share a column."""
    own = [(one.length_mm, one.most_mm, one.low_mm, one.high_mm) for one in grips(size)]
    assert own == ISO_15981[size]
    assert grips(3.0) == grips(3.2)
    assert grips(5.0) == grips(4.8)


def test_grips_of_quarter_inch_rivets():
    """6.4 is the quarter inch; to a hundredth of a millimetre."""
    own = [(one.low_mm, one.high_mm, one.length_mm) for one in grips(6.4)]
    assert [tuple(pytest.approx(25.4 * part, abs=0.02) for part in row) for row in TM_QUARTER] == own


@pytest.mark.parametrize(
    ("size", "stack", "length"),
    [(4.8, 7.5, 12.0), (4.8, 8.0, 12.0), (4.8, 8.01, 16.0), (6.4, 6.36, 14.53), (6.4, 7.7, 14.53),
     (6.4, 14.0, None), (6.4, 3.0, None), (4.8, 25.1, None), (5.5, 5.0, None)],
)  # fmt: skip
def test_the_shortest_rivet_that_grips_is_chosen(size, stack, length):
    """At an end of a range the shorter; where none was read, none: nothing is guessed."""
    grip = grip_of(size, stack)
    assert (grip.length_mm if grip else None) == length


@pytest.mark.parametrize(
    ("thread", "wall", "threads"), [("M4", 3.0, 4.286), ("M5", 4.0, 5.0), ("M6", 4.0, 4.0), ("M8", 4.0, 3.2)]
)
def test_full_threads(thread, wall, threads):
    """Wall over ISO 261's coarse pitch, worked out beside the table by another hand."""
    assert full_threads(thread, wall) == pytest.approx(threads, abs=0.001)


@pytest.mark.parametrize("thread", MAJOR_IN)
def test_the_name_of_a_unified_thread_gives_its_diameter(thread):
    """0.060 in and 0.013 in a number, or the fraction itself."""
    assert diameter_mm(thread) == pytest.approx(25.4 * MAJOR_IN[thread])
