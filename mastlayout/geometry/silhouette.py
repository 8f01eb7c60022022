"""Outlines of solids as a drawing shows them: the shadow of each on a plane."""

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.solids import Solids

# The two axes of each drawing, to the right and up, in the mast frame.
FROM_STARBOARD: Array = np.array([(1.0, 0.0, 0.0), (0.0, 0.0, 1.0)])
FROM_PORT: Array = np.array([(-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)])
FROM_AHEAD: Array = np.array([(0.0, 1.0, 0.0), (0.0, 0.0, 1.0)])
FROM_ABOVE: Array = np.array([(0.0, -1.0, 0.0), (1.0, 0.0, 0.0)])
_DIRECTIONS = 64
_ANGLES = np.linspace(0.0, 2 * np.pi, _DIRECTIONS, endpoint=False) + 1e-6
_SEEN: Array = np.stack([np.cos(_ANGLES), np.sin(_ANGLES)])


def silhouettes(solids: Solids, view: Array) -> Array:
    """Return the outlines (n, k, 2) of n solids seen along a view's axes (2, 3), anticlockwise.

    A corner is met from many directions, so its point repeats: what is drawn is still exact there,
    and a round edge is drawn by chords of a sixty-fourth of the turn.
    """
    # As ``Solids.core``, but on the plane, where all solids share their directions.
    ends, spans = solids.ends @ view.T, solids.spans @ view.T
    reached = ends @ _SEEN  # (n, 2, k): how far each end reaches
    touched = ends[..., None]  # (n, 2, 2, k): and where
    if solids.radius.any():
        size, rim = _discs(solids, view)
        reached = reached + solids.radius[..., None] * size
        touched = touched + solids.radius[..., None, None] * rim
    if spans.any():
        reach = spans @ _SEEN
        reached = reached + np.abs(reach).sum(axis=2)
        touched = touched + spans.swapaxes(2, 3) @ np.where(reach >= 0.0, 1.0, -1.0)
    farther = (reached[:, 1] > reached[:, 0])[:, None]
    core = np.where(farther, touched[:, 1], touched[:, 0])
    return np.asarray((core + solids.round_mm[:, None, None] * _SEEN).swapaxes(1, 2))


def _discs(solids: Solids, view: Array) -> tuple[Array, Array]:
    """Return how far discs of radius one at the ends of solids reach, (n, 1, k), and where, (n, 1, 2, k)."""
    axis, away = solids.axis @ view.T, solids.axis @ _towards(view)
    along = axis @ _SEEN
    across = _SEEN - axis[..., None] * along[:, None]
    size = np.sqrt(across[:, 0] ** 2 + across[:, 1] ** 2 + (along * away[:, None]) ** 2)
    return size[:, None], (across / np.where(size > 1e-12, size, 1.0)[:, None])[:, None]


def _towards(view: Array) -> Array:
    """Return the direction (3,) towards the watcher; ``np.cross`` takes as long as half an outline."""
    (a, b, c), (d, e, f) = view.tolist()
    return np.array((b * f - c * e, c * d - a * f, a * e - b * d))
