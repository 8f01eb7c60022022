"""Does a foot fit the curve? How far its edges stand off, how a taper tilts it, what fills the gap."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.holes import square_to_foot, turned_offsets
from mastlayout.geometry.seat import Places, Seats
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


@dataclass(frozen=True)
class Packer:
    """How thick a packer or saddle is in its middle and at its edges, mm; nothing, where none is wanted."""

    middle_mm: float
    edges_mm: float

    @property
    def is_even(self) -> bool:
        """Tell whether it is alike all over, to what a sheet writes."""
        return abs(self.edges_mm - self.middle_mm) < _EVEN_MM

    @property
    def thick_mm(self) -> float:
        """Its thickest."""
        return max(self.middle_mm, self.edges_mm)


# A sheet writes tenths.
_EVEN_MM = 0.05


def packer_of(skin: Skin, foot: Foot, places: Places) -> Packer | None:
    """Return the packer between a foot and the skin at its one place; None where a radius is not known.

    A shaped foot wants one only where it stands off.
    """
    off = float(places.stand_off_mm[0])
    if foot.seat == "shaped":
        return Packer(off, off)
    if foot.seat == "radiused" and foot.radius_mm is None:
        return None
    gap = float(fit_of(skin, foot, places).gap_mm[0])
    return Packer(off + max(-gap, 0.0), off + max(gap, 0.0))


def own_fall_mm(foot: Foot) -> float:
    """Return how far the underside of a foot falls away at its edges: nothing where it is flat."""
    return float(_own_fall_mm(foot, np.array(foot.across_mm / 2)))


def _own_fall_mm(foot: Foot, across_mm: Array) -> Array:
    if foot.seat == "flat":
        return np.zeros_like(across_mm)
    if foot.seat == "shaped" or foot.radius_mm is None:
        raise ValueError(foot.seat)
    within = np.minimum(np.abs(across_mm), foot.radius_mm)
    return np.asarray(foot.radius_mm - np.sqrt(foot.radius_mm**2 - within**2))


def packed_mm(skin: Skin, foot: Foot, places: Places, seats: Seats, points: Array) -> Array:
    """Return what lies between a foot and the skin at points of the skin, (n, k) for points (n, k, 3).

    The packer that fills all of it, or the bedding where that is little: as thick as the foot stands
    off, and as far as the skin falls away there below its underside. nan where a radius is not known,
    or the point misses the mast.
    """
    off = np.broadcast_to(places.stand_off_mm[:, None], points.shape[:2])
    if foot.seat == "shaped":
        return np.asarray(off)
    if foot.seat == "radiused" and foot.radius_mm is None:
        return np.full(points.shape[:2], np.nan)
    away = np.einsum("nkj,nij->nki", points - seats.origin[:, None], seats.axes)
    found = -away[..., 2]
    if foot.seat == "radiused" or skin.taper is not None:
        fit = fit_of(skin, foot, places)
        # A foot leans with a taper; one whose edges touch first stands off in its middle.
        found = found - away[..., 1] * np.tan(np.radians(fit.tilt_deg))[:, None]
        found = found - _own_fall_mm(foot, away[..., 0]) + np.maximum(-fit.gap_mm, 0.0)[:, None]
    return np.asarray(np.maximum(found, 0.0))
