"""The ruler along the top, in girth from the forward line, and the ticks of height at the side."""

import math
from collections.abc import Iterator

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm, round_reading
from mastlayout.geometry.skin import Skin
from mastlayout.ui.section.at_height import height_text
from mastlayout.ui.skin.development import Development
from mastlayout.units import MM_PER_INCH, Units
from mastlayout.words import _

# Ticks and figures: each 10 and 50 mm, or each half and two inches.
_STEPS = {"metric": (10.0, 5), "inches": (MM_PER_INCH / 2, 4)}
_LEAST_PX, _LEAST_HEIGHT_PX = 34.0, 24.0


@dataclass(frozen=True)
class Tick:
    """A tick in pixels along its ruler; ``words`` is "" where none are written."""

    at: float
    words: str


def girth_ticks(development: Development, units: Units, *, track: bool) -> Iterator[Tick]:
    """Yield the ticks of girth from the forward line, both ways round, and those of the track's edges."""
    step, written = _STEPS[units]
    while step * written * development.scale < _LEAST_PX:
        written *= 2
    half = development.half_girth_mm
    edges = list(_track_edges(development)) if track else []
    if edges:
        yield Tick(edges[0], _("track"))
        if abs(edges[-1] - edges[0]) > _LEAST_PX:
            yield Tick(edges[-1], _("track"))
    for n in range(int(half / step) + 1):
        for side in (1.0, -1.0) if n else (1.0,):
            x = development.x_px(development.offset_mm(side * (half - n * step)))
            if x is not None:
                free = n % written == 0 and all(abs(x - edge) >= _LEAST_PX for edge in edges)
                read = round_reading(half - n * step, half, development.half_track_mm, units)
                yield Tick(x, read.text(read.forward).removesuffix(".0") if free else "")


def _track_edges(development: Development) -> Iterator[float]:
    for side in (-1.0, 1.0):
        x = development.x_px(development.offset_mm(side * development.half_track_mm))
        if x is not None:
            yield x


def height_ticks(development: Development, skin: Skin, units: Units) -> Iterator[Tick]:
    """Yield the ticks of height from the masthead."""
    step, written = _STEPS[units]
    while step * written * development.scale < _LEAST_HEIGHT_PX:
        written *= 2
    top, bottom = (height_mm(skin.length_mm, z) for z in (development.high_z_mm, development.low_z_mm))
    for n in range(math.ceil(max(top, 0.0) / step), int(min(bottom, skin.length_mm) / step) + 1):
        z = height_mm(skin.length_mm, n * step)
        yield Tick(development.y_px(z), "" if n % written else height_text(skin, z, units))
