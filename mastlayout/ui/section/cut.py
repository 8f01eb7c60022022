"""What one height holds: the outline and its wall, what runs inside, and what stands round it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from mastlayout.geometry.frames import Array, Mask, height_mm
from mastlayout.geometry.inside import Inside
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.wall import nearest_thickness_mm, thickness_mm
from mastlayout.model.mast import Track


@dataclass(frozen=True)
class Crossing:
    """Where something inside the mast crosses a height; its centre in the mast frame."""

    id: str
    name: str
    kind: Literal["conduit", "halyard"]
    ahead_mm: float
    port_mm: float
    radius_mm: float


@dataclass(frozen=True)
class Cut:
    """The mast at one height; two cuts are equal where nothing at that height changed.

    ``wall_mm`` is None where no reading speaks for this height, ``near_wall_mm`` the nearest one
    however far. ``lost`` names what runs here, nobody knows where.
    """

    z_mm: float
    on_mast: bool
    ring: Ring
    wall_mm: float | None
    near_wall_mm: float | None
    track: Track | None
    crossings: tuple[Crossing, ...]
    lost: tuple[str, ...]
    standing: tuple[Placed, ...]
    spreaders: tuple[SpreaderInSpace, ...]
    hand: Placed | None


def cut_at(scene: Scene, z_mm: float, hand: str) -> Cut:
    """Return what a height holds; ``hand`` is the id in hand, which is kept where it reaches there."""
    skin = scene.skin
    from_masthead = height_mm(skin.length_mm, z_mm)
    standing = tuple(placed for placed in scene.placed.values() if _reaches(placed, z_mm))
    found = tuple(crossings(scene, z_mm))
    return Cut(
        z_mm=z_mm,
        on_mast=0.0 <= z_mm <= skin.length_mm,
        ring=skin.ring(z_mm),
        wall_mm=thickness_mm(skin.mast, from_masthead),
        near_wall_mm=nearest_thickness_mm(skin.mast, from_masthead),
        track=track_at(skin, z_mm),
        crossings=found,
        lost=lost_between(scene, z_mm, z_mm, known=frozenset(crossing.id for crossing in found)),
        standing=standing,
        spreaders=tuple(bar for bar in scene.spreaders.values() if parts_at(bar.solids, z_mm).any()),
        hand=next((placed for placed in standing if placed.id == hand), None),
    )


def track_at(skin: Skin, z_mm: float) -> Track | None:
    """Return the track or groove at a height; None below its lower end, and where none is known."""
    track = skin.mast.track
    if track is None or track.lower_end_mm is None:
        return track
    return track if z_mm >= height_mm(skin.length_mm, track.lower_end_mm) else None


def crossings(scene: Scene, z_mm: float) -> Iterator[Crossing]:
    """Yield where conduits and halyards cross a height."""
    kinds: tuple[tuple[Literal["conduit", "halyard"], tuple[Inside, ...]], ...]
    kinds = (("conduit", scene.conduits), ("halyard", scene.halyards))
    for kind, things in kinds:
        for thing in things:
            centre = centre_at(thing, z_mm)
            if centre is not None:
                yield Crossing(thing.id, thing.name, kind, *centre, thing.radius_mm)


def lost_between(scene: Scene, low_mm: float, high_mm: float, known: frozenset[str]) -> tuple[str, ...]:
    """Return the names of what runs between two heights nobody knows where, less what is known there."""
    return tuple(
        dict.fromkeys(
            thing.name
            for thing in scene.inside
            if thing.unknown
            and thing.id not in known
            and thing.z_low_mm <= high_mm
            and thing.z_high_mm >= low_mm
        )
    )


def centre_at(thing: Inside, z_mm: float) -> tuple[float, float] | None:
    """Return where something inside crosses a height, ahead and to port; None where it does not."""
    for start, end in zip(thing.start, thing.end, strict=True):
        low, high = sorted((float(start[2]), float(end[2])))
        if low <= z_mm <= high and high > low:
            part = (z_mm - float(start[2])) / float(end[2] - start[2])
            x, y = start[:2] + part * (end[:2] - start[:2])
            return float(x), float(y)
    return None


def parts_at(solids: Solids, z_mm: float) -> Mask:
    """Return which of n solids hold a height."""
    if not len(solids):
        return np.zeros(0, dtype=bool)
    low, high = solids.span_z()
    return np.asarray((low <= z_mm) & (z_mm <= high))


def _reaches(placed: Placed, z_mm: float) -> bool:
    """Tell whether a fitting stands at a height on the mast itself or on what stands on it."""
    root = placed.host
    while isinstance(root, Placed):
        root = root.host
    # What hangs on a stay or a spreader is metres away: the section would be a dot beside it.
    return isinstance(root, Skin) and (bool(parts_at(placed.solids, z_mm).any()) or _foot_at(placed, z_mm))


def _foot_at(placed: Placed, z_mm: float) -> bool:
    outline: Array | None = placed.outline
    return outline is not None and bool(outline[:, 1].min() <= z_mm <= outline[:, 1].max())
