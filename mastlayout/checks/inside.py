"""Halyards inside the mast: where they cross one another, conduits and the edges of inner sleeves.

Two halyards over one sheave box are asked over every two of its sheaves that may be theirs. What
fasteners do to them the rules about chafe ask.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.inside import Inside, inner_points, rims_of
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.wall import nearest_thickness_mm
from mastlayout.limits import Limits
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Halyard, LinePoint

_SHEAVE = measure_of(LinePoint, "sheave").key


def crossings(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the halyards that come so near one another inside that they rub, and at what height.

    Two that leave by one exit meet there, and rub in it as everybody knows.
    """
    wanted, passed = limits["inside.apart"].value, passes(scene)
    lines = [line for line in scene.halyards if line.unknown is None]
    for i, one in enumerate(lines):
        for other in lines[i + 1 :]:
            if one.id == other.id or _leave_together(scene, one.id, other.id):
                continue
            box = passed[one.id] & passed[other.id] & _boxes(scene, one.id)
            asked = list(_over_one_box(scene, one, other)) if box else [(one, other)]
            gaps = [between(*both) for both in asked]
            apart, z_mm = max(gaps, default=(np.inf, 0.0))
            if apart < wanted - TOLERANCE_MM:
                yield Finding(
                    "inside/crosses", "note", (one.id, other.id), apart, wanted,
                    limit="inside.apart", z_mm=z_mm,
                )  # fmt: skip
            elif not gaps or min(gaps)[0] < wanted - TOLERANCE_MM:
                # Nor can it be known over which they run where the box's sheaves are not drawn.
                for name in (one.id, other.id):
                    yield Finding("inside/crosses", "not checked", (name,), measure=_SHEAVE)


def _boxes(scene: Scene, name: str) -> frozenset[str]:
    """Return the sheave boxes a halyard runs over on its way inside."""
    points = inner_points(_halyard(scene, name))
    return frozenset(point.fitting for point in points if point.at == "sheave" and point.fitting)


def _over_one_box(scene: Scene, one: Inside, other: Inside) -> Iterator[tuple[Inside, Inside]]:
    """Yield two lines over one sheave box, over every two of its sheaves that may be theirs."""
    ways = [list(_by_sheave(scene, line)) for line in (one, other)]
    for (sheave, line), (taken, beside) in product(*ways):
        if sheave != taken:
            yield line, beside


def _by_sheave(scene: Scene, line: Inside) -> Iterator[tuple[tuple[str, int], Inside]]:
    """Yield a line over each sheave that may be its own, with the box and the sheave's number."""
    points = inner_points(_halyard(scene, line.id))
    rims = rims_of(points[0], scene.placed)
    box, own = points[0].fitting, points[0].sheave
    if box is None or not len(line.start):
        return
    for number, rim in enumerate(rims, start=1):
        if own in (None, number) or (own is not None and own > len(rims)):
            yield (box, number), replace(line, start=np.concatenate([rim[None], line.start[1:]]))


def _halyard(scene: Scene, name: str) -> Halyard:
    return next(halyard for halyard in scene.layout.halyards if halyard.id == name)


def _leave_together(scene: Scene, one: str, other: str) -> bool:
    """Tell whether two lines leave by one exit."""
    exits = (
        {point.fitting for point in _halyard(scene, name).points if point.at == "exit" and point.fitting}
        for name in (one, other)
    )
    first, second = exits
    return not first.isdisjoint(second)


def between(one: Inside, other: Inside) -> tuple[float, float]:
    """Return the gap between two things inside, negative where they meet, and its height."""
    apart, where = leg_distance(one.start[:, None], one.end[:, None], other.start, other.end)
    least = np.unravel_index(int(apart.argmin()), apart.shape)
    return float(apart[least]) - one.radius_mm - other.radius_mm, float(where[least][2])


