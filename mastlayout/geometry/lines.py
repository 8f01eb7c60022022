"""Distances between straight legs, closed form, many pairs at once."""

import numpy as np

from mastlayout.geometry.frames import Array


def leg_distance(start_a: Array, end_a: Array, start_b: Array, end_b: Array) -> tuple[Array, Array]:
    """Return the least distance (...,) between legs a and b and the nearest point (..., 3) on a.

    Points (..., 3) are broadcast against each other. Source: the clamped closed form of Ericson,
    Real-Time Collision Detection (2005), 5.1.9. A leg may be a mere point.
    """
    u, v, w = end_a - start_a, end_b - start_b, start_a - start_b
    a, e, f = _dot(u, u), _dot(v, v), _dot(v, w)
    b, c = _dot(u, v), _dot(u, w)
    wide = a * e - b * b
    safe_a, safe_e = np.maximum(a, 1e-12), np.maximum(e, 1e-12)
    s = np.where(
        wide > 1e-9 * safe_a * safe_e, np.clip((b * f - c * e) / np.where(wide > 0, wide, 1.0), 0, 1), 0.0
    )
    t = np.where(e > 1e-12, (b * s + f) / safe_e, -1.0)
    s = np.where(t < 0, np.clip(-c / safe_a, 0, 1), np.where(t > 1, np.clip((b - c) / safe_a, 0, 1), s))
    t = np.clip(t, 0, 1)
    on_a = start_a + s[..., None] * u
    off = on_a - start_b - t[..., None] * v
    return np.sqrt(_dot(off, off)), np.asarray(on_a)


def _dot(p: Array, q: Array) -> Array:
    # Three products are added faster one by one than numpy sums so short an axis.
    return np.asarray(p[..., 0] * q[..., 0] + p[..., 1] * q[..., 1] + p[..., 2] * q[..., 2])
