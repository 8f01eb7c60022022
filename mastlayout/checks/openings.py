"""Every opening that is or will be in the mast: those of the pattern of each foot, known or typical."""

from collections.abc import Sequence
from dataclasses import fields

import numpy as np

from mastlayout.checks.neighbours import round_skin
from mastlayout.fastening.drill import drill_mm
from mastlayout.fastening.loss import farthest_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.across import pattern
from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.holes import Drilled, Opening
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.once import once


def openings_of(placed: Placed) -> Drilled | None:
    """Return a fitting's openings where it stands; None for what has no foot on the mast.

    Of what is there already nobody may know the holes: those its kind has then stand for them.
    """
    if placed.holes is None and placed.kind.welded:
        return None
    return pattern(placed, placed.places, placed.seats)


@dataclass(frozen=True, eq=False)
class Windows:
    """Cut-outs on the developed skin, k of them at n places: their middles (n, k), half sizes (k,)."""

    ids: tuple[str, ...]
    z_mm: Array
    girth_mm: Array
    half_width_mm: Array
    half_length_mm: Array
    turn_deg: Array

    def from_edge(self, girth_mm: Array, z_mm: Array, skin: Skin) -> Array:
        """Return how far places (n, h) on a skin lie outside the edges (n, h, k); less than nothing inside.

        Corners count as square, so that nothing lies nearer than is said.
        """
        half = skin.half_girth(z_mm)[..., None]
        across = round_skin(girth_mm[:, :, None] - self.girth_mm[:, None], half)
        along = z_mm[:, :, None] - self.z_mm[:, None]
        turn = np.radians(self.turn_deg)[:, None, None]
        over = np.abs(across * np.cos(turn) - along * np.sin(turn)) - self.half_width_mm
        past = np.abs(along * np.cos(turn) + across * np.sin(turn)) - self.half_length_mm
        outside = np.hypot(np.maximum(over, 0.0), np.maximum(past, 0.0))
        return np.asarray(outside + np.minimum(np.maximum(over, past), 0.0))


def windows(name: str, holes: Drilled | None, turn_deg: Array) -> Windows | None:
    """Return the cut-outs of a pattern at its places; None where it has none."""
    if holes is None:
        return None
    which = [i for i, opening in enumerate(holes.openings) if opening.cutout]
    if not which:
        return None
    sizes = np.array([_half_size(holes.openings[i]) for i in which])
    return Windows(
        tuple(f"{name}/h{holes.openings[i].number}" for i in which),
        holes.z_mm[:, which],
        holes.girth_mm[:, which],
        sizes[:, 0],
        sizes[:, 1],
        turn_deg,
    )


def _half_size(opening: Opening) -> tuple[float, float]:
    cut = opening.cutout
    return (cut.width_mm / 2, cut.length_mm / 2) if cut else (0.0, 0.0)


def windows_of(placed: Placed) -> Windows | None:
    """Return the cut-outs of a fitting where it stands."""
    return windows(placed.id, openings_of(placed), placed.places.turn_deg)


@dataclass(frozen=True, eq=False)
class Widths:
    """Openings as a level of the mast meets them: where, how wide round the girth, how long along. (m,)."""

    z_mm: Array
    girth_mm: Array
    width_mm: Array
    half_length_mm: Array

    def kept(self, which: Mask) -> "Widths":
        """Return some of them."""
        return Widths(*(getattr(self, part.name)[which] for part in fields(self)))

    def between(self, low_mm: float, high_mm: float, skin: Skin) -> "Widths":
        """Return those that may count in a tear between two heights along the mast."""
        reach = farthest_mm(self.width_mm, skin.full.half_girth_mm) + self.half_length_mm
        return self.kept((self.z_mm + reach > low_mm) & (self.z_mm - reach < high_mm))


def joined(parts: Sequence[Widths]) -> Widths:
    """Return the openings of several parts as one."""
    return Widths(*(np.concatenate([getattr(one, part.name) for one in parts]) for part in fields(Widths)))


def size_of(opening: Opening, turn_deg: float = 0.0) -> tuple[float, float]:
    """Return an opening's width round the girth, and half its length where that is straight; nan unknown."""
    cut = opening.cutout
    if cut is None:
        size = drill_mm(opening)
        return (np.nan if size is None else size), 0.0
    cos, sin = abs(np.cos(np.radians(turn_deg))), abs(np.sin(np.radians(turn_deg)))
    width = min(cut.width_mm * cos + cut.length_mm * sin, np.hypot(cut.width_mm, cut.length_mm))
    along = cut.width_mm * sin + cut.length_mm * cos
    return float(width), float(max(along / 2 - min(cut.width_mm, cut.length_mm) / 2, 0.0))


@once
def widths_of(placed: Placed) -> Widths | None:
    """Return a fitting's openings as levels meet them."""
    holes = openings_of(placed)
    if holes is None or not len(holes):
        return None
    sizes = np.array([size_of(opening, float(placed.places.turn_deg[0])) for opening in holes.openings])
    return Widths(holes.z_mm[0], holes.girth_mm[0], np.nan_to_num(sizes[:, 0]), sizes[:, 1])


def exits(scene: Scene) -> frozenset[str]:
    """Return the fittings where a line leaves the mast; tangs and masthead boxes are their maker's work."""
    lines = scene.layout.halyards
    return frozenset(
        point.fitting for line in lines for point in line.points if point.at == "exit" and point.fitting
    )
