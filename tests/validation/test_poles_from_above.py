"""What is drawn of a pole at a height holds what sampled poles are there, and no more, by shapely; words."""

import numpy as np
import pytest
import shapely
from builders import a_mast
from scipy.spatial import cKDTree

from mastlayout.geometry.pole.drawn import pole_at
from mastlayout.geometry.pole.poles import Swings, place_pole
from mastlayout.geometry.skin import skin_of
from mastlayout.model.sails import Pole

LENGTH, RADIUS = 4000.0, 40.0
LOW, HIGH = 2000.0, 3000.0
POLE = Pole(
    id="pole", name="Pole", length_mm=LENGTH, diameter_mm=2 * RADIUS, ring_from_mm=17000.0 - HIGH,
    ring_to_mm=17000.0 - LOW, ring_ahead_mm=50.0, stowed_on="track", stowed_ahead_mm=550.0,
)  # fmt: skip


def placed(**fields):
    """The pole on a plain mast."""
    return place_pole(skin_of(a_mast()), POLE.but(**fields), Swings(20.0, 90.0))


def axes_at(pole, z_mm):
    """Where (n, 2) the middle lines of sampled poles pass a height; on a level pole anywhere along it."""
    bearing, tilt, along = (
        axis.ravel()
        for axis in np.meshgrid(
            np.linspace(-pole.squared, pole.squared, 41),
            np.linspace(*pole.tilt, 21),
            np.linspace(0.0, LENGTH, 41),
            indexing="ij",
        )
    )
    hinge = z_mm - along * np.sin(tilt)
    there = (hinge >= LOW) & (hinge <= HIGH)
    out = along * np.cos(tilt)
    return np.column_stack([150.0 + out * np.cos(bearing), out * np.sin(bearing)])[there]


@pytest.mark.parametrize("z_mm", [1300.0, 1990.0, 2500.0, 3020.0, 3600.0, 4200.0])
@pytest.mark.parametrize("squared", [60.0, 110.0])
def test_the_swept_ground_holds_every_sampled_pole(z_mm, squared):
    """And reaches no farther than their thickness and the steps between them."""
    pole = placed(squared_deg=squared)
    edge, axes = pole_at(pole, z_mm).swept, axes_at(pole, z_mm)
    region = shapely.Polygon(edge).buffer(0)
    assert shapely.distance(region, shapely.points(axes)).max() < 1.5  # chords of 3 degrees
    # Half its thickness, drawn out by the steepest tilt, and half a step of the samples along and round.
    off, _nearest = cKDTree(axes).query(edge)
    assert off.max() < RADIUS / np.sin(np.radians(20)) + LENGTH / 40 + LENGTH * np.radians(squared / 60)


@pytest.mark.parametrize(("z_mm", "there"), [(589.0, False), (595.0, True), (4405.0, True), (4411.0, False)])
def test_above_and_below_its_tilt_a_pole_is_not_drawn(z_mm, there):
    """By hand: 4000 sin 20 = 1368 and half its thickness beyond its run; it is stowed from 3000 to -968."""
    found = pole_at(placed(stowed_on=None), z_mm)
    assert (found is not None) is there


def test_the_stowed_tube_by_hand():
    """It leans 500 in 4000: half way down it is 250 farther ahead, drawn out by the lean's cosine."""
    upper, lower = placed().stowed
    lying = pole_at(placed(), (upper[2] + lower[2]) / 2).lying
    assert lying.mean(axis=0) == pytest.approx((150.0 + 250.0, 0.0), abs=0.01)
    assert np.ptp(lying[:, 1]) == pytest.approx(2 * RADIUS, rel=1e-6)
    assert np.ptp(lying[:, 0]) == pytest.approx(2 * RADIUS / np.sqrt(1 - (500 / 4000) ** 2), rel=1e-6)


def test_a_pole_of_unknown_thickness_is_not_drawn():
    """Where it goes nobody can say to a hand."""
    assert pole_at(placed(diameter_mm=None), 2500.0) is None
