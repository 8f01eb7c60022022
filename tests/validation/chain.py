"""A chain dragged past a mast in one slice square to it: what a tack touches, found without the program.

The chain is made fast at the luff. Its free end is carried from port to starboard and back with the
wind anywhere within 60 degrees of ahead, so that it points aft within 60 degrees. It is taut: it
lies straight until it meets a support. The sheet holds the end on its own side of that support
until the end slips off ahead of it into the next gap, so that no part of the chain gets where the
luff cannot see it. Every length from nothing to the chord is dragged so: whatever a ray from the luff
meets before its first support, and nearer than the chord, is touched by the length that ends there.
"""

from dataclasses import dataclass

import numpy as np

WIND = np.radians(60.0)
# How far beside an edge, radians, the chain is sent past it; under 0.01 mm at 5 m.
BESIDE = 1e-6
# What the point at which a line touches the mast may be known to, mm.
ROUND = 5.0


@dataclass(frozen=True, eq=False)
class Oval:
    """An ellipse; a disc where both semi-axes are one."""

    middle: np.ndarray
    semi: np.ndarray

    def reach(self, direction):
        """How far it reaches in unit directions (…, 2)."""
        return direction @ self.middle + np.hypot(*(direction * self.semi).T)

    def crossed(self, start, along):
        """Where rays from a point along unit vectors (r, 2) enter and leave; inf, -inf where they miss."""
        a, b = along / self.semi, (start - self.middle) / self.semi
        aa, ab, bb = (a * a).sum(axis=1), a @ b, b @ b - 1
        inside = ab**2 - aa * bb
        root = np.sqrt(np.maximum(inside, 0.0))
        meets = (inside > 0) & (root > ab)
        return np.where(meets, (-ab - root) / aa, np.inf), np.where(meets, (-ab + root) / aa, -np.inf)

    def marks(self, start):
        """Points beside which the chain is sent: the two at which lines from a point touch it."""
        b = (start - self.middle) / self.semi
        size = np.hypot(*b)
        turn = np.arctan2(b[1], b[0]) + np.array([1.0, -1.0]) * np.arccos(min(1.0, 1.0 / size))
        return self.middle + self.semi * np.stack([np.cos(turn), np.sin(turn)], axis=1)

    def mirrored(self):
        """The same on the other side of the centreline."""
        return Oval(self.middle * (1, -1), self.semi)


@dataclass(frozen=True, eq=False)
class Plate:
    """A convex polygon, its corners (c, 2) counter-clockwise."""

    corner: np.ndarray

    def reach(self, direction):
        """How far it reaches in unit directions (…, 2)."""
        return (direction @ self.corner.T).max(axis=-1)

    def crossed(self, start, along):
        """Where rays from a point along unit vectors (r, 2) enter and leave; inf, -inf where they miss."""
        edge = np.roll(self.corner, -1, axis=0) - self.corner
        outward = np.stack([edge[:, 1], -edge[:, 0]], axis=1)
        room = (outward * (self.corner - start)).sum(axis=1)
        speed = along @ outward.T
        with np.errstate(divide="ignore", invalid="ignore"):
            at = room / speed
        enters = np.where(speed < 0, at, np.where((speed == 0) & (room < 0), np.inf, -np.inf)).max(axis=1)
        leaves = np.where(speed > 0, at, np.inf).min(axis=1)
        meets = (enters < leaves) & (leaves > 0)
        return np.where(meets, np.maximum(enters, 0.0), np.inf), np.where(meets, leaves, -np.inf)

    def marks(self, start):
        """Points beside which the chain is sent: the corners."""
        return self.corner

    def mirrored(self):
        """The same on the other side of the centreline."""
        return Plate(self.corner[::-1] * (1, -1))


def plate(middle, size, turn=0.0):
    """A box of a size about a middle, turned by radians."""
    c, s = np.cos(turn), np.sin(turn)
    corner = np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]]) * np.asarray(size) / 2
    return Plate(corner @ np.array([[c, s], [-s, c]]) + middle)


def hull(points):
    """The convex polygon round points (p, 2)."""
    from scipy.spatial import ConvexHull  # noqa: PLC0415 - only random fittings need it

    return Plate(points[ConvexHull(points).vertices])


@dataclass(frozen=True, eq=False)
class Slice:
    """A rig cut square to the mast: the luff's point, the mast, and all else that holds cloth."""

    luff: np.ndarray
    mast: Oval | Plate
    others: tuple

    @property
    def supports(self):
        """Everything that holds cloth, the mast first."""
        return (self.mast, *self.others)


@dataclass(frozen=True, eq=False)
class Touch:
    """What the chain did to a fitting.

    ``touched`` at any length; ``borne`` by one that can lie round the mast, with ``ROUND`` mm to
    spare, or that meets no support as near as the fitting.
    """

    touched: bool
    borne: bool


def nearest(luff, body):
    """How far a point is from a body: the largest gap over directions."""
    angle = np.linspace(0.0, 2 * np.pi, 3600, endpoint=False)
    direction = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    return float((direction @ luff - body.reach(direction)).max())


def drag(rig, fitting, chord, directions=400):
    """Drag chains of every length to the chord past a fitting and say what they do to it."""
    along = _directions(rig, fitting, directions)
    stopped = stops(rig, along, chord)
    touched = fitting.crossed(rig.luff, along)[0] < stopped
    round_mast = np.hypot(*(rig.mast.marks(rig.luff) - rig.luff).T).max()
    first = min(nearest(rig.luff, body) for body in rig.supports)
    alone = touched.any() and nearest(rig.luff, fitting) < first
    return Touch(bool(touched.any()), bool(alone or (touched & (stopped > round_mast + ROUND)).any()))


def stops(rig, along, chord):
    """How far the chain gets along unit vectors (r, 2) until its length or a support ends it."""
    meets = [body.crossed(rig.luff, along)[0] for body in rig.supports]
    return np.minimum(np.min(meets, axis=0), chord)


def swept(rig, chord, directions=4000):
    """The outline (r, 2) of all that the chain touches."""
    along = _directions(rig, rig.mast, directions)
    along = along[np.argsort(np.arctan2(along[:, 1], -along[:, 0]))]
    return np.concatenate([rig.luff[None], rig.luff + along * stops(rig, along, chord)[:, None]])


def hidden(rig, directions=4000, far=50_000.0):
    """The outline (r, 2) of all that the mast keeps even an endless chain from."""
    along = _directions(rig, rig.mast, directions)
    along = along[np.argsort(np.arctan2(along[:, 1], -along[:, 0]))]
    stopped = stops(rig, along, np.inf)
    along, stopped = along[np.isfinite(stopped)], stopped[np.isfinite(stopped)]
    return rig.luff + np.concatenate([along * stopped[:, None], along[::-1] * far])


def _directions(rig, fitting, count):
    """The unit vectors (r, 2) the chain is sent along: evenly, and close beside every edge."""
    marks = np.concatenate([body.marks(rig.luff) for body in (*rig.supports, fitting)]) - rig.luff
    edges = np.arctan2(marks[:, 1], -marks[:, 0])
    seen = np.arctan2((m := fitting.marks(rig.luff) - rig.luff)[:, 1], -m[:, 0])
    angle = np.concatenate([
        np.linspace(-WIND, WIND, count), edges - BESIDE, edges + BESIDE,
        np.linspace(seen.min(), seen.max(), count // 4),
    ])  # fmt: skip
    angle = angle[np.abs(angle) <= WIND]
    return np.stack([-np.cos(angle), np.sin(angle)], axis=1)
