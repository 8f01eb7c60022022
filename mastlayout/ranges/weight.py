"""Weight aloft: what is on the mast before the refit, after it, and the change.

The middle of a fitting's shape is taken for its centre of gravity. What is not weighed is named, and
no sum that needs it is given.
"""

import math
from collections.abc import Sequence
from typing import Literal, assert_never

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.model.boat import Boat
from mastlayout.model.kind import Kind
from mastlayout.model.measure import measure_of
from mastlayout.once import once
from mastlayout.ranges.air_draught import up
from mastlayout.ranges.heights import missing_for_water
from mastlayout.words import _

When = Literal["before", "after", "change"]
WHEN: tuple[When, ...] = ("before", "after", "change")
GRAVITY_MS2 = 9.80665
HEEL_DEG = 20.0
_UNWEIGHED = measure_of(Kind, "mass_kg").key


@dataclass(frozen=True, eq=False)
class Weight:
    """One thing on the mast: kg, None where nobody weighed it; ``centre`` (3,) in the mast's frame, mm.

    ``off_kg`` is the mass of old parts that come off where it goes on.
    """

    id: str
    mass_kg: float | None
    centre: Array
    new: bool
    off_kg: float


def mass_of(placed: Placed) -> float | None:
    """Return what a fitting weighs: as it was weighed, else as its kind says; None where neither is known."""
    own = placed.fitting.mass_kg
    return placed.kind.mass_kg if own is None else own


@once  # every sum of a scene asks for them
def middles(scene: Scene) -> Array:
    """Return the middle (n, 3) of each placed fitting's shape; of one without a shape that of its foot."""
    placed, crowd = list(scene.placed.values()), scene.gear
    found = np.array([one.seats.origin[0] for one in placed]).reshape(-1, 3)
    own, start = np.unique(crowd.owner, return_index=True)
    if len(own):
        for k, axis in enumerate(np.eye(3)):
            high = np.maximum.reduceat(crowd.solids.support(axis), start)
            low = -np.maximum.reduceat(crowd.solids.support(-axis), start)
            found[own, k] = (high + low) / 2.0
    return found


def weights(scene: Scene) -> list[Weight]:
    """Return every placed fitting's weight, in the order they were placed."""
    return [
        Weight(one.id, mass_of(one), centre, one.fitting.new, one.fitting.replaces_kg or 0.0)
        for one, centre in zip(scene.placed.values(), middles(scene), strict=True)
    ]


def unweighed(scene: Scene) -> list[str]:
    """Return the ids of what nobody weighed, and of what has no place yet: neither is in any sum."""
    return [
        *(one.id for one in weights(scene) if one.mass_kg is None),
        *(one.id for one in scene.layout.fittings if one.id in scene.unplaced),
    ]


def _share(one: Weight, when: When) -> float:
    """Return the mass that counts at a time, kg; what comes off is less than nothing, NaN is not known."""
    kg = math.nan if one.mass_kg is None else one.mass_kg
    match when:
        case "before":
            return one.off_kg if one.new else kg + one.off_kg
        case "after":
            return kg
        case "change":
            return (kg if one.new else 0.0) - one.off_kg
    assert_never(when)


def masses(every: Sequence[Weight], when: When) -> Array:
    """Return the mass (n,), kg, that each place carries at a time; NaN where it is not known."""
    return np.array([_share(one, when) for one in every], dtype=float)


