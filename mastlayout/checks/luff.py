"""Furled sails: the roll against fittings, on a straight stay, and as far off as it sags or hangs in a bight.

A headsail sags with its stay; one on a free luff hangs in a bight as it is hoisted. Where the cloth
of a free luff flies nobody can say: that stays "not checked" (``checks/cloth``).
"""

from collections.abc import Iterator, Sequence

import numpy as np

from mastlayout.checks.clearance import against, held
from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import Batch, Margins, Rule, WholeRule
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.furled import Roll, bights, roll, straight
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.slack import Slackness, sag_mm
from mastlayout.limits import Limits
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Sail
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class LuffMargins(Margins):
    """Margins against ``rolls``; ``slack`` (n, s) where only what hangs off its line comes so near."""

    slack: Mask = None  # type: ignore[assignment]  # always given; a base class has defaults before it
    rolls: tuple[Roll, ...] = ()

    def faults(self, fault_below: float) -> Mask:
        """Return where (n, s) what is said is a fault; of what hangs off its line it never is."""
        return np.asarray(super().faults(fault_below) & ~self.slack)


def of_scene(scene: Scene) -> tuple[Roll, ...]:
    """Return the furled sails of a scene whose way and roll are known."""
    found = (
        roll(sail, scene.stays.get(sail.stay or ""), scene.skin.length_mm) for sail in scene.layout.sails
    )
    return tuple(one for one in found if one is not None)


def _off_mm(one: Roll, limits: Limits) -> float:
    """Return how far a roll's middle hangs off its line: with its stay, or in a bight on its way up."""
    if one.free:
        return limits["luff.sag"].value / 100.0 * one.long_mm
    return sag_mm(one.stay, one.long_mm, Slackness.of(limits))


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against every furled sail, except what holds it."""
    rolls = of_scene(scene)
    apart = [held(batch, {one.sail.id: one.pins for one in rolls}) for batch in batches]
    taut = against(straight(rolls), batches, limits["clearance.stay"].value, apart)
    hanging = bights(rolls, [_off_mm(one, limits) for one in rolls])
    slack = against(hanging, batches, limits["clearance.slack"].value, apart)
    return [_worse(own, loose, rolls) for own, loose in zip(taut, slack, strict=True)]


def _worse(taut: Margins, loose: Margins, rolls: tuple[Roll, ...]) -> LuffMargins:
    """Return what is said of rolls on their lines and, where that says nothing, off them."""
    slack = ~taut.short & loose.short

    def chosen(own: Array, other: Array) -> Array:
        """Return an array (n, s, …) of the taut rolls, where only slack ones are short theirs."""
        return np.where(slack if own.ndim == 2 else slack[..., None], other, own)

    return LuffMargins(
        taut.subjects,
        chosen(taut.measured, loose.measured),
        chosen(taut.required, loose.required),
        chosen(taut.point, loose.point),
        taut.unknown,
        slack=slack,
        rolls=rolls,
    )


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say which roll comes near a fitting, on its line or off it."""
    if not isinstance(found, LuffMargins):
        return []
    short, faults = found.short[0], found.faults(0.0)[0]
    return [
        Finding(
            code,
            "fault" if faults[i] else "caution",
            (placed.id, *found.subjects[i]),
            float(found.measured[0, i]),
            float(found.required[0, i]),
            limit="clearance.slack" if found.slack[0, i] else "clearance.stay",
            z_mm=float(np.clip(found.point[0, i, 2], *placed.span_z_mm)),
            state=state,
        )
        for i in np.flatnonzero(short).tolist()
        for code, state in (_said(found.rolls[i], slack=bool(found.slack[0, i])),)
    ]


def _said(one: Roll, *, slack: bool) -> tuple[str, str]:
    """Return under which code a roll is said, and its state."""
    if not slack:
        return "luff/furled", _("furled")
    return ("luff/hoist", _("in a bight on its way up")) if one.free else ("luff/sags", _("furled, sagged"))


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
