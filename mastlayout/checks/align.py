"""New fittings against the lines of the mast and against their like: just off a line, a row or a ring.

What stands a few millimetres off a line was meant to stand on it; what stands farther off was not,
and nobody is asked. Everything is measured along the skin, where each stands as built.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.pairs import other_side_name

# Meant to be on one line within so much, and in one row so far along the mast (common practice, no source).
_MEANT_MM, _ROW_MM = 10.0, 2000.0
# Those that are called a pair were meant to be level within more.
_LEVEL_MM = 50.0


@dataclass(frozen=True, eq=False)
class Standing:
    """Where m fittings stand on the skin: height, girth and half the girth there (m,); -1 has no mate."""

    placed: tuple[Placed, ...]
    z_mm: Array
    girth_mm: Array
    half_mm: Array
    mate: Whole
    kind: Whole
    new: Mask

    def is_like(self, i: int) -> Mask:
        """Tell (m,) which others are of the same kind as one, and no pair with it."""
        like = self.kind == self.kind[i]
        like[[i, *([self.mate[i]] if self.mate[i] >= 0 else [])]] = False
        return np.asarray(like)


def standing(scene: Scene) -> Standing:
    """Return where everything stands that has a place on the skin."""
    placed = tuple(one for one in scene.placed.values() if one.skin is not None)
    z = np.array([one.z_mm for one in placed])
    girth = np.array([float(one.places.around[0]) for one in placed])
    half = scene.skin.half_girth(z)
    by_name = {one.fitting.name: i for i, one in enumerate(placed)}
    called = [other_side_name(one.fitting.name) for one in placed]
    mate = [
        by_name.get(name, -1) if name != one.fitting.name else -1
        for name, one in zip(called, placed, strict=True)
    ]
    kinds = {one.kind.id: i for i, one in enumerate(placed)}
    return Standing(
        placed,
        z,
        (girth + half) % (2 * half) - half,
        half,
        np.array(mate, dtype=np.intp),
        np.array([kinds[one.kind.id] for one in placed], dtype=np.intp),
        np.array([one.fitting.new for one in placed], dtype=bool),
    )


def aligned(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Find new fittings that stand just off a centreline, a row of their like, or level with their like."""
    every, allowed = standing(scene), limits["align.off"].value + TOLERANCE_MM
    for i, placed in enumerate(every.placed):
        if not placed.fitting.new:
            continue
        if every.mate[i] >= 0:
            yield from _pair(every, i, int(every.mate[i]), allowed)
        else:
            yield from _line(every, i, allowed)
        yield from _like(every, i, allowed)


def _said(code: str, every: Standing, i: int, other: str, off_mm: float, allowed: float) -> Finding:
    ids, z = (every.placed[i].id, other), float(every.z_mm[i])
    return Finding(code, "note", ids, off_mm, allowed - TOLERANCE_MM, limit="align.off", z_mm=z)


def _line(every: Standing, i: int, allowed: float) -> Iterator[Finding]:
    """Forward centreline, or the middle of the track; who stands on either side of it is a pair."""
    aft = float(abs(every.girth_mm[i]))
    for code, off in (("align/fore", float(every.half_mm[i]) - aft), ("align/aft", aft)):
        if allowed < off <= _MEANT_MM:
            yield _said(code, every, i, MAST, off, allowed)


def _pair(every: Standing, i: int, j: int, allowed: float) -> Iterator[Finding]:
    """Port and starboard: level, and as far round the skin. Of two new ones the first says it."""
    if j < i and every.placed[j].fitting.new:
        return
    level = float(abs(every.z_mm[i] - every.z_mm[j]))
    round_mm = float(abs(abs(every.girth_mm[i]) - abs(every.girth_mm[j])))
    for code, off, most in (("align/level", level, _LEVEL_MM), ("align/mirror", round_mm, _MEANT_MM)):
        if allowed < off <= most:
            yield _said(code, every, i, every.placed[j].id, off, allowed)


def _like(every: Standing, i: int, allowed: float) -> Iterator[Finding]:
    """Others of its kind: above or below in a row, or round the mast in a ring; the nearest is named."""
    half = every.half_mm[i]
    along = np.abs(every.z_mm - every.z_mm[i])
    round_mm = np.abs((every.girth_mm - every.girth_mm[i] + half) % (2 * half) - half)
    asked = every.is_like(i) & ~(every.new & (np.arange(len(along)) < i))
    row = asked & (along > _MEANT_MM) & (along <= _ROW_MM) & (round_mm > allowed) & (round_mm <= _MEANT_MM)
    ring = asked & (round_mm > _MEANT_MM) & (along > allowed) & (along <= _MEANT_MM)
    for code, found, off, far in (("align/row", row, round_mm, along), ("align/ring", ring, along, round_mm)):
        if found.any():
            j = int(np.argmin(np.where(found, far, np.inf)))
            yield _said(code, every, i, every.placed[j].id, float(off[j]), allowed)


ALIGNED = WholeRule("align/fore", frozenset({"mast", "fittings", "limits"}), aligned)
