"""What one height holds: the outline and its wall, what runs inside, and what stands round it."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

import numpy as np

from mastlayout.checks.finding import Finding, Key
from mastlayout.checks.report import Report
from mastlayout.checks.worst import Worst, worst_of
from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Crowd
from mastlayout.geometry.frames import Mask, height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.wall import nearest_thickness_mm, thickness_mm
from mastlayout.model.mast import Stretch, Track
from mastlayout.ui.section.drilled import NEAR_MM, Drill, drills_at
from mastlayout.ui.section.filling import Filling, filling_at


@dataclass(frozen=True)
class Crossing:
    """Where something inside the mast crosses a height; its centre in the mast frame.

    ``filling`` is what lies in a conduit; a halyard has none.
    """

    id: str
    name: str
    kind: Literal["conduit", "halyard"]
    ahead_mm: float
    port_mm: float
    radius_mm: float
    filling: Filling | None = None


@dataclass(frozen=True)
class Passing:
    """Where a stay passes a height, in the mast frame, and the radius of its wire."""

    id: str
    name: str
    ahead_mm: float
    port_mm: float
    radius_mm: float


@dataclass(frozen=True)
class HoleAt:
    """A hole that is there already, at its place on the skin, in the mast frame."""

    id: str
    name: str
    ahead_mm: float
    port_mm: float
    diameter_mm: float | None


@dataclass(frozen=True)
class Cut:
    """The mast at one height; two cuts are equal where nothing at that height changed.

    ``wall_mm`` is None where no reading speaks for this height, ``near_wall_mm`` the nearest one
    however far. ``lost`` names what runs here, nobody knows where. ``hand`` is the fitting in hand
    where it stands here, ``chosen`` the finding looked at where it is about something here.
    """

    z_mm: float
    on_mast: bool
    ring: Ring
    wall_mm: float | None
    near_wall_mm: float | None
    track: Track | None
    zones: tuple[Stretch, ...]
    crossings: tuple[Crossing, ...]
    lost: tuple[str, ...]
    standing: tuple[Placed, ...]
    spreaders: tuple[SpreaderInSpace, ...]
    stays: tuple[Passing, ...]
    old_holes: tuple[HoleAt, ...]
    drills: tuple[Drill, ...]
    in_hand: str
    hand: Placed | None
    chosen: Finding | None
    worst: Worst | None


def cut_at(report: Report, z_mm: float, hand: str, chosen: frozenset[Key] = frozenset()) -> Cut:
    """Return what a height holds; ``hand`` is the id in hand, which is kept where it reaches there."""
    scene = report.scene
    skin = scene.skin
    from_masthead = height_mm(skin.length_mm, z_mm)
    standing = tuple(standing_at(scene, z_mm))
    found = tuple(crossings(scene, z_mm))
    finding = _worst_chosen(report, chosen, frozenset(placed.id for placed in standing))
    bars = scene.bars
    return Cut(
        z_mm=z_mm,
        on_mast=0.0 <= z_mm <= skin.length_mm,
        ring=skin.ring(z_mm),
        wall_mm=thickness_mm(skin.mast, from_masthead),
        near_wall_mm=nearest_thickness_mm(skin.mast, from_masthead),
        track=track_at(skin, z_mm),
        zones=tuple(zones_between(skin, z_mm, z_mm)),
        crossings=found,
        lost=lost_between(scene, z_mm, z_mm, known=frozenset(crossing.id for crossing in found)),
        standing=standing,
        spreaders=tuple(scene.spreaders[name] for name in _held(bars, z_mm)),
        stays=tuple(passing(scene, z_mm)),
        old_holes=tuple(old_holes_at(scene, z_mm)),
        drills=tuple(
            drill for placed in standing for drill in drills_at(report, placed, z_mm, every=placed.id == hand)
        ),
        in_hand=hand,
        hand=next((placed for placed in standing if placed.id == hand), None),
        chosen=finding,
        worst=worst_of(report.scene_of(finding), finding) if finding else None,
    )


def standing_at(scene: Scene, z_mm: float) -> Iterator[Placed]:
    """Yield what stands at a height on the mast itself or on what stands on it."""
    held = _held(scene.gear, z_mm)
    for name, placed in scene.placed.items():
        # What hangs on a stay or a spreader is metres away: the section would be a dot beside it.
        if placed.on_mast and (name in held or placed.foot_between(z_mm, z_mm)):
            yield placed


def _held(crowd: Crowd, z_mm: float) -> dict[str, None]:
    """Return the ids of a crowd whose solids hold a height, in their order."""
    return dict.fromkeys(crowd.ids[i] for i in crowd.owner[parts_at(crowd.solids, z_mm)])


def _worst_chosen(report: Report, chosen: frozenset[Key], here: frozenset[str]) -> Finding | None:
    """Return the finding of those chosen that lacks most, if it is about something that stands here."""
    if not chosen:
        return None
    every = (*report.open, *(finding for finding, _own in report.accepted))
    about = [f for f in every if f.key in chosen and f.measured is not None and not here.isdisjoint(f.things)]
    return min(about, key=lambda f: (f.measured or 0.0) - (f.required or 0.0), default=None)


def zones_between(skin: Skin, low_mm: float, high_mm: float) -> Iterator[Stretch]:
    """Yield the sleeves, welds, pitted and wedge zones that reach into a stretch of the mast."""
    top, bottom = height_mm(skin.length_mm, high_mm), height_mm(skin.length_mm, low_mm)
    for zone in skin.mast.stretches or ():
        if zone.from_masthead_mm <= bottom and zone.to_mm >= top:
            yield zone


def passing(scene: Scene, z_mm: float) -> Iterator[Passing]:
    """Yield where stays pass a height."""
    for name, stay in scene.stays.items():
        if stay.points is None:
            continue
        for upper, lower in pairwise(stay.points):
            high, low = float(upper[2]), float(lower[2])
            if low <= z_mm < high:
                x, y, _z = lower + (z_mm - low) / (high - low) * (upper - lower)
                yield Passing(name, stay.item.name, float(x), float(y), (stay.item.wire_mm or 0.0) / 2)


def old_holes_at(scene: Scene, z_mm: float) -> Iterator[HoleAt]:
    """Yield the holes that are there already, near a height."""
    skin = scene.skin
    for hole in scene.layout.holes:
        z = height_mm(skin.length_mm, hole.from_masthead_mm)
        if abs(z - z_mm) <= NEAR_MM:
            (x, y, _z), *_rest = skin.at(np.array([z]), np.array([skin.girth_of(hole.girth, z)]))[0]
            yield HoleAt(hole.id, hole.name, float(x), float(y), hole.diameter_mm)


def track_at(skin: Skin, z_mm: float) -> Track | None:
    """Return the track or groove at a height; None below its lower end, and where none is known."""
    track = skin.mast.track
    if track is None or track.lower_end_mm is None:
        return track
    return track if z_mm >= height_mm(skin.length_mm, track.lower_end_mm) else None


def crossings(scene: Scene, z_mm: float) -> Iterator[Crossing]:
    """Yield where conduits and halyards cross a height."""
    kinds: tuple[tuple[Literal["conduit", "halyard"], tuple[Inside, ...]], ...]
    kinds = (("conduit", scene.conduits), ("halyard", scene.halyards))
    pipes = {pipe.id: pipe for pipe in scene.skin.mast.conduits or ()}
    for kind, things in kinds:
        for thing in things:
            centre = centre_at(thing, z_mm)
            if centre is not None:
                pipe = pipes.get(thing.id)
                filling = filling_at(scene, pipe, z_mm) if pipe else None
                yield Crossing(thing.id, thing.name, kind, *centre, thing.radius_mm, filling)


def lost_between(scene: Scene, low_mm: float, high_mm: float, known: frozenset[str]) -> tuple[str, ...]:
    """Return the names of what runs between two heights nobody knows where, less what is known there."""
    return tuple(
        dict.fromkeys(
            thing.name
            for thing in scene.inside
            if thing.unknown
            and thing.id not in known
            and thing.z_low_mm <= high_mm
            and thing.z_high_mm >= low_mm
        )
    )


def centre_at(thing: Inside, z_mm: float) -> tuple[float, float] | None:
    """Return where something inside crosses a height, ahead and to port; None where it does not."""
    for start, end in zip(thing.start, thing.end, strict=True):
        low, high = sorted((float(start[2]), float(end[2])))
        if low <= z_mm <= high and high > low:
            part = (z_mm - float(start[2])) / float(end[2] - start[2])
            x, y = start[:2] + part * (end[:2] - start[:2])
            return float(x), float(y)
    return None


def parts_at(solids: Solids, z_mm: float) -> Mask:
    """Return which of n solids hold a height."""
    if not len(solids):
        return np.zeros(0, dtype=bool)
    low, high = solids.span_z()
    return np.asarray((low <= z_mm) & (z_mm <= high))
