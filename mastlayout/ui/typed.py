"""Numbers as the hand panel writes them, and as they are typed back into it."""

import math
import re
from collections.abc import Callable

from pydantic import ValidationError

from mastlayout.errors import EditError, UnitError
from mastlayout.geometry.frames import height_mm
from mastlayout.model.around import Around, read_around
from mastlayout.units import Units, feet_inches, read_length, sixteenths, write_size
from mastlayout.words import _

# Nearer than this to a centreline is on it.
_NOTHING_MM = 0.05
# Inches to three places and millimetres to one may differ by this and say the same.
_SAME_SIZE_MM = 0.07
# As paper writes inches, without a unit: 31-8 9/16, 8 9/16, 31-8.
_BARE_INCHES = re.compile(
    r"^(?P<sign>[-\u2212]?)(?:(?P<feet>\d+)-)?(?P<inches>\d+(?: +\d+/\d+)?|\d+/\d+|\d*\.\d+)$"
)
# A size with its millimetres beside it: 0.165 in (4.2 mm).
_BOTH = re.compile(r"^(?P<inches>[^()]+)\((?P<metric>[^()]+)\)$")

# Reads what was typed, in the units shown, over the value that it was written of, with its digits.
Retyped = Callable[[str, Units, float | None, int], float]


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


def written_size(size_mm: float, units: Units, digits: int = 1) -> str:
    """Write a size, mm, as a calliper reads it: by the rule of ``units.write_size``."""
    if units == "metric":
        return written(size_mm, units, digits)
    return write_size(size_mm, units=units, digits=digits).replace("-", "\u2212")


def typed_length(text: str, units: Units) -> float:
    """Return millimetres from what was typed, in any unit; UnitError where it cannot be read.

    A bare number is in the units shown: millimetres, or inches as paper writes them.
    """
    found = _BARE_INCHES.match(text.strip()) if units == "inches" else None
    if found is None:
        return read_length(text)
    feet = f"{found['feet']} ft " if found["feet"] else ""
    return read_length(f"{found['sign']}{feet}{found['inches']} in")


def retyped_length(text: str, units: Units, before: float | None, digits: int = 0) -> float:
    """Return millimetres from a text that may still stand as ``written`` made it of ``before``.

    Then that is the value: in inches a text is only as fine as a tape.
    """
    if before is not None and text.strip() == written(before, units, digits):
        return before
    return typed_length(text, units)


def retyped_size(text: str, units: Units, before: float | None, digits: int = 1) -> float:
    """Return millimetres from a text that may still stand as ``written_size`` made it of ``before``.

    Where only one of ``0.165 in (4.2 mm)`` was typed anew, that one is meant; UnitError where
    both were and they differ.
    """
    if before is not None and text.strip() == written_size(before, units, digits):
        return before
    both = _BOTH.match(text.strip())
    if both is None:
        return typed_length(text, units)
    inches, metric = typed_length(both["inches"], units), read_length(both["metric"])
    old = _BOTH.match(written_size(before, "inches", digits)) if before is not None else None
    if old and old["inches"].strip() == both["inches"].strip():
        return metric
    if abs(inches - metric) < _SAME_SIZE_MM or (old and old["metric"] == both["metric"]):
        return inches
    words = _("{typed} says two sizes: write one of them, such as 0.165 in or 4.2 mm")
    raise UnitError(words.format(typed=text.strip()))


def typed_around(text: str, units: Units) -> Around:
    """Read a place round the skin: a phrase, or a bare length, the girth from the middle of the track.

    A bare number is in the units shown, within a phrase too. UnitError or EditError says what is allowed.
    """
    try:
        typed: object = round(typed_length(text, units), 2)
    except UnitError:
        typed = _in_millimetres(text.strip(), units)
    try:
        around: Around = read_around(typed)
    except ValidationError:
        raise _TooFarError(
            _("{typed} is farther round than any mast is").format(typed=text.strip())
        ) from None
    return around


class _TooFarError(EditError):
    """A place round the skin that no mast has."""


def typed_girth(text: str, units: Units, half_girth_mm: float) -> Around:
    """Read a place round a skin of half a girth; EditError where it is more than half way round."""
    try:
        around = typed_around(text, units)
    except _TooFarError:
        around = None
    if around is None or (around.origin != "bearing" and abs(around.offset) > half_girth_mm):
        words = _("{typed} is more than half way round: at most {half} to either side is allowed")
        half = written(math.floor(half_girth_mm), units)
        raise EditError(words.format(typed=text.strip(), half=half))
    return around


def _in_millimetres(text: str, units: Units) -> str:
    """Return a phrase with its length in mm; the model's own phrases have no other bare numbers."""
    size, to, rest = text.partition(" to ")
    try:
        return f"{typed_length(size, units):.10g}{to}{rest}" if to else text
    except UnitError:
        return text


def around_words(around: Around, units: Units, digits: int = 2) -> str:
    """Return a place round the skin as it is typed, in the units shown."""
    if around.origin == "bearing" or not around.offset:
        return str(around)
    side = "starboard" if around.offset > 0 else "port"
    return f"{written(abs(around.offset), units, digits)} to {side} of {around.origin}"


def around_phrase(said: Around | None, girth_mm: float, half_girth_mm: float, units: Units) -> str:
    """Return a girth as it is typed: from the centreline that ``said`` counts from, else the nearer one."""
    if said is not None and said.origin != "bearing" and not said.offset:
        return said.origin
    aft = said.origin == "aft" if said and said.origin != "bearing" else abs(girth_mm) < half_girth_mm / 2
    off = abs(girth_mm) if aft else height_mm(half_girth_mm, abs(girth_mm))
    off = 0.0 if off < _NOTHING_MM else off
    place = Around(origin="aft" if aft else "ahead", offset=math.copysign(off, girth_mm) if off else 0.0)
    return around_words(place, units, 1)


def not_known() -> str:
    """Return what stands in the place of a value that nobody measured."""
    return _("not known")
