"""A girth as a person names it: from the nearer centreline, in the whole parts a tape shows."""

from mastlayout.geometry.frames import HEIGHT_PARTS_PER_INCH
from mastlayout.geometry.skin import Ring
from mastlayout.model.around import Around
from mastlayout.units import MM_PER_INCH, Units


def whole(value_mm: float, units: Units) -> float:
    """Return a length rounded to what the tape shows: a millimetre, or a sixteenth of an inch."""
    part = 1.0 if units == "metric" else MM_PER_INCH / HEIGHT_PARTS_PER_INCH
    return round(value_mm / part) * part


def around_of(girth_mm: float, ring: Ring) -> Around:
    """Return the place of a girth (0 at the middle of the track, starboard positive) on a ring."""
    half = ring.half_girth_mm
    wrapped = (girth_mm + half) % (2 * half) - half
    if abs(wrapped) <= half / 2:
        return Around(origin="aft", offset=round(wrapped, 2) + 0.0)
    off = half - abs(wrapped)
    return Around(origin="ahead", offset=round(off if wrapped >= 0 else -off, 2) + 0.0)


def whole_around(around: Around, units: Units) -> Around:
    """Return a place round the skin with its offset as the tape shows it."""
    return around.but(offset=whole(around.offset, units) + 0.0)
