"""Reading what people type and writing what they chose: lengths in mm, angles, masses.

A small grammar of our own reads metres, millimetres, feet, inches and fractions. Only a unit
it does not know is passed to pint, which is imported there: it costs 0.2 s.
"""

import itertools
import math
import re
from collections.abc import Callable
from typing import Literal

from mastlayout.errors import UnitError
from mastlayout.words import _

Units = Literal["metric", "inches"]
# To the nearest, or towards less or more room: round, floor, ceil.
Rounding = Callable[[float], int]

MM_PER_INCH = 25.4
M_PER_FT = 0.3048
SIXTEENTHS_PER_INCH = 16
_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH, '"': MM_PER_INCH, "ft": 304.8, "'": 304.8}
_DEGREES = {"deg": 1.0, "°": 1.0, "rad": 180.0 / math.pi}
_KG = {"kg": 1.0, "g": 0.001, "t": 1000.0, "lb": 0.45359237, "oz": 0.028349523125}
_NUMBER = r"(?P<whole>\d{1,3}(?:[ \u2009\u202f]\d{3})+(?:\.\d+)?|\d+\.\d+|\.\d+|\d+)"
_FRACTION = r"(?P<num>\d+)\s*/\s*(?P<den>\d+)"
_TERM = re.compile(
    rf"\s*(?:{_FRACTION}|{_NUMBER}(?:(?:\s+|-)(?P<num2>\d+)\s*/\s*(?P<den2>\d+))?)\s*(?P<unit>[a-zA-Z°'\"]*)\s*"
)
_LONGEST = 60


def read_length(typed: object) -> float:
    """Return millimetres from a number (mm) or text such as ``"8.1 m"`` or ``"26 ft 6 1/2 in"``.

    Raises UnitError with what is allowed for anything else.
    """
    return _read(typed, _MM, "mm", _('a length such as 8140, "8.14 m" or "26 ft 8 1/2 in"'))


def read_angle(typed: object) -> float:
    """Return degrees from a number (degrees) or text such as ``"1.5 deg"``."""
    return _read(typed, _DEGREES, "deg", _('an angle in degrees such as 1.5 or "1.5 deg"'))


def read_mass(typed: object) -> float:
    """Return kilograms from a number (kg) or text such as ``"4 lb"``."""
    return _read(typed, _KG, "kg", _('a mass such as 1.9 or "4 lb 3 oz"'))


def _read(typed: object, factors: dict[str, float], base: str, allowed: str) -> float:
    if isinstance(typed, (int, float)) and not isinstance(typed, bool):
        try:
            value = float(typed)
        except OverflowError:
            value = math.inf
    elif isinstance(typed, str):
        value = _read_text(typed, factors, base, allowed)
    else:
        raise UnitError(_("{typed} is not {allowed}").format(typed=_short(typed), allowed=allowed))
    if not math.isfinite(value):
        raise UnitError(
            _("{typed} is not a number that can be used: {allowed} is wanted").format(
                typed=_short(typed), allowed=allowed
            )
        )
    return value


def _read_text(text: str, factors: dict[str, float], base: str, allowed: str) -> float:
    if len(text) > _LONGEST:
        raise UnitError(_("{typed} is too long to be {allowed}").format(typed=_short(text), allowed=allowed))
    if "," in text:
        raise UnitError(
            _("{typed} has a comma: write the decimal with a point, and no comma for thousands").format(
                typed=_short(text)
            )
        )
    body = text.strip().replace("\u2212", "-")
    sign = -1.0 if body.startswith("-") else 1.0
    body = body[1:].strip() if body.startswith(("+", "-")) else body
    terms = _terms(body)
    if terms and all(unit in factors for _value, unit in terms[:-1] if unit) and _falling(terms, factors):
        last = terms[-1][1] or (base if len(terms) == 1 else "")
        if last in factors:
            sizes = [factors[unit] for _value, unit in terms[:-1]] + [factors[last]]
            return sign * sum(value * size for (value, _unit), size in zip(terms, sizes, strict=True))
    if len(terms) == 1 and terms[0][1].isalpha():
        return sign * _ask_pint(*terms[0], base, text, allowed)
    raise UnitError(_("{typed} is not {allowed}").format(typed=_short(text), allowed=allowed))


def _terms(body: str) -> list[tuple[float, str]]:
    """Split ``26 ft 6 1/2 in`` into its values and units; nothing where a part cannot be read."""
    terms, at = [], 0
    while at < len(body):
        found = _TERM.match(body, at)
        if not found or found.end() == at:
            return []
        terms.append((_term_value(found), found["unit"]))
        at = found.end()
    return [] if any(math.isnan(value) for value, _unit in terms) else terms


def _term_value(found: re.Match[str]) -> float:
    if found["num"]:
        return int(found["num"]) / int(found["den"]) if int(found["den"]) else math.nan
    value = float(re.sub(r"[ \u2009\u202f]", "", found["whole"]))
    if found["num2"]:
        value += int(found["num2"]) / int(found["den2"]) if int(found["den2"]) else math.nan
    return value


