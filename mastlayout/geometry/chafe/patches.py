"""Patches on a sail: what it lies on and a margin round it, cut at the sail's edges."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from mastlayout.geometry.chafe.loft import Loft, polygon
from mastlayout.geometry.frames import Array
from mastlayout.limits import Limits

if TYPE_CHECKING:
    from shapely import Geometry, Polygon

# A line of places is drawn as straight where it bends by less.
_STRAIGHT_MM = 3.0


class Margin(NamedTuple):
    """How far a patch reaches above, below and beside where cloth lies on something, mm."""

    above_mm: float
    below_mm: float
    beside_mm: float


def margin_of(limits: Limits) -> Margin:
    """Return the margin of patches."""
    return Margin(*(limits[f"chafe.{way}"].value for way in ("above", "below", "beside")))


def patch(loft: Loft, lines: Sequence[Array], margin: Margin) -> "Polygon | None":
    """Return the patch over lines (k, 2) of a loft; None where none of it lies on the sail."""
    import shapely  # noqa: PLC0415 - 0.1 s, and a check needs none

    parts: list[Geometry] = []
    for line in lines:
        places = shapely.get_coordinates(shapely.LineString([*line, line[-1]]).simplify(_STRAIGHT_MM))
        boxes = _boxes(places, margin)
        # From one place to the next a patch is what two boxes span.
        spans = np.concatenate([boxes[:-1], boxes[1:]], axis=1)
        hulls = np.array(shapely.convex_hull(shapely.multipoints(spans)), dtype=object)
        parts += [shapely.Polygon(boxes[0]), *hulls.reshape(-1)]
    whole = shapely.union_all(parts).intersection(polygon(loft))
    # What lies all round a fitting has no hole in its middle.
    pieces = [one for one in getattr(whole, "geoms", [whole]) if one.geom_type == "Polygon" and one.area > 0]
    largest = max(pieces, key=lambda one: one.area, default=None)
    return None if largest is None else shapely.Polygon(largest.exterior)


def _boxes(places: Array, margin: Margin) -> Array:
    """Return the corners (k, 4, 2) of the margin round places (k, 2)."""
    left, right = -margin.beside_mm, margin.beside_mm
    low, high = -margin.below_mm, margin.above_mm
    around = np.array([(left, low), (right, low), (right, high), (left, high)])
    return np.asarray(places[:, None, :] + around)
