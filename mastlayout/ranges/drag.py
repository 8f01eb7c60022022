"""Windage aloft: drag in two winds before the refit and after it, and how it heels her.

Old parts that come off for a new one have a mass, but nobody drew them: their drag is not in it, so a
change is rather too large than too small.
"""

from weakref import WeakKeyDictionary

import numpy as np

from mastlayout.figures import Figure
from mastlayout.geometry.placed import Body, Placed
from mastlayout.geometry.scene import Scene
from mastlayout.model.measure import Measure
from mastlayout.ranges.air_draught import up
from mastlayout.ranges.heights import missing_for_water
from mastlayout.ranges.weight import When, middles
from mastlayout.ranges.windage import AIR_KG_M3, DRAG_COEFFICIENT, MS_PER_KN, area_m2, drag_n
from mastlayout.words import _

KNOTS = (20.0, 40.0)
# By the shape of a kind, and how it is turned.
_KNOWN: WeakKeyDictionary[Body, dict[bytes, tuple[float, float]]] = WeakKeyDictionary()


def drag_figures(scene: Scene, when: When) -> dict[str, Figure]:
    """Return drag from abeam and from ahead, and the moment about the water from abeam, in each wind."""
    placed = list(scene.placed.values())
    rows = [at for at, one in enumerate(placed) if _counts(one, when)]
    counted = [placed[at] for at in rows]
    abeam = [_areas(one)[0] for one in counted]
    ahead = sum(_areas(one)[1] for one in counted)
    water, heel_mm = missing_for_water(scene), scene.layout.boat.heel_above_water_mm or 0.0
    lever = (middles(scene)[rows] @ up(scene) + heel_mm) / 1000.0
    turned = float(np.array(abeam) @ lever)
    figures: dict[str, Figure] = {}
    for knots in KNOTS:
        figures[f"drag_abeam_{knots:g}kn_n"] = _drag(_("drag from abeam"), sum(abeam), knots)
        figures[f"drag_ahead_{knots:g}kn_n"] = _drag(_("drag from ahead"), ahead, knots)
        figures[f"wind_moment_{knots:g}kn_nm"] = _moment(sum(abeam), turned, knots, water)
    return figures


def areas_m2(placed: Placed) -> dict[str, float]:
    """Return what the wind finds of one fitting from abeam and from ahead."""
    return dict(zip(("abeam_m2", "ahead_m2"), _areas(placed), strict=True))


def _areas(placed: Placed) -> tuple[float, float]:
    """Return a fitting's areas from abeam and from ahead; moved along the mast it keeps them."""
    known = _KNOWN.setdefault(placed.body, {})
    turned = (placed.seats.axes[0].round(9) + 0.0).tobytes()
    if turned not in known:
        known[turned] = (area_m2(placed.solids, "abeam"), area_m2(placed.solids, "ahead"))
    return known[turned]


def _counts(placed: Placed, when: When) -> bool:
    return when == "after" or placed.fitting.new == (when == "change")


def _drag(name: str, area: float, knots: float) -> Figure:
    return Figure(name, drag_n(area, knots), "N", _("½ ρ v² Cd A"), _source(), _wind(area, knots))


def _moment(area: float, turned: float, knots: float, water: Measure | None) -> Figure:
    name, formula = _("heeling moment of it"), _("½ ρ v² Cd x sum of A h")
    if water is not None:
        return Figure(name, None, "N m", formula, _source(), missing=water.key)
    inputs = _wind(area, knots) | {"sum_of_area_height_m3": turned}
    return Figure(name, drag_n(turned, knots), "N m", formula, _source(), inputs)


def _wind(area: float, knots: float) -> dict[str, float]:
    return {"area_m2": area, "wind_ms": knots * MS_PER_KN, "cd": DRAG_COEFFICIENT, "air_kg_m3": AIR_KG_M3}


def _source() -> str:
    return _("Cd 1.2 as a cylinder below its critical Reynolds number; air of ISO 2533; no shelter counted")
