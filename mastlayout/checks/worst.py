"""Where a finding is worst: the two places between which its figure is measured, for what draws it."""

import numpy as np

from mastlayout.checks.clewed import swept_clew
from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM
from mastlayout.checks.sailed import worst_stand
from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.distance import Convex, gap
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids, tubes
from mastlayout.limits import limits_of
from mastlayout.once import once

Place = tuple[float, float, float]


@dataclass(frozen=True)
class Worst:
    """The worst place (x, y, z) on the finding's first subject, and the nearest one on what it is about."""

    at: Place
    other: Place


def worst_of(scene: Scene, finding: Finding) -> Worst | None:
    """Return where a finding is worst; None where it is measured between no two places in space."""
    if finding.measured is None or len(finding.subjects) < 2:
        return None
    return _looked_for(scene, finding)


@once  # section, skin and elevation ask for the same ones
def _looked_for(scene: Scene, finding: Finding) -> Worst | None:
    first, second = finding.subjects[:2]
    if finding.code == "hole/inside":
        return _to_inside(scene, first, second)
    if finding.code == "hole/spacing":
        return _between(hole_point(scene, first), hole_point(scene, second))
    if finding.code.startswith("clearance/"):
        return _between_bodies(scene, finding)
    if finding.code.startswith(("tack/", "main/")):
        return _to_cloth(scene, finding)
    if finding.code.startswith("clew/"):
        return _to_clew(scene, finding)
    return None


def _to_cloth(scene: Scene, finding: Finding) -> Worst | None:
    """The deepest point in the way of cloth, and the nearest on what else stops it."""
    found = worst_stand(scene, finding)
    if found is None:
        return None
    there, z_mm = found
    return Worst((*there.at, z_mm), (*there.other, z_mm))


def _to_clew(scene: Scene, finding: Finding) -> Worst | None:
    """The fitting's point as deep in reach of the clew as is said, and the nearest on what bounds that reach.

    Of its parts the loudest speaks, not always the deepest. A sheet comes from anywhere
    there: the fitting's point alone is marked.
    """
    found, placed = swept_clew(scene, finding), scene.placed.get(finding.subjects[0])
    if found is None or placed is None or not len(placed.solids):
        return None
    solids, swept = placed.solids, found.swept
    points = np.repeat(swept.tack, len(solids), axis=0)
    gaps = gap(solids, tubes(points, points, 0.0))
    apart, up = gaps.distance_mm - swept.reach_mm[0], solids.span_z()[0] - swept.high_mm[0]
    deep = int(np.argmin(np.abs(np.maximum(apart, up) - (finding.measured or 0.0))))
    at = gaps.on_a[deep]
    if not found.of_clew:
        return _between(at, at)
    if up[deep] > apart[deep]:
        at = np.array([*solids.centre[deep, :2], solids.span_z()[0][deep]])
        return _between(at, at - (0.0, 0.0, up[deep]))
    away = at - swept.tack[0]
    return _between(at, at - away * (apart[deep] / max(float(np.linalg.norm(away)), 1e-9)))


def hole_of(scene: Scene, subject: str) -> tuple[Placed, int] | None:
    """Return the fitting of a hole's id and the hole's place in its pattern; None for another id."""
    owner, _slash, number = subject.partition("/h")
    placed = scene.placed.get(owner)
    if placed is None or placed.holes is None or not number:
        return None
    at = placed.holes.index_of(int(number))
    return None if at is None else (placed, at)


def hole_point(scene: Scene, subject: str) -> Array | None:
    """Return where a hole is on the skin (3,), that of a fitting or one that is there already."""
    found = hole_of(scene, subject)
    if found is not None:
        placed, i = found
        return None if placed.holes is None else placed.holes.point[0, i]
    for old in scene.layout.holes:
        if old.id == subject:
            z = height_mm(scene.skin.length_mm, old.from_masthead_mm)
            return np.asarray(
                scene.skin.at(np.array([z]), np.array([scene.skin.girth_of(old.girth, z)]))[0][0]
            )
    return None


def _to_inside(scene: Scene, hole: str, name: str) -> Worst | None:
    found = hole_of(scene, hole)
    if found is None or found[0].holes is None:
        return None
    holes, i = found[0].holes, found[1]
    start = holes.point[0, i]
    tip = start + limits_of(scene.layout)["drill.reach"].value * holes.direction[0, i]
    legs = [thing for thing in scene.inside if thing.id == name and len(thing.start)]
    if not legs or np.isnan(start).any():
        return None
    apart, on_drill, on_leg, radius = min(
        (_nearest_leg(start, tip, leg) for leg in legs), key=lambda one: one[0]
    )
    towards = (on_leg - on_drill) / max(apart, 1e-9)
    half = (drill_mm(holes.openings[i]) or 0.0) / 2
    return _between(on_drill + half * towards, on_leg - radius * towards)


def _nearest_leg(start: Array, tip: Array, thing: Inside) -> tuple[float, Array, Array, float]:
    apart, on_drill = leg_distance(start, tip, thing.start, thing.end)
    leg = int(np.argmin(apart))
    _apart, on_leg = leg_distance(thing.start[leg], thing.end[leg], start, tip)
    return float(apart[leg]), on_drill[leg], on_leg, thing.radius_mm


def _between_bodies(scene: Scene, finding: Finding) -> Worst | None:
    own = scene.placed.get(finding.subjects[0])
    other: Convex | None = _solids(scene, finding.subjects[1], room=finding.code == "clearance/room")
    if finding.code == "clearance/slack":
        other = scene.slack.of(finding.subjects[1])
    if own is None or other is None or not len(other) or not len(own.solids):
        return None
    n, m = len(own.solids), len(other)
    # Pairs farther apart than what was measured are left early.
    enough_mm = max(finding.measured or 0.0, 0.0) + TOLERANCE_MM
    gaps = gap(own.solids[np.repeat(np.arange(n), m)], other[np.tile(np.arange(m), n)], enough_mm)
    least = int(np.argmin(gaps.distance_mm))
    return _between(gaps.on_a[least], gaps.on_b[least])


def _solids(scene: Scene, name: str, *, room: bool) -> Solids | None:
    if name in scene.placed:
        return scene.placed[name].room if room else scene.placed[name].solids
    member = scene.stays.get(name) or scene.spreaders.get(name)
    return None if member is None else member.solids


def _between(at: Array | None, other: Array | None) -> Worst | None:
    if at is None or other is None or np.isnan(at).any() or np.isnan(other).any():
        return None
    (x, y, z), (u, v, w) = at, other
    return Worst((float(x), float(y), float(z)), (float(u), float(v), float(w)))
