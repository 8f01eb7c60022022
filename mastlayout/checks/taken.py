"""What openings take of the mast at the levels of a fitting's holes, at many places: its own and those near.

Its own take the same wherever it sees the same outline from the same side, so that is worked out
once for each side; others are asked only where they may count.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.neighbours import round_skin
from mastlayout.checks.openings import Widths, size_of
from mastlayout.checks.rule import Batch
from mastlayout.fastening.loss import counted_mm, harmless_mm, left_of, moments, properties_at, section_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin

# Places within so much height are worked out together, against what stands near them.
_BAND_MM = 200.0
# How finely the mast is looked along for what others may take at a level.
_GRID_MM = 5.0


@dataclass(frozen=True, eq=False)
class Own:
    """A fitting's own openings at n places, in each of its t turns: the widest level counts (t,) mm.

    ``sizes`` (t, h, 2) are width round the girth and half the straight length, ``turn`` (n,) which turn.
    """

    holes: Drilled
    sizes: Array
    turn: Whole
    widest_mm: Array

    @property
    def longest_mm(self) -> float:
        """Half the length of the longest opening, where that is straight."""
        return float(self.sizes[..., 1].max(initial=0.0))


def own_widths(batch: Batch) -> Own:
    """Return a fitting's own openings as they are turned, each turn worked out once."""
    holes, skin = batch.holes, batch.placed.skin
    if holes is None or skin is None:
        raise ValueError(batch.placed.id)
    turns, first, which = np.unique(batch.places.turn_deg, return_index=True, return_inverse=True)
    found = [[size_of(opening, float(turn)) for opening in holes.openings] for turn in turns]
    sizes = np.nan_to_num(np.array(found))
    # Of a flat foot, or in a taper, holes stand otherwise round the skin from place to place.
    shaped = skin.taper is None and batch.placed.foot is not None and batch.placed.foot.seat == "shaped"
    widest = np.empty(len(turns))
    for i, row in enumerate(first.tolist()):
        z, girth, half = holes.z_mm[row], holes.girth_mm[row], skin.full.half_girth_mm
        step = np.maximum(np.abs(z[:, None] - z) - sizes[i, :, 1] - sizes[i, :, 1][:, None], 0.0)
        apart = np.abs(round_skin(girth[:, None] - girth, half)) if shaped else np.full(step.shape, half)
        counted = counted_mm(sizes[i, :, 0], step, apart)
        np.fill_diagonal(counted, sizes[i, :, 0])
        widest[i] = counted.sum(axis=1).max()
    return Own(holes, sizes, which, widest)


def least_left(scene: Scene, own: Own, others: Widths, wall_mm: float, least: float) -> Array:
    """Return what is left (n, 2) of girth and smaller modulus at the worst of a fitting's levels, %.

    inf where surely at least ``least`` is.
    """
    holes, skin = own.holes, scene.skin
    others = others.between(
        float(holes.z_mm.min()) - own.longest_mm, float(holes.z_mm.max()) + own.longest_mm, skin
    )
    most = _most_counted(skin, own, others)
    ends = (0.0, skin.length_mm) if skin.taper else (0.0,)
    harmless = min(harmless_mm(*properties_at(skin, z, wall_mm), wall_mm, least) for z in ends)
    measured = np.full((len(holes.z_mm), 2), np.inf)
    doubtful = np.flatnonzero(own.widest_mm[own.turn] + most > harmless)
    for section, rows in _together(skin, own, doubtful, most):
        near = others if most[rows[0]] > 0.0 else others.kept(np.zeros(len(others.z_mm), dtype=bool))
        measured[rows] = _left(skin, own, near, section, rows, wall_mm)
    return measured


def _most_counted(skin: Skin, own: Own, others: Widths) -> Array:
    """Return for each place (n,) the most that others can count for at any of its levels, at any girth."""
    z, half = own.holes.z_mm[own.holes.levels.rows], skin.full.half_girth_mm
    # Only where there is a level: places at both ends of a mast ask nothing of what stands between.
    steps, at = np.unique(np.floor(z / _GRID_MM), return_inverse=True)
    middle = (steps + 0.5) * _GRID_MM
    step = np.abs(middle[:, None] - others.z_mm) - others.half_length_mm - own.longest_mm - _GRID_MM / 2
    level = counted_mm(others.width_mm, np.maximum(step, 0.0), half).sum(axis=1)
    return np.asarray(level[at.reshape(z.shape)].max(axis=1)[own.holes.levels.which])