def weight_figures(scene: Scene, when: When) -> dict[str, Figure]:
    """Return mass, moments and roll inertia at a time, each with its working."""
    every = weights(scene)
    kg = masses(every, when)
    place = np.array([one.centre for one in every]).reshape(-1, 3)
    boat, water = scene.layout.boat, missing_for_water(scene)
    height = (place @ up(scene) + (boat.heel_above_water_mm or 0.0)) / 1000.0
    lacks = _UNWEIGHED if unweighed(scene) else None
    above = lacks or (water.key if water else None)
    total, moment = float(kg.sum()), float(kg @ height)
    high, off = float(kg @ height**2), float(kg @ (place[:, 1] / 1000.0) ** 2)
    heeling = GRAVITY_MS2 * moment * math.sin(math.radians(HEEL_DEG))
    counted = {"fittings": float(np.count_nonzero(kg))}
    figures = {
        "mass_kg": _figure(_("mass"), total, "kg", _("sum of m"), counted, lacks),
        "moment_kgm": _figure(
            _("moment about the water"), moment, "kg m", _("sum of m h"),
            counted | {"mass_kg": total, "mean_height_m": moment / total if total else 0.0}, above,
        ),
        "heel_moment_nm": _figure(
            _("heeling moment at 20°"), heeling, "N m", _("g x sum of m h x sin(heel)"),
            {"moment_kgm": moment, "heel_deg": HEEL_DEG, "g_ms2": GRAVITY_MS2}, above,
        ),
        "roll_inertia_kgm2": _figure(
            _("roll inertia"), high + off, "kg m²", _("sum of m (h² + y²)"),
            counted | {"sum_of_mh2_kgm2": high, "sum_of_my2_kgm2": off}, above,
        ),
    }  # fmt: skip
    if when == "change":
        figures["centre_of_gravity_mm"] = _raised(boat, total, moment, above)
    return figures


@dataclass(frozen=True, eq=False)
class Share:
    """What one fitting adds to the sums: kg by time, None where not weighed; its middle's place, m.

    ``height_m`` is above the water, None where that is not known; ``off_m`` off the middle, to port.
    """

    id: str
    kg: dict[When, float | None]
    height_m: float | None
    off_m: float


def shares(scene: Scene) -> list[Share]:
    """Return what each placed fitting adds to the sums, in the order they were placed."""
    every, water = weights(scene), missing_for_water(scene)
    place = np.array([one.centre for one in every]).reshape(-1, 3)
    height = (place @ up(scene) + (scene.layout.boat.heel_above_water_mm or 0.0)) / 1000.0
    return [
        Share(
            one.id,
            {when: None if math.isnan(kg := _share(one, when)) else kg for when in WHEN},
            None if water else float(metres),
            float(one.centre[1]) / 1000.0,
        )
        for one, metres in zip(every, height, strict=True)
    ]


def moment_of(scene: Scene, ids: frozenset[str]) -> Figure:
    """Return the moment about the water of some fittings where they stand, kg m."""
    name, formula = _("moment about the water"), _("sum of m h")
    own = [one for one in weights(scene) if one.id in ids]
    water = missing_for_water(scene)
    lacks = _UNWEIGHED if any(one.mass_kg is None for one in own) else None
    lacks = lacks or (water.key if water else None)
    kg = masses(own, "after")
    above = np.array([one.centre for one in own]).reshape(-1, 3) @ up(scene)
    height = (above + (scene.layout.boat.heel_above_water_mm or 0.0)) / 1000.0
    sums = {"mass_kg": float(kg.sum()), "moment_kgm": float(kg @ height)}
    return _figure(name, sums["moment_kgm"], "kg m", formula, sums, lacks)


def _raised(boat: Boat, total: float, moment: float, above: str | None) -> Figure:
    """Return how far the yacht's centre of gravity rises, mm."""
    gravity, displacement = boat.gravity_above_water_mm, boat.displacement_kg
    lacks, raised = above, 0.0
    if displacement is None:
        lacks = lacks or measure_of(Boat, "displacement_kg").key
    elif gravity is None:
        lacks = lacks or measure_of(Boat, "gravity_above_water_mm").key
    elif displacement + total > 0.0:
        raised = (1000.0 * moment - total * gravity) / (displacement + total)
    inputs = {"mass_kg": total, "moment_kgm": moment, "displacement_kg": displacement, "gravity_mm": gravity}
    return _figure(
        _("centre of gravity rises"), raised, "mm",
        _("(sum of m h − sum of m x its height) / (displacement + sum of m)"),
        {key: value for key, value in inputs.items() if value is not None}, lacks,
    )  # fmt: skip


def _figure(
    name: str, value: float, unit: str, formula: str, inputs: dict[str, float], missing: str | None
) -> Figure:
    source = _("mechanics; m at the middle of each fitting, h above the water, upright on her marks")
    if missing is not None:
        return Figure(name, None, unit, formula, source, missing=missing)
    return Figure(name, value, unit, formula, source, inputs)
