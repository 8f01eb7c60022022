"""What each height is, in every datum, and how far it reaches: a plain table."""

from collections.abc import Mapping

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, above_deck_mm, above_water_mm, height_mm, reading
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.model.boat import Boat
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of
from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.reach import reaches
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class HeightRow:
    """One fitting's height in every datum and its reaches by key; None where the water is not known."""

    id: str
    name: str
    from_masthead_mm: int
    from_heel_mm: int
    above_deck_mm: float | None
    water: Figure
    reaches: Mapping[str, Figure]


def missing_for_water(scene: Scene, asked: Asked = EXAMPLE) -> Measure | None:
    """Return the measure without which no height above the water is known, or None."""
    boat = scene.layout.boat
    if boat.heel_above_water_mm is None:
        return measure_of(Boat, "heel_above_water_mm")
    if scene.layout.mast.rake_deg is None:
        return measure_of(Mast, "rake_deg")
    if asked.trim_deg and boat.flotation_abaft_mast_mm is None:
        return measure_of(Boat, "flotation_abaft_mast_mm")
    return None


def above_water_m(scene: Scene, z_mm: Array, asked: Asked = EXAMPLE) -> Array | None:
    """Return the heights above the water, m, of places on the mast's axis; None where it is not known."""
    if missing_for_water(scene, asked) is not None:
        return None
    return above_water_mm(z_mm, **_inputs(scene, asked)) / 1000.0


def _inputs(scene: Scene, asked: Asked) -> dict[str, float]:
    boat = scene.layout.boat
    inputs = {
        "rake_deg": scene.layout.mast.rake_deg or 0.0,
        "heel_above_water_mm": boat.heel_above_water_mm or 0.0,
    }
    if asked.heel_deg:
        inputs["heel_deg"] = asked.heel_deg
    if asked.trim_deg:
        inputs |= {"trim_deg": asked.trim_deg, "flotation_abaft_mm": boat.flotation_abaft_mast_mm or 0.0}
    return inputs


def water_height(scene: Scene, z_mm: float, asked: Asked = EXAMPLE) -> Figure:
    """Return the height above the water, m, of a place on the mast's axis."""
    name, source, formula = _("above the water"), _("geometry"), _formula(asked)
    missing = missing_for_water(scene, asked)
    if missing is not None:
        return Figure(name, None, "m", formula, source, missing=missing.key)
    inputs = _inputs(scene, asked)
    value = above_water_mm(z_mm, **inputs) / 1000.0
    return Figure(name, value, "m", formula, source, {"z_mm": z_mm} | inputs)


def _formula(asked: Asked) -> str:
    upright = _("height from the heel x cos(rake) + heel above the water")
    formula = f"({upright})" if asked.heel_deg or asked.trim_deg else upright
    if asked.heel_deg:
        formula = _("{upright} x cos(heel)").format(upright=formula)
    if asked.trim_deg:
        lever = _("(middle of the waterline abaft the mast − height x sin(rake))")
        words = _("{upright} x cos(trim) − {lever} x sin(trim)")
        formula = words.format(upright=formula, lever=lever)
    return formula


def table(scene: Scene, asked: Asked = EXAMPLE) -> list[HeightRow]:
    """Return a row for each placed fitting, masthead first."""
    return [_row(scene, placed, asked) for placed in masthead_first(scene)]


def _row(scene: Scene, placed: Placed, asked: Asked) -> HeightRow:
    length, deck = scene.skin.length_mm, scene.layout.boat.deck_above_heel_mm
    read = reading(height_mm(length, placed.z_mm), length)
    water = water_height(scene, placed.z_mm, asked)
    return HeightRow(
        placed.id,
        placed.fitting.name,
        read.masthead,
        read.heel,
        None if deck is None else above_deck_mm(placed.z_mm, deck),
        water,
        reaches(water, asked),
    )