def _together(skin: Skin, own: Own, rows: Whole, most: Array) -> Iterator[tuple[float, Whole]]:
    """Yield rows of one section with its height: those nothing stands near, and bands of the others."""
    middle = own.holes.z_mm[own.holes.levels.rows].mean(axis=1)[own.holes.levels.which[rows]]
    section = section_mm(skin, middle)
    band = np.where(most[rows] > 0.0, np.floor(middle / _BAND_MM), -1.0)
    order = np.lexsort((band, section))
    cuts = np.flatnonzero((np.diff(section[order]) != 0.0) | (np.diff(band[order]) != 0.0)) + 1
    yield from ((float(section[part[0]]), rows[part]) for part in np.split(order, cuts) if len(part))


def _left(skin: Skin, own: Own, others: Widths, section: float, rows: Whole, wall_mm: float) -> Array:
    """Return what is left (r, 2) at some places of one section: of the girth, and of the smaller modulus."""
    holes = own.holes
    _sides, first, side = np.unique(holes.sides.which[rows], return_index=True, return_inverse=True)
    width, sums = _of_own(skin, own, rows[first], wall_mm)
    z = holes.z_mm[rows]
    others = others.between(float(z.min()) - own.longest_mm, float(z.max()) + own.longest_mm, skin)
    if len(others.z_mm):
        theirs = _counted(skin, own, others, rows, rows[first], side)
        of_others = moments(skin, others.z_mm, others.girth_mm, others.width_mm, wall_mm)
        width, sums = width[side] + theirs.sum(axis=-1), sums[side] + theirs @ of_others
    found = left_of(*properties_at(skin, section, wall_mm), width, sums, wall_mm)
    left = np.stack([found.girth.min(axis=1), found.least_modulus.min(axis=1)], axis=-1)
    return left if len(others.z_mm) else left[side]


def _of_own(skin: Skin, own: Own, rows: Whole, wall_mm: float) -> tuple[Array, Array]:
    """Return what a fitting's own openings count for at each of its levels (u, h), and moments (u, h, 5)."""
    z, girth, sizes = own.holes.z_mm[rows], np.nan_to_num(own.holes.girth_mm[rows]), own.sizes[own.turn[rows]]
    width, half = sizes[..., 0], sizes[..., 1]
    step = np.maximum(np.abs(z[:, None] - z[:, :, None]) - half[:, None] - half[:, :, None], 0.0)
    apart = np.abs(round_skin(girth[:, None] - girth[:, :, None], skin.half_girth(z)[:, :, None]))
    counted = counted_mm(width[:, None], step, apart)
    level = np.arange(counted.shape[1])
    counted[:, level, level] = width
    return counted.sum(axis=-1), counted @ moments(skin, z, girth, width, wall_mm)


def _counted(skin: Skin, own: Own, others: Widths, rows: Whole, first: Whole, side: Whole) -> Array:
    """Return what counts of others at each level of a fitting's holes: (r, h, m).

    How far others stand along the mast is alike on one level, how far round it on one ``side``: places
    ``first`` (u,) stand for them.
    """
    _levels, lowest, level = np.unique(own.holes.levels.which[rows], return_index=True, return_inverse=True)
    at = rows[lowest]
    along = np.abs(own.holes.z_mm[at][..., None] - others.z_mm) - others.half_length_mm
    step = np.maximum(along - own.sizes[own.turn[at], :, 1][..., None], 0.0)
    girth, half = np.nan_to_num(own.holes.girth_mm[first]), skin.half_girth(own.holes.z_mm[first])
    apart = np.abs(round_skin(girth[..., None] - others.girth_mm, half[..., None]))
    return counted_mm(others.width_mm, step[level], apart[side])
