"""Air draught: how high it all stands above the water, stiff and with whips, laden and light."""

from collections.abc import Iterator
from typing import Literal

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, boat_to_mast
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import MAST
from mastlayout.model.measure import measure_of
from mastlayout.ranges.heights import missing_for_water
from mastlayout.words import _

Gear = Literal["stiff", "whips"]
Load = Literal["laden", "light"]
CASES: tuple[tuple[Gear, Load], ...] = tuple((g, s) for g in ("stiff", "whips") for s in ("laden", "light"))


@dataclass(frozen=True)
class Top:
    """The highest of it all: the fitting's id, or the mast's, and the point (x, z) in mm that is highest."""

    id: str
    x_mm: float
    z_mm: float
    above_heel_mm: float


def up(scene: Scene) -> Array:
    """Return the direction (3,) that is plumb in the mast's frame; NaN where the rake is not known."""
    rake = scene.layout.mast.rake_deg
    return boat_to_mast(np.array([0.0, 0.0, 1.0]), np.nan if rake is None else rake)


def top(scene: Scene, limits: Limits, gear: Gear = "whips", *, old_only: bool = False) -> Top:
    """Return what stands highest; ``old_only`` leaves out what is new, ``stiff`` the whips that bend."""
    plumb, solids = up(scene), scene.gear.solids
    ring = scene.skin.ring(scene.skin.length_mm)
    best, who = np.array([float(ring.x.max()), 0.0, scene.skin.length_mm]), MAST
    counts = _counting(scene, limits, gear, old_only=old_only)
    if counts.any():
        way = np.broadcast_to(plumb, (len(solids), 3))
        point = solids.core(way) + solids.round_mm[:, None] * way
        at = int(np.where(counts, point @ plumb, -np.inf).argmax())
        if point[at] @ plumb > best @ plumb:
            best, who = point[at], scene.gear.ids[scene.gear.owner[at]]
    return Top(who, float(best[0]), float(best[2]), float(best @ plumb))


def _counting(scene: Scene, limits: Limits, gear: Gear, *, old_only: bool) -> Mask:
    """Tell which of all solids (k,) count: ``stiff`` leaves out the whips that bend."""
    crowd, placed = scene.gear, list(scene.placed.values())
    counts = np.ones(len(crowd.solids), dtype=bool)
    if old_only:
        new = np.array([one.fitting.new for one in placed], dtype=bool)
        counts &= ~new[crowd.owner]
    if gear == "stiff":
        antenna = np.array([part == "antenna" for one in placed for part in one.body.parts], dtype=bool)
        counts &= ~(antenna & (2.0 * crowd.thick_mm <= limits["air.whip"].value))
    return counts


def air_draught(scene: Scene, limits: Limits, gear: Gear, load: Load, *, old_only: bool = False) -> Figure:
    """Return an air draught, m, or what has to be measured for it."""
    name = names()[gear, load]
    formula = _(
        "height of its top from the heel x cos(rake) + its way ahead x sin(rake) + heel above the water"
    )
    if load == "light":
        formula += _(" + how much higher she floats light")
    source = _("geometry; upright, without trim")
    boat, missing = scene.layout.boat, missing_for_water(scene)
    if missing is None and load == "light" and boat.light_rise_mm is None:
        missing = measure_of(Boat, "light_rise_mm")
    if missing is not None:
        return Figure(name, None, "m", formula, source, missing=missing.key)
    highest = top(scene, limits, gear, old_only=old_only)
    inputs = {
        "z_mm": highest.z_mm,
        "ahead_mm": highest.x_mm,
        "rake_deg": scene.layout.mast.rake_deg or 0.0,
        "heel_above_water_mm": boat.heel_above_water_mm or 0.0,
    }
    rise = 0.0
    if load == "light":
        inputs["light_rise_mm"] = rise = boat.light_rise_mm or 0.0
    metres = (highest.above_heel_mm + inputs["heel_above_water_mm"] + rise) / 1000.0
    return Figure(name, metres, "m", formula, source, inputs)


def names() -> dict[tuple[Gear, Load], str]:
    """Return what each case is called."""
    return {
        ("stiff", "laden"): _("laden, whips bent"),
        ("stiff", "light"): _("light, whips bent"),
        ("whips", "laden"): _("laden, with whips"),
        ("whips", "light"): _("light, with whips"),
    }


def clearances(scene: Scene, limits: Limits) -> Iterator[tuple[Gear, Load, Figure, float | None]]:
    """Yield for each case its air draught and the room left under the lowest bridge, mm, None if not known.

    Nothing where she passes under none.
    """
    bridge = scene.layout.boat.bridge_above_water_mm
    if bridge is None:
        return
    for gear, load in CASES:
        figure = air_draught(scene, limits, gear, load)
        yield gear, load, figure, None if figure.value is None else bridge - 1000.0 * figure.value
