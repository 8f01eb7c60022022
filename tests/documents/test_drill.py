"""The drilling schedule: what is printed where, what has no box, what goes on which sheet."""

from dataclasses import replace

import pytest
from sample_plan import DRILL, FAULT, HEAD, RADOME, REFLECTOR, box, hailer, hole, horn
from sheet_check import texts, words

from mastlayout.documents.drill import drill_pages, drill_stops
from mastlayout.documents.faces import neighbours, seen_from_heel
from mastlayout.documents.page import Line, Rect, Text
from mastlayout.documents.rows import FootPicture
from mastlayout.geometry.frames import hand_of, reading, round_reading

CHECKED = replace(HEAD, holes_checked=True)
BOX_MM = 7.5


def placed(pages, text):
    """Return the one text of the pages that reads so."""
    found = [mark for page in pages for mark in texts(page) if mark.text.replace("\u202f", "") == text]
    assert found, text
    return found[0]


def boxes(page):
    """Return the boxes to tick, by their left edges."""
    return [
        mark
        for mark in page.marks
        if isinstance(mark, Rect) and mark.width == BOX_MM and mark.height == BOX_MM
    ]


def column(page, left, right):
    """Return the boxes to tick between two edges of the sheet."""
    return [mark for mark in boxes(page) if left <= mark.x and mark.x + mark.width <= right]


def test_nine_rows_two_fittings_and_three_notes_fill_one_sheet():
    """A tenth row sends the second fitting to the next sheet, whole."""
    assert [len(stop.blocks) for stop in drill_stops([hailer(), horn()])] == [2]
    more = replace(horn(), rows=(*horn().rows, horn().rows[-1]))
    assert [[block.tag for block in stop.blocks] for stop in drill_stops([hailer(), more])] == [
        ["13"],
        ["14"],
    ]


def test_a_fitting_of_29_holes_goes_on_with_its_heading():
    """Its rows stand on three sheets, in order, the later ones saying that they continue."""
    rows = tuple(hole(f"50.{n}", 12000 + 50 * n, 0, 12700, drill_mm=5.0) for n in range(1, 30))
    track = replace(hailer(), tag="50", rows=rows, notes=(), foot=FootPicture(box(32, 1500)))
    stops = drill_stops([track])
    assert [row.tag for stop in stops for row in stop.blocks[0].rows] == [row.tag for row in rows]
    assert [stop.blocks[0].continued for stop in stops] == [False, True, True]
    assert sum("(continued)" in text for text in words(drill_pages(HEAD, [track]))) == 2


def test_a_new_face_is_a_new_sheet_and_the_masthead_comes_first():
    """Forward face before the track, each from the masthead down."""
    aft = replace(RADOME, face="aft", tag="20")
    stops = drill_stops([horn(), aft, REFLECTOR])
    assert [[block.tag for block in stop.blocks] for stop in stops] == [["15", "14"], ["20"]]
    assert [stop.number for stop in stops] == [1, 1]


def test_unchecked_rules_take_every_box_to_drill_deburr_and_fasten():
    """The banner stands across and down the sheet; only the boxes to mark and read again are left."""
    (page,) = drill_pages(HEAD, [hailer(), horn()])
    assert "HOLE RULES NOT CHECKED: DO NOT DRILL FROM THIS PAGE" in words([page])
    assert any(text.turn_deg == 90 and "DO NOT DRILL" in text.text for text in texts(page))
    assert len(column(page, 122, 131)) == 9
    assert len(column(page, 174, 183)) == 9
    assert len(boxes(page)) == 18


def test_a_checked_sheet_has_a_box_at_the_end_of_each_step():
    """Nine holes, five of them stopped: four drill, deburr and fasten boxes are left."""
    (page,) = drill_pages(CHECKED, [hailer(), horn()])
    assert [len(column(page, a, b)) for a, b in ((122, 131), (174, 183))] == [9, 9]
    assert [len(column(page, a, b)) for a, b in ((206, 215), (215, 224), (250, 259))] == [4, 4, 4]
    assert words([page]).count("STOP") == 5
    assert not any("NOT CHECKED" in text for text in words([page]))


