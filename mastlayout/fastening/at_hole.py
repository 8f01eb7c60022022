"""What is chosen for the holes of one fitting where it stands."""

from collections.abc import Iterator

import numpy as np

from mastlayout.fastening.choice import Choice, Stack, choose
from mastlayout.fastening.curve import packed_mm
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.holes import Opening
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.through import span_mm
from mastlayout.geometry.wall import thickness_mm
from mastlayout.once import once


def choices(placed: Placed) -> Iterator[tuple[Opening, Choice | None]]:
    """Yield each opening of a fitting on the mast with what is chosen for it, in its pattern's order.

    None where it holds no fastener, where the wall or the foot's radius is not known, and in a mast
    that is not of aluminium: there its builder chooses.
    """
    if placed.holes is not None:
        for opening in placed.holes.openings:
            yield opening, choice_of(placed, opening.number)


def choice_of(placed: Placed, number: int) -> Choice | None:
    """Return what is chosen for one opening by its number."""
    skin, foot, holes = placed.skin, placed.foot, placed.holes
    if skin is None or foot is None or holes is None or skin.mast.material != "aluminium":
        return None
    index = holes.index_of(number)
    if index is None:
        return None
    wall = thickness_mm(skin.mast, height_mm(skin.length_mm, float(holes.z_mm[0, index])))
    packer = packer_mm(placed, number)
    if wall is None or packer is None:
        return None
    stack = Stack(foot.thickness_mm, foot.liner_mm, packer, wall, foot.backing_mm)
    fastener = holes.openings[index].fastener
    across = fastener.how == "through"
    span = span_mm(skin, holes.point[0, index], holes.direction[0, index]) if across else None
    return choose(fastener, stack, span)


def packer_mm(placed: Placed, number: int) -> float | None:
    """Return how thick packer or bedding is at one opening, mm; None where a radius is not known."""
    every = _packers_mm(placed)
    index = None if placed.holes is None else placed.holes.index_of(number)
    if every is None or index is None or np.isnan(every[index]):
        return None
    return float(every[index])


@once
def _packers_mm(placed: Placed) -> Array | None:
    """Return how thick it is at each opening (h,), nan where a radius is not known."""
    skin, foot, holes = placed.skin, placed.foot, placed.holes
    if skin is None or foot is None or holes is None:
        return None
    return np.asarray(packed_mm(skin, foot, placed.places, placed.seats, holes.point)[0])
