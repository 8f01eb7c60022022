"""Clearance between solids: a fitting to stays, spreaders, struts, other fittings and their service room."""

from collections.abc import Mapping

import numpy as np

from mastlayout.checks.rule import Batch, Margins, Rule, no_margins
from mastlayout.geometry.crowd import Crowd, crowd_of, nearest
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.measure import Measure

# Gaps are worked out up to this much beyond the limit, so that the nearest thing can be named.
_BEYOND_MM = 30.0
# A pin or root this near the fitting's foot belongs to it.
_BELONGS_MM = 150.0
_HOLDS = ("stay", "spreader", "masthead", "halyard")


def to_stays(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure a fitting against stays and their terminals, except those it holds or hangs on."""
    unknown = {name: stay.unknown[0] for name, stay in scene.stays.items() if stay.unknown}
    pins = {name: stay.points for name, stay in scene.stays.items() if stay.points is not None}
    apart = _held(batch.placed, pins)
    return _margins(scene.wires, batch, limits["clearance.stay"].value, apart, unknown)


def to_spreaders(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure a fitting against spreaders and struts, except its host and those it holds."""
    unknown = {name: bar.unknown[0] for name, bar in scene.spreaders.items() if bar.unknown}
    apart = _held(batch.placed, {name: bar.root[None] for name, bar in scene.spreaders.items()})
    return _margins(scene.bars, batch, limits["clearance.spreader"].value, apart, unknown)


def to_fittings(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure a fitting against every other, except its host and its guests."""
    return _margins(scene.gear, batch, limits["clearance.fitting"].value, _related(scene, batch.placed), {})


def to_rooms(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure a fitting against the room that others need for a hand or a tool."""
    members = [(name, placed.room) for name, placed in scene.placed.items() if len(placed.room)]
    return _margins(
        crowd_of(members), batch, limits["clearance.room"].value, _related(scene, batch.placed), {}
    )


def _related(scene: Scene, placed: Placed) -> set[str]:
    guests = {other.id for other in scene.placed.values() if other.fitting.on == placed.id}
    return guests | {placed.id, placed.fitting.on}


def _held(placed: Placed, pins: Mapping[str, Array]) -> set[str]:
    """Return the host, and what the fitting holds: it is not measured against its own stay or spreader."""
    held = {placed.fitting.on}
    if placed.kind.group in _HOLDS:
        held |= {
            name
            for name, points in pins.items()
            if np.linalg.norm(points - placed.seats.origin[0], axis=1).min() < _BELONGS_MM
        }
    return held


def _margins(
    crowd: Crowd, batch: Batch, required_mm: float, apart: set[str], unknown: dict[str, Measure]
) -> Margins:
    places = len(batch.places)
    if not batch.each:
        return no_margins(places)
    found = nearest(batch.solids, batch.each, crowd, required_mm + _BEYOND_MM)
    kept = [i for i, name in enumerate(crowd.ids) if name not in apart]
    missing = [unknown.get(crowd.ids[i]) for i in kept]
    measured = found.gap_mm[:, kept]
    return Margins(
        tuple((crowd.ids[i],) for i in kept),
        measured,
        np.full(measured.shape, required_mm),
        found.point[:, kept],
        tuple(missing),
    )


STAY = Rule("clearance/stay", "clearance.stay", frozenset({"mast", "stays", "fittings", "limits"}), to_stays)
SPREADER = Rule(
    "clearance/spreader",
    "clearance.spreader",
    frozenset({"mast", "spreaders", "fittings", "limits"}),
    to_spreaders,
)
FITTING = Rule(
    "clearance/fitting",
    "clearance.fitting",
    frozenset({"mast", "fittings", "limits"}),
    to_fittings,
    pairs=True,
)
ROOM = Rule(
    "clearance/room", "clearance.room", frozenset({"mast", "fittings", "limits"}), to_rooms, pairs=True
)
