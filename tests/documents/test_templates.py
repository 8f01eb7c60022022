"""Templates read back from PDF, DXF and SVG against the skin unrolled by arithmetic of the tests' own."""

import io
import itertools
import math
from dataclasses import replace
from xml.etree import ElementTree as ET

import ezdxf
import numpy as np
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast
from read_back import TOLERANCE_MM, read
from shapely import LineString, Point
from sheet_check import faults, words
from template_cases import BIG, CASES, RAISED, plan_for, report_of

from mastlayout.checks import report
from mastlayout.checks.report import check
from mastlayout.documents.papers import papers
from mastlayout.documents.pdf import pdf
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.documents.template.dxf import template_dxf
from mastlayout.documents.template.pages import template_pages
from mastlayout.documents.template.svg import template_svg
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.layout import LimitOverride

PAPER_MM = 0.1


def drawn(svg):
    """Return a template's SVG as a tree."""
    return ET.fromstring(svg)  # noqa: S314 - bytes the program has just made


def freed(plan):
    """Return a plan with every rule run and nothing found: here the geometry is asked, not the rules."""

    def free(template):
        block = replace(template.block, fault=None)
        holes = [
            replace(hole, row=replace(hole.row, stop=None, wall_missing=False)) for hole in template.holes
        ]
        return replace(template, block=block, holes=tuple(holes))

    return replace(
        plan, head=replace(plan.head, holes_checked=True), templates=tuple(map(free, plan.templates))
    )


def pages_of(plan, paper="A4"):
    """Return the pages of a plan's templates."""
    return template_pages(plan.head, plan.templates, plan.no_templates, paper)


def by_hand(report):
    """Return for each hole by tag its place (right, up) on paper, from its point in space and a fine outline.

    The way round from ahead, or from the middle of the track for a foot that faces aft, is summed up over
    chords of the outline from the section's own points, moved out by half the paper; no taper.
    """
    placed = report.scene.placed["box-1"]
    ring = report.scene.skin.full
    outline = np.stack([ring.x, ring.y], -1)[::-1]
    port = LineString(outline)
    turned = np.unwrap(np.arctan2(ring.ny, ring.nx)[::-1])
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(outline, axis=0), axis=1))])
    x, y = placed.seats.origin[0, :2]
    aft = x < 0 and abs(y) <= abs(x)
    found = {}
    for opening, (x, y, z) in zip(placed.holes.openings, placed.holes.point[0], strict=True):
        from_ahead = port.project(Point(x, abs(y)))
        bent = PAPER_MM / 2 * (np.interp(from_ahead, way, turned) - (turned[-1] if aft else turned[0]))
        right = from_ahead + bent if not aft else -(from_ahead - port.length + bent)
        found[f"13.{opening.number}"] = (math.copysign(right, -y if aft else y), float(z) - placed.z_mm)
    return found


UNTAPERED = [name for name in CASES if name != "on the taper"]


# Every case on A4; on the other papers those that are cut otherwise there.
PRINTED = [(name, "A4") for name in UNTAPERED]
PRINTED += [(name, paper) for name in ("tall", "wide") for paper in ("Letter", "A3")]


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_every_centre_mark_lies_on_its_hole(name, paper):
    """Over all sheets of a template together: each hole once at least, no mark where no hole is."""
    report = report_of(name)
    plan = freed(plan_of(report, "metric", "2026-11-25"))
    expected = by_hand(report)
    seen = set()
    maps = [page for page in pages_of(plan, paper) if not any("Straps:" in text for text in words([page]))]
    for right, up in places_on_sheets(read(pdf(maps, "x"))):
        near = [tag for tag, at in expected.items() if math.dist(at, (right, up)) < TOLERANCE_MM]
        assert len(near) == 1, (right, up, expected)
        seen |= set(near)
    assert seen == set(expected)


