"""A section's outline from a drawing beside the layout: one closed polyline, in millimetres."""

from pathlib import Path
from typing import Any

from ezdxf import path as ezpath
from ezdxf.enums import InsertUnits
from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError
from ezdxf.units import conversion_factor

from mastlayout.errors import FileError
from mastlayout.words import _

_MOST_BYTES = 4_000_000
_FLAT_MM = 0.05


def points_of(folder: Path, name: object) -> list[tuple[float, float]]:
    """Return the points (ahead, to port) of the one closed polyline of a drawing; FileError otherwise."""
    file = _beside(folder, name)
    try:
        drawing = readfile(str(file))
    except (OSError, DXFError, UnicodeDecodeError) as error:
        raise FileError(_("{name} cannot be read as a drawing: {why}").format(name=name, why=error)) from None
    closed = [line for line in drawing.modelspace().query("LWPOLYLINE POLYLINE") if _is_closed(line)]
    if len(closed) != 1:
        raise FileError(
            _("{name} holds {count} closed polylines: exactly one, the outline, is wanted").format(
                name=name, count=len(closed)
            )
        )
    unit = drawing.header.get("$INSUNITS", 0)
    factor = conversion_factor(InsertUnits(unit), InsertUnits.Millimeters) if unit else 1.0
    flat = ezpath.make_path(closed[0]).flattening(_FLAT_MM / factor)
    points = [(point.x * factor, point.y * factor) for point in flat]
    return points[:-1] if points[0] == points[-1] else points


def _beside(folder: Path, name: object) -> Path:
    """Return the path of a drawing, which must be a plain name in the layout's folder."""
    if not isinstance(name, str) or Path(name).name != name or name in ("", ".", ".."):
        raise FileError(
            _("“{name}” is no plain file name: the drawing must lie beside the layout").format(name=name)
        )
    file = folder / name
    if not file.is_file():
        raise FileError(_("{name} is not beside the layout").format(name=name))
    if file.stat().st_size > _MOST_BYTES:
        raise FileError(_("{name} is larger than 4 MB").format(name=name))
    return file


def _is_closed(line: Any) -> bool:
    return bool(getattr(line, "closed", False) or getattr(line, "is_closed", False))
