"""A sail on a free luff: its furled roll against fittings, set up straight, and in a bight as it is hoisted.

Where its cloth flies nobody can say: that stays "not checked" (``checks/cloth``). The luff rope itself
is a stay, and asked as one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from mastlayout.checks.clearance import against, held
from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import Batch, Margins, Rule, WholeRule
from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.free_luff import FreeLuff, bights, free_luff, rolls
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Sail
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class LuffMargins(Margins):
    """Margins against the rolls of sails; ``hoisting`` (n, s) where only the bight comes so near."""

    hoisting: Mask = None  # type: ignore[assignment]  # always given; a base class has defaults before it

    def faults(self, fault_below: float) -> Mask:
        """Return where (n, s) what is said is a fault; of a bight it never is."""
        return np.asarray(super().faults(fault_below) & ~self.hoisting)


def of_scene(scene: Scene) -> tuple[FreeLuff, ...]:
    """Return the free luffs of a scene whose way and roll are known."""
    found = (
        free_luff(sail, scene.stays.get(sail.stay or ""), scene.skin.length_mm) for sail in scene.layout.sails
    )
    return tuple(luff for luff in found if luff is not None)


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against every furled free luff, except what holds it."""
    luffs = of_scene(scene)
    pins = {luff.sail.id: luff.pins for luff in luffs}
    apart = [held(batch, pins) for batch in batches]
    straight = against(rolls(luffs), batches, limits["clearance.stay"].value, apart)
    bight = against(
        bights(luffs, limits["luff.sag"].value / 100.0), batches, limits["clearance.slack"].value, apart
    )
    return [_worse(own, loose) for own, loose in zip(straight, bight, strict=True)]


def _worse(straight: Margins, bight: Margins) -> LuffMargins:
    """Return what is said of rolls set up and, where that says nothing, of their bights."""
    hoisting = ~straight.short & bight.short

    def chosen(own: Array, other: Array) -> Array:
        return np.where(hoisting if own.ndim == 2 else hoisting[..., None], other, own)

    return LuffMargins(
        straight.subjects,
        chosen(straight.measured, bight.measured),
        chosen(straight.required, bight.required),
        chosen(straight.point, bight.point),
        straight.unknown,
        hoisting=hoisting,
    )


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say which roll comes near a fitting, straight or on its way up."""
    if not isinstance(found, LuffMargins):
        return []
    short, faults = found.short[0], found.faults(0.0)[0]
    return [
        Finding(
            "luff/hoist" if found.hoisting[0, i] else "luff/furled",
            "fault" if faults[i] else "caution",
            (placed.id, *found.subjects[i]),
            float(found.measured[0, i]),
            float(found.required[0, i]),
            limit="clearance.slack" if found.hoisting[0, i] else "clearance.stay",
            z_mm=float(np.clip(found.point[0, i, 2], *placed.span_z_mm)),
            state=_("in a bight on its way up") if found.hoisting[0, i] else _("furled"),
        )
        for i in np.flatnonzero(short).tolist()
    ]


def known(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name what is missing for the roll of each sail that is hoisted furled on a free luff."""
    for sail in scene.layout.sails:
        if sail.role != "code sail":
            continue
        if sail.stay is None:
            yield Finding("luff/known", "not checked", (sail.id,), measure=measure_of(Sail, "stay").key)
        if sail.furled_mm is None:
            yield Finding("luff/known", "not checked", (sail.id,), measure=measure_of(Sail, "furled_mm").key)


LUFF = Rule(
    "luff/furled",
    "clearance.stay",
    frozenset({"mast", "stays", "fittings", "sails", "limits"}),
    many=margins,
    judge=judge,
)
KNOWN = WholeRule("luff/known", frozenset({"sails"}), known)
