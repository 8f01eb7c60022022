"""The sheet of lights: its rings against what the core found, nothing over anything, nothing off the page."""

import math
from dataclasses import replace

import known
import pytest
from builders import a_layout

from mastlayout.checks.report import check
from mastlayout.documents.compass import at, compass
from mastlayout.documents.lettering import box_mm
from mastlayout.documents.lights import lights_pages
from mastlayout.documents.page import Circle, Polyline, Text
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.geometry.scene import build


@pytest.fixture(scope="module")
def plans():
    """The plans of the three yachts by name, in metres and in inches."""
    return {name: (plan_of(one), plan_of(one, "inches")) for name, one in known.reports().items()}


def test_a_mast_without_lights_has_no_sheet():
    """Nothing to say, no paper."""
    plan = plan_of(check(build(a_layout())))
    assert plan.lights is None
    assert lights_pages(plan.head, plan.lights) == []


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_all_of_it_is_on_the_page(plans, paper):
    """Every word within the block, no two words over one another below the picture."""
    for pair in plans.values():
        for plan in pair:
            for page in lights_pages(plan.head, plan.lights, paper):
                width, height = page.block_mm
                words = [mark for mark in page.marks if isinstance(mark, Text)]
                boxes = [box_mm(text) for text in words]
                assert all(
                    x >= -0.5 and y >= -0.5 and r <= width + 0.5 and b <= height + 0.5 for x, y, r, b in boxes
                )


def test_no_letter_lies_on_another_nor_on_what_is_anothers_alone(plans):
    """A letter stands clear, or on its own wedge: the smaller of two may lie within the larger."""
    for plan, _inches in plans.values():
        for one in plan.lights.rings:
            marks = list(compass([one], (0.0, 0.0), 56.0))
            words = [m for m in marks if isinstance(m, Text) and "°" not in m.text]
            for count, text in enumerate(words):
                assert all(math.hypot(text.x - o.x, text.y - o.y) > 2.2 for o in words[:count])
            for item in one.things:
                (text,) = [m for m in words if m.text == item.letter]
                turn = math.degrees(math.atan2(text.x, -(text.y - 1.0))) % 360

                def covers(thing, turn=turn):
                    first, last = thing.seen
                    return (turn - first) % 360 < (last - first) % 360

                others = [other for other in one.things if other is not item and covers(other.thing)]
                assert not others or covers(item.thing)


def test_a_table_is_not_parted_from_its_heads(plans):
    """Each page that has rows has the heads over them; one page holds all of a yacht's lights."""
    for pair in plans.values():
        for plan in pair:
            (page,) = lights_pages(plan.head, plan.lights)
            words = [m.text for m in page.marks if isinstance(m, Text)]
            assert words.count("needed NM") == 1
    plan, _inches = plans["whimbrel"]
    many = replace(plan.lights, rings=plan.lights.rings * 4, rows=plan.lights.rows * 12)
    for page in lights_pages(plan.head, many):
        words = [m for m in page.marks if isinstance(m, Text)]
        rows = [m for m in words if m.text in ("anchor light", "sternlight", "steaming light")]
        heads = [m for m in words if m.text == "needed NM"]
        assert len(heads) == bool(rows)
        assert all(m.y > heads[0].y for m in rows)
    told = [m.text for page in lights_pages(plan.head, many) for m in page.marks if isinstance(m, Text)]
    assert told.count("sternlight") == 12
    assert told.count("AIS whip stands before it, 086° to 094°") == 4


def test_every_light_and_thing_is_told(plans):
    """Each ring's title, each thing's line, a row for each light with what the rules ask."""
    plan, _inches = plans["whimbrel"]
    words = [
        m.text for page in lights_pages(plan.head, plan.lights) for m in page.marks if isinstance(m, Text)
    ]
    for one in plan.lights.rings:
        assert one.title in " ".join(words)
        assert all(item.line in words for item in one.things)
    assert {"anchor light", "port sidelight", "starboard sidelight", "sternlight", "steaming light"} <= set(
        words
    )
    assert "VHF whip, 207° to 213°: dimmed, 42 % of the lens covered" in words


def test_unknown_plate_is_a_question_mark(plans):
    """Nobody read Turnstone's plate, so nobody guesses it."""
    plan, _inches = plans["turnstone"]
    (row,) = [row for row in plan.lights.rows if row[1] == "steaming light"]
    assert row[3] == "?"


def test_wedges_lie_where_their_bearings_are(plans):
    """Ahead is up, starboard right: the whip at bearing 210 stands below the middle, to the left."""
    plan, _inches = plans["whimbrel"]
    marks = list(compass(plan.lights.rings[:1], (0.0, 0.0), 50.0))
    letter = next(mark for mark in marks if isinstance(mark, Text) and mark.text == "b")
    assert letter.x < 0 < letter.y
    assert at((0.0, 0.0), 1.0, 90.0) == pytest.approx((1.0, 0.0), abs=1e-9)
    filled = [mark for mark in marks if isinstance(mark, Polyline) and mark.fill == 0.0]
    turns = [math.degrees(math.atan2(x, -y)) % 360 for x, y in filled[1].points]
    assert min(turns) == pytest.approx(206.7, abs=0.2)
    assert max(turns) == pytest.approx(213.4, abs=0.2)
    assert any(isinstance(mark, Circle) for mark in marks)
