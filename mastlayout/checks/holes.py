"""Holes against holes and against the edge of their foot, along the skin.

Only what will be drilled is asked: the openings of new fittings. What is there already stands
against them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from weakref import WeakKeyDictionary

import numpy as np

from mastlayout.checks.rule import NEAR_MM, Batch, Depends, Margins, Rule, no_margins
from mastlayout.fastening.drill import drill_mm
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.holes import Opening
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.fitting import IN_HAND, OldHole
from mastlayout.model.kind import Foot
from mastlayout.model.measure import Measure, measure_of


@dataclass(frozen=True, eq=False)
class Known:
    """Holes that stand against others: where on the developed skin, and their diameters, nan if not known.

    Arrays (m,); ``unknown`` names for each the measure that is missing.
    """

    ids: tuple[str, ...]
    z_mm: Array
    girth_mm: Array
    diameter_mm: Array
    unknown: tuple[Measure | None, ...]

    def between(self, low_mm: float, high_mm: float) -> "Known":
        """Return those between two heights whose girth is known."""
        kept = np.flatnonzero((self.z_mm > low_mm) & (self.z_mm < high_mm) & ~np.isnan(self.girth_mm))
        return Known(
            tuple(self.ids[i] for i in kept),
            self.z_mm[kept],
            self.girth_mm[kept],
            self.diameter_mm[kept],
            tuple(self.unknown[i] for i in kept),
        )


# The holes of a fitting as it is placed, read off once: a drag asks for its neighbours' with every move.
_PLACED: WeakKeyDictionary[Placed, Known] = WeakKeyDictionary()


def hole_id(placed: Placed, number: int) -> str:
    """Return the id of an opening: ``hailer-1/h2``."""
    return f"{placed.id}/h{number}"


def will_be_drilled(placed: Placed) -> bool:
    """Tell whether the fitting's holes are still to be made: a new one, on the mast."""
    return placed.fitting.new and placed.skin is not None and placed.holes is not None


def diameters(batch: Batch) -> Array:
    """Return the drills (h,) of a batch's openings, nan where no table has one."""
    if batch.holes is None:
        return np.empty(0)
    sizes = [drill_mm(opening) for opening in batch.holes.openings]
    return np.array([np.nan if size is None else size for size in sizes])


