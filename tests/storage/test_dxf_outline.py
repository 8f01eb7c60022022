"""Outlines from drawings: one closed polyline beside the layout, in millimetres."""

import math
from pathlib import Path

import ezdxf
import pytest
from ezdxf import units

from mastlayout.errors import FileError
from mastlayout.geometry.skin import skin_of
from mastlayout.storage.dxf_outline import FLAT_MM, points_of
from mastlayout.storage.reading import read_data

CORNERS = [(60, 25), (25, 60), (-25, 60), (-60, 25), (-60, -25), (-25, -60), (25, -60), (60, -25)]
TEXT = """format = 1
boat = { name = "Test" }
[mast]
length = 17000
section = { shape = "points", dxf = "outline.dxf" }
"""


@pytest.fixture
def draw(tmp_path):
    """Save a drawing beside a layout that is not there; ``fill`` puts lines into it."""

    def drawn(fill, unit=units.MM):
        drawing = ezdxf.new(units=unit)
        fill(drawing.modelspace())
        drawing.saveas(tmp_path / "outline.dxf")
        return tmp_path

    return drawn


def octagon(space):
    """One closed polyline of eight corners, and a line that is none."""
    space.add_lwpolyline(CORNERS, close=True)
    space.add_line((0, 0), (1, 1))


def test_a_closed_polyline_is_read_point_by_point(draw):
    """Eight corners in the drawing's millimetres."""
    assert points_of(draw(octagon), "outline.dxf") == CORNERS


def test_the_unit_of_the_drawing_is_honoured(draw):
    """A corner at 60 inches is at 60 x 25.4 = 1524 mm."""
    points = points_of(draw(octagon, units.IN), "outline.dxf")
    assert points[0] == (pytest.approx(1524.0), pytest.approx(635.0))


def test_an_old_polyline_with_its_first_point_again_is_closed(draw):
    """The older kind of polyline, drawn back to its beginning."""
    folder = draw(lambda space: space.add_polyline2d([*CORNERS, CORNERS[0]]))
    assert points_of(folder, "outline.dxf") == CORNERS


def test_arcs_are_flattened_finely(draw):
    """Two half circles of 100: the chords' middles lie within 0.05 of the circle."""
    folder = draw(lambda space: space.add_lwpolyline([(100, 0, 1), (-100, 0, 1)], format="xyb", close=True))
    points = points_of(folder, "outline.dxf")
    for (x, y), (u, v) in zip(points, [*points[1:], points[0]], strict=True):
        assert math.hypot(x, y) == pytest.approx(100, abs=FLAT_MM)
        assert math.hypot((x + u) / 2, (y + v) / 2) == pytest.approx(100, abs=FLAT_MM)


@pytest.mark.parametrize(("unit", "radius"), [(4, 80.0), (5, 8.0), (1, 80.0 / 25.4), (0, 80.0)])
def test_a_round_section_has_the_girth_of_its_circle(draw, unit, radius):
    """Two bulges of 80 mm in millimetres, centimetres, inches and without a unit: 2 pi 80 round it."""
    circle = [(-radius, 0, 1.0), (radius, 0, 1.0)]
    folder = draw(lambda space: space.add_lwpolyline(circle, format="xyb", close=True), unit)
    mast = read_data(TEXT.encode(), folder / "layout.toml").document.layout.mast
    assert 2 * skin_of(mast).full.half_girth_mm == pytest.approx(2 * math.pi * 80, rel=2e-3)


@pytest.mark.parametrize(
    ("fill", "unit", "word"),
    [
        (lambda space: space.add_lwpolyline(CORNERS), units.MM, "no closed polyline"),
        (lambda space: (octagon(space), octagon(space)), units.MM, "2 closed polylines"),
        (octagon, units.KM, "INSUNITS 7"),
    ],
)
def test_a_drawing_without_its_one_outline_is_refused(draw, fill, unit, word):
    """None, two, and a unit in which nobody measures masts."""
    with pytest.raises(FileError, match=word):
        points_of(draw(fill, unit), "outline.dxf")


@pytest.mark.parametrize(
    "name", ["../outline.dxf", "/etc/outline.dxf", "a\\outline.dxf", "..", "", "c:x.dxf"]
)
def test_a_drawing_elsewhere_is_refused(draw, name):
    """Whoever passes a layout on must not make it read other files."""
    with pytest.raises(FileError, match="beside the layout"):
        points_of(draw(octagon), name)


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (None, "not beside"),
        (b"x" * 4_000_001, "4 MB"),
        (b"no drawing\n", "cannot be read"),
        (b"", "cannot be read"),
    ],
)
def test_what_is_no_drawing_is_refused(tmp_path, data, word):
    """Missing, too large, no DXF at all."""
    if data is not None:
        (tmp_path / "outline.dxf").write_bytes(data)
    with pytest.raises(FileError, match=word):
        points_of(tmp_path, "outline.dxf")


def test_a_layout_reads_its_outline_from_the_drawing(draw):
    """The points stand in the layout; the text does not have them."""
    read = read_data(TEXT.encode(), draw(octagon) / "layout.toml")
    assert not read.mistakes
    assert read.document.layout.mast.section.points == tuple(CORNERS)


def test_a_drawing_that_fails_is_one_mistake_with_its_line(tmp_path):
    """That points are missing is not said besides."""
    (mistake,) = read_data(TEXT.encode(), tmp_path / "layout.toml").mistakes
    assert (mistake.line, mistake.field) == (5, "mast.section.dxf")
    assert "not beside the layout" in mistake.sentence


def test_points_and_a_drawing_together_are_the_points(tmp_path):
    """A layout saved elsewhere holds its points, and the drawing is only named."""
    corners = [[float(x), float(y)] for x, y in CORNERS]
    text = TEXT.replace('"outline.dxf"', f'"outline.dxf", points = {corners}')
    assert not read_data(text.encode(), Path("layout.toml")).mistakes
