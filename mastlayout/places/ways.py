"""The ways a fitting can be moved, each in steps from where it is: along, round, nearer to its host."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Places
from mastlayout.geometry.skin import Skin
from mastlayout.model.around import Around
from mastlayout.places.family import Family

Direction = Literal["up", "down", "clockwise", "anticlockwise", "nearer", "in", "out", "elsewhere"]
# What an edit changes of a fitting to bring it to a place.
Fields = Mapping[str, float | Around]

STEP_MM = 10.0
_ROUND_DEG = 5.0
_NEARER_MM = 5.0
# What looks, shines or sounds one way is moved round by no more than this.
_AIMED_DEG, _AIMED_MM = 10.0, 30.0
# Up or down and round at once is looked for as far as this from where it is, so far apart, every so many
# degrees: a gap too narrow to be met so is no place to aim for.
_ELSEWHERE_MM, _APART_MM, _FACES_DEG = 1500.0, 50.0, 15.0


@dataclass(frozen=True, eq=False)
class Way:
    """Places one after the other, the nearest first; ``fields`` are what the fitting's own would be."""

    direction: Direction
    fields: tuple[Fields, ...]
    places: Places

    def __len__(self) -> int:
        return len(self.fields)

    def far_mm(self, root: Placed, step: int) -> float:
        """Return how far a place is from where the root stands, the shorter way round."""
        here, there = root.places, self.places
        round_mm = float(there.around[step] - here.around[0])
        if isinstance(root.host, Skin):
            half = root.host.full.half_girth_mm
            round_mm = (round_mm + half) % (2 * half) - half
        off_mm = float(there.stand_off_mm[step] - here.stand_off_mm[0])
        return math.hypot(float(there.along_mm[step] - here.along_mm[0]), round_mm, off_mm)


def ways_of(scene: Scene, family: Family) -> Iterator[Way]:
    """Yield every single way the family's root can be moved; none of what was found as built."""
    root = family.root
    if root.fitting.is_built:
        return
    if isinstance(root.host, Skin):
        lowest, highest = reach(scene, family, root.host)
        grid = _grid(lowest, highest)
        here = root.fitting.from_masthead_mm or 0.0
        for direction, values in _both(("up", "down"), grid, here):
            yield _at_heights(root, root.host, direction, values)
        yield from _girths(family, root.host)
    elif not isinstance(root.host, Placed):
        grid = _grid(STEP_MM, (root.host.item.length_mm or 0.0) - STEP_MM)
        for direction, values in _both(("in", "out"), grid, root.fitting.along_mm or 0.0):
            yield _way(root, direction, "along_mm", values, along_mm=np.array(values))
    if root.fitting.stand_off_mm > 0:
        nearer = np.arange(root.fitting.stand_off_mm - _NEARER_MM, -_NEARER_MM, -_NEARER_MM).clip(0.0)
        yield _way(root, "nearer", "stand_off_mm", nearer.tolist(), stand_off_mm=nearer)


def elsewhere(scene: Scene, family: Family) -> Way | None:
    """Return the places near by at other heights and bearings at once; None for what faces one way."""
    root, skin = family.root, family.root.host
    here = root.fitting.from_masthead_mm
    if root.fitting.is_built or not isinstance(skin, Skin) or here is None or aimed(family):
        return None
    lowest, highest = reach(scene, family, skin)
    grid = _grid(max(lowest, here - _ELSEWHERE_MM), min(highest, here + _ELSEWHERE_MM), _APART_MM)
    near = sorted(grid, key=lambda value: abs(value - here))
    bearings = [Around(origin="bearing", offset=deg) for deg in np.arange(0.0, 360.0, _FACES_DEG).tolist()]
    along = np.repeat([height_mm(skin.length_mm, value) for value in near], len(bearings))
    around = [skin.girth_of(each, height_mm(skin.length_mm, value)) for value in near for each in bearings]
    fields: tuple[Fields, ...] = tuple(
        {"from_masthead_mm": value, "girth": each} for value in near for each in bearings
    )
    return Way("elsewhere", fields, places_of(root, along_mm=along, around=np.array(around)))


