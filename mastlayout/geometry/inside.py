"""What lies inside the mast: conduits on the rays of their bearings, halyards from sheave to exit."""

from collections.abc import Mapping

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, bearing_direction, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.geometry.wall import nearest_thickness_mm
from mastlayout.model.mast import Conduit, Mast, Run
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Halyard, LinePoint

THROUGH_WALL = ("sheave", "inside", "exit")
_NOWHERE: Array = np.empty((0, 3))


@dataclass(frozen=True, eq=False)
class Inside:
    """One thing inside, as straight legs with a radius. Arrays start, end (k, 3).

    Between ``z_low_mm`` and ``z_high_mm`` it exists; where ``unknown`` names a measure nobody
    knows where it lies, and it has no legs.
    """

    id: str
    name: str
    z_low_mm: float
    z_high_mm: float
    start: Array
    end: Array
    radius_mm: float
    unknown: Measure | None = None


def conduit_centre(ring: Ring, bearing_deg: float, wall_mm: float, radius_mm: float) -> Array:
    """Return the centre (2,) of a pipe that lies against the wall, on the ray from the axis.

    The outline is convex: the pipe touches the wall where the first of its edges, moved in by wall
    and radius, cuts the ray.
    """
    direction = bearing_direction(bearing_deg)
    normal, reach = ring.walls()
    towards = normal @ direction
    facing = towards > 1e-6
    return np.asarray(np.min((reach[facing] - wall_mm - radius_mm) / towards[facing]) * direction)


def conduits(skin: Skin) -> tuple[Inside, ...]:
    """Return every run of every conduit of the mast."""
    return tuple(_run(skin, conduit, run) for conduit in skin.mast.conduits or () for run in conduit.runs)


def _run(skin: Skin, conduit: Conduit, run: Run) -> Inside:
    high, low = (height_mm(skin.length_mm, h) for h in (run.from_masthead_mm, run.to_mm))
    wall = nearest_thickness_mm(skin.mast, (run.from_masthead_mm + run.to_mm) / 2)
    unknown = None
    if run.bearing_deg is None:
        unknown = measure_of(Run, "bearing_deg")
    elif conduit.outside_mm is None:
        unknown = measure_of(Conduit, "outside_mm")
    elif wall is None:
        unknown = measure_of(Mast, "walls")
    if unknown or run.bearing_deg is None or conduit.outside_mm is None or wall is None:
        return Inside(conduit.id, conduit.name, low, high, _NOWHERE, _NOWHERE, 0.0, unknown)
    radius = conduit.outside_mm / 2
    heights = [low, high]
    if skin.taper and low < skin.length_mm - skin.taper.from_masthead_mm < high:
        heights.insert(1, skin.length_mm - skin.taper.from_masthead_mm)
    points = np.array([(*conduit_centre(skin.ring(z), run.bearing_deg, wall, radius), z) for z in heights])
    return Inside(conduit.id, conduit.name, low, high, points[:-1], points[1:], radius)


def halyard_legs(skin: Skin, halyard: Halyard, placed: Mapping[str, Placed]) -> tuple[Inside, ...]:
    """Return a halyard's way inside the mast, straight from each sheave to its exit.

    Where nobody has looked the leg is there, from height to height, but it lies nowhere.
    """
    if halyard.inside == "outside":
        return ()
    ends = [_end_inside(skin, point, placed) for point in inner_points(halyard)]
    known = [end for end in ends if end is not None]
    if len(known) < 2:
        return ()
    points = np.array(known)
    low, high = float(points[:, 2].min()), float(points[:, 2].max())
    if halyard.inside is None:
        unknown = measure_of(Halyard, "inside")
        return (Inside(halyard.id, halyard.name, low, high, _NOWHERE, _NOWHERE, 0.0, unknown),)
    return (Inside(halyard.id, halyard.name, low, high, points[:-1], points[1:], halyard.rope_mm / 2),)


def inner_points(halyard: Halyard) -> list[LinePoint]:
    """Return the points a halyard passes on its way inside."""
    return [point for point in halyard.points if point.at in THROUGH_WALL]


def _end_inside(skin: Skin, point: LinePoint, placed: Mapping[str, Placed]) -> Array | None:
    """Return where (3,) a line begins or ends inside: under a sheave it hangs from the inner rim.

    Between the sheaves of a box where nobody wrote down over which it runs.
    """
    rims = rims_of(point, placed)
    if not len(rims):
        return line_point(skin, point, placed)
    own = point.sheave
    return np.asarray(rims[own - 1] if own is not None and own <= len(rims) else rims.mean(axis=0))


def rims_of(point: LinePoint, placed: Mapping[str, Placed]) -> Array:
    """Return the inner rims (k, 3) of the sheaves a line may run over at a point, counted from port."""
    host = placed.get(point.fitting) if point.fitting is not None and point.at == "sheave" else None
    rows = [i for i, part in enumerate(host.body.parts) if part == "sheave"] if host else []
    if host is None or not rows:
        return _NOWHERE
    rims = host.solids.centre[rows] - host.solids.radius[rows].max() * host.seats.axes[0, 2]
    return np.asarray(rims[np.argsort(-rims[:, 1], kind="stable")])


def line_point(skin: Skin, point: LinePoint, placed: Mapping[str, Placed]) -> Array | None:
    """Return where (3,) a line passes a fitting or a place of its own; None where nobody knows."""
    if point.fitting is not None:
        host = placed.get(point.fitting)
        return host.seats.origin[0] if host else None
    if point.from_masthead_mm is None:
        return None
    z = height_mm(skin.length_mm, point.from_masthead_mm)
    if point.girth is not None:
        return np.asarray(skin.at(np.array([z]), np.array([skin.girth_of(point.girth, z)]))[0][0])
    return np.array([point.ahead_mm or 0.0, point.port_mm or 0.0, z])
