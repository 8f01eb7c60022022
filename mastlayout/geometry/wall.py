"""The wall's thickness where a hole goes: a reading near enough, or not known."""

import numpy as np

from mastlayout.geometry.frames import Array, Mask
from mastlayout.model.mast import Mast, Stretch, Wall

# A reading farther from the hole than this says nothing of it.
REACH_MM = 500.0
_ZONES = ("sleeve", "pitted")


def thickness_mm(mast: Mast, from_masthead_mm: float) -> float | None:
    """Return the wall's thickness for a hole, the least of the readings that speak for it; else None.

    A reading speaks for a hole within 500 mm along the mast, in the same sleeve or pitted zones.
    """
    thickness = float(thicknesses_mm(mast, np.array([from_masthead_mm]))[0])
    return None if np.isnan(thickness) else thickness


def thicknesses_mm(mast: Mast, from_masthead_mm: Array) -> Array:
    """Return the same for holes in an array of any shape; nan where no reading speaks for a hole."""
    least = np.full(from_masthead_mm.shape, np.inf)
    zones = [stretch for stretch in mast.stretches or () if stretch.kind in _ZONES]
    for wall in mast.walls:
        speaks = np.abs(wall.from_masthead_mm - from_masthead_mm) <= REACH_MM
        if speaks.any():
            for zone in zones:
                speaks &= ~_parted(zone, wall.from_masthead_mm, from_masthead_mm)
            least = np.where(speaks, np.minimum(least, wall.thickness_mm), least)
    return np.where(np.isinf(least), np.nan, least)


def _parted(zone: Stretch, reading_mm: float, from_masthead_mm: Array) -> Mask:
    """Tell whether a sleeve or pitted zone, or one of its ends, lies between a reading and a hole."""
    low, high = np.minimum(reading_mm, from_masthead_mm), np.maximum(reading_mm, from_masthead_mm)
    ends = [(low < edge) & (edge < high) for edge in (zone.from_masthead_mm, zone.to_mm)]
    hole_in = (zone.from_masthead_mm <= from_masthead_mm) & (from_masthead_mm <= zone.to_mm)
    reading_in = zone.from_masthead_mm <= reading_mm <= zone.to_mm
    return np.asarray(ends[0] | ends[1] | (hole_in != reading_in))


def nearest_thickness_mm(mast: Mast, from_masthead_mm: float) -> float | None:
    """Return the nearest reading however far, for what needs the wall to a millimetre only."""
    walls = sorted(mast.walls, key=lambda wall: abs(wall.from_masthead_mm - from_masthead_mm))
    return walls[0].thickness_mm if walls else None


def nearest_reading(mast: Mast, from_masthead_mm: float) -> Wall | None:
    """Return the reading nearest along the mast, for the sentence that says how far it is."""
    return min(mast.walls, key=lambda wall: abs(wall.from_masthead_mm - from_masthead_mm), default=None)
