"""A rule in two halves: margins at n places of one fitting, and findings at one place."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields, replace
from functools import cached_property
from typing import Any, Literal

import numpy as np

from mastlayout.checks.finding import Finding, Standing, Unit
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.holes import Drilled, drilled
from mastlayout.geometry.placed import Placed, seats_on
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Places, Seats, on_mount
from mastlayout.geometry.solids import Solids
from mastlayout.limits import Limits
from mastlayout.model.measure import Measure

# Clear means measured at least required less this: the one tolerance.
TOLERANCE_MM = 0.01

# What stands farther off than this along the mast does not touch a rule of pairs, unless its limit is wider.
NEAR_MM = 150.0
# What a rule reads of a scene; a change elsewhere does not run it again.
# "guards" are the fittings that guard others, wherever those stand; "loads" those that load the mast
# where they stand, and so the wall round them.
Depends = Literal[
    "mast",
    "holes",
    "stays",
    "spreaders",
    "fittings",
    "guards",
    "loads",
    "inside",
    "lines",
    "cables",
    "sails",
    "boat",
    "limits",
]


@dataclass(frozen=True, eq=False)
class Batch:
    """One fitting at n places and its seats there; what else stands there is worked out when it is asked."""

    placed: Placed
    places: Places
    seats: Seats

    @property
    def each(self) -> int:
        """How many solids the fitting has."""
        return len(self.placed.body.solids)

    @cached_property
    def solids(self) -> Solids:
        """Its solids (n * each)."""
        return self.placed.body.solids.moved(self.seats.origin, self.seats.axes)

    @cached_property
    def holes(self) -> Drilled | None:
        """Its holes; None for what has no foot on the mast."""
        foot, skin = self.placed.foot, self.placed.skin
        return drilled(skin, foot, self.places, self.seats) if foot and skin else None


class _Standing(Batch):
    """A fitting at its own place: there all of it was worked out already, holes as they were drilled."""

    @cached_property
    def solids(self) -> Solids:
        """Its solids, as they stand."""
        return self.placed.solids

    @cached_property
    def holes(self) -> Drilled | None:
        """Its holes, as far as they are known."""
        return self.placed.holes


def where_it_stands(placed: Placed) -> Batch:
    """Return a fitting at its own place."""
    return _Standing(placed, placed.places, placed.seats)


def at_places(placed: Placed, places: Places) -> Batch:
    """Return a fitting at n places of its host."""
    return Batch(placed, places, seats_on(placed.host, placed.fitting, places))


def carried_along(guest: Placed, host: Batch) -> Batch:
    """Return a fitting on a mount of another that is at n places: it goes where its host goes."""
    n = len(host.places)
    own = Places(
        *(np.broadcast_to(part, n) for part in (guest.places.along_mm, guest.places.around)),
        *(np.broadcast_to(part, n) for part in (guest.places.stand_off_mm, guest.places.turn_deg)),
    )
    mount = next(mount for mount in host.placed.kind.mounts if mount.name == guest.fitting.mount)
    seats = on_mount(host.seats, mount, own)
    return Batch(guest, own, seats)


@dataclass(frozen=True, eq=False)
class Margins:
    """What a rule measured for one fitting at n places against s subjects.

    ``subjects`` (s) are ids besides the fitting's own; ``measured`` and ``required`` (n, s), nan
    where not known, and then ``unknown`` (s) names the measure that is missing; ``measured`` is inf
    where a subject is too far for that to matter. ``point`` (n, s, 3) is the worst point.
    ``typical`` says that the foot it rests on was not confirmed.
    """

    subjects: tuple[tuple[str, ...], ...]
    measured: Array
    required: Array
    point: Array
    unknown: tuple[Measure | None, ...]
    typical: bool = False

    @property
    def short(self) -> Mask:
        """Where (n, s) something is to be said: less was measured than is required."""
        return np.asarray(self.measured < self.required - TOLERANCE_MM)

    @property
    def missing(self) -> Mask:
        """Where (n, s) a measure is missing."""
        lacking = np.array([measure is not None for measure in self.unknown], dtype=bool)
        return np.asarray(lacking & ~np.isposinf(self.measured))

    def faults(self, fault_below: float) -> Mask:
        """Return where (n, s) what is said is a fault."""
        return np.asarray(self.short & (self.measured < fault_below) & (not self.typical))

    def at(self, place: int) -> "Margins":
        """Return what was measured at one of the places alone: one row of every array."""
        own = ((part.name, getattr(self, part.name)) for part in fields(self))
        rows: dict[str, Any] = {name: a[place : place + 1] for name, a in own if isinstance(a, np.ndarray)}
        return replace(self, **rows)


def owners(batches: Sequence[Batch]) -> Whole:
    """Number the places of batches through: whose each of all their solids (q,) is."""
    each = np.repeat([batch.each for batch in batches], [len(batch.places) for batch in batches])
    return np.repeat(np.arange(len(each)), each)


def no_margins(places: int) -> Margins:
    """Return margins against nothing."""
    return Margins((), np.empty((places, 0)), np.empty((places, 0)), np.empty((places, 0, 3)), ())


@dataclass(frozen=True, eq=False)
class Rule:
    """A rule about one fitting, given by ``margins`` of one batch or, where that is cheaper, of ``many``.

    ``pairs`` tells that what it says of a fitting hangs on the others that stand near: within
    ``reach_mm`` along the mast, or its limit where that is more; ``together`` that it adds up what
    all of those take, so that it cannot be asked against one of them alone; ``mutual`` that what it
    finds between two it finds from either side. A margin
    below ``fault_below`` is a fault, one below what is required ``otherwise``; a rule whose grades
    are more than that brings its own ``judge``. ``quick`` measures less of each fitting, and so
    never less than there is: where even that is too near, ``margins`` need not be asked. ``hint``
    is a word more that its findings say.
    """

    code: str
    limit: str | None
    depends: frozenset[Depends]
    one: Callable[[Scene, Batch, Limits], Margins] | None = None
    many: Callable[[Scene, Sequence[Batch], Limits], list[Margins]] | None = None
    pairs: bool = False
    together: bool = False
    mutual: bool = False
    reach_mm: float = NEAR_MM
    fault_below: float = 0.0
    otherwise: Standing = "caution"
    unit: Unit = "mm"
    judge: "Callable[[Placed, Margins, Limits], list[Finding]] | None" = None
    quick: Callable[[Scene, Sequence[Batch], Limits], list[Margins]] | None = None
    hint: str = ""

    def margins(self, scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
        """Return the margins of each batch."""
        if self.many is not None:
            return self.many(scene, batches, limits)
        if self.one is None:
            raise ValueError(self.code)
        return [self.one(scene, batch, limits) for batch in batches]


@dataclass(frozen=True, eq=False)
class WholeRule:
    """A rule about the whole layout: it takes no batch."""

    code: str
    depends: frozenset[Depends]
    findings: Callable[[Scene, Limits], Iterable[Finding]]


def findings(rule: Rule, placed: Placed, margins: Margins, limits: Limits) -> list[Finding]:
    """Turn the margins of one place into findings; what is clear makes none."""
    if rule.judge is not None:
        return rule.judge(placed, margins, limits)
    short = margins.short[0]
    return [
        _short(rule, placed, margins, i) if short[i] else _missing(rule, placed, margins, i)
        for i in np.flatnonzero(short | margins.missing[0]).tolist()
    ]


def _short(rule: Rule, placed: Placed, margins: Margins, i: int) -> Finding:
    measured, required = float(margins.measured[0, i]), float(margins.required[0, i])
    return Finding(
        rule.code,
        _standing(rule, measured, typical=margins.typical),
        _subjects(placed.id, margins.subjects[i]),
        measured,
        required,
        rule.unit,
        rule.limit,
        None,
        _height(placed, margins, i),
        margins.typical,
        hint=rule.hint,
    )


def _missing(rule: Rule, placed: Placed, margins: Margins, i: int) -> Finding:
    """A missing measure is about the subjects alone: it is one finding, not one for each fitting."""
    measure = margins.unknown[i]
    return Finding(
        rule.code,
        "not checked",
        margins.subjects[i],
        limit=rule.limit,
        measure=measure.key if measure else None,
        z_mm=_height(placed, margins, i),
    )


def _height(placed: Placed, margins: Margins, i: int) -> float:
    height = float(margins.point[0, i, 2])
    return placed.z_mm if np.isnan(height) else height


def _standing(rule: Rule, measured: float, *, typical: bool) -> Standing:
    """What rests on a foot nobody has in hand may turn out otherwise: look, before it is a fault."""
    if measured >= rule.fault_below:
        return rule.otherwise
    return "caution" if typical else "fault"


def _subjects(own: str, others: tuple[str, ...]) -> tuple[str, ...]:
    """Put the fitting first unless one of its own holes stands for it."""
    return others if any(other == own or other.startswith(f"{own}/") for other in others) else (own, *others)
