"""Air draught against the lowest bridge she passes, and whether new gear stands higher than what stays."""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.ranges.air_draught import Gear, clearances, names, top

# Less than this is how a bracket is bolted down.
_HIGHER_MM = 1.0


def under_bridge(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say where there is too little room under the bridge: what is stiff first, whips by themselves."""
    stiff = list(_of_gear(scene, limits, "stiff"))
    yield from stiff
    # Where stiff gear strikes, whips on top of it say nothing new.
    if not any(finding.standing == "fault" for finding in stiff):
        yield from _of_gear(scene, limits, "whips")


def _of_gear(scene: Scene, limits: Limits, gear: Gear) -> Iterator[Finding]:
    asked = [case for case in clearances(scene, limits) if case[0] == gear]
    known = [(room, load) for _gear, load, _figure, room in asked if room is not None]
    highest = top(scene, limits, gear)
    required = limits["air.bridge"].value if gear == "stiff" else 0.0
    worst = min(known, default=(required, "laden"))
    short = worst[0] < required - TOLERANCE_MM
    if short:
        code = "air/bridge" if gear == "stiff" else "air/whips"
        strikes = gear == "stiff" and worst[0] < 0
        yield Finding(
            code, "fault" if strikes else "caution", (highest.id,), worst[0], required,
            limit="air.bridge" if gear == "stiff" else None, z_mm=highest.z_mm, state=names()[gear, worst[1]],
        )  # fmt: skip
    if gear == "stiff" and not (short and worst[0] < 0):
        lacking = {figure.missing for _gear, _load, figure, _room in asked if figure.missing}
        for measure in sorted(lacking):
            yield Finding("air/bridge", "not checked", (highest.id,), limit="air.bridge", measure=measure)


def higher(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say by how much what is new stands above all that stays: bridges and cranes meet it first."""
    if scene.layout.mast.rake_deg is None:
        return
    now, before = top(scene, limits), top(scene, limits, old_only=True)
    rise = now.above_heel_mm - before.above_heel_mm
    if rise > _HIGHER_MM:
        yield Finding("air/higher", "note", (now.id,), rise, 0.0, z_mm=now.z_mm)


BRIDGE = WholeRule("air/bridge", frozenset({"mast", "fittings", "boat", "limits"}), under_bridge)
HIGHER = WholeRule("air/higher", frozenset({"mast", "fittings"}), higher)
RULES = (BRIDGE, HIGHER)