def places_on_sheets(sheets):
    """Return every centre mark (right, up) of a template, from its line and from its foot's own height.

    Sheets without them are laid on their neighbours, joining mark on joining mark, as on the mast.
    """
    placed = [(0.0, 0.0)]
    for before, after in itertools.pairwise(sheets):
        dx, dy = shift(before, after)
        placed.append((placed[-1][0] + dx, placed[-1][1] + dy))
    strokes = [
        (x + dx, y + dy)
        for sheet, (dx, dy) in zip(sheets, placed, strict=True)
        for x, y in sheet.level(12.0, 0.7)
    ]
    x0, y0 = strokes[0]
    assert all(math.dist(stroke, (x0, y0)) < TOLERANCE_MM for stroke in strokes)
    return [
        (x + dx - x0, y0 - y - dy)
        for sheet, (dx, dy) in zip(sheets, placed, strict=True)
        for x, y in sheet.marks()
    ]


def shift(before, after):
    """Return by how much a sheet is moved so that its own cut lies where the one before it has it marked."""
    theirs, mine = diamonds(before), diamonds(after)
    if not theirs or not mine:
        return 0.0, 0.0
    # A cut is marked at both its ends: the two marks of one sheet's last joint, the other's first.
    level = sum(abs(theirs[0][1] - y) < 0.05 for _x, y in theirs) > 1
    order = (lambda at: (at[1], at[0])) if level else (lambda at: (at[0], at[1]))
    (a, b), (c, d) = sorted(theirs, key=order)[-2:], sorted(mine, key=order)[:2]
    assert math.dist((b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])) < TOLERANCE_MM
    return a[0] - c[0], a[1] - c[1]


def diamonds(sheet):
    """Return the joining marks between sheets."""
    return [(x, y) for x, y, radius in sheet.circles if abs(radius - 4.2) < 0.02]


@pytest.mark.parametrize("name", CASES)
def test_every_text_has_its_place(name):
    """Inside the block, over no other text, 7 pt at least; drilled or stopped, metric or in inches."""
    plan, inches = plan_for(name), plan_for(name, "inches")
    for pages in (pages_of(plan), pages_of(freed(plan), "A3"), pages_of(freed(inches), "Letter")):
        assert [fault for page in pages for fault in faults(page)] == []


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_every_sheet_has_both_bars_and_each_is_100_mm(paper):
    """To 0.05 mm as read back, on the sheets of the straps too."""
    for sheet in read(pdf(pages_of(freed(plan_for("ahead")), paper), "x")):
        assert len(sheet.level(100.0, 0.5)) == 1
        assert len(sheet.upright(100.0, 0.5)) == 1


# Practice of the trade, the same table as in test_lying_mast.py: the face that is up, what is on the
# left and on the right of somebody at the heel, who lays the sheet down with its bar to the masthead.
HANDS = {
    "ahead": ("STARBOARD", "PORT"),
    "aft, groove": ("PORT", "STARBOARD"),
    "aft, raised track": ("PORT", "STARBOARD"),
}


@pytest.mark.parametrize("name", HANDS)
def test_port_and_starboard_lie_as_on_the_mast(name):
    """The words, and the holes: what lies to port in space is marked on port's side of the line."""
    report = report_of(name)
    plan = freed(plan_of(report, "metric", ""))
    sheet = read(pdf(pages_of(plan)[:1], "x"), words=True)[0]
    left, right = (sheet.word(word) for word in HANDS[name])
    x0, y0 = sheet.level(12.0, 0.7)[0]
    assert left[2] < x0 < right[0]
    port_is_right = HANDS[name][1] == "PORT"
    placed = report.scene.placed["box-1"]
    marks = sheet.marks()
    for _x, y, z in placed.holes.point[0]:
        same_height = [x - x0 for x, at in marks if abs(y0 - at - (z - placed.z_mm)) < 0.05]
        assert any((off > 0) == ((y > 0) == port_is_right) for off in same_height)


@pytest.mark.parametrize(("name", "line_is_left"), [("port", True), ("starboard", False)])
def test_a_foot_on_a_side_has_the_forward_line_on_its_own_hand(name, line_is_left):
    """Port side up: the forward face is on the left of somebody at the heel; starboard up: on the right."""
    sheet = read(pdf(pages_of(freed(plan_for(name)))[:1], "x"), words=True)[0]
    line = sheet.level(12.0, 0.7)[0][0]
    assert all((x > line) == line_is_left for x, _y in sheet.marks())
    assert sheet.word("PORT" if line_is_left else "STARBOARD") is not None


