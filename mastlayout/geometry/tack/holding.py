"""What holds cloth on a tack, cut at heights: the mast, spreaders, struts, guards, and wires tight on both tacks."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.directions import COUNT, DIRECTIONS
from mastlayout.model.fitting import MAST

# Fixed at both ends and tight on both tacks; the sail's own stay and what lies ahead of it hold nothing.
_TIGHT = ("cap", "intermediate", "lower", "diamond", "jumper", "backstay")
_TAPER_STEP_MM = 25.0


@dataclass(frozen=True, eq=False)
class Holding:
    """Supports at m heights: ``support`` (m, s, COUNT), nan where a slot is empty; the mast is the first.

    ``ids`` names what is in the slots (m, s) by its index in ``names``, -1 for none.
    """

    names: tuple[str, ...]
    ids: Array
    support: Array


def holding(scene: Scene, z_mm: Array, bend: Bend) -> Holding:
    """Cut everything that holds cloth at heights (m,)."""
    parts = [
        (MAST, _mast(scene, z_mm)),
        *_wires(scene, z_mm, bend),
        *_bars(scene, z_mm),
        *_guards(scene, z_mm),
    ]
    there = np.stack([~np.isnan(support).any(axis=1) for _name, support in parts], axis=1)
    order = np.argsort(~there, axis=1, kind="stable")[:, : int(there.sum(axis=1).max(initial=1))]
    every = np.stack([support for _name, support in parts], axis=1)
    support = np.take_along_axis(every, order[:, :, None], axis=1)
    ids = np.where(np.take_along_axis(there, order, axis=1), order, -1)
    return Holding(tuple(name for name, _support in parts), ids, support)


def _mast(scene: Scene, z_mm: Array) -> Array:
    """Return the skin's support; in a taper that of the ring next above, which is the smaller."""
    rings = np.ceil(z_mm / _TAPER_STEP_MM) * _TAPER_STEP_MM
    found = np.full((len(z_mm), COUNT), np.nan)
    known: dict[int, Array] = {}
    for z in np.unique(rings):
        ring = scene.skin.ring(float(min(z, scene.skin.length_mm)))
        if id(ring) not in known:
            known[id(ring)] = (DIRECTIONS @ ring.polygon().T).max(axis=1)
        found[(rings == z) & (z_mm >= 0) & (z_mm <= scene.skin.length_mm)] = known[id(ring)]
    return found


def _wires(scene: Scene, z_mm: Array, bend: Bend) -> Iterator[tuple[str, Array]]:
    for name, stay in scene.stays.items():
        if stay.item.role in _TIGHT and not stay.item.removable and stay.points is not None:
            yield name, _wire(stay, z_mm, bend)


def _wire(stay: StayInSpace, z_mm: Array, bend: Bend) -> Array:
    """Return a wire's support: at least a circle of its own thickness, however it leans."""
    points = np.asarray(stay.points)[::-1].copy()
    forward = bend.at(points[:, 2])
    forward[0] = forward[0] if stay.item.ends_on_mast else 0.0
    points[:, 0] += forward
    x, y = (np.interp(z_mm, points[:, 2], points[:, k], np.nan, np.nan) for k in (0, 1))
    middle = np.stack([x - bend.at(z_mm), y], axis=1)
    return np.asarray(middle @ DIRECTIONS.T + (stay.item.wire_mm or 0.0) / 2)


def _bars(scene: Scene, z_mm: Array) -> Iterator[tuple[str, Array]]:
    for name, bar in scene.spreaders.items():
        yield from ((name, cut) for cut in _cuts(bar.solids, z_mm))


def _guards(scene: Scene, z_mm: Array) -> Iterator[tuple[str, Array]]:
    for name, placed in scene.placed.items():
        if placed.kind.guards:
            tubes = placed.solids[np.array([part == "guard" for part in placed.body.parts])]
            yield from ((name, cut) for cut in _cuts(tubes, z_mm))


def _cuts(solids: Solids, z_mm: Array) -> Iterator[Array]:
    """Yield the support (m, COUNT) of each solid; the search runs only over the heights it reaches."""
    for i in range(len(solids)):
        one = solids[np.array([i])]
        low, high = (float(end[0]) for end in one.span_z())
        reached = np.flatnonzero((z_mm >= low) & (z_mm <= high))
        if len(reached):
            found = np.full((len(z_mm), COUNT), np.nan)
            found[reached] = one.slice(z_mm[reached], DIRECTIONS)[0]
            yield found
