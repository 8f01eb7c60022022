"""Outlines of solids seen along an axis: against hulls of their corners and rims, made by shapely."""

import numpy as np
import pytest
from shapely import MultiPoint

from mastlayout.geometry.silhouette import FROM_ABOVE, FROM_AHEAD, FROM_PORT, FROM_STARBOARD, silhouettes
from mastlayout.geometry.solids import solids_of
from mastlayout.model.kind import Ball, Box, Can, Tube

VIEWS = {"starboard": FROM_STARBOARD, "port": FROM_PORT, "ahead": FROM_AHEAD, "above": FROM_ABOVE}


def seated(solid, seed=3):
    """The solid, turned anyhow and put somewhere."""
    rng = np.random.default_rng(seed)
    axes, _upper = np.linalg.qr(rng.normal(size=(3, 3)))
    origin = rng.uniform(-500, 500, 3)
    return solids_of([solid]).moved(origin[None], axes[None]), origin, axes


def rim(centre, axis, radius):
    """A thousand points of a circle in space."""
    side = np.cross(axis, np.eye(3)[int(np.abs(axis).argmin())])
    side /= np.linalg.norm(side)
    angle = np.linspace(0, 2 * np.pi, 1000)[:, None]
    return centre + radius * (np.cos(angle) * side + np.sin(angle) * np.cross(axis, side))


def seen(points, view):
    """The hull of points (n, 3) in a view."""
    return MultiPoint(points @ VIEWS[view].T).convex_hull


@pytest.mark.parametrize("view", VIEWS)
def test_a_box_is_the_hull_of_its_corners(view):
    """To a thousandth of a millimetre, however it is turned."""
    box, origin, axes = seated(Box(shape="box", centre=(10.0, 20.0, 30.0), size=(80.0, 50.0, 20.0)))
    corners = np.array([(x, y, z) for x in (-40, 40) for y in (-25, 25) for z in (-10, 10)]) + (10, 20, 30)
    outline = MultiPoint(silhouettes(box, VIEWS[view])[0]).convex_hull
    assert outline.hausdorff_distance(seen(origin + corners @ axes, view)) < 1e-3


@pytest.mark.parametrize("view", VIEWS)
def test_a_can_is_the_hull_of_its_rims(view):
    """As far as they reach in each sixty-fourth of a turn, and nowhere farther."""
    can, origin, axes = seated(
        Can(shape="can", start=(0.0, 0.0, 0.0), end=(0.0, 30.0, 90.0), radius_mm=40.0, end_radius_mm=15.0)
    )
    ends = origin + np.array([(0.0, 0.0, 0.0), (0.0, 30.0, 90.0)]) @ axes
    along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    rims = np.concatenate([rim(ends[0], along, 40.0), rim(ends[1], along, 15.0)])
    points, angle = silhouettes(can, VIEWS[view])[0], np.arange(64) * np.pi / 32
    ways = np.stack([np.cos(angle), np.sin(angle)])
    reach = (rims @ VIEWS[view].T @ ways).max(axis=0)
    assert (points @ ways).max(axis=0) == pytest.approx(reach, abs=1e-3)
    assert seen(rims, view).buffer(0.001).contains(MultiPoint(points))


@pytest.mark.parametrize("view", VIEWS)
def test_what_is_round_is_as_wide_as_it_is(view):
    """A ball and a tube: each point of the outline as far from the middle line as the radius."""
    shapes = [
        Ball(shape="ball", centre=(5.0, 6.0, 7.0), radius_mm=25.0),
        Tube(shape="tube", start=(0.0, 0.0, 0.0), end=(60.0, 0.0, 20.0), radius_mm=8.0),
    ]
    lines = [np.array([(5.0, 6.0, 7.0)] * 2), np.array([(0.0, 0.0, 0.0), (60.0, 0.0, 20.0)])]
    for shape, line in zip(shapes, lines, strict=True):
        solid, origin, axes = seated(shape)
        middle = seen(origin + line @ axes, view)
        for point in silhouettes(solid, VIEWS[view])[0]:
            assert MultiPoint([point]).distance(middle) == pytest.approx(shape.radius_mm)


def test_a_can_seen_end_on_is_its_disc():
    """Its axis towards the watcher: neither thinner nor off its middle."""
    can = solids_of([Can(shape="can", start=(1.0, 0.0, 2.0), end=(1.0, -70.0, 2.0), radius_mm=12.0)])
    points = silhouettes(can, FROM_STARBOARD)[0]
    assert np.hypot(*(points - (1.0, 2.0)).T) == pytest.approx(12.0)
