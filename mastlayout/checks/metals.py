"""Metals in sea water: foot, fastener and wall against each other; one finding for each matter.

What touches the wall barely is refused or wants something between. Stainless, nickel-copper and
titanium on aluminium are on every mast: said of what is new, so that the paste is not forgotten.
"""

from collections.abc import Iterator
from dataclasses import field

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import Batch, Margins, Rule, WholeRule, no_margins
from mastlayout.fastening.metals import (
    NO_METAL,
    REFUSED,
    USUAL,
    apart_v,
    area_percent,
    index_apart_v,
    is_less_noble,
)
from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.kind import Fastener, Foot, Kind, Metal
from mastlayout.model.measure import measure_of
from mastlayout.words import _

_WALL: Metal = "aluminium"


@dataclass(frozen=True, eq=False)
class MetalMargins(Margins):
    """What is to be said of a fitting's metals: the same wherever on the mast it stands."""

    said: tuple[Finding, ...] = field(default=())


def margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Compare a fitting's foot and fasteners with an aluminium wall and with each other."""
    placed, places = batch.placed, len(batch.places)
    if placed.skin is None or scene.layout.mast.material != "aluminium":
        return no_margins(places)
    said = tuple(_of(placed, limits))
    measured = np.array([0.0 if one.standing == "fault" else np.inf for one in said])
    return MetalMargins(
        tuple(one.subjects for one in said),
        np.broadcast_to(measured, (places, len(said))),
        np.ones((places, len(said))),
        np.repeat(batch.seats.origin[:, None, :], len(said), axis=1),
        (None,) * len(said),
        said=said,
    )


def judge(_placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Return what is to be said."""
    return list(found.said) if isinstance(found, MetalMargins) else []


def _of(placed: Placed, limits: Limits) -> Iterator[Finding]:
    foot, metal = placed.foot, placed.kind.metal
    fasteners = [hole.fastener for hole in foot.holes if hole.fastener.is_one] if foot else []
    if placed.fitting.new:
        yield from _not_known(placed, fasteners)
    yield from _loudest([*_of_fasteners(placed, fasteners, limits), *_of_foot(placed, foot, metal, limits)])
    if foot is not None and metal is not None:
        yield from _small(placed, foot, metal, fasteners, limits)


def _not_known(placed: Placed, fasteners: list[Fastener]) -> Iterator[Finding]:
    """Ask what a new fitting and its fasteners are of; what is there already was chosen long ago."""
    if placed.kind.metal is None:
        missing = measure_of(Kind, "metal").key
        yield Finding("metals/foot", "not checked", (placed.id,), measure=missing, z_mm=placed.z_mm)
    if any(one.metal is None for one in fasteners):
        missing = measure_of(Fastener, "metal").key
        yield Finding("metals/fastener", "not checked", (placed.id,), measure=missing, z_mm=placed.z_mm)


def _of_foot(placed: Placed, foot: Foot | None, metal: Metal | None, limits: Limits) -> Iterator[Finding]:
    """Compare the foot with the wall; only a liner that was written down lies between."""
    if foot is None or metal is None:
        return
    lined = "liner_mm" in foot.model_fields_set and foot.liner_mm > 0.0
    yield from _on_wall(placed, metal, _("its foot"), limits, bare=not lined)


def _of_fasteners(placed: Placed, fasteners: list[Fastener], limits: Limits) -> Iterator[Finding]:
    """Compare each metal of its fasteners with the wall they go through: no liner lies between."""
    for metal in dict.fromkeys(one.metal for one in fasteners if one.metal is not None):
        yield from _on_wall(placed, metal, _("its fastener"), limits, bare=True)


def _on_wall(placed: Placed, metal: Metal, what: str, limits: Limits, *, bare: bool) -> Iterator[Finding]:
    apart, index = apart_v(metal, _WALL), index_apart_v(metal, _WALL)
    allowed = limits["metals.apart"].value
    if metal in NO_METAL or (max(apart, index or 0.0) <= allowed and metal not in REFUSED):
        return
    if metal in REFUSED and bare:
        code, standing = "metals/refused", "fault"
    elif metal in USUAL:
        if not placed.fitting.new:
            return
        code, standing = "metals/conducts" if metal == "nickel-copper" else "metals/paste", "note"
    else:
        code, standing = "metals/isolate", "caution"
    words = _("{what} of {metal}").format(what=what, metal=_(metal))
    if index is not None:
        words = _("{words} ({index:.2f} V apart by the anodic index)").format(words=words, index=index)
    yield _finding(code, standing, placed, apart, allowed, words)  # type: ignore[arg-type] # the words above


def _finding(
    code: str, standing: Standing, placed: Placed, apart: float, allowed: float, words: str
) -> Finding:
    return Finding(
        code, standing, (placed.id,), apart, allowed, "V", "metals.apart", None, placed.z_mm, state=words
    )


def _loudest(said: list[Finding]) -> Iterator[Finding]:
    """Keep one finding of each code: that of the two metals farthest apart."""
    for code in dict.fromkeys(one.code for one in said):
        yield max((one for one in said if one.code == code), key=lambda one: one.measured or 0.0)


def _small(
    placed: Placed, foot: Foot, metal: Metal, fasteners: list[Fastener], limits: Limits
) -> Iterator[Finding]:
    """Find fasteners less noble than the foot they hold, and smaller: they are eaten first, and fast."""
    lost = [one for one in fasteners if one.metal is not None and is_less_noble(one.metal, metal)]
    far = [one for one in lost if apart_v(one.metal or metal, metal) > limits["metals.apart"].value]
    if not far:
        return
    percent, wanted = area_percent(far, foot), limits["fastener.area"].value
    if percent < wanted:
        words = _("{metal} fasteners in a foot of {foot}").format(metal=_(far[0].metal or ""), foot=_(metal))
        yield Finding(
            "metals/area", "caution", (placed.id,), percent, wanted, "%", "fastener.area", None,
            placed.z_mm, not placed.foot_known, words,
        )  # fmt: skip


def builder(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say once of a mast that is not of aluminium: holes, fasteners and metals are its builder's."""
    material = scene.layout.mast.material
    if material != "aluminium" and any(one.fitting.new and one.skin for one in scene.placed.values()):
        yield Finding("metals/builder", "not checked", (MAST,), state=_(material))


METALS = Rule(
    "metals/refused", "metals.apart", frozenset({"mast", "fittings", "limits"}), margins, judge=judge
)
BUILDER = WholeRule("metals/builder", frozenset({"mast", "fittings"}), builder)
