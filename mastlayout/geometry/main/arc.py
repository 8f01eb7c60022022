"""How far outlines stand off cloth that swings out to port about a point, straight or bellied.

Angles are from straight aft, radians. Cloth at an angle, and all it swept before, lies abaft it; a
belly bulges forward of the straight line by 4 k s (1 - s) of its span. What is swept is convex, so
an outline stands off it by the most that any line which the cloth touches lies between.
"""

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.tack.directions import Between, towards

# The belly's arc is held by its tangents at these parts of the span.
_PARTS: Array = np.linspace(0.0, 1.0, 13)
# So many lines through the point it swings about: 20 degrees apart at most, so that it misses 1.5 % at most.
_FAN = 9


def along(angle: Array) -> Array:
    """Return the directions (…, 2) of cloth at angles to port of straight aft."""
    return np.stack([-np.cos(angle), np.sin(angle)], axis=-1)


def abaft(angle: Array) -> Array:
    """Return the directions (…, 2) square to cloth at angles, pointing abaft it."""
    return np.stack([-np.sin(angle), -np.cos(angle)], axis=-1)


def off_arc(point: Array, angle: Array, span: Array, belly: float, top: Array, support: Array) -> Array:
    """Return how far outlines (r, COUNT) stand off cloth that swings about points (r, 2); negative within.

    The arguments are those of ``arc_lines``.
    """
    lines, offset = arc_lines(point, angle, span, belly, top)
    return np.asarray((offset - lines.reach(support)).max(axis=1))


def arc_lines(point: Array, angle: Array, span: Array, belly: float, top: Array) -> tuple[Between, Array]:
    """Return the lines (r, l) that cloth touches which swings about points (r, 2), and their offsets.

    ``span`` (r,) is how long it hangs free, ``belly`` k; lines through the point are asked from the
    cloth's own angle there up to ``top`` (r,), by which the other side of the point is told apart.
    """
    straight, parts = along(angle), _PARTS if belly else _PARTS[:1]
    bulge = 4 * belly * parts * (1 - parts)
    arc = (
        point[:, None]
        + (span[:, None] * parts)[..., None] * straight[:, None]
        - (span[:, None] * bulge)[..., None] * abaft(angle)[:, None]
    )
    turned = angle[:, None] + np.arctan(4 * belly * (1 - 2 * parts))
    fan = (
        turned[:, :1] + np.linspace(0.0, 1.0, _FAN) * (np.maximum(top, turned[:, 0]) - turned[:, 0])[:, None]
    )
    touched = np.concatenate([arc, np.repeat(point[:, None], _FAN, axis=1)], axis=1)
    lines = towards(abaft(np.concatenate([turned, fan], axis=1)))
    return lines, np.asarray((lines.normal * touched).sum(axis=2))


def off_mast(luff: Array, angle: Array, mast: Array, support: Array) -> Array:
    """Return how far outlines (r, COUNT) lie in the shade of the mast from cloth that swings past abeam.

    The arguments are those of ``mast_lines``.
    """
    lines, offset = mast_lines(luff, angle, mast)
    return np.asarray((offset - lines.reach(support)).min(axis=1))


def mast_lines(luff: Array, angle: Array, mast: Array) -> tuple[Between, Array]:
    """Return the lines (r, l) along which cloth past abeam leaves the mast it lies on, and their offsets.

    Cloth on its track at ``luff`` (2,) lies on the mast, whose support is ``mast`` (r, COUNT), and
    leaves it at each angle (r,) from abeam on: what lies in the shade of all these is not touched.
    """
    past = np.maximum(angle - np.pi / 2, 0.0)
    lines = towards(abaft(np.pi / 2 + past[:, None] * np.linspace(0.0, 1.0, 2 * _FAN)))
    return lines, np.maximum(lines.reach(mast), lines.normal @ luff)


def pushed_off(luff: Array, angle: Array, mast: Array) -> Array:
    """Return the points (r, 2) on the line of cloth at angles that lies on the mast, abreast of the luff."""
    line: Between = towards(abaft(angle))
    out = np.maximum(line.reach(mast) - line.normal @ luff, 0.0) * (angle > np.pi / 2)
    return np.asarray(luff + out[:, None] * line.normal)
