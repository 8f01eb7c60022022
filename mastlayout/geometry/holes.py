"""Feet on the skin: outlines and holes wrapped along the girth, and the way a drill goes in."""

from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole, height_mm
from mastlayout.geometry.seat import Places, Seats
from mastlayout.geometry.shared import Shared, shared_by
from mastlayout.geometry.skin import Skin
from mastlayout.model.kind import Cutout, Fastener, Foot

Use = Literal["hole", "entry", "cutout"]
_CABLE = Fastener(how="cable")


@dataclass(frozen=True, eq=False)
class Opening:
    """One opening of a pattern in the foot's own frame: a hole, the cable entry, or a cut-out."""

    number: int
    use: Use
    across_mm: float
    along_mm: float
    fastener: Fastener
    diameter_mm: float | None
    cutout: Cutout | None = None


def openings(foot: Foot) -> tuple[Opening, ...]:
    """Return the pattern in the order its numbers were given: holes, entry, cut-outs.

    A hole that is left out keeps its number, so that no tag on the mast changes its meaning.
    """
    found = [
        Opening(i + 1, "hole", hole.across_mm, hole.along_mm, hole.fastener, hole.diameter_mm)
        for i, hole in enumerate(foot.holes)
        if hole.fastener.how != "left out"
    ]
    number = len(foot.holes)
    if foot.entry:
        entry, number = foot.entry, number + 1
        found.append(Opening(number, "entry", entry.across_mm, entry.along_mm, _CABLE, entry.diameter_mm))
    for at, cutout in enumerate(foot.cutouts, number + 1):
        found.append(
            Opening(
                at, "cutout", cutout.across_mm, cutout.along_mm, Fastener(how="none"), cutout.width_mm, cutout
            )
        )
    return tuple(found)


@dataclass(frozen=True, eq=False)
class Drilled:
    """h openings of one foot at n places. Arrays (n, h) or (n, h, 3); nan where the drill misses the mast.

    ``girth_mm`` is wrapped to -half to +half; ``direction`` points into the mast. Places of one of
    the ``levels`` have all heights alike, those of one of the ``sides`` all else: how the openings
    stand to each other, girths, directions, and where a level cut shows them.
    """

    openings: tuple[Opening, ...]
    z_mm: Array
    girth_mm: Array
    point: Array
    direction: Array
    levels: Shared
    sides: Shared

    def __len__(self) -> int:
        return len(self.openings)

    def index_of(self, number: int) -> int | None:
        """Return the place in these arrays of an opening by its number; None where it is left out."""
        return next((i for i, opening in enumerate(self.openings) if opening.number == number), None)


def drilled(skin: Skin, foot: Foot, places: Places, seats: Seats) -> Drilled:
    """Put the pattern of a foot on the skin at n places on the mast.

    A shaped foot is drilled square to the skin, its pattern measured along the girth; a flat or
    radiused one is drilled square to the foot.
    """
    pattern = openings(foot)
    offsets = np.array([(o.across_mm, o.along_mm) for o in pattern]).reshape(len(pattern), 2)
    _across, along = turned_offsets(offsets, places.turn_deg)
    z = places.along_mm[:, None] + along
    levels, sides = shared_by(places.along_mm, places.turn_deg), _sides(skin, places, z)
    girth, level, direction = _on_sides(skin, foot, places.some(sides.rows), seats, sides.rows, offsets)
    point = np.empty((*z.shape, 3))
    point[..., :2], point[..., 2] = level[sides.which], z
    point[..., 2][np.isnan(point[..., 0])] = np.nan
    return Drilled(pattern, z, girth[sides.which], point, direction[sides.which], levels, sides)


def _sides(skin: Skin, places: Places, z: Array) -> Shared:
    """Return which places (n,) see the same outline from the same side; z (n, h) of their openings."""
    keys = [places.around, places.turn_deg]
    if skin.taper is not None:
        highest = np.maximum(z.max(axis=1, initial=0.0), places.along_mm)
        tapered = highest > height_mm(skin.length_mm, skin.taper.from_masthead_mm)
        keys.append(np.where(tapered, places.along_mm, 0.0))
    return shared_by(*keys)


