"""How high and low solids reach, against heights by hand and against their own support."""

import numpy as np

from mastlayout.geometry.solids import solids_of
from mastlayout.model.kind import Ball, Can, Tube
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import load

UP = np.array([0.0, 0.0, 1.0])


def test_by_hand():
    """A ball, a lying can, one leaning at 3-4-5, and a tube of a whip: heights from their sizes."""
    shapes = (
        Ball(shape="ball", centre=(0.0, 0.0, 10.0), radius_mm=4.0),
        Can(shape="can", start=(-50.0, 0.0, 0.0), end=(50.0, 0.0, 0.0), radius_mm=20.0),
        Can(shape="can", start=(0.0, 0.0, 0.0), end=(30.0, 0.0, 40.0), radius_mm=10.0),
        Tube(shape="tube", start=(0.0, 0.0, 5.0), end=(0.0, 0.0, 905.0), radius_mm=3.0),
    )
    low, high = solids_of(shapes).span_z()
    np.testing.assert_allclose(low, [6.0, -20.0, -6.0, 2.0])
    np.testing.assert_allclose(high, [14.0, 20.0, 46.0, 908.0])


def test_every_kind_of_an_example_turned_about():
    """As far as the support straight up and down, whichever way a fitting's axes stand."""
    axes = np.linalg.qr(np.random.default_rng(7).normal(size=(40, 3, 3)))[0]
    for kind in load(demo_masts() / "whimbrel.toml").kinds:
        for frame in axes[:6]:
            turned = solids_of(kind.solids).moved(np.zeros((1, 3)), frame[None])
            low, high = turned.span_z()
            np.testing.assert_allclose(low, -turned.support(-UP), atol=1e-9)
            np.testing.assert_allclose(high, turned.support(UP), atol=1e-9)
