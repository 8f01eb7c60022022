"""What holds cloth on a tack, cut at heights: the mast, spreaders, struts, and wires tight on both tacks.

Guards hold too, but they are asked for apart: what only a guard keeps the cloth from is said to be guarded.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.directions import ANGLES, COUNT, DIRECTIONS, along_all
from mastlayout.model.fitting import MAST
from mastlayout.once import once

# Fixed at both ends and tight on both tacks; the sail's own stay and what lies ahead of it hold nothing.
_TIGHT = ("cap", "intermediate", "lower", "diamond", "jumper", "backstay")
# Of what holds cloth at one height so many count: a group of them is a number of 64 bits, with the
# height's own. What is left out shelters nothing, which errs to the safe side.
_MOST = 56
_TAPER_STEP_MM = 25.0
# Half way between each fixed direction and the next.
_HALF = np.pi / COUNT
_BETWEEN: Array = np.stack([np.cos(ANGLES + _HALF), np.sin(ANGLES + _HALF)], axis=1)


@dataclass(frozen=True, eq=False)
class Holding:
    """Supports at m heights: ``support`` (m, s, COUNT), nan where a slot is empty.

    ``name`` (m, s) is the index in ``names`` of what is in a slot, -1 for nothing; the mast is 0.
    """

    names: tuple[str, ...]
    name: Whole
    support: Array


@dataclass(frozen=True, eq=False)
class Rig:
    """What may hold cloth: mast, spreaders, struts and stays."""

    skin: Skin
    spreaders: Mapping[str, SpreaderInSpace]
    stays: Mapping[str, StayInSpace]
    bend: Bend


def holding(rig: Rig, z_mm: Array, guards: Sequence[Placed] = ()) -> Holding:
    """Cut everything that holds cloth at heights (m,)."""
    parts = [(MAST, _mast(rig.skin, z_mm)), *_wires(rig, z_mm), *_bars(rig, z_mm)]
    for guard in guards:
        parts += [(guard.id, cut) for cut in _cuts(guard.solids[guard_parts(guard)], z_mm)]
    there = np.stack([~np.isnan(support[:, 0]) for _name, support in parts], axis=1)
    most = min(max(int(there.sum(axis=1).max(initial=1)), 1), _MOST)
    order = np.argsort(~there, axis=1, kind="stable")[:, :most]
    every = np.stack([support for _name, support in parts], axis=1)
    names = tuple(dict.fromkeys(name for name, _support in parts))
    number = np.array([names.index(name) for name, _support in parts])
    return Holding(
        names,
        np.where(np.take_along_axis(there, order, axis=1), number[order], -1),
        np.take_along_axis(every, order[:, :, None], axis=1),
    )


def parted(held: Holding, counts: Sequence[int]) -> list[Holding]:
    """Part what holds cloth at heights that follow on each other, so many each, and leave out empty slots."""
    found = []
    for rows in np.split(np.arange(len(held.name)), np.cumsum(counts)[:-1]):
        most = max(int((held.name[rows] >= 0).sum(axis=1).max(initial=1)), 1)
        found.append(Holding(held.names, held.name[rows, :most], held.support[rows, :most]))
    return found


def padded(held: Sequence[Holding]) -> tuple[Array, Whole]:
    """Return ``support`` and ``name`` of several, one below the other; what one has less is empty."""
    most = max(one.name.shape[1] for one in held)
    count = sum(len(one.name) for one in held)
    support, name = np.full((count, most, COUNT), np.nan), np.full((count, most), -1)
    first = 0
    for one in held:
        rows, slots = slice(first, first + len(one.name)), one.name.shape[1]
        support[rows, :slots], name[rows, :slots] = one.support, one.name
        first += len(one.name)
    return support, name


def guard_parts(placed: Placed) -> Whole:
    """Return which of a fitting's solids are a guard's."""
    return np.flatnonzero([part == "guard" for part in placed.body.parts])


def _mast(skin: Skin, z_mm: Array) -> Array:
    """Return the skin's support; in a taper that of the ring next above, which is the smaller."""
    length = skin.length_mm
    rings = np.ceil(z_mm / _TAPER_STEP_MM) * _TAPER_STEP_MM
    found = np.full((len(z_mm), COUNT), np.nan)
    for z in sorted(set(rings.tolist())):
        own = (rings == z) & (z_mm >= 0) & (z_mm <= length)
        found[own] = _reach(skin.ring(float(min(z, length))))
    return found


@once  # below a taper every block has the same
def _reach(ring: Ring) -> Array:
    """Return the support (COUNT,) of a ring."""
    return np.asarray((DIRECTIONS @ ring.polygon().T).max(axis=1))


def _wires(rig: Rig, z_mm: Array) -> Iterator[tuple[str, Array]]:
    """Yield each wire's support: at least a circle of its own thickness, however it leans."""
    for name, middle in middles(rig, z_mm).items():
        yield name, np.asarray(along_all(middle) + (rig.stays[name].item.wire_mm or 0.0) / 2)


def middles(rig: Rig, z_mm: Array) -> dict[str, Array]:
    """Return the middle (m, 2) of each wire that holds cloth at heights, by its id; nan beyond its ends."""
    return {
        name: _middle(stay, z_mm, rig.bend)
        for name, stay in rig.stays.items()
        if stay.item.role in _TIGHT and not stay.item.removable and stay.points is not None
    }


def _middle(stay: StayInSpace, z_mm: Array, bend: Bend) -> Array:
    points = np.asarray(stay.points)[::-1].copy()
    forward = bend.at(points[:, 2])
    forward[0] = forward[0] if stay.item.ends_on_mast else 0.0
    points[:, 0] += forward
    x, y = (np.interp(z_mm, points[:, 2], points[:, k], np.nan, np.nan) for k in (0, 1))
    return np.stack([x - bend.at(z_mm), y], axis=1)


def _bars(rig: Rig, z_mm: Array) -> Iterator[tuple[str, Array]]:
    for name, bar in rig.spreaders.items():
        yield from ((name, cut) for cut in _cuts(bar.solids, z_mm))


def _cuts(solids: Solids, z_mm: Array) -> Iterator[Array]:
    """Yield the support (m, COUNT) of each solid; the search runs only over the heights it reaches."""
    for i in range(len(solids)):
        one = solids[np.array([i])]
        low, high = (float(end[0]) for end in one.span_z())
        reached = np.flatnonzero((z_mm >= low) & (z_mm <= high))
        if len(reached):
            found = np.full((len(z_mm), COUNT), np.nan)
            own, between = (one.slice(z_mm[reached], ways)[0] for ways in (DIRECTIONS, _BETWEEN))
            found[reached] = own - _too_much(own, between)
            yield found


def _too_much(own: Array, between: Array) -> Array:
    """Return how far (m, COUNT) what is held by supports in the fixed directions alone would reach too far.

    A flat side square to none of them, as a long spreader's, comes out too large between two: at most
    by twice what it is half way. What holds must never be too large.
    """
    half_way = (own + np.roll(own, -1, axis=1)) / (2 * np.cos(_HALF)) - between
    over = 2 * np.maximum(half_way, 0.0)
    return np.asarray(np.maximum(over, np.roll(over, 1, axis=1)))
