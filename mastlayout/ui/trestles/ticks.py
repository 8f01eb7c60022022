"""The marks of a tape hooked on the masthead: small ticks, and figures in metres or feet."""

from collections.abc import Iterator

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.ui.tapewords import grouped
from mastlayout.units import MM_PER_INCH, Units, feet_inches
from mastlayout.words import _

_FOOT_MM = 12 * MM_PER_INCH
# Steps a tape is read in, as mm and as inches.
_METRIC = (10, 50, 100, 500, 1000, 2000, 5000, 10000)
_INCHES = (1, 3, 6, 12, 60, 120, 300)
_SIXTEENTHS = 16


@dataclass(frozen=True)
class Tick:
    """A mark at height z; ``words`` is "" where none are written, ``strong`` at whole metres or feet."""

    z_mm: float
    words: str
    strong: bool


def tape_ticks(
    length_mm: float, low_mm: float, high_mm: float, scale: float, units: Units, apart_px: float
) -> Iterator[Tick]:
    """Yield the marks between two heights; written ones stand ``apart_px`` or more from each other."""
    unit = 1.0 if units == "metric" else MM_PER_INCH
    steps = _METRIC if units == "metric" else _INCHES
    small = next((s for s in steps if s * unit * scale >= apart_px / 5), steps[-1])
    written = next((s for s in steps if s % small == 0 and s * unit * scale >= apart_px), steps[-1])
    first = max(height_mm(length_mm, min(high_mm, length_mm)), 0.0)
    last = height_mm(length_mm, max(low_mm, 0.0))
    for count in range(-int(-first // (small * unit)), int(last // (small * unit)) + 1):
        value = count * small
        read = _figure(value, units) if value % written == 0 else ""
        strong = value % (100 if units == "metric" else 12) == 0
        yield Tick(height_mm(length_mm, value * unit), read, strong)


def _figure(value: int, units: Units) -> str:
    if units == "metric":
        return grouped(value) if value % 100 == 0 else str(value % 1000)
    return feet_inches(value * _SIXTEENTHS)


def scale_ticks(length_mm: float, scale: float, units: Units, apart_px: float) -> Iterator[Tick]:
    """Yield whole metres or feet along the whole mast, counted from the masthead, halves unwritten."""
    step = 1000.0 if units == "metric" else 5 * _FOOT_MM
    each = next((n for n in (1, 2, 5, 10) if n * step * scale >= apart_px), 10)
    for half in range(int(length_mm / (step / 2)) + 1):
        count, odd = divmod(half, 2)
        written = not odd and count % each == 0
        words = (_("{n} m") if units == "metric" else _("{n} ft")).format(
            n=count if units == "metric" else 5 * count
        )
        yield Tick(
            height_mm(length_mm, half * step / 2), (words if count else "0") if written else "", not odd
        )
