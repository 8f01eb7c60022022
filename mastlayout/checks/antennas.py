"""VHF and AIS: two that send too near each other, and what is lost in a cable."""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.ranges.cable_loss import loss
from mastlayout.ranges.spacing import job, pairs


def near(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name two antennas that send and stand nearer than yachts find good; the rules for ships ask more.

    What the rules for ships ask a yacht's masthead never has: they are listed among the ranges, and
    not held against her.
    """
    wanted = limits["antenna.apart"].value
    for apart, _ruled in pairs(scene):
        both = {job(scene.placed[name]) for name in (apart.a, apart.b)} == {"sends"}
        if both and apart.direct_mm < wanted - TOLERANCE_MM:
            yield Finding(
                "antenna/near", "caution", (apart.a, apart.b), apart.direct_mm, wanted,
                limit="antenna.apart", z_mm=min(scene.placed[apart.a].z_mm, scene.skin.length_mm),
            )  # fmt: skip


def lost(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the cables of antennas that lose too much, and the new ones nobody can reckon."""
    wanted = limits["cable.loss"].value
    for cable in scene.layout.cables:
        placed = scene.placed.get(cable.fitting or "")
        if placed is None or job(placed) != "sends" or not _is_coax(placed.kind.cable_type):
            continue
        found = loss(scene, cable)
        who = (cable.id, placed.id)
        if found.value is not None and found.value > wanted:
            yield Finding("cable/loss", "caution", who, found.value, wanted, "dB", "cable.loss")
        elif found.value is None and found.missing and cable.new:
            yield Finding("cable/loss", "not checked", who[:1], limit="cable.loss", measure=found.missing)


def _is_coax(cable_type: str | None) -> bool:
    return cable_type is not None and cable_type.startswith("coax")


NEAR = WholeRule("antenna/near", frozenset({"mast", "fittings", "limits"}), near)
LOST = WholeRule("cable/loss", frozenset({"mast", "fittings", "cables", "limits"}), lost)
RULES = (NEAR, LOST)
