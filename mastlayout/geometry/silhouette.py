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


def silhouettes(solids: Solids, view: Array) -> Array:
    """Return the outlines (n, k, 2) of n solids seen along a view's axes (2, 3), anticlockwise.

    A corner is met from many directions, so its point repeats: what is drawn is still exact there,
    and a round edge is drawn by chords of a sixty-fourth of the turn.
    """
    angle = np.linspace(0.0, 2 * np.pi, _DIRECTIONS, endpoint=False) + 1e-6
    seen = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    direction = seen @ view
    n = len(solids)
    every = np.tile(direction, (n, 1))
    member = np.repeat(np.arange(n), _DIRECTIONS)
    point = solids[member].core(every) + solids.round_mm[member][:, None] * every
    return np.asarray((point @ view.T).reshape(n, _DIRECTIONS, 2))
