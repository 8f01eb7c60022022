"""A template as DXF: 1:1 in millimetres, a layer for each matter, the same bytes for the same template."""

import io
from functools import singledispatch
from typing import TYPE_CHECKING

from mastlayout.documents.page import MM_PER_PT, Circle, Line, Mark, Polyline, Rect, Text
from mastlayout.documents.rows import SheetHead, Template
from mastlayout.documents.template.drawing import plain, template_drawing

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

# A capital letter's height, in em: what DXF calls the height of a text.
_CAP_EM = 0.73
_MM = 4  # as the format counts units


def template_dxf(head: SheetHead, template: Template) -> bytes:
    """Return a template as one DXF file; x 0 is the line in its middle, y 0 its foot's height, y up."""
    from ezdxf._options import options  # noqa: PLC0415 - 0.3 s, which no other paper pays
    from ezdxf.filemanagement import new  # noqa: PLC0415 - the same

    _view, marks = template_drawing(head, template)
    before = options.write_fixed_meta_data_for_testing
    # Otherwise every file carries the second it was written in, and a number of its own.
    options.write_fixed_meta_data_for_testing = True
    try:
        document = new("R2010", units=_MM)
        document.styles.new("sheet", dxfattribs={"font": "DejaVuSansCondensed.ttf"})
        space = document.modelspace()
        for layer, mark in marks:
            if layer.upper() not in document.layers:
                document.layers.add(layer.upper())
            _draw(mark, space, layer.upper())
        # Named here in order; left to the writing, their order is another in every process.
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)
        store = io.StringIO()
        document.write(store)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return store.getvalue().encode("utf-8", errors="replace")


@singledispatch
def _draw(mark: Mark, space: "Modelspace", layer: str) -> None:
    raise TypeError(f"no way to draw {mark!r} on {layer} of {space!r}")


@_draw.register(Line)
def _line(mark: Line, space: "Modelspace", layer: str) -> None:
    space.add_line((mark.x1, -mark.y1), (mark.x2, -mark.y2), dxfattribs={"layer": layer})


@_draw.register(Polyline)
def _polyline(mark: Polyline, space: "Modelspace", layer: str) -> None:
    points = [(x, -y) for x, y in mark.points]
    space.add_lwpolyline(points, close=mark.closed, dxfattribs={"layer": layer})


@_draw.register(Circle)
def _circle(mark: Circle, space: "Modelspace", layer: str) -> None:
    space.add_circle((mark.x, -mark.y), mark.radius_mm, dxfattribs={"layer": layer})


@_draw.register(Rect)
def _rect(mark: Rect, space: "Modelspace", layer: str) -> None:
    left, right, top, bottom = mark.x, mark.x + mark.width, -mark.y, -mark.y - mark.height
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


@_draw.register(Text)
def _text(mark: Text, space: "Modelspace", layer: str) -> None:
    from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415 - as above

    align = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }[mark.anchor]
    look = {"layer": layer, "style": "sheet", "rotation": float(mark.turn_deg)}
    text = space.add_text(_escaped(mark.text), height=mark.size_pt * MM_PER_PT * _CAP_EM, dxfattribs=look)
    text.set_placement((mark.x, -mark.y), align=align)


def _escaped(text: str) -> str:
    """Return words whose signs DXF does not read as its own codes: two per cent signs and a caret."""
    return plain(text).replace("%%", "% %").replace("^", "^ ")
