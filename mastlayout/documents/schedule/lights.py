"""The rows of the sheet of lights and antennas."""

from mastlayout.checks.report import Report
from mastlayout.checks.sentence import names_of
from mastlayout.documents.rows import Lights
from mastlayout.figures import Figure
from mastlayout.ranges.light_figures import LightRow, light_table
from mastlayout.ranges.ring_words import numbered
from mastlayout.ranges.rings import rings
from mastlayout.units import M_PER_FT, Units


def lights_of(report: Report, units: Units) -> Lights | None:
    """Return what lights and antennas see; None where there are none."""
    shown = numbered(rings(report.scene), names_of(report.scene.layout))
    if not shown:
        return None
    rows = tuple(_row(row, units) for row in light_table(report.scene))
    return Lights(shown, rows, "m" if units == "metric" else "ft")


def _row(row: LightRow, units: Units) -> tuple[str, ...]:
    figures = row.figures
    height = 1.0 if units == "metric" else M_PER_FT
    return (
        row.name,
        row.role.name,
        _text(figures["least_range_nm"], 0),
        _text(figures["plate_range_nm"], 0),
        _text(figures["above_gunwale_m"], 2 if units == "metric" else 1, height),
        _text(figures["lean_aft_deg"], 1, mark="°"),
        _text(figures["level_band_left_deg"], 1, mark="°"),
    )


def _text(figure: Figure, digits: int, unit: float = 1.0, mark: str = "") -> str:
    """Write a figure; a question mark stands for what nobody has measured."""
    if figure.value is None:
        return "?"
    return f"{figure.value / unit + 0.0:.{digits}f}{mark}".replace("-", "\u2212")