def test_an_open_fault_takes_even_the_boxes_to_mark():
    """The reflector's centre row has no box to tick at all."""
    (page,) = drill_pages(CHECKED, [REFLECTOR])
    assert not boxes(page)
    assert "OPEN FAULT" in words([page])
    (page,) = drill_pages(CHECKED, [replace(hailer(), fault=FAULT)])
    assert not boxes(page)


@pytest.mark.parametrize("lacking", [{"drill_mm": None}, {"wall_missing": True}])
def test_no_drill_or_no_wall_is_no_box(lacking):
    """Even where no finding stopped the hole."""
    row = replace(hailer().rows[0], **lacking)
    (page,) = drill_pages(CHECKED, [replace(hailer(), rows=(row,))])
    assert not column(page, 206, 259)
    assert "STOP" in words([page])


def test_a_typical_foot_prints_its_centre_and_no_hole():
    """OFFER UP THE PART, one row, boxes for what the part in hand will say."""
    (page,) = drill_pages(CHECKED, [RADOME])
    said = words([page])
    assert {"OFFER UP", "THE PART", "9160", "8140", "foot across", "wall here"} <= set(said)
    assert not any(text.startswith("12.") for text in said)


def test_starboard_stands_left_of_the_line_and_port_right_of_it():
    """Forward face up: 30.0 to starboard ends left of 100 mm, 44.0 to port begins right of it."""
    pages = drill_pages(HEAD, [hailer()])
    left, right = placed(pages, "30.0"), placed(pages, "86.5")
    assert left.anchor == "end"
    assert left.x < 100
    assert right.x < 100
    number = [text for text in texts(pages[0]) if text.text == "44.0" and text.anchor == "start"]
    assert number[0].x > 100


def test_on_the_track_port_stands_left():
    """Track up: the number counts from the track's edge, the second reading from the forward line."""
    girth = round_reading(-27.0, 273.5, 2.5)  # 27 to port of the middle: 24.5 off its edge
    row = replace(hailer().rows[0], round=girth)
    pages = drill_pages(HEAD, [replace(hailer(), face="aft", rows=(row,))])
    number = placed(pages, "24.5")
    assert number.anchor == "end"
    assert number.x < 100
    assert placed(pages, "246.5").size_pt < 12
    assert "from FORWARD LINE" in words(pages)


@pytest.mark.parametrize(
    ("face", "left", "right"),
    [
        ("forward", "starboard", "port"),
        ("aft", "port", "starboard"),
        ("port", "forward", "aft"),
        ("starboard", "aft", "forward"),
    ],
)
def test_the_end_view_is_what_a_person_at_the_heel_sees(face, left, right):
    """Forward face up: starboard on the left; the section is turned the same way."""
    assert neighbours(face) == (left, right)
    ahead, port = seen_from_heel((1.0, 0.0), face), seen_from_heel((0.0, 1.0), face)
    for side, seen in (("forward", ahead), ("port", port)):
        hand = hand_of(side, face, "heel")
        assert (seen[0] > 0.5) == (hand == "right")
        assert (seen[0] < -0.5) == (hand == "left")


def test_both_pairs_of_readings_sum_to_their_column_heads():
    """Masthead and heel to 17300, round and track edge to 271.0, in every row."""
    for block in (hailer(), horn()):
        for row in block.rows:
            assert row.height.masthead + row.height.heel == 17300
            assert row.round.forward + row.round.track_edge == 542
    said = words(drill_pages(HEAD, [hailer(), horn()]))
    assert {"sum 17300", "sum 271.0"} <= set(said)


