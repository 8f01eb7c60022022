"""What stands before the lights and antennas of a layout, at their places or at others."""

import math
from collections.abc import Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.arcs import Shadows, Sources, hull_shadows, shadows
from mastlayout.geometry.frames import Array, mast_to_boat
from mastlayout.geometry.obstacles import Obstacles, obstacles_of, turned_upright
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Ring
from mastlayout.geometry.solids import Solids
from mastlayout.model.fitting import MAST
from mastlayout.once import once

# The outline of the mast is asked by so many of its points.
_CORNERS = 36
# Rays of a band lie no farther apart than this.
_STEP_DEG = 5.0


@dataclass(frozen=True, eq=False)
class Cast:
    """What things hide of a source so wide: shadows, whose owners are numbered among ``ids``."""

    ids: tuple[str, ...]
    found: Shadows
    wide_mm: float


def cast(
    scene: Scene,
    placed: Placed,
    solids: Solids,
    parts: Sequence[int],
    dims: float,
    band_deg: float,
    apart: frozenset[str] = frozenset(),
) -> Cast:
    """Return what hides some parts of a fitting at n places, its solids there (n * each).

    Rays go level and, where ``band_deg`` is not 0, in steps so far above and below it. The fitting's own
    parts are left out, and what else is set ``apart``. Where nobody knows the rake, level is square to
    the mast.
    """
    rake, angles = scene.layout.mast.rake_deg or 0.0, _rays_deg(band_deg)
    middle = middles(placed, solids, parts)
    source = _source(middle, solids[np.asarray(parts)], rake)
    least = 2 * source.half_width_mm * dims
    things = _things(scene, apart | {placed.id}, least, rake)
    found = [(own.ids, shadows(source, own, dims, angles)) for own in things]
    square = source if not rake else _source(middle, solids[np.asarray(parts)], 0.0)
    found.append(((MAST,), _behind_mast(scene, square, dims)))
    return _joined(found, 2 * source.half_width_mm)


def reached(
    scene: Scene, batch: tuple[Placed, Solids], parts: Sequence[int], band_deg: float, only: frozenset[str]
) -> Cast:
    """Return where the rays of a source, a fitting with its solids at n places, reach some fittings alone."""
    placed, solids = batch
    rake = scene.layout.mast.rake_deg or 0.0
    source = _source(middles(placed, solids, parts), solids[np.asarray(parts)], rake)
    apart = frozenset(scene.gear.ids) - only | {placed.id}
    own = obstacles_of(scene.gear, rake, 0.0, apart)
    return Cast(own.ids, shadows(source, own, 0.0, _rays_deg(band_deg)), 2 * source.half_width_mm)


def _rays_deg(band_deg: float) -> Array:
    """Return the elevations of the rays of a band, the level one first: of those covered alike it speaks."""
    angles = np.linspace(-band_deg, band_deg, 2 * math.ceil(band_deg / _STEP_DEG) + 1)
    return angles[np.argsort(np.abs(angles), kind="stable")]


def middles(placed: Placed, solids: Solids, parts: Sequence[int]) -> Array:
    """Return the middle (n, 3) of some parts of a fitting at n places, its solids there (n * each)."""
    each = len(placed.body.solids)
    ends = solids.ends.reshape(-1, each, 2, 3)
    return np.asarray(sum(ends[:, part, 0] + ends[:, part, 1] for part in parts)) / (2 * len(parts))


def _source(middle: Array, parts: Solids, rake_deg: float) -> Sources:
    """Stand a lens or antenna, its parts at the first place, upright at all; it is as wide as its widest."""
    first = turned_upright(parts, rake_deg)
    low, high = first.span_z()
    middle = mast_to_boat(middle, rake_deg)
    # A fitting stands alike wherever it is put: how high its middle lies among its parts is asked once.
    middle[:, 2] += (low.min() + high.max()) / 2 - middle[0, 2]
    spans = np.abs(first.spans[..., :2]).sum(axis=2).max(axis=(1, 2))
    wide = float((first.radius.max(axis=1) + first.round_mm + spans).max())
    return Sources(middle, wide, float(high.max() - low.min()) / 2)


def _things(scene: Scene, apart: frozenset[str], least_mm: float, rake_deg: float) -> list[Obstacles]:
    crowds = (scene.gear, scene.bars, scene.wires)
    return [obstacles_of(crowd, rake_deg, least_mm, apart) for crowd in crowds if len(crowd.solids)]


def _behind_mast(scene: Scene, source: Sources, dims: float) -> Shadows:
    """Return what the mast hides, asked square to it: leaning with the light it hides no other bearings."""
    # Below a taper the mast is widest: the lowest of the places stands for all of them.
    z_mm = float(np.clip(source.middle[:, 2].min(), 0.0, scene.skin.length_mm))
    outline = _corners(scene.skin.ring(z_mm))
    return hull_shadows(source, outline, 0.0, scene.skin.length_mm, dims)


@once
def _corners(ring: Ring) -> Array:
    """Return the outline (36, 2) of a ring by its farthest points; below a taper all heights have one."""
    points, angle = ring.polygon(), np.linspace(0.0, 2 * np.pi, _CORNERS, endpoint=False)
    reach = points[:, :1] * np.cos(angle) + points[:, 1:] * np.sin(angle)
    return np.asarray(points[reach.argmax(axis=0)])


def _joined(parts: Sequence[tuple[tuple[str, ...], Shadows]], wide_mm: float) -> Cast:
    ids = tuple(name for own, _found in parts for name in own)
    start = np.cumsum([0, *(len(own) for own, _found in parts)])
    each = [found for _own, found in parts]
    owner = np.concatenate([found.owner + start[i] for i, found in enumerate(each)])
    rest = ("share", "dark", "dim", "edge", "ray", "away_mm")
    joined = [np.concatenate([getattr(found, name) for found in each]) for name in rest]
    return Cast(ids, Shadows(np.concatenate([found.place for found in each]), owner, *joined), wide_mm)
