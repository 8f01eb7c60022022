"""How far a magnet may turn a compass: what "safe" means on a part's plate, and where it has none."""

from typing import Literal

from mastlayout.figures import Figure
from mastlayout.geometry.scene import Scene
from mastlayout.limits import limits_of
from mastlayout.words import _

Kind = Literal["standard", "steering"]
# Degrees times microtesla: so far a thing at its safe distance turns a compass where the field is weak.
_TURN_DEG_UT = {"standard": 5.4, "steering": 18.0}
SOURCE = _("ISO 25862 annex, as ISO 694: 5.4°/H a standard compass, 18°/H a steering compass, H in µT")


def turn_deg(field_ut: float, kind: Kind = "steering") -> float:
    """Return how far, degrees, a part may turn a compass in a horizontal field of so many microtesla."""
    return _TURN_DEG_UT[kind] / field_ut


def may_turn(scene: Scene) -> Figure:
    """Return how far what is mounted may turn the steering compass: for a part whose plate says nothing."""
    field = limits_of(scene.layout)["compass.field"]
    name, formula = _("a part may turn the steering compass by"), "18 / H"
    source = f"{SOURCE}; {field.source}"
    return Figure(name, turn_deg(field.value), "°", formula, source, {"field_ut": field.value})
