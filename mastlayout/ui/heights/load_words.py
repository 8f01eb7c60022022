"""What is aloft, in words: values in the units in force, and how each figure was found."""

from mastlayout.figures import Figure
from mastlayout.ui.heights.words import Working, missing_words
from mastlayout.ui.typed import not_known, written
from mastlayout.units import Units, write_height, write_size
from mastlayout.words import _

_DIGITS = {"kg": 1, "kg m": 0, "kg m²": 0, "N m": 0, "N": 0, "dB": 1, "%": 1, "W": 1, "°": 1, "": 0}


def figure_text(figure: Figure | None, units: Units) -> str:
    """Write a figure with its unit; nothing where there is none to find."""
    if figure is None:
        return ""
    if figure.value is None:
        # A figure that is none for a reason has it as its formula.
        return not_known() if figure.missing else _("none")
    if figure.unit == "m":
        return write_height(figure.value, units)
    if figure.unit == "mm":
        return length_text(figure.value, units)
    return _plain(figure.value, figure.unit)


def length_text(value_mm: float, units: Units) -> str:
    """Write a length with its unit."""
    return written(value_mm, units) if units == "inches" else f"{written(value_mm, units)} mm"


def _plain(value: float, unit: str) -> str:
    words = f"{value:,.{_DIGITS.get(unit, 1)}f} {unit}".replace(",", " ").replace("-", "\u2212")
    return words.replace(" °", "°").strip()


# What a rule measures, not a tape.
_SIZES = ("edge_mm", "other_mm", "tall_mm", "wave_mm")


def load_working(figure: Figure, what: str, units: Units) -> Working:
    """Return how a figure was found, or what has to be measured first."""
    formula = figure.formula.replace(" x ", " × ")
    inputs = "\n".join(
        f"{_number(key, value, units)}  {_name(key, figure)}" for key, value in figure.inputs.items()
    )
    if figure.missing is not None:
        inputs = missing_words(figure.missing)
    result = _("{what}: {value}").format(what=what, value=figure_text(figure, units))
    return Working(result, formula, inputs, figure.source)


def _name(key: str, figure: Figure) -> str:
    """Name what went in by its key; the sectors of a list by their number."""
    if key == "edge_mm" and "stacked" in figure.inputs:
        return _("a, edge of a corner")
    if not key.startswith("sector_"):
        return _names()[key]
    number, end = key.split("_")[1:3]
    words = _("sector {n} begins") if end == "from" else _("sector {n} ends")
    return words.format(n=number)


def _number(key: str, value: float, units: Units) -> str:
    if key in _SIZES:
        return write_size(value, units=units) if units == "inches" else f"{value:.4g} mm"
    if key.endswith("_mm"):
        return length_text(value, units)
    if key.endswith("_deg"):
        return f"{value:g}°".replace("-", "\u2212")
    return f"{round(value, 3):g}".replace("-", "\u2212")


def _names() -> dict[str, str]:
    """Return what goes into the figures, by key, with the unit of what is no length."""
    return _of_weight() | _of_sound_and_radio()


def _of_weight() -> dict[str, str]:
    """Name what goes into heights, weights, drag and balance."""
    return {
        "z_mm": _("height from the heel"),
        "ahead_mm": _("its top ahead of the mast's axis"),
        "rake_deg": _("rake"),
        "heel_above_water_mm": _("heel above the water"),
        "light_rise_mm": _("how much higher she floats light"),
        "fittings": _("fittings counted"),
        "mass_kg": _("kg, sum of m"),
        "mean_height_m": _("m, mean of h"),
        "sum_of_mh2_kgm2": _("kg m², sum of m h²"),
        "sum_of_my2_kgm2": _("kg m², sum of m y²"),
        "moment_kgm": _("kg m, sum of m h"),
        "heel_deg": _("heel of the yacht"),
        "g_ms2": _("m/s², g"),
        "displacement_kg": _("kg, displacement"),
        "gravity_mm": _("her centre of gravity above the water"),
        "area_m2": _("m², A"),
        "sum_of_area_height_m3": _("m³, sum of A h"),
        "wind_ms": _("m/s, v"),
        "cd": _("Cd"),
        "air_kg_m3": _("kg/m³, ρ"),
        "tube_kg": _("kg, the bare tube"),
        "tube_z_mm": _("the tube's middle from the heel"),
        "fittings_kg": _("kg, what is mounted"),
        "fittings_z_mm": _("the middle of that from the heel"),
        "total_kg": _("kg in all"),
        "trim_deg": _("trim, bow down"),
        "flotation_abaft_mm": _("middle of the waterline abaft the mast"),
    }


def _of_sound_and_radio() -> dict[str, str]:
    """Name what goes into cables, sound, radar, horizons and what hides them."""
    return {
        "db_per_100m": _("dB in 100 m"),
        "sources_differ_by_db_per_100m": _("dB in 100 m, how far sources differ"),
        "length_m": _("m, length"),
        "connectors": _("connectors"),
        "connector_db": _("dB, each connector"),
        "loss_db": _("dB, loss"),
        "required_mm": _("asked"),
        "tone_hz": _("Hz, its tone"),
        "audible_nm": _("NM it is taken to be heard"),
        "arc_deg": _("of the circle"),
        "axis_deg": _("where its mouth points"),
        "luff_deg": _("bearing of the luff"),
        "wave_m": _("m, λ, 340 m/s by its tone"),
        "distance_mm": _("d, how far off it is"),
        "edge_mm": _("h, its middle to its nearest edge"),
        "height_above_water_m": _("m, h above the water"),
        "beam_tall_deg": _("β, how tall its beam is"),
        "beam_wide_deg": _("how wide its beam is"),
        "mean_power_w": _("W, P, its mean power"),
        "gain": _("G, gain of its antenna"),
        "limit_w_m2": _("W/m², S, the public limit"),
        "level_1m_db": _("dB at 1 m"),
        "distance_m": _("m, distance"),
        "compass_x_mm": _("compass, ahead of the mast"),
        "compass_y_mm": _("compass, to port"),
        "compass_z_mm": _("compass, above the heel"),
        "nearest_x_mm": _("nearest of it, ahead"),
        "nearest_y_mm": _("nearest of it, to port"),
        "nearest_z_mm": _("nearest of it, above the heel"),
        "field_ut": _("µT, H"),
        "current_a": _("A, I"),
        "copper_mm2": _("mm² of copper"),
        "supply_v": _("V on board"),
        "other_mm": _("b, its other edge"),
        "tall_mm": _("L, height of the stack"),
        "wave_mm": _("λ, wavelength"),
        "stacked": _("n, corners over each other"),
        "asked_m2": _("m², σ, as asked"),
        "echo_m2": _("m², σ, its echo"),
        "stated_deg": _("as stated"),
        "hidden_deg": _("hidden"),
        "antenna_height_m": _("m, H, the ship's antenna"),
        "eye_height_m": _("m, H, the eye"),
        "target_height_m": _("m, H, the target"),
        "nm_per_root_m": _("nautical miles to the root of a metre"),
        "covered_share": _("of the antenna covered at most"),
    }