def test_an_inches_sheet_is_all_feet_and_inches_and_sums_in_sixteenths():
    """9667 mm are 6089 sixteenths, 31-8 9/16; 17300 are 10898, 56-9 1/8: 25-0 9/16 from the heel."""
    head = replace(HEAD, units="inches", total=reading(0, 17300, "inches"))
    pages = drill_pages(head, [hailer("inches")])
    said = words(pages)
    assert {"31-8 ", "9/16", "25-0 ", "sum 56-9 1/8", "0.197 in", "5.0"} <= set(said)
    assert not {"9667", "7633", "30.0"} & set(said)
    row = hailer("inches").rows[0]
    assert row.height.masthead == round(9667 / 25.4 * 16) == 6089
    assert row.height.masthead + row.height.heel == row.height.total == round(17300 / 25.4 * 16)


def test_a_sheet_of_a_taper_names_the_sum_in_each_row():
    """Half the girth differs from row to row, so no head can hold it."""
    first, second = hailer().rows[:2]
    rows = (first, replace(second, round=round_reading(-240.0, 270.0, 2.5)))
    said = words(drill_pages(HEAD, [replace(hailer(), rows=rows)]))
    assert {"sum in each row", "of 271.0", "of 267.5"} <= set(said)


def test_without_a_track_there_is_no_second_reading_round():
    """Nobody measured the track's width: nothing is printed in its place."""
    said = words(drill_pages(HEAD, [replace(hailer(), half_track=None)]))
    assert "241.0" not in said
    assert any("track not measured" in text for text in said)


def test_the_line_of_the_map_opens_for_on_line():
    """No line runs through the words."""
    (page,) = drill_pages(HEAD, [horn()])
    on_line = placed([page], "ON LINE")
    for mark in page.marks:
        if isinstance(mark, Line) and mark.x1 == mark.x2 == on_line.x:
            assert not min(mark.y1, mark.y2) < on_line.y - 1.5 < max(mark.y1, mark.y2)


def test_notes_stand_under_letters_and_each_letter_is_used():
    """A stopped row, a heading and the list of notes name the same letter."""
    (page,) = drill_pages(CHECKED, [hailer(), horn()])
    said = words([page])
    assert said.count("note a") == 1
    assert said.count("note c") == 4
    assert {"a", "b", "c"} <= set(said)


def test_nothing_to_drill_is_no_sheet():
    """No empty drill sheet is printed."""
    assert drill_pages(HEAD, ()) == []


def test_a_name_of_200_letters_stands_whole_in_a_note():
    """The heading shows its beginning, the note all of it, over two lines at most."""
    name = "Bracket " * 25
    pages = drill_pages(HEAD, [replace(hailer(), name=name)])
    noted = " ".join(text for text in words(pages) if "Bracket" in text)
    assert noted.count("Bracket") >= 25


def test_user_text_is_never_cut_from_the_tag():
    """A tag of four figures stands whole in its badge and before its holes."""
    rows = tuple(replace(row, tag=f"1234.{n}") for n, row in enumerate(hailer().rows, 1))
    said = words(drill_pages(HEAD, [replace(hailer(), tag="1234", rows=rows), *DRILL]))
    assert {"1234", "1234.1", "1234.5"} <= set(said)


def test_sizes_follow_the_distance_they_are_read_from():
    """Numbers to mark by at 18 pt, to read again at 11.5, nothing under 7."""
    (page,) = drill_pages(HEAD, [hailer()])
    by_text = {text.text.replace("\u202f", ""): text for text in texts(page) if isinstance(text, Text)}
    assert by_text["9667"].size_pt == 18
    assert by_text["7633"].size_pt == 11.5
    assert by_text["13.1"].size_pt == 13.5


def test_an_unmeasured_track_is_nothing_to_mark_from():
    """Track up without its width: the one reading round counts from the forward line."""
    girth = round_reading(-27.0, 273.5, 0.0)
    row = replace(hailer().rows[0], round=girth)
    pages = drill_pages(HEAD, [replace(hailer(), face="aft", half_track=None, rows=(row,))])
    assert placed(pages, "246.5").size_pt == 18
    assert "round from forward centreline" in words(pages)
