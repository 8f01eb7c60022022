"""Clearance between solids: a fitting to stays, spreaders, struts, other fittings and their service room."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, findings, where_it_stands
from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Herd, Nearest, Owned, at_most_mm, crowd_of, nearest
from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import joined
from mastlayout.limits import Limits
from mastlayout.words import _

# Gaps are worked out up to this much beyond the limit: what is farther off says nothing.
_BEYOND_MM = 1.0
# A pin or root within this of a fitting of the rig belongs to it.
_BELONGS_MM = 30.0
_HOLDS = ("stay", "spreader", "masthead", "halyard")


@dataclass(frozen=True, eq=False)
class StayMargins(Margins):
    """Margins against stays; ``slack`` (n, s) tells that one is met only where it hangs slack."""

    slack: Mask = None  # type: ignore[assignment]  # always given; a base class has defaults before it

    def faults(self, fault_below: float) -> Mask:
        """Return where (n, s) what is said is a fault; of a slack stay it never is."""
        return np.asarray(super().faults(fault_below) & ~self.slack)


def to_stays(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings against stays, tight and slack, except those they hold or hang on."""
    pins = {name: stay.points for name, stay in scene.stays.items() if stay.points is not None}
    apart = [held(batch, pins) for batch in batches]
    at_rest = against(scene.wires, batches, limits["clearance.stay"].value, apart)
    slack = against(scene.slack, batches, limits["clearance.slack"].value, apart)
    return [_worse(own, loose) for own, loose in zip(at_rest, slack, strict=True)]


def _worse(at_rest: Margins, slack: Margins) -> "StayMargins":
    """Return what is said of stays at rest and, where that says nothing, of slack ones."""
    says = (at_rest.measured >= at_rest.required - TOLERANCE_MM) & (
        slack.measured < slack.required - TOLERANCE_MM
    )
    return StayMargins(
        at_rest.subjects,
        np.where(says, slack.measured, at_rest.measured),
        np.where(says, slack.required, at_rest.required),
        np.where(says[..., None], slack.point, at_rest.point),
        at_rest.unknown,
        slack=says,
    )


