"""The frames: the only place where a height is subtracted from another or an angle becomes a side.

Mast frame, mm: x forward, y to port, z up the mast axis from the heel. Boat frame: X level
forward, Y to port, Z up, same origin. The mast leans aft by the rake.
"""

import math
from typing import Literal, TypeVar, get_args

import numpy as np
from numpy.typing import NDArray

from mastlayout.frozen import dataclass
from mastlayout.units import MM_PER_INCH, Units, feet_inches

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Whole = NDArray[np.intp]
Index = NDArray[np.bool_] | NDArray[np.intp] | slice
Face = Literal["forward", "aft", "port", "starboard"]
FACES: tuple[Face, ...] = get_args(Face)
End = Literal["heel", "masthead"]
Hand = Literal["left", "right"]
Lengths = TypeVar("Lengths", float, Array)

GIRTH_PARTS_PER_INCH = 32
HEIGHT_PARTS_PER_INCH = 16
_FACES: dict[Face, tuple[float, float]] = {
    "forward": (1.0, 0.0),
    "aft": (-1.0, 0.0),
    "port": (0.0, 1.0),
    "starboard": (0.0, -1.0),
}


def height_mm(length_mm: float, from_masthead_mm: Lengths) -> Lengths:
    """Return z, the height above the heel, of a reading from the masthead, or the other way round."""
    return length_mm - from_masthead_mm


@dataclass(frozen=True)
class Reading:
    """A height as two tapes read it; ``masthead + heel == total`` exactly.

    The numbers are whole millimetres, or whole sixteenths of an inch where ``units`` is inches.
    """

    masthead: int
    heel: int
    total: int
    units: Units = "metric"

    def text(self, number: int) -> str:
        """Write one of the three numbers as paper shows it."""
        return str(number) if self.units == "metric" else feet_inches(number, HEIGHT_PARTS_PER_INCH)


def reading(from_masthead_mm: float, length_mm: float, units: Units = "metric") -> Reading:
    """Round the masthead reading and the length once, and take the heel reading as their difference."""
    part = 1.0 if units == "metric" else MM_PER_INCH / HEIGHT_PARTS_PER_INCH
    masthead, total = round(from_masthead_mm / part), round(length_mm / part)
    return Reading(masthead, total - masthead, total, units)


def reading_of(z_mm: float, length_mm: float, units: Units) -> Reading:
    """Return what a tape hooked at the masthead reads of a thing: what stands above it reads 0 there."""
    return reading(max(height_mm(length_mm, z_mm), 0.0), length_mm, units)


@dataclass(frozen=True)
class RoundReading:
    """A place round the skin as two tapes read it; ``forward + track_edge == total`` exactly.

    In halves of a millimetre, or in 1/32 of an inch. ``side`` is None on a centreline.
    """

    forward: int
    track_edge: int
    total: int
    side: Literal["port", "starboard"] | None
    units: Units = "metric"

    def text(self, number: int) -> str:
        """Write one of the three numbers as paper shows it."""
        return f"{number / 2:.1f}" if self.units == "metric" else feet_inches(number, GIRTH_PARTS_PER_INCH)


def round_reading(
    girth_mm: float, half_girth_mm: float, half_track_mm: float, units: Units = "metric"
) -> RoundReading:
    """Return the girth from the forward centreline and from the track's edge on the same side.

    ``girth_mm`` counts from the middle of the track, positive to starboard.
    """
    part = 0.5 if units == "metric" else MM_PER_INCH / GIRTH_PARTS_PER_INCH
    forward = round((half_girth_mm - abs(girth_mm)) / part)
    total = round(half_girth_mm / part) - round(half_track_mm / part)
    on_line = forward == 0 or abs(girth_mm) < part / 2
    side: Literal["port", "starboard"] | None = None
    if not on_line:
        side = "starboard" if girth_mm > 0 else "port"
    return RoundReading(forward, total - forward, total, side, units)


