"""What a sail lies on: the headsail sheeted in on shrouds and spreader tips, the main eased against them.

A sheeted headsail is drawn tight round what stands outside it, from its luff to its leech amidships:
as hard as any sheet gets it, so that it lies on no less than it will. A main eased lies on what stops
it first at each height.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.chafe.loft import Loft
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.geometry.tack.holding import middles
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.geometry.tack.tack import BLOCK, Tack

# What stands nearer the centreline than this a sheeted sail does not lie on.
_BESIDE_MM = 30.0
# A wire over a spreader's tip is the tip's own.
_AT_TIP_MM = 40.0
# Heights that follow on each other are one place.
_STEP_MM = 1.5 * STEP_MM


@dataclass(frozen=True, eq=False)
class Meets:
    """Cloth lies on a thing, by its id, along ``line`` (k, 2) of its loft, from below."""

    what: str
    line: Array


def sheeted(tack: Tack, loft: Loft, state: int, near_mm: float, *, port: bool) -> Iterator[Meets]:
    """Yield what a state of a headsail lies on, sheeted in outside the shrouds of one side."""
    way = 1.0 if port else -1.0
    z_mm = np.asarray(np.arange(tack.heights) * STEP_MM)
    wires = {name: middle * (1.0, way) for name, middle in middles(tack.rig, z_mm).items()}
    for name, lies, points in _round(tack, state, z_mm, wires, near_mm):
        yield from _laid(tack, loft, state, name, z_mm[lies], points[lies])
    for name, bar in tack.rig.spreaders.items():
        if bar.tip is None or bar.tip[1] * way <= _BESIDE_MM:
            continue
        there = np.array([float(bar.tip[2])])
        tip = np.array([[bar.tip[0], bar.tip[1] * way]])
        others = {name: tip} | {
            wire: middle[np.round(there / STEP_MM).astype(int)]
            for wire, middle in wires.items()
            if np.hypot(*(middle[round(there[0] / STEP_MM)] - tip[0])) > _AT_TIP_MM
        }
        for held, lies, points in _round(tack, state, there, others, near_mm):
            if held == name and lies.any():
                thick = bar.item.thickness_tip_mm / 2
                yield from _laid(
                    tack, loft, state, name, there + [-thick, thick], np.repeat(points, 2, axis=0)
                )


def _round(
    tack: Tack, state: int, z_mm: Array, wires: dict[str, Array], near_mm: float
) -> Iterator[tuple[str, Mask, Array]]:
    """Yield of each wire where (m,) the cloth lies on it, drawn tight round all that it reaches."""
    cloths, heights = tack.cloths, len(z_mm)
    luff = cloths.luffs.point(np.full(heights, cloths.luff[state]), z_mm)
    every = np.stack([*wires.values()]) if wires else np.empty((0, heights, 2))
    ahead, off = luff[:, 0] - every[..., 0], every[..., 1]
    swung = np.arctan2(np.abs(off), ahead)
    number = np.full(off.size, state)
    chord = cloths.chord(number, np.tile(z_mm, len(every)), swung.reshape(-1)).reshape(off.shape)
    reached = (off > _BESIDE_MM) & (ahead > 0) & (chord > 0) & (np.hypot(ahead, off) <= chord + near_mm)
    amidships = np.stack([cloths.chord(number[:heights], z_mm), np.zeros(heights)], axis=1)
    lies = reached & ~_inside(every, reached, luff, luff - amidships)
    for name, own, points in zip(wires, lies, every, strict=True):
        if own.any():
            yield name, own, points


def _inside(every: Array, reached: Mask, luff: Array, leech: Array) -> Mask:
    """Tell of points (w, m, 2) whether cloth passes outside them at m heights, of those it reached alone.

    It runs from luff to leech (m, 2) round all that it reached: past a point it passes outside where any
    line does from what stands ahead of it to what stands abaft.
    """
    inside = np.zeros(reached.shape, dtype=bool)
    always = np.ones((1, len(luff)), dtype=bool)
    there = np.concatenate([always, reached])
    for own in range(len(every)):
        rows = np.flatnonzero(reached[own])
        # What reaches none of these heights is no end of a line there.
        ends = np.flatnonzero(there[:, rows].any(axis=1))
        first, last = (np.concatenate([end[None], every])[np.ix_(ends, rows)] for end in (luff, leech))
        has = there[np.ix_(ends, rows)]
        outside = _outside(every[own, rows], first[:, None], last[None])
        inside[own, rows] = (outside & has[:, None] & has[None]).any(axis=(0, 1))
    return inside


def _outside(points: Array, first: Array, last: Array) -> Mask:
    """Tell of points (m, 2) whether lines (…, m) from what stands ahead to what stands abaft pass outside."""
    ahead, abaft = first[..., 0] >= points[:, 0], points[:, 0] >= last[..., 0]
    between = ahead & abaft & (first[..., 0] > last[..., 0])
    span = np.where(between, first[..., 0] - last[..., 0], 1.0)
    line = last[..., 1] + (points[:, 0] - last[..., 0]) / span * (first[..., 1] - last[..., 1])
    return np.asarray(between & (line > points[:, 1] + 1e-6))


def _laid(tack: Tack, loft: Loft, state: int, name: str, z_mm: Array, points: Array) -> Iterator[Meets]:
    luffs = tack.cloths.luffs
    ways = luffs.point(np.full(len(z_mm), tack.cloths.luff[state]), z_mm) - points
    line = loft.lay(z_mm, np.hypot(*ways.T), np.arctan2(np.abs(ways[:, 1]), ways[:, 0]))
    for run in _runs(z_mm):
        yield Meets(name, line[run])


def eased(main: Main, loft: Loft, state: Swung, belly: float, *, port: bool) -> Iterator[Meets]:
    """Yield what a state of a mainsail lies on, its boom eased to one side, full of wind: k is ``belly``."""
    height = np.arange(np.ceil(state.low_mm / STEP_MM), state.head_mm // STEP_MM + 1).astype(int)
    z_mm = np.asarray(height * STEP_MM)
    stops, chord = main.stops_at(height, port=port), state.chord(z_mm)[:, None]
    # A belly stands ahead of the straight line from luff to leech by as much.
    ahead = np.arctan(4 * belly * (1 - np.minimum(stops.distance / np.maximum(chord, 1e-9), 1.0)))
    lies = (stops.distance <= chord) & (stops.angle - ahead < state.angle(z_mm)[:, None])
    held = np.where(lies, _names(main.tack, height, lies.shape[1]), "")
    for name in dict.fromkeys(held[lies].tolist()):
        own, slot = np.nonzero(held == name)
        bar, out = main.tack.rig.spreaders.get(name), stops.distance[own, slot]
        if bar is not None:
            yield Meets(name, _along(main, loft, state, bar, out))
            continue
        for run in _runs(z_mm[own]):
            there = own[run]
            yield Meets(name, loft.lay(z_mm[there] + state.down_mm, out[run], stops.angle[there, slot[run]]))


def _along(main: Main, loft: Loft, state: Swung, bar: SpreaderInSpace, out: Array) -> Array:
    """Return the line (2, 2) of cloth that lies along a spreader, from where it first touches to its tip."""
    tip = np.asarray(bar.tip)[:2]
    far = float(np.hypot(tip[0] - main.luff[0], tip[1]))
    middle = np.full(2, float(np.asarray(bar.tip)[2]) + state.down_mm)
    return loft.lay(middle, np.array([min(float(out.min()), far), far]), np.zeros(2))


def _names(tack: Tack, height: Array, slots: int) -> Array:
    """Return the ids (r, slots) of what stands in each slot of what holds at heights."""
    found = np.full((len(height), slots), "", dtype=object)
    for block in np.unique(height // BLOCK):
        held, rows = tack.holding(int(block)), np.flatnonzero(height // BLOCK == block)
        own = np.array([*held.names, ""], dtype=object)[held.name[height[rows] % BLOCK]]
        found[rows, : own.shape[1]] = own
    return found


def _runs(z_mm: Array) -> Iterator[Whole]:
    """Yield the rows of heights that follow on each other."""
    yield from np.split(np.arange(len(z_mm)), np.flatnonzero(np.diff(z_mm) > _STEP_MM) + 1)
