"""What supports shelter together: their hull and the angle behind it, seen from the luff.

The shade of a convex body seen from a point is the half planes n p <= h(n) of every direction in
which the body faces the point, the two tangents among them. Between two supports the cloth hangs
in by a belly, a flat arc over the line that touches both: what lies in its cap is not sheltered.
"""

from dataclasses import replace

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.tack.directions import COUNT, Between, along_all, balanced, crossing, towards

# The belly's arc is held by its tangents at these parts of the span.
_PARTS: Array = np.linspace(0.0, 1.0, 17)


@dataclass(frozen=True, eq=False)
class Bridges:
    """Lines (k, b) that touch two supports at ``ends``, and the tangents (k, b, t) of the belly on each.

    Offsets are inf where there is no line, or no belly.
    """

    edges: Between
    edge_offset: Array
    ends: tuple[Array, Array]
    caps: Between
    cap_offset: Array

    def bellied(self, belly: float) -> "Bridges":
        """Return the same lines with cloth that hangs in by a part of their length, 0 for a board."""
        caps, offset = _caps(self.edges.normal, *self.ends, belly)
        there = np.isfinite(self.edge_offset)[:, :, None]
        return replace(self, caps=caps, cap_offset=np.where(there, offset, np.inf))

    def depth(self, row: Whole, support: Array) -> Array:
        """Return how far (r,) outlines of support (r, COUNT) lie inside those of rows (r,)."""
        inside = (self.edge_offset[row] - self.edges[row].reach(support)).min(axis=1)
        # The cap's tangents point out of the mast, as the arc is seen from the luff.
        clear = (self.cap_offset[row] - self.caps[row].reach(support)).max(axis=2)
        return np.asarray(np.minimum(inside, clear.min(axis=1)))


@dataclass(frozen=True, eq=False)
class Shades:
    """r shades. ``limit`` (r, COUNT) is inf where the body does not face the luff.

    ``tangents`` (r, 2) are the lines from the luff that touch it, with their offsets; ``bridge``
    (r,) is the row among ``bridges`` of a body of several supports, -1 for one alone.
    """

    limit: Array
    tangents: Between
    tangent_offset: Array
    bridge: Whole
    bridges: Bridges

    def bellied(self, belly: float) -> "Shades":
        """Return the same shades, the cloth between two supports hanging in by a part of their distance."""
        return replace(self, bridges=self.bridges.bellied(belly))

    def depth(self, row: Whole, support: Array) -> Array:
        """Return how far (q,) outlines (q, COUNT) lie inside shades (q,), negative where they stick out."""
        inside = (self.limit[row] - support).min(axis=1)
        beside = (self.tangent_offset[row] - self.tangents[row].reach(support)).min(axis=1)
        depth = np.minimum(inside, beside)
        hung = np.flatnonzero(self.bridge[row] >= 0)
        if len(hung):
            own = self.bridges.depth(self.bridge[row[hung]], support[hung])
            depth[hung] = np.minimum(depth[hung], own)
        return np.asarray(depth)


def shades(luff: Array, support: Array, where: Whole, members: Mask) -> Shades:
    """Return the shades (r) of bodies of which ``members`` (r, s) are part, seen from luffs (m, 2).

    ``support`` (m, s, COUNT) is that of every body, ``where`` (r,) the slice of each shade. The cloth
    between two is a board.
    """
    # Most shades are of one support alone, and have no line that touches two.
    hull = support[where, members.argmax(axis=1)]
    several = np.flatnonzero(members.sum(axis=1) > 1)
    bridge = np.full(len(members), -1)
    bridge[several] = np.arange(len(several))
    bodies = support[where[several]]
    hull[several], first = _hull(bodies, members[several])
    faces = along_all(luff[where]) - hull
    limit = np.where(faces >= 0, hull, np.inf)
    bridges = _bridges(bodies, first, faces[several])
    return Shades(limit, *_tangents(luff[where], faces), bridge, bridges)


def _hull(support: Array, members: Mask) -> tuple[Array, Array]:
    """Return the support (r, COUNT) of the hull of the members, and which of them reaches farthest."""
    own = np.where(members[:, :, None], support, -np.inf)
    first = np.asarray(own.argmax(axis=1))
    return np.take_along_axis(own, first[:, None], axis=1)[:, 0], first


def _tangents(luff: Array, faces: Array) -> tuple[Between, Array]:
    """Return the directions (r, 2) of the lines from the luff that touch the body."""
    following = np.roll(faces, -1, axis=1)
    enters = np.argmax((faces < 0) & (following >= 0), axis=1)
    leaves = np.argmax((faces >= 0) & (following < 0), axis=1)
    index = np.stack([enters, leaves], axis=1)
    here = np.take_along_axis(faces, index, axis=1)
    there = np.take_along_axis(following, index, axis=1)
    sign = np.array([-1.0, 1.0])
    found = balanced(index, sign * here, sign * there)
    return found, np.einsum("rek,rk->re", found.normal, luff)


def _bridges(support: Array, first: Array, faces: Array) -> Bridges:
    """Return the lines (r, b) that touch two bodies where they face the luff, without bellies."""
    rows = len(first)
    second = np.roll(first, -1, axis=1)
    seen = (first != second) & ((faces >= 0) | (np.roll(faces, -1, axis=1) >= 0))
    most = max(int(seen.sum(axis=1).max(initial=0)), 1)
    order = np.argsort(~seen, axis=1, kind="stable")[:, :most]
    there = np.take_along_axis(seen, order, axis=1)
    one, two = (np.take_along_axis(who, order, axis=1) for who in (first, second))
    row = np.arange(rows)[:, None]
    following = (order + 1) % COUNT
    ahead = support[row, one, order] - support[row, two, order]
    behind = support[row, one, following] - support[row, two, following]
    found = balanced(order, np.where(there, ahead, 1.0), np.where(there, behind, -1.0))
    reach = found.before * support[row, one, order] + found.after * support[row, one, following]
    offset = np.where(there, reach, np.inf)
    start, end = (_touch(support[row, who], found) for who in (one, two))
    return Bridges(found, offset, (start, end), *_caps(found.normal, start, end, 0.0))


def _touch(support: Array, found: Between) -> Array:
    """Return the points (r, b, 2) at which lines touch the bodies of support (r, b, COUNT)."""
    index = found.index[:, :, None]
    here, there = (np.take_along_axis(support, (index + step) % COUNT, axis=2)[:, :, 0] for step in (0, 1))
    return crossing(found.index, here, there)


def _caps(normal: Array, start: Array, end: Array, belly: float) -> tuple[Between, Array]:
    """Return the tangents (r, b, t) of the arcs between touched points; none for a board."""
    if belly == 0:
        none = np.zeros((*normal.shape[:2], 1), dtype=int)
        return Between(none, none + 1.0, none + 0.0), np.full(none.shape, np.inf)
    along = end - start
    depth = 4 * belly * _PARTS * (1 - _PARTS)
    span = np.linalg.norm(along, axis=-1, keepdims=True)
    unit = along / np.where(span > 1e-9, span, 1.0)
    point = start[:, :, None] + _PARTS[:, None] * along[:, :, None]
    point = point - (depth * span)[..., None] * normal[:, :, None]
    slope = 4 * belly * (1 - 2 * _PARTS)
    lean = normal[:, :, None] + slope[:, None] * unit[:, :, None]
    found = towards(lean)
    return found, np.asarray((found.normal * point).sum(axis=-1))
