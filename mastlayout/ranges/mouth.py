"""What stands before the mouth of a horn or hailer: over which bearings, and what it takes of the sound.

Asked level, as COLREG Annex III does, within 45 degrees of the way the mouth points and, of a signal made
for ships ahead, of straight ahead. What a horn gives less to its sides is its maker's and not added.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.arcs import overlap_deg
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Body, Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Seats
from mastlayout.geometry.solids import tubes
from mastlayout.limits import Limits
from mastlayout.once import once
from mastlayout.ranges.hidden import Cast, cast
from mastlayout.ranges.screen import taken, unheard
from mastlayout.ranges.sound import axis_deg, mouth_parts, own_mouth, points_ahead
from mastlayout.words import _

# Annex III, 1(d): within so much of its axis a whistle may give 4 dB less than on it.
ARC_DEG = 45.0
ARC_SOURCE = _("geometry; COLREG Annex III, section 1(d) and (e): high, clear of what intercepts the sound")


@dataclass(frozen=True, eq=False)
class InFront:
    """A thing before a mouth, by its id: the bearings it covers, and how much sound it takes.

    ``mouth_mm`` is how wide the mouth is, ``away_mm`` how far off the nearest of it stands.
    """

    id: str
    seen: tuple[float, float]
    share: float
    covered: Figure
    taken: Figure
    mouth_mm: float
    away_mm: float


def before_mouth(scene: Scene, placed: Placed, seats: Seats, limits: Limits) -> Cast:
    """Return what stands before the mouth of a sound signal that is seated at n places.

    A mouth counts as a ball as wide as it is wide, or high where that is more: how it is turned is no matter.
    What is too small for anybody to hear is left out.
    """
    dims, band = limits["sound.dim"].value / 100.0, limits["sound.band"].value
    middle = seats.origin + np.einsum("k,nkj->nj", own_mouth(placed.body), seats.axes)
    balls = tubes(middle, middle, _half_mm(placed.body))
    alone = replace(placed, body=replace(placed.body, solids=balls[:1]))
    return cast(scene, alone, balls, (0,), dims, band, unheard(scene, limits["sound.small"].value))


@once  # a fitting that moves keeps its body
def _half_mm(body: Body) -> float:
    own, ways = body.solids[mouth_parts(body)], np.eye(3)[:2]
    return float(max(own.support(way).max() + own.support(-way).max() for way in ways)) / 2


def covered_deg(arcs: Array, axis: Array | float, *, ahead: bool) -> Array:
    """Return how much (q,) of the arc about axes (q,) arcs (q, 2) cover; about straight ahead where more."""
    own = _within(arcs - np.asarray(axis)[..., None])
    return np.maximum(own, _within(arcs)) if ahead else own


def arc_of(placed: Placed) -> tuple[float, float]:
    """Return the first and last bearing of the 90 degrees before a mouth."""
    return axis_deg(placed) - ARC_DEG, axis_deg(placed) + ARC_DEG


def _within(arcs: Array) -> Array:
    return overlap_deg(arcs, -ARC_DEG % 360.0, ARC_DEG)


def in_front(scene: Scene, placed: Placed, limits: Limits) -> list[InFront]:
    """Return what stands before the mouth of a sound signal within the arcs that are asked."""
    seen = before_mouth(scene, placed, placed.seats, limits)
    edge, names = seen.found.edge, [seen.ids[owner] for owner in seen.found.owner.tolist()]
    covered = covered_deg(edge, axis_deg(placed), ahead=points_ahead(placed))
    return [
        InFront(
            names[i],
            (float(edge[i, 0]), float(edge[i, 1])),
            float(seen.found.share[i]),
            _covered(float(covered[i]), placed, [(float(edge[i, 0]), float(edge[i, 1]))]),
            taken(scene, placed, names[i], over=bool(covered[i] > limits["sound.over"].value)),
            seen.wide_mm,
            float(seen.found.away_mm[i]),
        )
        for i in np.flatnonzero(covered > 0.0).tolist()
    ]


def _covered(degrees: float, placed: Placed, arcs: Sequence[tuple[float, float]]) -> Figure:
    formula = _("bearing of its middle ± arcsin(half its width / distance)")
    name, inputs = _("covered of the 90° before its mouth"), {"arc_deg": 2 * ARC_DEG}
    inputs["axis_deg"] = axis_deg(placed)
    for i, (first, last) in enumerate(arcs, 1):
        inputs |= {f"sector_{i}_from_deg": first % 360.0, f"sector_{i}_to_deg": last % 360.0}
    return Figure(name, degrees, "°", formula, ARC_SOURCE, inputs)


def in_all(found: Sequence[InFront], placed: Placed) -> Figure:
    """Return how much of the 90 degrees before its mouth things cover together."""
    first, _last = arc_of(placed)
    ends = [((one.seen[0] - first) % 360.0, one.seen[1] - one.seen[0]) for one in found]
    # An arc may reach in from before the first bearing.
    arcs = sorted((start - turn, start - turn + wide) for start, wide in ends for turn in (0.0, 360.0))
    total, done = 0.0, 0.0
    for start, end in arcs:
        total += max(min(end, 2 * ARC_DEG) - max(start, done), 0.0)
        done = max(done, min(end, 2 * ARC_DEG))
    return _covered(total, placed, [one.seen for one in found])
