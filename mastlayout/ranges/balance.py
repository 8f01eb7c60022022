"""Where the mast balances as it is lifted, and what a strop there would lie on.

The tube counts with its girth at each height, so a taper is lighter; stays, spreaders, halyards and
cables are not weighed, and pull the balance down where they are lashed below it, or up.
"""

import math

import numpy as np

from mastlayout.figures import Figure
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.kind import Kind
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.ranges.weight import mass_of, middles
from mastlayout.words import _

# What a strop breaks; tangs, sheaves, exits, winches and eyes bear it.
_BREAKS = ("radar", "reflector", "light", "antenna", "wind", "sound", "camera", "guard", "bracket")
_STEPS = 400
_PER_METRE = measure_of(Mast, "mass_per_metre_kg").key


def balance(scene: Scene) -> Figure:
    """Return the height of the balance point from the heel, mm, with all that stays and all that is new."""
    formula = _("sum of m z / sum of m, over the tube and what is mounted on it")
    name, source = (
        _("balance point from the heel"),
        _("mechanics; without stays, spreaders, halyards, cables"),
    )
    per_metre = scene.layout.mast.mass_per_metre_kg
    if per_metre is None:
        return Figure(name, None, "mm", formula, source, missing=_PER_METRE)
    on_mast = np.array([one.on_mast for one in scene.placed.values()], dtype=bool)
    kg = np.array([math.nan if (own := mass_of(one)) is None else own for one in scene.placed.values()])[
        on_mast
    ]
    if np.isnan(kg).any():
        return Figure(name, None, "mm", formula, source, missing=measure_of(Kind, "mass_kg").key)
    tube_kg, tube_z = _tube(scene, per_metre)
    z = middles(scene)[on_mast, 2]
    total = tube_kg + float(kg.sum())
    if not total:
        return Figure(name, None, "mm", formula, source, missing=_PER_METRE)
    mounted, moment = float(kg.sum()), float(kg @ z)
    value = (tube_kg * tube_z + moment) / total
    inputs = {"tube_kg": tube_kg, "tube_z_mm": tube_z, "fittings_kg": mounted, "total_kg": total}
    inputs["fittings_z_mm"] = moment / mounted if mounted else 0.0
    return Figure(name, value, "mm", formula, source, inputs)


def _tube(scene: Scene, per_metre_kg: float) -> tuple[float, float]:
    """Return the bare tube's mass, kg, and the height of its middle, mm: as its girth, so its metal."""
    length = scene.skin.length_mm
    z = (np.arange(_STEPS) + 0.5) * length / _STEPS
    share = scene.skin.half_girth(z) / scene.skin.full.half_girth_mm
    kg = per_metre_kg * length / 1000.0 * share / _STEPS
    total = float(kg.sum())
    return total, float(kg @ z) / total if total else length / 2.0


def under_strop(scene: Scene, limits: Limits) -> list[tuple[Placed, float]]:
    """Return what a strop at the balance point would crush, and how far each is from that point, mm."""
    at = balance(scene).value
    if at is None:
        return []
    reach = limits["strop.reach"].value
    found = []
    for one in scene.placed.values():
        if one.on_mast and one.kind.group in _BREAKS:
            low, high = one.span_z_mm
            off = max(low - at, at - high, 0.0)
            if off < reach - 0.01:  # the one tolerance of the checks
                found.append((one, off))
    return found


def breaks(scene: Scene) -> bool:
    """Tell whether anything on the mast would break under a strop."""
    return any(one.on_mast and one.kind.group in _BREAKS for one in scene.placed.values())
