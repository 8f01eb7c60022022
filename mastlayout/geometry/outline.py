"""Outlines of sections: half a convex outline, from the middle of the aft face round starboard to ahead."""

from typing import assert_never

import numpy as np

from mastlayout.errors import NotKnownError
from mastlayout.geometry.frames import Array
from mastlayout.model.mast import DShape, Ellipse, FreeOutline, RoundedBox, Section
from mastlayout.words import _

# An arc of this many chords to the half turn is within 0.0003 mm of its length on a 200 mm mast.
_CHORDS = 720
MOST_UNSYMMETRIC_MM = 0.5
# A turn of more than this at one point is a corner and no part of a traced curve.
_CORNER_COS = np.cos(np.radians(20.0))
_CUT_MM = 0.001


def half_outline(section: Section) -> Array:
    """Return (n, 2) points x, |y| of the convex outline from aft to ahead, the section's centre at 0, 0.

    Raises NotKnownError for an outline that cannot be a section.
    """
    match section:
        case Ellipse():
            return _arc(section.length_mm / 2, section.width_mm / 2, np.pi, 0.0)
        case RoundedBox():
            return _rounded_box(section)
        case DShape():
            return _d_shape(section)
        case FreeOutline():
            return _free(section)
    assert_never(section)


def _arc(half_length: float, half_width: float, start: float, stop: float) -> Array:
    chords = max(2, round(_CHORDS * abs(stop - start) / np.pi))
    angle = np.linspace(start, stop, chords + 1)
    return np.stack([half_length * np.cos(angle), np.abs(half_width * np.sin(angle))], axis=1)


def _rounded_box(box: RoundedBox) -> Array:
    radius = min(box.corner_radius_mm, box.length_mm / 2, box.width_mm / 2)
    x, y = box.length_mm / 2 - radius, box.width_mm / 2 - radius
    aft = _arc(radius, radius, np.pi, np.pi / 2) + (-x, y)
    fore = _arc(radius, radius, np.pi / 2, 0.0) + (x, y)
    return _cleaned(np.concatenate([[(-box.length_mm / 2, 0.0)], aft, fore, [(box.length_mm / 2, 0.0)]]))


def _d_shape(d: DShape) -> Array:
    nose = d.length_mm - d.side_mm
    radius = min(d.corner_radius_mm, d.side_mm, d.width_mm / 2)
    if nose < 0:
        raise NotKnownError(_("the straight sides of the section are longer than the section"))
    aft_x, widest_x = -d.length_mm / 2, d.length_mm / 2 - nose
    corner = _arc(radius, radius, np.pi, np.pi / 2) + (aft_x + radius, d.width_mm / 2 - radius)
    front = _arc(nose, d.width_mm / 2, np.pi / 2, 0.0) + (widest_x, 0.0)
    return _cleaned(np.concatenate([[(aft_x, 0.0)], corner, front]))


def _free(outline: FreeOutline) -> Array:
    points = np.asarray(outline.points, dtype=float)
    points = points - (points.max(axis=0) + points.min(axis=0)) / 2
    hull = _hull(np.concatenate([points, points * (1.0, -1.0)]))
    away = _unsymmetric_mm(points)
    if away > MOST_UNSYMMETRIC_MM:
        raise NotKnownError(
            _("the outline is not symmetric: its sides differ by {away:.1f} mm, {most} mm is allowed").format(
                away=away, most=MOST_UNSYMMETRIC_MM
            )
        )
    half = hull[hull[:, 1] >= 0]
    half = half[np.argsort(-np.arctan2(half[:, 1], half[:, 0]), kind="stable")]
    ends = np.array([[hull[:, 0].min(), 0.0], [hull[:, 0].max(), 0.0]])
    return _cleaned(np.concatenate([ends[:1], half, ends[1:]]))


def _unsymmetric_mm(points: Array) -> float:
    """Return how far the mirrored outline lies from the outline, the worst of its points to its chords."""
    import shapely  # noqa: PLC0415 - only a free outline needs it, and it costs 20 ms

    ring = shapely.LinearRing(points)
    return float(shapely.distance(ring, shapely.points(points * (1.0, -1.0))).max())


def _hull(points: Array) -> Array:
    import shapely  # noqa: PLC0415 - as above

    hull = shapely.convex_hull(shapely.multipoints(points))
    if not isinstance(hull, shapely.Polygon):
        raise NotKnownError(_("the points of the outline lie on one line"))
    return np.asarray(shapely.get_coordinates(hull)[:-1])


def _cleaned(points: Array) -> Array:
    """Leave out points that repeat the one before, and cut sharp corners."""
    kept = np.concatenate([[True], np.hypot(*np.diff(points, axis=0).T) > 1e-9])
    return _cut(points[kept])


def _cut(points: Array) -> Array:
    """Cut each sharp corner by a thousandth of a millimetre, so that a flat keeps its own normal up to it."""
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    unit = step / length[:, None]
    sharp = np.flatnonzero((unit[:-1] * unit[1:]).sum(axis=1) < _CORNER_COS) + 1
    before, after = (np.minimum(_CUT_MM, length[sharp - side] / 3)[:, None] for side in (1, 0))
    cut = points.copy()
    cut[sharp] -= before * unit[sharp - 1]
    return np.insert(cut, sharp + 1, points[sharp] + after * unit[sharp], axis=0)


def hollows(section: Section) -> Array:
    """Return (k, 2) spans of girth from aft, one side, where a tape bridges a hollow of a free outline.

    A span is where the traced outline lies more than 0.1 mm inside the tape; other shapes have none.
    """
    if not isinstance(section, FreeOutline):
        return np.empty((0, 2))
    import shapely  # noqa: PLC0415 - as above

    half = half_outline(section)
    points = np.asarray(section.points, dtype=float)
    points = points - (points.max(axis=0) + points.min(axis=0)) / 2
    ring = shapely.LinearRing(points)
    ends = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(half, axis=0).T))])
    middles = (half[:-1] + half[1:]) / 2
    away = np.minimum(
        shapely.distance(ring, shapely.points(middles)),
        shapely.distance(ring, shapely.points(middles * (1.0, -1.0))),
    )
    return np.stack([ends[:-1], ends[1:]], axis=1)[away > 0.1]