def passes(scene: Scene) -> dict[str, frozenset[str]]:
    """Return the fittings each halyard passes."""
    return {
        halyard.id: frozenset(point.fitting for point in halyard.points if point.fitting)
        for halyard in scene.layout.halyards
    }


def lying(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the conduits and the edges of inner sleeves that a halyard lies against."""
    wanted = limits["inside.apart"].value
    lines = [line for line in scene.halyards if line.unknown is None]
    for line in lines:
        for pipe in scene.conduits:
            if pipe.unknown is not None or pipe.z_high_mm < line.z_low_mm or pipe.z_low_mm > line.z_high_mm:
                continue
            apart, z_mm = between(line, pipe)
            if apart < wanted - TOLERANCE_MM:
                who = (line.id, pipe.id)
                yield Finding(
                    "inside/conduit", "caution", who, apart, wanted, limit="inside.apart", z_mm=z_mm
                )
        yield from _sleeves(scene, line, wanted, limits["inside.sleeve"].value)


def _sleeves(scene: Scene, line: Inside, wanted_mm: float, sleeve_mm: float) -> Iterator[Finding]:
    mast = scene.layout.mast
    for stretch in mast.stretches or ():
        wall = nearest_thickness_mm(mast, stretch.from_masthead_mm)
        if stretch.kind != "sleeve" or wall is None:
            continue
        edges = [height_mm(mast.length_mm, reading) for reading in (stretch.from_masthead_mm, stretch.to_mm)]
        for z_mm in edges:
            room = from_the_skin_mm(scene, line, z_mm) - wall - sleeve_mm - line.radius_mm
            if room < wanted_mm - TOLERANCE_MM:
                yield Finding(
                    "inside/sleeve", "caution", (line.id,), room, wanted_mm, limit="inside.apart", z_mm=z_mm
                )
                break


def from_the_skin_mm(scene: Scene, line: Inside, z_mm: float) -> float:
    """Return how far inside the skin the middle of a halyard is at a height; inf where it does not come."""
    normal, reach = scene.skin.ring(z_mm).walls()
    for start, end in zip(line.start, line.end, strict=True):
        low, high = sorted((float(start[2]), float(end[2])))
        if low <= z_mm <= high and high > low:
            point = start + (z_mm - start[2]) / (end[2] - start[2]) * (end - start)
            return float((reach - normal @ point[:2]).min())
    return np.inf


def known(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name the halyards of which nobody knows how they lie inside, and the conduits beside them."""
    missing = measure_of(Halyard, "inside").key
    for name in dict.fromkeys(line.id for line in scene.halyards if line.unknown is not None):
        yield Finding("inside/known", "not checked", (name,), measure=missing)
    lines = [line for line in scene.halyards if line.unknown is None]
    for pipe in scene.conduits:
        beside = [line for line in lines if line.z_low_mm < pipe.z_high_mm and pipe.z_low_mm < line.z_high_mm]
        if pipe.unknown is not None and beside:
            who = (pipe.id, *dict.fromkeys(line.id for line in beside))
            yield Finding("inside/known", "not checked", who, measure=pipe.unknown.key)


def sheaves(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name the lines that were written down over a sheave their box does not have."""
    for halyard in scene.layout.halyards:
        for point in inner_points(halyard):
            count = len(rims_of(point, scene.placed))
            if point.sheave is not None and point.fitting and 0 < count < point.sheave:
                who = (halyard.id, point.fitting)
                yield Finding("inside/sheave", "caution", who, state=str(point.sheave))


CROSSINGS = WholeRule("inside/crosses", frozenset({"inside", "limits"}), crossings)
LYING = WholeRule("inside/lies", frozenset({"mast", "inside", "limits"}), lying)
KNOWN = WholeRule("inside/known", frozenset({"mast", "inside"}), known)
SHEAVES = WholeRule("inside/sheave", frozenset({"inside", "fittings"}), sheaves)
RULES = (CROSSINGS, LYING, KNOWN, SHEAVES)
