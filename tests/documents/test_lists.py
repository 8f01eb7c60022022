"""Mounting schedule, elevation, measure list and findings sheet."""

import itertools
from dataclasses import replace

import pytest
from sample_lists import ELEVATION, FINDINGS, LIMITS, MEASURE, MOUNT
from sample_plan import HEAD, LENGTH
from sheet_check import faults, texts, words

from mastlayout.documents.elevation import TIGHT_MM, elevation_pages
from mastlayout.documents.findings import findings_pages
from mastlayout.documents.lettering import box_mm
from mastlayout.documents.measure import measure_pages
from mastlayout.documents.mount import mount_pages
from mastlayout.documents.page import Circle, Line, Polyline, Rect, Text
from mastlayout.documents.pictures import PICTURES, picture
from mastlayout.documents.rows import StayLine
from mastlayout.documents.states import state_sign
from mastlayout.documents.template.labels import meet
from mastlayout.model.measure import instructions


def boxes(page, side):
    """Return the boxes to tick of one size."""
    return [m for m in page.marks if isinstance(m, Rect) and m.width == side == m.height]


@pytest.mark.parametrize(("checked", "free"), [(True, 5), (False, 4)])
def test_hold_leaves_only_the_dry_run(checked, free):
    """Free fittings have five boxes, four while the hole rules have not run; held ones have one."""
    (page,) = mount_pages(replace(HEAD, holes_checked=checked), MOUNT)
    held = sum(row.hold for row in MOUNT)
    assert held == 5
    assert words([page]).count("HOLD") == held
    assert len(boxes(page, 7.8)) == held + free * (len(MOUNT) - held)
    assert any("DO NOT DRILL" in text for text in words([page])) is not checked


def test_the_masses_are_added_and_what_is_not_weighed_is_said():
    """1.6 + 0.3 + 8.0 + 1.9 + 1.3 + 0.35 + 0.35 + 0.4 + 0.3 = 14.5 kg."""
    assert any("14.5 kg together" in text for text in words(mount_pages(HEAD, MOUNT)))
    unknown = (replace(MOUNT[0], mass_kg=None), *MOUNT[1:])
    said = words(mount_pages(HEAD, unknown))
    assert any("12.9 kg known, 1 not weighed" in text for text in said)
    assert "?" in said


def test_what_stands_on_the_masthead_reads_top():
    """Its masthead reading is no number to mark by."""
    said = words(mount_pages(HEAD, MOUNT))
    assert said.count("TOP") == 4  # two fittings: once for the height, once for the face
    assert "heel 17300" in said


def test_forty_fittings_go_on_over_several_sheets_with_running_numbers():
    """Each row is 13.2 mm and none is lost."""
    rows = [replace(MOUNT[5], tag=str(n)) for n in range(100, 140)]
    pages = mount_pages(HEAD, rows)
    said = words(pages)
    assert len(pages) > 3
    assert all(str(n) in said for n in range(100, 140))
    assert all(str(n) in said for n in range(1, 41))


def test_elevation_labels_keep_their_order_and_pitch():
    """35 labels 5.3 mm apart, from the masthead down."""
    (page,) = elevation_pages(HEAD, ELEVATION)
    heights = [text.y for text in texts(page) if text.size_pt == 11.5]
    assert len(heights) == len(ELEVATION.rows)
    assert all(b - a >= TIGHT_MM - 1e-6 for a, b in itertools.pairwise(heights))


def test_the_mast_is_drawn_to_its_scale():
    """17300 at 1 : 100 is 173 mm, at 1 : 75 on A3 230.67."""
    for paper, long in (("A4", 173.0), ("A3", LENGTH / 75)):
        (page,) = elevation_pages(HEAD, ELEVATION, paper)
        thick = [m for m in page.marks if isinstance(m, Line) and m.width_mm == 0.7]
        assert thick[0].y2 - thick[0].y1 == pytest.approx(long)
        assert f"The mast from starboard, 1 : {LENGTH / long:.0f}" in words([page])


def test_more_labels_than_a_column_holds_share_further_sheets():
    """A hundred labels stand on three sheets of the same mast."""
    rows = tuple(
        replace(ELEVATION.rows[0], from_masthead_mm=170.0 * n, what=f"thing {n}") for n in range(100)
    )
    pages = elevation_pages(HEAD, replace(ELEVATION, rows=rows))
    assert len(pages) == 3
    assert all(f"thing {n}" in words(pages) for n in range(100))
    assert [faults(page) for page in pages] == [[], [], []]
    counts = [sum(text.text.startswith("thing ") for text in texts(page)) for page in pages]
    assert max(counts) - min(counts) <= 2


def test_forward_stands_right():
    """A thing proud of the fore face is drawn right of the mast."""
    (page,) = elevation_pages(HEAD, replace(ELEVATION, gear=(((103, 1000), (500, 1000), (500, 1200)),)))
    (gear,) = [m for m in page.marks if isinstance(m, Polyline) and m.fill == 0.15]
    mast = next(m for m in page.marks if isinstance(m, Polyline) and m.fill == 0.0 and len(m.points) == 4)
    assert max(x for x, _y in gear.points) > max(x for x, _y in mast.points)


