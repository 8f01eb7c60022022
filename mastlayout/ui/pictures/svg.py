"""From what Qt writes as SVG to what every reader of SVG shows alike."""

import math
import re
from xml.etree import ElementTree as ET

from mastlayout.ui.clipping import MARK

# As files name the family, as systems that group its widths do, then whatever is there.
_FAMILIES = "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif"
_SVG, _LINK = "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"
_GROUP, _TEXT = f"{{{_SVG}}}g", f"{{{_SVG}}}text"


def readable(drawn: bytes) -> bytes:
    """Return an SVG of QSvgGenerator as other programs read it.

    Marks become clip paths, pens that keep their pixels get plain widths, the family a second name.
    """
    ET.register_namespace("", _SVG)
    ET.register_namespace("xlink", _LINK)
    root = ET.fromstring(drawn)  # noqa: S314 - written by this very program a moment ago
    # Qt gives the size in millimetres of a screen it does not know; pixels are what was seen.
    _left, _top, width, height = root.attrib["viewBox"].split()
    root.attrib |= {"width": width, "height": height}
    for element in root.iter():
        if element.tag == _GROUP:
            _keep_width(element)
        if "font-family" in element.attrib:
            element.attrib |= {"font-family": _FAMILIES, "font-stretch": "semi-condensed"}
    page, defs = root.find(_GROUP), root.find(f"{{{_SVG}}}defs")
    if page is not None and defs is not None:
        _clip(page, defs)
    made: bytes = ET.tostring(root, encoding="UTF-8", xml_declaration=True)
    return made


def _clip(page: ET.Element, defs: ET.Element) -> None:
    """Put what stands between two marks into a group with a clip path; marks are not nested."""
    into, parts = page, list(page)
    for part in parts:
        page.remove(part)
    for part in parts:
        for mark, piece in _split(part):
            if mark == "":
                into = page
            elif mark is not None:
                into = ET.SubElement(page, _GROUP, {"clip-path": f"url(#{_define(defs, mark)})"})
            if len(piece):
                into.append(piece)


def _keep_width(group: ET.Element) -> None:
    """Write the width of a pen that keeps its pixels at any scale as what it is here.

    The attribute that says so is not known to every reader.
    """
    kept = [child for child in group if child.attrib.pop("vector-effect", "") == "non-scaling-stroke"]
    matrix = [float(number) for number in re.findall(r"-?[\d.]+(?:e-?\d+)?", group.get("transform", ""))]
    if not kept or len(matrix) != 6:
        return
    scale = math.sqrt(abs(matrix[0] * matrix[3] - matrix[1] * matrix[2])) or 1.0
    for name in ("stroke-width", "stroke-dasharray", "stroke-dashoffset"):
        text = group.get(name)
        if text and text != "none":
            numbers = [float(number) / scale for number in text.split(",")]
            group.set(name, ",".join(f"{number:.6g}" for number in numbers))


def _split(group: ET.Element) -> list[tuple[str | None, ET.Element]]:
    """Return a group of one pen and brush cut at its marks: each piece with the mark before it, if any."""
    found: list[tuple[str | None, ET.Element]] = [(None, ET.Element(group.tag, group.attrib))]
    for child in group:
        if child.tag == _TEXT and (child.text or "").startswith(MARK):
            found.append(((child.text or "").removeprefix(MARK).strip(), ET.Element(group.tag, group.attrib)))
        else:
            found[-1][1].append(child)
    return found


def _define(defs: ET.Element, mark: str) -> str:
    name = f"clip-{len(defs)}"
    sides = dict(zip(("x", "y", "width", "height"), re.split(r"\s+", mark), strict=True))
    ET.SubElement(ET.SubElement(defs, f"{{{_SVG}}}clipPath", {"id": name}), f"{{{_SVG}}}rect", sides)
    return name
