"""What is chosen for the holes of one fitting where it stands."""

from collections.abc import Iterator

from mastlayout.fastening.choice import Choice, Stack, choose
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.holes import Opening
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.through import span_mm
from mastlayout.geometry.wall import thickness_mm


def choices(placed: Placed) -> Iterator[tuple[Opening, Choice | None]]:
    """Yield each opening of a fitting on the mast with what is chosen for it, in its pattern's order.

    None where it holds no fastener, where the wall is not known, and in a mast that is not of
    aluminium: there its builder chooses.
    """
    if placed.holes is not None:
        for index, opening in enumerate(placed.holes.openings):
            yield opening, choice_of(placed, index)


def choice_of(placed: Placed, index: int) -> Choice | None:
    """Return what is chosen for one opening by its place in the pattern."""
    skin, foot, holes = placed.skin, placed.foot, placed.holes
    if skin is None or foot is None or holes is None or skin.mast.material != "aluminium":
        return None
    wall = thickness_mm(skin.mast, height_mm(skin.length_mm, float(holes.z_mm[0, index])))
    if wall is None:
        return None
    stack = Stack(foot.thickness_mm, foot.liner_mm, placed.fitting.stand_off_mm, wall)
    fastener = holes.openings[index].fastener
    across = fastener.how == "through"
    span = span_mm(skin, holes.point[0, index], holes.direction[0, index]) if across else None
    return choose(fastener, stack, span)