@pytest.mark.parametrize(
    ("name", "corner_is_right"), [("ahead", True), ("port", True), ("aft, groove", False)]
)
def test_the_corner_to_cut_off_lies_to_port_at_the_masthead(name, corner_is_right):
    """A mirrored print has it to starboard; the black bar ends short of it."""
    page = pages_of(freed(plan_for(name)))[0]
    sheet = read(pdf([page], "x"), words=True)[0]
    corner, bar = sheet.word("corner"), sheet.word("MASTHEAD")
    middle = page.size_mm[0] / 2
    assert (corner[0] > middle) == corner_is_right
    assert bar[1] < corner[1] < 40.0


def test_a_hole_that_may_not_be_drilled_has_no_mark_in_any_file():
    """An open fault of the fitting stops all its holes: squares with STOP, no hairlines, no circles."""
    plan = plan_for("aft, raised track")
    template = plan.templates[0]
    assert template.block.fault is not None
    checked = replace(plan.head, holes_checked=True)
    sheet = read(pdf(template_pages(checked, plan.templates, ())[:1], "x"), words=True)[0]
    assert sheet.marks() == []
    assert sum(word[0] == "STOP" for word in sheet.words) == len(template.holes)
    drawing = ezdxf.read(io.StringIO(template_dxf(checked, template).decode()))
    assert len(drawing.modelspace().query("CIRCLE")) == 0
    assert not list(drawn(template_svg(checked, template)).iter("{http://www.w3.org/2000/svg}circle"))


def test_until_the_hole_rules_have_run_every_map_says_so(monkeypatch):
    """The drilling schedule's own words; once they have run they are gone."""
    banner = "HOLE RULES NOT CHECKED: DO NOT DRILL FROM THIS PAGE"
    assert banner not in words(pages_of(plan_for("ahead")))
    monkeypatch.setattr(report, "NOT_RUN", ("hole rules",))
    plan = plan_for("ahead")
    assert banner in words(pages_of(plan)[:1])
    assert banner not in words(pages_of(freed(plan)))


@pytest.mark.parametrize("name", UNTAPERED)
def test_the_drawings_hold_the_same_holes(name):
    """DXF passes the library's audit; circles of both drawings lie where the holes do, to 0.05 mm."""
    report = report_of(name)
    plan = freed(plan_of(report, "metric", "2026-11-25"))
    (template,) = plan.templates
    expected = by_hand(report)
    drawing = ezdxf.read(io.StringIO(template_dxf(plan.head, template).decode()))
    audit = drawing.audit()
    assert not audit.errors
    assert not audit.fixes
    assert drawing.header["$INSUNITS"] == 4  # millimetres, as the format numbers them
    found = drawing.modelspace().query('CIRCLE[layer=="HOLES"]')
    circles = [(*c.dxf.center.xyz[:2], c.dxf.radius) for c in found]
    tree = drawn(template_svg(plan.head, template))
    groups = {g.get("id"): g for g in tree.iter("{http://www.w3.org/2000/svg}g")}
    # y runs down in SVG.
    svg = [
        (float(c.get("cx")), -float(c.get("cy")), float(c.get("r")))
        for c in groups["holes"].iter("{http://www.w3.org/2000/svg}circle")
    ]
    for found in (circles, svg):
        assert len(found) == len(expected)
        for hole in template.holes:
            at, radius = expected[hole.row.tag], hole.row.drill_mm / 2
            assert any(math.dist(at, (x, y)) < TOLERANCE_MM and abs(r - radius) < 1e-3 for x, y, r in found)
    assert tree.get("width").endswith("mm")
    wide = float(tree.get("width").removesuffix("mm"))
    assert float(tree.get("viewBox").split()[2]) == pytest.approx(wide)