def test_the_name_of_a_stay_stands_off_mast_gear_and_tape():
    """One that keeps near the mast is named beside it; the backstay ends before the tape's scale."""
    jumper = StayLine("forward jumper", (103, 3900), (400, 8000))
    gear = ((103, 8600), (700, 8600), (700, 9000), (103, 9000))
    elevation = replace(ELEVATION, stays=(jumper, *ELEVATION.stays), gear=(gear,))
    (page,) = elevation_pages(HEAD, elevation)
    shapes = [m.points for m in page.marks if isinstance(m, Polyline) and m.fill in (0.0, 0.15)]
    named = [
        text for text in texts(page) if text.text in {stay.name for stay in elevation.stays if stay.name}
    ]
    assert len(named) == 4
    for text in named:
        assert not any(meet(box_mm(text), box_mm(other)) for other in named if other is not text)
        for shape in shapes:
            xs, ys = [x for x, _y in shape], [y for _x, y in shape]
            assert not meet(box_mm(text), (min(xs), min(ys), max(xs), max(ys)))
    scale = next(m for m in page.marks if isinstance(m, Line) and m.x1 == m.x2 and m.y2 - m.y1 > 100)
    thin = [m for m in page.marks if isinstance(m, Line) and m.y1 < m.y2 and m.x1 != m.x2]
    assert min(min(m.x1, m.x2) for m in thin) > scale.x1 + 1.0


def test_unknown_water_is_a_question_mark():
    """Nothing is printed in its place."""
    (page,) = elevation_pages(HEAD, replace(ELEVATION, rows=(replace(ELEVATION.rows[0], water_mm=None),)))
    assert "?" in words([page])


def test_the_measure_list_counts_in_words_and_groups_by_when():
    """Nine things, three groups, each box with its own name."""
    (page,) = measure_pages(HEAD, MEASURE)
    said = words([page])
    assert "Nine things the plan does not know" in said
    assert next(text for text in said if text.isupper() and "MAST" in text) == "WHILE THE MAST STANDS"
    assert {"ON TRESTLES", "1/4", "15 traced", "apart"} <= set(said)


def test_a_row_with_twenty_boxes_grows():
    """All twenty names stand in boxes of their own."""
    (page,) = measure_pages(HEAD, [replace(MEASURE[3], boxes=tuple(str(n) for n in range(100, 120)))])
    assert {str(n) for n in range(100, 120)} <= set(words([page]))
    assert faults(page) == []


def test_nothing_unknown_is_a_sheet_that_says_so():
    """The measure list is printed all the same."""
    (page,) = measure_pages(HEAD, ())
    assert "No things the plan does not know" in words([page])


def test_every_instruction_has_its_picture():
    """No row of the measure list stands without one."""
    assert {measure.picture for measure in instructions().values()} <= PICTURES.keys()


@pytest.mark.parametrize("name", sorted(PICTURES))
def test_a_picture_keeps_to_its_frame(name):
    """31 mm wide and 18 high, words too."""
    for mark in picture(name):
        if isinstance(mark, (Text, Rect)):
            points = [(mark.x, mark.y)]
        elif isinstance(mark, Line):
            points = [(mark.x1, mark.y1), (mark.x2, mark.y2)]
        else:
            points = [(mark.x, mark.y)] if isinstance(mark, Circle) else list(mark.points)
        assert all(-0.1 <= x <= 31.1 and -0.1 <= y <= 18.1 for x, y in points), mark


def test_findings_stand_loudest_first_with_their_numbers():
    """Faults, cautions, not checked, notes, accepted, then the owner's own limits."""
    (page,) = findings_pages(HEAD, FINDINGS[::-1], LIMITS)
    said = words([page])
    heads = ["1 FAULT", "1 CAUTION", "1 NOT CHECKED", "1 NOTE", "1 ACCEPTED", "LIMITS SET BY THE OWNER"]
    assert [text for text in said if text in heads] == heads
    assert {"−12", "20", "11.8", "clearance/stay"} <= set(said)
    assert any("1.0 deg instead of 0.5 deg" in text for text in said)


def test_a_hundred_findings_go_on_and_repeat_their_group():
    """Each sheet says of which group its first row is."""
    pages = findings_pages(HEAD, [FINDINGS[1]] * 100, ())
    assert len(pages) > 3
    assert words(pages).count("100 CAUTIONS, continued") == len(pages) - 1
    assert words(pages).count("hole/inside") == 100


def test_rules_that_did_not_run_are_named():
    """Not worked out is not passed."""
    said = words(findings_pages(HEAD, FINDINGS, (), not_run=("sails", "hole rules")))
    assert "Not worked out by this version: sails, hole rules." in said


def test_the_five_states_differ_in_shape():
    """No two signs are the same marks, so that a one-bit copy still tells them."""
    signs = [tuple(state_sign(s, 0, 0)) for s in ("fault", "caution", "not checked", "note", "accepted")]
    shapes = [tuple(type(mark).__name__ for mark in marks) for marks in signs]
    assert len(set(shapes)) == 5
