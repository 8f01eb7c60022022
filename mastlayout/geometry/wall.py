"""The wall's thickness where a hole goes: a reading near enough, or not known."""

from mastlayout.model.mast import Mast, Stretch, Wall

# A reading farther from the hole than this says nothing of it.
REACH_MM = 500.0
_ZONES = ("sleeve", "pitted")


def thickness_mm(mast: Mast, from_masthead_mm: float) -> float | None:
    """Return the wall's thickness for a hole, the least of the readings that speak for it; else None.

    A reading speaks for a hole within 500 mm along the mast, in the same sleeve or pitted zones.
    """
    zones = _zones_at(mast, from_masthead_mm)
    speaking = [
        wall.thickness_mm
        for wall in mast.walls
        if abs(wall.from_masthead_mm - from_masthead_mm) <= REACH_MM
        and _zones_at(mast, wall.from_masthead_mm) == zones
        and not _crosses(mast, wall, from_masthead_mm)
    ]
    return min(speaking, default=None)


def nearest_thickness_mm(mast: Mast, from_masthead_mm: float) -> float | None:
    """Return the nearest reading however far, for what needs the wall to a millimetre only."""
    walls = sorted(mast.walls, key=lambda wall: abs(wall.from_masthead_mm - from_masthead_mm))
    return walls[0].thickness_mm if walls else None


def nearest_reading(mast: Mast, from_masthead_mm: float) -> Wall | None:
    """Return the reading nearest along the mast, for the sentence that says how far it is."""
    return min(mast.walls, key=lambda wall: abs(wall.from_masthead_mm - from_masthead_mm), default=None)


def _zones_at(mast: Mast, from_masthead_mm: float) -> frozenset[Stretch]:
    return frozenset(
        stretch
        for stretch in mast.stretches or ()
        if stretch.kind in _ZONES and stretch.from_masthead_mm <= from_masthead_mm <= stretch.to_mm
    )


def _crosses(mast: Mast, wall: Wall, from_masthead_mm: float) -> bool:
    """Tell whether a sleeve or pitted zone begins or ends between a reading and the hole."""
    low, high = sorted((wall.from_masthead_mm, from_masthead_mm))
    return any(
        low < edge < high
        for stretch in mast.stretches or ()
        if stretch.kind in _ZONES
        for edge in (stretch.from_masthead_mm, stretch.to_mm)
    )
