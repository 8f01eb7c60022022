"""A changed value in the way the file had it typed: metres stay metres, feet and inches stay so."""

import re
from collections.abc import Callable
from typing import Any

import tomli

from mastlayout.storage.composing import inline
from mastlayout.units import MM_PER_INCH, read_angle, read_length, read_mass

# How far a text may be off the value it is written for: a decimal next to nothing, a fraction of an
# inch as much as edits are rounded to.
_DECIMAL_OFF = 0.0005
_FRACTION_OFF_MM = 0.01
_MOST_DIGITS = 10
_DENOMINATORS = (1, 2, 4, 8, 16, 32, 64)
_READERS: dict[str, Callable[[object], float]] = {"_deg": read_angle, "_kg": read_mass}
_DECIMAL = re.compile(r"[-+−]?\d*(?:\.(?P<digits>\d+))?(?P<unit>\s*[a-zA-Z°'\"]+)")
_FEET = re.compile(r"\d(?P<unit>\s*(?:ft|'))")
_INCHES = re.compile(r"\d(?P<unit>\s*(?:in|\"))\s*$")
_PHRASE = re.compile(r"(?P<size>.+?)(?P<rest>\s+to\s+(?:port|starboard)\b.*)")


def retyped(old: str, value: Any, name: str) -> str:
    """Return a value as the text of a file, in the way of the value it takes the place of.

    Args:
        old: the text of the old value, quotes included.
        value: a number, a text or a truth value, as a file holds it.
        name: the field, whose ending says what is measured.
    """
    text = tomli.loads(f"old = {old}")["old"]
    if not isinstance(text, str):
        return _girth_number(value) or inline(value)
    new = value
    if isinstance(value, int | float) and not isinstance(value, bool):
        new = _in_unit(text, value, _reader(name))
    elif isinstance(value, str) and _PHRASE.fullmatch(text) and _PHRASE.fullmatch(value):
        new = _in_phrase(text, value)
    literal = old.startswith("'") and isinstance(new, str) and "'" not in new and new.isprintable()
    return f"'{new}'" if literal else inline(new)


def _reader(name: str) -> Callable[[object], float]:
    return next((reader for ending, reader in _READERS.items() if name.endswith(ending)), read_length)


def _girth_number(value: Any) -> str:
    """Return a place from the middle of the track as the bare number it was typed as, or nothing."""
    found = _PHRASE.fullmatch(value) if isinstance(value, str) else None
    if value == "aft":
        return "0"
    if not found or not found["rest"].endswith(" of aft"):
        return ""
    return f"{'-' if ' port ' in found['rest'] else ''}{found['size']}"


def _in_phrase(old: str, new: str) -> str:
    """Keep the unit of a phrase such as “2 in to port of ahead”."""
    was, now = _PHRASE.fullmatch(old), _PHRASE.fullmatch(new)
    size = _in_unit(was["size"], float(now["size"]), read_length) if was and now else 0.0
    return f"{size}{now['rest']}" if now and isinstance(size, str) else new


def _in_unit(old: str, value: float, reader: Callable[[object], float]) -> str | float:
    """Return the value in the unit of the old text; as a bare number where that cannot be said exactly."""
    text = _in_fractions(old, value) if "." not in old and reader is read_length else None
    text = text or _in_decimals(old, value, reader)
    return value if text is None else text


def _in_fractions(old: str, value: float) -> str | None:
    """Return feet, inches and a fraction of an inch, if that is how the old text was typed."""
    feet, inches = _FEET.search(old), _INCHES.search(old)
    if not feet and not inches:
        return None
    total = abs(value) / MM_PER_INCH
    for parts in _DENOMINATORS:
        count = round(total * parts)
        if abs(count / parts - total) * MM_PER_INCH <= _FRACTION_OFF_MM:
            sign = "-" if value < 0 and count else ""
            return sign + _feet_and_inches(count, parts, feet and feet["unit"], inches and inches["unit"])
    return f"{value:.10g} mm"


def _feet_and_inches(count: int, parts: int, feet: str | None, inches: str | None) -> str:
    """Write ``count`` parts of an inch with the signs or words for feet and inches that were typed."""
    whole, rest = divmod(count, parts)
    many, whole = divmod(whole, 12) if feet else (0, whole)
    words = [str(whole)] if whole or not (rest or many) else []
    words += [f"{rest}/{parts}"] if rest else []
    inch = inches or ('"' if feet and "'" in feet else " in")
    texts = [f"{many}{feet}"] if many else []
    texts += [" ".join(words) + inch] if words else []
    return " ".join(texts)


def _in_decimals(old: str, value: float, reader: Callable[[object], float]) -> str | None:
    """Return the value as one decimal number in the unit of the old text, if it was typed so."""
    found = _DECIMAL.fullmatch(old.strip())
    if not found:
        return None
    size = reader(f"1{found['unit']}")
    for digits in range(len(found["digits"] or ""), _MOST_DIGITS):
        text = f"{value / size:.{digits}f}"
        if abs(float(text) * size - value) <= _DECIMAL_OFF:
            return f"{text}{found['unit']}"
    return None