def reach(scene: Scene, family: Family, skin: Skin) -> tuple[float, float]:
    """Return the least and most from the masthead: the foot stays on the mast, and above the deck."""
    root, here = family.root, family.root.fitting.from_masthead_mm or 0.0
    half = root.foot.along_mm / 2 if root.foot else 0.0
    most = skin.length_mm - half
    deck = scene.layout.boat.deck_above_heel_mm
    bottom = min(member.span_z_mm[0] for member in family.members)
    if deck is not None and bottom >= deck:
        most = min(most, here + bottom - deck)
    return half, most


def _grid(least: float, most: float, step: float = STEP_MM) -> list[float]:
    return [k * step for k in range(math.ceil(least / step), math.floor(most / step) + 1)]


def _both(
    directions: tuple[Direction, Direction], grid: Sequence[float], here: float
) -> Iterator[tuple[Direction, list[float]]]:
    """Yield the values below and above where it is, the nearest first."""
    yield directions[0], [value for value in reversed(grid) if value < here]
    yield directions[1], [value for value in grid if value > here]


def _at_heights(root: Placed, skin: Skin, direction: Direction, values: list[float]) -> Way:
    along = [height_mm(skin.length_mm, value) for value in values]
    girth = root.fitting.girth
    # In a taper a place named from ahead or by a bearing has another girth at each height.
    around = [skin.girth_of(girth, z_mm) if girth else 0.0 for z_mm in along]
    return _way(
        root, direction, "from_masthead_mm", values, along_mm=np.array(along), around=np.array(around)
    )


def _girths(family: Family, skin: Skin) -> Iterator[Way]:
    root = family.root
    girth, z_mm = root.fitting.girth, float(root.places.along_mm[0])
    if girth is None:
        return
    step = _ROUND_DEG if girth.origin == "bearing" else STEP_MM
    half = 180.0 if girth.origin == "bearing" else float(skin.half_girth(np.array([z_mm]))[0])
    little = _AIMED_DEG if girth.origin == "bearing" else _AIMED_MM
    far = math.floor((min(half, little) if aimed(family) else half) / step)
    # Seen from above, to starboard is clockwise ahead of the mast and anticlockwise abaft it.
    ways: tuple[Direction, Direction] = ("clockwise", "anticlockwise")
    for direction, sign in zip(ways if girth.origin != "aft" else ways[::-1], (1.0, -1.0), strict=True):
        values = [_named(girth, girth.offset + sign * k * step, half) for k in range(1, far + 1)]
        around = np.array([skin.girth_of(value, z_mm) for value in values])
        yield _way(root, direction, "girth", values, around=around)


def _named(girth: Around, offset: float, half: float) -> Around:
    """Name a place by an offset that may run on past the other end: past aft it comes from port."""
    if girth.origin == "bearing":
        return girth.but(offset=offset % 360.0)
    return girth.but(offset=round((offset + half) % (2 * half) - half, 2))


def aimed(family: Family) -> bool:
    """Tell whether something of it looks, shines or sounds one way only: then its bearing is its use."""
    sectors = (sector for member in family.members for sector in member.kind.sectors)
    return any((sector.to_deg - sector.from_deg) % 360.0 for sector in sectors)


def _way(
    root: Placed, direction: Direction, field: str, values: Sequence[float | Around], **arrays: Array
) -> Way:
    return Way(direction, tuple({field: value} for value in values), places_of(root, **arrays))


def places_of(root: Placed, **arrays: Array) -> Places:
    """Return places of a fitting: what is not given as an array (n,) is as where it stands."""
    n = len(next(iter(arrays.values())))
    return Places(
        **{
            name: arrays.get(name, np.broadcast_to(getattr(root.places, name), n))
            for name in ("along_mm", "around", "stand_off_mm", "turn_deg")
        }
    )
