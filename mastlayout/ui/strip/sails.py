"""Sails as pale outlines: tack, head and clew where they are known, edges straight."""

from collections.abc import Iterator

import numpy as np

from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.model.sails import Sail


def sail_outlines(scene: Scene) -> Iterator[Array]:
    """Yield tack, head and clew (3, 3), mast frame, of each sail whose three corners are known.

    The clew of a mainsail stands E abaft the mast, that of a headsail LP abaft its luff.
    """
    for sail in scene.layout.sails:
        luff = _luff(scene, sail)
        out_mm = sail.e_mm if sail.role == "main" else sail.lp_mm
        if luff is None or out_mm is None or sail.clew_mm is None:
            continue
        tack, head = luff
        along = (head - tack) / np.linalg.norm(head - tack)
        abaft = np.array([-along[2], 0.0, along[0]])
        # The one place on the line LP abaft the luff that has the clew's height.
        beside = tack + out_mm * abaft
        clew_z = np.array([0.0, 0.0, height_mm(scene.skin.length_mm, sail.clew_mm)])
        clew = beside + ((clew_z - beside)[2] / along[2]) * along
        yield np.stack([tack, head, clew])


def _luff(scene: Scene, sail: Sail) -> tuple[Array, Array] | None:
    if sail.tack_mm is None or sail.head_mm is None:
        return None
    ends = _mast_aft(scene) if sail.role == "main" else _stay(scene, sail)
    if ends is None:
        return None
    low, high = ends
    at = [height_mm(scene.skin.length_mm, height) for height in (sail.tack_mm, sail.head_mm)]
    tack, head = (low + ((z - low[2]) / (high - low)[2]) * (high - low) for z in at)
    return tack, head


def _mast_aft(scene: Scene) -> Array:
    """Return heel and masthead (2, 3) of the full section's aft side."""
    aft = float(scene.skin.full.x[0])
    return np.array([[aft, 0.0, 0.0], [aft, 0.0, scene.skin.length_mm]])


def _stay(scene: Scene, sail: Sail) -> Array | None:
    stay = scene.stays.get(sail.stay or "")
    if stay is None or stay.points is None:
        return None
    return np.asarray(stay.points[[-1, 0]])
