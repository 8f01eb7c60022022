"""Voltage at the lights: what their cables lose on the way to them and back."""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.ranges.lights import light_sectors
from mastlayout.ranges.voltage import fed, lost

# Above this a sum rounds to what is allowed.
_TOLERANCE_PERCENT = 0.05


def volts(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the cables of lights that lose too much, and the new ones nobody can reckon.

    Of what is no light only a cable whose current was typed is asked: radars, hailers and sensors come
    with cables of their makers.
    """
    for cable in fed(scene):
        placed = scene.placed[cable.fitting or ""]
        other = placed.kind.group == "light" and not light_sectors(placed)
        key = "cable.volts_other" if other else "cable.volts"
        found, wanted = lost(scene, cable), limits[key].value
        if found.value is not None and found.value > wanted + _TOLERANCE_PERCENT:
            yield Finding("cable/volts", "caution", (cable.id, placed.id), found.value, wanted, "%", key)
        elif found.value is None and found.missing and cable.new:
            yield Finding("cable/volts", "not checked", (cable.id,), limit=key, measure=found.missing)


VOLTS = WholeRule("cable/volts", frozenset({"mast", "fittings", "cables", "boat", "limits"}), volts)