def boat_to_mast(points: Array, rake_deg: float) -> Array:
    """Turn points (…, 3) of the boat frame into the mast frame."""
    cos, sin = np.cos(np.radians(rake_deg)), np.sin(np.radians(rake_deg))
    x, y, z = points[..., 0], points[..., 1], points[..., 2]
    return np.stack([x * cos + z * sin, y, z * cos - x * sin], axis=-1)


def mast_to_boat(points: Array, rake_deg: float) -> Array:
    """Turn points (…, 3) of the mast frame into the boat frame."""
    return boat_to_mast(points, -rake_deg)


def lean_of(up: Array, rake_deg: float) -> tuple[float, float]:
    """Return how far, in degrees, a direction (3,) of the mast frame leans aft and to port from plumb."""
    x, y, z = mast_to_boat(up, rake_deg)
    return math.degrees(math.atan2(-x, z)), math.degrees(math.atan2(y, z))


def above_water_mm(
    z_mm: Lengths,
    rake_deg: float,
    heel_above_water_mm: float,
    *,
    trim_deg: float = 0.0,
    heel_deg: float = 0.0,
    flotation_abaft_mm: float = 0.0,
) -> Lengths:
    """Return the height above the water of places on the mast's axis; upright on her marks unless said.

    ``trim_deg`` is the bow's way down, about the centre of flotation, ``flotation_abaft_mm`` abaft the
    mast's heel; ``heel_deg`` the angle to either side, about the centreline at the water. As a ship's
    pitch and roll: the roll is about her own long axis, so it leaves the angle of trim as it is.
    """
    rake, trim, heel = (math.radians(angle) for angle in (rake_deg, trim_deg, heel_deg))
    upright = z_mm * math.cos(rake) + heel_above_water_mm
    if not trim:
        return upright * math.cos(heel)
    abaft_mast = z_mm * math.sin(rake)
    return upright * (math.cos(heel) * math.cos(trim)) - (flotation_abaft_mm - abaft_mast) * math.sin(trim)


def above_deck_mm(z_mm: float, deck_above_heel_mm: float) -> float:
    """Return the height along the mast above the deck beside it."""
    return z_mm - deck_above_heel_mm


def bearing_direction(bearing_deg: float | Array) -> Array:
    """Return the unit vectors (…, 2) in x, y of bearings clockwise from ahead seen from above."""
    angle = np.radians(np.asarray(bearing_deg, dtype=float))
    return np.stack([np.cos(angle), -np.sin(angle)], axis=-1)


def bearing_of(x: float, y: float) -> float:
    """Return the bearing, 0 to 360, of a direction in the mast's plane."""
    return math.degrees(math.atan2(-y, x)) % 360.0


def lying_axes(face_up: Face, standing_at: End) -> tuple[tuple[float, float], tuple[float, float], float]:
    """Return the watcher's right and up as (x, y) of the mast frame, and 1 or -1: along z as one looks.

    The watcher's right hand is look x up; at the heel one looks towards the masthead (+z).
    """
    up = _FACES[face_up]
    # (0, 0, s) x (ux, uy, 0) = (-s uy, s ux, 0)
    look = 1.0 if standing_at == "heel" else -1.0
    return (-look * up[1], look * up[0]), up, look


def hand_of(side: Face, face_up: Face, standing_at: End) -> Hand | None:
    """Return the hand on which ``side`` of a lying mast is, looking along it; None for up and down."""
    right, _up, _look = lying_axes(face_up, standing_at)
    to_right = right[0] * _FACES[side][0] + right[1] * _FACES[side][1]
    if not to_right:
        return None
    return "right" if to_right > 0 else "left"


def face_of(bearing_deg: float) -> Face:
    """Return the face of the mast within 45 degrees of a bearing; ahead and aft win the borders."""
    turned = bearing_deg % 360.0
    if turned <= 45.0 or turned >= 315.0:
        return "forward"
    if 135.0 <= turned <= 225.0:
        return "aft"
    return "starboard" if turned < 180.0 else "port"
