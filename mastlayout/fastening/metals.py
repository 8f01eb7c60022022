"""Two metals that touch in sea water: potentials, anodic index, areas; the table is resources/metals.toml.

The anodic index alone would pass plain steel on aluminium, 0.05 V apart: it rusts, and copper and
its brasses leave salts that eat the wall. Those are refused whatever the figures say.
"""

import math
from functools import cache
from typing import Any

import tomli

from mastlayout.fastening.tables import diameter_mm
from mastlayout.frozen import dataclass
from mastlayout.model.kind import Fastener, Foot, Metal
from mastlayout.resources import resources

# Not beside aluminium, whatever the index says (common practice, no source).
REFUSED: frozenset[Metal] = frozenset({"plain steel", "copper", "brass"})
# On every mast with something between: liner, sleeve, paste (common practice, no source).
USUAL: frozenset[Metal] = frozenset({"stainless", "nickel-copper", "titanium"})
NO_METAL: frozenset[Metal] = frozenset({"plastic", "wood"})
# A fastener's head is about twice as wide as its shank, from memory.
_HEAD_DIAMETERS = 2.0


@dataclass(frozen=True)
class Potentials:
    """Where a metal stands: V against calomel in flowing sea water; its anodic index, None if in no list."""

    sea_water_v: float
    index_v: float | None


@cache
def _table() -> dict[str, Any]:
    return tomli.loads((resources() / "metals.toml").read_text(encoding="utf-8"))


def potentials(metal: Metal) -> Potentials:
    """Return where a metal stands; KeyError for what is none."""
    row = _table()[metal]
    return Potentials(float(row["sea_water"]), row.get("index"))


def apart_v(one: Metal, other: Metal) -> float:
    """Return how far two metals are apart in sea water, V; 0 where one of them is no metal."""
    if {one, other} & NO_METAL:
        return 0.0
    return abs(potentials(one).sea_water_v - potentials(other).sea_water_v)


def index_apart_v(one: Metal, other: Metal) -> float | None:
    """Return how far two metals are apart by the anodic index, V; None where one is in no list."""
    if {one, other} & NO_METAL:
        return 0.0
    first, second = potentials(one).index_v, potentials(other).index_v
    return None if first is None or second is None else abs(first - second)


def is_less_noble(one: Metal, other: Metal) -> bool:
    """Tell whether a metal is eaten for the sake of another: it stands lower in sea water."""
    if {one, other} & NO_METAL:
        return False
    return potentials(one).sea_water_v < potentials(other).sea_water_v


def area_percent(fasteners: list[Fastener], foot: Foot) -> float:
    """Return the area of fasteners' heads, of the foot they hold, in percent."""
    sizes = [one.rivet_mm or diameter_mm(one.thread or "") for one in fasteners if one.is_one]
    heads = sum(math.pi / 4 * (_HEAD_DIAMETERS * size) ** 2 for size in sizes)
    return 100.0 * heads / (foot.across_mm * foot.along_mm)
