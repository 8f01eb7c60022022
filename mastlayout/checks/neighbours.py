"""Holes that stand against others on the developed skin: those known of other fittings, and old ones."""

from collections.abc import Sequence

import numpy as np

from mastlayout.checks.holes import cut_out, hole_id
from mastlayout.checks.rule import NEAR_MM, Batch
from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole, height_mm
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.fitting import OldHole
from mastlayout.model.measure import Measure, measure_of
from mastlayout.once import once


@dataclass(frozen=True, eq=False)
class Known:
    """Holes that stand against others: where on the developed skin, and their diameters, nan if not known.

    Arrays (m,); ``unknown`` names for each the measure that is missing, ``old`` tells
    which belong to no fitting.
    """

    ids: tuple[str, ...]
    z_mm: Array
    girth_mm: Array
    diameter_mm: Array
    unknown: tuple[Measure | None, ...]
    old: Mask

    def between(self, low_mm: float, high_mm: float) -> "Known":
        """Return those between two heights whose girth is known."""
        kept = np.flatnonzero((self.z_mm > low_mm) & (self.z_mm < high_mm) & ~np.isnan(self.girth_mm))
        return Known(
            tuple(self.ids[i] for i in kept),
            self.z_mm[kept],
            self.girth_mm[kept],
            self.diameter_mm[kept],
            tuple(self.unknown[i] for i in kept),
            self.old[kept],
        )


@dataclass(frozen=True, eq=False)
class Pairs:
    """p pairs of a place (p,) and another hole (p,), and how far (p, h) each opening is from it there."""

    place: Whole
    other: Whole
    apart: Array


def pairs_near(skin: Skin, holes: Drilled, others: Known, reach_mm: Array) -> Pairs:
    """Measure along the skin from openings to others, where any stands within reach (m,) along the mast."""
    levels = holes.levels
    z = holes.z_mm[levels.rows]
    low, high = z.min(axis=1, initial=np.inf), z.max(axis=1, initial=-np.inf)
    near = (others.z_mm - reach_mm < high[:, None]) & (others.z_mm + reach_mm > low[:, None])
    rows = np.flatnonzero(near.any(axis=1)[levels.which])
    row, other = np.nonzero(near[levels.which[rows]])
    place = rows[row]
    z = holes.z_mm[place]
    across = round_skin(holes.girth_mm[place] - others.girth_mm[other, None], skin.half_girth(z))
    return Pairs(place, other, np.hypot(across, z - others.z_mm[other, None]))


def taken(pairs: Pairs, own: Array, others: Known, limits: Limits) -> Mask:
    """Tell which old holes (p, h) drills ``own`` (h,) take: on the same middle, or cut away whole.

    Others than old holes are fittings' own and are never taken.
    """
    diameter = others.diameter_mm[pairs.other, None]
    same = pairs.apart <= limits["hole.reuse"].value
    whole = pairs.apart + diameter / 2 <= own / 2
    return np.asarray((same | whole) & others.old[pairs.other, None] & ~np.isnan(diameter))


def larger(one: Array, other: Array) -> Array:
    """Return the larger of two diameters; one that is not known counts as none."""
    return np.asarray(np.maximum(np.nan_to_num(one), np.nan_to_num(other)))


def round_skin(difference: Array, half: float | Array) -> Array:
    """Bring differences of girth to the shorter way round, by half the girth there."""
    round_mm = 2 * half
    return np.asarray(difference - round_mm * np.rint(difference / round_mm))


def others_near(scene: Scene, placed: Placed, batch: Batch) -> Known:
    """Return the known holes of other fittings, and old ones, within reach of any place of a batch."""
    heights = batch.holes.z_mm if batch.holes else batch.places.along_mm
    low, high = float(heights.min()) - NEAR_MM, float(heights.max()) + NEAR_MM
    found = [
        _holes_of(other)
        for other in scene.placed.values()
        if other.span_z_mm[0] < high
        and other.span_z_mm[1] > low
        and other.id != placed.id
        and other.holes is not None
        and other.foot_known
    ]
    return _joined([*found, old_holes(scene)]).between(low, high)


def old_holes(scene: Scene) -> Known:
    """Return the holes that are there and belong to no fitting."""
    skin, old = scene.skin, scene.layout.holes
    z = [height_mm(skin.length_mm, hole.from_masthead_mm) for hole in old]
    return Known(
        tuple(hole.id for hole in old),
        np.array(z),
        np.array([skin.girth_of(hole.girth, at) for hole, at in zip(old, z, strict=True)]),
        np.array([np.nan if hole.diameter_mm is None else hole.diameter_mm for hole in old]),
        tuple(measure_of(OldHole, "diameter_mm") if hole.diameter_mm is None else None for hole in old),
        np.ones(len(old), dtype=bool),
    )


@once  # a drag asks for its neighbours' with every move
def _holes_of(other: Placed) -> Known:
    """Return the holes of a fitting as it is placed."""
    if other.holes is None:
        return _joined(())
    drilled = np.flatnonzero(~cut_out(other.holes))
    openings = [other.holes.openings[i] for i in drilled]
    sizes = [drill_mm(opening) for opening in openings]
    return Known(
        tuple(hole_id(other, opening.number) for opening in openings),
        other.holes.z_mm[0, drilled],
        other.holes.girth_mm[0, drilled],
        np.array([np.nan if size is None else size for size in sizes]),
        (None,) * len(sizes),
        np.zeros(len(sizes), dtype=bool),
    )


def _joined(parts: Sequence[Known]) -> Known:
    return Known(
        tuple(name for part in parts for name in part.ids),
        np.concatenate([np.empty(0), *(part.z_mm for part in parts)]),
        np.concatenate([np.empty(0), *(part.girth_mm for part in parts)]),
        np.concatenate([np.empty(0), *(part.diameter_mm for part in parts)]),
        tuple(measure for part in parts for measure in part.unknown),
        np.concatenate([np.empty(0, dtype=bool), *(part.old for part in parts)]),
    )
