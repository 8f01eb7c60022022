"""What a height gives, in words: heights, distances, names of curves, and a figure's working."""

import re

from mastlayout.errors import UnitError
from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.model.measure import instructions
from mastlayout.ranges.asked import QUESTIONS, Asked, Key
from mastlayout.ranges.reach import Reach
from mastlayout.ui.typed import not_known, typed_length, written
from mastlayout.units import M_PER_FT, Units, write_height
from mastlayout.words import _

_BARE = re.compile(r"^[+\-\u2212]?\d*\.?\d+$")


def typed_height_m(text: str, units: Units) -> float:
    """Return metres from what was typed, in any unit; a bare number is metres, or feet.

    UnitError where it cannot be read.
    """
    bare = text.strip()
    if _BARE.match(bare):
        each = M_PER_FT if units == "inches" else 1.0
        return float(bare.replace("\u2212", "-")) * each
    try:
        return typed_length(bare, units) / 1000.0
    except UnitError as error:
        if "," in bare:
            raise
        words = _("“{typed}” is no height: type it as 2.5 m, 8 ft or 8 ft 2 1/2 in")
        raise UnitError(words.format(typed=bare[:40])) from error


def end_text(key: Key, asked: Asked, units: Units) -> str:
    """Write what is asked under a key as it is typed; "" where it is not known."""
    value = asked.value(key)
    if value is None:
        return ""
    if QUESTIONS[key].unit != "m":
        return f"{value:g}°".replace("-", "\u2212")
    return f"{round(value / M_PER_FT, 1):g} ft" if units == "inches" else f"{round(value, 2):g} m"


def what_words(reach: Reach, asked: Asked, units: Units) -> str:
    """Return what a reach is, with the other end's height where it has one."""
    if reach.end is None:
        return reach.name[:1].upper() + reach.name[1:]
    end = end_text(reach.end, asked, units)
    if not end:
        unknown: dict[Key, str] = {
            "eye_height_m": _("Light to an eye"),
            "antenna_height_m": _("Radio to an antenna"),
            "target_height_m": _("Radar to a target"),
        }
        return unknown[reach.end]
    words: dict[Key, str] = {
        "eye_height_m": _("Light to an eye at {end}"),
        "antenna_height_m": _("Radio to an antenna at {end}"),
        "target_height_m": _("Radar to a target of {end}"),
    }
    return words[reach.end].format(end=end)


def value_text(figure: Figure | None, units: Units) -> str:
    """Write a figure's value with its unit; a dash where there is none to find."""
    if figure is None:
        return "–"
    if figure.value is None:
        return not_known()
    return write_height(figure.value, units) if figure.unit == "m" else f"{figure.value:.1f} {figure.unit}"


@dataclass(frozen=True)
class Working:
    """How a figure was found, in words."""

    result: str
    formula: str
    inputs: str
    source: str


def working(figure: Figure, what: str, asked: Asked, units: Units) -> Working:
    """Return how a figure was found, or what has to be measured or asked first."""
    formula = figure.formula.replace(" x ", " × ")
    result = _("{what}: {value}").format(what=what, value=value_text(figure, units))
    inputs = "\n".join(_input(key, value, asked, units) for key, value in figure.inputs.items())
    if figure.missing is not None:
        inputs = missing_words(figure.missing)
    return Working(result, formula, inputs, figure.source)


def missing_words(key: str) -> str:
    """Return what to measure, or to type, for a figure that lacks it."""
    if key in QUESTIONS:
        name = next(question.name for own, question in QUESTIONS.items() if own == key)
        return _("{name}: type it in its field.").format(name=name)
    what = instructions()[key]
    return _("{title}: not known yet. {how}").format(title=what.title, how=what.how)


def _input(key: str, value: float, asked: Asked, units: Units) -> str:
    names = {
        "nm_per_root_m": _("nautical miles to the root of a metre"),
        "height_above_water_m": _("h, above the water"),
        "eye_height_m": _("H, the eye"),
        "antenna_height_m": _("H, the other antenna"),
        "target_height_m": _("H, the target"),
        "z_mm": _("height from the heel"),
        "rake_deg": _("rake"),
        "heel_above_water_mm": _("heel above the water"),
        "heel_deg": _("heel of the yacht"),
        "trim_deg": _("trim, bow down"),
        "flotation_abaft_mm": _("middle of the waterline abaft the mast"),
    }
    return f"{_number(key, value, units)}  {names[key]}{_whose(key, asked)}"


def _number(key: str, value: float, units: Units) -> str:
    if key.endswith("_deg"):
        return f"{value:g}°".replace("-", "\u2212")
    if key.endswith("_mm"):
        return written(value, units)
    if key == "nm_per_root_m":
        return f"{value:.3f}"
    # The formula takes the root of metres.
    metres = write_height(value, "metric")
    return metres if units == "metric" else f"{metres} ({write_height(value, units)})"


def _whose(key: str, asked: Asked) -> str:
    """Say where the height of the other end comes from while it is the example."""
    for own, question in QUESTIONS.items():
        if own == key and asked.value(own) == question.example:
            return f", {question.why}"
    return ""
