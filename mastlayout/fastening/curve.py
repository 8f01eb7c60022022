"""Does a foot fit the curve? How far its edges stand off the skin, and how a taper tilts it."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import square_to_foot, turned_offsets
from mastlayout.geometry.seat import Places
from mastlayout.geometry.skin import Skin
from mastlayout.model.kind import Foot


@dataclass(frozen=True, eq=False)
class Fit:
    """A foot on the skin at n places. ``gap_mm`` (n,) nan where its edges pass beside the mast.

    Below nothing, the edges touch first and the middle stands off by as much. ``tilt_deg`` is how
    far a taper leans the foot from the mast's axis, positive where its upper edge lies farther in.
    """

    gap_mm: Array
    tilt_deg: Array


def fit_of(skin: Skin, foot: Foot, places: Places) -> Fit:
    """Return how a foot fits the true outline: the depth of the packer or saddle that its edges want.

    The skin falls away from the plane that touches it at the foot's middle; a radiused foot falls
    away too, by R - sqrt(R2 - a2) at a across. ValueError for a radiused foot whose radius is not known.
    """
    corners = np.array([(a * foot.across_mm / 2, b * foot.along_mm / 2) for b in (1, -1) for a in (-1, 1)])
    corners = corners + (foot.centre_across_mm, foot.centre_along_mm)
    across, along = turned_offsets(corners, places.turn_deg)
    z = places.along_mm[:, None] + along
    girth = square_to_foot(skin, places, across, z)
    at, _normal = skin.at(z, np.nan_to_num(girth))
    middle, out = skin.at(places.along_mm, places.around)
    falls = ((middle[:, None] - at) * out[:, None]).sum(axis=-1)
    falls[np.isnan(girth)] = np.nan
    # Up and down together the slope of a taper is no gap: the foot leans with it.
    upper, lower = falls[:, :2].mean(axis=1), falls[:, 2:].mean(axis=1)
    lean = np.degrees(np.arctan2(upper - lower, foot.along_mm))
    return Fit((upper + lower) / 2 - own_fall_mm(foot), lean)


def own_fall_mm(foot: Foot) -> float:
    """Return how far the underside of a foot falls away at its edges: nothing where it is flat."""
    if foot.seat == "flat":
        return 0.0
    if foot.seat == "shaped" or foot.radius_mm is None:
        raise ValueError(foot.seat)
    half = min(foot.across_mm / 2, foot.radius_mm)
    return float(foot.radius_mm - np.sqrt(foot.radius_mm**2 - half**2))
