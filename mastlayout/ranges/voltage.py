"""What is lost of the voltage between the panel and a light aloft, by current, copper and length."""

from mastlayout.figures import Figure
from mastlayout.geometry.scene import Scene
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Cable
from mastlayout.model.measure import Measure, measure_of
from mastlayout.ranges.cable_loss import along_mm
from mastlayout.words import _

# ABYC E-11: circular mils = 10.75 x amperes x feet out and back / volts lost. In ohm mm²/m that is
# 0.01787; ISO 10133 takes 0.0164, which is 8 % less strict.
_CMIL_PER_MM2, _M_PER_FT = 1973.525, 0.3048
OHM_MM2_PER_M = 10.75 / _CMIL_PER_MM2 / _M_PER_FT
SOURCE = _("ABYC E-11, 11.14, as quoted: K 10.75 ohm cmil/ft; ISO 10133 takes 8 % less")


def lost_v(current_a: float, loop_m: float, copper_mm2: float) -> float:
    """Return what a current loses on its way out and back, volts, in a conductor of so much copper."""
    return OHM_MM2_PER_M * current_a * loop_m / copper_mm2


def _missing(scene: Scene, cable: Cable) -> Measure | None:
    """Return the first measure that is missing for what a cable loses."""
    if scene.layout.boat.supply_v is None:
        return measure_of(Boat, "supply_v")
    for field in ("current_a", "copper_mm2", "to_set_mm"):
        if getattr(cable, field) is None:
            return measure_of(Cable, field)
    # Whoever follows it from the panel back to the mast finds where it leaves.
    return measure_of(Cable, "to_set_mm") if along_mm(scene, cable) is None else None


def lost(scene: Scene, cable: Cable) -> Figure:
    """Return what is lost of the voltage on the way to a light and back, %."""
    name, formula = _("voltage lost on the way"), _("100 × 0.01787 × I × 2 L / (copper × volts)")
    missing = _missing(scene, cable)
    volts, copper, current = scene.layout.boat.supply_v, cable.copper_mm2, cable.current_a
    if missing is not None or not volts or not copper or current is None:
        return Figure(name, None, "%", formula, SOURCE, missing=missing.key if missing else None)
    length_m = ((along_mm(scene, cable) or 0.0) + (cable.to_set_mm or 0.0)) / 1000.0
    inputs = {"current_a": current, "length_m": length_m, "copper_mm2": copper, "supply_v": float(volts)}
    return Figure(name, 100.0 * lost_v(current, 2.0 * length_m, copper) / volts, "%", formula, SOURCE, inputs)


def fed(scene: Scene) -> tuple[Cable, ...]:
    """Return the cables whose voltage matters: those of lights, and those whose current was typed."""
    return tuple(cable for cable in scene.layout.cables if _feeds(scene, cable))


def _feeds(scene: Scene, cable: Cable) -> bool:
    placed = scene.placed.get(cable.fitting or "")
    return placed is not None and (placed.kind.group == "light" or cable.current_a is not None)
