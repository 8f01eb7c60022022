"""Every hole of each example on paper and in the spreadsheet, against the scene by arithmetic of its own."""

import io

import known
import openpyxl
import pdfplumber
import pytest

from mastlayout.documents.papers import papers
from mastlayout.fastening.drill import drill_mm
from mastlayout.geometry.frames import height_mm
from mastlayout.resources import demo_masts

DEMOS = sorted(demo_masts().glob("*.toml"))


@pytest.fixture(scope="module", params=DEMOS, ids=lambda path: path.stem)
def printed(request):
    """The scene of an example and its papers by ending."""
    desk = known.a_desk(request.param.stem)
    made = {paper.name.split("-", 1)[1]: paper.data for paper in papers(desk.report, day="2026-11-25")}
    return desk.scene, made


def expected(scene):
    """Return for each hole that may be printed: tag, masthead, heel, forward girth, edge girth, side.

    Masthead and length are rounded once and the heel is what is left; the girth from ahead to
    0.5 mm, the track's edge what is left of half the girth less half the track.
    """
    length = round(scene.skin.length_mm)
    for placed in scene.placed.values():
        if not placed.fitting.new or not placed.foot_known or placed.holes is None:
            continue
        for i, opening in enumerate(placed.holes.openings):
            z, girth = float(placed.holes.z_mm[0, i]), float(placed.holes.girth_mm[0, i])
            half = scene.skin.ring(z).half_girth_mm
            masthead = round(height_mm(scene.skin.length_mm, z))
            forward = round((half - abs(girth)) * 2) / 2
            edge = round(half * 2) / 2 - round((scene.skin.half_track_mm or 0) * 2) / 2 - forward
            side = "on the forward centreline" if forward == 0 else "starboard" if girth > 0 else "port"
            tag = f"{placed.fitting.tag}.{opening.number}"
            yield tag, masthead, length - masthead, forward, edge, side, drill_mm(opening)


def test_there_is_something_to_print(printed):
    """Each example has at least one foot in hand, so that the checks below have holes to hold."""
    scene, _made = printed
    assert list(expected(scene))


def test_every_hole_row_of_the_pdf_is_the_scenes(printed):
    """The words on the line of a hole's tag are its readings, and the two tapes sum to the length."""
    scene, made = printed
    lines = {}
    with pdfplumber.open(io.BytesIO(made["drill.pdf"])) as file:
        for page in file.pages:
            words = page.extract_words(use_text_flow=True)
            for word in words:
                band = [w["text"] for w in words if abs(w["bottom"] - word["bottom"]) < 14]
                lines.setdefault(word["text"], []).append(band)
    for tag, masthead, heel, forward, edge, _side, _drill in expected(scene):
        bands = lines.get(tag)
        assert bands, tag
        wanted = {str(masthead), str(heel), f"{edge:.1f}"} | (set() if forward == 0 else {f"{forward:.1f}"})
        assert any(wanted <= set(band) for band in bands), (tag, wanted, bands)
        assert masthead + heel == round(scene.skin.length_mm)


def test_every_hole_row_of_the_spreadsheet_is_the_scenes(printed):
    """The row of a tag holds the same numbers, and no hole of the scene is left out."""
    scene, made = printed
    sheet = openpyxl.load_workbook(io.BytesIO(made["schedule.xlsx"]))["Drill"]
    head, *rows = list(sheet.iter_rows(values_only=True))
    by_tag = {str(row[0]): dict(zip(head, row, strict=True)) for row in rows if row[0] is not None}
    for tag, masthead, heel, forward, edge, side, drill in expected(scene):
        row = list(by_tag[tag].values())
        for number in (masthead, heel, masthead + heel, forward, edge):
            assert any(isinstance(cell, (int, float)) and cell == number for cell in row), (tag, number, row)
        assert side in " ".join(str(cell).lower() for cell in row)
        assert drill is None or any(cell == drill for cell in row if isinstance(cell, (int, float)))


def test_no_hole_of_a_typical_foot_is_printed(printed):
    """Until the part is in hand its centre is printed, its holes are not."""
    scene, made = printed
    with pdfplumber.open(io.BytesIO(made["drill.pdf"])) as file:
        text = {word["text"] for page in file.pages for word in page.extract_words(use_text_flow=True)}
    for placed in scene.placed.values():
        if placed.fitting.new and placed.holes is not None and not placed.foot_known:
            assert f"{placed.fitting.tag}.1" not in text
            assert str(placed.fitting.tag) in text