def _falling(terms: list[tuple[float, str]], factors: dict[str, float]) -> bool:
    """Tell whether each unit is smaller than the one before it, as in feet then inches."""
    sizes = [factors.get(unit, 0.0) for _value, unit in terms]
    return all(a > b > 0 for a, b in itertools.pairwise(sizes))


def _ask_pint(value: float, unit: str, base: str, text: str, allowed: str) -> float:
    import pint  # noqa: PLC0415 - 0.2 s, and only for a unit our own grammar does not know

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    try:
        quantity = registry.Quantity(value, unit)
        # Root units and not dimensions: to pint a percent and a bit have those of an angle.
        fits = quantity.to_root_units().units == registry.Quantity(1.0, base).to_root_units().units
    except (pint.errors.PintError, AttributeError, ValueError):  # a ValueError for the unit “nan”
        raise UnitError(
            _("{typed} has the unit “{unit}”, which is not known: {allowed} is wanted").format(
                typed=_short(text), unit=unit, allowed=allowed
            )
        ) from None
    if not fits:
        raise UnitError(_("{typed} is not {allowed}").format(typed=_short(text), allowed=allowed))
    return float(quantity.to(base).magnitude)


def _short(typed: object) -> str:
    text = repr(typed) if not isinstance(typed, str) else f"“{typed}”"
    return text if len(text) <= 40 else text[:38] + "…"


def sixteenths(length_mm: float) -> int:
    """Return a length as a whole number of sixteenths of an inch, the nearest one."""
    return round(length_mm / MM_PER_INCH * SIXTEENTHS_PER_INCH)


def feet_inches(count: int, parts: int = SIXTEENTHS_PER_INCH) -> str:
    """Write ``count`` parts of an inch (1/16 unless said) as ``31-8 9/16`` or, under a foot, ``8 9/16``."""
    sign = "-" if count < 0 else ""
    inches, rest = divmod(abs(count), parts)
    feet, inches = divmod(inches, 12)
    shared = math.gcd(rest, parts)
    fraction = f"{rest // shared}/{parts // shared}" if rest else ""
    whole = f"{feet}-{inches}" if feet else str(inches) if inches or not rest else ""
    return sign + " ".join(part for part in (whole, fraction) if part)


def write_length(length_mm: float, units: Units = "metric", digits: int = 0) -> str:
    """Write a length as the user chose: millimetres with ``digits``, or feet-inches-sixteenths."""
    if units == "inches":
        return feet_inches(sixteenths(length_mm))
    text = f"{length_mm:.{digits}f}"
    return text if float(text) else text.lstrip("-")


def decimal_inches(size_mm: float, rounding: Rounding = round) -> str:
    """Write a size in inches alone, where its millimetres stand beside it or in the same row's sentence."""
    return _("{size} in").format(size=_in_thousandths(size_mm, rounding))


def _in_thousandths(size_mm: float, rounding: Rounding) -> str:
    return f"{rounding(size_mm / MM_PER_INCH * 1000) / 1000:.3f}"


def write_height(height_m: float, units: Units = "metric") -> str:
    """Write a height above the water: metres, or feet and tenths, as lists of lights have whole feet."""
    if units == "inches":
        return f"{height_m / M_PER_FT:.1f} ft".replace("-", "\u2212")
    return f"{height_m:.2f} m".replace("-", "\u2212")


def write_size(*sizes_mm: float, units: Units = "metric", digits: int = 1, rounding: Rounding = round) -> str:
    """Write a size, or those of two sides, as the user chose: millimetres, or ``0.165 in (4.2 mm)``.

    A size is what a calliper or a gauge reads and no tape does: a wall, a hole, a wire, a rope, a
    cable, a bore, a pad, and the room beside a hole. In sixteenths a wall of 4.2 would be 3/16,
    which is 4.76: its thread, drill and load are chosen wrongly. So inches have three places,
    with the millimetres beside them in which the trade names the same thing. Heights, and
    distances that a tape reads, are ``write_length``.
    """
    part = 10**digits
    metric = [write_length(rounding(size * part) / part, digits=digits) for size in sizes_mm]
    if units == "metric":
        return " × ".join(metric)
    inches = " × ".join(_in_thousandths(size, rounding) for size in sizes_mm)
    short = " × ".join(text.rstrip("0").rstrip(".") if digits else text for text in metric)
    return _("{inches} in ({metric} mm)").format(inches=inches, metric=short)


def write_drill(drill_mm: float, units: Units = "metric") -> str:
    """Write a drill by the name it is bought by, its millimetres; with its inches where these are chosen."""
    if units == "metric":
        return f"{drill_mm:.1f}"
    return _("{drill} mm, {inches}").format(drill=f"{drill_mm:.1f}", inches=decimal_inches(drill_mm))
