"""Numbers as the hand panel writes them, and as they are typed back into it."""

import re

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


def not_known() -> str:
    """Return what stands in the place of a value that nobody measured."""
    return _("not known")
