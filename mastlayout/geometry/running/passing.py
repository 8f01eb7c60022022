"""Where a rope passes a fitting, and where its end is made fast on deck."""

from collections.abc import Mapping

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.inside import line_point
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import deck_point
from mastlayout.geometry.skin import Skin
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import LinePoint

# What of a fitting a rope runs over or through, the likeliest first.
_RUNS = (("sheave",), ("mouth",), ("body", "bracket", "arm", "rope"))


def rope_point(
    skin: Skin, point: LinePoint, placed: Mapping[str, Placed], towards: Array | None
) -> Array | None:
    """Return where (3,) a rope passes a fitting or a place of its own; None where nobody knows.

    Over a sheave or through a mouth, where the fitting has one: of several the nearest to where it
    leads on, ``towards`` (3,).
    """
    host = placed.get(point.fitting) if point.fitting is not None else None
    if host is None:
        return line_point(skin, point, placed)
    for parts in _RUNS:
        of_these = [i for i, part in enumerate(host.body.parts) if part in parts]
        if of_these:
            centre = host.solids.centre[of_these]
            if len(parts) > 1:
                return np.asarray(centre.mean(axis=0))
            near = 0 if towards is None else int(np.linalg.norm(centre - towards, axis=1).argmin())
            # The rope leaves a sheave at its rim, on the side that is away from the mast.
            rim = host.solids.radius[of_these[near]].max()
            return np.asarray(centre[near] + rim * host.seats.axes[0, 2])
    return np.asarray(host.seats.origin[0])


def made_fast(end: DeckEnd | None, rake_deg: float | None) -> Array | None:
    """Return the point (3,) where a line is made fast on deck; None where nobody measured it."""
    return deck_point(end, "port", rake_deg) if end is not None and rake_deg is not None else None
