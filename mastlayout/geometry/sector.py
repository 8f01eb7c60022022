"""The sector that cloth sweeps about its luff, as seen from a point: over which bearings some of it stands.

A sector has an apex, a radius and a half angle about straight aft. What it hides widest is hidden by
its apex, by an end of its arc, where a line from the point touches it, or where it is just far
enough off: these few places are asked, and nothing is sampled.
"""

import numpy as np

from mastlayout.geometry.frames import Array, Mask

_SLACK = 1e-9
_LEAST_MM = 1e-6


def seen_round(
    point: Array, apex: Array, radius: Array, half_angle: Array, beyond: Array
) -> tuple[Array, Array, Array]:
    """Return the bearing (r,) of each apex from a point (2,), and how far the sector is seen to either side.

    Degrees anticlockwise and clockwise from that bearing (r,); nan where nothing of it is ``beyond``
    (r,) mm off or more. ``apex`` is (r, 2), ``half_angle`` (r,) in radians.
    """
    off = apex - point
    away = np.maximum(np.hypot(off[:, 0], off[:, 1]), _LEAST_MM)
    towards = np.arctan2(off[:, 1], -off[:, 0]) + np.pi
    angle, length = _candidates(off, away, towards, radius, half_angle, beyond)
    place = off[:, None] + length[..., None] * np.stack([-np.cos(angle), np.sin(angle)], axis=-1)
    far = np.hypot(place[..., 0], place[..., 1])
    within = np.abs(_wrapped(angle)) <= half_angle[:, None] + _SLACK
    there = within & (far >= beyond[:, None] - _LEAST_MM) & (radius > 0)[:, None]
    bearing = np.degrees(np.arctan2(-off[:, 1], off[:, 0]))
    round_ = _wrapped(np.arctan2(-place[..., 1], place[..., 0]) - np.radians(bearing)[:, None])
    return bearing, _most(-round_, there), _most(round_, there)


def _candidates(
    off: Array, away: Array, towards: Array, radius: Array, half_angle: Array, beyond: Array
) -> tuple[Array, Array]:
    """Return the places (r, k) that may be seen widest, by their angle from straight aft and distance."""
    rows = np.zeros(len(away))
    touch = np.arccos(np.clip(radius / away, 0.0, 1.0))
    cosine = (radius**2 + away**2 - beyond**2) / (2 * np.maximum(radius, _LEAST_MM) * away)
    cut = np.where(np.abs(cosine) <= 1.0, np.arccos(np.clip(cosine, -1.0, 1.0)), np.nan)
    angles = [
        half_angle,
        -half_angle,
        towards + touch,
        towards - touch,
        towards + cut,
        towards - cut,
        towards,
    ]
    lengths = [radius] * len(angles)
    for edge in (half_angle, -half_angle):
        along = -off[:, 0] * np.cos(edge) + off[:, 1] * np.sin(edge)
        root = along**2 - away**2 + beyond**2
        for sign in (1.0, -1.0):
            length = -along + sign * np.sqrt(np.maximum(root, 0.0))
            fits = (root >= 0) & (length >= 0) & (length <= radius)
            angles.append(edge)
            lengths.append(np.where(fits, length, np.nan))
    return np.stack([rows, *angles], axis=1), np.stack([rows, *lengths], axis=1)


def _wrapped(angle: Array) -> Array:
    return np.asarray((angle + np.pi) % (2 * np.pi) - np.pi)


def _most(round_: Array, there: Mask) -> Array:
    """Return the widest (r,) to one side, degrees, at least 0; nan where nothing is there."""
    # Right behind the point is as far round to one side as to the other.
    opposite = np.pi - np.abs(round_) < _SLACK
    most = np.where(there, np.where(opposite, np.pi, round_), -np.inf).max(axis=1)
    return np.asarray(np.where(there.any(axis=1), np.degrees(np.maximum(most, 0.0)), np.nan))
