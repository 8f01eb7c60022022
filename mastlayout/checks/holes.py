"""A foot's holes: which will be drilled, how wide, how far from the foot's edge, and whether it is in hand.

Only what will be drilled is asked: the openings of new fittings. What is there already stands
against them.
"""

from collections.abc import Sequence

import numpy as np

from mastlayout.checks.rule import TOLERANCE_MM, Batch, Depends, Margins, Rule, no_margins
from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.holes import Drilled, Opening
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import IN_HAND
from mastlayout.model.kind import Foot
from mastlayout.model.measure import Measure


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


def cut_out(holes: Drilled) -> Mask:
    """Tell which openings (h,) are cut-outs: those are measured from their edges, not their middles."""
    return np.array([opening.use == "cutout" for opening in holes.openings], dtype=bool)


@dataclass(frozen=True, eq=False)
class Block:
    """Margins side by side: k subjects, measured (n, k), required (k,), the opening (k,) each is about.

    With ``rows`` (r,) measured is (r, k), of those places alone: elsewhere the subjects are too far.
    With ``which`` (n,) it is (u, k), of places that stand for all those like them.
    """

    subjects: tuple[tuple[str, ...], ...]
    measured: Array
    required: Array
    opening: Whole
    unknown: tuple[Measure | None, ...]
    rows: Whole | None = None
    which: Whole | None = None


def table_of(place: Whole, column: Whole, measured: Array) -> tuple[Whole, Whole, Array]:
    """Return p figures as a table (r, k) with the places (r,) and the columns (k,) it has; else inf."""
    rows, row = np.unique(place, return_inverse=True)
    columns, at = np.unique(column, return_inverse=True)
    table = np.full((len(rows), len(columns)), np.inf)
    table[row, at] = measured
    return rows, columns, table


def hole_ids(batch: Batch) -> list[str]:
    """Return the ids of a batch's openings."""
    return [
        hole_id(batch.placed, opening.number) for opening in (batch.holes.openings if batch.holes else ())
    ]


def assembled(blocks: Sequence[Block | None], batch: Batch) -> Margins:
    """Return blocks as one, without what is said of at no place: so many places stay cheap."""
    found = [block for block in blocks if block is not None]
    if not found or batch.holes is None:
        return no_margins(len(batch.places))
    said = [_said(block) for block in found]
    opening = np.concatenate([block.opening[kept] for block, kept in zip(found, said, strict=True)])
    required = np.concatenate([block.required[kept] for block, kept in zip(found, said, strict=True)])
    parts = [(block, kept.tolist()) for block, kept in zip(found, said, strict=True)]
    return Margins(
        tuple(block.subjects[i] for block, kept in parts for i in kept),
        np.concatenate([_everywhere(block, kept, len(batch.places)) for block, kept in parts], axis=1),
        np.broadcast_to(required, (len(batch.places), len(required))),
        batch.holes.point[:, opening],
        tuple(block.unknown[i] for block, kept in parts for i in kept),
        typical=not batch.placed.foot_known,
    )


def _everywhere(block: Block, kept: list[int], places: int) -> Array:
    """Return what a block measured of some subjects at all n places."""
    if block.which is not None:
        return block.measured[:, kept][block.which]
    if block.rows is None:
        return block.measured[:, kept]
    measured = np.full((places, len(kept)), np.inf)
    measured[block.rows] = block.measured[:, kept]
    return measured


def _said(block: Block) -> Whole:
    """Return which of a block's subjects are too near, or not known, at any of its places."""
    short = (block.measured < block.required - TOLERANCE_MM).any(axis=0)
    lacking = np.array([measure is not None for measure in block.unknown], dtype=bool)
    return np.flatnonzero(short | (lacking & ~np.isposinf(block.measured).all(axis=0)))


def foot_edge(_scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's centre to the edge of its own foot; a cable entry may stand outside it."""
    placed, holes, foot = batch.placed, batch.holes, batch.placed.foot
    if not will_be_drilled(placed) or holes is None or foot is None:
        return no_margins(len(batch.places))
    own, places = diameters(batch), len(batch.places)
    asked = [i for i, o in enumerate(holes.openings) if o.use == "hole" and not np.isnan(own[i])]
    inside = [_inside(holes.openings[i], foot) for i in asked]
    block = Block(
        tuple((hole_id(placed, holes.openings[i].number),) for i in asked),
        np.broadcast_to(np.array(inside).reshape(1, -1), (places, len(asked))),
        limits["hole.edge"].value * own[asked],
        np.array(asked, dtype=np.intp),
        (None,) * len(asked),
    )
    return assembled([block], batch)


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
FOOT_EDGE = Rule("hole/foot-edge", "hole.edge", _DEPENDS, foot_edge, hint="edge")
FOOT_IN_HAND = Rule("hole/foot-typical", None, _DEPENDS, foot_in_hand)