def to_spreaders(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings against spreaders and struts, except their host and those they hold."""
    roots = {name: bar.root[None] for name, bar in scene.spreaders.items()}
    apart = [held(batch, roots) for batch in batches]
    return against(scene.bars, batches, limits["clearance.spreader"].value, apart)


def to_fittings(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings against every other, except their host and their guests."""
    apart = [_related(scene, batch.placed) for batch in batches]
    return against(scene.gear, batches, limits["clearance.fitting"].value, apart)


def to_rooms(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings against the room that others need for a hand or a tool."""
    rooms = crowd_of([(name, placed.room) for name, placed in scene.placed.items() if len(placed.room)])
    apart = [_related(scene, batch.placed) for batch in batches]
    return against(rooms, batches, limits["clearance.room"].value, apart)


def nearest_thing(scene: Scene, placed: Placed, within_mm: float) -> tuple[str, float] | None:
    """Return what is nearest to a fitting, and its gap in mm; None where nothing is within ``within_mm``.

    Left out is what the rules leave out: its host, its guests, what it holds.
    """
    if not len(placed.solids):
        return None
    batch = where_it_stands(placed)
    herd = Herd(placed.solids, np.array([len(placed.solids)]))
    pins = {name: stay.points for name, stay in scene.stays.items() if stay.points is not None}
    roots = {name: bar.root[None] for name, bar in scene.spreaders.items()}
    crowds = (
        (scene.wires, held(batch, pins)),
        (scene.bars, held(batch, roots)),
        (scene.gear, _related(scene, placed)),
    )
    skips = [np.array([name in apart for name in crowd.ids], dtype=bool) for crowd, apart in crowds]
    # What is surely farther than something else is never worked out: that is most of it.
    most = min(at_most_mm(herd, crowd, skip) for (crowd, _apart), skip in zip(crowds, skips, strict=True))
    within, best = min(within_mm, most + TOLERANCE_MM), None
    for (crowd, _apart), skip in zip(crowds, skips, strict=True):
        gaps = nearest(herd, crowd, within, skip[None]).gap_mm[0]
        if len(gaps) and gaps.min() < within:
            best, within = crowd.ids[int(np.argmin(gaps))], float(gaps.min())
    return (best, within) if best is not None else None


def _related(scene: Scene, placed: Placed) -> set[str]:
    return {placed.id, placed.fitting.on} | scene.guests.get(placed.id, frozenset())


def held(batch: Batch, pins: Mapping[str, Array]) -> set[str]:
    """Return the host, and what the fitting holds: it is not measured against its own stay or spreader."""
    held = {batch.placed.fitting.on}
    solids = batch.placed.solids
    if batch.placed.kind.group not in _HOLDS or not len(solids) or not pins:
        return held
    points = np.concatenate(list(pins.values()))
    owners = np.repeat(list(pins), [len(own) for own in pins.values()])
    apart = np.linalg.norm(points[:, None] - solids.centre, axis=2) - solids.bound_mm
    return held | set(owners[apart.min(axis=1) < _BELONGS_MM])


def against(
    crowd: Owned, batches: Sequence[Batch], required_mm: float, apart: Sequence[set[str]]
) -> list[Margins]:
    """Measure batches against a crowd, the ids in ``apart`` left out.

    All at once: one walk over all pairs is far cheaper than one for each fitting.
    """
    places = [len(batch.places) for batch in batches]
    count = np.concatenate([np.full(n, batch.each) for n, batch in zip(places, batches, strict=True)])
    herd = Herd(joined([batch.solids for batch in batches]), count)
    skip = np.array([[name in own for name in crowd.ids] for own in apart], dtype=bool).reshape(
        len(batches), -1
    )
    found = nearest(herd, crowd, required_mm + _BEYOND_MM, np.repeat(skip, places, axis=0))
    ends = np.cumsum(places)
    return [
        _one(crowd, found, slice(end - n, end), skip[i], required_mm)
        for i, (end, n) in enumerate(zip(ends, places, strict=True))
    ]


def _one(crowd: Owned, found: Nearest, rows: slice, skip: Mask, required_mm: float) -> Margins:
    kept = np.flatnonzero(~skip)
    measured = found.gap_mm[rows, kept]
    return Margins(
        tuple((crowd.ids[i],) for i in kept),
        measured,
        np.full(measured.shape, required_mm),
        found.point[rows, kept],
        (None,) * len(kept),
    )


_AT_REST = Rule("clearance/stay", "clearance.stay", frozenset({"mast", "stays", "fittings", "limits"}))


def judge(placed: Placed, found: Margins, limits: Limits) -> list[Finding]:
    """Say how near each stay comes: at rest, or as a caution where it does so slack alone."""
    said = findings(_AT_REST, placed, found, limits)
    if not isinstance(found, StayMargins):
        return said
    slack = {found.subjects[i] for i in np.flatnonzero(found.slack[0]).tolist()}
    return [
        replace(
            one,
            code="clearance/slack",
            standing="caution",
            limit="clearance.slack",
            state=_("slack to leeward"),
        )
        if one.subjects[1:] in slack
        else one
        for one in said
    ]


STAY = replace(_AT_REST, many=to_stays, judge=judge)
SPREADER = Rule(
    "clearance/spreader",
    "clearance.spreader",
    frozenset({"mast", "spreaders", "fittings", "limits"}),
    many=to_spreaders,
)
FITTING = Rule(
    "clearance/fitting",
    "clearance.fitting",
    frozenset({"mast", "fittings", "limits"}),
    many=to_fittings,
    pairs=True,
    mutual=True,
    reach_mm=0.0,
)
ROOM = Rule(
    "clearance/room",
    "clearance.room",
    frozenset({"mast", "fittings", "limits"}),
    many=to_rooms,
    pairs=True,
    reach_mm=0.0,
)
