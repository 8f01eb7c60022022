"""Findings of what is in hand as lengths on the skin: hole to edge, to hole, to conduit, foot to track."""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding, Key
from mastlayout.checks.report import Report
from mastlayout.checks.worst import Place, hole_of, hole_point, worst_of
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, bearing_of, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene

OnSkin = tuple[float, float]  # girth and z


@dataclass(frozen=True)
class Found:
    """A finding drawn between two places on the skin, girth and z."""

    finding: Finding
    start: OnSkin
    end: OnSkin
    chosen: bool


def found_marks(report: Report, placed: Placed, chosen: frozenset[Key]) -> tuple[Found, ...]:
    """Return a fitting's findings that are lengths on the skin; of those alike one, the one looked at."""
    best: dict[tuple[object, ...], Found] = {}
    for finding in report.open:
        if finding.things[0] != placed.id or finding.measured is None:
            continue
        ends = _ends(report.scene, placed, finding)
        if ends is None:
            continue
        one = Found(finding, *ends, finding.key in chosen)
        alike = finding.code, finding.things[1:], round(finding.measured, 1)
        if alike not in best or (one.chosen and not best[alike].chosen):
            best[alike] = one
    return tuple(best.values())


def _ends(scene: Scene, placed: Placed, finding: Finding) -> tuple[OnSkin, OnSkin] | None:
    match finding.code:
        case "hole/foot-edge":
            return _to_edge(scene, placed, finding.subjects[0])
        case "hole/spacing":
            points = [hole_point(scene, subject) for subject in finding.subjects[:2]]
            return _two([_on_skin(scene, (p[0], p[1], p[2])) for p in points if p is not None])
        case "hole/inside":
            worst = worst_of(scene, finding)
            return _two([_on_skin(scene, place) for place in (worst.at, worst.other)] if worst else [])
        case "seat/track":
            return _to_track(scene, placed)
        case "cable/slot":
            return _to_slot(scene, placed, finding.subjects[1])
    return None


def _two(places: list[OnSkin]) -> tuple[OnSkin, OnSkin] | None:
    return (places[0], places[1]) if len(places) == 2 else None


def _on_skin(scene: Scene, place: Place) -> OnSkin:
    """Return the girth and height of the ray from the axis through a place."""
    x, y, z = (float(value) for value in place)
    return scene.skin.ring(z).girth_at_bearing(bearing_of(x, y)), z


def _to_edge(scene: Scene, placed: Placed, hole: str) -> tuple[OnSkin, OnSkin] | None:
    found = hole_of(scene, hole)
    if found is None or placed.holes is None or placed.outline is None:
        return None
    girth, z = float(placed.holes.girth_mm[0, found[1]]), float(placed.holes.z_mm[0, found[1]])
    around = float(placed.places.around[0])
    half = placed.skin.ring(z).half_girth_mm if placed.skin else 1.0
    # The outline runs on over the far line, a hole's girth does not.
    here = np.array([around + (girth - around + half) % (2 * half) - half, z])
    if np.isnan(here).any():
        return None
    girth_edge, z_edge = _nearest_on(placed.outline, here)
    return (float(here[0]), z), (girth_edge, z_edge)


def _nearest_on(outline: Array, point: Array) -> OnSkin:
    start, end = outline, np.roll(outline, -1, axis=0)
    step = end - start
    long = np.maximum((step * step).sum(axis=1), 1e-12)
    part = np.clip(((point - start) * step).sum(axis=1) / long, 0.0, 1.0)
    places = start + part[:, None] * step
    girth, z = places[int(np.argmin(((places - point) ** 2).sum(axis=1)))]
    return float(girth), float(z)


def _to_track(scene: Scene, placed: Placed) -> tuple[OnSkin, OnSkin] | None:
    track = scene.skin.half_track_mm
    if placed.outline is None or track is None:
        return None
    around = float(placed.places.around[0])
    half = scene.skin.ring(placed.z_mm).half_girth_mm
    turns = round(around / (2 * half)) * 2 * half
    side = 1.0 if around >= turns else -1.0
    edge = float((placed.outline[:, 0] * side).min()) * side
    return (edge, placed.z_mm), (turns + side * track, placed.z_mm)


def _to_slot(scene: Scene, placed: Placed, conduit: str) -> tuple[OnSkin, OnSkin] | None:
    entry = next(iter(_entries(placed)), None)
    pipe = next((pipe for pipe in scene.layout.mast.conduits or () if pipe.id == conduit), None)
    if entry is None or pipe is None or not pipe.slots:
        return None
    length = scene.skin.length_mm
    ends = [
        height_mm(length, slot.from_masthead_mm) + side * slot.length_mm / 2
        for slot in pipe.slots
        for side in (1, -1)
    ]
    return entry, (entry[0], min(ends, key=lambda z: abs(z - entry[1])))


def _entries(placed: Placed) -> Iterator[OnSkin]:
    if placed.holes is not None:
        for opening, girth, z in zip(
            placed.holes.openings, placed.holes.girth_mm[0], placed.holes.z_mm[0], strict=True
        ):
            if opening.use == "entry" and not np.isnan(girth):
                yield float(girth), float(z)
