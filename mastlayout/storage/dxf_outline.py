"""A section's outline from a drawing beside the layout: its one closed polyline, in millimetres."""

from pathlib import Path
from typing import Any

from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError
from ezdxf.path import make_path

from mastlayout.errors import FileError
from mastlayout.storage.guard import MOST_BYTES
from mastlayout.words import _

FLAT_MM = 0.05
# What $INSUNITS may say. 0 is "no unit": millimetres, as every bare number of a layout.
_MM_PER_UNIT = {0: 1.0, 1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0}


def points_of(folder: Path, name: str) -> list[tuple[float, float]]:
    """Return the points (ahead, to port), in mm, of a drawing's one closed polyline; FileError otherwise."""
    path = _beside(folder, name)
    try:
        drawing = readfile(path)
        unit = drawing.header.get("$INSUNITS", 0)
        lines = [line for line in drawing.modelspace().query("LWPOLYLINE POLYLINE") if _is_closed(line)]
        return _flattened(lines, unit, name)
    except (OSError, DXFError, ValueError, LookupError, TypeError, AttributeError) as error:
        raise FileError(
            _("{name} cannot be read as a DXF drawing: {why}").format(name=name, why=error)
        ) from None


def _beside(folder: Path, name: str) -> Path:
    """Return the path of a drawing, which must be a plain name in the layout's own folder."""
    path = folder / name
    if name in ("", ".", "..") or any(sign in name for sign in "/\\:\0"):
        raise FileError(
            _("“{name}” is no plain file name: the drawing must lie beside the layout").format(name=name[:80])
        )
    if not path.is_file():
        raise FileError(_("{name} is not beside the layout: put the drawing there").format(name=name))
    if path.stat().st_size > MOST_BYTES:
        raise FileError(
            _("{name} is larger than {most} MB: at most that is read").format(
                name=name, most=MOST_BYTES // 1_000_000
            )
        )
    return path


def _is_closed(line: Any) -> bool:
    if line.dxftype() == "LWPOLYLINE":
        corners, closed = line.get_points("xy"), line.closed
    elif line.is_2d_polyline:
        corners, closed = [vertex.dxf.location for vertex in line.vertices], line.is_closed
    else:
        return False
    return closed or (len(corners) > 2 and corners[0] == corners[-1])


def _flattened(lines: list[Any], unit: int, name: str) -> list[tuple[float, float]]:
    if len(lines) != 1:
        sentence = (
            _("{name} has {count} closed polylines: leave the outline alone in it")
            if lines
            else _("{name} has no closed polyline: draw the outline as one and close it")
        )
        raise FileError(sentence.format(name=name, count=len(lines)))
    if unit not in _MM_PER_UNIT:
        raise FileError(
            _("{name} is in a unit of its own ($INSUNITS {unit}): mm, cm, m, inches or feet are read").format(
                name=name, unit=unit
            )
        )
    per_unit_mm = _MM_PER_UNIT[unit]
    flat = make_path(lines[0]).flattening(FLAT_MM / per_unit_mm)
    points = [(round(point.x * per_unit_mm, 4), round(point.y * per_unit_mm, 4)) for point in flat]
    return points[:-1] if points[0] == points[-1] else points