def test_the_strap_ends_where_the_track_begins():
    """At the edge of the groove or of the raised track, and 0.157 mm more for the paper's thickness."""
    plan = freed(plan_for("ahead"))
    (template,) = plan.templates
    half = report_of("ahead").scene.skin.full.half_girth_mm
    # At the edge of the groove the skin of an ellipse has not quite turned half round.
    assert template.edge_mm == pytest.approx(half - 2.5 + 0.157, abs=0.01)
    raised = freed(plan_for("starboard")).templates[0]
    half = report_of("starboard").scene.skin.full.half_girth_mm
    # The flat back of the box has turned wholly round.
    assert raised.edge_mm == pytest.approx(half - 16.0 + 0.157, abs=0.02)
    said = words(pages_of(freed(plan_for("starboard"))))
    assert any(
        "The gap to the track must be 0 to 2 mm" in " ".join(said[i : i + 2]) for i in range(len(said))
    )


def test_the_papers_thickness_is_a_setting():
    """Card of 0.3 mm is 0.47 mm longer in half the girth, and the sheet says for which it is drawn."""
    own = LimitOverride(key="template.paper", value=0.3, unit="mm", why="we print on card")
    plan = plan_for("ahead", limits=(own,))
    assert plan.templates[0].longer_mm == pytest.approx(math.pi / 2 * 0.3, abs=1e-6)
    assert any("paper 0.30 mm thick: 0.47 mm longer" in text for text in words(pages_of(plan)))


def left_out(foot, units="metric", **fitting):
    """Return what a plan says of the one foot that has no template, and its papers."""
    layout = a_layout(kinds=(a_kind(),), fittings=(a_fitting(in_hand=foot, tag=13, **fitting),))
    report = check(build(layout))
    return plan_of(report, units, "").no_templates, papers(report, units=units)


def test_a_foot_wider_than_the_girth_gets_a_sentence_and_the_other_papers_are_made():
    """Girth 524 round the mast; a foot of 600 would meet itself."""
    (one,), made = left_out(a_foot(across_mm=600))
    assert one.why == "Its foot is 600 round, the mast 524: it would meet itself. Measure foot and mast."
    assert {"test-drill.pdf", "test-templates.pdf", "test-elevation.pdf"} <= {paper.name for paper in made}
    assert not [paper for paper in made if paper.name.endswith((".dxf", ".svg"))]


@pytest.mark.parametrize(
    ("foot", "fitting", "said"),
    [
        (None, {}, "Its foot is typical"),
        (a_foot(), {"from_masthead_mm": 10.0}, "Its foot hangs over the end of the mast"),
        (a_foot(holes=()), {}, "Its foot has no hole"),
    ],
)
def test_why_there_is_no_template(foot, fitting, said):
    """A sentence each, on a list of its own."""
    (one,), made = left_out(foot, **fitting)
    assert one.why.startswith(said)
    assert "test-templates.pdf" in {paper.name for paper in made}


def test_a_hole_outside_its_foot_and_a_foot_over_the_track_are_said_on_the_sheet():
    """The template is printed all the same; a cable entry may lie outside, most do."""
    far = [{"across_mm": 80.0, "along_mm": 0.0, "fastener": "M6 tapped"}]
    entry = {"across_mm": 0, "along_mm": -50, "diameter_mm": 10}
    layout = a_layout(fittings=(a_fitting(in_hand=a_foot(holes=far, entry=entry), tag=13, girth="aft"),))
    plan = plan_of(check(build(layout)), "metric", "")
    assert plan.templates[0].warnings == (
        "13.1 lies outside its foot. Measure the part again.",
        "The foot lies over the track: paper cannot lie there. Offer up the part.",
    )
    said = " ".join(words(pages_of(plan)))
    assert all(warning in said for warning in plan.templates[0].warnings)


def test_a_hole_that_no_sheet_can_show_is_said():
    """A foot on the starboard quarter reaches over the track: the hole there is named, two are marked."""
    holes = [{"across_mm": a, "along_mm": 0.0, "fastener": "M6 tapped"} for a in (-150.0, 0.0, 90.0)]
    foot = a_foot(across_mm=330, holes=holes)
    layout = a_layout(fittings=(a_fitting(in_hand=foot, tag=13, girth="bearing 130"),))
    plan = freed(plan_of(check(build(layout)), "metric", ""))
    said = [words for words in plan.templates[0].warnings if "beyond the edge of the track" in words]
    assert [words.split()[0] for words in said] == ["13.1"]
    maps = [page for page in pages_of(plan) if not any("Straps:" in text for text in words([page]))]
    marks = {(round(x), round(y)) for x, y in places_on_sheets(read(pdf(maps, "x")))}
    assert len(marks) == 2


