"""Weight aloft: what nobody weighed yet, and what a strop at the balance point would crush."""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.kind import Kind
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.ranges.balance import balance, breaks, under_strop
from mastlayout.ranges.weight import mass_of


def weighed(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name what is new and was not weighed: what it does aloft is not known.

    What is there already and stays changes nothing, so nobody is sent up with a scale for it.
    """
    missing = measure_of(Kind, "mass_kg").key
    for placed in scene.placed.values():
        if placed.fitting.new and mass_of(placed) is None:
            yield Finding("weight/aloft", "not checked", (placed.id,), measure=missing, z_mm=placed.z_mm)


def strop(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name what stands where the mast balances, for the day it is lifted."""
    if not breaks(scene):
        return
    if scene.layout.mast.mass_per_metre_kg is None:
        yield Finding(
            "strop/crushes", "not checked", (MAST,), measure=measure_of(Mast, "mass_per_metre_kg").key
        )
        return
    at = balance(scene).value
    for placed, off in under_strop(scene, limits):
        yield Finding(
            "strop/crushes",
            "note",
            (placed.id,),
            off,
            limits["strop.reach"].value,
            limit="strop.reach",
            z_mm=at,
        )


WEIGHED = WholeRule("weight/aloft", frozenset({"mast", "fittings"}), weighed)
STROP = WholeRule("strop/crushes", frozenset({"mast", "fittings", "limits"}), strop)
RULES = (WEIGHED, STROP)
