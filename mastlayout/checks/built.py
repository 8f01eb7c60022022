"""Holes as they were drilled, against the part that goes over them: off their place, or too large."""

from collections.abc import Iterator
from itertools import chain

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.holes import hole_id
from mastlayout.checks.rule import WholeRule
from mastlayout.fastening.drill import drill_mm
from mastlayout.fastening.wrong import Remedies, remedies
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import Drilled, drilled
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits, limits_of
from mastlayout.model.fitting import HoleBuilt
from mastlayout.units import Units, write_drill, write_length
from mastlayout.words import _

OFF, LARGE = "hole/off", "hole/large"
# What can be done about these hangs on how the fitting stands, and so do their words.
WRONG = frozenset({OFF, LARGE})


@dataclass(frozen=True, eq=False)
class Off:
    """A hole as it was drilled beside its place in the foot, mm.

    ``round_mm`` is positive to starboard, ``along_mm`` towards the masthead; ``planned_mm`` and
    ``found_mm`` its diameters, nan where no table has the planned one.
    """

    built: HoleBuilt
    index: int
    round_mm: float
    along_mm: float
    planned_mm: float
    found_mm: float

    @property
    def off_mm(self) -> float:
        """How far its middle is off."""
        return float(np.hypot(self.round_mm, self.along_mm))


def planned(placed: Placed) -> Drilled | None:
    """Return the holes of a fitting where its foot has them, as if none had been drilled elsewhere."""
    if placed.skin is None or placed.foot is None:
        return None
    return drilled(placed.skin, placed.foot, placed.places, placed.seats)


def off_plan(placed: Placed) -> list[Off]:
    """Return each hole that was measured, beside its place in the foot where that stands now."""
    wanted, holes = planned(placed), placed.holes
    if wanted is None or holes is None:
        return []
    places = {opening.number: i for i, opening in enumerate(wanted.openings)}
    return [
        _off(placed, wanted, holes, built, places[built.number])
        for built in placed.fitting.holes_built
        if built.number in places
    ]


def _off(placed: Placed, wanted: Drilled, holes: Drilled, built: HoleBuilt, i: int) -> Off:
    ring = placed.skin.ring(float(holes.z_mm[0, i])) if placed.skin else None
    across = np.asarray(holes.girth_mm[0, i] - wanted.girth_mm[0, i])
    sizes = [drill_mm(one.openings[i]) for one in (wanted, holes)]
    plan, found = (np.nan if size is None else size for size in sizes)
    return Off(
        built,
        i,
        float(ring.wrapped(across) if ring else across),
        float(holes.z_mm[0, i] - wanted.z_mm[0, i]),
        plan,
        found,
    )


def as_drilled(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Find what was drilled off its place or larger than its fastener holds in."""
    for placed in scene.placed.values():
        if placed.fitting.holes_built:
            yield from chain.from_iterable(_found(placed, off, limits) for off in off_plan(placed))


def _found(placed: Placed, off: Off, limits: Limits) -> Iterator[Finding]:
    """Yield what is wrong with one hole; further off than its own radius no fastener goes in: a fault."""
    play, over = limits["hole.off"].value, limits["hole.large"].value
    if np.isnan(off.off_mm) or placed.holes is None:
        return
    subject, z = (hole_id(placed, off.built.number),), float(placed.holes.z_mm[0, off.index])
    typical = not placed.foot_known
    if off.off_mm > play + 1e-6:
        fault = off.off_mm > np.nan_to_num(off.found_mm) / 2 and not typical
        standing: Standing = "fault" if fault else "caution"
        yield Finding(OFF, standing, subject, off.off_mm, play, limit="hole.off", z_mm=z, typical=typical)
    most = off.planned_mm + over
    if off.found_mm > most + 1e-6:
        yield Finding(
            LARGE, "caution", subject, off.found_mm, most, limit="hole.large", z_mm=z, typical=typical
        )


def remedies_of(placed: Placed, number: int, limits: Limits) -> Remedies | None:
    """Return what would help for a hole that was drilled wrong; None where it was not measured."""
    wanted = planned(placed)
    off = next((off for off in off_plan(placed) if off.built.number == number), None)
    if wanted is None or placed.holes is None or off is None:
        return None
    girth = _unrolled(placed, wanted.girth_mm[0], float(placed.holes.girth_mm[0, off.index]))
    plan = np.stack([girth, wanted.z_mm[0]], axis=-1)
    sizes = [drill_mm(opening) for opening in wanted.openings]
    return remedies(
        plan,
        off.index,
        np.array([0.0, placed.holes.z_mm[0, off.index]]),
        float(np.nan_to_num(off.found_mm)),
        wanted.openings[off.index].fastener,
        np.array([np.nan if size is None else size for size in sizes]),
        limits["hole.spacing"].value,
    )


def _unrolled(placed: Placed, girth: Array, middle: float) -> Array:
    """Return girths from a middle, the shorter way round."""
    ring = placed.skin.ring(placed.z_mm) if placed.skin else None
    return ring.wrapped(girth - middle) if ring else girth - middle


def ways_out(scene: Scene, finding: Finding, units: Units) -> str:
    """Return what can be done about a hole drilled wrong, in sentences; "" for any other finding."""
    if finding.code not in WRONG:
        return ""
    owner, _slash, number = finding.subjects[0].partition("/h")
    found = remedies_of(scene.placed[owner], int(number), limits_of(scene.layout))
    return " " + " ".join(remedy_words(found, units)) if found else ""


def remedy_words(found: Remedies, units: Units) -> tuple[str, ...]:
    """Return the three ways out, a sentence each: move, enlarge, fill."""
    way = _("towards the masthead") if found.move_mm > 0 else _("towards the heel")
    move = _(
        "Move the fitting {by} {way}, {n:g} diameters of the larger hole clear of this one, and fill it."
    )
    if found.again:
        fill = _("Or fill it and drill it anew in its own place.")
    else:
        fill = _("Or fill it and leave it out, if the others hold the part: the rigger decides.")
    larger = _("No larger fastener of its sort takes this hole in.")
    if found.larger is not None and found.drill_mm is not None:
        words = _("Or enlarge it to {size} for {fastener}, if wall and part allow it.")
        larger = words.format(size=write_drill(found.drill_mm, units), fastener=found.larger.size)
    return (move.format(by=write_length(abs(found.move_mm), units), way=way, n=found.diameters), larger, fill)


AS_DRILLED = WholeRule(OFF, frozenset({"mast", "fittings", "limits"}), as_drilled)
