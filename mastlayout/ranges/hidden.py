"""What stands before the lights and antennas of a layout, at their places or at others."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.arcs import (
    Obstacles,
    Shadows,
    Sources,
    hull_shadows,
    obstacles_of,
    shadows,
    turned_upright,
)
from mastlayout.geometry.frames import mast_to_boat
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids
from mastlayout.model.fitting import MAST

# The outline of the mast is asked by so many of its points.
_CORNERS = 36
# Rays of a band lie no farther apart than this.
_STEP_DEG = 5.0


@dataclass(frozen=True, eq=False)
class Cast:
    """What things hide of one source: shadows, whose owners are numbered among ``ids``."""

    ids: tuple[str, ...]
    found: Shadows


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
    rake = scene.layout.mast.rake_deg or 0.0
    angles = np.linspace(-band_deg, band_deg, 2 * math.ceil(band_deg / _STEP_DEG) + 1)
    # the level one first: of rays that are covered alike it speaks
    angles = angles[np.argsort(np.abs(angles), kind="stable")]
    source = _source(placed, solids, parts, rake)
    things = _things(scene, apart | {placed.id}, 2 * source.half_width_mm * dims, rake)
    found = [(own.ids, shadows(source, own, dims, angles)) for own in things]
    square = source if not rake else _source(placed, solids, parts, 0.0)
    found.append(((MAST,), _behind_mast(scene, square, dims)))
    return _joined(found)


def _source(placed: Placed, solids: Solids, parts: Sequence[int], rake_deg: float) -> Sources:
    """Stand a lens or antenna upright at its places; it is as wide as its widest part."""
    each = len(placed.body.solids)
    start = np.arange(len(solids) // each) * each
    first = turned_upright(solids[np.asarray(parts)], rake_deg)
    low, high = first.span_z()
    middle = mast_to_boat(
        np.mean([solids.ends[start + part].mean(axis=1) for part in parts], axis=0), rake_deg
    )
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
    points = scene.skin.ring(z_mm).polygon()
    angle = np.linspace(0.0, 2 * np.pi, _CORNERS, endpoint=False)
    outline = points[(points @ np.stack([np.cos(angle), np.sin(angle)])).argmax(axis=0)]
    return hull_shadows(source, outline, 0.0, scene.skin.length_mm, dims)


def _joined(parts: Sequence[tuple[tuple[str, ...], Shadows]]) -> Cast:
    ids = tuple(name for own, _found in parts for name in own)
    start = np.cumsum([0, *(len(own) for own, _found in parts)])
    each = [found for _own, found in parts]
    owner = np.concatenate([found.owner + start[i] for i, found in enumerate(each)])
    rest = ("share", "dark", "dim", "edge", "ray")
    joined = [np.concatenate([getattr(found, name) for found in each]) for name in rest]
    return Cast(ids, Shadows(np.concatenate([found.place for found in each]), owner, *joined))
