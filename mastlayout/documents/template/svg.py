"""A template as SVG: 1:1 in millimetres, a group for each layer, the same bytes for the same template."""

from functools import singledispatch
from xml.etree import ElementTree as ET

from mastlayout.documents.page import MM_PER_PT, Circle, Line, Mark, Polyline, Rect, Text
from mastlayout.documents.rows import SheetHead, Template
from mastlayout.documents.template.drawing import plain, template_drawing

_FAMILY = "DejaVu Sans Condensed, Arial Narrow, sans-serif"
_NAMESPACE = "http://www.w3.org/2000/svg"
_MARGIN_MM, _BELOW_MM, _LEAST_MM = 12.0, 44.0, 190.0


def template_svg(head: SheetHead, template: Template) -> bytes:
    """Return a template as one SVG file; its user unit is a millimetre, x 0 is the line in its middle."""
    view, marks = template_drawing(head, template)
    left, top = view.x - _MARGIN_MM, view.y - _MARGIN_MM
    width = max(view.x2 - view.x, _LEAST_MM) + 2 * _MARGIN_MM
    height = view.y2 - view.y + _MARGIN_MM + _BELOW_MM
    box = f"{_number(left)} {_number(top)} {_number(width)} {_number(height)}"
    root = ET.Element(
        "svg", xmlns=_NAMESPACE, width=f"{_number(width)}mm", height=f"{_number(height)}mm", viewBox=box
    )
    ET.SubElement(root, "title").text = plain(f"{head.yacht}, {template.block.tag} {template.block.name}")
    groups: dict[str, ET.Element] = {}
    for layer, mark in marks:
        if layer not in groups:
            groups[layer] = ET.SubElement(root, "g", id=layer, fill="none", stroke="black")
        _draw(mark, groups[layer])
    ET.indent(root)
    written: bytes = ET.tostring(root, encoding="utf-8", xml_declaration=True)
    return written


@singledispatch
def _draw(mark: Mark, group: ET.Element) -> None:
    raise TypeError(f"no way to draw {mark!r} in {group!r}")


@_draw.register
def _line(mark: Line, group: ET.Element) -> None:
    ends = {"x1": mark.x1, "y1": mark.y1, "x2": mark.x2, "y2": mark.y2}
    ET.SubElement(group, "line", _numbers(ends) | _pen(mark.width_mm, mark.dash_mm))


@_draw.register
def _polyline(mark: Polyline, group: ET.Element) -> None:
    points = " ".join(f"{_number(x)},{_number(y)}" for x, y in mark.points)
    pen = _pen(mark.width_mm, mark.dash_mm) | _fill(mark.fill)
    ET.SubElement(group, "polygon" if mark.closed else "polyline", {"points": points} | pen)


@_draw.register
def _circle(mark: Circle, group: ET.Element) -> None:
    place = _numbers({"cx": mark.x, "cy": mark.y, "r": mark.radius_mm})
    ET.SubElement(group, "circle", place | _pen(mark.width_mm, ()) | _fill(mark.fill))


@_draw.register
def _rect(mark: Rect, group: ET.Element) -> None:
    place = _numbers({"x": mark.x, "y": mark.y, "width": mark.width, "height": mark.height})
    ET.SubElement(group, "rect", place | _pen(mark.width_mm, mark.dash_mm) | _fill(mark.fill))


@_draw.register
def _text(mark: Text, group: ET.Element) -> None:
    place = _numbers({"x": mark.x, "y": mark.y, "font-size": mark.size_pt * MM_PER_PT})
    look = {
        "font-family": "DejaVu Sans Condensed, Arial Narrow, sans-serif",
        "stroke": "none",
        "fill": "black",
    }
    look |= {"font-weight": "bold"} if mark.bold else {}
    look |= {"text-anchor": mark.anchor} if mark.anchor != "start" else {}
    if mark.turn_deg:
        look["transform"] = f"rotate({-mark.turn_deg} {_number(mark.x)} {_number(mark.y)})"
    ET.SubElement(group, "text", place | look).text = plain(mark.text)


def _pen(width_mm: float, dash_mm: tuple[float, ...]) -> dict[str, str]:
    if not width_mm:
        return {"stroke": "none"}
    dash = {"stroke-dasharray": " ".join(_number(part) for part in dash_mm)} if dash_mm else {}
    return {"stroke-width": _number(width_mm)} | dash


def _fill(ink: float | None) -> dict[str, str]:
    if ink is None:
        return {}
    grey = round(255 * (1.0 - ink))
    return {"fill": f"rgb({grey},{grey},{grey})"}


def _numbers(values: dict[str, float]) -> dict[str, str]:
    return {name: _number(value) for name, value in values.items()}


def _number(value: float) -> str:
    """Write a number to a ten-thousandth of a millimetre."""
    return f"{round(value, 4) + 0.0:g}" if abs(value) < 5e-5 else f"{value:.4f}".rstrip("0").rstrip(".")
