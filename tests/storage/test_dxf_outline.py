"""A section traced as a drawing beside the layout."""

import math

import ezdxf
import pytest

from mastlayout.geometry.skin import skin_of
from mastlayout.storage.reading import read_layout

TEXT = """format = 1
[boat]
name = "Test"
[mast]
length = 17000
section = {{ shape = "points", dxf = "{name}" }}
"""


def drawn(folder, *polylines, unit=4, name="outline.dxf"):
    """Write a drawing of closed polylines (millimetres unless said) and return what is read of a layout."""
    drawing = ezdxf.new()
    drawing.header["$INSUNITS"] = unit
    for points, closed in polylines:
        drawing.modelspace().add_lwpolyline(points, format="xyb", close=closed)
    drawing.saveas(folder / name)
    path = folder / "layout.toml"
    path.write_text(TEXT.format(name=name))
    return read_layout(path)


def circle(radius):
    """Two half circles, as bulges."""
    return [(-radius, 0, 1.0), (radius, 0, 1.0)]


@pytest.mark.parametrize(("unit", "radius"), [(4, 80.0), (5, 8.0), (1, 80.0 / 25.4), (0, 80.0)])
def test_one_closed_polyline_is_the_section(tmp_path, unit, radius):
    """Bulges are flattened to 0.05 mm; centimetres and inches are turned into millimetres."""
    found = drawn(tmp_path, (circle(radius), True), unit=unit)
    assert not found.mistakes
    girth = 2 * skin_of(found.document.layout.mast).full.half_girth_mm
    assert girth == pytest.approx(2 * math.pi * 80, rel=2e-3)


@pytest.mark.parametrize("count", [0, 2])
def test_none_or_several_are_refused(tmp_path, count):
    """Exactly one outline is wanted; an open line is none."""
    lines = [(circle(80.0), True)] * count + [([(0, 0, 0), (1, 1, 0)], False)]
    found = drawn(tmp_path, *lines)
    assert f"holds {count} closed" in found.mistakes[0].sentence
    assert found.mistakes[0].line == 6


@pytest.mark.parametrize("name", ["../outline.dxf", "/etc/passwd", "none.dxf", "", ".."])
def test_a_drawing_must_lie_beside_the_layout(tmp_path, name):
    """No path leads elsewhere."""
    path = tmp_path / "layout.toml"
    path.write_text(TEXT.format(name=name))
    assert read_layout(path).mistakes


def test_a_spoilt_drawing_is_a_mistake(tmp_path):
    """What is no drawing is said to be none."""
    (tmp_path / "outline.dxf").write_bytes(b"\x00\x01 no drawing")
    path = tmp_path / "layout.toml"
    path.write_text(TEXT.format(name="outline.dxf"))
    assert "cannot be read as a drawing" in read_layout(path).mistakes[0].sentence
