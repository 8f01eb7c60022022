"""The ways a fitting can be moved: along, round, nearer to what it stands on, each in steps from where it is."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Places
from mastlayout.geometry.skin import Skin
from mastlayout.model.around import Around
from mastlayout.places.family import Family

Direction = Literal["up", "down", "clockwise", "anticlockwise", "nearer", "in", "out"]
Field = Literal["from_masthead_mm", "girth", "stand_off_mm", "along_mm"]

STEP_MM = 10.0
_ROUND_DEG = 5.0
_NEARER_MM = 5.0


@dataclass(frozen=True, eq=False)
class Way:
    """Places one after the other, the nearest first; ``values`` are what the fitting's field would be."""

    direction: Direction
    field: Field
    values: tuple[float | Around, ...]
    places: Places

    def __len__(self) -> int:
        return len(self.values)


def ways_of(scene: Scene, family: Family) -> Iterator[Way]:
    """Yield every way the family's root can be moved; none of what was found as built."""
    root = family.root
    if root.fitting.as_built is not None:
        return
    if isinstance(root.host, Skin):
        yield from _heights(scene, family, root.host)
        yield from _girths(root, root.host)
    else:
        yield from _along(root)
    if root.fitting.stand_off_mm > 0:
        nearer = np.arange(root.fitting.stand_off_mm - _NEARER_MM, -_NEARER_MM, -_NEARER_MM).clip(0.0)
        yield Way("nearer", "stand_off_mm", tuple(nearer.tolist()), _places(root, stand_off_mm=nearer))


def at_heights(root: Placed, skin: Skin, from_masthead_mm: Array) -> Places:
    """Return a fitting on the mast at heights, its girth as it is named."""
    along = np.array([height_mm(skin.length_mm, float(value)) for value in from_masthead_mm])
    girth = root.fitting.girth
    # Named from ahead or by a bearing, a place has another girth in a taper.
    around = np.array([skin.girth_of(girth, float(z)) for z in along]) if girth and skin.taper else None
    return _places(root, along_mm=along, around=around)


def _heights(scene: Scene, family: Family, skin: Skin) -> Iterator[Way]:
    root, here = family.root, family.root.fitting.from_masthead_mm
    if here is None:
        return
    half = root.foot.along_mm / 2 if root.foot else 0.0
    lowest = skin.length_mm - half
    deck = scene.layout.boat.deck_above_heel_mm
    bottom = min(member.span_z_mm[0] for member in family.members)
    if deck is not None and bottom >= deck:
        # What stands above the deck stays there.
        lowest = min(lowest, here + bottom - deck)
    first, last = math.ceil(max(half, 0.0) / STEP_MM), math.floor(lowest / STEP_MM)
    grid = np.arange(first, last + 1) * STEP_MM
    up, down = grid[grid < here][::-1], grid[grid > here]
    yield Way("up", "from_masthead_mm", tuple(up.tolist()), at_heights(root, skin, up))
    yield Way("down", "from_masthead_mm", tuple(down.tolist()), at_heights(root, skin, down))


def _girths(root: Placed, skin: Skin) -> Iterator[Way]:
    girth, z_mm = root.fitting.girth, float(root.places.along_mm[0])
    if girth is None:
        return
    step = _ROUND_DEG if girth.origin == "bearing" else STEP_MM
    most = 180.0 if girth.origin == "bearing" else float(skin.half_girth(np.array([z_mm]))[0])
    # Seen from above, to starboard is clockwise ahead of the mast and anticlockwise abaft it.
    ways: tuple[Direction, Direction] = ("clockwise", "anticlockwise")
    for direction, sign in zip(ways if girth.origin != "aft" else ways[::-1], (1.0, -1.0), strict=True):
        offsets = [girth.offset + sign * k * step for k in range(1, math.floor(most / step) + 1)]
        values = tuple(_named(girth, offset, most) for offset in offsets)
        around = np.array([skin.girth_of(value, z_mm) for value in values])
        yield Way(direction, "girth", values, _places(root, around=around))


def _named(girth: Around, offset: float, most: float) -> Around:
    """Name a place by an offset that may run on past the other end: past aft it comes from port."""
    if girth.origin == "bearing":
        return girth.but(offset=offset % 360.0)
    return girth.but(offset=round((offset + most) % (2 * most) - most, 2))


def _along(root: Placed) -> Iterator[Way]:
    """Yield the ways along a spreader or a stay; past its end nothing is looked for."""
    here, host = root.fitting.along_mm or 0.0, root.host
    if isinstance(host, Placed | Skin):
        return
    long = host.item.length_mm or 0.0
    grid = np.arange(1, math.floor(long / STEP_MM)) * STEP_MM
    within, beyond = grid[grid < here][::-1], grid[grid > here]
    yield Way("in", "along_mm", tuple(within.tolist()), _places(root, along_mm=within))
    yield Way("out", "along_mm", tuple(beyond.tolist()), _places(root, along_mm=beyond))


def _places(root: Placed, **arrays: Array | None) -> Places:
    given = {name: array for name, array in arrays.items() if array is not None}
    n = len(next(iter(given.values())))
    own = {
        name: given.get(name, np.broadcast_to(getattr(root.places, name), n))
        for name in ("along_mm", "around", "stand_off_mm", "turn_deg")
    }
    return Places(**own)
