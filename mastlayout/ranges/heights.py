"""What each height is, in every datum, and how far it sees: a plain table.

Conventions, named where printed: the visible horizon as lists of lights take it, 2.08 nautical
miles to the root of the height in metres; radio and radar over an earth of 4/3 radius.
"""

import math
from dataclasses import dataclass

from mastlayout.figures import Figure
from mastlayout.geometry.frames import above_deck_mm, above_water_mm, height_mm, reading
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.model.boat import Boat
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of
from mastlayout.words import _

# Lists of lights; NGA Pub. 9 derives 1.17 to the root of feet, which is 2.12 to the root of metres.
VISIBLE_NM = 2.08
# sqrt(2 k R), R 6371 km and k 4/3: 4.1218 km or 2.2256 NM to the root of metres (ITU-R P.526).
RADIO_NM = math.sqrt(2 * 4 / 3 * 6371.0 / 1000.0) / 1.852


@dataclass(frozen=True, eq=False)
class HeightRow:
    """One fitting's height in every datum and its two horizons; None where the water is not known."""

    id: str
    name: str
    from_masthead_mm: int
    from_heel_mm: int
    above_deck_mm: float | None
    water: Figure
    visible: Figure
    radio: Figure


def water_height(scene: Scene, z_mm: float) -> Figure:
    """Return the height above the water, m, of a place on the mast's axis."""
    formula = _("height from the heel x cos(rake) + heel above the water")
    missing = missing_for_water(scene)
    source = _("geometry")
    if missing is not None:
        return Figure(_("above the water"), None, "m", formula, source, missing=missing.key)
    rake, heel = scene.layout.mast.rake_deg or 0.0, scene.layout.boat.heel_above_water_mm or 0.0
    value = above_water_mm(z_mm, rake, heel) / 1000.0
    inputs = {"z_mm": z_mm, "rake_deg": rake, "heel_above_water_mm": heel}
    return Figure(_("above the water"), value, "m", formula, source, inputs)


def missing_for_water(scene: Scene) -> Measure | None:
    """Return the measure without which no height above the water is known, or None."""
    if scene.layout.boat.heel_above_water_mm is None:
        return measure_of(Boat, "heel_above_water_mm")
    return measure_of(Mast, "rake_deg") if scene.layout.mast.rake_deg is None else None


def horizon(name: str, factor: float, source: str, water: Figure) -> Figure:
    """Return the distance, nautical miles, of the horizon seen from a height above the water."""
    formula = f"{factor:.2f} √h"
    if water.value is None:
        return Figure(name, None, "NM", formula, source, missing=water.missing)
    value = factor * math.sqrt(max(water.value, 0.0))
    return Figure(name, value, "NM", formula, source, {"height_above_water_m": water.value})


def table(scene: Scene) -> list[HeightRow]:
    """Return a row for each placed fitting, masthead first."""
    rows = []
    for placed in masthead_first(scene):
        water = water_height(scene, placed.z_mm)
        length = scene.skin.length_mm
        read = reading(height_mm(length, placed.z_mm), length)
        deck = scene.layout.boat.deck_above_heel_mm
        rows.append(
            HeightRow(
                placed.id,
                placed.fitting.name,
                read.masthead,
                read.heel,
                None if deck is None else above_deck_mm(placed.z_mm, deck),
                water,
                horizon(
                    _("visible horizon"), VISIBLE_NM, _("lists of lights, 2.08 to the root of metres"), water
                ),
                horizon(_("radio and radar horizon"), RADIO_NM, _("ITU-R P.526, earth of 4/3 radius"), water),
            )
        )
    return rows
