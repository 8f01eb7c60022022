"""Numbers as the hand panel writes them, and as they are typed back into it."""

import re

from pydantic import ValidationError

from mastlayout.errors import UnitError
from mastlayout.geometry.frames import height_mm
from mastlayout.model.around import Around, read_around
from mastlayout.units import Units, feet_inches, read_length, sixteenths
from mastlayout.words import _

# As paper writes inches, without a unit: 31-8 9/16, 8 9/16, 31-8.
_BARE_INCHES = re.compile(r"^(?P<sign>[-\u2212]?)(?:(?P<feet>\d+)-)?(?P<inches>\d+(?: +\d+/\d+)?|\d+/\d+)$")


def written(length_mm: float, units: Units, digits: int = 0) -> str:
    """Write a length, mm: thin spaces between thousands and a real minus, or feet and inches."""
    if units == "inches":
        text = feet_inches(sixteenths(length_mm))
        return f"\u2212{text[1:]}" if text.startswith("-") else text
    text = f"{length_mm:,.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text == "-0" else text
    return text.replace(",", "\u2009").replace("-", "\u2212")


def typed_length(text: str, units: Units) -> float:
    """Return millimetres from what was typed, in any unit; UnitError where it cannot be read.

    A bare number is in the units shown: millimetres, or inches as paper writes them.
    """
    found = _BARE_INCHES.match(text.strip()) if units == "inches" else None
    if found is None:
        return read_length(text)
    feet = f"{found['feet']} ft " if found["feet"] else ""
    return read_length(f"{found['sign']}{feet}{found['inches']} in")


def typed_around(text: str, units: Units) -> Around | None:
    """Read a phrase, or a bare length: the girth from the middle of the track, starboard positive.

    None where it is farther round than any mast is.
    """
    try:
        length = typed_length(text, units)
    except UnitError:
        length = None
    try:
        around: Around = read_around(text if length is None else length)
    except ValidationError:
        return None
    return around


def around_phrase(said: Around | None, girth_mm: float, half_girth_mm: float, units: Units) -> str:
    """Return a girth as it is typed: from the centreline that ``said`` counts from, else the nearer one."""
    if said is not None and said.origin != "bearing" and not said.offset:
        return said.origin
    aft = said.origin == "aft" if said and said.origin != "bearing" else abs(girth_mm) < half_girth_mm / 2
    off = abs(girth_mm) if aft else height_mm(half_girth_mm, abs(girth_mm))
    origin = "aft" if aft else "ahead"
    if off < 0.05:
        return origin
    side = "starboard" if girth_mm > 0 else "port"
    return f"{written(off, units, 1)} to {side} of {origin}"


def not_known() -> str:
    """Return what stands in the place of a value that nobody measured."""
    return _("not known")
