"""Feet as a height cuts them: the foot itself, and its pad between it and the skin."""

from collections.abc import Iterator

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.silhouette import FROM_ABOVE
from mastlayout.geometry.skin import Skin
from mastlayout.ui.section.cut import Cut

_POINTS = 17


@dataclass(frozen=True, eq=False)
class FootAt:
    """A foot at a height, as the drawing has it: rings (k, 2) of the metal and of the pad below it."""

    id: str
    known: bool
    metal: Array
    pad: Array
    pad_mm: float


def feet_at(cut: Cut) -> Iterator[FootAt]:
    """Yield the feet on the skin at a height."""
    for placed in cut.standing:
        span = _span(placed, cut.z_mm)
        if placed.skin is not None and span is not None:
            yield _foot(placed, placed.skin, cut.z_mm, span)


def _span(placed: Placed, z_mm: float) -> tuple[float, float] | None:
    """Return the girths between which a foot's outline is cut by a height; None where it is not."""
    if placed.outline is None:
        return None
    start, end = placed.outline, np.roll(placed.outline, -1, axis=0)
    crosses = (start[:, 1] <= z_mm) != (end[:, 1] <= z_mm)
    if not crosses.any():
        return None
    start, end = start[crosses], end[crosses]
    part = (z_mm - start[:, 1]) / (end[:, 1] - start[:, 1])
    girths = start[:, 0] + part * (end[:, 0] - start[:, 0])
    return float(girths.min()), float(girths.max())


def _foot(placed: Placed, skin: Skin, z_mm: float, span: tuple[float, float]) -> FootAt:
    foot = placed.foot
    pad, thick = (foot.liner_mm, foot.thickness_mm) if foot else (0.0, 0.0)
    girths = np.linspace(*span, _POINTS)
    points, normals = skin.at(np.full(_POINTS, z_mm), girths)
    off = float(placed.places.stand_off_mm[0])
    below = _seen(points + off * normals)
    if foot is not None and foot.seat == "flat":
        # A flat plate touches on its middle; what is below it at its edges is pad.
        across, _along, out = placed.seats.axes[0]
        centre = placed.seats.origin[0]
        wide = girths - float(placed.places.around[0])
        plate = centre + wide[:, None] * _level(across)
        above, top = _seen(plate + pad * out), _seen(plate + (pad + thick) * out)
    else:
        above = _seen(points + (off + pad) * normals)
        top = _seen(points + (off + pad + thick) * normals)
    return FootAt(placed.id, placed.foot_known, _ring(above, top), _ring(below, above), pad)


def _level(across: Array) -> Array:
    """Return the level direction along which a plate is cut, turned or not."""
    level = np.array([across[0], across[1], 0.0])
    size = float(np.linalg.norm(level))
    return np.asarray(level / size) if size > 1e-9 else np.zeros(3)


def _seen(points: Array) -> Array:
    return np.asarray(points @ FROM_ABOVE.T)


def _ring(inner: Array, outer: Array) -> Array:
    return np.concatenate([inner, outer[::-1]])