def spacing(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole to its own neighbours, to the holes of others and to old holes, centre to centre."""
    placed, holes = batch.placed, batch.holes
    if not will_be_drilled(placed) or holes is None or placed.skin is None:
        return no_margins(len(batch.places))
    own = diameters(batch)
    others = _others(scene, placed, batch)
    blocks = [_own_pairs(batch, own, limits), _against(placed.skin, batch, own, others, limits)]
    return _assembled(blocks, len(batch.places), typical=not placed.foot_known)


@dataclass(frozen=True, eq=False)
class _Block:
    """Margins side by side: k subjects, measured (n, k), required (k,), points (n, k, 3)."""

    subjects: tuple[tuple[str, ...], ...]
    measured: Array
    required: Array
    point: Array
    unknown: tuple[Measure | None, ...]


def _ids(batch: Batch) -> list[str]:
    return [
        hole_id(batch.placed, opening.number) for opening in (batch.holes.openings if batch.holes else ())
    ]


def _own_pairs(batch: Batch, own: Array, limits: Limits) -> _Block | None:
    holes, skin = batch.holes, batch.placed.skin
    if holes is None or skin is None or len(holes) < 2:
        return None
    i, j = np.triu_indices(len(holes), 1)
    across = _round(holes.girth_mm[:, i] - holes.girth_mm[:, j], skin.full.half_girth_mm)
    apart = np.hypot(across, holes.z_mm[:, i] - holes.z_mm[:, j])
    required = limits["hole.spacing"].value * _larger(own[i], own[j])
    ids = _ids(batch)
    names = tuple((ids[a], ids[b]) for a, b in zip(i.tolist(), j.tolist(), strict=True))
    return _Block(names, apart, required, holes.point[:, i], (None,) * len(i))


def _against(skin: Skin, batch: Batch, own: Array, others: Known, limits: Limits) -> _Block | None:
    holes, m = batch.holes, len(others.ids)
    if holes is None or not len(holes) or not m:
        return None
    across = _round(holes.girth_mm[:, :, None] - others.girth_mm, skin.full.half_girth_mm)
    apart = np.hypot(across, holes.z_mm[:, :, None] - others.z_mm).reshape(len(holes.z_mm), -1)
    required = limits["hole.spacing"].value * _larger(own[:, None], others.diameter_mm).ravel()
    names = tuple((own_id, other) for own_id in _ids(batch) for other in others.ids)
    # A hole whose size nobody took is in the way only where some size would be.
    unknown = others.unknown * len(holes)
    sizeless = np.array([measure is not None for measure in unknown], dtype=bool)
    apart = np.where(sizeless & ~(apart < NEAR_MM / 3), np.inf, apart)
    return _Block(names, apart, required, np.repeat(holes.point, m, axis=1), unknown)


def _larger(one: Array, other: Array) -> Array:
    """Return the larger of two diameters; one that is not known counts as none."""
    return np.asarray(np.maximum(np.nan_to_num(one), np.nan_to_num(other)))


def _round(difference: Array, half: float) -> Array:
    return np.asarray((difference + half) % (2 * half) - half)


def _others(scene: Scene, placed: Placed, batch: Batch) -> Known:
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
    return _joined([*found, _old_holes(scene)]).between(low, high)


def _old_holes(scene: Scene) -> Known:
    skin, old = scene.skin, scene.layout.holes
    z = [height_mm(skin.length_mm, hole.from_masthead_mm) for hole in old]
    return Known(
        tuple(hole.id for hole in old),
        np.array(z),
        np.array([skin.girth_of(hole.girth, at) for hole, at in zip(old, z, strict=True)]),
        np.array([np.nan if hole.diameter_mm is None else hole.diameter_mm for hole in old]),
        tuple(measure_of(OldHole, "diameter_mm") if hole.diameter_mm is None else None for hole in old),
    )


def _holes_of(other: Placed) -> Known:
    known = _PLACED.get(other)
    if known is None and other.holes is not None:
        sizes = [drill_mm(opening) for opening in other.holes.openings]
        known = _PLACED[other] = Known(
            tuple(hole_id(other, opening.number) for opening in other.holes.openings),
            other.holes.z_mm[0],
            other.holes.girth_mm[0],
            np.array([np.nan if size is None else size for size in sizes]),
            (None,) * len(sizes),
        )
    return known or _joined(())


def _joined(parts: Sequence[Known]) -> Known:
    return Known(
        tuple(name for part in parts for name in part.ids),
        np.concatenate([np.empty(0), *(part.z_mm for part in parts)]),
        np.concatenate([np.empty(0), *(part.girth_mm for part in parts)]),
        np.concatenate([np.empty(0), *(part.diameter_mm for part in parts)]),
        tuple(measure for part in parts for measure in part.unknown),
    )


def _assembled(blocks: Sequence[_Block | None], places: int, *, typical: bool) -> Margins:
    found = [block for block in blocks if block is not None]
    if not found:
        return no_margins(places)
    required = np.concatenate([block.required for block in found])
    return Margins(
        tuple(subjects for block in found for subjects in block.subjects),
        np.concatenate([block.measured for block in found], axis=1),
        np.broadcast_to(required, (places, len(required))),
        np.concatenate([block.point for block in found], axis=1),
        tuple(measure for block in found for measure in block.unknown),
        typical,
    )


def foot_edge(_scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's centre to the edge of its own foot; a cable entry may stand outside it."""
    placed, holes, foot = batch.placed, batch.holes, batch.placed.foot
    if not will_be_drilled(placed) or holes is None or foot is None:
        return no_margins(len(batch.places))
    own, places = diameters(batch), len(batch.places)
    asked = [i for i, o in enumerate(holes.openings) if o.use == "hole" and not np.isnan(own[i])]
    inside = [_inside(holes.openings[i], foot) for i in asked]
    block = _Block(
        tuple((hole_id(placed, holes.openings[i].number),) for i in asked),
        np.broadcast_to(np.array(inside), (places, len(asked))),
        limits["hole.edge"].value * own[asked],
        holes.point[:, asked],
        (None,) * len(asked),
    )
    return _assembled([block] if asked else [], places, typical=not placed.foot_known)


def _inside(opening: Opening, foot: Foot) -> float:
    """Return how far a hole's centre lies inside its foot's nearest edge."""
    return min(
        foot.across_mm / 2 - abs(opening.across_mm - foot.centre_across_mm),
        foot.along_mm / 2 - abs(opening.along_mm - foot.centre_along_mm),
    )


def foot_in_hand(_scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Say "not checked" of a new fitting whose foot nobody has confirmed from the part in hand."""
    places = len(batch.places)
    if not will_be_drilled(batch.placed) or batch.placed.foot_known:
        return no_margins(places)
    nothing = np.full((places, 1), np.nan)
    return Margins(((batch.placed.id,),), nothing, nothing, batch.seats.origin[:, None, :], (IN_HAND,))


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "limits"})
SPACING = Rule("hole/spacing", "hole.spacing", _DEPENDS, spacing, pairs=True)
FOOT_EDGE = Rule("hole/foot-edge", "hole.edge", _DEPENDS, foot_edge)
FOOT_IN_HAND = Rule("hole/foot-typical", None, _DEPENDS, foot_in_hand)