def test_a_hole_in_the_track_has_no_mark():
    """In the middle of a groove nothing can be punched: a square, and “on the track”."""
    holes = [{"across_mm": a, "along_mm": 0.0, "fastener": "M6 tapped"} for a in (-30.0, 0.0, 30.0)]
    layout = a_layout(fittings=(a_fitting(in_hand=a_foot(holes=holes), tag=13, girth="aft"),))
    plan = freed(plan_of(check(build(layout)), "metric", ""))
    assert len(read(pdf(pages_of(plan)[:1], "x"))[0].marks()) == 2
    assert "on the track: no mark here" in words(pages_of(plan))


NAMES = ["<b>Horn</b> & Söhne", "=1+1", "%%uHorn^J", "W" * 200, "Horn\x07 bell"]


@pytest.mark.parametrize("name", NAMES)
def test_any_name_is_written_as_it_is(name):
    """On paper, in DXF and in SVG, whatever its letters mean there."""
    layout = a_layout(
        boat=Boat(name=name, heel_above_water_mm=0.0),
        fittings=(a_fitting(name=name, in_hand=a_foot(), tag=13),),
    )
    plan = freed(plan_of(check(build(layout)), "metric", ""))
    for page in pages_of(plan):
        assert faults(page) == []
    (template,) = plan.templates
    title = drawn(template_svg(plan.head, template)).find("{http://www.w3.org/2000/svg}title").text
    assert title == f"{name}, 13 {name}".replace("\x07", " ")
    drawing = ezdxf.read(io.StringIO(template_dxf(plan.head, template).decode()))
    assert not drawing.audit().errors
    written = [text.plain_text() for text in drawing.modelspace().query("TEXT")]
    whole = name.replace("\x07", " ").replace("%%", "% %")
    assert any(whole in text for text in written)


def test_two_fittings_of_one_tag_have_files_of_their_own():
    """Named by their ids as well."""
    pair = (
        a_fitting(tag=13, in_hand=a_foot()),
        a_fitting("box-2", tag=13, in_hand=a_foot(), from_masthead_mm=9000.0),
    )
    made = papers(check(build(a_layout(fittings=pair))))
    names = [paper.name for paper in made]
    assert len(set(names)) == len(names)
    assert {"test-template-box-1.dxf", "test-template-box-2.svg"} <= set(names)


def test_two_printings_are_the_same_bytes():
    """The PDF, the DXF and the SVG."""
    first, second = (papers(report_of("tall"), day="2026-11-25") for _time in range(2))
    assert first == second
    assert sum(paper.name.endswith((".dxf", ".svg")) for paper in first) == 2


def test_a_tapered_template_bends_its_level_lines_and_a_straight_one_does_not():
    """The ends of a ring lie higher on paper than its middle: it is a cone that closes in to the masthead."""
    for name, bent in (("on the taper", True), ("port", False)):
        for rung in plan_for(name).templates[0].rungs:
            ups = [up for _right, up in rung.ring]
            assert (max(ups) - min(ups) > 0.3) == bent
            assert min(ups) == pytest.approx(rung.up_mm, abs=1e-6)


@pytest.mark.parametrize("raised", [True, False])
def test_where_paper_cannot_lie_it_is_cut(raised):
    """Over a raised track the sheet is cut at both its edges; over a groove paper lies."""
    section = {"section": BIG} | ({"track": RAISED} if raised else {})
    layout = a_layout(mast=a_mast(**section), fittings=(a_fitting(in_hand=a_foot(), tag=13, girth="aft"),))
    said = words(pages_of(freed(plan_of(check(build(layout)), "metric", ""))))
    assert said.count("cut here: the track stands") == (2 if raised else 0)