def _on_sides(
    skin: Skin, foot: Foot, places: Places, seats: Seats, rows: Whole, offsets: Array
) -> tuple[Array, Array, Array]:
    """Return girths (u, h), level places (u, h, 2) and directions (u, h, 3) of openings at some places."""
    across, along = turned_offsets(offsets, places.turn_deg)
    z = places.along_mm[:, None] + along
    if foot.seat == "shaped":
        girth = _upright(skin, places, z) + across
    else:
        girth = square_to_foot(skin, places, across, z)
    point, normal = skin.at(z, np.nan_to_num(girth))
    point[np.isnan(girth)] = np.nan
    out = normal if foot.seat == "shaped" else np.broadcast_to(seats.axes[rows, None, 2], point.shape)
    return skin.wrapped(z, girth), point[..., :2], -out


def turned_offsets(offsets: Array, turn_deg: Array) -> tuple[Array, Array]:
    """Return across and along (n, k) of foot offsets (k, 2), the foot turned clockwise seen from outside."""
    cos, sin = np.cos(np.radians(turn_deg))[:, None], np.sin(np.radians(turn_deg))[:, None]
    return offsets[:, 0] * cos + offsets[:, 1] * sin, offsets[:, 1] * cos - offsets[:, 0] * sin


def _upright(skin: Skin, places: Places, z: Array) -> Array:
    """Return the girths (n, k) of the line straight up the mast through each foot's middle, at heights z.

    Girth counts from the track, so in a taper that line has another girth at each height: the forward
    centreline has half of what is left. A foot is as straight as the part and does not lean with it.
    """
    girth = np.repeat(places.around[:, None], z.shape[1], axis=1)
    taper = skin.taper
    if taper is None:
        return girth
    within = z.max(axis=1, initial=0.0) > skin.length_mm - taper.from_masthead_mm
    if within.any():
        girth[within] = square_to_foot(skin, places.some(within), np.zeros(z[within].shape), z[within])
    return girth


def square_to_foot(skin: Skin, places: Places, across: Array, z: Array) -> Array:
    """Return the girths (n, h) where drills square to a flat foot meet the skin; nan where they miss.

    Newton's steps on the skin until the place lies ``across`` off the foot's middle, measured in
    the foot's plane.
    """
    centre, out = skin.at(places.along_mm, places.around)
    tangent = np.stack([-out[:, 1], out[:, 0]], axis=-1)[:, None, :]
    girth = places.around[:, None] + across
    for _step in range(25):
        point, normal = skin.at(z, girth)
        offset = ((point[..., :2] - centre[:, None, :2]) * tangent).sum(axis=-1)
        slope = normal[..., 0] * tangent[..., 1] - normal[..., 1] * tangent[..., 0]
        # Each drill stops by itself, so that one among many stands where it stands alone.
        off = np.where(np.abs(across - offset) < 1e-9, 0.0, across - offset)
        if not off.any():
            break
        girth = girth + np.clip(off / np.maximum(slope, 0.05), -30.0, 30.0)
    return np.where((np.abs(across - offset) < 0.01) & (slope > 0.05), girth, np.nan)


def foot_outline(foot: Foot) -> Array:
    """Return the foot's outline (k, 2) in its own frame, across and along, corners rounded."""
    half_across, half_along = foot.across_mm / 2, foot.along_mm / 2
    radius = min(foot.corner_radius_mm, half_across, half_along)
    angles = np.radians(np.linspace(0.0, 90.0, 7 if radius > 0 else 1))
    corner = radius * np.stack([np.cos(angles), np.sin(angles)], -1)
    inset = np.array([half_across - radius, half_along - radius])
    quarter = [(1, 1, corner), (-1, 1, corner[::-1]), (-1, -1, corner), (1, -1, corner[::-1])]
    points = np.concatenate([(inset + arc) * (sx, sy) for sx, sy, arc in quarter])
    return np.asarray(points + (foot.centre_across_mm, foot.centre_along_mm))


def wrapped_outline(skin: Skin, foot: Foot, places: Places) -> Array:
    """Return the foot's outline on the developed skin at n places: (n, k, 2), girth from the middle and z.

    The girth is not wrapped, so that an outline over the track stays in one piece. A flat foot's
    edges are laid along the girth, as the part is traced: what it covers is never less.
    """
    outline = foot_outline(foot)
    across, along = turned_offsets(outline, places.turn_deg)
    z = places.along_mm[:, None] + along
    return np.stack([_upright(skin, places, z) + across, z], axis=-1)
